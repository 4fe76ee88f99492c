/** Runs a service procedure on the model: the state before and after each step, and every law that it breaks. */
import type { Boat } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { endLaws, isDone } from './ends';
import { groundOf } from './ground';
import type { BrokenLaw } from './laws';
import { jobWords } from './plan';
import { breaks, type Executed, type Program } from './program';
import type { Stage } from './stage';
import type { ServiceState } from './state';
import { walk } from './warnings';
import { hasWayBack } from './way-back';

export { withCautions } from './warnings';
export { wayBack } from './way-back';

export function execute(boat: Boat, program: Program): Executed {
    const stage: Stage = { ground: groundOf(boat), program };
    const { states, broken: found } = walk(boat, program);
    const broken = found.map((laws) => [...laws]);
    const atEnd = endLaws(stage, states);
    program.steps.forEach((step, i) => { const undone = loggedUndone(stage, states, step); if (undone.length > 0) broken[i]!.push(breaks('logged-undone', undone)); });
    for (const i of lostAt(stage, states, broken, atEnd)) broken[i]!.push(breaks('no-way-back', []));
    return { states, broken, atEnd };
}

/** What is written down as done and is not; a job of the head is told there. */
function loggedUndone(stage: Stage, states: readonly ServiceState[], step: ServiceStep): string[] {
    if (step.do !== 'log') return [];
    const inHead = new Set(stage.program.jobs.map(jobWords));
    return step.jobs.filter((job) => job.part !== undefined && !inHead.has(jobWords(job)) && !isDone(stage, states, job)).map(jobWords);
}

/** Steps after which no way leads back, where one did before: what follows is as lost. */
function lostAt(stage: Stage, states: readonly ServiceState[], broken: readonly (readonly BrokenLaw[])[], atEnd: readonly BrokenLaw[]): number[] {
    const { steps } = stage.program;
    const proven = provenFrom(steps, broken, atEnd);
    const lost: number[] = [];
    let could = true;
    for (let i = 0; i + 1 < proven; i++) {
        const can: boolean = states[i + 1] === states[i] ? could : hasWayBack(stage, states[i + 1]!);
        if (could && !can) lost.push(i);
        could = can;
    }
    return lost;
}

/** From here on the rest of the procedure is itself the way back, since it only closes nothing and breaks nothing. */
function provenFrom(steps: readonly ServiceStep[], broken: readonly (readonly BrokenLaw[])[], atEnd: readonly BrokenLaw[]): number {
    if (atEnd.some(({ law }) => law !== 'not-done')) return steps.length;
    let from = steps.length;
    while (from > 0 && broken[from - 1]!.length === 0 && !HANDS.has(steps[from - 1]!.do)) from--;
    return from;
}

/** Steps that open, take out and put together. */
const HANDS: ReadonlySet<ServiceStep['do']> = new Set(['open', 'close', 'hold', 'remove', 'fit', 'prefill']);
