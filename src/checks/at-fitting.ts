/** What stands in a line close to the fitting of a tank. */
import type { Course, Part } from '../model/boat';
import { AT_TANK } from './rules/shut-at-tank';
import type { View } from './check';

export interface AtFitting {
    /** The part that stands there; none when what is first stands further off, or behind something else. */
    readonly part?: Part;
    /** Pipes before such a part whose length is not stated: it may be close enough. */
    readonly unmeasured: readonly Part[];
}

/** The first part of a course, counted from the tank, that `stops` takes, when only pipe of 150 mm or less and shutoffs stand between. */
export function atFitting({ network }: View, course: Course, from: 'start' | 'end', stops: (part: Part) => boolean): AtFitting {
    const parts = course.parts.flatMap((id) => network.parts.get(id) ?? []);
    if (from === 'end') parts.reverse();
    const at = parts.findIndex(stops);
    const before = parts.slice(0, at < 0 ? 0 : at);
    const pipes = before.filter(({ kind }) => kind === 'hose' || kind === 'tube');
    const known = pipes.reduce((sum, pipe) => sum + (pipe.length?.si ?? 0), 0);
    if (at < 0 || known > AT_TANK || before.some((part) => !pipes.includes(part) && part.kind !== 'shutoff')) return { unmeasured: [] };
    const unmeasured = pipes.filter(({ length }) => !length);
    return unmeasured.length > 0 ? { unmeasured } : { part: parts[at]!, unmeasured };
}

export const isFuelTank = ({ boat }: View, id: string | undefined): boolean => boat.tanks.some((tank) => tank.id === id && (tank.carries ?? 'diesel') === 'diesel');
