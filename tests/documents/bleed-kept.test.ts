/** A bleed sequence that Orlop wrote into the text: read back as it was planned, and found out when the boat changes under it. */
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { BLEEDING, blockText, stepLine } from '../../src/documents/bleed/block';
import { checkBleedBlocks, planOf } from '../../src/documents/bleed/kept';
import { notesOf, type Note } from '../../src/documents/kept';
import { loadBoat, type Loaded } from '../../src/language/load';
import type { BleedBlock } from '../../src/model/boat';
import { planBleed, type BleedPlan, type BleedRequest } from '../../src/procedures/bleed';

type Texts = Readonly<Record<string, string>>;

function example(name: string): Texts {
    const folder = new URL(`../../examples/${name}/`, import.meta.url);
    return Object.fromEntries(readdirSync(folder).map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]));
}
const OTTILWAKE = example('ottilwake');
const FILTERS: BleedRequest = { engine: 'E1', opened: ['F1', 'F2'] };

/** The texts with words replaced in one file; what is replaced must be there. */
function changed(texts: Texts, file: string, ...changes: readonly (readonly [string, string])[]): Texts {
    return { ...texts, [file]: changes.reduce((text, [from, to]) => { expect(text).toContain(from); return text.replace(from, to); }, texts[file]!) };
}

function planned(plan: ReturnType<typeof planBleed>): BleedPlan {
    if ('refused' in plan) throw new Error(plan.refused);
    return plan;
}

/** The texts with the block that the boat as it stands needs at the end of one of its files. */
async function withBlock(texts: Texts, request: BleedRequest): Promise<{ texts: Texts; plan: BleedPlan; text: string }> {
    const { boat } = await loadBoat(texts);
    const plan = planned(planBleed(boat, request));
    const text = blockText(boat, plan);
    return { texts: { ...texts, 'lines.orlop': `${texts['lines.orlop']}\n${text}` }, plan, text };
}

interface Wrong { readonly at: string; readonly message: string; readonly reason: string; readonly severity: string }

/** What is found wrong with the blocks, with the line that each finding is about. */
async function wrongIn(texts: Texts): Promise<{ loaded: Loaded; wrong: Wrong[] }> {
    const loaded = await loadBoat(texts);
    const wrong = checkBleedBlocks(loaded.boat).map(({ about, message, reason, severity, rule }) => {
        expect(rule.code).toBe('BLEED-KEPT');
        return { at: loaded.sources.find(about)!.node.$cstNode!.text.split('\n')[0]!.replace(/ {2,}/g, ' '), message, reason, severity };
    });
    return { loaded, wrong };
}

const STALE = 'This line of the bleed sequence is no longer true.';
const only = ({ bleeds }: Loaded['boat']): BleedBlock => { expect(bleeds).toHaveLength(1); return bleeds[0]!; };

describe.each<[string, Texts, BleedRequest]>([
    ['Ottilwake, both filters', OTTILWAKE, FILTERS],
    ['Ottilwake, one filter, filled by hand', OTTILWAKE, { engine: 'E1', opened: ['F1'], prefilled: ['F1'] }],
    ['Ottilwake, ran dry', OTTILWAKE, { engine: 'E1', opened: [], ranDry: true }],
    ['Ottilwake, from the laid-up line-up', OTTILWAKE, { ...FILTERS, starts: 'LAID-UP' }],
    ['Brackenwake, ran dry', example('brackenwake-mended'), { engine: 'E1', opened: [], ranDry: true }],
    ['Brackenwake, ran dry, to the other tank', example('brackenwake-mended'), { engine: 'E1', opened: [], ranDry: true, from: 'T2', ends: 'RUN-STBD' }],
    ['Brackenwake, the saloon radiator', example('brackenwake'), { engine: 'HX1', opened: ['RA1'] }],
])('%s', (_, boat, request) => {
    // The mended examples bring blocks of their own, which have nothing to do with this.
    const bare = Object.fromEntries(Object.entries(boat).map(([file, text]) => [file, text.replace(/^bleed \w+ [^{]*\{[^}]*\}\n/gm, '')]));

    test('is true when it has been written, and reads back step for step', async () => {
        const { texts, plan } = await withBlock(bare, request);
        const { loaded, wrong } = await wrongIn(texts);
        expect(loaded.problems).toEqual([]);
        expect(wrong).toEqual([]);
        const block = only(loaded.boat);
        expect(block.lines.flatMap(({ step }) => step ?? [])).toEqual(plan.steps.map(({ step }) => step));
        expect(block.lines.filter(({ step }) => step).map(({ text }) => text)).toEqual(plan.steps.map(({ step }) => stepLine(step)));
        const { steps, starts, ends } = planned(planOf(loaded.boat, block));
        expect({ steps, starts, ends }).toEqual({ steps: plan.steps, starts: plan.starts, ends: plan.ends });
    });

    test('and breaks no law when it is run as if a person had written it', async () => {
        const { texts } = await withBlock(bare, request);
        const byHand = changed(texts, 'lines.orlop', ['   kept {', ' {']);
        expect((await wrongIn(byHand)).wrong).toEqual([]);
    });
});

describe('the boat changes under it', () => {
    test('a smaller stroke: the figures of that pump, and nothing else', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        // 10 mL x 0.8 = 8 mL: BS1 1.25 x 462.6 / 8 = 72.3; BS2 1.25 x 220 / 8 = 34.4, with S2 1.25 x 290.4 / 8 = 45.4.
        // Through the crest of S2 10 000 / 50.265 = 199 mm/s.
        const { wrong } = await wrongIn(changed(texts, 'lines.orlop', ['stroke 15 mL', 'stroke 10 mL']));
        expect(wrong).toEqual([
            { at: 'bleed BS1 by PR1 expect 49 strokes stop and think at 98', message: STALE, severity: 'major', reason: 'As the boat is written it reads: bleed BS1 by PR1 expect 73 strokes stop and think at 146' },
            { at: 'bleed BS2 by PR1 expect 23 to 31 strokes stop and think at 46', message: STALE, severity: 'major', reason: 'As the boat is written it reads: bleed BS2 by PR1 expect 35 to 46 strokes stop and think at 70' },
            { at: expect.stringMatching(/^beware S2 .* moves 0\.30 m\/s/), message: STALE, severity: 'minor', reason: expect.stringMatching(/it reads: beware S2 .* moves 0\.20 m\/s/) },
        ]);
    });

    test('a bleed point renamed on the filter alone: every line that names it, and the name itself', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        const { loaded, wrong } = await wrongIn(changed(texts, 'lines.orlop', ['bleed BS1   at 705 mm', 'bleed BS9   at 705 mm']));
        // What Orlop wrote is no slip of the writer: it is found to be no longer true.
        expect(loaded.problems).toEqual([]);
        const stranger = wrong.filter(({ reason }) => reason === 'There is no BS1 on this boat.');
        expect(stranger.map(({ at, severity }) => `${severity} ${at.split(' ').slice(0, 2).join(' ')}`)).toEqual(['major bleed BS1', 'major sign BS1']);
        // Quoted words hold the name too: Fuel can run out of BS1.
        expect(wrong.filter(({ at }) => /^caution flood .* BS1 by itself/.test(at))).toHaveLength(1);
        expect(wrong.find(({ message }) => message === 'This sequence lacks 2 lines.')?.reason).toMatch(/^bleed BS9 by PR1 expect 49 strokes stop and think at 98; sign BS9 /);
        expect(wrong).toHaveLength(4);
    });

    test('the primer taken out: F1 is now filled by hand, and the lever does the rest', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        const primer = /^ {2}primer PR1.*\n/m.exec(texts['lines.orlop']!)![0];
        const { wrong } = await wrongIn(changed(texts, 'lines.orlop', [primer, '']));
        expect(wrong.filter(({ reason }) => reason === 'There is no PR1 on this boat.').map(({ at }) => at.split(' ').slice(0, 4).join(' '))).toEqual(['bleed BS1 by PR1', 'bleed BS2 by PR1']);
        expect(wrong.find(({ message }) => /^This sequence lacks/.test(message))?.reason).toMatch(/\bprefill F1\b/);
        expect(wrong.every(({ severity, at }) => severity === 'major' || /^(sign|caution|beware|if) /.test(at))).toBe(true);
    });

    test('a shutoff put in that stands shut: the sequence cannot be made, and why', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        const { wrong } = await wrongIn(changed(texts, 'lines.orlop', ['  lift pump LP1', '  shutoff V2   normally shut\n  lift pump LP1']));
        expect(wrong).toEqual([{ at: expect.stringMatching(/^bleed E1 after opening F1, F2 /), message: 'This sequence can no longer be made.', severity: 'major', reason: 'In line-up RUN no tank feeds E1.' }]);
    });

    test('the same shutoff opened by the line-up for running: the sequence lacks its opening', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        const { wrong } = await wrongIn(changed(texts, 'lines.orlop',
            ['  lift pump LP1', '  shutoff V2   normally shut\n  lift pump LP1'], ['run       is normal', 'run       is normal { V2 open }'], ['from RUN   { V1 shut }\nline-up LAID-UP', 'from RUN   { V1 shut   V2 shut }\nline-up LAID-UP']));
        expect(wrong).toEqual([{ at: expect.stringMatching(/^bleed E1 /), message: 'This sequence lacks a line.', severity: 'major', reason: 'open V2' }]);
    });

    test('a line taken out or turned round by hand is missed', async () => {
        const { texts, text } = await withBlock(OTTILWAKE, FILTERS);
        const [first, second] = ['BS1', 'BS2'].map((vent) => new RegExp(`^ {2}bleed ${vent}.*\n`, 'm').exec(text)![0]) as [string, string];
        const { wrong: gone } = await wrongIn(changed(texts, 'lines.orlop', [first, '']));
        expect(gone).toContainEqual({ at: expect.stringMatching(/^bleed E1 /), message: 'This sequence lacks a line.', severity: 'major', reason: first.trim().replace(/ {2,}/g, ' ') });
        const { wrong: turned } = await wrongIn(changed(texts, 'lines.orlop', [first, '@'], [second, first], ['@', second]));
        // BS2 first: F1 still holds air, and under its lid it stays.
        expect(turned.map(({ at, reason }) => `${at.slice(0, 9)}: ${reason}`)).toContainEqual(expect.stringMatching(/^bleed BS2: No solid stream can come at BS2: .*F1.* may still hold air\.$/));
    });
});

describe('notes', () => {
    const noted = (text: string, line: RegExp, note: string): string => {
        expect(text).toMatch(line);
        return text.replace(line, (found) => `${found}    note "${note}"\n`);
    };
    const BS1_LINE = /^ {2}bleed BS1 by .*\n/m;
    const BS2_LINE = /^ {2}bleed BS2 by .*\n/m;

    /** The block with a note under BS1, in the boat after a change; brought up to date as the editor does it. */
    async function renewed(texts: Texts): Promise<{ text: string; notes: Note[]; again: Texts }> {
        const { boat, sources } = await loadBoat(texts);
        const block = only(boat);
        const notes = notesOf({ lines: block.lines, spelling: BLEEDING });
        const text = blockText(boat, planned(planOf(boat, block)), notes);
        const old = sources.find(block.id)!.node.$cstNode!.text;
        return { text, notes, again: changed(texts, 'lines.orlop', [old, text.trimEnd()]) };
    }
    async function withNote(): Promise<Texts> {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        return { ...texts, 'lines.orlop': noted(texts['lines.orlop']!, BS1_LINE, 'the washer here is copper') };
    }
    const lineBefore = (text: string, note: string): string => {
        const lines = text.split('\n').map((line) => line.trim().replace(/ +/g, ' '));
        return lines[lines.findIndex((line) => line.startsWith(`note "${note}"`)) - 1]!;
    };

    test('are no fault of the sequence', async () => {
        expect((await wrongIn(await withNote())).wrong).toEqual([]);
    });

    test('stay under their step when its figures change', async () => {
        const { text, again } = await renewed(changed(await withNote(), 'lines.orlop', ['stroke 15 mL', 'stroke 10 mL']));
        expect(lineBefore(text, 'the washer here is copper')).toBe('bleed BS1 by PR1 expect 73 strokes stop and think at 146');
        expect((await wrongIn(again)).wrong).toEqual([]);
    });

    test('stay with their step when the steps are in another order', async () => {
        // The lines of the two vents are written in the wrong order, each with its note.
        const { texts, text } = await withBlock(OTTILWAKE, FILTERS);
        const [first, second] = [BS1_LINE.exec(text)![0], BS2_LINE.exec(text)![0]];
        const turned = changed(texts, 'lines.orlop', [first, '@'], [second, `${first}    note "of BS1"\n`], ['@', `${second}    note "of BS2"\n`]);
        expect((await wrongIn(turned)).wrong).not.toEqual([]);
        const { text: right } = await renewed(turned);
        expect([lineBefore(right, 'of BS1'), lineBefore(right, 'of BS2')]).toEqual([first, second].map((line) => line.trim().replace(/ +/g, ' ')));
    });

    test('written under a caution, go with the step that the caution is for', async () => {
        const { texts } = await withBlock(OTTILWAKE, FILTERS);
        const { text } = await renewed({ ...texts, 'lines.orlop': noted(texts['lines.orlop']!, /^ {2}caution flood .*BS2 by itself.*\n/m, 'only when she heels') });
        expect(lineBefore(text, 'only when she heels')).toMatch(/^(caution flood .*BS2 by itself|bleed BS2 by PR1 )/);
    });

    test('stand at the end and say where they were when their step goes, and go back to it when it comes again', async () => {
        const before = await withNote();
        const primer = /^ {2}primer PR1.*\n/m.exec(before['lines.orlop']!)![0];
        const without = await renewed(changed(before, 'lines.orlop', [primer, '']));
        expect(without.text).not.toMatch(BS1_LINE);
        expect(without.text).toContain('\n  note "the washer here is copper" once at "bleed BS1"\n}');
        expect(without.notes).toEqual([{ at: 'bleed BS1', text: 'the washer here is copper' }]);
        // An orphan is still no fault, and renewing again leaves it as it is.
        expect((await wrongIn(without.again)).wrong).toEqual([]);
        expect((await renewed(without.again)).text).toBe(without.text);
        const back = await renewed(changed(without.again, 'lines.orlop', ['  hose S1b', `${primer}  hose S1b`]));
        expect(lineBefore(back.text, 'the washer here is copper')).toMatch(/^bleed BS1 by PR1 /);
        expect(back.text).not.toContain('once at');
        expect(back.again['lines.orlop']).toBe(before['lines.orlop']);
    });
});

describe('a sequence that a person wrote', () => {
    /** A block without `kept`: it may say what it likes as long as it breaks no law. */
    async function byHand(...steps: readonly string[]): Promise<Wrong[]> {
        const block = `\nbleed E1 after opening F1, F2 starts SERVICE ends RUN {\n${steps.map((step) => `  ${step}\n`).join('')}}\n`;
        const { loaded, wrong } = await wrongIn({ ...OTTILWAKE, 'lines.orlop': OTTILWAKE['lines.orlop'] + block });
        expect(loaded.problems).toEqual([]);
        return wrong;
    }
    const [V1, BS1, BS2, BS3] = ['open V1', 'bleed BS1 by PR1', 'bleed BS2 by PR1', 'bleed BS3 by LP1 lever'] as const;
    const HEAD = 'bleed E1 after opening F1, F2 starts SERVICE ends RUN {';

    test('and that bleeds every vent in order is left alone, figures or none', async () => {
        expect(await byHand(V1, BS1, BS2, BS3)).toEqual([]);
        expect(await byHand(V1, 'note "look for drips"', BS1, BS2, 'bleed BS3 by PR1', 'start E1 at most 1 times 10 s')).toEqual([]);
    });

    test('a vent upstream of the pump that is worked draws air in', async () => {
        // A finding of BLEED-NOT-SUCTION, so none here: neither of the step nor of what cannot be right after it.
        expect(await byHand(V1, BS1, BS2, BS3, 'bleed BS1 by LP1 lever')).toEqual([]);
        expect(await byHand(V1, 'bleed BS1 by LP1 lever', BS3)).toEqual([]);
        expect(await byHand(V1, BS3, 'bleed BS1 by LP1 lever')).toHaveLength(1);
    });

    test('a vent left out leaves its air, in it and behind it', async () => {
        const wrong = await byHand(V1, BS1, BS3);
        // Nothing solid comes at BS3 while F2 keeps its air under the lid.
        expect(wrong).toContainEqual({ at: 'bleed BS3 by LP1 lever', message: 'This step breaks a law of bleeding.', severity: 'major', reason: expect.stringMatching(/^No solid stream can come at BS3: .*F2.* may still hold air\.$/) });
        expect(wrong).toContainEqual({ at: HEAD, message: 'This sequence does not end well.', severity: 'major', reason: expect.stringMatching(/^Air would stay before E1: in .*F2/) });
        expect(await byHand(V1, BS1, BS2)).toEqual([{ at: HEAD, message: 'This sequence does not end well.', severity: 'major', reason: expect.stringMatching(/^Air would stay before E1: in .*\bE1\b/) }]);
    });

    test('a start while air is still before the engine', async () => {
        expect(await byHand(V1, BS1, 'start E1 at most 2 times 10 s', BS2, BS3)).toEqual([{ at: 'start E1 at most 2 times 10 s', message: expect.any(String), severity: 'major', reason: expect.stringMatching(/^Air would stay before E1: in .*F2/) }]);
    });

    test('a valve left where the line-up that it ends in does not have it', async () => {
        expect(await byHand(V1, BS1, BS2, BS3, 'shut V1')).toEqual([{ at: HEAD, message: 'This sequence does not end well.', severity: 'major', reason: 'The sequence ends with V1 in another position than the line-up that it ends in.' }]);
    });

    test('pumping with the valve at the tank still shut', async () => {
        expect((await byHand(BS1, V1, BS1, BS2, BS3)).map(({ at, reason }) => `${at}: ${reason}`)).toEqual(['bleed BS1 by PR1: PR1 is fed by no tank: a valve before it is shut.']);
    });

    test('a part that is filled by hand after the valve was opened, and one that may not be', async () => {
        expect((await byHand(V1, 'prefill F1', BS1, BS2, BS3)).map(({ reason }) => reason)).toEqual(['F1 is not shut off from the tank: opening it to fill it lets fuel out or air in.']);
        expect((await byHand('prefill F1', V1, BS1, BS2, BS3))).toEqual([]);
        expect((await byHand('prefill F2', V1, BS1, BS2, BS3)).map(({ reason }) => reason)).toEqual([expect.stringContaining('F2 may not be filled by hand.')]);
    });
});
