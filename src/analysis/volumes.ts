/** What each part holds, m³. Pipes by bore and length, V = π D² L / 4; other parts as stated. */
import type { Boat, Id } from '../model/boat';

export function volumeOf(boat: Boat, id: Id): number | undefined {
    const part = boat.parts.find((other) => other.id === id);
    if (part) {
        if (part.kind === 'hose' || part.kind === 'tube') return part.bore && part.length && cylinder(part.bore.si, part.length.si);
        return part.holds?.si;
    }
    const consumer = boat.consumers.find((other) => other.id === id);
    if (consumer) return consumer.holds?.si;
    const fitting = boat.tanks.flatMap((tank) => tank.fittings).find((other) => other.id === id);
    const top = fitting?.top?.up?.si;
    const mouth = fitting?.mouth?.up?.si;
    return fitting?.bore && top !== undefined && mouth !== undefined ? cylinder(fitting.bore.si, Math.max(0, top - mouth)) : undefined;
}

const cylinder = (bore: number, length: number): number => (Math.PI * bore ** 2 * length) / 4;
