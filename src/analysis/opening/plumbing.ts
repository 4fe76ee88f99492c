/** How liquid can run while hands have a part open: what runs at rest (at-rest.ts), with the valves set, checks tight or worn. */
import type { Id } from '../../model/boat';
import { atRest, shutIn, type Checks } from '../topology/at-rest';
import { levelTanks } from '../tanks/level';
import type { LinedUp, Network, Positions, Way } from '../topology/network';

export interface Plumbing {
    readonly positions: Positions;
    readonly linedUp: LinedUp;
    /** The place of each point in an order that no order of declaration changes. */
    readonly rank: Int32Array;
    /** Whether check valves, and those in pumps, hold what would come back through them. A worn one does not. */
    readonly checks: Checks;
    /** What stopped consumers let through from their return to their supply, where they do not say so themselves. */
    readonly backflow: 'passes' | 'blocks';
}

export function plumbing(network: Network, positions: Positions, checks: Checks = 'tight', backflow: Plumbing['backflow'] = 'passes'): Plumbing {
    const answers = known.get(network) ?? new WeakMap<Positions, Map<string, Plumbing>>();
    known.set(network, answers);
    const ofPositions = answers.get(positions) ?? new Map<string, Plumbing>();
    answers.set(positions, ofPositions);
    const key = `${checks} ${backflow}`;
    const found = ofPositions.get(key) ?? { positions, linedUp: linedUp(network, positions, checks, backflow), rank: atRest(network, checks).rank, checks, backflow };
    ofPositions.set(key, found);
    return found;
}

const known = new WeakMap<Network, WeakMap<Positions, Map<string, Plumbing>>>();

function linedUp(network: Network, positions: Positions, checks: Checks, backflow: Plumbing['backflow']): LinedUp {
    const { from, by } = atRest(network, checks);
    const shut = shutIn(network, positions);
    const blocks = (passage: number, to: number): boolean => {
        const { kind, part, from: inlet } = network.passages[passage]!;
        return backflow === 'blocks' && kind === 'consumer' && to === inlet && network.consumers.get(part!)!.backflow === undefined;
    };
    const back = from.map((points, at): Way[] => [...points].map((to, i) => ({ to, passage: by[at]![i]! })).filter(({ passage }) => shut[passage] === 0 && !blocks(passage, at)));
    const ways: Way[][] = back.map(() => []);
    back.forEach((list, at) => { for (const { to, passage } of list) ways[to]!.push({ to: at, passage }); });
    return { network, ways, back };
}

/** The tanks that empty with this one, by a line that is open between them; itself first. */
export function emptiesWith({ linedUp: { network }, positions }: Plumbing, tank: Id): readonly Id[] {
    const group = levelTanks(network, positions).find((joined) => joined.includes(tank)) ?? [tank];
    return [tank, ...group.filter((other) => other !== tank)];
}
