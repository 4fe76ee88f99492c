/** The bleed sequence for any set of opened parts, on any network: what is full of air, which vents, in what order, by what. */
import type { Boat, Consumer, Id } from '../model/boat';
import type { MissingFact } from '../model/finding';
import type { Driver, Step } from '../model/step';
import { afterOpening, afterRunningDry, type Gas } from '../analysis/air/opened';
import { Pumping, pumpingOf } from '../analysis/air/pumping';
import { SWEEP } from '../analysis/air/sweeping';
import { segmentOf, ventsOf } from '../analysis/air/vents';
import { fluidOf } from '../analysis/flow/fluid';
import { crankBudget } from '../analysis/time/exhaust';
import { capital } from '../model/words';
import { ganged, lineUpsOf, normalLineUp, handPositions, runLineUps, serviceLineUp, type ResolvedLineUp } from '../analysis/topology/line-ups';
import { isValve, networkOf, type Network, type Positions } from '../analysis/topology/network';
import { connectedTo, partsBefore, running, tanksBefore } from '../analysis/topology/paths';
import { STARTER, floodCaution, openingCautions, startCautions, type Caution } from './cautions';
import { airBefore, mayPrefill, run, type Bench } from './executor';
import { drawUp, expectationOf, trapsOf, type DrawUp, type Trap } from './expected';
import { search, type Found } from './search';
import { startState, type BenchState } from './state';

export interface BleedRequest {
    readonly engine: Id;
    /** Parts that were opened and closed again, empty. */
    readonly opened: readonly Id[];
    readonly ranDry?: boolean;
    /** Of the opened parts, those that were filled by hand before they were closed. */
    readonly prefilled?: readonly Id[];
    /** The tank to bleed from. */
    readonly from?: Id;
    /** Line-ups to start from and to end in; by default the first for service and the normal one. */
    readonly starts?: Id;
    readonly ends?: Id;
}

export interface PlannedStep {
    readonly step: Step;
    readonly cautions: readonly Caution[];
    /** Crests on the way that hold air and that the driver sweeps slowly, m/s. */
    readonly traps: readonly Trap[];
    /** Where the pump must lift before anything comes. */
    readonly drawUp?: DrawUp;
}

export interface BleedPlan {
    readonly engine: Id;
    readonly request: BleedRequest;
    readonly starts: Id;
    readonly ends: Id;
    readonly fluid: 'fuel' | 'coolant';
    /** What does not hold fuel at the start. */
    readonly air: Gas;
    readonly steps: readonly PlannedStep[];
    /** Other consumers before which air may stand, from the opening or pushed there: to be bled after this. */
    readonly tainted: readonly Id[];
    /** Opened parts that still hold air, off line in the end line-up; and a line-up to end in that clears each, when there is one. */
    readonly left: readonly { readonly part: Id; readonly ends?: Id }[];
    /** Defaults that were taken because nothing was said. */
    readonly defaults: readonly string[];
}

export interface Refusal {
    readonly refused: string;
    /** Not that there is no way, but that there are too many to look through. */
    readonly gaveUp?: true;
    readonly missing: readonly MissingFact[];
}

/** A single attempt at the starter, and the budget in all when the muffler's volume is not known, s: common practice. */
export const ATTEMPT = 10;
const BUDGET_UNKNOWN = 30;
/** No more is ever told, whatever the figures say: twice the 30 to 45 s of common practice, and more would hurt the starter. */
const MOST_BUDGET = 90;
/** A budget below this is a slip in the figures, s. */
const LEAST_BUDGET = 3;

/** What a request means on this boat: the line-ups it starts and ends in, and what holds air at the start. */
export interface SetUp {
    readonly consumer: Consumer;
    readonly starts: ResolvedLineUp;
    readonly ends: ResolvedLineUp;
    readonly pumping: Pumping;
    readonly gas: Gas;
    readonly bench: Bench;
}

export function setUp(boat: Boat, request: BleedRequest): SetUp | Refusal {
    const consumer = boat.consumers.find((other) => other.id === request.engine);
    if (!consumer) return refusal(`There is no engine or other consumer called ${request.engine}.`);
    const lineUps = lineUpsOf(boat);
    const named = (id: Id | undefined): ResolvedLineUp | undefined => lineUps.find((lineUp) => lineUp.id === id);
    const ends = request.ends === undefined ? normalLineUp(boat, lineUps) : named(request.ends);
    if (!ends) return refusal(`There is no line-up called ${request.ends}.`);
    const network = networkOf(boat);
    const connected = connectedTo(network, consumer.id);
    const starts = request.starts === undefined ? serviceLineUp(lineUps, connected, ends) : named(request.starts);
    if (!starts) return refusal(`There is no line-up called ${request.starts}.`);
    const strangers = request.opened.filter((id) => !network.through.has(id));
    if (strangers.length > 0) return refusal(`There is no part called ${strangers.join(', ')} that liquid passes.`);
    const elsewhere = request.opened.filter((id) => !connected.has(id));
    if (elsewhere.length > 0) return refusal(`${elsewhere.join(', ')} is not on the lines of ${consumer.id}. Ask for the engine that it serves.`);

    const notOpened = (request.prefilled ?? []).filter((id) => !request.opened.includes(id));
    if (notOpened.length > 0) return refusal(`${notOpened.join(', ')} cannot have been filled by hand without being opened: name ${notOpened.length > 1 ? 'them' : 'it'} as opened too.`);
    if (request.ranDry && request.opened.length > 0) return refusal('After running dry everything is full of air, opened or not. Ask for the one or the other.');

    const pumping = pumpingOf(network);
    const gas = new Map(request.ranDry ? afterRunningDry(running(network, ends.positions), consumer.id) : afterOpening(pumping.lineUp(starts.positions), request.opened));
    const prefilled = new Set(request.prefilled ?? []);
    for (const id of prefilled) if (gas.has(id)) gas.set(id, 'unknown');
    const bench = benchOf(boat, consumer.id, request.opened.filter((id) => !prefilled.has(id)));
    const unfit = [...prefilled].filter((id) => !mayPrefill(bench, id));
    if (unfit.length > 0) return refusal(`${unfit.join(', ')} may not be filled by hand: fuel poured in there never passes an element. Renew ${unfit.length > 1 ? 'them' : 'it'} dry, then ask again.`);
    return { consumer, starts, ends, pumping, gas, bench };
}

const refusal = (refused: string, missing: readonly MissingFact[] = []): Refusal => ({ refused, missing });

export function planBleed(boat: Boat, request: BleedRequest): BleedPlan | Refusal {
    const set = setUp(boat, request);
    if ('refused' in set) return set;
    const { consumer, starts, ends, pumping, gas, bench } = set;
    const { network } = pumping;
    const fed = feeding(boat, consumer, [starts, ends]);
    if ('refused' in fed) return fed;
    const { tanks, fuel } = fed;
    if (request.from !== undefined && !boat.tanks.some((tank) => tank.id === request.from)) return refusal(`There is no tank called ${request.from}.`);
    if (request.from !== undefined && !tanks.includes(request.from)) return refusal(`In line-up ${ends.id} ${consumer.id} is not fed from ${request.from} but from ${tanks.join(' and ')}. ${drawing(network, consumer.id, request.from, lineUpsOf(boat))}`);
    const found = planFrom(bench, startState(starts.positions, gas), ends, { fed, prefilled: request.prefilled ?? [], others: true });
    if ('refused' in found) return found;
    return {
        engine: consumer.id, request, starts: starts.id, ends: ends.id, fluid: fuel ? 'fuel' : 'coolant', air: gas, steps: found.steps,
        left: request.opened.filter((id) => found.state.gas.has(id) && !pumping.before(consumer.id, ends.positions).has(id)).map((part) => ({ part, ...onLine(pumping, part, consumer.id, lineUpsOf(boat)) })),
        tainted: othersWithAir(bench, found.state, ends, request.ranDry ? tanks : []), defaults: defaults(boat, consumer, tanks, starts, ends, found.steps),
    };
}

/** The bench on which one consumer is bled, after these parts were opened. */
export const benchOf = (boat: Boat, consumer: Id, opened: Iterable<Id> = []): Bench =>
    ({ pumping: pumpingOf(networkOf(boat)), consumer, opened: new Set(opened), level: boat.vessel.envelope.level?.low });

/** What feeds a consumer in the line-up that is to be reached, the last that is given. */
export interface Feeding {
    readonly tanks: readonly Id[];
    readonly fuel: boolean;
}

export function feeding(boat: Boat, consumer: Consumer, lineUps: readonly ResolvedLineUp[]): Feeding | Refusal {
    const ends = lineUps.at(-1)!;
    const tanks = tanksBefore(running(networkOf(boat), ends.positions), `${consumer.id}:in`);
    const missing = missingFacts(boat, consumer, lineUps, tanks);
    if (missing.length > 0) return refusal('A fact that safety needs is missing, so no sequence is written.', missing);
    if (tanks.length === 0) return refusal(`In line-up ${ends.id} no tank feeds ${consumer.id}.`);
    if (consumer.exhaust?.kind === 'wet' && (crankBudget(consumer) ?? BUDGET_UNKNOWN) < LEAST_BUDGET) {
        return refusal(`Cranking would flood the muffler of ${consumer.id} within seconds. Check its free volume, the raw-water flow and the cranking speed.`);
    }
    return { tanks, fuel: isFuel(boat, tanks) };
}

export interface FoundFrom {
    readonly steps: readonly PlannedStep[];
    /** As it is after them. */
    readonly state: BenchState;
}

/** The same from any positions and contents on: what bleeds the consumer of the bench and sets its valves as they are in the end. */
export function planFrom(bench: Bench, start: BenchState, ends: ResolvedLineUp, { fed, prefilled = [], others = false }: {
    readonly fed?: Feeding;
    /** Parts that were filled by hand. */
    readonly prefilled?: Iterable<Id>;
    /** Whether valves of other systems are set too. */
    readonly others?: boolean;
} = {}): FoundFrom | Refusal {
    const { network } = bench.pumping;
    const consumer = network.consumers.get(bench.consumer);
    if (!consumer) return refusal(`There is no engine or other consumer called ${bench.consumer}.`);
    const setting = fed ?? feeding(network.boat, consumer, [ends]);
    if ('refused' in setting) return setting;
    const found = searchFrom(bench, start, ends);
    if ('refused' in found) return found;
    const steps = [...found.steps, ...(others ? otherValves(network, found.state.positions, ends) : [])];
    return { steps: plan(bench, consumer, start, steps, { ...setting, prefilled: new Set(prefilled) }), state: found.state };
}

/** The steps alone, with nothing told of them. */
export function searchFrom(bench: Bench, start: BenchState, ends: ResolvedLineUp): Found | Refusal {
    const found = search(bench, start, ends.positions, preference(bench));
    if (found === 'too many ways') return { ...refusal('There are more ways to set the valves than could be looked through. Name a line-up that starts nearer to the run line-up.'), gaveUp: true };
    return found === 'none' ? refusal(noWay(bench, start, ends)) : found;
}

function drawing(network: Network, consumer: Id, tank: Id, lineUps: readonly ResolvedLineUp[]): string {
    const found = lineUps.filter((lineUp) => tanksBefore(running(network, lineUp.positions), `${consumer}:in`).includes(tank)).map(({ id }) => id);
    return found.length > 0 ? `End in ${found.join(' or ')}, which ${found.length > 1 ? 'draw' : 'draws'} from ${tank}.` : `No line-up draws from ${tank}; write one.`;
}

/** Valves of other systems that the start line-up places otherwise than the end: set last, so that the end is reached. */
export function otherValves(network: Network, positions: Positions, ends: ResolvedLineUp): Step[] {
    return [...ends.positions].filter(([valve, position]) => positions.get(valve) !== position && ganged(network.boat, valve)[0] === valve)
        .map(([part, position]) => ({ do: 'set', part, position }));
}

/** The first line-up in which the part lies between a tank and the consumer. */
export function onLine(pumping: Pumping, part: Id, consumer: Id, lineUps: readonly ResolvedLineUp[]): { ends?: Id } {
    const found = runLineUps(lineUps).find((lineUp) => pumping.before(consumer, lineUp.positions).has(part));
    return found ? { ends: found.id } : {};
}

export const isFuel = (boat: Boat, tanks: readonly Id[]): boolean => boat.tanks.filter((tank) => tanks.includes(tank.id)).every((tank) => (tank.carries ?? 'diesel') === 'diesel');

/** What the bleed sequence of each engine and generator still needs before it can be written. */
export function factsForBleeding(boat: Boat): { readonly engine: Id; readonly fact: MissingFact }[] {
    const lineUps = lineUpsOf(boat);
    const ends = normalLineUp(boat, lineUps);
    if (!ends) return [];
    const runningThere = running(networkOf(boat), ends.positions);
    return boat.consumers.flatMap((consumer) => {
        const tanks = tanksBefore(runningThere, `${consumer.id}:in`);
        return tanks.length === 0 ? [] : missingFacts(boat, consumer, [ends], tanks).map((fact) => ({ engine: consumer.id, fact }));
    });
}

/** Without these a sequence could hurt someone or end in the wrong place. */
export function missingFacts(boat: Boat, consumer: Consumer, lineUps: readonly ResolvedLineUp[], tanks: readonly Id[]): MissingFact[] {
    const found: MissingFact[] = [];
    const { id } = consumer;
    const burnsFuel = (consumer.kind === 'engine' || consumer.kind === 'generator') && isFuel(boat, tanks);
    if (burnsFuel && !consumer.injection) found.push({ about: id, fact: `how ${id} injects`, how: 'read the engine plate or the maker\'s book, and write for example `injection in-line mechanical`' });
    if (burnsFuel && !consumer.exhaust) found.push({ about: id, fact: `whether the exhaust of ${id} is wet or dry`, how: 'look whether water is injected at the elbow, and write `exhaust wet` or `exhaust dry`' });
    if (burnsFuel && consumer.vents.length === 0 && !consumer.selfBleeding) found.push({ about: id, fact: `where low pressure ends in ${id}`, how: 'list its bleed points in the maker\'s order, like `bleed BS3 "gallery"`, or write `self-bleeding`' });
    for (const lineUp of lineUps) for (const valve of lineUp.unplaced) {
        if (!found.some((fact) => fact.about === valve)) found.push({ about: valve, fact: `the position of ${valve} in line-up ${lineUp.id}`, how: `decide it, and write it into the line-up, like \`${valve} ${boat.parts.find((part) => part.id === valve)?.positions[0]?.name ?? 'OPEN'}\`` });
    }
    return found;
}

/** Gravity first; then what moves most; at the engine's own vents the lever, since the engine will run on that pump. */
function preference(bench: Bench): (state: BenchState, vent: Id, driver: Driver) => number {
    const { network } = bench.pumping;
    return (state, vent, driver) => {
        const atEngine = segmentOf(network, vent) === bench.consumer;
        const order = atEngine ? ['gravity', 'lever', 'hand', 'electric'] : ['gravity', 'hand', 'electric', 'lever'];
        const slow = trapsOf(bench, state, { do: 'bleed', vent, driver }).some(({ speed }) => speed === undefined || speed < SWEEP);
        return order.indexOf(driver.by) + (slow ? 100 : 0);
    };
}

interface Setting extends Feeding {
    readonly prefilled: ReadonlySet<Id>;
}

/** The steps found, with what to expect, what to beware of, the proof of the lift pump and the start. */
function plan(bench: Bench, consumer: Consumer, start: BenchState, steps: readonly Step[], setting: Setting): PlannedStep[] {
    const { network } = bench.pumping;
    const { boat } = network;
    const planned: PlannedStep[] = [];
    let state = start;
    let warned = false;
    const lever = levers(network, consumer.id)[0];
    let proven = lever === undefined;
    const warn = (): Caution[] => {
        if (warned) return [];
        warned = true;
        return openingCautions(setting.fuel);
    };
    for (const step of steps) {
        if (step.do === 'bleed') {
            if (!proven && step.driver.by === 'lever') proven = prove(bench, state, planned, lever!);
            const stops = stopping(network, state.positions, segmentOf(network, step.vent)!);
            const cautions = [...warn(), ...floodCaution(boat, setting.tanks, step.vent, stops, setting.fuel), ...(step.driver.by === 'lever' && !mentions(planned, 'starter') ? [STARTER] : [])];
            const expect = expectationOf(bench, state, step, setting.prefilled);
            const lifts = drawUp(bench, state, step);
            planned.push({ step: { ...step, ...(expect && { expect }) }, cautions, traps: trapsOf(bench, state, step), ...(lifts && { drawUp: lifts }) });
        } else planned.push({ step, cautions: warn(), traps: [] });
        state = run(bench, state, step).state;
    }
    if (!proven) prove(bench, state, planned, lever!);
    if (setting.fuel && (consumer.kind === 'engine' || consumer.kind === 'generator')) planned.push({ step: startStep(consumer), cautions: startCautions(consumer), traps: [] });
    return planned;
}

const mentions = (planned: readonly PlannedStep[], topic: Caution['topic']): boolean => planned.some((step) => step.cautions.some((caution) => caution.topic === topic));

/** The open shutoff that alone cuts a part off from every tank, the one nearest to the tanks; else all that do it together. */
function stopping(network: Network, positions: Positions, part: Id): Id[] {
    const inlet = `${part}:in`;
    const reaching = (shut: readonly Id[]): readonly Id[] => tanksBefore(running(network, new Map([...positions, ...shut.map((id) => [id, 'shut'] as const)])), inlet);
    const open = network.boat.parts.filter((other) => other.kind === 'shutoff' && positions.get(other.id) === 'open' && handPositions(other).includes('shut')).map((other) => other.id);
    const all = partsBefore(running(network, positions), inlet);
    // A valve that is on no way stops nothing, unless nothing comes as it is.
    const alone = open.filter((id) => (all.size === 0 || all.has(id)) && reaching([id]).length === 0);
    if (alone.length > 0) return [alone.reduce((first, id) => (tanksBefore(running(network, new Map([...positions, [first, 'shut']])), `${id}:in`).length === 0 ? first : id))];
    const together = open.filter((id) => all.has(id));
    return reaching(together).length === 0 ? together : [];
}

/** Lift pumps with a lever on the consumer's supply, the nearest to it first. */
function levers(network: Network, consumer: Id): Id[] {
    const course = network.boat.courses.find((other) => other.service === 'supply' && other.to.part === consumer);
    return [...(course?.parts ?? [])].reverse().filter((id) => network.parts.get(id)?.kind === 'lift pump');
}

/** Proves the lever at the last vent bled downstream of it, so that what the engine will run on is seen to draw. */
function prove(bench: Bench, state: BenchState, planned: PlannedStep[], lever: Id): boolean {
    const vents = planned.flatMap(({ step }) => (step.do === 'bleed' && step.driver.part !== lever ? [step.vent] : [])).reverse();
    const vent = vents.find((other) => run(bench, state, { do: 'prove', part: lever, vent: other, strokes: 10 }).broken.length === 0);
    if (vent !== undefined) planned.push({ step: { do: 'prove', part: lever, vent, strokes: 10 }, cautions: mentions(planned, 'starter') ? [] : [STARTER], traps: [] });
    return vent !== undefined;
}

/** Seconds of cranking in all that a wet exhaust takes: reckoned, or of common practice. */
export const budgetOf = (consumer: Pick<Consumer, 'exhaust'>): number => Math.min(crankBudget(consumer) ?? BUDGET_UNKNOWN, MOST_BUDGET);

export function startStep(consumer: Consumer): Step {
    const { exhaust } = consumer;
    if (exhaust?.kind !== 'wet') return { do: 'start', engine: consumer.id, tries: 3, seconds: ATTEMPT };
    const budget = Math.floor(budgetOf(consumer));
    const seconds = Math.min(ATTEMPT, budget);
    return { do: 'start', engine: consumer.id, tries: Math.max(1, Math.min(2, Math.floor(budget / seconds))), seconds, seacock: 'open', budget };
}

/** Other consumers before which air may stand at the end, and those that draw from a tank that ran dry. */
function othersWithAir(bench: Bench, state: BenchState, ends: ResolvedLineUp, dry: readonly Id[]): Id[] {
    const { network } = bench.pumping;
    const linedUp = running(network, ends.positions);
    return [...network.consumers.keys()].filter((id) => id !== bench.consumer
        && (airBefore(bench, state, id, ends.positions).length > 0 || tanksBefore(linedUp, `${id}:in`).some((tank) => dry.includes(tank))));
}

export function defaults(boat: Boat, consumer: Consumer, tanks: readonly Id[], starts: ResolvedLineUp, ends: ResolvedLineUp, planned: readonly PlannedStep[]): string[] {
    const found: string[] = [];
    const levers = new Set(planned.flatMap(({ step }) => (step.do === 'bleed' && step.driver.by === 'lever' ? [step.driver.part] : step.do === 'prove' ? [step.part] : [])));
    for (const id of levers) if (!boat.parts.find((part) => part.id === id)?.stroke) found.push(`${id} has a hand lever (its stroke is not stated)`);
    for (const tank of boat.tanks) if (tanks.includes(tank.id) && !tank.carries) found.push(`${tank.id} carries diesel (not stated)`);
    const drains = planned.flatMap(({ step }) => (step.do === 'bleed' && step.driver.by === 'gravity' && step.expect ? [step.driver.part] : []));
    for (const taken of new Set(boat.tanks.filter(({ id }) => drains.includes(id)).flatMap((tank) => fluidOf(boat.vessel, tank.carries).taken))) found.push(taken);
    for (const id of new Set([...starts.assumedOpen, ...ends.assumedOpen])) found.push(`${id} is open where no line-up places it (not stated)`);
    if (consumer.selfBleeding) found.push(`${consumer.id} clears by itself, when it runs, what air reaches it with no bleed point on the way (stated: self-bleeding)`);
    if (boat.lineUps.length === 0) found.push('the only line-up is RUN, with every valve open (none is declared)');
    if (consumer.exhaust?.kind === 'wet' && crankBudget(consumer) === undefined) {
        found.push(`${BUDGET_UNKNOWN} s of cranking in all (common practice; the free volume of the muffler, the raw-water flow or the cranking speed of ${consumer.id} is not stated)`);
    }
    return found;
}

/** Why there is no sequence: the first part that no driver can serve, and what would serve it. */
function noWay(bench: Bench, state: BenchState, ends: ResolvedLineUp): string {
    const { network } = bench.pumping;
    const order = [...network.parts.keys(), bench.consumer];
    const airy = airBefore(bench, state, bench.consumer, ends.positions).sort((a, b) => order.indexOf(a) - order.indexOf(b));
    const pumps: Driver[] = network.boat.parts.flatMap((part): Driver[] =>
        part.kind === 'hand primer' ? [{ by: 'hand', part: part.id }] : part.kind === 'lift pump' ? [{ by: 'lever', part: part.id }] : part.kind.startsWith('electric') ? [{ by: 'electric', part: part.id }] : []);
    const stuck = airy.find((id) => {
        const vents = ventsOf(network, id);
        return vents.length > 0 && !state.topped.has(id) && !vents.some((vent) => pumps.some((driver) => !('law' in bench.pumping.flow(vent, driver, bench.consumer, ends.positions))));
    });
    if (stuck !== undefined) {
        const vents = ventsOf(network, stuck).join(', ');
        const byHand = !mayPrefill(bench, stuck) ? `and it may not be filled by hand. Fit a hand primer between the tank and ${stuck}, or allow it to be prefilled`
            : bench.opened.has(stuck) ? `and it cannot be filled by hand while a tank reaches it. Start from a line-up that shuts it off`
                : `and it was not named as opened, so it is not filled by hand. Open ${stuck}, fill it, and name it as opened`;
        return `${stuck} cannot be bled: no pump upstream of ${vents} can push fuel to it, no tank is proven to stand 50 mm above it, ${byHand}.`;
    }
    // Lines that join before a pump and may hold air: the pump would draw it in.
    const drawn = new Map<Id, Id>();
    for (const driver of pumps) for (const id of airy) for (const vent of ventsOf(network, id)) {
        const flow = bench.pumping.flow(vent, driver, bench.consumer, ends.positions);
        if (!('law' in flow)) for (const other of flow.beside) if (state.gas.has(other) && network.parts.has(other) && !drawn.has(other)) drawn.set(other, driver.part);
    }
    const joining = [...drawn].map(([id, pump]) => ` ${capital(network.parts.get(id)?.name ?? id)} may hold air and joins before ${pump}, which would draw it in.`).join('');
    const fixed = [...network.parts.values()].filter((part) => isValve(part) && handPositions(part).length === 0).map((part) => part.id);
    return 'No setting of the valves lets every part be bled with no air drawn in and no return shut.'
        + (airy.length > 0 ? ` Air would stay in ${airy.join(', ')}.` : '') + joining + (fixed.length > 0 ? ` ${fixed.join(', ')} cannot be turned by hand.` : '');
}
