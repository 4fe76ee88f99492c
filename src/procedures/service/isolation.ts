/** Whether liquid of a tank could come to what stands open: along supplies at any level and lean, back through returns upright. */
import type { Id } from '../../model/boat';
import { fullest, type Condition } from '../../analysis/opening/condition';
import { eachOnce, type Lack } from '../../analysis/opening/lack';
import type { Opening } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { returnsOnly, supplyOnly } from '../../analysis/opening/side';
import { thresholds, type Thresholds } from '../../analysis/opening/thresholds';
import { weigh } from '../../analysis/opening/worst';
import { networkOf, type Positions } from '../../analysis/topology/network';
import type { Ground } from './ground';

export interface Comes {
    /** Tanks of which it is certain. */
    readonly tanks: readonly Id[];
    /** What would have to be known to say that no other comes. */
    readonly lacks: readonly Lack[];
}

const NOTHING: Comes = { tanks: [], lacks: [] };
export const comes = ({ tanks, lacks }: Comes): boolean => tanks.length > 0 || lacks.length > 0;
const both = (one: Comes, other: Comes): Comes => ({ tanks: [...new Set([...one.tanks, ...other.tanks])], lacks: eachOnce([...one.lacks, ...other.lacks]) });
const keyOf = ({ part, name }: Opening): string => `${part} ${name}`;

/** With the valves so. In a supply no check is relied on; in a return a tight one is, and what a consumer blocks. */
export function comesTo(ground: Ground, positions: Positions, opening: Opening, today?: Condition): Comes {
    const found = both(alongSupplies(ground, positions, opening), throughReturns(ground, positions, opening, 'upright'));
    return today && (today.attitude.heel !== 0 || today.attitude.trim !== 0) ? both(found, throughReturns(ground, positions, opening, today)) : found;
}

function alongSupplies(ground: Ground, positions: Positions, opening: Opening): Comes {
    return ground.keep(`supplies ${keyOf(opening)} ${ground.pumping.key(positions)}`, () => {
        const side = networkOf(supplyOnly(ground.boat));
        return side.tanks.size === 0 ? NOTHING : weigh([plumbing(side, ground.same(positions), 'leaky', 'blocks')], [opening], fullest(ground.boat));
    });
}

function throughReturns(ground: Ground, positions: Positions, opening: Opening, when: 'upright' | 'leaning' | Condition): Comes {
    const conditions = when === 'upright' ? fullest(ground.boat).slice(0, 1) : when === 'leaning' ? fullest(ground.boat) : [leaning(ground, when)];
    const find = (): Comes => {
        const { tanks, lacks } = weigh([plumbing(networkOf(returnsOnly(ground.boat)), ground.same(positions), 'tight', 'passes')], [opening], conditions);
        return { tanks, lacks: when === 'leaning' ? lacks : lacks.filter(({ of }) => of !== 'envelope') };
    };
    return typeof when === 'string' ? ground.keep(`returns ${when} ${keyOf(opening)} ${ground.pumping.key(positions)}`, find) : find();
}

/** How she lies today; a tank of which nobody says what it holds is as full as it is used. */
const leaning = ({ boat }: Ground, { attitude, volumes }: Condition): Condition => ({ attitude, volumes: new Map([...fullest(boat)[0]!.volumes, ...volumes]) });

/** Whether it could, if the valves that are shut failed, or by a return when she leans. */
export function couldCome(ground: Ground, positions: Positions, opening: Opening): boolean {
    const open = allOpen(ground, positions);
    return comes(alongSupplies(ground, open, opening)) || comes(throughReturns(ground, open, opening, 'leaning'));
}

/** Every shutoff open; a selector that nothing places stands everywhere. */
function allOpen(ground: Ground, positions: Positions): Positions {
    return ground.same(new Map([...positions].flatMap(([id]) => (ground.network.parts.get(id)?.kind === 'shutoff' ? [[id, 'open'] as const] : []))));
}

/**
 * What keeps liquid of tanks from an opening as the valves stand: if any of these were turned back it would come. Of valves of which one is
 * enough, the one that was `set` for the work stays. Undefined where it comes although all stand so.
 */
export function heldBy(ground: Ground, positions: Positions, opening: Opening, set: ReadonlySet<Id>, by: typeof comesTo = comesTo): readonly Id[] | undefined {
    const flows = (at: Positions): boolean => comes(by(ground, ground.same(at), opening));
    if (flows(positions)) return undefined;
    const back = (at: Positions, id: Id): Positions => new Map([...at].flatMap(([other, position]) => (other !== id ? [[other, position] as const] : position === 'shut' ? [[id, 'open'] as const] : [])));
    const holding = [...positions].filter(([, position]) => position !== 'open').map(([id]) => id);
    let at = positions;
    return [...holding.filter((id) => !set.has(id)), ...holding.filter((id) => set.has(id))].filter((id) => {
        const turnedBack = back(at, id);
        if (flows(turnedBack)) return true;
        at = turnedBack;
        return false;
    });
}

/** Which of these shutoffs, shut once more, would stop what comes along a supply; none where even all of them would not. */
export function stoppedBy(ground: Ground, positions: Positions, opening: Opening, valves: readonly Id[]): readonly Id[] {
    const shut = new Map([...positions, ...valves.map((id) => [id, 'shut'] as const)]);
    return (heldBy(ground, shut, opening, new Set(valves), alongSupplies) ?? []).filter((id) => valves.includes(id));
}

/** From which leans a return still floods it, at the highest level. */
export function byReturns(ground: Ground, positions: Positions, opening: Opening): readonly Thresholds[] {
    if (!comes(throughReturns(ground, positions, opening, 'leaning'))) return [];
    return thresholds(plumbing(networkOf(returnsOnly(ground.boat)), ground.same(positions), 'tight', 'passes'), opening, fullest(ground.boat)[0]!);
}
