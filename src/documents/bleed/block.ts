/** A bleed sequence as a block of the language: what Orlop writes into the text, keeps and checks. */
import type { Boat, Id } from '../../model/boat';
import type { BleedStep, Step } from '../../model/step';
import { DEFERRAL } from '../../procedures/cautions';
import type { BleedPlan } from '../../procedures/bleed';
import { NO_RESISTANCE, beforeFirst, doneSign, driverWords, endOfLowPressure, leftSentences, trapSentence } from './words';

/** A remark that a person hung on a step; `at` is the key of the step. */
export interface Note {
    readonly at: string;
    readonly text: string;
}

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

/** What a line is about, without its figures: two spellings of one line have one key. */
export function keyOf(line: string): string {
    return line.replace(/".*$/, '').replace(/ (by|at|to|expect) .*$/, '').trim();
}

/** Whether a line is one that Orlop writes: a step, or one of its own remarks. Everything else is a person's. */
export function isOwn(line: string): boolean {
    return isStep(line) || /^(heed|caution (fire|flood|skin|spill|starter|jet|exhaust|scald)|sign \S+|sign low pressure|beware(?: \S+)?|taken|if no resistance) "/.test(line);
}

export const isStep = (line: string): boolean => /^(open|shut|turn|prefill|bleed|prove|start) [A-Z\u00C0-\uFEFE]/.test(line);

/**
 * The step that a remark at each line belongs to, as its key: the step above it, or below it for a line that stands
 * before its step, as a caution does.
 */
export function stepKeys(lines: readonly string[]): string[] {
    return lines.map((line, at) => {
        // A person's line goes with the line above it.
        const own = isOwn(line) ? line : lines.slice(0, at).reverse().find(isOwn) ?? line;
        const before = /^(heed|caution) /.test(own);
        const step = before ? lines.slice(at).find(isStep) : lines.slice(0, at + 1).reverse().find(isStep) ?? lines.slice(at).find(isStep);
        return step === undefined ? '' : keyOf(step);
    });
}

/** The whole block. Notes stand under their step; a note whose step is gone stands at the end and says where it was. */
export function blockText(boat: Boat, plan: BleedPlan, notes: readonly Note[] = []): string {
    const lines = blockLines(boat, plan);
    const keys = stepKeys(lines);
    const body: string[] = [];
    lines.forEach((line, i) => {
        body.push(`  ${spacedLine(line)}`);
        if (isStep(line)) for (const note of notes) if (note.at === keys[i]) body.push(`    note ${quoted(note.text)}`);
    });
    for (const note of notes) if (!keys.includes(note.at)) body.push(`  note ${quoted(note.text)}${note.at === '' ? '' : ` once at ${quoted(note.at)}`}`);
    return `${blockHead(boat, plan)} {\n${body.join('\n')}\n}\n`;
}

/** Wider gaps before the figures, so that the eye finds them; the spelling that is compared has single spaces. */
export const spacedLine = (line: string): string => (line.includes('"') ? line : line.replace(/ (expect|stop and think at|at most|seacock|budget) /g, '   $1 '));

/** A quote cannot stand inside a quote of the language. */
const quoted = (text: string): string => `"${text.replace(/"/g, '\'')}"`;
