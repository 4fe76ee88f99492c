/**
 * What every visit has around its work: prepare, isolate, prove that the valves hold, catch what comes, and when all is closed restore, bleed,
 * start, verify and finish. One isolation and one bleed for all the jobs that are done together.
 */
import type { Consumer, Id, Job } from '../../model/boat';
import type { MissingFact } from '../../model/finding';
import type { Driver } from '../../model/step';
import { listed } from '../../model/words';
import { afterOpening } from '../../analysis/air/opened';
import { segmentOf, ventsOf } from '../../analysis/air/vents';
import { runLineUps, turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { distinct } from '../../analysis/missing';
import { open } from '../../analysis/opening/open';
import { openingNamed } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { waysTo } from '../../analysis/opening/ways';
import { running, tanksBefore } from '../../analysis/topology/paths';
import { volumeOf } from '../../analysis/volumes';
import { benchOf, isFuel, missingFacts } from '../bleed';
import { run } from '../executor';
import { expectationOf } from '../expected';
import { startState, type BenchState } from '../state';
import { bleedingSteps, isPumped, peopleFor, streamsOf } from './bleeding-steps';
import { bleedAll, byRank, fillable, toFill, type Bled } from './bleeding';
import { airBy, byReturn, canFor, comesOut, drainsWhere, proof, type Comes } from './drains';
import { afterSettings, isolationOf, upright, type Isolated } from './cut-off';
import { groundOf } from './ground';
import { needsOf } from './needs';
import { jobWords, type Blank, type PlannedServiceStep, type ProcedurePlan } from './plan';
import type { Opened, Work } from './recipes/recipe';
import { fillingWork } from './recipes/filter';
import { driverOf, oneTurned } from './drivers';
import { drainSeals } from './recipes/pieces';
import type { Remark } from './remarks';
import { planned, remarked } from './step-of';
import { isMotor } from './stage';
import { verify } from './verify';
import { allOpen, keep, type Visit } from './visit';

export interface JobWork {
    /** Absent for what the visit needs besides: a filter that must be filled by hand. It is opened first and closed last. */
    readonly job?: Job;
    readonly work: Work;
}

/** Until the stream at an opening dies when what hangs in the part has run out, s: trade practice. */
const DIES_WITHIN = 10;
/** Pads in all at least, of a litre each; under what is opened, and under what is only bled: trade practice. */
const PADS_LEAST = 4;
const PADS_OPENED = 2;
/** s: to prepare and clean up, and for each vent beside the pumping. */
const FRAME_TAKES = 600;
const VENT_TAKES = 90;

export function framed(visit: Visit, asked: readonly JobWork[]): Omit<ProcedurePlan, 'id' | 'request' | 'jobs'> | Blank {
    const needed = asked.filter((own) => !isCovered(own, asked));
    const works = needed.map(({ work }) => work);
    const opened = works.flatMap(({ opens }) => opens);
    const parts = [...new Set(opened.map(({ part }) => part))];
    const isolated = isolationOf(visit, opened);
    if ('blank' in isolated) return isolated;
    const touched = [...new Set([...parts, ...works.flatMap(({ touches }) => touches ?? [])])];
    const consumers = consumersOf(visit, touched, isolated);
    const fluid = fluidOf(visit, touched);
    const lacking = lackingFor(visit, consumers.filter(isMotor), fluid);
    if (lacking) return lacking;

    const start = stateAfter(visit, parts, isolated);
    const filled = fillable(visit, start, parts.filter((part) => opened.some((one) => one.part === part && one.opening !== 'drain')));
    const state: BenchState = { ...start, gas: new Map([...start.gas].map(([id, content]) => [id, filled.includes(id) ? 'unknown' : content])), topped: new Set(filled) };
    const bled = bleedAll(visit, state);
    if ('refused' in bled) return filledToo(visit, asked, start) ?? { blank: bled.refused, missing: bled.missing };

    const jobs = inOrder(visit, needed, filled, isolated);
    const afterwards = works.flatMap((work) => work.afterwards ?? []);
    const streams = streamsOf(visit, [...bled.steps, ...afterwards].map(({ step }) => step));
    const middle = middleOf(visit, jobs, isolated, streams);
    const prefills = new Map(filled.map((part) => [part, planned('close', { do: 'prefill', part }, ...fillingRemarks(visit, part, start, bled))]));
    const closing = middle.flatMap((step) => (step.step.do === 'close' && step.step.opening !== 'drain' && prefills.has(step.step.part) ? [prefills.get(step.step.part)!, step] : [step]));
    const bleeding = bleedingSteps(visit, bled, afterwards, parts, streams, consumers, fluid);
    const named = asked.flatMap(({ job }) => job ?? []);
    const bleeds = bled.steps.flatMap(({ step }) => (step.do === 'bleed' ? [step.vent] : []));
    const done = { bled: bleeds, renewed: new Set(named.flatMap(({ verb, part, piece }) => (verb === 'renew' && piece === 'element' && part !== undefined ? [part] : []))), opened: parts };
    const verified = byRank(consumers).map((consumer) => verify(visit, consumer, done));
    const isolating = isolateSteps(visit, parts, isolated);
    const steps = [...prepareSteps(visit, consumers, touched, fluid), ...works.flatMap((work) => work.first ?? []), ...isolating.steps, ...closing.map((step, i) => (i === 0 ? remarked(step, ...isolating.notes) : step)), ...bleeding, ...startSteps(consumers, fluid, parts.length > 0 || bleeding.some(({ step }) => isPumped(step))), ...verified.flatMap((each) => each.steps), ...finishSteps(named, works, consumers)];
    const enough = withPads(steps);
    const pieces = works.flatMap((work) => work.parts);
    const motors = consumers.filter(isMotor).map(({ id }) => id);
    return {
        starts: visit.starts.id, ends: visit.ends.id, consumers: consumers.map(({ id }) => id), fluid,
        takes: { seconds: rounded(FRAME_TAKES + works.reduce((sum, { seconds }) => sum + seconds, 0) + bleeds.length * VENT_TAKES + verified.reduce((sum, { seconds }) => sum + seconds, 0)), people: peopleFor(bleeding.map(({ step }) => step)) },
        steps: enough, needs: needsOf(visit, works, enough.map(({ step }) => step), parts.filter((part) => start.gas.has(part))),
        drainsWhere: opened.flatMap((opens) => drainsWhere(visit, opens, isolated) ?? []),
        acceptance: [...verified.flatMap((one) => one.acceptance), ...(parts.length > 0 ? [{ say: 'joints dry', with: { parts } } as const] : []), ...parts.flatMap((part): Remark[] => (visit.network.parts.get(part)?.separatesWater ? [{ say: 'bowl clear', with: { part } }] : [])), { say: 'line-up', with: { lineUp: visit.ends.id } }],
        log: [
            ...named.map((job): Remark => ({ say: 'log job', with: { words: jobWords(job), engines: motors } })), ...verified.flatMap((one) => one.log),
            ...opened.flatMap(({ part, opening }): Remark[] => (opening === 'drain' ? [{ say: 'log water', with: { part } }] : [])),
            ...(bleeds.length > 0 ? [{ say: 'log strokes', with: { vents: bleeds } } as const] : []),
            ...parts.flatMap((part): Remark[] => { const own = pieces.filter((one) => one.part === part && one.piece !== '').map(({ piece }) => piece); return own.length > 0 ? [{ say: 'take from stock', with: { part, pieces: [...new Set(own)] } }] : []; }),
        ],
        after: [...bled.offLine.map(({ part, lineUp }): Remark => ({ say: 'off line', with: { part, lineUp: visit.ends.id, ...(lineUp !== undefined && { bled: lineUp }) } })), ...(parts.length > 0 ? [{ say: 'after one hour', with: { parts } } as const] : []), ...motors.map((engine): Remark => ({ say: 'next cold start', with: { engine } }))],
        defaults: [...new Set([...works.flatMap((work) => work.defaults ?? []), ...defaultsOf(visit, consumers)])],
    };
}

/** What is done besides by more work on the same parts: to renew an element its bowl is drained, looked at and cleaned. */
const EXTENT: readonly string[] = ['drain', 'look', 'clean', 'refit', 'renew'];

function isCovered({ job, work }: JobWork, asked: readonly JobWork[]): boolean {
    const extent = EXTENT.indexOf(job?.verb ?? '');
    const own = asked.findIndex((other) => other.work === work);
    return extent >= 0 && work.opens.length > 0 && asked.some((other, i) => {
        const more = EXTENT.indexOf(other.job?.verb ?? '');
        return i !== own && (more > extent || (more === extent && i < own)) && work.opens.every(({ part, opening }) => other.work.opens.some((one) => one.part === part && one.opening === opening));
    });
}

/** As asked, but that a part which is filled by hand comes after all that would let it run empty again when it is opened. */
function inOrder({ boat }: Visit, jobs: readonly JobWork[], filled: readonly Id[], { positions }: Isolated): readonly JobWork[] {
    const empties = (other: Id, part: Id): boolean => other !== part && groundOf(boat).drained(positions, other).has(part);
    const last = jobs.filter(({ work }, i) => work.opens.some(({ part }) => filled.includes(part) && jobs.slice(i + 1).some((later) => later.work.opens.some((one) => empties(one.part, part)))));
    return [...jobs.filter((job) => !last.includes(job)), ...last];
}

/** Where nothing can bleed a filter that lost its fuel, its lid is opened as well and it is filled by hand, if that is allowed. */
function filledToo(visit: Visit, jobs: readonly JobWork[], { gas }: BenchState): ReturnType<typeof framed> | undefined {
    const opened = jobs.flatMap(({ work }) => work.opens);
    const others = toFill(visit, [...gas.keys()].filter((id) => !opened.some(({ part, opening }) => part === id && opening !== 'drain')));
    if (others.length === 0) return undefined;
    const more = jobs.map(({ job, work }) => {
        const own = others.filter((id) => work.opens.some(({ part }) => part === id)).map((id) => fillingWork(visit, id));
        return { ...(job && { job }), work: own.reduce((sum, one) => ({ ...sum, opens: [...sum.opens, ...one.opens], steps: [...sum.steps, ...one.steps], parts: [...sum.parts, ...one.parts], tools: [...sum.tools ?? [], ...one.tools ?? []], seconds: sum.seconds + one.seconds }), work) };
    });
    const alone = others.filter((id) => !opened.some(({ part }) => part === id)).map((part) => ({ work: fillingWork(visit, part) }));
    const made = framed(visit, [...more, ...alone]);
    return 'blank' in made ? undefined : made;
}

const FIVE_MINUTES = 300;
const rounded = (seconds: number): number => Math.ceil(seconds / FIVE_MINUTES) * FIVE_MINUTES;

/** Those on whose lines the parts lie, and those that the valves leave without fuel or without a return meanwhile. */
export function consumersOf(visit: Visit, parts: readonly Id[], isolated?: Pick<Isolated, 'positions' | 'blocks'>): readonly Consumer[] {
    const { boat, network, starts } = visit;
    const served = new Set(parts.flatMap((part) => groundOf(boat).servedBy(part).map(({ id }) => id)));
    const fed = (consumer: Id, positions: typeof starts.positions): boolean => tanksBefore(running(network, positions), `${consumer}:in`).length > 0;
    return boat.consumers.filter(({ id }) => served.has(id) || isolated?.blocks.includes(id) || (isolated && fed(id, starts.positions) && !fed(id, isolated.positions)));
}

function fluidOf(visit: Visit, parts: readonly Id[]): 'fuel' | 'coolant' {
    const { boat } = visit;
    const tanks = new Set(parts.flatMap((part) => [`${part}:in`, `${part}:out`, part].flatMap((point) => [...tanksBefore(allOpen(visit), point), ...boat.tanks.filter(({ id }) => id === part).map(({ id }) => id)])));
    return isFuel(boat, [...tanks]) ? 'fuel' : 'coolant';
}

/** What must be known of the engines that are started again. */
function lackingFor(visit: Visit, motors: readonly Consumer[], fluid: 'fuel' | 'coolant'): Blank | undefined {
    const { boat, network, starts, ends } = visit;
    if (fluid !== 'fuel') return undefined;
    const missing: MissingFact[] = [];
    for (const consumer of motors) {
        const tanks = tanksBefore(running(network, ends.positions), `${consumer.id}:in`);
        if (tanks.length === 0) return { blank: `In line-up ${ends.id} no tank feeds ${consumer.id}, so it could not be started to see that all is well. End in a line-up that feeds it.`, missing: [] };
        missing.push(...missingFacts(boat, consumer, [starts, ends], tanks));
    }
    if (missing.length === 0) return undefined;
    const facts = distinct(missing);
    return { blank: `The engine is started when all is closed again, and for that a fact that safety needs is missing: ${listed(facts.map(({ fact }) => fact))}.`, missing: facts };
}

function prepareSteps({ boat }: Visit, consumers: readonly Consumer[], parts: readonly Id[], fluid: 'fuel' | 'coolant'): PlannedServiceStep[] {
    const served = new Set(parts.flatMap((part) => groundOf(boat).servedBy(part)));
    const stops = byRank(consumers).filter(({ kind }) => kind !== 'exchanger').map((consumer) => planned('prepare', { do: 'stop', part: consumer.id, ...(isMotor(consumer) && { keyOut: true as const }) },
        isMotor(consumer) ? { say: 'cold engine', with: { engine: consumer.id } } : undefined, served.has(consumer) ? undefined : { say: 'also stops', with: { consumers: [consumer.id] } }));
    return [
        ...stops, planned('prepare', { do: 'switch', thing: 'bilge pump', to: 'off' }),
        ...(fluid === 'fuel' && consumers.some(isMotor) ? [planned('prepare', { do: 'switch', thing: 'battery switch', to: 'off' }, { say: 'battery off until start' })] : []),
    ];
}

function isolateSteps(visit: Visit, parts: readonly Id[], { settings, positions, already, uncut }: Isolated): { readonly steps: readonly PlannedServiceStep[]; readonly notes: readonly Remark[] } {
    const { network, starts } = visit;
    const cut = parts.filter((part) => !already.includes(part) && !uncut.some((other) => other.part === part));
    const falls = cut.filter((part) => fallsBack(visit, part));
    /** Tanks that come to parts with the valves so, at rest and no check counted. */
    const coming = (some: readonly Id[], settings: Isolated['settings']): Id[] => { const at = plumbing(network, afterSettings(visit, starts.positions, settings), 'leaky'); return [...new Set(some.flatMap((part) => waysTo(at, part).map(({ tank }) => tank)))]; };
    const steps = settings.map((setting, i) => planned('isolate', { do: 'set', part: setting.part, position: setting.position },
        { say: 'cuts off', with: { valve: setting.part, parts: cut, tanks: coming(cut, settings.filter((other) => other !== setting)) } }, feedsToo(visit, setting.part, positions, parts), i === 0 && falls.length > 0 ? { say: 'keeps the column', with: { valve: setting.part, parts: falls } } : undefined));
    const quiet = parts.filter((part) => already.includes(part));
    const notes: Remark[] = [
        ...(quiet.length > 0 ? [{ say: 'cut off already', with: { parts: quiet } } as const] : []),
        ...uncut.map(({ part, opening }): Remark => ({ say: 'stays dry without a valve', with: { part, opening, tanks: coming([part], settings) } })),
    ];
    return { steps, notes };
}

/** Others that draw through a valve that is set: they get nothing meanwhile, or only what comes another way. */
function feedsToo({ boat, network, pumping, starts }: Visit, valve: Id, positions: Positions, parts: readonly Id[]): Remark | undefined {
    const served = new Set(parts.flatMap((part) => groundOf(boat).servedBy(part)));
    const others = boat.consumers.filter((consumer) => !served.has(consumer) && pumping.before(consumer.id, starts.positions).has(valve)).map(({ id }) => id);
    const stopped = others.filter((id) => tanksBefore(running(network, positions), `${id}:in`).length === 0);
    return others.length > 0 ? { say: 'feeds too', with: { valve, stopped, less: others.filter((id) => !stopped.includes(id)) } } : undefined;
}

/** Whether the column in the lines would run back to a tank if the part were opened with the valves as they are. */
function fallsBack(visit: Visit, part: Id): boolean {
    const { boat, network, starts } = visit;
    const opening = openingNamed(boat, part);
    return opening !== undefined && keep(boat, `falls ${part} ${starts.id}`, () => open(plumbing(network, starts.positions), opening, upright(visit)).falls.parts.length > 0);
}

/** What holds no fuel once all of it was opened, with the valves shut. */
function stateAfter({ pumping }: Visit, parts: readonly Id[], { positions }: Isolated): BenchState {
    return startState(positions, new Map(parts.length > 0 ? afterOpening(pumping.lineUp(positions), parts) : []));
}

/** Each job by itself: catch, open, work, close; what must only be filled stands open around them. The first stream that can tell proves the valves. */
function middleOf(visit: Visit, jobs: readonly JobWork[], isolated: Isolated, streams: ReadonlyMap<Id, Comes>): PlannedServiceStep[] {
    const caught = new Set<Id>();
    const all = jobs.flatMap(({ work }) => work.opens);
    const valves = isolated.settings.map((setting) => setting.part);
    let proven = valves.length === 0;
    const catching = (part: Id): PlannedServiceStep[] => {
        if (caught.has(part)) return [];
        caught.add(part);
        const comes = comesOut(visit, all.filter((other) => other.part === part), isolated.positions);
        return [
            planned('open', { do: 'place', thing: 'pads', part, count: PADS_OPENED }),
            // What is bled there later runs into the same can.
            planned('open', { do: 'place', thing: 'can', part, holds: Math.max(canFor(comes), canFor(together(comes, streams.get(part)), 1)) },
                { say: 'comes', with: { part, ...(comes.volume > 0 && { volume: comes.volume }), ...ownOf(visit, part, comes), more: comes.unknown } }),
        ];
    };
    const opening = (one: Opened): PlannedServiceStep => {
        const { part, opening: name } = one;
        const proves = proven ? { does: 'nothing' as const, remarks: [] } : proof(visit, one, isolated);
        const where = drainsWhere(visit, one, isolated);
        const water: Remark | undefined = name === 'drain' ? { say: 'note water', with: { part } } : undefined;
        const remarks = [...proves.remarks, ...(where ? byReturn(where) : [])];
        const full: Remark | undefined = name === 'ports' && !all.some((other) => other.part === part && other.opening === 'drain') ? { say: 'comes off full', with: { part, ...volumeSaid(visit, part) } } : undefined;
        if (proves.does === 'nothing') return planned('open', { do: 'open', part, opening: name }, full, ...remarks, proves.remarks.length > 0 ? { say: 'if it comes', with: { valves, part, opening: name } } : undefined, water);
        proven = true;
        const comes = comesOut(visit, all.filter((other) => other.part === part), isolated.positions);
        const own = ownOf(visit, part, comes);
        const air = airBy(visit, part, all);
        const onlyLoosened = name === 'drain' && ventsOf(visit.network, part)[0] !== air && !all.some((other) => other.part === part && other.opening === air);
        return planned('isolate', { do: 'hold', valves, part, opening: name, within: DIES_WITHIN },
            name === 'drain' ? { say: 'let air in', with: { part, by: air } }
                : name === 'joint' || name === 'ports' ? { say: 'air at the opening', with: { part, opening: name } } : undefined, full,
            { say: 'empties first', with: { part, ...volumeSaid(visit, part), ...(own.own !== undefined && { lines: comes.volume - own.own }) } }, ...remarks, { say: 'if it runs on', with: { valves, part, opening: name } }, onlyLoosened ? { say: 'tight again', with: { part, opening: air } } : undefined, water);
    };
    const begin = ({ work }: JobWork): PlannedServiceStep[] => work.opens.flatMap((one) => { const step = opening(one); return [...catching(one.part).map((catches) => ({ ...catches, section: step.section })), step]; });
    const finish = ({ work }: JobWork): PlannedServiceStep[] => {
        // A drain plug comes out and goes in again while the bowl is empty of what is new.
        const [drains, others] = [work.opens.filter((one) => one.opening === 'drain'), work.opens.filter((one) => one.opening !== 'drain')];
        const fits = others.length > 0 ? work.steps.findIndex(({ step }) => step.do === 'fit') : -1;
        const before = fits < 0 ? work.steps.length : fits;
        return [...work.steps.slice(0, before), ...closeSteps(visit, drains).map((step) => ({ ...step, section: fits < 0 ? step.section : 'renew' as const })), ...work.steps.slice(before), ...closeSteps(visit, others)];
    };
    const [named, besides] = [jobs.filter(({ job }) => job), jobs.filter(({ job }) => !job)];
    return [...besides.flatMap(begin), ...named.flatMap((one) => [...begin(one), ...finish(one)]), ...besides.flatMap(finish)];
}

function closeSteps(visit: Visit, opens: readonly Opened[]): PlannedServiceStep[] {
    return opens.flatMap(({ part, opening }) => {
        const seals = opening === 'drain' ? drainSeals(visit, part) : [];
        const renewing = seals.length > 0 ? [planned('close', { do: 'remove', part, pieces: seals }, { say: 'plug right out', with: { part } }), planned('close', { do: 'fit', part, pieces: seals }, { say: 'oil seals', with: { part, seals } })] : [];
        return [...renewing, planned('close', { do: 'close', part, opening }, { say: 'tighten', with: { part } })];
    });
}

const together = (one: Comes, other: Comes | undefined): Comes => ({ volume: one.volume + (other?.volume ?? 0), unknown: [...one.unknown, ...(other?.unknown ?? [])] });

/** What of it is in the part itself, m³, where the lines above it may add more. */
function ownOf({ boat }: Visit, part: Id, { volume }: Comes): { readonly own?: number } {
    const own = volumeOf(boat, part);
    return own === undefined || !(volume > own + 1e-9) ? {} : { own };
}

function volumeSaid({ boat }: Visit, part: Id): { readonly volume?: number } {
    const volume = volumeOf(boat, part);
    return volume === undefined ? {} : { volume };
}

/** What it saves at the part's own vent, by the same pump from the same valves; or that nothing could push fuel to it. */
function fillingRemarks(visit: Visit, part: Id, empty: BenchState, { steps }: Bled): Remark[] {
    const { boat, network } = visit;
    const how: Remark = { say: 'how to fill', with: { part, ...volumeSaid(visit, part) } };
    const vents = ventsOf(network, part);
    if (vents.length > 0 && !vents.some((vent) => isPushedTo(visit, vent))) return [how, { say: 'must be filled', with: { part } }];
    let positions = empty.positions;
    for (const { step } of steps) {
        if (step.do === 'set') positions = turned(boat, positions, step.part, step.position);
        if (step.do !== 'bleed' || segmentOf(network, step.vent) !== part) continue;
        const dry = groundOf(boat).connected(part).map((consumer) => expectationOf(benchOf(boat, consumer), { ...empty, positions }, step, new Set())).find((found) => found !== undefined);
        return step.expect && dry && dry.in === step.expect.in && dry.likely > step.expect.likely ? [how, { say: 'filling saves', with: { part, vent: step.vent, filled: step.expect.likely, dry: dry.likely, in: dry.in } }] : [how];
    }
    return [how];
}

/** Whether some pump, or the height of a tank, can push fuel to a vent in a line-up for running, as it is or with one valve turned. */
function isPushedTo(visit: Visit, vent: Id): boolean {
    const { boat, network, lineUps, ends } = visit;
    return keep(boat, `pushed to ${vent} ${ends.id}`, () => {
        const drivers = [...boat.tanks.map(({ id }): Driver => ({ by: 'gravity', part: id })), ...boat.parts.flatMap((part) => driverOf(part) ?? [])];
        const near = [...network.consumers.keys()].filter((consumer) => groundOf(boat).connected(segmentOf(network, vent)!).includes(consumer));
        const pushed = (positions: Positions): boolean => drivers.some((driver) => near.some((consumer) => run(benchOf(boat, consumer), startState(positions, new Map()), { do: 'bleed', vent, driver }).broken.length === 0));
        return [ends, ...runLineUps(lineUps)].some(({ positions }) => [...oneTurned(visit, positions, near)].some(([, turnedTo]) => pushed(turnedTo)));
    });
}

/** All joints are dry at rest, and the battery is on, where it was set off. */
function startSteps(consumers: readonly Consumer[], fluid: 'fuel' | 'coolant', wet: boolean): PlannedServiceStep[] {
    if (!consumers.some(isMotor)) return [];
    return [...(wet ? [planned('start', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }, { say: 'dry at rest' })] : []), ...(fluid === 'fuel' ? [planned('start', { do: 'switch', thing: 'battery switch', to: 'on' })] : [])];
}

function finishSteps(jobs: readonly Job[], works: readonly Work[], consumers: readonly Consumer[]): PlannedServiceStep[] {
    const looked = consumers.length > 0 ? [] : [planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' })];
    const waste = [...new Set(works.flatMap((work) => work.parts.filter(({ piece, ready }) => piece !== '' && ready === undefined).map(({ piece }) => piece)))];
    const counted: Remark[] = works.some(({ opens }) => opens.length > 0) ? [{ say: 'count back' }] : [];
    return [
        ...looked, planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' }),
        planned('finish', { do: 'log', jobs }, ...counted, waste.length > 0 ? { say: 'waste ashore', with: { pieces: waste } } : undefined),
    ];
}

/** Four at least: what is missing lies under the first part. */
function withPads(steps: readonly PlannedServiceStep[]): readonly PlannedServiceStep[] {
    const laid = steps.reduce((sum, { step }) => sum + (step.do === 'place' && step.thing === 'pads' ? step.count ?? 1 : 0), 0);
    const first = steps.findIndex(({ step }) => step.do === 'place' && step.thing === 'pads');
    if (first < 0 || laid >= PADS_LEAST) return steps;
    return steps.map((one, i) => (i === first && one.step.do === 'place' ? { ...one, step: { ...one.step, count: (one.step.count ?? 1) + PADS_LEAST - laid } } : one));
}

function defaultsOf({ boat, starts, ends }: Visit, consumers: readonly Consumer[]): string[] {
    const found = [...new Set([...starts.assumedOpen, ...ends.assumedOpen])].map((id) => `${id} is open where no line-up places it (not stated)`);
    for (const { exhaust, id } of consumers) if (exhaust?.kind === 'wet' && (!exhaust.mufflerFree || !exhaust.rawWater || !exhaust.cranks)) found.push(`30 s of cranking in all (common practice; the free volume of the muffler, the raw-water flow or the cranking speed of ${id} is not stated)`);
    if (boat.lineUps.length === 0) found.push('the only line-up is RUN, with every valve open (none is declared)');
    return found;
}
