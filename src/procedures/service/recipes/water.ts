/** Water and dirt let out of the bowl of a separator. */
import { planned } from '../step-of';
import { drainSeals, blank, isFor, needed, partOf } from './pieces';
import type { Recipe } from './recipe';

const TAKES = 600;

export const WATER: readonly Recipe[] = [{
    verb: 'drain', fits: isFor(['drain'], ['filter', 'strainer']),
    make: (visit, job) => {
        const part = partOf(visit, job)!;
        const { id } = part;
        if (!part.drain) return blank(`${id} has no drain that is written. What settles in it comes out when its element is renewed; if there is one, write where it is, like \`drain at 480 mm\`.`);
        return {
            opens: [{ part: id, opening: 'drain' }], seconds: TAKES, tools: ['clear jar'], parts: needed(id, drainSeals(visit, id)),
            steps: [planned('open', { do: 'look', part: id, piece: 'bowl', words: 'water, slime' }, { say: 'until clean fuel', with: { part: id } })],
        };
    },
}];
