/** Some of a boat, as she is drawn for a page that is about no more of her. */
import type { Boat, Id } from '../../model/boat';

/**
 * The boat with these of her things alone (tanks, consumers, parts, courses), told by their tags: titles and figures stand elsewhere, and what a
 * drawing does not show cannot become untrue on it.
 */
export function partOf(boat: Boat, ids: Iterable<Id>): Boat {
    const kept = new Set(ids);
    const ofThese = <T extends { readonly id: Id }>(things: readonly T[]): T[] => things.filter(({ id }) => kept.has(id));
    const points = <T extends { readonly vents: Boat['parts'][number]['vents'] }>(thing: T): T => ({ ...thing, vents: thing.vents.map(({ title: _, ...vent }) => vent) });
    return {
        ...boat,
        tanks: ofThese(boat.tanks).map(({ title: _, fittings, ...tank }) => ({ ...tank, fittings: fittings.map(({ mouth: __, ...fitting }) => fitting) })),
        consumers: ofThese(boat.consumers).map(({ title: _, ...consumer }) => points(consumer)),
        parts: ofThese(boat.parts).map(({ title: _, bore: __, cracks: ___, passes: ____, crest: _____, ...part }) => points(part)),
        courses: ofThese(boat.courses).map(({ title: _, ...course }) => course),
        joints: boat.joints.filter(({ course }) => kept.has(course)),
    };
}
