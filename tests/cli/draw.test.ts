/** `orlop draw` as a person meets it: output, files and exit codes of the built program. What is drawn: tests/documents/drawing. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { DRAWING_SCHEMA } from '../../src/documents/drawing/data';
import { mismatch } from '../../src/documents/json-schema';
import { readHeel, readLevel } from '../../src/language/ask/question';
import { loadBoat } from '../../src/language/load';

const program = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const boat = fileURLToPath(new URL('../../examples/ottilwake', import.meta.url));
const root = mkdtempSync(join(tmpdir(), 'orlop-draw-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

interface Ran { readonly status: number | null; readonly stdout: string; readonly stderr: string }
/** It has 30 s, in which it must end by itself. */
const run = (folder: string, ...args: string[]): Ran => spawnSync(process.execPath, [program, 'draw', folder, ...args], { encoding: 'utf8', maxBuffer: 1 << 26, timeout: 30_000 });
const orlop = (...args: string[]): Ran => run(boat, ...args);

/** Another name for `ottilwake`, with a file beside the texts. */
function beside(name: string, file: string, text: string): string {
    const folder = join(root, name);
    cpSync(boat, folder, { recursive: true });
    writeFileSync(join(folder, file), text);
    return folder;
}

test('without a drawing: what can be drawn and shown, in 80 columns, and each of it is understood', () => {
    const { status, stdout, stderr } = orlop();
    expect([status, stderr]).toEqual([0, '']);
    for (const words of ['schematic', 'elevation', 'isolate F1', 'bleed E1 ran dry', 'RUN, SERVICE or LAID-UP']) expect(stdout.replace(/\s+/g, ' ')).toContain(words);
    expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
    const { drawings, lineUps } = JSON.parse(orlop('--json').stdout) as { drawings: string[]; lineUps: string[] };
    expect([drawings, lineUps]).toEqual([['schematic', 'elevation'], ['RUN', 'SERVICE', 'LAID-UP']]);
});

test('a drawing is one SVG on standard output, the same bytes every time; the program ends by itself', () => {
    for (const kind of ['schematic', 'elevation']) {
        const [first, second] = [orlop(kind), orlop(kind)];
        expect([kind, first.status, first.stderr]).toEqual([kind, 0, '']);
        expect(first.stdout).toMatch(/^<svg [^]*<\/svg>\n$/);
        expect(second.stdout).toBe(first.stdout);
        // V1 and the engine are on either.
        for (const id of ['V1', 'E1']) expect(first.stdout.match(new RegExp(`<g data-id="${id}"`, 'g'))).toHaveLength(1);
    }
});

test('a line-up, a level, a heel and the title block are as they were said', () => {
    // The text of the example: SERVICE is RUN with V1 shut.
    const service = orlop('schematic', '--words', '--line-up', 'SERVICE');
    expect([service.status, service.stderr, /V1, shutoff, (\w+)/.exec(service.stdout)![1]]).toEqual([0, '', 'shut']);
    // 800 x 600 x 420 mm is 201.6 L, of which 60 % are 121 L.
    const { stdout } = orlop('elevation', '--words', '--level', '60 %', '--heel', '15 port');
    expect(stdout).toContain('Port side down, 15°');
    expect(stdout).toContain('60 % full (121 L)');
    expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
    const { svg, ...data } = JSON.parse(orlop('schematic', '--json', '--revision', 'C', '--date', '2026-03-01', '--show', 'isolate F1').stdout) as { svg: string; title: string };
    expect(mismatch(DRAWING_SCHEMA, { svg, ...data })).toBeUndefined();
    expect(data.title).toMatch(/^F1 cut off/);
    expect([/>Revision<[^]*?>C</.test(svg), svg.includes('>2026-03-01<')]).toEqual([true, true]);
    // Nobody said a day, so none stands there.
    expect(orlop('schematic').stdout).not.toMatch(/>\d{4}-\d{2}-\d{2}</);
});

test('--write writes the drawings with what they show in their names, and prints nothing', () => {
    const folder = join(root, 'written');
    expect(orlop('--write', folder)).toMatchObject({ status: 0, stdout: '' });
    expect(orlop('schematic', '--show', 'isolate F1', '--line-up', 'SERVICE', '--write', folder).status).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(['elevation.svg', 'schematic-isolate-F1-in-SERVICE.svg', 'schematic.svg']);
    expect(readFileSync(join(folder, 'schematic.svg'), 'utf8')).toBe(orlop('schematic').stdout);
    writeFileSync(join(root, 'taken'), '');
    expect(orlop('schematic', '--write', join(root, 'taken'))).toMatchObject({ status: 64, stderr: expect.stringContaining('could not be written') });
});

test('places by hand are read from the file beside the boat; a line that is no place, and a name that is not there, are told', () => {
    const moved = run(beside('moved', 'schematic.places', 'E1 down 400\n'), 'schematic');
    expect([moved.status, moved.stderr]).toEqual([0, '']);
    expect(moved.stdout).not.toBe(orlop('schematic').stdout);
    const odd = run(beside('odd', 'schematic.places', 'E1 over there\nF77 down 20\n'), 'schematic');
    expect([odd.status, odd.stdout]).toEqual([0, orlop('schematic').stdout]);
    expect(odd.stderr).toContain('schematic.places line 1: "E1 over there" is no place.');
    expect(odd.stderr).toContain('schematic.places: F77 is not on the schematic.');
    // Both stand in one line: the first by name counts, and the other is 300 from where it was put.
    const both = run(beside('both', 'schematic.places', 'S1 down 0\nV1 down 300\n'), 'schematic');
    expect([both.status, both.stderr]).toEqual([0, expect.stringContaining('schematic.places: V1 stands 300 higher than it says')]);
});

test('changes are held against the boat as drawn', () => {
    const folder = beside('refitted', 'refit.orlop', 'refit Haul26 "Spring haul-out" {\n  set V1 label "FUEL ONE"\n}\n');
    const { status, stdout, stderr } = run(folder, 'schematic', '--as', 'Haul26', '--show', 'changes', '--words');
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/V1[^\n]*FUEL ONE/);
});

test.each([
    [['schematik'], 64, 'schematik is no drawing. The drawings are schematic and elevation.'],
    [['schematic', '--line-up', 'NOWHERE'], 64, 'There is no line-up called NOWHERE. There are RUN, SERVICE and LAID-UP.'],
    [['elevation', '--level', '140 %'], 64, '`140 %` is no level: it is between 0 and 100 %.'],
    [['schematic', '--show', 'isolat F1'], 64, 'Did you mean `isolate`?'],
    [['schematic', '--date', 'soon'], 64, 'soon is not a day.'],
    [['--show', 'isolate F1'], 64, 'Which drawing?'],
    [['schematic', '--show', 'step 99 of renew F1 element'], 3, 'there is no step 99'],
] as const)('%j is told in a sentence', (args, code, words) => {
    const { status, stdout, stderr } = orlop(...args);
    expect([status, stdout]).toEqual([code, '']);
    expect(stderr).toContain(words);
    expect(stderr).not.toMatch(/\n\s+at /);
});

test('a level and a heel are read, or told in a sentence', async () => {
    const { boat: read } = await loadBoat({ 'boat.orlop': 'vessel Bare {\n}\n' });
    expect(readLevel('60 %', read)).toBeCloseTo(0.6, 12);
    expect([readHeel('15 port', read), readHeel('20 deg stbd', read), readHeel('upright', read)].map((rad) => Math.round(rad * 180 / Math.PI))).toEqual([-15, 20, 0]);
    for (const [how, words, told] of [
        [readLevel, '60', '`60` is not understood here. Write it like `60 %`.'], [readLevel, '60 % 70 %', '`70 %` is not understood here.'], [readLevel, '140 %', '`140 %` is no level'], [readLevel, '', 'Something is missing'],
        [readHeel, '15', 'To which side?'], [readHeel, '80 port', 'An angle is between 0 and 60 degrees'], [readHeel, 'port 15', '`port` is not understood here'], [readHeel, '15 port side', '`side` is not understood here'],
    ] as const) expect(() => how(words, read)).toThrow(told);
});

test('a text with slips is not drawn; a boat of which little is known is', () => {
    const bad = run(beside('slips', 'more.orlop', 'supply Other from T1 to NOWHERE {\n}\n'), 'schematic');
    expect([bad.status, bad.stdout]).toEqual([2, '']);
    expect(bad.stderr).toContain('nothing was made from it');
    const bare = join(root, 'bare');
    mkdirSync(bare);
    writeFileSync(join(bare, 'boat.orlop'), 'vessel Bare {\n}\n');
    for (const kind of ['schematic', 'elevation']) expect(run(bare, kind)).toMatchObject({ status: 0, stderr: '', stdout: expect.stringMatching(/^<svg /) });
});

test('where the script that lays out is missing it is said so, and every other command works', () => {
    const alone = join(root, 'orlop.cjs');
    copyFileSync(program, alone);
    const from = (...args: string[]): Ran => spawnSync(process.execPath, [alone, ...args], { encoding: 'utf8', timeout: 30_000 });
    expect(from('draw', boat, 'schematic')).toMatchObject({ status: 64, stdout: '', stderr: expect.stringMatching(/layout\.cjs is not there, and without it no schematic is laid out/) });
    expect(from('draw', boat, 'elevation').status).toBe(0);
});
