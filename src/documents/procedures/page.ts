/** The page of a service procedure that was made from the boat. */
import type { Boat, Id, Job } from '../../model/boat';
import type { CautionTopic, ServiceStep } from '../../model/step';
import { lineUpsOf, turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { programOf } from '../../procedures/service/generate';
import { jobWords, type Needs, type PlannedServiceStep, type ProcedurePlan, type Section } from '../../procedures/service/plan';
import type { Remark } from '../../procedures/service/remarks';
import { capital, listed } from '../../model/words';
import { viewWords } from '../view';
import { DEFERRAL, FOLLOW_UP, NOTHING_LEFT, PADS_AND_VALVES, SECTIONS, WASTE } from './catalogue';
import { drainLines } from './drain-words';
import { drawingOf, duringWork, type Work } from './drawing';
import { effectivityOf } from './effectivity';
import { hazards } from './hazards';
import { canWords, nameOf, placeOf, spannerWords, timeWords } from './naming';
import { placeRows } from './places';
import { remarkWords } from './remark-words';
import { safeName } from './safe';
import { stepWords, usualRemarks, type Fluid } from './step-words';
import { toldWords } from './told-words';
import type { Hazard, Page, PageSection, PageStep, PartRow, Row, ValveRow } from './tree';

const VERBS: Readonly<Record<string, string>> = { look: 'look at', inspect: 'look at' };
const DOES: Readonly<Record<string, string>> = { renew: 'renews', look: 'looks at', inspect: 'looks at', clean: 'cleans', drain: 'drains', test: 'tests', work: 'works', bleed: 'bleeds', transfer: 'moves fuel from tank to tank, in line-up', polish: 'pumps fuel round through a filter, in line-up', lay: 'lays the boat', recommission: 'takes the boat into use again' };

const pieceOf = ({ part, piece }: Job): string => [part, piece].filter((word) => word !== undefined && word !== '').join(' ');
export const titleOf = (jobs: readonly Job[]): string => capital(listed(jobs.map((job) => `${VERBS[job.verb] ?? job.verb} ${pieceOf(job)}`.trim())));

/** `issued` is the day on which it is issued, ISO. */
export function pageOf(written: Boat, plan: ProcedurePlan, issued?: string): Page {
    // What hangs in her for it is named as she is then; the page holds for the boat as she is written.
    const boat = plan.on ?? written;
    // Readings and strokes have a field each; what is to be ordered and the like is no field.
    const logged = plan.steps.some(({ step }) => step.do === 'log');
    const fields = plan.log.filter(({ say }) => say.startsWith('log') && say !== 'log strokes' && say !== 'log reading' && !(logged && say === 'log job'));
    const orders = plan.log.filter(({ say }) => !say.startsWith('log'));
    return effective(written, {
        id: safeName(plan.id), title: plan.title ?? titleOf(plan.jobs), boat: boatName(boat), deferral: DEFERRAL,
        purpose: [plan.title === undefined ? purposeOf(boat, plan.jobs) : '', ...(plan.preface ?? []).map((remark) => remarkWords(boat, remark))].filter((words) => words !== '').join(' '),
        summary: [
            { label: 'Time', value: timeWords(plan.takes.seconds) }, { label: 'People', value: String(plan.takes.people) },
            ...lineUpRows(plan.starts, plan.ends), ...(plan.consumers.length > 0 ? [{ label: 'Stands still', value: listed(plan.consumers) }] : []), ...needRows(boat, plan.needs, plan.fluid),
        ],
        drains: drainLines(boat, plan), tools: toolsOf(boat, plan.needs), parts: plan.needs.parts.map((row) => partRow(boat, row)),
        valves: valveRows(boat, plan.starts, plan.ends, plan.steps.map(({ step, section }) => ({ step, section })), plan.leant ?? plan.drainsWhere.flatMap(({ stops }) => stops)),
        places: placeRows(boat, plan.steps.map(({ step }) => step), plan.leant ?? []),
        sections: sectionsOf(boat, plan.steps, plan.fluid, hazards(boat, programOf(plan)), cansOf(written, boat)),
        acceptance: [...plan.acceptance.map((remark) => asExpected(boat, remark, plan)), ...(opens(plan.steps.map(({ step }) => step)) ? [NOTHING_LEFT] : [])].map((value) => ({ label: '', value })),
        log: [...new Set([...dateFields(plan.consumers), ...fields.map((remark) => remarkWords(boat, remark)), ...strokeFields(plan.steps.map(({ step }) => step))])],
        after: [...new Set([...plan.after, ...orders].map((remark) => remarkWords(boat, remark)).concat(afterwards(plan.steps.map(({ step }) => step), plan.fluid, saysOf(plan))))],
        taken: plan.defaults.map(onPaper),
    }, issued, { on: boat, ...programOf(plan) });
}

const cansOf = (written: Boat, { tanks }: Boat): ReadonlySet<Id> => new Set(tanks.flatMap(({ id }) => (written.tanks.some((tank) => tank.id === id) ? [] : [id])));

/** With its drawing, and with what tells for which state of the boat it holds. */
export function effective(boat: Boat, page: Omit<Page, 'effectivity' | 'drawing'>, issued: string | undefined, work: Work): Page {
    const { view } = boat;
    const drawing = drawingOf(boat, page, work);
    return { ...page, ...(drawing && { drawing }), effectivity: { ...effectivityOf(boat, page), view: typeof view === 'object' ? `after ${view.after}` : view, ...(issued !== undefined && { issued }) } };
}

export const boatName = (boat: Boat): string => (boat.title ?? boat.name) + viewWords(boat);
export const lineUpRows = (starts: Id, ends: Id): Row[] => (starts === ends ? [{ label: 'Line-up', value: `starts and ends in ${starts}` }] : [{ label: 'Line-up', value: `starts in ${starts}, ends in ${ends}` }]);

/** What it does, and when it is due. */
export function purposeOf(boat: Boat, jobs: readonly Job[]): string {
    const does = jobs.every(({ verb }) => Object.hasOwn(DOES, verb)) ? capital(listed(jobs.map((job) => `${DOES[job.verb]!} ${pieceOf(job)}`.trim()))) : `For this job: ${listed(jobs.map(jobWords))}`;
    const due = jobs.flatMap((job) => {
        const interval = boat.intervals.find(({ job: other }) => jobWords(other) === jobWords(job));
        const every = interval === undefined ? [] : [
            ...(interval.hours === undefined ? [] : [timeWords(interval.hours)]), ...(interval.months === undefined ? [] : [`${interval.months} ${interval.months === 1 ? 'month' : 'months'}`]),
            ...(interval.days === undefined ? [] : [`${interval.days} ${interval.days === 1 ? 'day' : 'days'}`]), ...(interval.everyStart ? ['start'] : []),
        ];
        return every.length === 0 ? [] : [jobs.length === 1 ? `Due every ${listed(every, 'or')}.` : `${capital(pieceOf(job))}: due every ${listed(every, 'or')}.`];
    });
    return [`${does}.`, ...due].join(' ');
}

export function needRows(boat: Boat, { fuel, can, cans = [], pads }: Needs, fluid: Fluid): Row[] {
    const drip = cans.map(({ under, holds }) => `${holds === undefined ? 'one' : `${canWords(holds, 'up')}`} under ${nameOf(boat, under)}`);
    return [
        ...(fuel === undefined ? [] : [{ label: `Clean ${fluid}`, value: `${canWords(fuel, 'up')} in hand` }]),
        ...(drip.length > 0 ? [{ label: drip.length === 1 ? 'Drip can' : 'Drip cans', value: listed(drip) }] : can === undefined ? [] : [{ label: 'Drip can', value: `takes ${canWords(can, 'up')}` }]),
        ...(pads === undefined ? [] : [{ label: 'Pads', value: String(pads) }]),
    ];
}

/** What is expected of a gauge stands at the step that reads it. */
const asExpected = (boat: Boat, remark: Remark, { steps }: ProcedurePlan): string => (remark.say === 'gauge between' && steps.some(({ step }) => step.do === 'read' && step.gauge === remark.with.gauge && step.expect !== undefined)
    ? `${nameOf(boat, remark.with.gauge)} reads what is expected of it.` : remarkWords(boat, remark));

/** At the engine nobody types what would be written in the text. */
const onPaper = (taken: string): string => capital(taken.replace(/,? write `[^`]*`/g, ''));

const toolsOf = (boat: Boat, { spanners, tools }: Needs): string[] => [...spanners.map(({ size, for: uses }) => `${spannerWords(size)} (${listed(uses.map((id) => nameOf(boat, id)))})`), ...tools.map(capital)];

function partRow(boat: Boat, { part, piece, count, ready }: Needs['parts'][number]): PartRow {
    return { count: String(count), what: `${piece === '' ? `new ${boat.parts.find(({ id }) => id === part)?.kind ?? 'part'} in place` : piece} of ${nameOf(boat, part)}${ready === undefined ? '' : ` (${ready})`}`, where: placeOf(boat, part) };
}

/** The valves that are set, and those that are leant on. */
export function valveRows(boat: Boat, starts: Id, ends: Id, steps: readonly { readonly step: ServiceStep; readonly section?: Section }[], leant: readonly Id[]): ValveRow[] {
    const lineUps = lineUpsOf(boat);
    const [start, end] = [starts, ends].map((id) => lineUps.find((lineUp) => lineUp.id === id)?.positions ?? new Map<Id, string>()) as [Positions, Positions];
    let positions = start;
    const work = duringWork(boat, start, steps.map(({ step }) => step));
    const bleeding: Positions[] = [];
    const named = new Set<Id>(leant);
    for (const { step } of steps) {
        if (step.do === 'hold') for (const valve of step.valves) named.add(valve);
        if (step.do === 'set') {
            const before = positions;
            positions = turned(boat, positions, step.part, step.position);
            for (const [valve, position] of positions) if (valve === step.part || before.get(valve) !== position) named.add(valve);
        } else if (step.do === 'bleed') bleeding.push(positions);
    }
    const at = (where: Positions, id: Id): string => where.get(id) ?? '';
    return boat.parts.filter(({ id }) => named.has(id)).map(({ id }) => {
        const bled = [...new Set(bleeding.map((one) => at(one, id)))];
        return {
            valve: nameOf(boat, id), place: placeOf(boat, id), start: at(start, id), work: at(work, id),
            ...(bled.length > 0 && (bled.length > 1 || bled[0] !== at(end, id)) && { bleed: bled.join(', then ') }), end: at(end, id),
        };
    });
}

/** A step with what somebody wrote beside it. */
export type NotedStep = PlannedServiceStep & { readonly notes?: readonly string[] };

/** Steps in sections, numbered through; a caution stands with the step that it is for, a place the first time in a section. */
export function sectionsOf(boat: Boat, planned: readonly NotedStep[], fluid: Fluid, hazardAt: (index: number) => Hazard | undefined, cans: ReadonlySet<Id> = new Set()): PageSection[] {
    const sections: { heading: string; section: Section; steps: PageStep[] }[] = [];
    let cautions: Hazard[] = [];
    const warned = new Set<CautionTopic>();
    let number = 0;
    let told = new Set<Id>();
    const caught = new Set<Id>();
    for (const [index, one] of planned.entries()) {
        const { step, remarks, notes = [] } = one;
        // What is placed is placed for the step that follows.
        const section = (step.do === 'place' ? planned.slice(index).find(({ step: later }) => later.do !== 'place' && later.do !== 'caution') : undefined)?.section ?? one.section;
        if (step.do === 'caution') { const hazard = hazardAt(index); if (hazard) cautions.push(hazard); warned.add(step.topic); continue; }
        if (sections.at(-1)?.section !== section) { sections.push({ heading: SECTIONS[section], section, steps: [] }); told = new Set(); }
        const where = (id: Id): string => { const place = placeOf(boat, id); if (told.has(id) || place === '') return ''; told.add(id); return ` (${place})`; };
        const { tag, action, does, signs = [] } = one.told ? { tag: 'part' in step ? step.part : undefined, ...toldWords(boat, one.told) } : stepWords(boat, one, fluid, { where, caught, cans, ...airSaid(remarks) });
        if (step.do === 'place' && step.thing === 'can') caught.add(step.part);
        const place = tag === undefined ? '' : placeOf(boat, tag);
        sections.at(-1)!.steps.push({
            number: ++number, cautions, ...(tag !== undefined && { tag: nameOf(boat, tag) }), ...(place !== '' && { place }), action, ...(does && { does }),
            signs: [...new Set([...(isToldBy(remarks) ? [] : signs), ...remarksUnder(step, remarks).filter(({ say }) => !(say === 'waste ashore' && warned.has('waste'))).map((remark) => remarkWords(boat, remark))])], notes,
        });
        cautions = [];
    }
    return sections.map(({ heading, section, steps }) => ({ heading: section === 'restore' && steps.some(({ action }) => action.startsWith('Place ')) ? PADS_AND_VALVES : heading, steps }));
}

/** By what air is let in, where the one who made the procedure says so. */
function airSaid(remarks: readonly Remark[]): { readonly air?: string } {
    for (const remark of remarks) if (remark.say === 'let air in') return { air: remark.with.by };
    return {};
}

/** Remarks that say in full what the step would only hint at. */
const isToldBy = (remarks: readonly Remark[]): boolean => remarks.some(({ say }) => say === 'look for' || say === 'dry card' || say === 'no figure for gauge');

/** Remarks that are told in the sub-steps. */
const SAID: ReadonlySet<Remark['say']> = new Set<Remark['say']>(['low pressure ends', 'let air in']);

function remarksUnder(step: ServiceStep, own: readonly Remark[]): Remark[] {
    // What the step's own words say is not said again under it.
    const said = own.filter(({ say }) => !SAID.has(say));
    // A filter that nothing bleeds is filled higher than one that is bled.
    const toTheBrim = own.some(({ say }) => say === 'to the brim');
    return [...said, ...usualRemarks(step).filter(({ say }) => !(toTheBrim && say === 'how to fill') && !own.some((other) => other.say === say))];
}

export const dateFields = (consumers: readonly Id[]): string[] => ['Date', 'Done by', ...consumers.map((id) => `Hours of ${id}`)];

/** What was counted and read, to be compared the next time. */
export const strokeFields = (steps: readonly ServiceStep[]): string[] => steps.flatMap((step) => (step.do === 'bleed' ? [`${step.driver.by === 'hand' || step.driver.by === 'lever' ? 'Strokes' : 'Seconds'} at ${step.vent}`] : step.do === 'read' ? [`${step.gauge} reads`] : []));

/** What is always done afterwards where something was opened, but for what the plan says of it itself. */
export function afterwards(steps: readonly ServiceStep[], fluid: Fluid, said: ReadonlySet<Remark['say']> = new Set()): string[] {
    const wasteTold = said.has('waste ashore') || steps.some((step) => step.do === 'caution' && step.topic === 'waste');
    return opens(steps) ? [...(wasteTold ? [] : WASTE[fluid]), ...(said.has('after one hour') ? [] : [FOLLOW_UP])] : [];
}

const opens = (steps: readonly ServiceStep[]): boolean => steps.some((step) => step.do === 'open' || step.do === 'remove' || step.do === 'bleed' || step.do === 'sequence');

const saysOf = ({ steps, log, after }: ProcedurePlan): ReadonlySet<Remark['say']> => new Set([...steps.flatMap(({ remarks }) => remarks), ...log, ...after].map(({ say }) => say));
