/** The page of a service procedure that was made from the boat. */
import type { Boat, Id, Job } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import type { Thresholds } from '../../analysis/opening/thresholds';
import { lineUpsOf, turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { programOf } from '../../procedures/service/generate';
import { jobWords, type DrainsWhere, type Needs, type PlannedServiceStep, type ProcedurePlan, type Section } from '../../procedures/service/plan';
import type { Remark } from '../../procedures/service/remarks';
import { capital, degrees, listed } from '../../model/words';
import { viewWords } from '../view';
import { DEFERRAL, FOLLOW_UP, SECTIONS, WASTE } from './catalogue';
import { effectivityOf } from './effectivity';
import { hazards } from './hazards';
import { canWords, nameOf, openingPhrase, placeOf, spannerWords, timeWords } from './naming';
import { remarkWords } from './remark-words';
import { safeName } from './safe';
import { airBy, stepWords, usualRemarks, type Fluid } from './step-words';
import type { Hazard, Page, PageSection, PageStep, PartRow, Row, ValveRow } from './tree';

const VERBS: Readonly<Record<string, string>> = { look: 'look at', inspect: 'look at' };
const DOES: Readonly<Record<string, string>> = { renew: 'renews', look: 'looks at', inspect: 'looks at', clean: 'cleans', drain: 'drains', test: 'tests', work: 'works', bleed: 'bleeds' };

const pieceOf = ({ part, piece }: Job): string => [part, piece].filter((word) => word !== undefined && word !== '').join(' ');
export const titleOf = (jobs: readonly Job[]): string => capital(listed(jobs.map((job) => `${VERBS[job.verb] ?? job.verb} ${pieceOf(job)}`.trim())));

/** `issued` is the day on which it is issued, ISO. */
export function pageOf(boat: Boat, plan: ProcedurePlan, issued?: string): Page {
    return effective(boat, {
        id: safeName(plan.id), title: titleOf(plan.jobs), boat: boatName(boat), deferral: DEFERRAL, purpose: purposeOf(boat, plan.jobs),
        summary: [
            { label: 'Time', value: timeWords(plan.takes.seconds) }, { label: 'People', value: String(plan.takes.people) },
            ...lineUpRows(plan.starts, plan.ends), ...(plan.consumers.length > 0 ? [{ label: 'Stands still', value: listed(plan.consumers) }] : []), ...needRows(plan.needs, plan.fluid),
        ],
        drains: plan.drainsWhere.flatMap((where) => drainWords(boat, where, plan)), tools: toolsOf(boat, plan.needs), parts: plan.needs.parts.map((row) => partRow(boat, row)),
        valves: valveRows(boat, plan.starts, plan.ends, plan.steps.map(({ step, section }) => ({ step, section })), plan.drainsWhere.flatMap(({ stops }) => stops)),
        sections: sectionsOf(boat, plan.steps, plan.fluid, hazards(boat, programOf(plan))),
        acceptance: plan.acceptance.map((remark) => ({ label: '', value: remarkWords(boat, remark) })),
        log: [...new Set([...dateFields(plan.consumers), ...plan.log.map((remark) => remarkWords(boat, remark)), ...strokeFields(plan.steps.map(({ step }) => step))])],
        after: [...new Set([...plan.after.map((remark) => remarkWords(boat, remark)), ...afterwards(plan.steps.map(({ step }) => step), plan.fluid)])],
        taken: plan.defaults,
    }, issued);
}

export function effective(boat: Boat, page: Omit<Page, 'effectivity'>, issued: string | undefined): Page {
    const { view } = boat;
    return { ...page, effectivity: { ...effectivityOf(boat, page), view: typeof view === 'object' ? `after ${view.after}` : view, ...(issued !== undefined && { issued }) } };
}

export const boatName = (boat: Boat): string => (boat.title ?? boat.name) + viewWords(boat);
export const lineUpRows = (starts: Id, ends: Id): Row[] => (starts === ends ? [{ label: 'Line-up', value: `starts and ends in ${starts}` }] : [{ label: 'Line-up', value: `starts in ${starts}, ends in ${ends}` }]);

/** What it does, and when it is due. */
export function purposeOf(boat: Boat, jobs: readonly Job[]): string {
    const does = capital(listed(jobs.map((job) => `${DOES[job.verb] ?? `does: ${job.verb}`} ${pieceOf(job)}`.trim())));
    const due = jobs.flatMap((job) => {
        const interval = boat.intervals.find(({ job: other }) => jobWords(other) === jobWords(job));
        const every = interval === undefined ? [] : [
            ...(interval.hours === undefined ? [] : [timeWords(interval.hours)]), ...(interval.months === undefined ? [] : [`${interval.months} ${interval.months === 1 ? 'month' : 'months'}`]),
            ...(interval.days === undefined ? [] : [`${interval.days} ${interval.days === 1 ? 'day' : 'days'}`]), ...(interval.everyStart ? ['start'] : []),
        ];
        return every.length === 0 ? [] : [`${capital(pieceOf(job))}: every ${listed(every, 'or')}.`];
    });
    return [`${does}.`, ...due].join(' ');
}

export function needRows({ fuel, can, pads }: Needs, fluid: Fluid): Row[] {
    return [
        ...(fuel === undefined ? [] : [{ label: `Clean ${fluid}`, value: `${canWords(fuel)} in hand` }]),
        ...(can === undefined ? [] : [{ label: 'Can', value: `takes ${canWords(can)}` }]),
        ...(pads === undefined ? [] : [{ label: 'Pads', value: String(pads) }]),
    ];
}

const toolsOf = (boat: Boat, { spanners, tools }: Needs): string[] => [...spanners.map(({ size, for: uses }) => `${spannerWords(size)} (${listed(uses.map((id) => nameOf(boat, id)))})`), ...tools.map(capital)];

function partRow(boat: Boat, { part, piece, count, ready }: Needs['parts'][number]): PartRow {
    return { count: String(count), what: `${piece} of ${nameOf(boat, part)}${ready === undefined ? '' : ` (${ready})`}`, where: placeOf(boat, part) };
}

/** What an opening does before the valves are set, today, and after; and what stops it. */
function drainWords(boat: Boat, { part, opening, thresholds, today, stops, byReturn }: DrainsWhere, plan: ProcedurePlan): string[] {
    const what = capital(openingPhrase(boat, part, opening));
    const before = thresholds.map((limits) => thresholdWords(limits)).filter((words) => words !== '');
    const now = today === undefined ? [] : [TODAY[today]];
    const stop = stops.length > 0 ? [`To stop it: shut ${listed(stops.map((id) => nameOf(boat, id)))}.`] : [];
    const back = byReturn.map((limits) => leanWords(limits)).filter((words) => words !== '').map((words) => `By a return ${plan.fluid} can still come back ${words}.`);
    const told = [...(before.length > 0 ? [`with the valves as they are before, ${before.join(', and ')}.`] : []), ...now, ...stop, ...back];
    return told.length === 0 ? [] : [`${what}: ${told.join(' ')}`];
}

const TODAY = {
    floods: 'Today it would flood.', level: 'Today the tank stands level with it: be ready for either.', 'falls back': 'Today nothing runs out, and the column falls back.', stays: 'Today nothing runs out.',
    'shut off': 'Today no tank can reach it.', 'cannot tell': 'What it does today cannot be told.',
} as const;

function thresholdWords(limits: Thresholds): string {
    const { tank, volume } = limits;
    const level = volume === undefined ? [] : [volume === 'never' ? `upright ${tank} never floods it` : volume === 0 ? `upright ${tank} floods it at any level` : `upright ${tank} floods it with more than ${canWords(volume)}`];
    const lean = leanWords(limits);
    return [...level, ...(lean === '' ? [] : [`${level.length === 0 ? `${tank} floods it ` : 'heeled it does '}${lean}`])].join('; ');
}

/** beyond 3.5° to port and 40° to starboard; empty when it never does or nothing is known. */
function leanWords({ port, stbd }: Thresholds): string {
    if (port === 0 || stbd === 0) return 'even upright';
    const sides = [[port, 'port'], [stbd, 'starboard']] as const;
    const beyond = sides.flatMap(([angle, side]) => (typeof angle === 'number' ? [`${degrees(angle)} to ${side}`] : []));
    return beyond.length === 0 ? '' : `beyond ${listed(beyond)}`;
}

/** The valves that are set, and those that stop what comes. */
export function valveRows(boat: Boat, starts: Id, ends: Id, steps: readonly { readonly step: ServiceStep; readonly section?: Section }[], stops: readonly Id[]): ValveRow[] {
    const lineUps = lineUpsOf(boat);
    const [start, end] = [starts, ends].map((id) => lineUps.find((lineUp) => lineUp.id === id)?.positions ?? new Map<Id, string>()) as [Positions, Positions];
    let positions = start;
    let work: Positions | undefined;
    const named = new Set<Id>(stops);
    for (const { step } of steps) {
        if (step.do === 'set') {
            const before = positions;
            positions = turned(boat, positions, step.part, step.position);
            for (const [valve, position] of positions) if (valve === step.part || before.get(valve) !== position) named.add(valve);
        } else if (step.do === 'open' || step.do === 'remove' || (step.do === 'run' && work === undefined)) work = positions;
    }
    return boat.parts.filter(({ id }) => named.has(id)).map(({ id }) => ({ valve: nameOf(boat, id), place: placeOf(boat, id), start: start.get(id) ?? '', work: (work ?? positions).get(id) ?? '', end: end.get(id) ?? '' }));
}

/** A step with what somebody wrote beside it. */
export type NotedStep = PlannedServiceStep & { readonly notes?: readonly string[] };

/** Steps in sections, numbered through; a caution stands with the step that it is for, a place the first time in a section. */
export function sectionsOf(boat: Boat, planned: readonly NotedStep[], fluid: Fluid, hazardAt: (index: number) => Hazard | undefined): PageSection[] {
    const sections: { heading: string; section: Section; steps: PageStep[] }[] = [];
    let cautions: Hazard[] = [];
    let number = 0;
    let told = new Set<Id>();
    for (const [index, one] of planned.entries()) {
        const { step, section, remarks, notes = [] } = one;
        if (step.do === 'caution') { const hazard = hazardAt(index); if (hazard) cautions.push(hazard); continue; }
        if (sections.at(-1)?.section !== section) { sections.push({ heading: SECTIONS[section], section, steps: [] }); told = new Set(); }
        const where = (id: Id): string => { const place = placeOf(boat, id); if (told.has(id) || place === '') return ''; told.add(id); return ` (${place})`; };
        const { tag, action, does, signs = [] } = stepWords(boat, one, fluid, where);
        const place = tag === undefined ? '' : placeOf(boat, tag);
        sections.at(-1)!.steps.push({
            number: ++number, cautions, ...(tag !== undefined && { tag: nameOf(boat, tag) }), ...(place !== '' && { place }), action, ...(does && { does }),
            signs: [...new Set([...signs, ...remarksUnder(boat, step, remarks).map((remark) => remarkWords(boat, remark))])], notes,
        });
        cautions = [];
    }
    return sections.map(({ heading, steps }) => ({ heading, steps }));
}

function remarksUnder(boat: Boat, step: ServiceStep, own: readonly Remark[]): Remark[] {
    const said = step.do === 'hold' && airBy(boat, step) !== undefined ? own.filter(({ say }) => say !== 'let air in') : own;
    return [...said, ...usualRemarks(boat, step).filter(({ say }) => !own.some((other) => other.say === say))];
}

export const dateFields = (consumers: readonly Id[]): string[] => ['Date', 'Done by', ...consumers.map((id) => `Hours of ${id}`)];

/** What was counted and read, to be compared the next time. */
export const strokeFields = (steps: readonly ServiceStep[]): string[] => steps.flatMap((step) => (step.do === 'bleed' ? [`${step.driver.by === 'hand' || step.driver.by === 'lever' ? 'Strokes' : 'Seconds'} at ${step.vent}`] : step.do === 'read' ? [`${step.gauge} reads`] : []));

export function afterwards(steps: readonly ServiceStep[], fluid: Fluid): string[] {
    const opens = steps.some((step) => step.do === 'open' || step.do === 'remove' || step.do === 'bleed' || step.do === 'sequence');
    return opens ? [...WASTE[fluid], FOLLOW_UP] : [];
}
