/** Sounding: litres by the dip, upright and on both tacks. */
import type { Boat, Id } from '../../model/boat';
import { grossOf, span } from '../../analysis/tanks/liquid';
import { soundings } from '../../analysis/tanks/sounding';
import { UPRIGHT, type Attitude } from '../../analysis/tanks/attitude';
import { shapeGrounds, sizeMissing } from '../../analysis/missing';
import { fromSI } from '../../model/units';
import { attitudeWords, litres } from '../../model/words';
import type { Answer } from './answer';
import { round } from './open';
import type { State } from './state';

/** About twenty rows, in steps that a dipstick is marked in. */
const STEPS = [0.01, 0.02, 0.05, 0.1];
const ROWS = 25;

export function answerSounding(boat: Boat, id: Id, { attitudes }: State): Answer {
    const tank = boat.tanks.find((other) => other.id === id)!;
    const shape = span(tank, UPRIGHT);
    const height = shape && shape.high - shape.low;
    const step = height === undefined ? 0.02 : STEPS.find((size) => height / size <= ROWS) ?? 0.1;
    // Trim is small beside heel on a dipstick; who asks for it says so.
    const asked = attitudes.length === 1 ? attitudes : attitudes.map(({ heel }): Attitude => ({ heel, trim: 0 }));
    const columns = [UPRIGHT, ...asked.filter(({ heel, trim }, i) => (heel !== 0 || trim !== 0) && asked.findIndex((other) => other.heel === heel && other.trim === trim) === i)];
    const table = soundings(tank, step, columns);
    return {
        title: `Sounding table of ${id}`, defaults: ['the dip taken at the middle of the tank'],
        body: table ? [
            `Litres at each dip from the bottom, measured along the boat's own vertical. Gross ${litres(grossOf(tank)!)}.${columns.length > 1 ? ' Heeled, a dry stick says no more than that the tank holds at most the litres of the first line, and a stick wet to the top that it holds those of the last or more.' : ''}`,
            { head: ['dip', ...columns.map(attitudeWords)], rows: table.rows.map(({ dip, volumes }) => [`${Math.round(fromSI(dip, 'mm'))} mm`, ...volumes.map((volume) => `${(volume * 1e3).toFixed(1)} L`)]) },
        ] : [`The size of ${id} is not known.`],
        data: { ask: 'sounding', tank: id, rows: (table?.rows ?? []).map(({ dip, volumes }) => ({ dipMm: round(dip * 1e3), litres: columns.map((attitude, i) => ({ attitude: attitudeWords(attitude), litres: round(volumes[i]! * 1e3) })) })) },
        used: shapeGrounds(boat, id), missing: table ? [] : [sizeMissing(id)],
    };
}
