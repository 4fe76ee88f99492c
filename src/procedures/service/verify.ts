/** From the start on: what is started, run, looked at and read, with what the gauges should show. */
import type { Consumer, Id } from '../../model/boat';
import type { PlannedServiceStep } from './plan';
import type { Remark } from './remarks';
import { keep, type Visit } from './visit';
import { fullSpeed, knots } from '../../analysis/flow/demand';
import type { Guess } from '../../analysis/flow/guess';
import { atLevel } from '../../analysis/opening/condition';
import { flowIn, type Asked } from '../../analysis/flow/states';
import { gaugeTold } from '../../analysis/flow/told';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { partsBefore, running } from '../../analysis/topology/paths';
import { startStep } from '../bleed';
import { isMotor } from './stage';
import { planned } from './step-of';

/** Fast idle, rev/s: 1300 rpm, between the 1200 and 1500 rpm of common practice. */
export const FAST_IDLE = 1300 / 60;
/** s, common practice. */
const IDLES = 300;
const LOADED = 600;
const HEATS = 600;
/** A gauge may be off by so much, Pa: 0.5 inHg, the trade's tolerance. */
const OFF = 1693;

/** The speed under load, rev/s: that of her passages where it is stated, else the fastest but one of the engine's curve; a generator's only one. */
export function loadedSpeed({ boat }: Visit, consumer: Consumer): number | undefined {
    const full = fullSpeed(consumer);
    if (consumer.kind !== 'engine' || full === undefined) return full;
    const cruising = boat.vessel.speeds[0]?.at.si;
    if (cruising !== undefined && cruising <= full) return cruising;
    const speeds = [...new Set([...knots(consumer.draws), ...knots(consumer.burns)].map(({ speed }) => speed))].sort((a, b) => a - b);
    return speeds.length > 1 ? speeds.at(-2) : full;
}

export interface Verified {
    readonly steps: readonly PlannedServiceStep[];
    readonly acceptance: readonly Remark[];
    readonly log: readonly Remark[];
    readonly seconds: number;
}

/** What opened parts to look at, and which elements are new. */
export interface Done {
    readonly renewed: ReadonlySet<Id>;
    readonly opened: readonly Id[];
    /** Vents that were bled, in order. */
    readonly bled?: readonly Id[];
}

/** Start, small air out at fast idle, all joints, load, gauges, and stop. A heater is run; what only exchanges heat is looked at. */
export function verify(visit: Visit, consumer: Consumer, done: Done): Verified {
    const { id } = consumer;
    const looking = planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' });
    if (!isMotor(consumer)) {
        const runs = consumer.kind === 'heater' ? [planned('verify', { do: 'run', part: id, seconds: HEATS })] : [];
        const stops = runs.length > 0 ? [planned('verify', { do: 'stop', part: id })] : [];
        return { steps: [...runs, looking, ...stops], acceptance: [], log: [], seconds: runs.length > 0 ? HEATS : 60 };
    }
    const start = startStep(consumer);
    if (start.do !== 'start') return { steps: [looking], acceptance: [], log: [], seconds: 60 };
    const speed = loadedSpeed(visit, consumer);
    const isEngine = consumer.kind === 'engine';
    const readings = gaugesOf(visit, consumer).map((gauge) => reading(visit, consumer, gauge, speed, done));
    const steps = [
        planned('start', start, { say: 'if it does not start', with: { engine: id, ...(start.budget !== undefined && { budget: start.budget }), ...lastBled(consumer, done) } },
            consumer.injection?.pump === 'common-rail' ? { say: 'rail purges itself', with: { engine: id } } : undefined),
        planned('verify', isEngine ? { do: 'run', part: id, speed: Math.min(FAST_IDLE, speed ?? FAST_IDLE), seconds: IDLES } : { do: 'run', part: id, ...(speed !== undefined && { speed }), seconds: IDLES }),
        looking,
        planned('verify', { do: 'run', part: id, ...(speed !== undefined && { speed }), seconds: LOADED, ...(isEngine && { inGear: true as const }) }, isEngine ? { say: 'moored for load', with: { engine: id } } : undefined),
        ...readings,
        planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }),
        planned('verify', { do: 'stop', part: id }),
    ];
    const gauges = readings.flatMap(({ step }) => (step.do === 'read' ? [step] : []));
    return {
        steps, seconds: IDLES + LOADED + 120,
        acceptance: [
            { say: 'starts within', with: { engine: id, tries: start.tries, seconds: start.seconds } },
            ...gauges.flatMap(({ gauge, expect, speed: at }): Remark[] => (expect ? [{ say: 'gauge between', with: { gauge, low: expect.low, high: expect.high, ...(at !== undefined && { speed: at }) } }] : [])),
        ],
        log: gauges.map(({ gauge, speed: at }) => ({ say: 'log reading', with: { gauge, ...(at !== undefined && { speed: at }) } })),
    };
}

/** Where it is bled again if it does not start: its own last bleed point, or that which was bled last. */
function lastBled({ vents }: Consumer, { bled = [] }: Done): { readonly vent?: Id } {
    const vent = bled.findLast((id) => vents.some((own) => own.id === id)) ?? bled.at(-1);
    return vent === undefined ? {} : { vent };
}

/** Gauges on the supply, from the tank on. */
export function gaugesOf({ network, ends, boat }: Visit, { id }: Consumer): Id[] {
    const before = partsBefore(running(network, ends.positions), `${id}:in`);
    return boat.parts.filter((part) => part.kind === 'gauge' && before.has(part.id)).map((part) => part.id);
}

function reading(visit: Visit, consumer: Consumer, gauge: Id, speed: number | undefined, done: Done): PlannedServiceStep {
    const expect = speed === undefined ? undefined : expected(visit, gauge, speed, done);
    const { renewed, old } = elementsBefore(visit, gauge, done);
    return planned('verify', { do: 'read', gauge, ...(expect && { expect }), ...(speed !== undefined && { speed }) },
        expect ? { say: 'new baseline', with: { gauge, renewed, old, level: visit.request.today ? 'as today' : 'half full' } } : { say: 'no figure for gauge', with: { gauge, consumer: consumer.id } });
}

/** Filters whose drop a gauge shows: those with a new element, and those with the old one. */
function elementsBefore({ network, ends, boat }: Visit, gauge: Id, { renewed }: Done): { readonly renewed: readonly Id[]; readonly old: readonly Id[] } {
    const before = partsBefore(running(network, ends.positions), `${gauge}:in`);
    const filters = boat.parts.filter(({ id, kind }) => kind === 'filter' && before.has(id)).map(({ id }) => id);
    return { renewed: filters.filter((id) => renewed.has(id)), old: filters.filter((id) => !renewed.has(id)) };
}

/** With the tanks half full or as they are today, every guess at its least and most, elements new or as dirty as they may be: with the gauge's own error. Pa. */
export function expected(visit: Visit, gauge: Id, speed: number, done: Done): { readonly low: number; readonly high: number } | undefined {
    const { boat, network, ends, request: { today } } = visit;
    const level = today?.volumes ?? keep(boat, 'half full', () => atLevel(boat, 0.5));
    const elements: readonly NonNullable<Asked['elements']>[] = elementsBefore(visit, gauge, done).old.length === 0 ? ['clean'] : ['clean', 'dirty'];
    const reads = (element: NonNullable<Asked['elements']>, guess: Guess): number | undefined => {
        const find = (): number | undefined => gaugeTold(flowIn(network, { lineUp: ends, attitude: today?.attitude ?? UPRIGHT, level, speed, elements: element, guess }), `${gauge}:in`);
        return today ? find() : keep(boat, `gauge ${gauge} ${ends.id} ${speed} ${element} ${guess}`, find);
    };
    const found = elements.flatMap((element) => (['least', 'likely', 'most'] as const).map((guess) => reads(element, guess)));
    if (found.includes(undefined)) return undefined;
    const [low, high] = [Math.min(...(found as number[])) - OFF, Math.max(...(found as number[])) + OFF];
    // A gauge that reads one way alone stays at nought on the other side.
    const shows = network.parts.get(gauge)?.reads;
    if ((shows === 'vacuum' && low >= 0) || (shows === 'pressure' && high <= 0)) return undefined;
    return { low: shows === 'pressure' ? Math.max(0, low) : low, high: shows === 'vacuum' ? Math.min(0, high) : high };
}
