/** Who may know whom: the inner folders know nothing of texts, editors, files or clocks. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const SRC = fileURLToPath(new URL('../../src', import.meta.url));
const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts')).map((file) => {
    const text = readFileSync(join(SRC, file), 'utf8');
    const code = text.replace(/\/\*[\s\S]*?\*\/|\/\/[^\n]*/g, '');
    const modules = [...code.matchAll(/^\s*(?:import|export)\b[^;'"]*?\bfrom\s*['"]([^'"]+)['"]|\bimport\s*\(?\s*['"]([^'"]+)['"]/gm)].map((match) => match[1] ?? match[2]!);
    const inside = modules.filter((name) => name.startsWith('.')).map((name) => relative(SRC, join(SRC, dirname(file), name)).split('/')[0]!);
    return { file, folder: file.split('/')[0]!, lines: text.trimEnd().split('\n').length, code, inside, outside: modules.filter((name) => !name.startsWith('.')) };
});
const of = (...folders: readonly string[]): typeof files => files.filter(({ folder }) => folders.includes(folder));

const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
    model: ['model'], analysis: ['model', 'analysis'], checks: ['model', 'analysis', 'checks'], procedures: ['model', 'analysis', 'procedures'],
    documents: ['model', 'analysis', 'checks', 'procedures', 'documents'],
    layout: ['model', 'documents', 'layout'],
    language: ['model', 'analysis', 'checks', 'procedures', 'documents', 'layout', 'language'],
    server: ['layout', 'language', 'server'], cli: ['model', 'analysis', 'checks', 'procedures', 'documents', 'layout', 'language', 'cli'], extension: ['extension', 'server'],
};
const INNER = ['model', 'analysis', 'checks', 'procedures', 'documents'];

test('every file stands in a folder that is named here, and every folder has files', () => {
    expect([...new Set(files.map(({ folder }) => folder))].toSorted()).toEqual(Object.keys(MAY_IMPORT).toSorted());
});

test.each(Object.entries(MAY_IMPORT))('%s imports only %j of src', (folder, allowed) => {
    expect(of(folder).flatMap(({ file, inside }) => inside.filter((other) => !allowed.includes(other)).map((other) => `${file} imports ${other}`))).toEqual([]);
});

describe('libraries', () => {
    const importing = (name: RegExp): string[] => [...new Set(files.filter(({ outside }) => outside.some((other) => name.test(other))).map(({ folder }) => folder))].toSorted();
    test('vscode is the extension\'s alone', () => expect(importing(/^vscode$/)).toEqual(['extension']));
    test('langium is for the language and what starts it', () => expect(importing(/^langium(\/|$)/)).toEqual(['cli', 'language', 'server']));
    test('the layout library is for the layout alone', () => expect(importing(/^elkjs/)).toEqual(['layout']));
    // A calendar of days is arithmetic; it needs no clock.
    test('the inner folders use one, for days', () => expect([...new Set(of(...INNER).flatMap(({ outside }) => outside))]).toEqual(['temporal-polyfill']));
});

test('the inner folders give the same answer every time: no files, no clock, no chance, no printing', () => {
    const forbidden = /['"]node:|\brequire\(|\bconsole\b|\bprocess\.|\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bTemporal\.Now\b|\bperformance\b/;
    expect(of(...INNER).flatMap(({ file, code }) => forbidden.exec(code)?.[0] === undefined ? [] : [`${file}: ${forbidden.exec(code)![0]}`])).toEqual([]);
});

test('no file that a person writes is longer than 400 lines', () => {
    expect(files.filter(({ file, lines }) => !file.includes('/generated/') && lines > 400).map(({ file, lines }) => `${file}: ${lines}`)).toEqual([]);
});
