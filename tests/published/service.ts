/**
 * Published service orders as procedures that are run. A row of a ledger here is a line of the language, so that both columns can be carried out:
 * ours must break no law, and what the published order breaks as it is printed is the reason why ours differs.
 */
import { expect } from 'vitest';
import { serviceLine } from '../../src/documents/procedures/block';
import { loadBoat } from '../../src/language/load';
import type { Boat, Job } from '../../src/model/boat';
import { execute, withCautions } from '../../src/procedures/service/execute';
import { procedureFor } from '../../src/procedures/service/generate';
import { isBlank, type ProcedurePlan, type ProcedureRequest } from '../../src/procedures/service/plan';
import type { Program } from '../../src/procedures/service/program';

/** A boat that says nothing wrong. */
export async function aboard(text: string): Promise<Boat> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text });
    expect(problems.map(({ message }) => message)).toEqual([]);
    return boat;
}

/** Lines as a procedure of a boat, with the cautions that the table asks for. */
export async function written(text: string, head: string, lines: readonly string[]): Promise<{ readonly boat: Boat; readonly program: Program }> {
    const boat = await aboard(`${text}\nprocedure ${head} {\n  ${lines.join('\n  ')}\n}\n`);
    const block = boat.procedures[0]!;
    expect(block.lines.filter(({ unread }) => unread)).toEqual([]);
    const steps = block.lines.flatMap((line) => line.steps);
    return { boat, program: withCautions(boat, { jobs: block.jobs, starts: block.starts ?? 'RUN', ends: block.ends ?? 'RUN', steps }) };
}

/** What lines break when they are run: `law parts: line`, or `law parts: end`. */
export async function broken(text: string, head: string, lines: readonly string[]): Promise<string[]> {
    const { boat, program } = await written(text, head, lines);
    const found = execute(boat, program);
    return [
        ...found.broken.flatMap((laws, i) => laws.map(({ law, parts }) => `${[law, ...parts].join(' ')}: ${bare(serviceLine(program.steps[i]!))}`)),
        ...found.atEnd.map(({ law, parts }) => `${[law, ...parts].join(' ')}: end`),
    ];
}

/** Which laws, once each. */
export const lawsIn = (found: readonly string[]): string[] => [...new Set(found.map((words) => /^[a-z-]+/.exec(words)![0]))];

export const job = (words: string): Job => { const [verb = '', part = '', ...piece] = words.split(' '); return { verb, part, piece: piece.join(' ') }; };

export function made(boat: Boat, jobs: readonly string[], more: Partial<ProcedureRequest> = {}): ProcedurePlan {
    const plan = procedureFor(boat, { jobs: jobs.map(job), ...more });
    if (isBlank(plan)) throw new Error(`${jobs.join(', ')}: ${plan.blank}`);
    return plan;
}

/** The steps of a plan as lines, without cautions, and without figures and words that are not about order. */
export const linesOf = ({ steps }: ProcedurePlan): string[] => steps.flatMap(({ step }) => (step.do === 'caution' ? [] : [bare(serviceLine(step))]));

/** What a line does, without how much, how long and what is seen. */
export const bare = (line: string): string => line.replace(/ ".*$/, '').replace(/^place (can|[\d ]*pads).* under /, 'place $1 under ').replace(/^place \d+ pads/, 'place pads')
    .replace(/ (until the stream dies|at most|expect|for [\d.]+ (s|min)|at [\d.]+ rpm).*$/, '').trim();

/** What the language has no line for stands in brackets in a published column. */
export const sayable = (lines: readonly string[]): string[] => lines.filter((line) => !line.startsWith('('));

export function without(lines: readonly string[], line: string): string[] {
    expect(lines).toContain(line);
    return lines.filter((other) => other !== line);
}

/** A line brought forward, to stand before another. */
export function earlier(lines: readonly string[], line: string, before: string): string[] {
    expect(lines.indexOf(before)).toBeGreaterThanOrEqual(0);
    expect(lines.lastIndexOf(line)).toBeGreaterThan(lines.indexOf(before));
    const left = lines.toSpliced(lines.lastIndexOf(line), 1);
    return left.toSpliced(left.indexOf(before), 0, line);
}
