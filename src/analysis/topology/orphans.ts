/** Tanks, selectors and consumers that no line of liquid touches. A vent alone joins a tank to nothing. */
import type { Boat, Id } from '../../model/boat';

export function orphansOf(boat: Boat): ReadonlySet<Id> {
    const touched = new Set(boat.courses.filter(({ service }) => service !== 'vent').flatMap(({ from, to }) => [from.part, to.part]));
    return new Set([...boat.tanks, ...boat.parts.filter(({ kind }) => kind === 'selector'), ...boat.consumers].map(({ id }) => id).filter((id) => !touched.has(id)));
}
