/** Which cautions a step needs in the state that it meets: the table of what is done and what the boat is. */
import type { Boat, Id } from '../../model/boat';
import type { CautionStep, CautionTopic, ServiceStep } from '../../model/step';
import { capital, leanLimit, listed } from '../../model/words';
import type { Opening } from '../../analysis/opening/openings';
import type { Thresholds } from '../../analysis/opening/thresholds';
import { turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { HAZARDS, STARTER, STARTING, hazardWords, type Caution } from '../cautions';
import { groundOf, type Ground } from './ground';
import { byReturns, couldCome, heldBy, stoppedBy } from './isolation';
import type { BrokenLaw } from './laws';
import { kindOf } from './pieces';
import { breaks, type Program } from './program';
import { doStep } from './do-step';
import { isMotor, startOf, type Stage } from './stage';
import type { ServiceState } from './state';
import { sequenceOf } from './steps/bleeding';
import { movesBetween } from './steps/running';

export interface Need {
    readonly topic: CautionTopic;
    /** Of `flood`, the part that is opened or bled at, and its opening. */
    readonly part?: Id;
    readonly opening?: Opening;
}

/** What is opened in a step, or bled at. */
function openedIn(stage: Stage, state: ServiceState, step: ServiceStep): readonly Opening[] {
    const { ground } = stage;
    const vent = (id: Id): Opening[] => { const found = ground.ventOpening(id); return found ? [found] : []; };
    switch (step.do) {
        case 'open': case 'hold': { const found = ground.opening(step.part, step.opening); return found ? [found] : []; }
        case 'remove': return step.pieces.length === 0 && ground.owner(step.part) ? [ground.takenOff(step.part)] : [];
        case 'prefill': return ground.openings(step.part).slice(0, 1);
        case 'bleed': case 'prove': return vent(step.vent);
        case 'sequence': return sequenceSteps(stage, state, step).flatMap((one) => openedIn(stage, state, one));
        default: return [];
    }
}

function sequenceSteps(stage: Stage, state: ServiceState, step: ServiceStep): readonly ServiceStep[] {
    const found = step.do === 'sequence' && stage.ground.network.consumers.has(step.engine) ? sequenceOf(stage, state, step) : undefined;
    return found && 'steps' in found ? found.steps.map((planned) => planned.step) : [];
}

export function needsOf(stage: Stage, state: ServiceState, step: ServiceStep): readonly Need[] {
    const { ground, program } = stage;
    const opened = openedIn(stage, state, step);
    const needs: Need[] = [];
    const underWay = program.underWay === true && state.running.size > 0;
    if (opened.length > 0) {
        const liquids = new Set(opened.map(({ part }) => ground.liquid(part)));
        if (liquids.has('fuel')) needs.push({ topic: 'fire' }, { topic: 'skin' }, { topic: 'spill' });
        if (liquids.has('coolant')) needs.push({ topic: 'scald' });
        for (const opening of opened) if (couldCome(ground, state.positions, opening)) needs.push({ topic: 'flood', part: opening.part, opening });
    }
    if (underWay && (opened.length > 0 || step.do === 'set')) needs.push({ topic: 'underway' });
    const steps = step.do === 'sequence' ? sequenceSteps(stage, state, step) : [step];
    if (steps.some(({ do: what, ...rest }) => what === 'prove' || (what === 'bleed' && 'driver' in rest && rest.driver.by === 'lever'))) needs.push({ topic: 'starter' });
    for (const one of steps) if (one.do === 'start' || one.do === 'run') needs.push(...turning(stage, state, one));
    if (step.do === 'log' && state.opened.size > 0) needs.push({ topic: 'waste' });
    return needs.filter((need, i) => needs.findIndex(({ topic, part }) => topic === need.topic && part === need.part) === i);
}

function turning({ ground }: Stage, state: ServiceState, step: Extract<ServiceStep, { do: 'start' | 'run' }>): Need[] {
    const id = step.do === 'start' ? step.engine : step.part;
    const consumer = ground.network.consumers.get(id);
    if (!consumer) {
        if (!ground.network.parts.has(id)) return [];
        const { from, to } = movesBetween(ground, state.positions, id);
        return to.some((tank) => !from.includes(tank)) ? [{ topic: 'overfill' }] : [];
    }
    if (!isMotor(consumer)) return [];
    const starts = step.do === 'start' || !state.running.has(id);
    return [
        ...(starts ? [{ topic: 'starter' } as const] : []), { topic: consumer.injection?.pump === 'common-rail' ? 'rail' : 'jet' },
        ...(starts && consumer.exhaust?.kind === 'wet' ? [{ topic: 'exhaust' } as const] : []),
    ];
}

const isWarned = ({ warned }: ServiceState, { topic, part }: Need): boolean => warned.has(topic) || (part !== undefined && warned.has(`flood ${part}`));

/** The cautions that a step needs and that do not stand before it. */
function unwarned(state: ServiceState, needs: readonly Need[]): BrokenLaw[] {
    const lacks = needs.filter((need) => !isWarned(state, need));
    return lacks.length > 0 ? [breaks('not-warned', lacks.map(({ topic, part }) => (part === undefined ? topic : `${topic} ${part}`)))] : [];
}

/** The states that a program goes through, and what each step breaks of itself. */
export interface Walk {
    readonly boat: Boat;
    readonly states: readonly ServiceState[];
    readonly broken: readonly (readonly BrokenLaw[])[];
}

/** What was warned was walked through for it, and need not be again. */
const walks = new WeakMap<Program, Walk>();

export function walk(boat: Boat, program: Program): Walk {
    const known = walks.get(program);
    return known?.boat === boat ? known : walkWarning(boat, program, () => false).walk;
}

/**
 * Puts each caution that the table asks for and nobody wrote just before the step that needs it first. One that somebody wrote, too late, is not
 * written again: that it comes too late is told.
 */
export function withCautions(boat: Boat, program: Program): Program {
    const written = program.steps.filter((step): step is CautionStep => step.do === 'caution');
    const isWritten = ({ topic, part }: Need): boolean => written.some((step) => step.topic === topic && (part === undefined || step.part === undefined || step.part === part));
    const { steps, walk: found } = walkWarning(boat, program, (need) => !isWritten(need));
    const warned = { ...program, steps };
    walks.set(warned, found);
    return warned;
}

function walkWarning(boat: Boat, program: Program, mayPutIn: (need: Need) => boolean): { readonly steps: readonly ServiceStep[]; readonly walk: Walk } {
    const stage: Stage = { ground: groundOf(boat), program };
    const steps: ServiceStep[] = [];
    const states = [startOf(stage)];
    const broken: (readonly BrokenLaw[])[] = [];
    const take = (step: ServiceStep, needs: readonly Need[]): void => {
        const state = states.at(-1)!;
        const done = doStep(stage, state, step);
        steps.push(step);
        states.push(done.state);
        broken.push([...done.broken, ...unwarned(state, needs)]);
    };
    // Hands at a lever and an engine that starts are warned of each in its place, though the topic is one.
    let atLever = false;
    for (const step of program.steps) {
        const starts = step.do === 'start' || step.do === 'run';
        const needs = needsOf(stage, states.at(-1)!, step);
        for (const need of needs) {
            const again = need.topic === 'starter' && starts && atLever;
            if ((isWarned(states.at(-1)!, need) && !again) || !mayPutIn(need)) continue;
            if (need.topic === 'starter') atLever = !starts;
            take({ do: 'caution', topic: need.topic, ...(need.part !== undefined && { part: need.part }) }, []);
        }
        take(step, needs);
    }
    return { steps, walk: { boat, states, broken } };
}

/** What the table says of a caution of a program at its place: of the boat, and of the first step behind it that needs it. Somebody's own words stand for it. */
export function cautionAt(boat: Boat, program: Program, index: number, states: readonly ServiceState[]): Caution | undefined {
    const step = program.steps[index];
    if (step?.do !== 'caution') return undefined;
    const stage: Stage = { ground: groundOf(boat), program };
    const told = toldOf(stage, step, index, states);
    if (step.text !== undefined) return { ...told, signal: step.signal ?? told.signal, text: step.text, hazard: told.hazard, consequence: '', avoid: step.text };
    return step.signal === undefined ? told : { ...told, signal: step.signal };
}

function toldOf(stage: Stage, { topic, part }: CautionStep, index: number, states: readonly ServiceState[]): Caution {
    const plain: Caution = { topic, ...HAZARDS[topic], text: hazardWords(HAZARDS[topic]) };
    if (topic !== 'starter' && (topic !== 'flood' || part === undefined)) return plain;
    for (let i = index + 1; i < stage.program.steps.length; i++) {
        const [state, step] = [states[i], stage.program.steps[i]!];
        const need = state && needsOf(stage, state, step).find((other) => other.topic === topic && other.part === part);
        if (need?.opening) return flooding(stage, whenOpened(stage, state!, step, need.opening), need.opening, setBefore(stage, i));
        if (need) return step.do === 'start' || step.do === 'run' ? STARTING : step.do === 'sequence' ? plain : STARTER;
    }
    return plain;
}

/** The valves as they stand when it is opened: a whole sequence turns some before. */
function whenOpened(stage: Stage, state: ServiceState, step: ServiceStep, opening: Opening): Positions {
    let at = state.positions;
    for (const one of sequenceSteps(stage, state, step)) {
        if (one.do === 'set') at = turned(stage.ground.boat, at, one.part, one.position);
        if (openedIn(stage, state, one).some(({ part }) => part === opening.part)) break;
    }
    return at;
}

/** Valves that were set before a step. */
const setBefore = ({ program: { steps } }: Stage, before: number): readonly Id[] => [...new Set(steps.slice(0, before).flatMap((step) => (step.do === 'set' ? [step.part] : [])))];

/** What stops it, and from which lean on a return floods it all the same. Procedures of one boat ask for the same few again and again. */
function flooding({ ground }: Stage, positions: Positions, opening: Opening, set: readonly Id[]): Caution {
    const known = floodings.get(ground) ?? new Map<string, Caution>();
    floodings.set(ground, known);
    const key = [ground.pumping.key(ground.same(positions)), opening.part, opening.name, ...set].join(' ');
    const found = known.get(key) ?? floodingAt(ground, positions, opening, set);
    known.set(key, found);
    return found;
}
const floodings = new WeakMap<Ground, Map<string, Caution>>();

function floodingAt(ground: Ground, positions: Positions, opening: Opening, set: readonly Id[]): Caution {
    const liquid = ground.liquid(opening.part);
    const held = heldBy(ground, positions, opening, new Set(set));
    const leans = byReturns(ground, positions, opening).flatMap(leanWords);
    const at = kindOf(opening) === 'vent' ? opening.name : opening.part;
    const hazard = `${capital(liquid)} of a tank can run out of ${at} by the level or by heel.`;
    const consequence = 'It floods the bilge.';
    const stops = held ? [] : stoppedBy(ground, positions, opening, set.filter((id) => positions.get(id) === 'open'));
    const avoid = [held && held.length > 0 ? keepsBack(held, positions, at) : [`Close ${at} to stop it.`, ...stopsAlso(stops)].join(' '), ...leans].join(' ');
    return { topic: 'flood', signal: HAZARDS.flood.signal, hazard, consequence, avoid, text: hazardWords({ hazard, consequence, avoid }), valves: held ?? stops };
}

function keepsBack(valves: readonly Id[], positions: Positions, at: string): string {
    const many = valves.length > 1;
    return `${standing(valves, positions)} ${many ? 'stop' : 'stops'} it: see that ${many ? 'they hold' : 'it holds'}, and leave ${many ? 'them' : 'it'} alone until ${at} is closed.`;
}

/** Valves that are open again. What comes back by a return they do not stop. */
const stopsAlso = (valves: readonly Id[]): string[] => (valves.length > 0 ? [`${listed(valves)} shut ${valves.length > 1 ? 'stop' : 'stops'} what comes along the supply.`] : []);

/** `V1 shut`, `V1 and V2 shut`, `V1 shut and SV1 at PORT`. */
function standing(valves: readonly Id[], positions: Positions): string {
    const shut = valves.filter((id) => positions.get(id) === 'shut');
    const turnedAway = valves.filter((id) => !shut.includes(id)).map((id) => `${id} at ${positions.get(id)}`);
    return listed([...(shut.length > 0 ? [`${listed(shut)} shut`] : []), ...turnedAway]);
}

function leanWords({ tank, port, stbd }: Thresholds): string[] {
    const sides = ([['port', port], ['starboard', stbd]] as const).flatMap(([side, angle]) => (typeof angle === 'number' && angle > 0 ? [`${leanLimit(angle)} to ${side}`] : []));
    if (sides.length > 0) return [`By the return of ${tank} it comes all the same beyond ${listed(sides, 'or')}: open it near upright.`];
    return port === undefined || stbd === undefined ? [`Whether it can come by the return of ${tank} when she leans is not known: open it near upright.`] : [];
}
