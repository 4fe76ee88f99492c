/** A bleed sequence as a block of the language: what Orlop writes into the text, keeps and checks. */
import type { Boat, Id } from '../../model/boat';
import type { BleedStep, Step } from '../../model/step';
import { DEFERRAL } from '../../procedures/cautions';
import type { BleedPlan } from '../../procedures/bleed';
import { quoted, withNotes, type Note, type Spelling } from '../kept';
import { NO_RESISTANCE, beforeFirst, doneSign, driverWords, endOfLowPressure, leftSentences, trapSentence } from './words';

/** The head of the block, up to the brace. */
export function blockHead(boat: Boat, plan: BleedPlan): string {
    const { request } = plan;
    const occasion = request.ranDry ? 'after running dry' : request.opened.length > 0 ? `after opening ${request.opened.join(', ')}` : '';
    return [
        'bleed', plan.engine, occasion, (request.prefilled?.length ?? 0) > 0 ? `prefilled ${request.prefilled!.join(', ')}` : '',
        request.from === undefined ? '' : `from ${request.from}`, ...(boat.lineUps.length === 0 ? [] : [`starts ${plan.starts}`, `ends ${plan.ends}`]), 'kept',
    ].filter((word) => word !== '').join('   ').replace('   ', ' ');
}

/** The lines of the block in one spelling, without notes. */
export function blockLines(boat: Boat, plan: BleedPlan): string[] {
    const lines = [`heed ${quoted(DEFERRAL)}`, `heed ${quoted(beforeFirst(plan))}`];
    for (const { step, cautions, traps } of plan.steps) {
        for (const { topic, signal, text } of cautions) lines.push(`caution ${topic} ${quoted(`${signal}: ${text}`)}`);
        lines.push(stepLine(step));
        if (step.do === 'prove') lines.push(`if no resistance ${quoted(NO_RESISTANCE)}`);
        if (step.do !== 'bleed') continue;
        lines.push(`sign ${step.vent} ${quoted(doneSign(step))}`);
        for (const trap of traps) lines.push(`beware ${trap.part} ${quoted(trapSentence(boat, step, trap, plan.fluid))}`);
        const end = endOfLowPressure(boat, plan, step);
        if (end !== undefined) lines.push(`sign low pressure ${quoted(end)}`);
    }
    for (const text of leftSentences(plan)) lines.push(`beware ${quoted(text)}`);
    for (const text of plan.defaults) lines.push(`taken ${quoted(text)}`);
    return lines;
}

export function stepLine(step: Step): string {
    switch (step.do) {
        case 'set': return step.position === 'open' || step.position === 'shut' ? `${step.position} ${step.part}` : `turn ${step.part} to ${step.position}`;
        case 'prefill': return `prefill ${step.part}`;
        case 'bleed': return `bleed ${step.vent} by ${driverWords(step)}${expectationWords(step)}`;
        case 'prove': return `prove ${step.part} at ${step.vent} by lever ${step.strokes} strokes`;
        case 'start': return `start ${step.engine} at most ${step.tries} times ${step.seconds} s${step.seacock ? ' seacock open' : ''}${step.budget === undefined ? '' : ` budget ${step.budget} s`}`;
    }
}

function expectationWords({ expect }: BleedStep): string {
    if (!expect) return '';
    const unit = expect.in === 's' ? 's' : 'strokes';
    const range = expect.most > expect.likely ? `${expect.likely} to ${expect.most}` : `${expect.likely}`;
    return ` expect ${range} ${unit} stop and think at ${expect.think}`;
}

/** Parts without a tag that the block would have to name, and cannot. */
export function untagged(boat: Boat, plan: BleedPlan): Id[] {
    const named = [...plan.request.opened, ...plan.steps.flatMap(({ step, traps }) => [
        ...('part' in step ? [step.part] : []), ...(step.do === 'bleed' ? [step.driver.part] : []), ...traps.map(({ part }) => part),
    ])];
    return [...new Set(named)].filter((id) => boat.parts.some((part) => part.id === id && part.tag === undefined));
}

const isStep = (line: string): boolean => /^(open|shut|turn|prefill|bleed|prove|start) [A-Z\u00C0-\uFEFE]/.test(line);

/** How the lines of bleed sequences are told apart. */
export const BLEEDING: Spelling = {
    isStep,
    isOwn: (line) => isStep(line) || /^(heed|caution (fire|flood|skin|spill|starter|jet|exhaust|scald)|sign \S+|sign low pressure|beware(?: \S+)?|taken|if no resistance) "/.test(line),
    isBefore: (line) => /^(heed|caution) /.test(line),
    keyOf: (line) => line.replace(/".*$/, '').replace(/ (by|at|to|expect) .*$/, '').trim(),
    spaced: (line) => spacedLine(line),
};

export function blockText(boat: Boat, plan: BleedPlan, notes: readonly Note[] = []): string {
    return `${blockHead(boat, plan)} {\n${withNotes(blockLines(boat, plan), notes, BLEEDING).join('\n')}\n}\n`;
}

/** Wider gaps before the figures. */
export const spacedLine = (line: string): string => (line.includes('"') ? line : line.replace(/ (expect|stop and think at|at most|seacock|budget) /g, '   $1 '));
