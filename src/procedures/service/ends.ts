/** What must be so where a procedure ends: closed, whole, put back, without air, and each job done. */
import type { Job } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { running, tanksBefore } from '../../analysis/topology/paths';
import { benchOf } from '../bleed';
import { airBefore } from '../executor';
import type { BrokenLaw } from './laws';
import { jobWords } from './plan';
import { breaks } from './program';
import { BATTERY, BILGE_PUMP, isMotor, seacockOf, type Stage } from './stage';
import type { ServiceState } from './state';

export function endLaws(stage: Stage, states: readonly ServiceState[]): BrokenLaw[] {
    const { ground, program } = stage;
    const [start, end] = [states[0]!, states.at(-1)!];
    const out = [...end.out].flatMap(([part, pieces]) => [...pieces].map((piece) => `${part} ${piece}`.trim()));
    const wrong = [...ground.lineUp(program.ends).positions].filter(([valve, position]) => end.positions.get(valve) !== position).map(([valve]) => valve);
    const strangers = [program.starts, program.ends].filter((id) => !ground.lineUps.some((lineUp) => lineUp.id === id));
    const one = (law: BrokenLaw['law'], parts: readonly string[]): BrokenLaw[] => (parts.length > 0 ? [breaks(law, parts)] : []);
    return [
        ...one('no-such-part', [...new Set(strangers)]), ...one('left-open', [...end.open]), ...one('left-out', out), ...one('wrong-line-up', wrong),
        ...one('left-set', leftSet(stage, start, end)), ...one('seacock-shut', [...end.dryImpeller]), ...airAtEnd(stage, end),
        ...program.jobs.filter((job) => !isDone(stage, states, job)).map((job) => breaks('not-done', [jobWords(job)])),
    ];
}

/** In a line-up in which she is laid up, keys are out, the battery is off and seacocks are shut as somebody likes. */
function leftSet({ ground, program }: Stage, start: ServiceState, end: ServiceState): string[] {
    const motors = ground.boat.consumers.filter(isMotor).map(({ id }) => id);
    const afloat = [
        ...(end.set.get(BATTERY) === 'on' ? [] : [BATTERY]), ...motors.map(seacockOf).filter((name) => end.set.get(name) !== 'open'), ...motors.filter((id) => !end.keyIn.has(id)).map((id) => `${id} key`),
    ];
    return [
        ...(end.set.get(BILGE_PUMP) === 'auto' ? [] : [BILGE_PUMP]), ...(ground.lineUp(program.ends).use === 'laid up' ? [] : afloat), ...[...end.running].filter((id) => !start.running.has(id)),
    ];
}

function airAtEnd({ ground, program }: Stage, end: ServiceState): BrokenLaw[] {
    const { boat, network } = ground;
    const { positions } = ground.lineUp(program.ends);
    if (end.gas.size === 0) return [];
    return boat.consumers.filter(({ id }) => tanksBefore(running(network, positions), `${id}:in`).length > 0).flatMap(({ id }) => {
        const air = airBefore(benchOf(boat, id), end, id, positions);
        return air.length > 0 ? [breaks('air-left', [id, ...air])] : [];
    });
}

type StepOf<D extends ServiceStep['do']> = ServiceStep extends infer S ? (S extends { readonly do: infer K } ? ([D & K] extends [never] ? never : S) : never) : never;

/** Whether a step does it. What is only named, and is no part of the lines, is done when it is logged. */
export function isDone({ ground, program: { steps } }: Stage, states: readonly ServiceState[], job: Job): boolean {
    const { verb, part, piece } = job;
    if (part === undefined) return steps.some((step) => mentions(step, piece) || (step.do === 'log' && step.jobs.some((other) => other.verb === verb && other.part === undefined && other.piece === piece)));
    const own = steps.filter((step) => partsOf(step).includes(part));
    const of = <D extends ServiceStep['do']>(...kinds: readonly D[]): StepOf<D>[] => own.filter((step): step is StepOf<D> & ServiceStep => (kinds as readonly string[]).includes(step.do));
    const plain = piece === '';
    // Of one that has no bleed point the last before it is bled.
    const bleeds = (at: string | undefined): boolean => at === part || (at !== undefined && ground.network.consumers.get(part)?.vents.length === 0 && ground.lines(part).has(at));
    switch (verb) {
        case 'renew': return states.at(-1)!.fitted.get(part)?.has(piece) === true;
        case 'refit': return of('remove').some(({ pieces }) => pieces.includes(piece) || (plain && pieces.length === 0)) && of('fit').some(({ pieces }) => pieces.includes(piece) || (plain && pieces.length === 0));
        case 'look': return of('look').some((step) => plain || step.piece === piece || step.piece === '');
        case 'clean': return of('clean').some((step) => plain || step.piece === piece);
        case 'drain': return ground.openings(part).length > 0 ? of('open', 'hold').some((step) => step.opening === 'drain' || !ground.opening(part, 'drain')) : of('look', 'clean', 'run').length > 0;
        case 'test': return (ground.network.parts.get(part)?.kind === 'gauge' ? of('read') : of('hold', 'prove', 'run', 'look', 'bleed', 'start')).length > 0;
        case 'work': return of('bleed', 'prove', 'run', 'start').length > 0 || states.some(({ positions }, i) => i > 0 && positions.get(part) !== states[i - 1]!.positions.get(part));
        case 'bleed': return steps.some((step) => (step.do === 'sequence' && step.engine === part) || (step.do === 'bleed' && bleeds(ground.ventOpening(step.vent)?.part)));
        default: return of('log').length > 0 || own.length > 0;
    }
}

const mentions = (step: ServiceStep, piece: string): boolean => step.do === 'look' && step.piece === piece;

/** What a step names. */
function partsOf(step: ServiceStep): readonly (string | undefined)[] {
    switch (step.do) {
        case 'bleed': return [step.vent, step.driver.part];
        case 'prove': return [step.part, step.vent];
        case 'start': return [step.engine];
        case 'hold': return [step.part, ...step.valves];
        case 'switch': return [step.of];
        case 'run': return [step.part, step.until?.tank];
        case 'read': return [step.gauge];
        case 'log': return step.jobs.map((job) => job.part);
        case 'sequence': return [step.engine, ...step.opened];
        case 'wait': return [];
        default: return [step.part];
    }
}
