/** `orlop pages`, end to end: pages are issued into a folder, the boat is changed. What is told of each page: tests/documents/effectivity. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { PAGES_SCHEMA, REGISTER_SCHEMA } from '../../src/documents/procedures/issued-schema';

const CLI = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const EXAMPLE = fileURLToPath(new URL('../../examples/ottilwake-mended', import.meta.url));
const orlop = (...args: readonly string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [CLI, ...args], { encoding: 'utf8', maxBuffer: 1 << 26 });

let folder: string;
let manual: string;
beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'orlop-pages-'));
    manual = join(folder, 'manual');
    expect(orlop('procedure', EXAMPLE, '--all', '--issued', '2026-03-01', '--write', manual).status).toBe(0);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The example with words of its text put in the place of others. */
function changed(name: string, ...edits: readonly (readonly [file: string, from: string, to: string])[]): string {
    const boat = join(folder, name);
    cpSync(EXAMPLE, boat, { recursive: true });
    for (const [file, from, to] of edits) {
        const text = readFileSync(join(boat, file), 'utf8');
        expect(text).toContain(from);
        writeFileSync(join(boat, file), text.replace(from, to));
    }
    return boat;
}

const markdown = (from: string): Map<string, string> => new Map(readdirSync(from).filter((file) => file.endsWith('.md') && file !== 'index.md').map((file) => [file.replace('.md', ''), readFileSync(join(from, file), 'utf8')]));

test('what the boat has made false, why, and with which exit code', () => {
    const spanner = changed('spanner', ['lines.orlop', 'bleed BS2   at 900 mm   spanner 10 mm', 'bleed BS2   at 900 mm   spanner 11 mm']);
    const { stdout, status } = orlop('pages', spanner, manual);
    expect(status).toBe(1);
    expect(stdout).toContain('false: renew-F2-element, "Renew F2 element", issued 2026-03-01 from revision');
    expect(stdout).toContain('    because: BS2 spanner: 10 mm -> 11 mm\n');
    expect(stdout).toMatch(/untouched: [^]*\blook-VH1\b/);
    expect(orlop('pages', EXAMPLE, manual)).toMatchObject({ status: 0, stdout: expect.stringMatching(/\n0 false, 0 gone, 0 still true, \d\d untouched\n$/) });
});

test('issued anew in part, the rest stays in the register; two issues are compared by meaning', () => {
    const [boat, second] = [changed('partly', ['lines.orlop', 'holds 450 mL', 'holds 550 mL']), join(folder, 'second')];
    cpSync(manual, second, { recursive: true });
    expect(orlop('procedure', boat, 'renew F1 element', '--issued', '2026-04-01', '--write', second).status).toBe(0);
    const pages = JSON.parse(orlop('pages', boat, second, '--json').stdout) as { pages: { id: string; status: string; issued: string }[] };
    expect(pages.pages.find(({ id }) => id === 'renew-F1-element')).toMatchObject({ status: 'untouched', issued: '2026-04-01' });
    expect(pages.pages.find(({ id }) => id === 'clean-F1-bowl')).toMatchObject({ status: 'false', issued: '2026-03-01' });
    const since = JSON.parse(orlop('pages', boat, second, '--since', manual, '--json').stdout) as { generations: { id: string; change: string; differences: { was?: string; now?: string }[] }[] };
    expect(since.generations.filter(({ change }) => change !== 'same').map(({ id, change }) => [id, change])).toEqual([['renew-F1-element', 'changed']]);
    expect(JSON.stringify(since.generations.find(({ change }) => change === 'changed'))).toContain('{"was":"450 mL","now":"550 mL"}');
});

test('where something is mentioned', () => {
    const mentions = (what: string): { page: string; printed: object[]; restsOn: object[] }[] => (JSON.parse(orlop('pages', EXAMPLE, manual, '--mention', what, '--json').stdout) as { mentions: { page: string; printed: object[]; restsOn: object[] }[] }).mentions;
    const printing = (what: string): string[] => mentions(what).filter(({ printed }) => printed.length > 0).map(({ page }) => page);
    const containing = (pattern: RegExp): string[] => [...markdown(manual)].filter(([, text]) => pattern.test(text)).map(([id]) => id).sort();
    const ofF1 = containing(/\b450 mL|\b0\.45 L/);
    expect(printing('BS2')).toEqual(containing(/\bBS2\b/));
    expect(printing('450 mL')).toEqual(ofF1);
    expect(printing('0.45 L')).toEqual(ofF1);
    // F1 holds it, so every page about the supply rests on it.
    expect(mentions('F1 holds').map(({ page }) => page)).toContain('renew-F2-element');
    expect(orlop('pages', EXAMPLE, manual, '--mention', 'V77')).toMatchObject({ status: 0, stdout: 'No issued page mentions V77 or rests on it.\n' });
});

test('what cannot be used is told, and nothing is written', () => {
    const bad = join(folder, 'bad');
    mkdirSync(bad);
    expect(orlop('pages', EXAMPLE, bad)).toMatchObject({ status: 64, stderr: expect.stringContaining('No page was issued into') });
    writeFileSync(join(bad, 'issued.json'), readFileSync(join(manual, 'issued.json'), 'utf8').slice(0, 5000));
    expect(orlop('pages', EXAMPLE, bad)).toMatchObject({ status: 64, stderr: expect.stringContaining('issued.json is cut short') });
    const before = readFileSync(join(bad, 'issued.json'), 'utf8');
    expect(orlop('procedure', EXAMPLE, 'renew F1 element', '--write', bad)).toMatchObject({ status: 64, stdout: '', stderr: expect.stringContaining('nothing was written over it') });
    expect([readdirSync(bad), readFileSync(join(bad, 'issued.json'), 'utf8')]).toEqual([['issued.json'], before]);
    expect(orlop('pages', EXAMPLE, manual, '--mention', 'V1', '--since', bad).status).toBe(64);
    const other = fileURLToPath(new URL('../../examples/marrenwake', import.meta.url));
    expect(orlop('pages', other, manual)).toMatchObject({ status: 64, stderr: expect.stringContaining('were issued for Ottilwake, and this is Marrenwake') });
});

test('the schemas are printed', () => {
    expect([JSON.parse(orlop('schema', 'pages').stdout), JSON.parse(orlop('schema', 'issued').stdout)]).toEqual([PAGES_SCHEMA, REGISTER_SCHEMA]);
});
