/** All findings of one kind mended at once, and whole declarations to fill in. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, CompletionItem, CompletionList, Diagnostic, Range } from 'vscode-languageserver-protocol';
import { edit, SLOOP, TWIN } from '../checks/boats';
import { judged, openEditor, type Editor, type Texts } from './editor';

/** The first editor wants its edits with the actions, the second asks for the edit of the one that is chosen. */
let editor: Editor;
let asking: Editor;
beforeAll(async () => {
    editor = await openEditor();
    asking = await openEditor({ textDocument: { codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } } } });
}, 60_000);
afterAll(async () => { for (const one of [editor, asking]) expect(await one.close()).toEqual({ code: 0, stderr: '' }); });

describe('mend all of a kind', () => {
    async function actions(boat: string, texts: Texts, file: string, words: string, by = editor): Promise<CodeAction[]> {
        await by.open(boat, texts);
        const { textDocument, position } = by.at(boat, file, words);
        const range: Range = { start: position, end: position };
        const diagnostics: Diagnostic[] = [];
        return by.ask('textDocument/codeAction', { textDocument, range, context: { diagnostics } });
    }
    const OPEN = edit(edit(TWIN, '{ shutoff V1   normally open }', '{\n  hose S1\n}'), '{ shutoff V2   normally open }', '{ hose S2 }');

    test('in both files of a boat, each with a tag of its own', async () => {
        const course = 'supply course FromStbd from T2.P1 to SV1.stbd { hose S2 }\n';
        const texts = { 'boat.orlop': edit(OPEN, course, ''), 'more.orlop': course };
        const before = await judged(texts);
        expect(before).toEqual(expect.arrayContaining(['SHUT-AT-TANK S1', 'SHUT-AT-TANK S2']));
        const all = (await actions('open', texts, 'boat.orlop', 'hose @S1')).filter(({ title }) => title.startsWith('Mend all of this kind (SHUT-AT-TANK)'));
        expect(all.map(({ title, kind }) => [title, kind])).toEqual([['Mend all of this kind (SHUT-AT-TANK): 2 findings', 'quickfix']]);
        const mended = editor.after('open', all[0]!.edit!);
        const after = await judged(mended);
        expect(after.filter((line) => line.startsWith('SHUT-AT-TANK'))).toEqual([]);
        expect(after.filter((line) => !before.includes(line))).toEqual([]);
        expect(mended['boat.orlop']).toContain('{\n  shutoff V1   normally open\n  hose S1\n}');
        expect(mended['more.orlop']).toContain('{ shutoff V2   normally open   hose S2 }');
    });
    test('two vents for two tanks without one', async () => {
        const before = await judged({ 'a.orlop': TWIN.replaceAll('  vent\n', '') });
        const all = (await actions('unvented', { 'a.orlop': TWIN.replaceAll('  vent\n', '') }, 'a.orlop', 'tank @T1')).find(({ title }) => title.includes('(VENT-EXISTS)'));
        const after = await judged(editor.after('unvented', all!.edit!));
        expect(before.filter((line) => line.startsWith('VENT-EXISTS'))).toHaveLength(2);
        expect(after.filter((line) => line.startsWith('VENT-EXISTS') || !before.includes(line))).toEqual([]);
    });
    test('an editor that asks for edits is offered the action without one, and gets the same edit when it is chosen', async () => {
        expect(asking.capabilities.codeActionProvider).toEqual({ resolveProvider: true, codeActionKinds: ['quickfix', 'refactor'] });
        const ofKind = (all: readonly CodeAction[]): CodeAction => all.find(({ title }) => title === 'Mend all of this kind (SHUT-AT-TANK): 2 findings')!;
        const offered = ofKind(await actions('asked', { 'a.orlop': OPEN }, 'a.orlop', 'hose @S1', asking));
        expect(offered.edit).toBeUndefined();
        const resolved = await asking.ask<CodeAction>('codeAction/resolve', offered);
        expect(resolved.edit).toEqual(ofKind(await actions('asked', { 'a.orlop': OPEN }, 'a.orlop', 'hose @S1')).edit);
        expect(resolved.disabled).toBeUndefined();
        expect(asking.shown).toEqual([]);
    });
    test('the edit is for the text as it is when the action is chosen', async () => {
        const offered = (await actions('typed', { 'a.orlop': OPEN }, 'a.orlop', 'hose @S1', asking)).find(({ title }) => title.includes('all of this kind (SHUT-AT-TANK)'))!;
        await asking.open('typed', { 'a.orlop': `-- A line more.\n${OPEN}` });
        const { edit: made } = await asking.ask<CodeAction>('codeAction/resolve', offered);
        const mended = asking.after('typed', made!)['a.orlop']!;
        expect(mended).toContain('-- A line more.\n');
        expect((await judged({ 'a.orlop': mended })).filter((line) => line.startsWith('SHUT-AT-TANK'))).toEqual([]);
    });
    test('what cannot be mended all at once is told in words, with no edit', async () => {
        const offered = (await actions('gone', { 'a.orlop': OPEN }, 'a.orlop', 'hose @S1', asking)).find(({ title }) => title.includes('all of this kind (SHUT-AT-TANK)'))!;
        // One of the two was mended by hand meanwhile.
        await asking.open('gone', { 'a.orlop': edit(OPEN, '{ hose S2 }', '{ shutoff V2   normally open   hose S2 }') });
        const resolved = await asking.ask<CodeAction>('codeAction/resolve', offered);
        expect(resolved.edit).toBeUndefined();
        expect(resolved.disabled!.reason).toMatch(/SHUT-AT-TANK cannot be mended all at once.*Nothing was written/);
        expect(asking.shown).toEqual([resolved.disabled!.reason]);
    });
    test('not offered where there is only one', async () => {
        const one = edit(SLOOP, '  shutoff V1   normally open\n', '');
        expect(await judged({ 'a.orlop': one })).toContain('SHUT-AT-TANK S1');
        expect((await actions('one', { 'a.orlop': one }, 'a.orlop', 'hose @S1')).filter(({ title }) => title.includes('Mend all of this kind (SHUT-AT-TANK)'))).toEqual([]);
    });
});

describe('a declaration to fill in, with what it proposes, has no slip:', () => {
    const EMPTY = '';
    const BASE = 'tank T1 { pickup P1\n  drop R1\n  vent }\nengine E1\ntank T2 {\n  pickup P1\n  drop R1\n}\nsupply course Feed from T1.P1 to E1 {\n  shutoff V1   normally open\n  filter F1 final\n}\nline-up RUN run is normal\n';
    const filled = (text: string): string => text.replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1').replace(/\$\{\d+:([^{}]*)\}/g, '$1').replace(/\$\d+/g, '');
    async function items(text: string, line: string): Promise<CompletionItem[]> {
        await editor.open('snippets', { 'a.orlop': `${text}${line}` });
        const lines = `${text}${line}`.split('\n');
        const answer = await editor.ask<CompletionList | CompletionItem[]>('textDocument/completion', { textDocument: { uri: editor.uri('snippets', 'a.orlop') }, position: { line: lines.length - 1, character: lines.at(-1)!.length } });
        return Array.isArray(answer) ? answer : answer.items;
    }
    const slips = async (text: string): Promise<string[]> => (await judged({ 'a.orlop': text })).filter((line) => /^[a-z]/.test(line));

    test('in a boat that has a tank and an engine', async () => {
        const found = await items(BASE, '');
        expect(found.map(({ label }) => label)).toEqual(expect.arrayContaining(['vessel', 'tank', 'engine', 'supply course', 'return course', 'selector', 'line-ups']));
        const before = await judged({ 'a.orlop': BASE });
        for (const { label, insertText } of found) {
            const text = `${BASE}${filled(insertText!)}\n`;
            expect(await slips(text), label).toEqual([]);
            // Every tag that it proposes is free.
            expect((await judged({ 'a.orlop': text })).filter((line) => line.startsWith('TAG-UNIQUE') && !before.includes(line)), label).toEqual([]);
        }
    });
    test('the supply course begins and ends where nothing is fitted yet', async () => {
        const course = (await items(`${BASE}engine E2\n`, '')).find(({ label }) => label === 'supply course');
        expect(filled(course!.insertText!)).toMatch(/^supply course \S+ from T2\.P1 to E2 \{/);
    });
    test('a vessel, a tank, an engine, a supply, a return and line-ups, one after the other, from nothing', async () => {
        let text = EMPTY;
        for (const label of ['vessel', 'tank', 'engine', 'supply course', 'return course', 'line-ups', 'tend']) {
            text += `${filled((await items(text, '')).find((item) => item.label === label)!.insertText!)}\n`;
            expect(await slips(text), label).toEqual([]);
        }
    });
    test('every part within a course, and a changeover', async () => {
        const head = 'tank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 {\n';
        const found = await items(head, '  ');
        expect(found.map(({ label }) => label)).toEqual(expect.arrayContaining(['hose', 'filter', 'changeover', 'split']));
        for (const { label, insertText } of found) expect(await slips(`${head}  ${filled(insertText ?? label)}\n}\n`), label).toEqual([]);
    });
});
