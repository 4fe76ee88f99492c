/** The state of the boat that a drawing shows, as questions are asked in one. */
import type { Boat, Id } from '../../../model/boat';
import { lineUpsOf } from '../../../analysis/topology/line-ups';
import { listed } from '../../../model/words';
import { stateOf, type Aspect, type State } from '../../answers/state';
import type { Refused, Shown } from './markup';

/** `speed` in rev/s; `careful` as for a question. */
export function shownState({ boat, lineUp, level, heel }: Shown, careful: 'full' | 'low', speed?: number): State | Refused {
    const found = stateOf(boat, { levels: new Map(), ...(lineUp !== undefined && { lineUp }), ...(level !== undefined && { level: { share: level } }), ...(heel !== undefined && { heel }), ...(speed !== undefined && { speed }) }, careful);
    return found ?? noLineUp(boat, lineUp);
}

export function noLineUp(boat: Boat, lineUp: Id | undefined): Refused {
    const ids = lineUpsOf(boat).map(({ id }) => id);
    return { refused: lineUp === undefined ? 'This boat has no line-up to draw the valves in. Write one, like `line-up RUN run is normal { V1 open }`.' : `There is no line-up called ${lineUp}. There ${ids.length === 1 ? 'is' : 'are'} ${listed(ids)}.` };
}

/** What was taken where nothing was said, as one note; none where nothing was. */
export function takenNote(state: State, of: readonly Aspect[], others: readonly string[] = []): string[] {
    const words = [...state.taken.filter((taken) => of.includes(taken.of)).map((taken) => taken.words), ...others];
    return words.length === 0 ? [] : [`Taken because nothing else is said: ${words.join('; ')}.`];
}
