/** How a page names things: the tag, and in brackets what helps to find it in the boat. */
import type { Boat, Consumer, Id, Part, Vent } from '../../model/boat';
import { fromSI } from '../../model/units';
import { figure, kPa, mm, roundedTo } from '../../model/words';

export const partOf = (boat: Boat, id: Id): Part | undefined => boat.parts.find((part) => part.id === id);
export const consumerOf = (boat: Boat, id: Id): Consumer | undefined => boat.consumers.find((consumer) => consumer.id === id);

/** A bleed point with what it stands on. */
export function ventOf(boat: Boat, id: Id): (Vent & { readonly owner: Id }) | undefined {
    for (const owner of [...boat.parts, ...boat.consumers]) {
        const vent = owner.vents.find((other) => other.id === id || other.tag === id);
        if (vent) return { ...vent, owner: owner.id };
    }
    return undefined;
}

/** `the hose after V1` for a part without a tag. */
export const nameOf = (boat: Boat, id: Id): string => partOf(boat, id)?.name ?? id;

/** quarter berth, for QuarterBerth. */
export const spaceWords = (space: Id): string => space.replace(/([\p{Ll}\p{N}])(\p{Lu})/gu, '$1 $2').replace(/[-_]/g, ' ').split(' ').map((word) => (/^\p{Lu}\p{Ll}/u.test(word) ? word.toLowerCase() : word)).join(' ');

/** Its title, its space and what is engraved on it: `quarter berth, label FUEL`. Empty when nothing is known. */
export function placeOf(boat: Boat, id: Id): string {
    const vent = ventOf(boat, id);
    const thing = partOf(boat, id) ?? consumerOf(boat, id) ?? boat.tanks.find((tank) => tank.id === id);
    const { title, space } = vent ? { title: vent.title, space: (partOf(boat, vent.owner) ?? consumerOf(boat, vent.owner))?.space } : { title: thing?.title, space: thing?.space };
    const label = partOf(boat, id)?.label;
    return [title ?? '', space === undefined ? '' : spaceWords(space), label === undefined ? '' : `label ${label}`].filter((words) => words !== '').join(', ');
}

/** An opening as a thing that hands open: the lid of F1, BS1 on F1. */
export function openingPhrase(boat: Boat, part: Id, opening: string): string {
    const name = nameOf(boat, part);
    switch (opening) {
        case 'lid': case 'drain': return `the ${opening} of ${name}`;
        case 'ports': return `the body of ${name} at its ports`;
        case 'joint': return `the joint of ${name}`;
        default: return `${opening} on ${name}`;
    }
}

export const spannerWords = (size: number): string => `${mm(size)} spanner`;

/** In both systems, for a can or a jug that is marked in one: 2 L (0.53 US gal), 400 mL (14 US fl oz). What is needed is rounded up, what floods down. */
export function canWords(si: number, way?: 'up' | 'down'): string {
    const [[metric, unit], [other, digits]]: [[number, string], [string, number]] = si < 1e-3 ? [[fromSI(si, 'mL'), 'mL'], ['US fl oz', 3]] : [[fromSI(si, 'L'), 'L'], ['US gal', si < 1e-2 ? 2 : 3]];
    const gallons = fromSI(si, 'USgal');
    return `${roundedTo(metric, digits, way)} ${unit} (${roundedTo(si < 1e-3 ? gallons * OUNCES : gallons, 2, way)} ${other})`;
}
/** Fluid ounces in a US gallon, by definition. */
const OUNCES = 128;

/** A band of a gauge, Pa above the surroundings: 1.4 to 4.7 kPa (0.4 to 1.4 inHg) of vacuum. */
export function bandWords({ low, high }: { readonly low: number; readonly high: number }): string {
    const [from, to] = [low, high].map(Math.abs).sort((a, b) => a - b) as [number, number];
    if (low < 0 && high > 0) return `${kPa(-low)} of vacuum to ${kPa(high)} of pressure`;
    const band = (unit: string, digits: number): string => `${figure(fromSI(from, unit), digits)} to ${figure(fromSI(to, unit), digits)} ${unit}`;
    return `${band('kPa', 2)} (${band('inHg', 2)}) of ${low < 0 || high < 0 ? 'vacuum' : 'pressure'}`;
}

export const speedWords = (revs: number): string => `${Math.round(fromSI(revs, 'rpm'))} rpm`;

export function timeWords(seconds: number): string {
    if (seconds < 120 && seconds % 60 !== 0) return `${figure(seconds)} s`;
    if (seconds < 7200) return `${figure(seconds / 60)} min`;
    return `${figure(seconds / 3600)} h`;
}

