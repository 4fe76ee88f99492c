/** Open it: what comes out, what falls back, how much, from which level and heel, and what stops it. */
import type { Boat, Id } from '../../model/boat';
import type { Ground } from '../../model/finding';
import { comesFrom, isSiphon, open, rateFrom, type FromTank, type Opened } from '../../analysis/opening/open';
import { fluidOf, type KnownFluid } from '../../analysis/flow/fluid';
import type { Condition } from '../../analysis/opening/condition';
import { openingsOf, type Opening } from '../../analysis/opening/openings';
import { plumbing, type Plumbing } from '../../analysis/opening/plumbing';
import { thresholds, type Thresholds } from '../../analysis/opening/thresholds';
import { isolate, type Isolation } from '../../analysis/topology/isolating';
import { networkOf } from '../../analysis/topology/network';
import { distinct, missingOf, shapeGrounds } from '../../analysis/missing';
import { attitudeWords, capital, degrees, listed, litres } from '../../model/words';
import { fromSI } from '../../model/units';
import type { Answer, Table } from './answer';
import { settingWords } from './answer';
import type { Attitude } from '../../analysis/tanks/attitude';
import { conditionOf, levelWords, type State } from './state';

/** An open part in one attitude, with every check holding and with every check worn. */
interface Case {
    readonly where: string;
    readonly attitude: Attitude;
    readonly tight: Shown;
    readonly leaky: Shown;
}

interface Shown extends Opened {
    readonly tanks: readonly (FromTank & { readonly volume?: number; readonly siphon?: boolean; readonly rate?: number })[];
}

/** What comes from each tank that floods it, and how. */
function shownOf(plumbing: Plumbing, opened: Opened, condition: Condition): Shown {
    return {
        ...opened, tanks: opened.tanks.map((tank) => {
            if (tank.outcome !== 'floods') return tank;
            const [volume, siphon, rate] = [comesFrom(plumbing, opened.opening, condition, tank), isSiphon(plumbing, condition, tank), rateFrom(plumbing, opened.opening, condition, tank.tank)];
            return { ...tank, ...(volume !== undefined && { volume }), ...(siphon !== undefined && { siphon }), ...(rate !== undefined && { rate }) };
        }),
    };
}

export function answerOpen(boat: Boat, part: Id, name: string | undefined, state: State): Answer {
    const network = networkOf(boat);
    const openings = (openingsOf(boat).get(part) ?? []).filter((opening) => name === undefined || opening.name === name);
    const [tight, leaky] = (['tight', 'leaky'] as const).map((checks) => plumbing(network, state.lineUp.positions, checks)) as [Plumbing, Plumbing];
    const told = openings.map((opening) => {
        const cases = state.attitudes.map((attitude): Case => {
            const condition = conditionOf(state, attitude);
            return { where: attitudeWords(attitude), attitude, tight: shownOf(tight, open(tight, opening, condition), condition), leaky: shownOf(leaky, open(leaky, opening, condition), condition) };
        });
        const limits = thresholds(leaky, opening, conditionOf(state, state.attitudes[0]!));
        return { opening, cases, limits };
    });
    const tanks = [...new Set(told.flatMap(({ cases }) => cases.flatMap(({ leaky: { tanks: from } }) => from.map(({ tank }) => tank))))];
    const floods = told.some(({ cases }) => cases.some((found) => [found.tight, found.leaky].some(({ outcome }) => outcome === 'floods')));
    const all = told.flatMap(({ cases }) => cases.flatMap((found) => [found.tight, found.leaky]));
    const risk = floods ? 'floods' : all.some(({ outcome }) => outcome === 'cannot tell') ? 'cannot tell' : 'none';
    const levels = levelWords(boat, state.volumes, tanks);
    const flowing = fluids(boat, told.flatMap(({ cases }) => cases));
    const missing = distinct(all.flatMap(({ lacks }) => lacks).map((lack) => missingOf(boat, lack)));
    return {
        title: `Opening ${part}${name === undefined ? '' : ` (${name})`} in line-up ${state.lineUp.id}${state.attitudes.length === 1 ? `, ${attitudeWords(state.attitudes[0]!)}` : ''}${levels === '' ? '' : `, ${levels}`}`,
        body: [
            ...(risk === 'none' ? [] : stopWords(boat, part, tanks, state, risk)),
            ...told.flatMap(({ opening, cases, limits }) => [capital(openingWords(part, opening)) + ':', ...(cases.length === 1 ? sentences(cases[0]!) : [tableOf(cases)]), ...limitSentences(limits, opening, state)]),
            ...handling(told.flatMap(({ cases }) => cases)),
            ...(risk === 'none' ? stopWords(boat, part, tanks, state, risk) : []),
        ],
        data: {
            ask: 'open', part, lineUp: state.lineUp.id, levels: tanks.flatMap((tank) => { const volume = state.volumes.get(tank); return volume === undefined ? [] : [{ tank, litres: round(volume * 1e3) }]; }),
            openings: told.map(({ opening, cases, limits }) => ({
                opening: opening.name,
                cases: cases.map(({ where, attitude, tight: held, leaky: worn }) => ({ attitude: where, heel: round(fromSI(attitude.heel, 'deg')), trim: round(fromSI(attitude.trim, 'deg')), checksTight: openedData(held), checksWorn: openedData(worn) })),
                thresholds: limits.map(limitData),
            })),
        },
        used: [...grounds(boat, told.map(({ opening }) => opening), all), ...[...new Set(flowing.flatMap(({ facts }) => facts))].map((fact) => ({ about: 'vessel', fact }))], missing,
        defaults: [...uncounted(all), ...new Set(flowing.flatMap(({ taken }) => taken))],
    };
}

const openingWords = (part: Id, { name }: Opening): string => (name === 'joint' ? `a joint of ${part}` : name === 'ports' ? `${part} off its ports` : name === 'lid' || name === 'drain' ? `the ${name} of ${part}` : `${name} on ${part}`);
const mm = (si: number): string => `${Math.round(fromSI(Math.abs(si), 'mm'))} mm`;

/** One attitude in full. */
function sentences({ tight, leaky }: Case): string[] {
    const [one, other] = [sentence(tight), sentence(leaky)];
    return one === other ? [`${one} Checks change nothing in that.`] : [`While every check holds: ${one}`, `With worn checks: ${other}`];
}

function sentence(opened: Shown): string {
    const { outcome, tanks, hangs, falls } = opened;
    const lower = tanks.filter((tank) => tank.outcome === 'below');
    const stands = listed(lower.map(({ tank, head }) => `${tank} stands ${mm(head!)} lower`));
    const dry = tanks.filter((tank) => tank.outcome === 'dry').map(({ tank, fitting }) => `${fitting} is above the surface of ${tank}`);
    const unsure = tanks.filter((tank) => tank.outcome === 'cannot tell').map(({ tank }) => tank);
    const first = outcome === 'floods' ? `it floods. ${tanks.filter((tank) => tank.outcome === 'floods').map(floodWords).join(' ')}${unsure.length > 0 ? ` What ${listed(unsure)} may bring besides is not known.` : ''}`
        : outcome === 'level' ? `${listed(tanks.filter((tank) => tank.outcome === 'level').map(({ tank }) => tank))} stands level with it: be ready for either.`
            : outcome === 'falls back' ? `no tank runs out of it${stands === '' ? '' : `: ${stands}`}. The column falls back and air follows: ${heldWords(falls)}.`
                : outcome === 'stays' ? `no tank runs out of it, and nothing falls back to one: ${[stands, ...dry].filter((words) => words !== '').join(', ')}.`
                    : outcome === 'shut off' ? 'no tank can reach it.' : 'it cannot be told; see what is to be measured.';
    const also = hangs.parts.length > 0 ? ` What hangs above it can run out: ${heldWords(hangs)}.` : '';
    return first + also;
}

function floodWords({ tank, head, siphon, volume, rate, backThrough, cracks }: Shown['tanks'][number]): string {
    return `${tank} stands ${mm(head!)} above it${cracks > 0 ? ', what the checks hold back taken off' : ''}${backThrough === undefined ? '' : `, and comes back through ${backThrough}`}; ${volume === undefined ? 'how much would come is not known' : `${litres(volume)} would come if nobody stopped it`}${rate === undefined ? '' : `, at first up to ${litres(rate * 60)} a minute`}`
        + `${siphon === true ? '. It runs over a crest above the surface, as a siphon, so only while the line is full' : ''}.`;
}

/** up to 163 mL in S1b, PR1 and S1, and S2 of which it is not known */
function heldWords({ parts, volume, unknown }: Opened['hangs']): string {
    const known = parts.filter((id) => !unknown.includes(id));
    const first = known.length === 0 ? [] : [`up to ${litres(volume)} in ${listed(known)}`];
    return listed([...first, ...(unknown.length > 0 ? [`an amount that is not known in ${listed(unknown)}`] : [])]);
}

function tableOf(cases: readonly Case[]): Table {
    const cell = ({ outcome, tanks, volume }: Opened): string => {
        const tank = tanks.find((other) => other.outcome === (outcome === 'floods' ? 'floods' : outcome === 'level' ? 'level' : 'below'));
        const stands = tank?.head === undefined ? [] : [tank.outcome === 'level' ? `level with ${tank.tank}` : `${tank.tank} ${mm(tank.head)} ${tank.head > 0 ? 'above' : 'lower'}`];
        return [...(outcome === 'level' ? [] : [outcome === 'stays' ? 'holds' : outcome]), ...stands, ...(volume === undefined ? [] : [litres(volume)])].join(', ');
    };
    return { head: ['', 'while checks hold', 'with worn checks'], rows: cases.map(({ where, tight, leaky }) => [where, cell(tight), cell(leaky)]) };
}

function limitSentences(limits: readonly Thresholds[], { place }: Opening, state: State): string[] {
    const first = state.attitudes[0]!;
    return limits.map(({ tank, volume, port, stbd }) => {
        const upright = attitudeWords(first);
        const level = volume === undefined ? undefined : volume === 'never' ? `${capital(upright)} ${tank} never floods it` : `${capital(upright)} ${tank} floods it with more than ${litres(volume)}`;
        const heel = (angle: number | 'never' | undefined, side: string): string | undefined => (angle === undefined ? undefined : angle === 'never' ? `never to ${side} (up to 60°)` : angle === 0 ? `even upright` : `beyond ${degrees(angle)} to ${side}`);
        const heels = [...new Set([heel(port, 'port'), heel(stbd, 'starboard')].filter((words) => words !== undefined))];
        const at = state.volumes.get(tank);
        const leaning = heels.length === 0 || at === undefined ? undefined : `with ${litres(at)} in ${tank} ${listed(heels)}`;
        const parts = [level, leaning].filter((words) => words !== undefined);
        return parts.length === 0 ? '' : `${parts.join('; ')}. (At worst: no check holds, and what is not known lets it through.)`;
    }).filter((words) => words !== '' && place !== undefined);
}

/** What must be at hand: trade practice, no published source. */
function handling(cases: readonly Case[]): string[] {
    const most = Math.max(0, ...cases.flatMap(({ tight, leaky }) => [tight, leaky].map(({ hangs }) => hangs.volume)));
    return most === 0 ? [] : [`Have a can of at least ${litres(2 * most)} under it, twice what hangs there, and four pads or more: enough for what stands in the lines, not for a tank that runs out. (Common practice.)`];
}

/** First of all where a tank runs out of it or may do so, last where none does. */
function stopWords(boat: Boat, part: Id, tanks: readonly Id[], { lineUp }: State, risk: 'floods' | 'cannot tell' | 'none'): string[] {
    if (tanks.length === 0) return [];
    const network = networkOf(boat);
    // A selector that is turned away from one tank may be turned to another: every tank counts.
    const [worn, trusted] = (['leaky', 'tight'] as const).map((checks) => isolate(network, lineUp.positions, part, [...network.tanks.keys()], { checks })) as [Isolation, Isolation];
    if (worn.already) return [];
    const first = worn.sets[0] ?? trusted.sets[0];
    const warning = risk === 'floods' ? [`WARNING: ${listed(tanks, 'or')} can run out of it.`] : risk === 'cannot tell' ? [`WARNING: it cannot be told for sure whether ${listed(tanks, 'or')} runs out of it; take it that it does.`] : [];
    const others = [...new Set(trusted.cannot.map(({ from }) => from))].filter((id) => !tanks.includes(id));
    if (!first && trusted.already) return [[...warning, 'Only what checks, pumps or the engine hold back keeps the tanks out of it: no hand can shut what leaks past them.'].join(' ')];
    if (!first) return [[...warning, `No valve cuts it off from ${others.length > 0 ? `${listed(tanks)} without opening it to ${listed(others)}` : listed([...new Set(trusted.cannot.map(({ from }) => from))])}: do not open it with liquid above it.`].join(' ')];
    const stopped = first.blocks.length > 0 ? ` with ${listed(first.blocks)} stopped` : '';
    return [[...warning, `${risk === 'none' ? 'To keep the tanks out of it, first' : 'First'} set ${settingWords(first.settings)}${stopped}, and prove it: crack ${part} a little, and the stream must die. A stream that never came proves nothing.`,
        ...(worn.sets.length === 0 ? ['A check or pump that leaks can still let liquid back from the other side.'] : [])].join(' ')];
}

/** What flows out is taken for warm: thin liquid comes fastest. */
function fluids({ vessel, tanks }: Boat, cases: readonly Case[]): KnownFluid[] {
    const flowing = cases.flatMap(({ tight, leaky }) => [...tight.tanks, ...leaky.tanks]).filter(({ rate }) => rate !== undefined).map(({ tank }) => tank);
    return tanks.filter(({ id }) => flowing.includes(id)).map(({ carries }) => fluidOf(vessel, carries, 'warm'));
}

/** Checks whose cracking pressure is not stated are taken to hold nothing. */
const uncounted = (all: readonly Opened[]): string[] => {
    const ids = [...new Set(all.flatMap(({ tanks }) => tanks.flatMap((tank) => tank.uncounted)))];
    return ids.length === 0 ? [] : [`${listed(ids)} ${ids.length > 1 ? 'hold' : 'holds'} back no pressure`];
};

function grounds(boat: Boat, openings: readonly Opening[], all: readonly Opened[]): Ground[] {
    const from = all.flatMap(({ tanks }) => tanks);
    return [
        ...openings.flatMap(({ part, name }): Ground[] => {
            const vent = [...boat.parts, ...boat.consumers].flatMap(({ vents }) => vents).find(({ tag, part: owner }) => tag === name && owner === part);
            return vent ? [{ about: vent.id, fact: 'at' }] : name === 'lid' || name === 'drain' ? [{ about: part, fact: name }, { about: part, fact: 'ports' }] : [{ about: part, fact: boat.parts.some(({ id }) => id === part) ? 'ports' : 'inlet' }, { about: part, fact: 'at' }];
        }),
        ...from.flatMap(({ tank, fitting, through }): Ground[] => [
            ...shapeGrounds(boat, tank), { about: fitting, fact: 'mouth' }, { about: fitting, fact: 'top' }, ...through.map((id) => ({ about: id, fact: 'cracks' })),
        ]),
        // What flows, and what stands in the lines: amounts and heights of all that lies on the way.
        ...[...new Set([...from.flatMap(({ through }) => through), ...all.flatMap(({ hangs, falls }) => [...hangs.parts, ...falls.parts])])].flatMap((about) => AMOUNTS.map((fact) => ({ about, fact }))),
    ];
}

/** The facts of a part that say how much stands in it and where. */
const AMOUNTS = ['holds', 'bore', 'length', 'at', 'ports', 'inlet', 'crest', 'low'];

const openedData = ({ outcome, tanks, volume, hangs, falls }: Shown): unknown => ({
    outcome, ...(volume !== undefined && { litres: round(volume * 1e3) }),
    tanks: tanks.map(({ tank, fitting, through, outcome: own, head, siphon, volume: comes, rate }) => ({
        tank, fitting, through, outcome: own, ...(head !== undefined && { headMm: round(head * 1e3) }), ...(siphon !== undefined && { siphon }), ...(comes !== undefined && { litres: round(comes * 1e3) }), ...(rate !== undefined && { litresPerMinute: round(rate * 6e4) }),
    })),
    runsOut: heldData(hangs), fallsBack: heldData(falls),
});
const heldData = ({ parts, volume, unknown }: Opened['hangs']): unknown => ({ parts, litres: round(volume * 1e3), notKnownOf: unknown });
const limitData = ({ tank, volume, port, stbd }: Thresholds): unknown => ({
    tank, ...(volume !== undefined && { litres: volume === 'never' ? volume : round(volume * 1e3) }),
    ...(port !== undefined && { degreesPort: port === 'never' ? port : round(fromSI(port, 'deg')) }), ...(stbd !== undefined && { degreesStbd: stbd === 'never' ? stbd : round(fromSI(stbd, 'deg')) }),
});
/** Six digits are more than any figure here is good for, and the same on every machine. */
export const round = (value: number): number => Number(value.toPrecision(6));
