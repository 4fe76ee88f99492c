/** Which things of a boat a drawing can mark, and what stands on its lines of liquid. */
import type { Boat, Id } from '../../../model/boat';
import { isValve, networkOf, type Positions } from '../../../analysis/topology/network';
import type { Mark } from '../markup';

/** Parts, tanks and their fittings, consumers, bleed points. */
export function thingsOf(boat: Boat): ReadonlySet<Id> {
    const found = known.get(boat) ?? new Set([
        ...boat.tanks.flatMap(({ id, fittings }) => [id, ...fittings.map((fitting) => fitting.id)]),
        ...[...boat.parts, ...boat.consumers].flatMap(({ id, vents }) => [id, ...vents.map((vent) => vent.id)]),
    ]);
    known.set(boat, found);
    return found;
}
const known = new WeakMap<Boat, ReadonlySet<Id>>();

/** Parts, and fittings of tanks, that stand on a supply, a return or a transfer; in the order of the text. What vents and fills hold is air. */
export function onLines(boat: Boat): readonly Id[] {
    const carrying = new Set(boat.courses.filter(({ service }) => service === 'supply' || service === 'return' || service === 'transfer').map(({ id }) => id));
    const owners = new Set(boat.joints.filter(({ course }) => carrying.has(course)).flatMap(({ from, to }) => [from, to]).map((point) => point.split(':')[0]!));
    return [...boat.tanks.flatMap(({ fittings }) => fittings.map(({ id }) => id)), ...boat.parts.map(({ id }) => id)].filter((id) => owners.has(id));
}

/** Tees at the ends of some passages: a tee is a point, and no passage is its own. */
export function teesAt(boat: Boat, passages: Iterable<number>): Id[] {
    const network = networkOf(boat);
    return [...new Set([...passages].flatMap((i) => [network.points[network.passages[i]!.from]!, network.points[network.passages[i]!.to]!]))].filter((point) => network.parts.get(point)?.kind === 'tee');
}

/** Each valve that stands otherwise than before, with its position. */
export const turnedMarks = (boat: Boat, before: Positions, after: Positions): Mark[] =>
    boat.parts.filter((part) => isValve(part) && after.get(part.id) !== undefined && after.get(part.id) !== before.get(part.id)).map(({ id }) => ({ about: id, as: 'turned', words: after.get(id)! }));
