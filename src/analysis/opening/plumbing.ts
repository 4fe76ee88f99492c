/** How liquid can run while hands have a part open: everything stopped, the valves set, checks tight or worn. */
import type { Id } from '../../model/boat';
import { joinedTanks } from '../topology/paths';
import { lineUpNetwork, type LinedUp, type Network, type Positions, type Way } from '../topology/network';

export interface Plumbing {
    readonly positions: Positions;
    readonly linedUp: LinedUp;
    /** Whether check valves, and those in pumps, hold what would come back through them. A worn one does not. */
    readonly checks: 'tight' | 'leaky';
    /** What stopped consumers let through from their return to their supply, where they do not say so themselves. */
    readonly backflow: 'passes' | 'blocks';
}

export function plumbing(network: Network, positions: Positions, checks: Plumbing['checks'] = 'tight', backflow: Plumbing['backflow'] = 'passes'): Plumbing {
    const tight = lineUpNetwork(network, positions);
    const known = answers.get(tight) ?? new Map<string, Plumbing>();
    answers.set(tight, known);
    const key = `${checks} ${backflow}`;
    const found = known.get(key) ?? { positions, linedUp: loosened(tight, checks, backflow), checks, backflow };
    known.set(key, found);
    return found;
}

const answers = new WeakMap<LinedUp, Map<string, Plumbing>>();

/** With the ways added that worn checks and stopped consumers leave open. */
function loosened({ network, ways: tightWays, back: tightBack }: LinedUp, checks: Plumbing['checks'], backflow: Plumbing['backflow']): LinedUp {
    const [ways, back] = [tightWays, tightBack].map((lists) => [...lists]) as [(readonly Way[])[], (readonly Way[])[]];
    network.passages.forEach((passage, i) => {
        const { kind, from, to, part } = passage;
        const loose = kind === 'consumer' ? (network.consumers.get(part!)!.backflow ?? backflow) === 'passes'
            : checks === 'leaky' && (kind === 'one-way' || (kind === 'pump' && passage.passesAtRest));
        if (!loose) return;
        ways[to] = [...ways[to]!, { to: from, passage: i }];
        back[from] = [...back[from]!, { to, passage: i }];
    });
    return { network, ways, back };
}

/** The tanks that empty with this one, by a line that is open between them; itself first. */
export function emptiesWith({ linedUp, positions }: Plumbing, tank: Id): readonly Id[] {
    const group = joinedTanks(linedUp.network, positions).find((joined) => joined.includes(tank)) ?? [tank];
    return [tank, ...group.filter((other) => other !== tank)];
}
