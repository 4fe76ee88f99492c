/** A procedure step by step: how the valves stand in it, what is open, what it is about, and what is cut off by then; in the words of its page. */
import type { Boat, Id, Job } from '../../../model/boat';
import type { ServiceStep } from '../../../model/step';
import type { Positions } from '../../../analysis/topology/network';
import { groundOf } from '../../../procedures/service/ground';
import { procedureFor, programOf } from '../../../procedures/service/generate';
import { isBlank } from '../../../procedures/service/plan';
import { openParts } from '../../../procedures/service/stage';
import type { ServiceState } from '../../../procedures/service/state';
import { walk } from '../../../procedures/service/warnings';
import { nameOf } from '../../../checks/check';
import { listed } from '../../../model/words';
import { carriedOut, handWrittenPage } from '../../procedures/hand-written';
import { hazardWords } from '../../procedures/hazards';
import { pageOf } from '../../procedures/page';
import { writtenFor } from '../../procedures/pages';
import { stateWords } from '../../procedures/state-words';
import type { Page } from '../../procedures/tree';
import type { Mark, Markup } from '../markup';
import { cutOffIn } from './isolate';
import type { Refused, Shown } from './markup';
import { thingsOf, turnedMarks } from './things';

/** By its jobs, or by the block that somebody wrote. */
export type ProcedureShown = { readonly jobs: readonly Job[] } | { readonly block: Id };

/** The steps that its page numbers, each with the state before it and after it. */
interface Walk {
    /** With a can that hangs in her for it. */
    readonly on: Boat;
    readonly page: Page;
    /** The line-up. */
    readonly starts: Id;
    readonly steps: readonly { readonly step: ServiceStep; readonly before: ServiceState; readonly after: ServiceState }[];
}

export function stepMarkup(of: Shown, procedure: ProcedureShown, number: number): Markup | Refused {
    const { boat } = of;
    const walked = walkOf(boat, procedure);
    if ('refused' in walked) return walked;
    const { on, page, starts, steps } = walked;
    const here = steps[number - 1];
    if (!here) return { refused: steps.length === 0 ? `${page.title} has no steps.` : `${page.title} has ${steps.length} steps; there is no step ${number}.` };
    const { step, before, after } = here;
    const section = page.sections.find((one) => one.steps.some((other) => other.number === number))!;
    const words = section.steps.find((other) => other.number === number)!;
    const things = thingsOf(boat);
    const [cut, sure] = (['tight', 'leaky'] as const).map((checks) => cutOffIn(on, after.positions, checks)) as [Id[], Id[]];
    const byChecks = cut.filter((id) => !sure.includes(id));
    const about = aboutOf(step);
    const marks = [
        ...about.map((id): Mark => ({ about: id, as: 'about' })), ...turnedMarks(on, before.positions, after.positions), ...openMarks(on, step, before, after),
        ...cut.filter((id) => !about.includes(id)).map((id): Mark => ({ about: id, as: 'dead' })),
    ];
    const elsewhere = [...new Set(marks.map((mark) => mark.about).filter((id) => !things.has(id)))];
    return {
        title: `Step ${number} of ${page.title}`, lineUp: starts, positions: only(after.positions, things), marks: marks.filter((mark) => things.has(mark.about)),
        notes: [
            ...(page.faults ? [`It must not be followed before this is mended: ${page.faults.join(' ')}`] : []),
            `${section.heading}. Step ${number} of ${steps.length}.`, ...words.cautions.map((hazard) => `${hazard.signal}: ${hazardWords(hazard)}`), words.action, ...(words.does ?? []), ...words.signs, ...words.notes,
            `Before it: ${stateWords(on, before)}`,
            ...(byChecks.length > 0 ? [`Cut off only as long as checks, pumps and engines hold back what stands behind them: ${listed(byChecks.map((id) => nameOf(on, id)))}.`] : []),
            ...(elsewhere.length > 0 ? [`Not on the drawing, since it is there for this job alone: ${listed(elsewhere)}.`] : []),
        ],
    };
}

/** How many steps a procedure has; none where there is no procedure. */
export function stepCount({ boat }: Shown, procedure: ProcedureShown): number | undefined {
    const walked = walkOf(boat, procedure);
    return 'refused' in walked ? undefined : walked.steps.length;
}

/** Somebody goes through it step by step: it is made once. */
const walks = new WeakMap<Boat, Map<string, Walk | Refused>>();

function walkOf(boat: Boat, procedure: ProcedureShown): Walk | Refused {
    const own = walks.get(boat) ?? new Map<string, Walk | Refused>();
    walks.set(boat, own);
    const key = JSON.stringify(procedure);
    const found = own.get(key) ?? make(boat, procedure);
    own.set(key, found);
    return found;
}

function make(boat: Boat, procedure: ProcedureShown): Walk | Refused {
    const block = 'block' in procedure ? boat.procedures.find(({ id }) => id === procedure.block) : writtenFor(boat, procedure.jobs);
    if (block) {
        const { program, planned } = carriedOut(boat, block);
        const steps = planned.map(({ step }) => step);
        return { on: boat, page: handWrittenPage(boat, block), starts: program.starts, steps: numbered(steps, walk(boat, { ...program, steps }).states) };
    }
    if ('block' in procedure) return { refused: 'This procedure is no longer written.' };
    const made = procedureFor(boat, { jobs: procedure.jobs });
    if (isBlank(made)) return { refused: [made.blank, ...made.missing.map(({ fact, how }) => `Measure first: ${fact} (${how}).`)].join(' ') };
    const on = made.on ?? boat;
    const program = programOf(made);
    return { on, page: pageOf(boat, made), starts: program.starts, steps: numbered(program.steps, walk(on, program).states) };
}

/** A caution stands with the step that it is for. */
const numbered = (steps: readonly ServiceStep[], states: readonly ServiceState[]): Walk['steps'] => steps.flatMap((step, i) => (step.do === 'caution' ? [] : [{ step, before: states[i]!, after: states[i + 1]! }]));

const only = (positions: Positions, things: ReadonlySet<Id>): Positions => new Map([...positions].filter(([id]) => things.has(id)));

/** What hands go to. */
function aboutOf(step: ServiceStep): Id[] {
    switch (step.do) {
        case 'bleed': return [step.vent, step.driver.part];
        case 'prove': return [step.part, step.vent];
        case 'start': case 'sequence': return [step.engine];
        case 'switch': return step.of === undefined ? [] : [step.of];
        case 'read': return [step.gauge];
        case 'look': return step.part === undefined ? [] : [step.part];
        case 'hold': return [step.part, ...step.valves];
        case 'wait': case 'caution': case 'log': return [];
        default: return [step.part];
    }
}

/** All that stands open at any time of the step, and what is out of its part. */
function openMarks(boat: Boat, step: ServiceStep, before: ServiceState, after: ServiceState): Mark[] {
    const open = new Map<Id, Set<string>>();
    const add = (about: Id, words: string): void => { open.set(about, (open.get(about) ?? new Set()).add(words)); };
    const opening = (part: Id, name: string): void => {
        const vent = groundOf(boat).owner(part)?.vents.find(({ id, tag }) => id === name || tag === name);
        if (vent) add(vent.id, 'open'); else add(part, name === '' ? 'off' : `${name} open`);
    };
    for (const state of [before, after]) {
        for (const [part, names] of openParts(state)) for (const name of names) opening(part, name);
        for (const [part, pieces] of state.out) for (const piece of pieces) if (piece !== '') add(part, `${piece} out`);
    }
    if (step.do === 'hold') opening(step.part, step.opening);
    if (step.do === 'bleed' || step.do === 'prove') add(step.vent, 'open');
    return [...open].map(([about, words]) => ({ about, as: 'open', words: [...words].join(', ') }));
}
