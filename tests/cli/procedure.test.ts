/** `orlop procedure` as a person meets it: output, files and exit codes of the built program. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';

const program = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const boat = fileURLToPath(new URL('../../examples/ottilwake', import.meta.url));
const root = mkdtempSync(join(tmpdir(), 'orlop-procedure-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

const orlop = (...args: string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [program, 'procedure', boat, ...args], { encoding: 'utf8', maxBuffer: 1 << 26 });
const table = orlop();

test('without a job: every job with the name of its page or the reason why there is none, in 80 columns', () => {
    const { status, stdout, stderr } = table;
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/F1 +renew element +renew-F1-element\n/);
    expect(stdout.split('\n').filter((line) => line.length > 80)).toEqual([]);
});

test('why there is no procedure stands once for all parts of which it is the same, and with --all at each job; no job is left out', () => {
    const told = table.stdout;
    const entries = (JSON.parse(orlop('--json').stdout) as { procedures: { part?: string; jobs: string; blank?: string }[] }).procedures.filter(({ blank }) => blank !== undefined);
    const below = told.slice(told.indexOf('No procedure, and why')).replace(/\s+/g, ' ');
    for (const { part = 'boat' } of entries) expect([part, below.includes(part)]).toEqual([part, true]);
    // Every reason that is not the same as another's is there in its own words; each is in full with --all.
    const each = orlop('--all').stdout.replace(/\s+/g, ' ');
    for (const { blank } of entries) expect([blank, each.includes(blank!.replace(/\s+/g, ' '))]).toEqual([blank, true]);
    expect(below).toContain('renew: V1 No valve that hands can shut stands between T1 and V1');
});

test('the table starts where it is asked to, and tells of a line-up that is not there', () => {
    const { status, stderr } = orlop('--all', '--starts', 'NOWHERE');
    expect([status, stderr]).toEqual([64, expect.stringContaining('There is no line-up called NOWHERE')]);
    const jobs = (...words: string[]): unknown => JSON.parse(orlop('--all', '--json', ...words).stdout);
    expect(jobs('--starts', 'LAID-UP')).not.toEqual(jobs());
});

test('names and words of the boat do nothing to the terminal, and turn nothing that is read', () => {
    const folder = join(root, 'acting');
    mkdirSync(folder);
    writeFileSync(join(folder, 'boat.orlop'), 'vessel Acting "A\u202Eb\u009B31mc\u0007" {\n}\ntank T1 "x\u2066y" {\n  box 600 x 600 x 420 mm\n  zzz\u202E 4\n}\n');
    for (const command of [['check'], ['procedure'], ['check', '--json'], ['procedure', '--json']] as const) {
        const [name, ...options] = command;
        const { stdout, stderr } = spawnSync(process.execPath, [program, name, folder, ...options], { encoding: 'utf8' });
        expect([command, /[\u202A-\u202E\u2066-\u2069\u0080-\u009F]|[^\P{Cc}\n]/u.exec(stdout + stderr)]).toEqual([command, null]);
        if (options.length > 0 && stdout !== '') expect(() => JSON.parse(stdout) as unknown).not.toThrow();
    }
});

test('a job, or several, is printed as a page; in figures of another day when she is said to be otherwise', () => {
    const usual = orlop('renew', 'F1', 'element');
    const today = orlop('renew', 'F1', 'element', '--today', 'T1 110 L heel 4 port');
    expect([usual.status, usual.stderr, today.status, today.stderr]).toEqual([0, '', 0, '']);
    expect(usual.stdout).toMatch(/^Ottilwake: Renew F1 element\n/);
    expect(usual.stdout).not.toMatch(/, today:/);
    // S2 of the trade's scenarios: upright with more than 134 L the drain floods.
    expect(usual.stdout).toMatch(/drain of F1[^.]*upright\s+T1\s+floods\s+it\s+with\s+more\s+than\s+134\s+L/);
    expect(today.stdout).toMatch(/drain of F1, today:/);
    expect(orlop('renew F1 element, look F2 element').stdout).toMatch(/^Ottilwake: Renew F1 element and look at F2 element\n/);
    // Another word for the same job.
    expect(orlop('change', 'F1', 'element').stdout).toBe(usual.stdout);
});

test('a job that has no procedure ends with 3 and says what is missing; one that is not understood with 64', () => {
    const blank = orlop('refit', 'T1');
    expect([blank.status, blank.stdout.trim() === '', blank.stderr]).toEqual([3, false, '']);
    const data = orlop('refit', 'T1', '--json');
    expect([data.status, Object.keys(JSON.parse(data.stdout) as object)]).toEqual([3, ['jobs', 'blank', 'missing', 'deferral']]);
    for (const [words, told] of [[['renew', 'F9', 'element'], 'no F9'], [['renuw', 'F1', 'element'], 'renew'], [['renew', 'F1', 'element', '--today', 'T1 900 L'], 'holds no more'], [['renew', 'F1', 'element', '--starts', 'NOWHERE'], 'NOWHERE'], [['--write', root], '--all']] as const) {
        const { status, stdout, stderr } = orlop(...words);
        expect([words, [3, 64].includes(status!), `${stdout}${stderr}`]).toEqual([words, true, expect.stringContaining(told)]);
        expect(stderr).not.toMatch(/\n\s+at /);
    }
});

test('--write writes the page in three forms, --all all of them with an index; the same bytes every time', () => {
    const one = join(root, 'one');
    expect(orlop('renew', 'F1', 'element', '--write', one).status).toBe(0);
    expect(readdirSync(one).sort()).toEqual(['issued.json', 'renew-F1-element.dita', 'renew-F1-element.html', 'renew-F1-element.md', 'renew-F1-element.svg']);
    const [first, second] = ['first', 'second'].map((name) => { expect(orlop('--all', '--write', join(root, name)).status).toBe(0); return join(root, name); }) as [string, string];
    const files = readdirSync(first).sort();
    expect(files).toEqual(expect.arrayContaining(['index.html', 'index.md', 'procedures.ditamap', 'renew-F1-element.html']));
    expect(files.filter((file) => readFileSync(join(first, file), 'utf8') !== readFileSync(join(second, file), 'utf8'))).toEqual([]);
    expect((JSON.parse(readFileSync(join(one, 'issued.json'), 'utf8')) as { pages: { files: string[] }[] }).pages[0]!.files).toContain('renew-F1-element.svg');
    expect(readFileSync(join(first, 'renew-F1-element.html'), 'utf8')).toBe(readFileSync(join(one, 'renew-F1-element.html'), 'utf8'));
    const issued = join(root, 'issued');
    expect(orlop('renew', 'F1', 'element', '--issued', '2026-03-01', '--write', issued).status).toBe(0);
    expect(readFileSync(join(issued, 'renew-F1-element.dita'), 'utf8')).toContain('<created date="2026-03-01"/>');
});

test('--json is the tree of the page', () => {
    const page = JSON.parse(orlop('renew', 'F1', 'element', '--json').stdout) as { id: string; sections: { steps: { number: number; action: string }[] }[] };
    expect(page.id).toBe('renew-F1-element');
    expect(page.sections.flatMap(({ steps }) => steps.map(({ number }) => number))).toEqual(page.sections.flatMap(({ steps }) => steps).map((_, i) => i + 1));
});
