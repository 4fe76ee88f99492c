/** The calculation sheet of a boat: every computation, by groups, and what they all rest on. */
import type { Boat } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import { attitudesOf, highLevel, lowLevel } from '../../analysis/opening/condition';
import { viewOf, type View } from '../../checks/check';
import { fromSI } from '../../model/units';
import { attitudeWords, degrees, figure, listed } from '../../model/words';
import { viewWords } from '../view';
import { balanceWorkings } from './groups/balance';
import { boreWorkings } from './groups/bores';
import { demandWorkings } from './groups/demands';
import { frictionWorkings } from './groups/friction';
import { fuelWorkings } from './groups/fuel';
import { gaugeWorkings } from './groups/gauges';
import { crossoverWorkings } from './groups/crossover';
import { dayTankWorkings } from './groups/day-tank';
import { enduranceWorkings } from './groups/endurance';
import { fillingWorkings } from './groups/filling';
import { filterWorkings } from './groups/filters';
import { gaugeTrendWorkings } from './groups/gauge-trends';
import { headWorkings } from './groups/heads';
import { lineWorkings } from './groups/lines';
import { overflowWorkings } from './groups/overflow';
import { pickupWorkings } from './groups/pickups';
import { restWorkings } from './groups/rest';
import { returnWorkings } from './groups/returns';
import { starvingWorkings } from './groups/starving';
import { suctionWorkings } from './groups/suction';
import { stoppingWorkings } from './groups/stopping';
import { surfaceWorkings } from './groups/surfaces';
import { tankWorkings } from './groups/tanks';
import { transferWorkings } from './groups/transfer';
import { ventWorkings } from './groups/vents';
import { ABOUT_WORDS, byName, sound, type Working } from './working';

/** A heading and its computations; one file a group under groups/, and a line in the list. */
export interface Group {
    readonly heading: string;
    readonly of: (view: View) => readonly Working[];
}

export const GROUPS: readonly Group[] = [
    { heading: 'Tanks', of: tankWorkings },
    { heading: 'Free surface at the lowest level', of: surfaceWorkings },
    { heading: 'Pickups', of: pickupWorkings },
    { heading: 'Vents and fills', of: ventWorkings },
    { heading: 'What lines hold', of: lineWorkings },
    { heading: 'Static head at the pumps', of: headWorkings },
    { heading: 'The fuel', of: fuelWorkings },
    { heading: 'What consumers draw and give back', of: demandWorkings },
    { heading: 'Friction in the lines', of: frictionWorkings },
    { heading: 'Balance of flows that divide', of: balanceWorkings },
    { heading: 'Suction at the pumps', of: suctionWorkings },
    { heading: 'Larger bores', of: boreWorkings },
    { heading: 'What gauges should read', of: gaugeWorkings },
    { heading: 'Back-pressure of the returns', of: returnWorkings },
    { heading: 'Head at rest', of: restWorkings },
    { heading: 'Which starves first', of: starvingWorkings },
    { heading: 'How long her fuel lasts', of: enduranceWorkings },
    { heading: 'Where supply and return differ', of: overflowWorkings },
    { heading: 'Transfer and polishing', of: transferWorkings },
    { heading: 'Tanks that level out', of: crossoverWorkings },
    { heading: 'Day tanks', of: dayTankWorkings },
    { heading: 'Filling and warming', of: fillingWorkings },
    { heading: 'Running on, and cranking', of: stoppingWorkings },
    { heading: 'Filters', of: filterWorkings },
    { heading: 'Gauges by the log', of: gaugeTrendWorkings },
];

export interface Sheet {
    readonly boat: Boat;
    /** Name and view. */
    readonly title: string;
    /** What the sheet is for, by term: datum, envelope, line-ups. */
    readonly basis: readonly (readonly [term: string, words: string])[];
    readonly groups: readonly { readonly heading: string; readonly workings: readonly Working[] }[];
    /** What was taken because nothing was said; all of it, each once. */
    readonly taken: readonly string[];
    readonly missing: readonly (MissingFact & { readonly settles: readonly string[] })[];
}

export function calculationSheet(given: Boat): Sheet {
    const boat = ordered(given);
    const view = viewOf(boat);
    const seen = new Set<string>();
    // What two tanks or engines share is computed once.
    const once = ({ id }: Working): boolean => { const fresh = !seen.has(id); seen.add(id); return fresh; };
    const groups = GROUPS.map(({ heading, of }) => ({ heading, workings: of(view).map(sound).filter(once) })).filter(({ workings }) => workings.length > 0);
    const workings = groups.flatMap((group) => group.workings);
    return { boat, title: `${boat.title ?? (boat.name === '' ? 'Unnamed boat' : boat.name)}${viewWords(boat)}`, basis: basisOf(view), groups, taken: takenBy(view, workings), missing: missingOf(workings) };
}

/** The same boat in the order of its names: the order in which things are written changes nothing. */
function ordered(boat: Boat): Boat {
    const sorted = <T extends { readonly id: string }>(things: readonly T[]): T[] => [...things].sort((a, b) => byName(a.id, b.id));
    return {
        ...boat, tanks: sorted(boat.tanks).map((tank) => ({ ...tank, fittings: sorted(tank.fittings) })), consumers: sorted(boat.consumers), parts: sorted(boat.parts), courses: sorted(boat.courses),
        joints: [...boat.joints].sort((a, b) => byName(`${a.from} ${a.to}`, `${b.from} ${b.to}`)),
    };
}

function basisOf({ boat, lineUps }: View): [string, string][] {
    const { datum, envelope: { heel, trim, level, fuel } } = boat.vessel;
    const lies = [heel ? `heel ${degrees(heel.high ?? heel.si)} either way` : 'no heel stated', trim ? `trim ${degrees(trim.high ?? trim.si)} either way` : 'no trim stated', level ? `tanks ${figure(fromSI(lowLevel(boat), '%'))} to ${figure(fromSI(highLevel(boat), '%'))} % of the whole inside` : 'no level stated', ...(fuel ? [`fuel ${figure(fromSI(fuel.low ?? fuel.si, 'degC'))} to ${figure(fromSI(fuel.high ?? fuel.si, 'degC'))} °C`] : [])];
    const ups = [...lineUps].sort((a, b) => byName(a.id, b.id)).map(({ id, use, positions, stopped }) => {
        const set = [...positions].sort(([a], [b]) => byName(a, b)).map(([part, position]) => `${part} ${position}`);
        return [`Line-up ${id}`, [...(use ? [use] : []), ...set, ...[...stopped].sort(byName).map((consumer) => `${consumer} stopped`)].join(', ') || 'no valves'] as [string, string];
    });
    return [
        ['Heights from', datum ?? 'a datum that is not named'], ['Places', 'x forward of the transom, y to starboard of the centreline (port is negative), z above the datum'],
        ['As she lies', 'φ is the heel, positive with starboard down; θ the trim, positive with bow up. The height of a point is then z × cos φ × cos θ − y × sin φ × cos θ + x × sin θ'],
        ['Envelope', lies.join('; ')], ['Worst place', `the worst of ${listed(attitudesOf(boat).map(attitudeWords))}${heel && trim ? ', and for pickups of what lies between' : ''}`], ...ups,
    ];
}

function takenBy({ boat, lineUps }: View, workings: readonly Working[]): string[] {
    const { heel, trim } = boat.vessel.envelope;
    const open = [...new Set(lineUps.flatMap(({ assumedOpen }) => assumedOpen))].sort(byName);
    const rough = workings.some(({ inputs }) => inputs.some(({ about }) => about));
    return [...new Set([
        ...(boat.lineUps.length === 0 ? ['one line-up, RUN, with every valve in its normal position'] : []), ...(open.length > 0 ? [`${listed(open)} open, where no line-up says otherwise`] : []),
        ...(heel ? [] : ['no heel, since her envelope states none']), ...(trim ? [] : ['no trim, since her envelope states none']),
        ...workings.flatMap(({ inputs, taken }) => [...inputs.flatMap(({ what, from }) => ('taken' in from ? [`${what}: ${from.taken}`] : [])), ...(taken === undefined ? [] : [taken])]),
        ...(rough ? [ABOUT_WORDS] : []),
    ])];
}

/** Each fact once, with the computations that want it; those that settle most first. */
function missingOf(workings: readonly Working[]): Sheet['missing'] {
    const found = new Map<string, MissingFact & { settles: string[] }>();
    for (const { id, missing } of workings) for (const fact of missing) {
        const key = `${fact.about} ${fact.fact}`;
        const known = found.get(key) ?? { ...fact, settles: [] };
        found.set(key, known);
        if (!known.settles.includes(id)) known.settles.push(id);
    }
    return [...found.values()].sort((a, b) => b.settles.length - a.settles.length || byName(a.fact, b.fact));
}
