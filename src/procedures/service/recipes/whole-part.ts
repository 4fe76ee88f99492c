/** A part taken off at its unions, and a new one put in its place. */
import type { Part } from '../../../model/boat';
import { openingsOf } from '../../../analysis/opening/openings';
import type { Remark } from '../remarks';
import { planned } from '../step-of';
import type { Visit } from '../visit';
import { blank, needed } from './pieces';
import type { Work } from './recipe';
import type { Blank } from '../plan';

/** s. */
const TAKES = 1800;

export function renewWhole(visit: Visit, part: Part, { tools = [], spares = [], remarks = [] }: { readonly tools?: readonly string[]; readonly spares?: readonly string[]; readonly remarks?: readonly Remark[] } = {}): Work | Blank {
    const { id } = part;
    // Where its ends are not named it has two, as a hose or a pump in a line.
    const count = part.ports.length || 2;
    const onCam = part.kind === 'lift pump';
    const gasket = onCam && !part.seals.includes('gasket') ? ['gasket'] : [];
    const opening = openingsOf(visit.boat).get(id)?.find(({ name }) => name === 'joint');
    if (!opening) return blank(`Nothing is written of how ${part.name} is taken off.`);
    return {
        opens: [{ part: id, opening: 'joint' }], seconds: TAKES, tools: ['spanners for its unions and fastenings (sizes not stated)', `${count} clean ${count === 1 ? 'plug' : 'plugs'} for open ends`, 'marker', ...tools],
        parts: [...needed(id, [''], undefined), ...needed(id, [...part.seals, ...gasket, ...spares])],
        steps: [
            planned('renew', { do: 'remove', part: id, pieces: [] }, { say: 'mark ends', with: { part: id } }, onCam ? { say: 'off the cam', with: { pump: id } } : undefined, { say: 'plug ends', with: { part: id, count } }),
            planned('renew', { do: 'fit', part: id, pieces: [] }, { say: 'plugs out', with: { part: id, count } }, onCam ? { say: 'onto the cam', with: { pump: id } } : undefined, ...remarks),
        ],
    };
}
