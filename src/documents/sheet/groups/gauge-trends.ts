/** What the log says of each vacuum gauge: its rise since an element was last renewed, against where that is to be renewed, and when it comes there. */
import type { Boat, Part } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { exactly, type Estimate } from '../../../analysis/estimate';
import { trendOf, type NoProjection, type Normalised, type Projection, type Trend, type TrendLack } from '../../../analysis/filtration/trend';
import { BASE } from '../../../analysis/flow/density';
import { fluidAt } from '../../../analysis/flow/fluid';
import { GRAVITY } from '../../../analysis/flow/pipe';
import type { View } from '../../../checks/check';
import { distinct, placeMissing, sizeMissing, whereMissing } from '../../../analysis/missing';
import { capital, figure, listed } from '../../../model/words';
import { toSI } from '../../../model/units';
import { carried, input, type Input, type Limit, type Working } from '../working';
import { rpm } from './curves';
import { sub } from './tanks';

/** The sheet has no clock: everything that is logged is read. */
export const gaugeTrendWorkings = ({ boat }: View): Working[] => {
    const last = boat.log.map(({ date }) => date).sort().at(-1);
    return last === undefined ? [] : boat.parts.filter(({ id, kind }) => kind === 'gauge' && boat.log.some(({ readings }) => readings.some(({ of, about }) => of === 'gauge' && about === id))).flatMap((gauge) => trendWorkings(boat, gauge, last));
};

function trendWorkings(boat: Boat, gauge: Part, today: string): Working[] {
    const { id, name } = gauge;
    const density = fluidAt(boat.vessel, 'diesel', BASE);
    const trend = trendOf(boat, { gauge: id, today, density: density.density });
    const shared = { id: `rise ${id}`, about: id, what: `What the friction before ${name} has risen by since an element was renewed`, formula: 'R = F₂ − F₁', source: 'definition' };
    if ('lacks' in trend) return [{ ...shared, inputs: [], steps: [], notes: [], missing: distinct(trend.lacks.map((lack) => missingOf(boat, gauge, lack))) }];
    const { readings, rise, renewed, limit } = trend;
    const weight: Input = { symbol: 'ρ', what: 'density of the fuel at 15 °C', value: exactly(density.density), unit: 'kg/m3', from: boat.vessel.fuel.density ? { about: 'vessel', fact: 'fuel density' } : { taken: density.taken[0] ?? 'by its grade' } };
    const frictions = readings.map((reading, i) => frictionWorking(gauge, trend, reading, weight, readings.slice(0, i).filter(({ date }) => date === reading.date).length));
    const [first, latest] = [frictions[0]!, frictions.at(-1)!];
    const most: Limit = { value: limit, unit: 'kPa', sense: 'at most', from: limit.element === undefined ? { cited: '3 to 4 inHg at cruising speed, common practice' } : { about: limit.element, fact: 'dirty', words: 'what it takes when dirty, less what it took when new' } };
    const since = `Since ${renewed.date}, when ${listed(renewed.parts)} ${renewed.parts.length > 1 ? 'were' : 'was'} renewed.`;
    const out = trend.leftOut.length > 0 ? [`Left out: ${trend.leftOut.map(({ date, from, why }) => `${date} (${WHY[why]}${from === 'line' ? '; it counts for the rise, not for the line' : ''})`).join('; ')}.`] : [];
    const one: Working = {
        ...shared, inputs: [...carried('F₁', `friction on ${readings[0]!.date}`, first), ...(readings.length > 1 ? carried('F₂', `friction on ${readings.at(-1)!.date}`, latest) : [])], steps: [], where: `at ${rpm(trend.speed)}, by the log`, limit: most,
        ...(readings.length > 1 && { result: { symbol: 'R', value: rise, unit: 'kPa' } }), missing: readings.length > 1 ? [] : [{ about: id, fact: `a second reading of ${name} since ${renewed.date}`, how: `read it some hours later at ${rpm(trend.speed)}, dip the tank the same day, and log both` }],
        notes: [since, ...(typeof trend.projection === 'string' ? [`When it comes there cannot be told. ${NONE[trend.projection]}`] : []), ...out, ...trend.taken.map((words) => `${capital(words)}.`)],
    };
    return [...frictions, one, ...(typeof trend.projection === 'string' ? [] : [dueWorking(gauge, trend, trend.projection, frictions)])];
}

const WHY: Readonly<Record<Trend['leftOut'][number]['why'], string>> = { 'no speed': 'no speed of the engine', slow: 'read at less than half of that speed', before: 'read before the element was renewed, as it seems', 'no dip': 'no dip near it', 'no hours': 'no hours' };

/** The reading as it would be at the speed of reference, with the lift taken out. */
function frictionWorking({ id, name, at }: Part, { tank, speed }: Trend, { date, suction, speed: read, friction, surface, dipped }: Normalised, weight: Input, same: number): Working {
    const logged = (words: string): Input['from'] => ({ cited: `log of ${words}` });
    return {
        id: `reading ${id}, ${date}${same > 0 ? `, reading ${same + 1}` : ''}`, about: id, what: `What the fuel takes from ${tank} to ${name}, as it would be at ${rpm(speed)}`, formula: 'F = (s − ρ × g × (z − S)) × n₀ / n', source: 'suction less lift; friction goes with the flow, and that with the speed', steps: [], missing: [],
        inputs: [
            input('s', 'suction', suction, 'kPa', logged(date)), input('n', 'at', read, 'rpm', logged(date)), input('n₀', 'speed of reference', speed, 'rpm', { cited: 'the highest at which it was read since' }), ...(at?.up ? [input('z', `${name}, above the datum`, at.up, 'mm', { about: id, fact: 'at' })] : []),
            { symbol: 'S', what: `surface of ${tank}`, value: surface, unit: 'mm', from: dipped === undefined ? { cited: 'midway between full and empty: no dip is near that day' } : { cited: `by the dip of ${dipped}` } },
            weight, input('g', 'acceleration of free fall', GRAVITY, '1', { cited: '9.80665 m/s², the standard value' }),
        ],
        result: { symbol: 'F', value: friction, unit: 'kPa' }, notes: [],
    };
}

const NONE: Readonly<Record<NoProjection, string>> = {
    few: 'Fewer than three readings with a dip, a speed and hours, on three counts of the meter: no line is drawn through them.', back: 'The hours run back: no line is drawn through the readings.',
    falling: 'The readings do not rise.', unsure: 'The readings scatter so much that no rise stands out from them.',
};

/** When it comes to the limit: a straight line through the readings. */
function dueWorking({ id, name }: Part, { readings, limit, engine }: Trend, projection: Projection, frictions: readonly Working[]): Working {
    const on = readings.flatMap((reading, i) => (reading.dipped !== undefined && reading.hours !== undefined ? [{ hours: toSI(reading.hours, 'h'), date: reading.date, working: frictions[i]!, i: sub(i + 1) }] : []));
    const inputs: Input[] = on.flatMap(({ hours, date, working, i }) => [input(`h${i}`, 'on the meter', hours, 'h', { cited: `log of ${date}` }), ...carried(`F${i}`, `friction on ${date}`, working)]);
    // The first reading counts for its friction even where its hours are not known.
    const first = on[0]!.i === sub(1) ? [] : carried(`F${sub(1)}`, `friction on ${readings[0]!.date}`, frictions[0]!);
    const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    const [x, y] = [mean(on.map(({ hours }) => hours)), mean(on.map(({ working }) => working.result!.value.si))];
    const { hours, date, slope } = projection;
    const value: Estimate = { si: toSI(hours.si, 'h'), least: toSI(hours.least, 'h'), most: toSI(hours.most ?? hours.si, 'h') };
    const day = date ? [`By the hours of the last twelve months that is about ${date.likely}${date.latest === undefined ? `, at the soonest ${date.earliest}` : ` (${date.earliest} to ${date.latest})`}.`] : [];
    return {
        id: `due ${id}`, about: id, what: `The hours on the meter of ${engine} at which the friction before ${name} comes to where the element is to be renewed`, source: 'a straight line through the readings by least squares',
        formula: `H = max(h${on.at(-1)!.i}, x + (F₁ + R − y) / m)`, inputs: [...first, ...inputs, { symbol: 'R', what: 'rise at which it is to be renewed', value: limit, unit: 'kPa', from: { step: `rise ${id}`, words: `the limit of rise ${id}, midway` } }], missing: [],
        steps: [
            { symbol: 'x', what: 'mean of the hours', formula: `x = (${on.map(({ i }) => `h${i}`).join(' + ')}) / ${on.length}`, value: x, unit: 'h' }, { symbol: 'y', what: 'mean of the frictions', formula: `y = (${on.map(({ i }) => `F${i}`).join(' + ')}) / ${on.length}`, value: y, unit: 'kPa' },
            { symbol: 'm', what: 'slope, Pa a second', formula: `m = (${on.map(({ i }) => `(h${i} − x) × (F${i} − y)`).join(' + ')}) / (${on.map(({ i }) => `(h${i} − x)²`).join(' + ')})`, value: slope / toSI(1, 'h'), unit: '1' },
        ],
        result: { symbol: 'H', value, unit: 'h' }, notes: [...(hours.most === undefined ? ['How late it may come is out of sight.'] : []), ...day, `It rises ${figure(slope)} Pa an hour.`],
    };
}

function missingOf(boat: Boat, gauge: Part, { about, of }: TrendLack): MissingFact {
    switch (of) {
        case 'height': return placeMissing(gauge, 'ports');
        case 'shape': return sizeMissing(about);
        case 'tank place': return whereMissing(about, about);
        case 'kind': return { about, fact: `what ${gauge.name} reads`, how: 'look at its face, and write `vacuum` or `pressure`' };
        case 'density': return { about: 'vessel', fact: 'how heavy the fuel is', how: 'read it on the delivery note, and write `fuel density 840 kg/m3`' };
        case 'lines': return { about, fact: `the tank, the element and the engine between which ${gauge.name} stands`, how: 'follow the line, and write it as a course' };
        case 'tanks': return { about, fact: `which of several tanks ${gauge.name} was read on`, how: 'read it in a line-up that draws from one of them' };
        case 'engines': return { about, fact: `which of several engines drew past ${gauge.name}`, how: `read it with one of them running${boat.lineUps.length > 0 ? ', in a line-up that stops the others' : ''}` };
        case 'renewal': return { about, fact: `when an element before ${gauge.name} was renewed`, how: 'write it into the log, like `renewed F1 element`' };
        case 'readings': return { about, fact: `a reading of ${gauge.name} since the element was renewed, with the speed of the engine`, how: 'read it at cruising speed, and log it like `G1 4 kPa at 2400 rpm`' };
    }
}
