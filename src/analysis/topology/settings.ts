/** Settings that hands can give the valves, enumerated. */
import type { Boat, Id } from '../../model/boat';
import { ganged, handPositions } from './line-ups';
import { isValve, type Positions } from './network';

/** More than this many settings are not looked through. */
const MOST = 4096;

/**
 * Every combination of selector and changeover positions, with the shutoffs shut or open as asked, electric ones too since
 * power may fail; what is locked open stays open. Ganged valves move together. With `among`, only those selectors and
 * changeovers are turned, and what turns with them; the others keep their first position.
 */
export function* handSettings(boat: Boat, shutoffs: 'shutoffs shut' | 'shutoffs open', among?: ReadonlySet<Id>): Generator<Positions> {
    const base = new Map<Id, string>();
    const turned: { id: Id; positions: readonly string[] }[] = [];
    for (const part of boat.parts.filter(isValve)) {
        const positions = handPositions(part);
        if (part.kind === 'shutoff') base.set(part.id, !part.lockedOpen && shutoffs === 'shutoffs shut' ? 'shut' : 'open');
        else if (positions.length > 0 && ganged(boat, part.id)[0] === part.id) {
            const moves = among === undefined || ganged(boat, part.id).some((id) => among.has(id));
            turned.push({ id: part.id, positions: moves ? positions : positions.slice(0, 1) });
        }
    }
    const count = Math.min(MOST, turned.reduce((product, { positions }) => product * positions.length, 1));
    for (let n = 0; n < count; n++) {
        const setting = new Map(base);
        let rest = n;
        for (const { id, positions } of turned) {
            for (const other of ganged(boat, id)) setting.set(other, positions[rest % positions.length]!);
            rest = Math.floor(rest / positions.length);
        }
        yield setting;
    }
}
