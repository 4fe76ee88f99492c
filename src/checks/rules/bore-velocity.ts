/** Division: SUCTION-BUDGET judges what the pipes take, by the maker's limit; here it is the trade's figure for the speed alone. */
import type { Consumer, Fitting, Id, Part } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import { demandAt } from '../../analysis/flow/demand';
import { estimateOf, sum, type Estimate } from '../../analysis/estimate';
import { areaOf } from '../../analysis/flow/pipe';
import { flowIn } from '../../analysis/flow/states';
import { inletOf } from '../../analysis/flow/suction';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { partsOnEveryWayTo } from '../../analysis/topology/every-way';
import { fittingOf } from '../../analysis/topology/joints';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore } from '../../analysis/topology/paths';
import { fromSI } from '../../model/units';
import { capital, figure, listed, litresAnHour } from '../../model/words';
import { burnsFuel, nameOf, nothing, type Check, type View } from '../check';
import { boreMissing, distinct, drawsMissing } from '../../analysis/missing';

/** m/s. */
const MOST = 0.6;

export const boreVelocity: Check = {
    code: 'BORE-VELOCITY', severity: 'minor', slow: true,
    statement: 'In pipes on the suction side fuel runs no faster than 0.6 m/s, with all that run together at full speed.',
    prevents: 'A line that takes more than its length shows, and a small bore left in a wide line.',
    facts: 'bores of pipes and pickups; what each consumer draws at full speed; line-ups for running',
    source: 'common practice (0.5 to 0.6 m/s)',
    judge,
};

/** A pipe in the line-up in which it runs fastest. */
interface Run {
    readonly pipe: Id;
    readonly lineUp: Id;
    readonly consumers: readonly Consumer[];
    /** m³/s, and m/s; undefined where the share of a leg, or the bore, is not known. */
    readonly flow: Estimate | undefined;
    readonly speed: Estimate | undefined;
}

function judge(view: View): Verdict[] {
    const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer));
    if (consumers.length === 0) return [nothing('nothing on board burns fuel')];
    const silent = consumers.filter((consumer) => drawn(consumer) === undefined);
    const runs = view.runs.flatMap((lineUp) => runsIn(view, lineUp, consumers));
    const verdicts: Verdict[] = silent.filter((consumer) => runs.some((run) => run.consumers.includes(consumer))).map((consumer) => ({ outcome: 'cannot tell', about: consumer.id, missing: [drawsMissing(consumer)] }));
    const told: Run[] = [];
    for (const pipe of [...new Set(runs.map((run) => run.pipe))]) {
        const own = runs.filter((run) => run.pipe === pipe);
        const fastest = own.reduce((most, run) => ((run.speed?.si ?? 0) > (most.speed?.si ?? 0) ? run : most));
        if ((fastest.speed?.most ?? 0) > MOST + SAME) { told.push(fastest); continue; }
        if (own.some((run) => run.consumers.some((consumer) => silent.includes(consumer)))) continue;
        const missing = distinct(own.flatMap((run) => missingOf(view, run)));
        verdicts.push(missing.length > 0 ? { outcome: 'cannot tell', about: pipe, missing } : { outcome: 'pass', about: pipe, rests: [{ about: pipe, fact: 'bore' }, ...fastest.consumers.map(({ id }) => ({ about: id, fact: 'draws' }))] });
    }
    // The pipes of one line are told together: they carry the same.
    const key = ({ lineUp, consumers: some, speed }: Run): string => [lineUp, speed!.si > MOST + SAME, ...some.map(({ id }) => id)].join(' ');
    return [...verdicts, ...[...new Set(told.map(key))].map((line) => fails(view, told.filter((run) => key(run) === line)))];
}

/** m/s: to the last digit that is told. */
const SAME = 5e-4;

const drawn = (consumer: Consumer): Estimate | undefined => demandAt(consumer, 'full')?.draws;

function runsIn(view: View, lineUp: ResolvedLineUp, all: readonly Consumer[]): Run[] {
    const linedUp = view.running(lineUp);
    const inlets = all.filter(({ id }) => !lineUp.stopped.includes(id)).flatMap((consumer) => { const inlet = inletOf(view.network, lineUp, consumer.id); return inlet ? [{ consumer, point: inlet.point }] : []; });
    const pipes = new Set(inlets.flatMap(({ point }) => [...partsBefore(linedUp, point)].filter((id) => isPipe(view, id))));
    return [...pipes].map((pipe): Run => {
        const served = inlets.filter(({ point }) => partsBefore(linedUp, point).has(pipe));
        const draws = served.map(({ consumer }) => drawn(consumer));
        const alone = served.every(({ point }) => partsOnEveryWayTo(linedUp, point).has(pipe));
        const known = draws.filter((each) => each !== undefined);
        const flow = alone ? sum(known) : known.length < draws.length ? undefined : shareOf(view, lineUp, pipe);
        return { pipe, lineUp: lineUp.id, consumers: served.map(({ consumer }) => consumer), flow, speed: speedOf(flow, boreOf(view, pipe)) };
    });
}

const boreOf = ({ boat, network }: View, id: Id): Part['bore'] => network.parts.get(id)?.bore ?? fittingOf(boat, id)?.bore;

function isPipe({ boat, network }: View, id: Id): boolean {
    const [part, fitting]: [Part | undefined, Fitting | undefined] = [network.parts.get(id), fittingOf(boat, id)];
    return part?.kind === 'hose' || part?.kind === 'tube' || fitting?.kind === 'pickup';
}

/** Of legs side by side, as the liquid parts between them. */
function shareOf({ network }: View, lineUp: ResolvedLineUp, pipe: Id): Estimate | undefined {
    const found = flowIn(network, { lineUp, attitude: UPRIGHT, level: 'low', speed: 'full' });
    const flow = found.lacks.length > 0 ? undefined : found.flowIn(pipe);
    return flow === undefined ? undefined : { si: Math.abs(flow), least: Math.abs(flow), most: Math.abs(flow) };
}

function speedOf(flow: Estimate | undefined, bore: Part['bore']): Estimate | undefined {
    if (!flow || !bore) return undefined;
    const { si, least, most } = estimateOf(bore);
    return { si: flow.si / areaOf(si), least: flow.least / areaOf(most), most: flow.most / areaOf(least) };
}

function missingOf(view: View, { pipe, flow }: Run): MissingFact[] {
    const name = nameOf(view.boat, pipe);
    return [
        ...(boreOf(view, pipe) ? [] : [boreMissing({ id: pipe, name })]),
        ...(flow ? [] : [{ about: pipe, fact: `the share of the flow that passes ${name}`, how: 'write the bores and lengths of the legs that run side by side' }]),
    ];
}

function fails(view: View, told: readonly Run[]): Verdict {
    const { boat } = view;
    const worst = told.reduce((most, run) => (run.speed!.si > most.speed!.si ? run : most));
    const { flow, speed, consumers, lineUp, pipe } = worst;
    const thin = speed!.si <= MOST + SAME;
    const [bore, needed] = [boreOf(view, pipe)!, Math.sqrt((4 * (thin ? flow!.most : flow!.si)) / (Math.PI * MOST))];
    const many = told.length > 1;
    const names = listed(told.map((run) => nameOf(boat, run.pipe)));
    return {
        outcome: 'fail', about: pipe, fact: 'bore', members: told.map((run) => run.pipe), ...(thin && { severity: 'advice' }), rests: [...told.map((run) => ({ about: run.pipe, fact: 'bore' })), ...consumers.map(({ id }) => ({ about: id, fact: 'draws' }))],
        message: `In ${lineUp} ${listed(consumers.map(({ id }) => id))} draw${consumers.length > 1 ? '' : 's'} ${litresAnHour(flow!.si)} at full speed: in ${nameOf(boat, pipe)}, ${figure(fromSI(bore.si, 'mm'))} mm wide, that is ${speed!.si.toFixed(2)} m/s${thin ? `, and it may be ${speed!.most.toFixed(2)}` : ''}; 0.6 m/s is the most that the trade allows in suction.${many ? ` ${capital(listed(told.filter((run) => run !== worst).map((run) => nameOf(boat, run.pipe))))} ${told.length > 2 ? 'are' : 'is'} too fast as well.` : ''}`,
        reason: 'What the pipe takes grows faster than the speed, and no element or pump makes up for it.',
        advice: `Fit ${figure(Math.ceil(fromSI(needed, 'mm') * 10 - 1e-6) / 10)} mm bore or more in the place of ${names}.`,
        see: told.filter((run) => run !== worst).map((run) => ({ id: run.pipe, why: 'too fast as well' })),
    };
}
