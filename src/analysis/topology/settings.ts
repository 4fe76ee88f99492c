/** Settings that hands can give the valves, enumerated. */
import type { Boat, Id } from '../../model/boat';
import { ganged, handPositions } from './line-ups';
import { isValve, type Positions } from './network';

/** More than this many settings are not looked through. */
const MOST = 4096;

/** What hands can set, worked out once for a boat. */
interface Handles {
    /** With every selector and changeover in its first position. */
    readonly rest: Positions;
    /** Selectors and changeovers that turn together, and the positions that they can be given. */
    readonly gangs: readonly { readonly ids: readonly Id[]; readonly positions: readonly string[] }[];
}

const known = { 'shutoffs shut': new WeakMap<Boat, Handles>(), 'shutoffs open': new WeakMap<Boat, Handles>() };

function handlesOf(boat: Boat, shutoffs: keyof typeof known): Handles {
    const rest = new Map<Id, string>();
    const gangs: { ids: readonly Id[]; positions: readonly string[] }[] = [];
    for (const part of boat.parts.filter(isValve)) {
        const positions = handPositions(part);
        if (part.kind === 'shutoff') rest.set(part.id, !part.lockedOpen && shutoffs === 'shutoffs shut' ? 'shut' : 'open');
        else if (positions.length > 0) {
            const ids = ganged(boat, part.id);
            if (ids[0] === part.id) gangs.push({ ids, positions });
        }
    }
    for (const { ids, positions } of gangs) for (const id of ids) rest.set(id, positions[0]!);
    return { rest, gangs };
}

/**
 * Every combination of selector and changeover positions, with the shutoffs shut or open as asked, electric ones too since
 * power may fail; what is locked open stays open. Ganged valves move together. With `among`, only those selectors and
 * changeovers are turned, and what turns with them; the others keep their first position.
 */
export function* handSettings(boat: Boat, shutoffs: 'shutoffs shut' | 'shutoffs open', among?: ReadonlySet<Id>): Generator<Positions> {
    const handles = known[shutoffs].get(boat) ?? handlesOf(boat, shutoffs);
    known[shutoffs].set(boat, handles);
    // Where nothing is turned it is the same setting for everyone who asks, and so the same network.
    yield handles.rest;
    const turned = handles.gangs.filter(({ ids, positions }) => positions.length > 1 && (among === undefined || ids.some((id) => among.has(id))));
    const count = Math.min(MOST, turned.reduce((product, { positions }) => product * positions.length, 1));
    for (let n = 1; n < count; n++) {
        const setting = new Map(handles.rest);
        let rest = n;
        for (const { ids, positions } of turned) {
            for (const id of ids) setting.set(id, positions[rest % positions.length]!);
            rest = Math.floor(rest / positions.length);
        }
        yield setting;
    }
}
