/** The usual jobs and intervals by kind of part. None is invented for a kind that is not listed here. */
import type { Boat, Id, Interval, Part } from '../../model/boat';

export interface UsualJob {
    readonly verb: string;
    readonly part?: Id;
    readonly piece: string;
    readonly every: string;
    readonly source: string;
    readonly seals: readonly string[];
}

const COMMON = 'common practice';
type Usual = readonly (readonly [verb: string, piece: string, every: string])[];

/** Typical of the trade: primary 200 to 300 h or 12 months, final 250 to 500 h or 12 to 24 months; the maker's book rules. */
const PRIMARY: Usual = [['renew', 'element', '250 h or 12 months'], ['look', 'bowl', 'start']];
const FINAL: Usual = [['renew', 'element', '500 h or 24 months'], ['look', 'element', '250 h']];
const BY_KIND: Partial<Record<Part['kind'], Usual>> = {
    strainer: [['clean', '', '12 months']],
    shutoff: [['work', '', '6 months']], selector: [['work', '', '6 months']], changeover: [['work', '', '6 months']],
    'hand primer': [['test', '', '12 months']], 'electric primer': [['test', '', '12 months']], 'electric pump': [['test', '', '12 months']],
    'lift pump': [['look', '', '500 h']],
};
const TANK: Usual = [['look', 'vent', '12 months'], ['drain', 'water', '12 months'], ['look', 'fill cap', '12 months']];
const HOSES: Usual = [['look', 'hoses', '12 months'], ['renew', 'hoses', '10 years']];

/** The usual jobs of the parts that have no interval yet, in the order of the boat. */
export function usualJobs(boat: Boat): UsualJob[] {
    const tended = new Set(boat.intervals.map((interval) => interval.job.part));
    const found: UsualJob[] = [];
    const add = (part: Id | undefined, usual: Usual, seals: readonly string[] = []): void => {
        for (const [verb, piece, every] of usual) {
            found.push({ verb, piece, every, source: COMMON, seals: verb === 'renew' ? seals : [], ...(part !== undefined && { part }) });
        }
    };
    for (const tank of boat.tanks) if ((tank.carries ?? 'diesel') === 'diesel' && !tended.has(tank.id)) add(tank.id, TANK);
    for (const part of boat.parts) {
        if (part.tag === undefined || tended.has(part.id)) continue;
        const usual = part.kind !== 'filter' ? BY_KIND[part.kind] : part.role === 'primary' ? PRIMARY : part.role === 'final' ? FINAL : undefined;
        if (usual) add(part.id, part.separatesWater || part.role !== 'primary' ? usual : usual.filter(([, piece]) => piece !== 'bowl'), part.seals);
    }
    const named = (piece: string): boolean => boat.intervals.some((interval: Interval) => interval.job.part === undefined && interval.job.piece === piece);
    // Hoses may be kept together, or each by itself.
    const hoses = boat.parts.filter((part) => part.kind === 'hose');
    if (hoses.length > 0 && !named('hoses') && !hoses.every(({ id }) => tended.has(id))) add(undefined, HOSES);
    return found;
}
