/** The formatter over the protocol: only blanks change, the boat stays what it is, and a second time changes nothing. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TextEdit } from 'vscode-languageserver-protocol';
import { loadBoat } from '../../src/language/load';
import { lots } from '../oracle/random-boats';
import { spoil } from '../bad-input/slips';
import { BOATS, edited, judged, openEditor, textsOf, type Editor } from './editor';

let editor: Editor;
beforeAll(async () => { editor = await openEditor(); });
afterAll(async () => expect(await editor.close()).toEqual({ code: 0, stderr: '' }));

const options = { tabSize: 4, insertSpaces: false };
async function edits(text: string): Promise<TextEdit[]> {
    await editor.open('desk', { 'a.orlop': text });
    return editor.ask('textDocument/formatting', { textDocument: { uri: editor.uri('desk', 'a.orlop') }, options });
}
const format = async (text: string): Promise<string> => edited(text, await edits(text));
const bare = (text: string): string => text.replace(/\s/g, '');

const HULK = readFileSync(new URL('../bad-input/hulk/hulk.orlop', import.meta.url), 'utf8');
const TEXTS: readonly (readonly [string, string])[] = [...BOATS.flatMap((boat) => Object.entries(textsOf(boat)).map(([file, text]) => [`${boat}/${file}`, text] as const)), ['hulk', HULK]];

test.each(TEXTS.filter(([name]) => name !== 'hulk'))('%s is set as the formatter sets it', async (_name, text) => expect(await format(text)).toBe(text));

describe.each(TEXTS)('%s, with its blanks changed', (name, text) => {
    /** The same words with other blanks, as hasty hands leave them. */
    const squeezed = text.replace(/[ \t]+/g, ' ').replace(/\n /g, '\n');
    const spread = text.replace(/^ +/gm, '\t').replace(/\n/g, '  \n').replace(/\n( *\n)/g, '\n$1$1$1').replaceAll('{', ' \t{');
    test.each([['squeezed', squeezed], ['spread', spread], ['with other line ends', text.replaceAll('\n', '\r\n')]])('%s', async (_how, changed) => {
        const once = await format(changed);
        expect(bare(once)).toBe(bare(changed));
        expect(await format(once)).toBe(once);
        const boatOf = async (own: string) => { const { boat, problems } = await loadBoat({ ...(name === 'hulk' ? {} : textsOf(name.split('/')[0]!)), [name.split('/')[1] ?? 'a.orlop']: own }); return { boat, problems: problems.map(({ code, message }) => `${code} ${message}`) }; };
        expect(await boatOf(once)).toEqual(await boatOf(changed));
        expect(once).not.toMatch(/[ \t]+\r?$|\n\r?\n\r?\n/m);
    });
    test('squeezed and set, it is what it was, but for gaps that are its writer\'s own', async () => {
        const lines = (await format(squeezed)).split('\n');
        const own = text.split('\n');
        expect(lines.map((line) => line.trim().replace(/\s+/g, ' '))).toEqual(own.map((line) => line.trim().replace(/\s+/g, ' ')));
        if (name !== 'hulk') expect(lines.map((line) => /^ */.exec(line)![0].length)).toEqual(own.map((line) => /^ */.exec(line)![0].length));
    });
});

test('kept sequences of the examples stay true', async () => {
    for (const boat of BOATS) {
        const texts = textsOf(boat);
        const set: Record<string, string> = {};
        for (const [file, text] of Object.entries(texts)) set[file] = await format(text);   // one by one: all are laid on the same desk
        expect(await judged(set)).toEqual(await judged(texts));
    }
});

test('the sections of a tank: the corners in a column, and further down where the line is broken', async () => {
    expect(await format(`tank T1 {
section   at 2200 mm fwd corners 200 mm up   550 mm stbd,200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd measured
    section at 900 mm aft corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd
  section at 3000 mm fwd corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd,
620 mm up 1150 mm stbd note "at the frame"
}
`)).toBe(`tank T1 {
  section at 2200 mm fwd   corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd measured
  section at 900 mm aft    corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd
  section at 3000 mm fwd   corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd,
    620 mm up 1150 mm stbd   note "at the frame"
}
`);
});

test('facts, columns and tables', async () => {
    expect(await format(`


vessel Skiff{
heights from "keel"    length 6 m  -- over all


space Bay machinery
}
tank T1 "main"   in Bay { pickup P1 bore 10 mm mouth at 25 mm off bottom
drop R1 bore 8 mm
vent
}
-- before the engine
engine E1 {
injection in-line mechanical holds 60 mL
  bleed BS3 "gallery" at 800 mm spanner 8 mm
bleed BS4 at 900 mm
}
supply course Feed   from T1.P1   to E1 {
shutoff V1 at 1 m normally open
-- a filter
filter F1 primary in Bay {
holds 450 mL passes 10 um
    -- its seals
seals lid ring ,T-ring
}
hose { note "no tag" }
electric primer EP1 30 L/h momentary
split { leg main { check CV1 }
leg b { shutoff VB } }
}
line-up RUN run is normal { V1 open }
line-up LAID-UP laid up from RUN { V1 shut VB shut }
tend {
renew F1 element every 250 h or 12 months with lid ring
renew E1 belt every 2 years common practice
look F1 every start
}
log 2025 {
2025-03-12 E1 1410 h renewed F1 element
2025-09-01 E1 99 h renewed E1 belt and drained F1

2025-10-01 E1 15381 h by "owner"
}
locker "port" {
12 of F1 element
1 of E1 belt
}
bleed E1 after opening F1 kept {
open V1
note "stiff"
bleed BS3 by EP1 running expect 3 to 5 s stop and think at 9 s
}`)).toBe(`vessel Skiff {
  heights from "keel"   length 6 m   -- over all

  space Bay machinery
}
tank T1 "main"   in Bay { pickup P1   bore 10 mm   mouth at 25 mm off bottom
  drop R1   bore 8 mm
  vent
}
-- before the engine
engine E1 {
  injection in-line mechanical   holds 60 mL
  bleed BS3 "gallery"   at 800 mm   spanner 8 mm
  bleed BS4             at 900 mm
}
supply course Feed from T1.P1 to E1 {
  shutoff V1    at 1 m   normally open
  -- a filter
  filter F1 primary in Bay {
    holds 450 mL   passes 10 um
    -- its seals
    seals lid ring, T-ring
  }
  hose { note "no tag" }
  electric primer EP1   30 L/h   momentary
  split { leg main { check CV1 }
    leg b { shutoff VB } }
}
line-up RUN       run       is normal   { V1 open }
line-up LAID-UP   laid up   from RUN    { V1 shut   VB shut }
tend {
  renew F1 element   every 250 h or 12 months   with lid ring
  renew E1 belt      every 2 years   common practice
  look F1            every start
}
log 2025 {
  2025-03-12   E1 1410 h   renewed F1 element
  2025-09-01   E1 99 h     renewed E1 belt and drained F1

  2025-10-01   E1 15381 h   by "owner"
}
locker "port" {
  12 of F1 element
  1  of E1 belt
}
bleed E1   after opening F1   kept {
  open V1
    note "stiff"
  bleed BS3 by EP1 running   expect 3 to 5 s   stop and think at 9 s
}`);
});

describe('what is half typed', () => {
    test('its lines stay as they are, the others are set', async () => {
        expect(await format('tank T1 {\npickup P1\n  hose   V1 V2 {{ }\n}}\n   tank  $$  T2\ntend {\n look  T1 every start\n}\n'))
            .toBe('tank T1 {\n  pickup P1\n  hose   V1 V2 {{ }\n}}\n   tank  $$  T2\ntend {\n  look T1   every start\n}\n');
    });
    test('while a brace is missing nothing is moved in or out', async () => {
        const text = 'supply course A from T1.P1 to E1 {\n      shutoff V1    normally open\n\ntank T1 {\n    pickup P1\n}\n';
        expect(await format(text)).toBe(text);
    });
    test('an open quote is not touched', async () => {
        const text = 'engine E1 {\n note   "he said   \n}\n';
        expect(await format(text)).toBe(text);
    });
    test('slips that go by what touches what keep their message', async () => {
        for (const line of ['hose S1 bore 8,5 mm', 'hose S1 bore 5-9 mm', 'hose S1 bore 8\u00a0mm', 'hose S1 bore 8 , 5 mm']) {
            const text = `supply course A from T1.P1 to E1 {\n${line}\n}\n`;
            const messages = async (own: string): Promise<string[]> => (await loadBoat({ 'a.orlop': own })).problems.map(({ message }) => message);
            expect(await messages(await format(text)), line).toEqual(await messages(text));
        }
    });
    test('250 slips of the hand: nothing is lost, the boat stays what it is, and a second time changes nothing', async () => {
        await fc.assert(fc.asyncProperty(fc.integer(), fc.constantFrom(...TEXTS), async (seed, [, text]) => {
            const { texts: { a } } = spoil({ a: text }, lots(seed));
            const once = await format(a!);
            expect(bare(once)).toBe(bare(a!));
            expect(await format(once)).toBe(once);
            const read = async (own: string) => { const { boat, problems } = await loadBoat({ 'a.orlop': own }); return { boat, problems: problems.map(({ code, message }) => `${code} ${message}`) }; };
            expect(await read(once)).toEqual(await read(a!));
        }), { numRuns: 250, seed: 7 });
    }, 240_000);
});

test('a range: only its lines', async () => {
    await editor.open('desk', { 'a.orlop': 'tank T1 {\npickup P1\ndrop R1\n}\n' });
    const uri = editor.uri('desk', 'a.orlop');
    const found = await editor.ask<TextEdit[]>('textDocument/rangeFormatting', { textDocument: { uri }, range: { start: { line: 2, character: 0 }, end: { line: 2, character: 3 } }, options });
    expect(edited(editor.text(uri), found)).toBe('tank T1 {\npickup P1\n  drop R1\n}\n');
});

test('on a closing brace: its line moves out', async () => {
    await editor.open('desk', { 'a.orlop': 'tank T1 {\n   pickup P1\n  }\n' });
    const uri = editor.uri('desk', 'a.orlop');
    const found = await editor.ask<TextEdit[]>('textDocument/onTypeFormatting', { textDocument: { uri }, position: { line: 2, character: 3 }, ch: '}', options });
    expect(edited(editor.text(uri), found)).toBe('tank T1 {\n   pickup P1\n}\n');
});
