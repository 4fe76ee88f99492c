/** Isolate it: the fewest valves to turn so that no liquid can come to a part that is opened. */
import type { Boat, Id } from '../../model/boat';
import type { Lack } from '../../analysis/opening/lack';
import { open } from '../../analysis/opening/open';
import { openingsOf } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { waysTo } from '../../analysis/opening/ways';
import { isolate, type Isolation, type IsolatingSet } from '../../analysis/topology/isolating';
import { isPump, networkOf, type Positions } from '../../analysis/topology/network';
import { distinct, missingOf } from '../../analysis/missing';
import { nameOf } from '../../checks/check';
import { attitudeWords, capital, listed } from '../../model/words';
import { settingWords, type Answer } from './answer';
import { conditionOf, levelWords, type State } from './state';

const MOST_SHOWN = 4;
const PROVE = 'Prove what is shut: crack the part a little, and the stream must die. A stream that never came proves nothing.';

/** How a part is cut off in a line-up, from every tank: a selector that is turned away from one is turned to another. */
export interface CutOff {
    /** With checks that hold, and with none counted. */
    readonly trusted: Isolation;
    readonly worn: Isolation;
    /** What is told first; none where nothing needs to be turned, or nothing helps. */
    readonly first: IsolatingSet | undefined;
}

export function cutOff(boat: Boat, part: Id, positions: Positions): CutOff {
    const [trusted, worn] = (['tight', 'leaky'] as const).map((checks) => isolate(networkOf(boat), positions, part, boat.tanks.map(({ id }) => id), { checks })) as [Isolation, Isolation];
    return { trusted, worn, first: worn.sets[0] ?? trusted.sets[0] };
}

export function answerIsolate(boat: Boat, part: Id, name: string | undefined, state: State): Answer {
    const network = networkOf(boat);
    const { positions } = state.lineUp;
    const leaky = plumbing(network, positions, 'leaky');
    const tanks = [...new Set(waysTo(leaky, part).map(({ tank }) => tank))];
    const { trusted, worn, first } = cutOff(boat, part, positions);
    const openings = (openingsOf(boat).get(part) ?? []).filter((opening) => name === undefined || opening.name === name);
    const opened = openings.flatMap((opening) => state.attitudes.map((attitude) => open(leaky, opening, conditionOf(state, attitude))));
    const floods = [...new Set(opened.flatMap(({ tanks: from }) => from.filter(({ outcome }) => outcome === 'floods').map(({ tank }) => tank)))];
    const open_: readonly Lack[] = [...opened.flatMap(({ lacks }) => lacks), ...(state.lies === 'not known' && tanks.length > 0 ? [{ about: 'vessel', of: 'envelope' } as const] : [])];
    const levels = levelWords(boat, state.volumes, tanks);
    const where = `${state.lies === 'as said' ? attitudeWords(state.attitudes[0]!) : 'somewhere within her envelope'}${levels === '' ? '' : `, with ${levels}`}`;
    const subject = capital(nameOf(boat, part));
    const body: string[] = [];
    if (floods.length > 0) body.push(`WARNING: as the valves stand in ${state.lineUp.id}, liquid of ${listed(floods)} can run out of it ${where}.`);
    else if (open_.length > 0) body.push(`WARNING: as the valves stand in ${state.lineUp.id}, it cannot be told yet whether a tank runs out of it (see what is to be measured); take it that it does.`);
    if (tanks.length === 0 || worn.already) body.push(`${subject} is cut off from every tank in line-up ${state.lineUp.id} as it is.`, PROVE);
    else if (first) {
        const relied = worn.sets.length > 0 ? undefined : worn.cannot[0] ?? { from: tanks[0]!, by: [] };
        body.push(relied === undefined ? `${toSet(first)}: then no liquid of a tank can come to ${nameOf(boat, part)}. Fewer valves would not do it, and no check is relied upon.`
            : `${toSet(first)}. That is not all: on the way ${relied.by.map((id) => nameOf(boat, id)).join(', ')} there is nothing that a hand can shut, and only ${holding(boat, relied.by)} ${relied.from} back. What leaks past still comes.`, PROVE);
        const same = (relied === undefined ? worn : trusted);
        if (same.sets.length > 1) body.push(`As good: ${same.sets.slice(1, MOST_SHOWN).map(setWords).join('; or ')}${same.sets.length > MOST_SHOWN || same.more > 0 ? '; and others' : ''}.`);
        if (same.alternatives.length > 0) body.push(`With one more: ${same.alternatives.slice(0, MOST_SHOWN).map(setWords).join('; or ')}.`);
        if (relied === undefined && trusted.sets[0] && trusted.sets[0].settings.length < first.settings.length) body.push(`If every check, pump and engine held back, ${setWords(trusted.sets[0])} would do. One that leaks is found out only when the bilge fills.`);
    } else if (trusted.already) body.push(`No hand can cut ${nameOf(boat, part)} off from ${listed(tanks)}: only what checks, pumps or engines hold back keeps its liquid away, and what leaks past them nothing stops.`);
    else for (const { from, by } of trusted.cannot) body.push(tanks.includes(from) ? `${subject} cannot be cut off from ${from}: on the way ${by.map((id) => nameOf(boat, id)).join(', ')} there is nothing that a hand can shut.`
        : `${subject} can be cut off from ${listed(tanks)} only by opening it to ${from}, by ${by.map((id) => nameOf(boat, id)).join(', ')}: that helps only while ${from} is empty.`);
    if (floods.length > 0 && !first && !worn.already) body.push(`Ask \`open ${part}\` at the level and heel that she has: open it only where nothing comes.`);
    else if (floods.length === 0 && open_.length === 0 && tanks.length > 0) body.push(`As the valves stand in ${state.lineUp.id}, no tank would run out of it ${where.replace(/^somewhere/, 'anywhere')}. What hangs above it would, and air can follow what falls back.`);
    if (worn.unfinished !== undefined) body.push('There are more ways to set the valves than were looked through.');
    return {
        title: `Cutting off ${part}${name === undefined ? '' : ` (${name})`}, from line-up ${state.lineUp.id}`, body, defaults: [],
        data: {
            ask: 'isolate', part, lineUp: state.lineUp.id, sources: tanks, already: tanks.length === 0 || worn.already, sets: worn.sets.map(setData), more: worn.more, alternatives: worn.alternatives.map(setData),
            ifChecksHold: trusted.sets.map(setData), cannot: worn.cannot, floodsFrom: floods,
        },
        used: [...new Set((worn.sets.length > 0 ? worn : trusted).sets.flatMap(({ settings }) => settings.map((setting) => setting.part)))].flatMap((about) => ['label', 'at', 'in', 'normally'].map((fact) => ({ about, fact }))), missing: distinct(open_.map((lack) => missingOf(boat, lack))),
    };
}

/** What must hold on a way that no hand can shut: its checks and pumps, and the consumer that it comes back through. */
export const heldBy = (boat: Boat, by: readonly Id[]): Id[] => by.filter((id) => boat.consumers.some((consumer) => consumer.id === id) || boat.parts.some((other) => other.id === id && (other.kind === 'check' || isPump(other))));

/** The same with its verb. */
function holding(boat: Boat, by: readonly Id[]): string {
    const held = heldBy(boat, by);
    return held.length === 0 ? 'check valves hold' : `${listed(held)} ${held.length > 1 ? 'hold' : 'holds'}`;
}

const setWords = ({ settings, blocks }: IsolatingSet): string => `${settingWords(settings)}${blocks.length > 0 ? ` (stop ${listed(blocks)} first: it blocks the return)` : ''}`;
const toSet = ({ settings, blocks }: IsolatingSet): string => `${blocks.length > 0 ? `Stop ${listed(blocks)}, whose return will be blocked, then set` : 'Set'} ${settingWords(settings)}`;
const setData = ({ settings, blocks }: IsolatingSet): unknown => ({ settings, blocks });
