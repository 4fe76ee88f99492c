/**
 * `orlop pages`, end to end: pages are issued, the boat is changed, and what is told of each page is held against the pages
 * issued anew: false are those that read otherwise, untouched those that bear the same digest.
 */
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
});
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

interface Told { readonly id: string; readonly status: string; readonly differences: readonly object[]; readonly because: readonly { readonly about: string; readonly fact: string; readonly was?: string; readonly now?: string }[] }
const told = (boat: string): { pages: readonly Told[]; count: Record<string, number>; status: number | null } => { const { stdout, status, stderr } = orlop('pages', boat, manual, '--json'); expect(stderr).toBe(''); return { ...JSON.parse(stdout), status }; };

const markdown = (from: string): Map<string, string> => new Map(readdirSync(from).filter((file) => file.endsWith('.md') && file !== 'index.md').map((file) => [file.replace('.md', ''), readFileSync(join(from, file), 'utf8')]));
/** The page but for what says for which state of the boat it holds. */
const body = (text: string): string => text.split('\n').filter((line) => !/Boat as written|Facts of this page|Issued/.test(line)).join('\n');
const digest = (text: string): string | undefined => /Facts of this page.*?\b([0-9a-f]{12})\b/.exec(text)?.[1];

/** What must be told of each page, by the pages themselves as they are issued from the changed boat. */
function expected(boat: string, name: string): Map<string, string> {
    const anew = join(folder, `${name}-anew`);
    orlop('procedure', boat, '--all', '--issued', '2026-03-02', '--write', anew);
    const now = markdown(anew);
    return new Map([...markdown(manual)].map(([id, text]) => {
        const other = now.get(id);
        return [id, other === undefined ? 'gone' : body(other) !== body(text) ? 'false' : digest(other) === digest(text) ? 'untouched' : 'still true'];
    }));
}

function held(name: string, ...edits: readonly (readonly [file: string, from: string, to: string])[]): ReturnType<typeof told> {
    const boat = changed(name, ...edits);
    const found = told(boat);
    expect(Object.fromEntries(found.pages.map(({ id, status }) => [id, status]))).toEqual(Object.fromEntries(expected(boat, name)));
    expect(found.pages.length).toBeGreaterThan(30);
    return found;
}
const of = ({ pages }: ReturnType<typeof told>, id: string): Told => pages.find((page) => page.id === id)!;

test('the boat is as she was: every page is untouched', () => {
    const found = held('same');
    expect([found.status, found.count.untouched]).toEqual([0, found.pages.length]);
});

test('the log and a passage concern no page', () => {
    const found = held('log', ['upkeep.orlop', '2025-09-01   E1 1538 h', '2025-09-03   E1 1541 h'], ['upkeep.orlop', 'motors 40 h', 'motors 44 h']);
    expect([found.status, found.count.untouched]).toEqual([0, found.pages.length]);
});

test('a spanner size makes false exactly the pages that print it', () => {
    const found = held('spanner', ['lines.orlop', 'bleed BS2   at 900 mm   spanner 10 mm', 'bleed BS2   at 900 mm   spanner 11 mm']);
    const printed = [...markdown(manual)].filter(([, text]) => /spanner[^\n]*\(BS2|BS2 with the 10 mm spanner|BS2[^\n]*10 mm spanner/.test(text)).map(([id]) => id);
    expect(found.pages.filter(({ status }) => status === 'false').map(({ id }) => id)).toEqual(printed.sort());
    expect(printed).toContain('renew-F2-element');
    expect(of(found, 'renew-F2-element').because).toEqual([{ about: 'BS2', fact: 'spanner', was: '10 mm', now: '11 mm' }]);
    expect(of(found, 'look-VH1').status).toBe('untouched');
});

test('a valve that is put in', () => {
    const found = held('valve', ['lines.orlop', '  primer PR1 ', '  shutoff V3    at 650 mm up, 3200 mm fwd, 300 mm port   in EngineBay   normally open\n  primer PR1 ']);
    expect(found.status).toBe(1);
    // With a valve between the tank and PR1 that is nearer, renewing PR1 is done otherwise.
    expect(of(found, 'renew-PR1').because).toContainEqual({ about: 'PR1', fact: 'in joins', was: 'S1 out, Feed', now: 'V3 out, Feed' });
});

test('F1 moved below the level of the tank', () => {
    const found = held('lower', ['lines.orlop', 'ports at 660 mm up', 'ports at 360 mm up'], ['lines.orlop', 'drain at 480 mm', 'drain at 180 mm'], ['lines.orlop', 'bleed BS1   at 705 mm', 'bleed BS1   at 405 mm']);
    const page = of(found, 'renew-F1-element');
    expect(page.status).toBe('false');
    // 40 mm over ports at 360 mm
    expect(page.because).toContainEqual({ about: 'F1', fact: 'lid', was: '700 mm up, 3300 mm fwd, 300 mm port', now: '400 mm up, 3300 mm fwd, 300 mm port' });
    const { stdout } = orlop('pages', join(folder, 'lower'), manual);
    expect(stdout).toContain('because: F1 lid: 700 mm up, 3300 mm fwd, 300 mm port -> 400 mm up, 3300 mm fwd, 300 mm port');
});

test('a part that is gone', () => {
    const found = held('without', ['lines.orlop', '  gauge G1      vacuum   at 660 mm\n', ''], ['upkeep.orlop', '   G1 1.0 inHg at 2400 rpm', ''], ['upkeep.orlop', '   G1 1.4 inHg at 2400 rpm', '']);
    expect([of(found, 'renew-G1').status, of(found, 'test-G1').status]).toEqual(['gone', 'gone']);
    expect(found.status).toBe(1);
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
    const containing = (pattern: RegExp): string[] => [...markdown(manual)].filter(([, text]) => pattern.test(body(text))).map(([id]) => id).sort();
    expect(printing('BS2')).toEqual(containing(/\bBS2\b/));
    expect(printing('450 mL')).toEqual(containing(/\b450 mL|\b0\.45 L/));
    expect(printing('0.45 L')).toEqual(printing('450 mL'));
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
