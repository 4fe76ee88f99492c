/** The state in the middle of a procedure in a sentence or two, for the editor. */
import type { Boat } from '../../model/boat';
import { listed } from '../../model/words';
import type { ServiceState } from '../../procedures/service/state';
import { openThings, pieceWords } from './broken';
import { nameOf } from './naming';

/** What stands open, is out, runs and is shut in a state, in a sentence or two. */
export function stateWords(boat: Boat, state: ServiceState): string {
    const shut = boat.parts.filter(({ id, kind }) => kind === 'shutoff' && state.positions.get(id) === 'shut').map(({ id }) => nameOf(boat, id));
    const turnedTo = boat.parts.filter(({ kind, positions }) => kind !== 'shutoff' && positions.length > 0).flatMap(({ id }) => { const at = state.positions.get(id); return at === undefined ? [] : [`${id} ${at}`]; });
    const out = [...state.out].flatMap(([part, names]) => [...names].map((piece) => pieceWords(boat, `${part} ${piece}`.trim())));
    const keysOut = boat.consumers.filter(({ id, kind }) => (kind === 'engine' || kind === 'generator') && !state.keyIn.has(id)).map(({ id }) => id);
    return [
        shut.length > 0 ? `Shut: ${listed(shut)}.` : 'No valve is shut.', turnedTo.length > 0 ? `Turned: ${listed(turnedTo)}.` : '',
        state.open.size > 0 ? `Open: ${openThings(boat, [...state.open])}.` : '', out.length > 0 ? `Out: ${listed(out)}.` : '',
        state.running.size > 0 ? `Running: ${listed([...state.running])}.` : '', keysOut.length > 0 ? `Key out: ${listed(keysOut)}.` : '',
    ].filter((words) => words !== '').join(' ');
}
