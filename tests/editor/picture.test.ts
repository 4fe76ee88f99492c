/** What a view beside the text asks the server: pictures by version, what is wrong with them, and where things are written. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PictureParams, PictureResult, PlaceResult, WhereResult } from '../../src/server/protocol';
import { BOATS, openEditor, textsOf, type Editor } from './editor';

const BOAT = 'ottilwake';
const FILE = 'lines.orlop';
let editor: Editor;
beforeAll(async () => { editor = await openEditor(); });
afterAll(async () => { expect((await editor.close()).stderr).toBe(''); });

const ask = (more: Partial<PictureParams> = {}, boat = BOAT): Promise<PictureResult> => editor.ask('orlop/picture', { textDocument: { uri: editor.uri(boat, Object.keys(textsOf(boat))[0]!) }, kind: 'schematic', ...more });
const texts = textsOf(BOAT);
const type = (change: (text: string) => string): Promise<void> => editor.open(BOAT, { [FILE]: change(texts[FILE]!) });
const idsIn = (svg: string | undefined): string[] => [...(svg ?? '').matchAll(/ data-id="([^"]*)"/g)].map(([, id]) => id!);
/** Where words stand in the text as it is now, from 1. */
const lineOf = (words: string): number => editor.text(editor.uri(BOAT, FILE)).split('\n').findIndex((line) => line.includes(words)) + 1;

describe('by version', () => {
    test('an answer is short while its version holds, over edits that nobody sees on the sheet too', async () => {
        await editor.open(BOAT);
        const first = await ask();
        expect(first.svg).toMatch(/^<svg /);
        expect(first.words!.length).toBeGreaterThan(10);
        const again = await ask({ known: first.version });
        expect([again.version, again.svg, again.words]).toEqual([first.version, undefined, undefined]);
        await type((text) => `-- a remark\n${text}`);
        expect((await ask({ known: first.version })).svg).toBeUndefined();
        await type((text) => text.replace('  tube S4 ', '  shutoff V9\n  tube S4 '));
        const changed = await ask({ known: first.version });
        expect(changed.version).not.toBe(first.version);
        expect(idsIn(changed.svg)).toContain('V9');
        expect(idsIn(first.svg)).not.toContain('V9');
    });

    test('another line-up, another kind and something shown are other versions', async () => {
        await editor.open(BOAT);
        const asked: Partial<PictureParams>[] = [{}, { lineUp: 'SERVICE' }, { kind: 'elevation' }, { kind: 'elevation', level: 50 }, { kind: 'elevation', level: 50, heel: -10 }, { show: 'isolate F1' }];
        const versions = [];
        for (const one of asked) versions.push((await ask(one)).version);
        expect(new Set(versions).size).toBe(asked.length);
    });

    test('it tells that a boat may have changed, of those alone that a picture was asked of', async () => {
        const told: string[] = [];
        editor.hear('orlop/changed', ({ folder }: { folder: string }) => told.push(folder));
        await editor.open(BOAT);
        await ask();
        told.length = 0;
        await type((text) => text.replace('hose S1 ', 'hose S7 '));
        await editor.open('marrenwake');
        await expect.poll(() => told.length, { timeout: 30_000 }).toBeGreaterThan(0);
        expect(new Set(told)).toEqual(new Set([editor.uri(BOAT, '').replace(/\/$/, '')]));
        await editor.open(BOAT);
    });
});

describe('a text that cannot be read', () => {
    test('keeps the last good picture, and says since where; what is chosen still counts', async () => {
        await editor.open(BOAT);
        const good = await ask();
        await type((text) => text.replace('shutoff V1 ', 'shutof V1 '));
        const stale = await ask({ known: good.version });
        expect(stale.stale).toBe(`The drawing is as the text stood before it could not be read: ${FILE} line ${lineOf('shutof V1')}.`);
        expect([stale.version, stale.svg]).toEqual([good.version, undefined]);
        const other = await ask({ lineUp: 'SERVICE' });
        expect(other.stale).toBe(stale.stale);
        expect(idsIn(other.svg)).toContain('V1');
        await editor.open(BOAT);
        expect((await ask()).stale).toBeUndefined();
    });

    test('has no picture when it never could be read', async () => {
        await editor.open('never', { 'boat.orlop': 'vessel Never "Never"\n\ntank T1 carries\n  engin E1 {\n' });
        const none: PictureResult = await editor.ask('orlop/picture', { textDocument: { uri: editor.uri('never', 'boat.orlop') }, kind: 'schematic' });
        expect(none.svg).toBeUndefined();
        expect(none.stale).toMatch(/^There is no drawing yet, because the text cannot be read: boat\.orlop line \d+\.$/);
        expect(none.choices.boat).toBe('Never');
    });
});

describe('what is not understood is said, and the rest is drawn', () => {
    const refusals: [string, Partial<PictureParams>, RegExp][] = [
        ['a line-up that is not there', { lineUp: 'HUGIN' }, /no line-up `HUGIN`/],
        ['a level beyond the tank', { kind: 'elevation', level: 120 }, /from 0 to 100 %, not 120 %/],
        ['a heel beyond the deck', { kind: 'elevation', heel: 100 }, /90 deg either way, not 100 deg/],
        ['a part that is not there', { show: 'isolate HUGIN' }, /HUGIN/],
        ['words of no meaning', { show: 'hugin' }, /`hugin` is nothing that can be shown/],
        ['a step after the last', { show: 'step 1 of renew F1 element', step: 999 }, /999/],
        ['a file of places that is none', { places: 'hugin' }, /schematic\.places line 1/],
        ['a place that is taken', { places: 'S1 down 0\nV1 down 300\n' }, /schematic\.places: V1 stands 300 higher than it says/],
        ['a place of what is not drawn', { places: 'HUGIN down 100\n' }, /HUGIN/],
    ];
    test.each(refusals)('%s', async (_, more, sentence) => {
        await editor.open(BOAT);
        const plain = await ask({ kind: more.kind ?? 'schematic' });
        const refused = await ask(more);
        expect(refused.refused).toMatch(sentence);
        expect(refused.svg).toBe(plain.svg);
        expect(plain.refused).toBeUndefined();
    });
});

test('a newer question ends an older one, whose answer is not awaited', async () => {
    await editor.open(BOAT);
    const params = { textDocument: { uri: editor.uri(BOAT, FILE) }, kind: 'schematic', show: 'line-up' };
    const older = editor.cancelled('orlop/picture', params);
    const newer = ask({ show: 'isolate F1' });
    // LSPErrorCodes.RequestCancelled (Language Server Protocol 3.17, ResponseMessage)
    await expect(older).rejects.toMatchObject({ code: -32800 });
    expect((await newer).svg).toMatch(/^<svg /);
});

describe('places', () => {
    const place = (more: object): Promise<PlaceResult> => editor.ask('orlop/place', { textDocument: { uri: editor.uri(BOAT, FILE) }, id: 'E1', ...more });
    test('a thing is moved down the sheet and back', async () => {
        await editor.open(BOAT);
        const before = await ask();
        expect(before.placed).toEqual([]);
        const { text } = await place({ by: 60 });
        expect(text).toMatch(/^E1 down \d+$/m);
        const after = await ask({ places: text });
        expect(after.placed).toContain('E1');
        expect(after.placed).not.toContain('T1');
        expect(after.svg).not.toBe(before.svg);
        expect((await place({ places: text })).text).toBe('');
    });
});

describe('where things are written', () => {
    const where = (more: object): Promise<WhereResult | null> => editor.ask('orlop/where', { textDocument: { uri: editor.uri(BOAT, FILE) }, ...more });
    const at = (words: string): object => ({ position: editor.at(BOAT, FILE, words).position });
    test('by id: its name, in whichever file of the boat', async () => {
        await editor.open(BOAT);
        const filter = await where({ id: 'F1' });
        expect([filter!.uri, editor.words(filter!.uri, filter!.range)]).toEqual([editor.uri(BOAT, FILE), 'F1']);
        const tank = await where({ id: 'T1' });
        expect([tank!.uri, editor.words(tank!.uri, tank!.range)]).toEqual([editor.uri(BOAT, 'boat.orlop'), 'T1']);
        expect(await where({ id: 'HUGIN' })).toBeNull();
    });
    test.each([['in its name', 'hose S@1 ', 'S1'], ['in a fact of it', 'bore@ 8 mm   length 2.60', 'S1'], ['before it on its line', '@  lift pump LP1', 'LP1'], ['in a block', 'drain at@ 480', 'F1'], ['in what stands in a block', 'spanner@ 10 mm\n    seals', 'BS1'], ['on its last line', '    prefill allowed\n  @}', 'F1']])('by place: %s', async (_, words, id) => {
        await editor.open(BOAT);
        expect((await where(at(words)))?.id).toBe(id);
    });
    test('every thing that can be found is written somewhere', async () => {
        for (const boat of BOATS) {
            await editor.open(boat);
            const { choices } = await ask({}, boat);
            for (const { id } of choices.things) expect(await editor.ask('orlop/where', { textDocument: { uri: editor.uri(boat, Object.keys(textsOf(boat))[0]!) }, id }), `${id} of ${boat}`).toMatchObject({ id });
        }
    });
});
