/** Procedures that Orlop writes into the text and keeps: written, read back, held against the boat, brought up to date. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { allNotes, type KeptBlock } from '../../src/documents/kept';
import { procedureLines, procedureText, serviceLine, unnamed } from '../../src/documents/procedures/block';
import { checkProcedures, keptProcedure } from '../../src/documents/procedures/check';
import { loadBoat, type Loaded, type Texts } from '../../src/language/load';
import type { View } from '../../src/model/boat';
import { procedureFor, procedureTable } from '../../src/procedures/service/generate';
import { isBlank, jobWords, type ProcedurePlan } from '../../src/procedures/service/plan';

/** An example without what somebody wrote there by hand. */
const example = (name: string): Texts => {
    const folder = new URL(`../../examples/${name}/`, import.meta.url);
    return Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(new URL(file, folder), 'utf8').replace(/^procedure [^{]*\{[^}]*\}\n/gm, '')]));
};
const OTTILWAKE = example('ottilwake-mended');

const plans = async (texts: Texts): Promise<{ loaded: Loaded; plans: ProcedurePlan[] }> => {
    const loaded = await loadBoat(texts);
    return { loaded, plans: procedureTable(loaded.boat).flatMap(({ made }) => (isBlank(made) || made.on || unnamed(loaded.boat, made).length > 0 ? [] : [made])) };
};

/** The same, where figures differ by no more than half a unit in the third digit, to which they are written: 0.5 %. */
function near(read: unknown, plan: unknown): unknown {
    if (typeof read === 'number' && typeof plan === 'number') return Math.abs(read - plan) <= 0.005 * Math.abs(plan) + 1e-9 ? plan : read;
    if (Array.isArray(read) && Array.isArray(plan)) return read.map((inner, i) => near(inner, plan[i]));
    if (read !== null && typeof read === 'object' && plan !== null && typeof plan === 'object') return Object.fromEntries(Object.entries(read).map(([key, inner]) => [key, near(inner, (plan as Record<string, unknown>)[key])]));
    return read;
}

describe.each(['ottilwake-mended', 'brackenwake-mended'])('every procedure of %s', (name) => {
    test('reads back step for step', async () => {
        const { loaded, plans: made } = await plans(example(name));
        expect(made.length).toBeGreaterThan(5);
        const read = await loadBoat({ ...example(name), 'zz.orlop': made.map((plan) => procedureText(loaded.boat, plan)).join('\n') });
        expect(read.problems.map(({ message }) => message)).toEqual([]);
        const kept = read.boat.procedures.filter((block) => block.kept);
        expect(kept.map(({ jobs }) => jobs.map(jobWords).join(', '))).toEqual(made.map(({ id }) => id));
        made.forEach((plan, i) => {
            const block = kept[i]!;
            const steps = plan.steps.map(({ step }) => step);
            expect(near(block.lines.flatMap((line) => line.steps), steps), plan.id).toEqual(steps);
            expect(block.lines.map(({ text }) => text), plan.id).toEqual(procedureLines(plan));
            expect(block).toMatchObject({ kept: true, starts: plan.starts, ends: plan.ends, people: plan.takes.people });
        });
    }, 60_000);
});

const JOB = { verb: 'renew', part: 'F1', piece: 'element' };
async function written(texts: Texts): Promise<Texts> {
    const { boat } = await loadBoat(texts);
    const plan = procedureFor(boat, { jobs: [JOB] });
    if (isBlank(plan)) throw new Error(plan.blank);
    return { ...texts, 'zz.orlop': procedureText(boat, plan) };
}
async function wrong(texts: Texts, view?: View): Promise<string[]> {
    const { boat, sources } = await loadBoat(texts, view === undefined ? {} : { view });
    return checkProcedures(boat).map(({ rule, about, reason, message }) => `${rule.code} ${sources.find(about)!.node.$cstNode!.text.split('\n')[0]!.replace(/ +/g, ' ').trim()}: ${message} ${reason}`);
}
async function renewed(texts: Texts): Promise<{ text: string; again: Texts }> {
    const { boat, sources } = await loadBoat(texts);
    const block: KeptBlock = keptProcedure(boat, boat.procedures.find((one) => one.kept)!);
    if ('why' in block.wanted) throw new Error(block.wanted.why);
    const text = block.wanted.text(allNotes(block, sources.find(block.id)!.node.$cstNode!.text));
    return { text, again: { ...texts, 'zz.orlop': text } };
}

describe('the procedure for the element of F1, kept', () => {
    test('is current when it has been written', async () => expect(await wrong(await written(OTTILWAKE))).toEqual([]));

    test('a line that was changed, one that is gone and one too many are found', async () => {
        const texts = await written(OTTILWAKE);
        const text = texts['zz.orlop']!;
        expect(text).toContain('  open F1 lid\n');
        const found = await wrong({ ...texts, 'zz.orlop': text.replace('  open F1 lid\n', '').replace('  heed', '  open F2 ports\n  heed') });
        expect(found.some((line) => line.startsWith('PROC-CURRENT open F2 ports: This line of the procedure is no longer true.'))).toBe(true);
        expect(found.some((line) => line.startsWith('PROC-CURRENT procedure renew F1 element') && line.includes('This procedure lacks a line. open F1 lid'))).toBe(true);
    });

    test('a note is no fault, and is carried along with its step', async () => {
        const texts = await written(OTTILWAKE);
        const noted = { ...texts, 'zz.orlop': texts['zz.orlop']!.replace('  open F1 lid\n', '  open F1 lid   -- left-hand thread\n    note "the lid is stiff"\n') };
        expect(await wrong(noted)).toEqual([]);
        const { text } = await renewed(noted);
        expect(text).toContain('  open F1 lid\n    note "the lid is stiff"\n    note "left-hand thread"\n');
    });

    test('a seal that the filter has besides makes lines false; brought up to date it is current again', async () => {
        const texts = await written(OTTILWAKE);
        const changed = { ...texts, 'lines.orlop': texts['lines.orlop']!.replace('seals lid ring, T-ring, drain washer', 'seals lid ring, T-ring, bowl ring, drain washer') };
        const found = await wrong(changed);
        expect(found.filter((line) => line.startsWith('PROC-CURRENT fit F1')), found.join('\n')).not.toEqual([]);
        const { again } = await renewed(changed);
        expect(await wrong(again)).toEqual([]);
    });

    test('after a refit that takes a valve out, the steps that turn it; as she is nothing', async () => {
        const texts = await written({ ...OTTILWAKE, 'x.orlop': 'refit Less { remove V1 }\n' });
        expect(await wrong(texts)).toEqual([]);
        const found = await wrong(texts, { after: 'Less' });
        // V1 is the only valve before F1: nothing can be written in its stead, and what still stands is judged line by line.
        expect(found[0]).toMatch(/^PROC-CURRENT procedure renew F1 element.*can no longer be made\. No valve/);
        for (const line of ['PROC-PARTS shut V1:', 'PROC-PARTS open V1:', 'PROC-ISOLATED open F1 lid:']) expect(found.some((said) => said.startsWith(line)), found.join('\n')).toBe(true);
    });

    test('what cannot be made any more says why', async () => {
        const texts = await written(OTTILWAKE);
        const [found = ''] = await wrong({ ...texts, 'zz.orlop': texts['zz.orlop']!.replaceAll('ends RUN', 'ends NOWHERE') });
        expect(found).toContain('can no longer be made');
    });
});

test('a step is written as it is read', () => {
    expect(serviceLine({ do: 'read', gauge: 'G1', expect: { low: -2000, high: -1000 }, speed: 40 })).toBe('read G1 expect 1 to 2 kPa at 2400 rpm');
    expect(serviceLine({ do: 'caution', topic: 'flood', part: 'F1', signal: 'WARNING', text: 'The "sill" is low.' })).toBe('caution flood F1 "WARNING: The \'sill\' is low."');
});
