/** Endurance: how long the fuel lasts down to the reserve, and how far it takes her, at a speed or at each that is stated for her. */
import type { Boat } from '../../model/boat';
import { scaled, sound, times, type Estimate } from '../../analysis/estimate';
import { enduranceOf, enduranceOfAll, usuallyRunning, type Endurance } from '../../analysis/time/endurance';
import { ranges } from '../../analysis/time/passage';
import { reserveOf } from '../../analysis/time/store';
import { distinct, shapeGrounds } from '../../analysis/missing';
import { missingInTime } from '../../checks/missing-in-time';
import { fromSI } from '../../model/units';
import { figure, listed, litres } from '../../model/words';
import type { Answer } from './answer';
import { durationWords, lastsData, lastsWords } from './durations';
import { speedData, speedWords } from './flowing';
import { round } from './open';
import type { State } from './state';

/** m in a nautical mile. */
const MILE = 1852;

interface Row {
    readonly speed: number | 'full';
    /** All that usually runs, engines at this speed, and the engines alone. */
    readonly all: Endurance;
    readonly engines: Endurance;
    /** m/s, where it is stated, and m. */
    readonly through?: Estimate;
    readonly metres?: Estimate;
}

export function answerEndurance(boat: Boat, { said, volumes: levels }: State): Answer {
    const volumes = new Map([...levels].filter(([id]) => said.level !== undefined || said.levels.has(id)));
    const stated = ranges(boat, volumes);
    const speeds: readonly (number | 'full')[] = said.speed !== undefined ? [said.speed] : [...new Set(stated.map(({ speed }) => speed)), 'full'];
    const running = usuallyRunning(boat);
    const engines = running.filter(({ kind }) => kind === 'engine').map(({ id }) => id);
    const rows = speeds.map((speed): Row => {
        const alone = enduranceOf(boat, engines, () => speed, volumes);
        const through = stated.find((range) => speed !== 'full' && Math.abs(range.speed - speed) < 1e-9 * speed)?.through;
        const metres = alone.seconds && through && sound(times(alone.seconds, through));
        return { speed, all: enduranceOfAll(boat, speed, volumes), engines: alone, ...(through && { through }), ...(metres && { metres }) };
    });
    const { share } = reserveOf(boat);
    const store = rows[0]!.all.store;
    const lacks = rows.flatMap(({ all, engines: alone }) => [...all.lacks, ...alone.lacks]);
    const astray = [...new Set(rows.flatMap(({ all }) => all.astray))];
    const beside = running.filter(({ kind }) => kind !== 'engine').map(({ id }) => id);
    const words = (found: Endurance): string => (found.seconds ? lastsWords(found.seconds) : '?');
    return {
        title: `How long her fuel lasts${said.speed === undefined ? '' : ` ${speedWords(said.speed)}`}, down to the reserve of ${figure(share.si * 100)} %`,
        body: [
            ...(running.length === 0 ? ['Nothing that burns fuel usually runs.'] : [answerWords(rows, engines.length > 0, beside)]),
            ...(running.length === 0 ? [] : [{
                head: ['', ...(beside.length > 0 || engines.length === 0 ? ['all that usually runs'] : []), ...(engines.length > 0 ? ['engines alone', 'nautical miles'] : [])],
                rows: rows.map((row) => [speedWords(row.speed), ...(beside.length > 0 || engines.length === 0 ? [words(row.all)] : []), ...(engines.length > 0 ? [words(row.engines), row.metres ? milesWords(row.metres) : '?'] : [])]),
            }]),
            ...(store.tanks.length > 0 ? [`${store.tanks.map(({ tank, holds, usable }) => `${tank} holds ${litres(holds)}, of which ${litres(usable)} can be used upright`).join('; ')}.`] : []),
            ...(astray.length > 0 ? [`What ${listed(astray)} ${astray.length > 1 ? 'return' : 'returns'} comes to a tank that does not feed it, and is counted as gone.`] : []),
            ...(beside.length > 0 && engines.length > 0 ? [`${listed(beside)} ${beside.length > 1 ? 'run' : 'runs'} at full beside the engines, all the time, in the first figure.`] : []),
            ...(engines.length > 0 && rows.some(({ through }) => through === undefined) ? ['Miles are told only at speeds of the engine for which her own is stated, like `speed 5.5 kn at 2400 rpm`.'] : []),
            'Still water and air. What the valves let each draw is taken as set for the longest.',
        ],
        data: {
            ask: 'endurance', reservePercent: round(share.si * 100), usableLitres: round(store.usable * 1e3), tanks: store.tanks.map(({ tank, holds, usable }) => ({ tank, litres: round(holds * 1e3), usableLitres: round(usable * 1e3) })), astray,
            speeds: rows.map(({ speed, all, engines: alone, through, metres }) => ({
                speed: speedData(speed), ...(all.seconds && { all: lastsData(all.seconds) }), ...(engines.length > 0 && alone.seconds && { engines: lastsData(alone.seconds) }),
                ...(through && { knots: round(fromSI(through.si, 'kn')) }), ...(metres && { miles: { miles: round(metres.si / MILE), leastMiles: round(metres.least / MILE), mostMiles: round(metres.most / MILE) } }),
            })),
        },
        used: [...running.flatMap(({ id: about }) => [{ about, fact: 'burns' }, { about, fact: 'draws' }]), { about: 'vessel', fact: 'speed' }, { about: 'vessel', fact: 'reserve' }, ...store.tanks.flatMap(({ tank }) => [...shapeGrounds(boat, tank), ...boat.tanks.find(({ id }) => id === tank)!.fittings.map(({ id: about }) => ({ about, fact: 'mouth' }))])],
        defaults: [...new Set(rows.flatMap(({ all, engines: alone }) => [...all.taken, ...alone.taken]))], missing: distinct(lacks.map((lack) => missingInTime(boat, lack))),
    };
}

const milesWords = (metres: Estimate): string => { const { si, least, most } = scaled(metres, 1 / MILE); return `${figure(si)}${figure(least) === figure(most) ? '' : ` (${figure(least)} to ${figure(most)})`}`; };

/** Of several speeds the one that lasts the longest is the answer. */
function answerWords(rows: readonly Row[], hasEngines: boolean, beside: readonly string[]): string {
    const lasting = (row: Row): Estimate | undefined => (hasEngines && beside.length === 0 ? row.engines : row.all).seconds;
    const best = rows.filter((row) => lasting(row)).sort((a, b) => lasting(b)!.si - lasting(a)!.si)[0];
    if (!best) return 'It cannot be told yet: see what is to be measured.';
    const alone = beside.length > 0 && hasEngines && best.engines.seconds ? `; with the engines alone ${durationWords(best.engines.seconds.si)}` : '';
    return `Her fuel lasts ${lastsWords(lasting(best)!)} ${speedWords(best.speed)}${alone}${best.metres ? `, which takes her ${milesWords(best.metres)} nautical miles` : ''}.`;
}
