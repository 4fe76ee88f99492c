/** A bleed sequence as a block of the language: what Orlop writes into the text, keeps and checks. */
import type { Boat } from '../../model/boat';
import type { BleedStep, Step } from '../../model/step';
import { DEFERRAL } from '../../procedures/cautions';
import type { BleedPlan } from '../../procedures/bleed';
import { NO_RESISTANCE, doneSign, driverWords, endOfLowPressure, taintSentence, trapSentence } from './words';

/** A remark that a person hung on a step; `at` is the key of the step's line. */
export interface Note {
    readonly at: string;
    readonly text: string;
}

/** The head of the block, up to the brace. */
export function blockHead(plan: BleedPlan): string {
    const { request } = plan;
    const occasion = request.ranDry ? 'after running dry' : request.opened.length > 0 ? `after opening ${request.opened.join(', ')}` : '';
    return [
        'bleed', plan.engine, occasion, (request.prefilled?.length ?? 0) > 0 ? `prefilled ${request.prefilled!.join(', ')}` : '',
        request.from === undefined ? '' : `from ${request.from}`, `starts ${plan.starts}`, `ends ${plan.ends}`, 'kept',
    ].filter((word) => word !== '').join('   ').replace('   ', ' ');
}

/** The lines of the block in one spelling, without notes. */
export function blockLines(boat: Boat, plan: BleedPlan): string[] {
    const lines = [`heed ${quoted(DEFERRAL)}`];
    for (const { step, cautions, traps } of plan.steps) {
        for (const { topic, signal, text } of cautions) lines.push(`caution ${topic} ${quoted(`${signal}: ${text}`)}`);
        lines.push(stepLine(step));
        if (step.do === 'prove') lines.push(`if no resistance ${quoted(NO_RESISTANCE)}`);
        if (step.do !== 'bleed') continue;
        lines.push(`sign ${step.vent} ${quoted(doneSign(step))}`);
        for (const trap of traps) lines.push(`beware ${trap.part} ${quoted(trapSentence(boat, step, trap))}`);
        const end = endOfLowPressure(boat, plan, step);
        if (end !== undefined) lines.push(`sign low pressure ${quoted(end)}`);
    }
    const taint = taintSentence(plan);
    if (taint !== undefined) lines.push(`beware ${quoted(taint)}`);
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

/** What a line is about, without its figures: notes hang on this and survive when the figures change. */
export function keyOf(line: string): string {
    return line.replace(/".*$/, '').replace(/ (by|at|to|expect) .*$/, '').trim();
}

/** The whole block. Notes stand under their step; a note whose step is gone stands at the end and says where it was. */
export function blockText(boat: Boat, plan: BleedPlan, notes: readonly Note[] = []): string {
    const lines = blockLines(boat, plan);
    const keys = new Set(lines.map(keyOf));
    const body: string[] = [];
    const placed = new Set<Note>();
    for (const line of lines) {
        body.push(`  ${spaced(line)}`);
        for (const note of notes) {
            if (placed.has(note) || note.at !== keyOf(line)) continue;
            placed.add(note);
            body.push(`    note ${quoted(note.text)}`);
        }
    }
    for (const note of notes) if (!keys.has(note.at)) body.push(`  note ${quoted(note.text)} once at ${quoted(note.at)}`);
    return `${blockHead(plan)} {\n${body.join('\n')}\n}\n`;
}

/** Wider gaps before the figures, so that the eye finds them; the spelling that is compared has single spaces. */
const spaced = (line: string): string => (line.includes('"') ? line : line.replace(/ (expect|stop and think at|at most|seacock|budget) /g, '   $1 '));

/** A quote cannot stand inside a quote of the language. */
const quoted = (text: string): string => `"${text.replace(/"/g, '\'')}"`;
