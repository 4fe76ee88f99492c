/**
 * Which valves cut off what is to be opened, the fewest that do it for all parts of a visit at once, and what could still come to an opening
 * with the valves so. Along supplies no check is relied on, at any level and lean of the envelope; what comes back by a return is asked upright
 * at the highest level, and a tight check counts there (PROC-ISOLATED).
 */
import type { Id } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import { fromSI } from '../../model/units';
import { listed } from '../../model/words';
import { distinct, missingOf, positionMissing } from '../../analysis/missing';
import { conditionAt, fullest, type Condition } from '../../analysis/opening/condition';
import type { Lack } from '../../analysis/opening/lack';
import { openingNamed, type Opening } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { returnsOnly, supplyOnly } from '../../analysis/opening/side';
import { thresholds } from '../../analysis/opening/thresholds';
import { weigh, type Weighed } from '../../analysis/opening/worst';
import { isolate, type Setting } from '../../analysis/topology/isolating';
import { turned } from '../../analysis/topology/line-ups';
import { networkOf, type Network, type Positions } from '../../analysis/topology/network';
import { connectedTo } from '../../analysis/topology/paths';
import type { Blank } from './plan';
import type { Opened } from './recipes/recipe';
import { keep, type Visit } from './visit';

export interface Isolated {
    readonly settings: readonly Setting[];
    /** The valves once these are set. */
    readonly positions: Positions;
    /** Consumers whose return is blocked meanwhile. */
    readonly blocks: readonly Id[];
    /** Opened parts that no tank reached to begin with; and those that no valve cuts off, but that no tank stands above either. */
    readonly already: readonly Id[];
    readonly uncut: readonly Opened[];
}

type Side = 'supply' | 'return';

const sideOf = ({ boat }: Visit, side: Side): Network => networkOf(side === 'supply' ? supplyOnly(boat) : returnsOnly(boat));

export function isolationOf(visit: Visit, opened: readonly Opened[]): Isolated | Blank {
    return keep(visit.boat, `isolation ${visit.starts.id} ${opened.map(({ part, opening }) => `${part} ${opening}`).join(', ')}`, () => findIsolation(visit, opened));
}

function findIsolation(visit: Visit, opened: readonly Opened[]): Isolated | Blank {
    const { boat, starts } = visit;
    const parts = [...new Set(opened.map(({ part }) => part))];
    const met = starts.unplaced.filter((valve) => parts.some((part) => reaches(visit, part, valve)));
    if (met.length > 0) return { blank: `Line-up ${starts.id} does not say how ${listed(met)} ${met.length > 1 ? 'stand' : 'stands'}.`, missing: met.map((valve) => positionMissing(valve, starts.id)) };
    const supply = cutting(visit, 'supply', starts.positions, parts);
    const openings = opened.flatMap(({ part, opening }) => openingNamed(boat, part, opening) ?? []);
    const back = openings.filter((opening) => comesBy(visit, 'return', supply.positions, opening).comes !== 'nothing').map(({ part }) => part);
    const returns = back.length > 0 ? cutting(visit, 'return', supply.positions, [...new Set(back)]) : undefined;
    const positions = returns?.positions ?? supply.positions;
    for (const opening of openings) for (const side of ['supply', 'return'] as const) {
        const found = comesBy(visit, side, positions, opening);
        if (found.comes !== 'nothing') return cannotOpen(visit, side, positions, opening, found);
    }
    return {
        // What is shut first cannot come when a selector is turned.
        settings: [...supply.settings, ...(returns?.settings ?? [])].sort((a, b) => Number(a.position !== 'shut') - Number(b.position !== 'shut')), positions, blocks: [...new Set([...supply.blocks, ...(returns?.blocks ?? [])])],
        already: supply.already, uncut: opened.filter(({ part }) => supply.uncut.includes(part)),
    };
}

interface Cut {
    readonly settings: readonly Setting[];
    readonly positions: Positions;
    readonly blocks: readonly Id[];
    readonly already: readonly Id[];
    readonly uncut: readonly Id[];
}

/** One set that does it for all parts, where there is one; else one after the other. */
function cutting(visit: Visit, side: Side, positions: Positions, parts: readonly Id[]): Cut {
    const network = sideOf(visit, side);
    const tanks = [...network.tanks.keys()];
    const checks = side === 'supply' ? 'leaky' : 'tight';
    const ask = (at: Positions, part: Id): ReturnType<typeof isolate> => isolate(network, at, part, tanks, { checks });
    const found = new Map(parts.map((part) => [part, ask(positions, part)] as const));
    const [already, uncut] = [parts.filter((part) => found.get(part)!.already), parts.filter((part) => !found.get(part)!.already && found.get(part)!.sets.length === 0)];
    const cut = parts.filter((part) => !uncut.includes(part));
    const whole = cut.flatMap((part) => found.get(part)!.sets).sort((a, b) => byPreference(visit, a, b))
        .find(({ settings }) => settings.every(({ part }) => !parts.includes(part)) && cut.every((part) => ask(afterSettings(visit, positions, settings), part).already));
    if (whole) return { settings: whole.settings, positions: afterSettings(visit, positions, whole.settings), blocks: whole.blocks, already, uncut };
    let at = positions;
    const settings: Setting[] = [];
    const blocks: Id[] = [];
    for (const part of cut) {
        const [best] = [...ask(at, part).sets].filter((set) => set.settings.every((setting) => !parts.includes(setting.part))).sort((a, b) => byPreference(visit, a, b));
        if (!best) continue;
        settings.push(...best.settings);
        blocks.push(...best.blocks);
        at = afterSettings(visit, at, best.settings);
    }
    return { settings, positions: at, blocks, already, uncut };
}

export const afterSettings = ({ boat }: Visit, positions: Positions, settings: readonly Setting[]): Positions => settings.reduce<Positions>((at, { part, position }) => turned(boat, at, part, position), positions);

/** Fewest, then those that block no return, then those that the line-ups for service shut. */
function byPreference({ lineUps }: Visit, a: { readonly settings: readonly Setting[]; readonly blocks: readonly Id[] }, b: { readonly settings: readonly Setting[]; readonly blocks: readonly Id[] }): number {
    const service = lineUps.filter(({ use }) => use === 'service');
    const usual = ({ settings }: { readonly settings: readonly Setting[] }): number => settings.filter(({ part, position }) => service.some(({ positions }) => positions.get(part) === position)).length;
    return a.settings.length - b.settings.length || a.blocks.length - b.blocks.length || usual(b) - usual(a);
}

/** Whether the two hang together by liquid with every valve open. */
const reaches = ({ network }: Visit, part: Id, valve: Id): boolean => [...network.consumers.keys()].some((consumer) => { const own = connectedTo(network, consumer); return own.has(part) && own.has(valve); });

interface Comes {
    readonly comes: 'nothing' | 'floods' | 'cannot tell';
    readonly tanks: readonly Id[];
    readonly lacks: readonly Lack[];
}

/** What could come to an opening by one side with the valves so. */
export function comesBy(visit: Visit, side: Side, positions: Positions, opening: Opening): Comes {
    const { boat } = visit;
    const network = sideOf(visit, side);
    const conditions = side === 'supply' ? fullest(boat) : [upright(visit)];
    const by = (backflow: 'passes' | 'blocks'): Weighed => weigh([plumbing(network, positions, side === 'supply' ? 'leaky' : 'tight', backflow)], [opening], conditions);
    const sure = by('blocks');
    if (sure.worst) return { comes: 'floods', tanks: sure.tanks, lacks: [] };
    // Upright no envelope is needed.
    const lacks = (side === 'supply' ? sure.lacks : by('passes').lacks).filter(({ of }) => side === 'supply' || of !== 'envelope');
    return { comes: lacks.length > 0 ? 'cannot tell' : 'nothing', tanks: [], lacks };
}

/** The same condition for every question, so that surfaces are worked out once. */
export const upright = ({ boat }: Visit): Condition => keep(boat, 'upright', () => conditionAt(boat));

/** Why it cannot be opened, and what would have to be so. */
function cannotOpen(visit: Visit, side: Side, positions: Positions, opening: Opening, { comes, tanks, lacks }: Comes): Blank {
    const { boat } = visit;
    const name = boat.parts.find(({ id }) => id === opening.part)?.name ?? opening.part;
    const what = `the ${opening.name} of ${name}`;
    const by = side === 'supply' ? '' : ' back by a return';
    if (comes === 'cannot tell') {
        const missing: readonly MissingFact[] = distinct(lacks.map((lack) => missingOf(boat, lack)));
        return { blank: `No valve cuts ${name} off${side === 'return' ? ' from what comes back by a return' : ''}, and whether anything can come to ${what} cannot be told: ${listed(missing.map(({ fact }) => fact))} is not known.`, missing };
    }
    const network = sideOf(visit, side);
    const found = thresholds(plumbing(network, positions, side === 'supply' ? 'leaky' : 'tight', 'blocks'), opening, upright(visit)).filter(({ tank }) => tanks.includes(tank));
    const levels = found.flatMap(({ tank, volume }) => (typeof volume === 'number' ? [`upright it comes with more than ${Math.floor(fromSI(volume, 'L'))} L in ${tank}`] : []));
    const still = levels.length > 0 ? ` (${listed(levels)})` : found.length > 0 ? ' when she leans' : '';
    return {
        blank: `No valve that hands can shut stands between ${listed(tanks)} and ${name} on the way by which it comes${by} to ${what}${still}. Fit one there, or have ${listed(tanks)} lower than ${what} at every lean, or emptied, before it is opened.`,
        missing: [],
    };
}
