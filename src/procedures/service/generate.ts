/** The procedure for any jobs on any boat, or why there is none; and the table of all parts and jobs. Every plan was executed and breaks no law. */
import type { Boat, Id, Job } from '../../model/boat';
import { listed } from '../../model/words';
import { execute, withCautions } from './execute';
import { framed, type JobWork } from './frame';
import { jobWords, type Blank, type PlannedServiceStep, type ProcedurePlan, type ProcedureRequest } from './plan';
import type { Program } from './program';
import type { ServiceState } from './state';
import { cautionAt } from './warnings';
import { isWhole, type Whole } from './recipes/recipe';
import { RECIPES } from './recipes';
import { needsOf } from './needs';
import { visitOf, type Visit } from './visit';
import { ruleOf } from './laws';

export function procedureFor(boat: Boat, request: ProcedureRequest): ProcedurePlan | Blank {
    const asked = visitOf(boat, request);
    if ('blank' in asked) return asked;
    const visit = visitOf(boat, startingRight(asked));
    if ('blank' in visit) return visit;
    const made = drafted(visit);
    return 'blank' in made ? made : proven(made.on ?? boat, made);
}

/** From the line-up that its job starts from, where nobody says another: she is taken into commission from that in which she was laid up. */
function startingRight(visit: Visit): ProcedureRequest {
    const { boat, request, request: { jobs } } = visit;
    const [from] = request.starts === undefined ? jobs.flatMap((job) => RECIPES.find(({ fits }) => fits(visit, job))?.starts?.(boat, job) ?? []) : [];
    return from === undefined ? request : { ...request, starts: from };
}

function drafted(visit: Visit): ProcedurePlan | Blank {
    const { request, request: { jobs } } = visit;
    if (jobs.length === 0) return { blank: 'No job was named.', missing: [] };
    const head = { id: jobs.map(jobWords).join(', '), request, jobs };
    const works: JobWork[] = [];
    for (const job of jobs) {
        const recipe = RECIPES.find(({ fits }) => fits(visit, job));
        if (!recipe) return unknown(visit, job);
        const made = recipe.make(visit, job);
        if ('blank' in made) return made;
        if (isWhole(made)) {
            if (jobs.length > 1) return { blank: `${jobWords(job)} is a procedure by itself, and is not done in one visit with ${listed(jobs.filter((other) => other !== job).map(jobWords))}.`, missing: [] };
            return { ...head, ...wholePlan(visit, made) };
        }
        works.push({ job, work: made });
    }
    const made = framed(visit, works);
    return 'blank' in made ? made : { ...head, ...made };
}

function wholePlan(visit: Visit, { on, title, preface, underWay, whole, needs, ends, consumers = [], fluid = 'fuel', takes = { seconds: 0, people: 1 }, drainsWhere = [], acceptance = [], log = [], after = [], defaults = [] }: Whole): Omit<ProcedurePlan, 'id' | 'request' | 'jobs'> {
    const reckoned = needsOf(visit, [], whole.map(({ step }) => step), []);
    return { ...(on && { on }), ...(title !== undefined && { title }), ...(preface && { preface }), ...(underWay && { underWay: true as const }), starts: visit.starts.id, ends: ends ?? visit.ends.id, steps: whole, needs: { ...reckoned, ...needs, tools: [...new Set([...(needs?.tools ?? []), ...reckoned.tools])] }, consumers, fluid, takes, drainsWhere, acceptance, log, after, defaults };
}

function unknown({ boat }: Visit, { verb, part, piece }: Job): Blank {
    const isThere = part === undefined || [...boat.parts, ...boat.tanks, ...boat.consumers].some(({ id }) => id === part);
    if (!isThere) return { blank: `There is no ${part} on this boat.`, missing: [] };
    if (part === undefined) return { blank: `${piece === '' ? 'The job' : `\`${piece}\``} is only named and is no part of the model, so no valve and no step can be told. Name the part: \`${verb} F1 element\`.`, missing: [] };
    return { blank: `How to ${verb} ${[part, piece].filter((word) => word !== '').join(' ')} is not known here: no recipe is written for it.`, missing: [] };
}

/** The plan as it is executed, on the boat that it is `on`. */
export const programOf = ({ jobs, starts, ends, steps, underWay, request: { today } }: ProcedurePlan): Program =>
    ({ jobs, starts, ends, steps: steps.map(({ step }) => step), ...(today && { today }), ...(underWay && { underWay }) });

/** With its cautions, run on the model. What breaks a law is never given to anybody. */
function proven(boat: Boat, plan: ProcedurePlan): ProcedurePlan | Blank {
    const program = withCautions(boat, programOf(plan));
    const { states, broken, atEnd } = execute(boat, program);
    const laws = [...broken.flat(), ...atEnd];
    if (laws.length === 0) return { ...plan, steps: sectioned(plan.steps, program), leant: leantOn(boat, plan, program, states) };
    return { blank: `${UNPROVEN} ${listed([...new Set(laws.map((law) => `${ruleOf(law.law).code} (${law.law}${law.parts.length > 0 ? `: ${law.parts.join(', ')}` : ''})`))])}.`, missing: laws.flatMap(({ missing }) => missing ?? []) };
}

/** Whoever is told to rely on a valve must find it. */
function leantOn(boat: Boat, { drainsWhere }: ProcedurePlan, program: Program, states: readonly ServiceState[]): Id[] {
    const leant = new Set([...drainsWhere.flatMap(({ stops }) => stops), ...program.steps.flatMap((step, i) => (step.do === 'hold' ? step.valves : step.do === 'caution' ? cautionAt(boat, program, i, states)?.valves ?? [] : []))]);
    return boat.parts.flatMap(({ id }) => (leant.has(id) ? [id] : []));
}

/** What a plan that breaks a law is told by, instead of the plan. */
export const UNPROVEN = 'The steps that were found could not be proven on the model, so none are given:';

/** Cautions that were put in belong to the section of the step that they stand before. */
function sectioned(steps: readonly PlannedServiceStep[], { steps: all }: Program): PlannedServiceStep[] {
    let next = 0;
    return all.map((step) => {
        const here = steps[next];
        if (here && here.step === step) { next++; return here; }
        return { step, section: here?.section ?? steps.at(-1)!.section, remarks: [] };
    });
}

/** The columns of the table; `look` is to inspect. */
export const COLUMNS = ['renew', 'refit', 'look', 'drain', 'clean', 'test', 'work', 'lay up', 'recommission'] as const;

export interface Cell {
    /** The part, tank or consumer; absent for a job of the whole boat. */
    readonly row?: Id;
    readonly verb: string;
    readonly job: Job;
    readonly made: ProcedurePlan | Blank;
}

/**
 * Every tagged part, every tank and every consumer with every column, then what is done to the boat, in the order of the text. A cell whose part has several
 * such jobs in the plan of upkeep, like `look F1 bowl` and `look F1 element`, stands once for each. All are asked for with the same line-ups and the same today.
 */
export function procedureTable(boat: Boat, asked: Omit<ProcedureRequest, 'jobs'> = {}): readonly Cell[] {
    const rows: Id[] = [...boat.tanks.map(({ id }) => id), ...boat.parts.filter(({ tag }) => tag !== undefined).map(({ id }) => id), ...boat.consumers.map(({ id }) => id)];
    const cells = rows.flatMap((row) => COLUMNS.flatMap((verb) => jobsOf(boat, row, verb).map((job): Cell => ({ row, verb, job, made: verb === 'lay up' || verb === 'recommission' ? WHOLE_BOAT[verb] : procedureFor(boat, { ...asked, jobs: [job] }) }))));
    const ofBoat = [...RECIPES.flatMap(({ rows: own }) => own?.(boat) ?? []), ...boat.intervals.filter(({ job }) => job.part === undefined).map(({ job }) => job)];
    return [...cells, ...once(ofBoat).map((job): Cell => ({ ...(job.part !== undefined && { row: job.part }), verb: job.verb, job, made: procedureFor(boat, { ...asked, jobs: [job] }) }))];
}

const WHOLE_BOAT: Readonly<Record<'lay up' | 'recommission', Blank>> = {
    'lay up': { blank: 'A boat is laid up as a whole: see `lay up` of the boat.', missing: [] },
    recommission: { blank: 'A boat is put into commission as a whole: see `recommission` of the boat.', missing: [] },
};

function jobsOf(boat: Boat, row: Id, verb: string): Job[] {
    const planned = boat.intervals.filter(({ job }) => job.part === row && job.verb === verb).map(({ job }) => job);
    return once([usual(boat, row, verb), ...planned]);
}

/** Which piece is meant when only the part is named. */
function usual(boat: Boat, part: Id, verb: string): Job {
    const found = boat.parts.find(({ id }) => id === part);
    const isTank = boat.tanks.some(({ id }) => id === part);
    const isFilter = found?.kind === 'filter' || found?.kind === 'strainer';
    const piece = isFilter && (verb === 'renew' || verb === 'refit' || verb === 'look') ? 'element' : isFilter && verb === 'clean' ? 'bowl' : isTank && verb === 'look' ? 'vent' : isTank && verb === 'drain' ? 'water' : '';
    return { verb, part, piece };
}

function once(jobs: readonly Job[]): Job[] {
    return [...new Map(jobs.map((job) => [jobWords(job), job])).values()];
}
