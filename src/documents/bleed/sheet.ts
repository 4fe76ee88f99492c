/** The bleed sequence for a person: numbered steps, each caution before its step; for the terminal, as a page, for machines. */
import type { Boat } from '../../model/boat';
import { lineUpsOf } from '../../analysis/topology/line-ups';
import { DEFERRAL } from '../../procedures/cautions';
import type { BleedPlan, PlannedStep, Refusal } from '../../procedures/bleed';
import { listed } from '../../model/words';
import { wrap } from '../figures';
import { escapeMarkdown } from '../findings/report';
import { viewWords } from '../view';
import { NO_RESISTANCE, RECKONING, RECKONING_BY_GRAVITY, afterStart, beforeFirst, doneSign, drawUpSentence, endOfLowPressure, expectationSentence, stepSentence, leftSentences, tellsSeconds, tellsStrokes, trapSentence } from './words';

const WIDTH = 80;

export function titleOf(plan: BleedPlan): string {
    const { opened, ranDry } = plan.request;
    const filled = plan.request.prefilled ?? [];
    return `Bleed ${plan.engine}${ranDry ? ' after running dry' : opened.length > 0 ? ` after opening ${listed(opened)}` : ''}${filled.length > 0 ? `, ${listed(filled)} filled by hand` : ''}`;
}

/** What stands under a step: expectation, what must be drawn up first, sign, traps. */
function remarks(boat: Boat, plan: BleedPlan, { step, traps, drawUp }: PlannedStep): string[] {
    if (step.do === 'prove') return [NO_RESISTANCE];
    if (step.do !== 'bleed') return [];
    const end = endOfLowPressure(boat, plan, step);
    return [expectationSentence(step), ...(drawUp ? [drawUpSentence(step, drawUp)] : []), doneSign(step), ...traps.map((trap) => `${trap.part}: ${trapSentence(boat, step, trap, plan.fluid)}`), ...(end === undefined ? [] : [end])];
}

/** The line-ups that it starts and ends in, with the position of every valve at the start. */
function lineUpWords(boat: Boat, plan: BleedPlan): string {
    const positions = lineUpsOf(boat).find((lineUp) => lineUp.id === plan.starts)?.positions ?? new Map<string, string>();
    const valves = [...positions].map(([valve, position]) => `${valve} ${position}`);
    return `Starts in line-up ${plan.starts}${valves.length === 0 ? '' : ` (${valves.join(', ')})`}, ends in line-up ${plan.ends}.`;
}

export function sheetText(boat: Boat, plan: BleedPlan): string {
    const lines = [titleOf(plan) + viewWords(boat), wrap(lineUpWords(boat, plan), WIDTH), '', wrap(DEFERRAL, WIDTH), ''];
    for (const text of leftSentences(plan)) lines.push(wrap(text, WIDTH), '');
    lines.push(wrap(beforeFirst(plan), WIDTH), '');
    if (plan.steps.length === 0) lines.push(wrap(noSteps(plan), WIDTH), '');
    plan.steps.forEach((planned, i) => {
        for (const { signal, text } of planned.cautions) lines.push(wrap(`${signal}: ${text}`, WIDTH, '      ', '    '));
        lines.push(wrap(stepSentence(boat, planned.step, plan.fluid), WIDTH, '    ', `${String(i + 1).padStart(2)}. `));
        for (const remark of remarks(boat, plan, planned)) lines.push(wrap(remark, WIDTH, '      ', '    - '));
        lines.push('');
    });
    return `${[...lines, closing(plan).map((text) => wrap(text, WIDTH)).join('\n\n')].join('\n')}\n`;
}

const noSteps = (plan: BleedPlan): string => `Nothing is bled by hand: no air comes to a bleed point, and the valves stand as they should. ${plan.engine} clears the rest when it runs; start it by its maker's book.`;

function closing(plan: BleedPlan): string[] {
    const done = `Done when the valves stand as in line-up ${plan.ends}, every bleed point is shut and dry, and nothing drips.`;
    const after = afterStart(plan);
    return [...(after === undefined ? [] : [after]), done, ...(tellsStrokes(plan) ? [RECKONING] : []), ...(tellsSeconds(plan) ? [RECKONING_BY_GRAVITY] : []), ...(plan.defaults.length === 0 ? [] : [`Taken because nothing was said: ${plan.defaults.join('; ')}.`])];
}

export function sheetPage(boat: Boat, plan: BleedPlan): string {
    const lines = [`# ${escapeMarkdown(titleOf(plan) + viewWords(boat))}`, '', `Boat: ${escapeMarkdown(boat.title ?? boat.name)}. ${escapeMarkdown(lineUpWords(boat, plan))}`, '', DEFERRAL, ''];
    for (const text of [...leftSentences(plan), beforeFirst(plan)]) lines.push(escapeMarkdown(text), '');
    if (plan.steps.length === 0) lines.push(escapeMarkdown(noSteps(plan)), '');
    plan.steps.forEach((planned, i) => {
        for (const { signal, text } of planned.cautions) lines.push(`> **${signal}** ${escapeMarkdown(text)}`, '');
        lines.push(`${i + 1}. [ ] ${escapeMarkdown(stepSentence(boat, planned.step, plan.fluid))}`);
        for (const remark of remarks(boat, plan, planned)) lines.push(`   - ${escapeMarkdown(remark)}`);
        lines.push('');
    });
    for (const text of closing(plan)) lines.push(escapeMarkdown(text), '');
    return lines.join('\n');
}

export function sheetData(boat: Boat, plan: BleedPlan): unknown {
    return {
        title: titleOf(plan) + viewWords(boat), engine: plan.engine, starts: plan.starts, ends: plan.ends, deferral: DEFERRAL, before: beforeFirst(plan),
        air: Object.fromEntries(plan.air),
        steps: plan.steps.map((planned) => ({ cautions: planned.cautions, step: planned.step, sentence: stepSentence(boat, planned.step, plan.fluid), remarks: remarks(boat, plan, planned) })),
        bleedAfterwards: plan.tainted, stillHoldAir: plan.left, after: closing(plan), taken: plan.defaults,
    };
}

export function refusalText({ refused, missing }: Refusal): string {
    const lines = [wrap(refused, WIDTH)];
    if (missing.length > 0) lines.push('', 'Find out first:', ...missing.map((fact) => wrap(`${fact.fact}: ${fact.how}`, WIDTH, '    ', '  - ')));
    return `${lines.join('\n')}\n\n${wrap(DEFERRAL, WIDTH)}\n`;
}
