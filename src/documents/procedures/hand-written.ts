/** The page of a procedure that somebody wrote: their steps in their order, with their notes, and what is wrong with it on the boat as she is. */
import type { Boat, ProcedureBlock } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { lineUpsOf, normalLineUp } from '../../analysis/topology/line-ups';
import { execute, withCautions } from '../../procedures/service/execute';
import { groundOf } from '../../procedures/service/ground';
import { jobWords, type Section } from '../../procedures/service/plan';
import type { Executed, Program } from '../../procedures/service/program';
import { sequenceOf } from '../../procedures/service/steps/bleeding';
import { capital } from '../../model/words';
import { brokenSentence } from './broken';
import { BY_HAND, DEFERRAL } from './catalogue';
import { hazards } from './hazards';
import { nameOf, placeOf, timeWords } from './naming';
import { afterwards, boatName, dateFields, effective, lineUpRows, needRows, purposeOf, sectionsOf, strokeFields, titleOf, valveRows, type NotedStep } from './page';
import { placeRows } from './places';
import { safeName } from './safe';
import type { Page, PartRow } from './tree';

/** A block as it is carried out: its steps as they are numbered on its page, each bleed sequence as its own steps, with the cautions that were put in. */
export interface CarriedOut {
    readonly program: Program;
    readonly executed: Executed;
    readonly planned: readonly NotedStep[];
    readonly hazardAt: ReturnType<typeof hazards>;
}

export function carriedOut(boat: Boat, block: ProcedureBlock): CarriedOut {
    const normal = normalLineUp(boat, lineUpsOf(boat))?.id ?? 'RUN';
    const [starts, ends] = [block.starts ?? normal, block.ends ?? normal];
    const written = stepsOf(block);
    const program = withCautions(boat, { jobs: block.jobs, starts, ends, steps: written.map(({ step }) => step) });
    const executed = execute(boat, program);
    return { program, executed, ...expanded(boat, program, executed, written) };
}

/** Runs it on the boat, with the cautions that the table asks for put in where nobody wrote them. `issued` as of a page that was made. */
export function handWrittenPage(boat: Boat, block: ProcedureBlock, issued?: string): Page {
    const { program, executed, planned, hazardAt } = carriedOut(boat, block);
    const { starts, ends } = program;
    const steps = planned.map(({ step }) => step);
    const ground = groundOf(boat);
    const fluid = steps.some((step) => (step.do === 'open' || step.do === 'remove') && ground.liquid(step.part) === 'coolant') ? 'coolant' : 'fuel';
    const consumers = [...new Set(steps.flatMap((step) => (step.do === 'stop' || step.do === 'run' ? [step.part] : step.do === 'start' ? [step.engine] : [])))].filter((id) => boat.consumers.some((other) => other.id === id));
    const pads = steps.reduce((sum, step) => sum + (step.do === 'place' && step.thing === 'pads' ? step.count ?? 1 : 0), 0);
    const can = Math.max(0, ...steps.map((step) => (step.do === 'place' ? step.holds ?? 0 : 0)));
    const faults = faultsOf(boat, block, program, executed);
    return effective(boat, {
        id: safeName(block.jobs.length > 0 ? block.jobs.map(jobWords).join(', ') : block.title ?? block.id), title: block.title ?? titleOf(block.jobs), boat: boatName(boat), byHand: true, ...(faults.length > 0 && { faults }),
        deferral: DEFERRAL, purpose: [...(block.jobs.length > 0 ? [purposeOf(boat, block.jobs)] : []), BY_HAND].join(' '),
        summary: [
            ...(block.takes === undefined ? [] : [{ label: 'Time', value: timeWords(block.takes) }]), ...(block.people === undefined ? [] : [{ label: 'People', value: String(block.people) }]),
            ...lineUpRows(starts, ends), ...needRows(boat, { parts: [], spanners: [], tools: [], ...(can > 0 && { can }), ...(pads > 0 && { pads }) }, fluid),
        ],
        drains: [], tools: [], parts: steps.flatMap((step) => (step.do === 'fit' && !step.again ? partRows(boat, step.part, step.pieces) : [])),
        valves: valveRows(boat, starts, ends, planned, []), places: placeRows(boat, steps, []), sections: sectionsOf(boat, planned, fluid, hazardAt), acceptance: [],
        log: [...new Set([...dateFields(consumers), ...strokeFields(steps)])], after: afterwards(steps, fluid), taken: [],
    }, issued, { on: boat, jobs: block.jobs, starts, steps });
}

const partRows = (boat: Boat, part: string, pieces: readonly string[]): PartRow[] => (pieces.length === 0 ? [''] : pieces).map((piece) => ({ count: '1', what: piece === '' ? nameOf(boat, part) : `${piece} of ${nameOf(boat, part)}`, where: placeOf(boat, part) }));

/** The words between the quotes of a note; what somebody wrote before them stays, but for `note`. */
const remarkOf = (text: string): string => text.replace(/^note\s+/, '').replace(/"([^"]*)"/g, '$1');

function stepsOf({ lines }: ProcedureBlock): (NotedStep & { notes: string[]; line: string })[] {
    const planned: (NotedStep & { notes: string[]; line: string })[] = [];
    let section: Section = 'prepare';
    for (const { steps, text } of lines) {
        if (steps.length === 0) planned.at(-1)?.notes.push(remarkOf(text));
        for (const step of steps) planned.push({ step, section: section = sectionOf(step, section), remarks: [], notes: [], line: text });
    }
    return planned;
}

/** With the cautions that were put in, and a bleed sequence as its steps, from the state that the boat is then in. */
function expanded(boat: Boat, program: Program, { states }: Executed, written: readonly NotedStep[]): { readonly planned: NotedStep[]; readonly hazardAt: ReturnType<typeof hazards> } {
    const planned: NotedStep[] = [];
    /** Which step of the program each step of the page comes from. */
    const from: number[] = [];
    let next = 0;
    program.steps.forEach((step, index) => {
        const own = written[next]?.step === step ? written[next++] : undefined;
        const section = own?.section ?? written[next]?.section ?? 'finish';
        const found = step.do === 'sequence' && boat.consumers.some(({ id }) => id === step.engine) ? sequenceOf({ ground: groundOf(boat), program }, states[index]!, step) : undefined;
        const all: NotedStep[] = found && 'steps' in found
            ? found.steps.map(({ step: one, traps, drawUp }) => ({ step: one, section: one.do === 'start' ? 'start' : 'bleed', remarks: [], traps, ...(drawUp && { drawUp }) }))
            : [own ?? { step, section, remarks: [] }];
        planned.push(...all.slice(0, -1), ...all.slice(-1).map((last) => ({ ...last, notes: own?.notes ?? [] })));
        from.push(...all.map(() => index));
    });
    const hazardOf = hazards(boat, program, states);
    return { planned, hazardAt: (index) => hazardOf(from[index]!) };
}

/** What is wrong with it: lines that are not understood, and laws that a step or the end breaks. */
function faultsOf(boat: Boat, { lines }: ProcedureBlock, { steps }: Program, { broken, atEnd }: Executed): string[] {
    const lineOf = (step: ServiceStep): string => lines.find((line) => line.steps.includes(step))?.text ?? '';
    return [...new Set([
        ...lines.flatMap(({ text, unread, strangers }) => [...(unread ? [`The line \`${text}\` is not understood.`] : []), ...strangers.map((name) => `${capital(name)} is named, and there is no such thing on the boat.`)]),
        ...broken.flatMap((laws, i) => laws.map((law) => `At \`${lineOf(steps[i]!)}\`: ${brokenSentence(boat, law)}`)), ...atEnd.map((law) => brokenSentence(boat, law)),
    ])];
}

/** Sections that hand-written steps fall into by what they are. */
function sectionOf(step: ServiceStep, before: Section): Section {
    switch (step.do) {
        case 'stop': case 'place': case 'switch': return before === 'prepare' ? 'prepare' : before;
        case 'hold': return 'isolate';
        case 'set': return before === 'prepare' ? 'isolate' : before === 'close' ? 'restore' : before;
        case 'open': case 'remove': return before === 'renew' && step.do === 'remove' ? 'renew' : 'open';
        case 'fit': case 'clean': case 'prefill': return 'renew';
        case 'look': return before === 'open' ? 'renew' : before;
        case 'close': return 'close';
        case 'bleed': case 'prove': case 'sequence': return 'bleed';
        case 'start': return 'start';
        case 'run': case 'read': return before === 'start' ? 'verify' : before === 'prepare' || before === 'isolate' ? 'work' : before;
        case 'wait': case 'caution': return before;
        case 'log': return 'finish';
    }
}
