/** `orlop sheet`: what it prints, what it writes, and its exit codes. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CALCULATIONS_SCHEMA } from '../../src/documents/sheet/schema';

const CLI = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const BOAT = fileURLToPath(new URL('../../examples/ottilwake', import.meta.url));
const orlop = (...args: readonly string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [CLI, ...args], { encoding: 'utf8', maxBuffer: 1 << 26 });

/** Her envelope: heel 25 deg. */
const DRAWINGS = ['schematic.svg', 'elevation-upright.svg', 'elevation-starboard-side-down-25.svg', 'elevation-port-side-down-25.svg'];

let folder: string;
beforeAll(() => { folder = mkdtempSync(join(tmpdir(), 'orlop-sheet-')); });
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('in words, for machines and for a spreadsheet', () => {
    const [words, json, csv] = [orlop('sheet', BOAT), orlop('sheet', BOAT, '--json'), orlop('sheet', BOAT, '--csv')];
    expect([words, json, csv].map(({ status, stderr }) => [status, stderr])).toEqual([[0, ''], [0, ''], [0, '']]);
    expect(words.stdout).toContain('U = 179.5 L');
    expect(JSON.parse(json.stdout)).toMatchObject({ boat: 'Ottilwake' });
    expect(csv.stdout).toMatch(/^number,computation,.*\r\n/);
    expect(orlop('sheet', BOAT).stdout).toBe(words.stdout);
});

test('--write writes the page, the print and the table; all or none', () => {
    const target = join(folder, 'all');
    expect(orlop('sheet', BOAT, '--write', target).status).toBe(0);
    expect(readdirSync(target).sort()).toEqual(['calculation-sheet.csv', 'calculation-sheet.html', 'calculation-sheet.md', ...DRAWINGS].sort());
    for (const file of DRAWINGS) expect(readFileSync(join(target, 'calculation-sheet.md'), 'utf8')).toContain(`](${file})`);
    expect(readFileSync(join(target, 'calculation-sheet.html'), 'utf8').match(/<figure>\n<div class="sheet"/g)).toHaveLength(DRAWINGS.length);
    expect(readFileSync(join(target, 'calculation-sheet.csv'), 'utf8')).toBe(orlop('sheet', BOAT, '--csv').stdout);
    // A folder in the place of the last file: none is written, and nothing is left beside.
    const taken = join(folder, 'taken');
    mkdirSync(join(taken, 'calculation-sheet.csv'), { recursive: true });
    const { status, stderr } = orlop('sheet', BOAT, '--write', taken);
    expect([status, readdirSync(taken)]).toEqual([64, ['calculation-sheet.csv']]);
    expect(stderr).toContain('calculation-sheet.csv could not be written');
});

test('exit codes as the README tells them', () => {
    expect(orlop('sheet', BOAT, '--csv', '--json').status).toBe(64);
    expect(orlop('sheet', join(folder, 'none')).status).toBe(64);
    expect(orlop('sheet', BOAT, '--as', 'Nowhere').status).toBe(64);
    const slip = join(folder, 'slip');
    mkdirSync(slip);
    writeFileSync(join(slip, 'a.orlop'), 'vessel Slip\ntank T1 { box 800 x 600 mm }\n');
    const found = orlop('sheet', slip, '--write', join(folder, 'slipped'));
    expect([found.status, found.stdout, existsSync(join(folder, 'slipped'))]).toEqual([2, '', false]);
});

test('`orlop schema sheet` prints the schema; other names are told', () => {
    expect(JSON.parse(orlop('schema', 'sheet').stdout)).toEqual(CALCULATIONS_SCHEMA);
    for (const name of ['due', 'toString']) expect([orlop('schema', name).status, orlop('schema', name).stderr]).toEqual([64, expect.stringContaining('There is no schema')]);
});
