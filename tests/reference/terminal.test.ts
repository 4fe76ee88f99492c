/** `orlop reference`, as it is typed. The program is built before the tests are run. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { PAGES } from './pages';

const PROGRAM = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'orlop-'));
afterAll(() => rmSync(folder, { recursive: true }));
const orlop = (...args: readonly string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [PROGRAM, 'reference', ...args], { encoding: 'utf8', cwd: folder });

test('prints every page, one after the other', () => expect(orlop()).toMatchObject({ status: 0, stdout: Object.values(PAGES).join('\n'), stderr: '' }));

test.each(Object.entries(PAGES))('prints %s alone', (path, text) => expect(orlop(path.replace('.md', ''))).toMatchObject({ status: 0, stdout: text }));

test('writes them into a folder, and prints only their names', () => {
    expect(orlop('--write', 'pages')).toMatchObject({ status: 0, stdout: '', stderr: Object.keys(PAGES).map((path) => `written: ${join('pages', path)}\n`).join('') });
    expect(Object.fromEntries(readdirSync(join(folder, 'pages')).map((path) => [path, readFileSync(join(folder, 'pages', path), 'utf8')]))).toEqual(PAGES);
});

test('a page that is not there', () => {
    expect(orlop('rule')).toMatchObject({ status: 64, stdout: '', stderr: 'There is no page called rule. The pages are guide, language, units, rules.\n' });
});
