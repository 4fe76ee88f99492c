/** What the slow rules say stands where it stood while somebody types, and is true a moment after the last key. */
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { EXAMPLES, textsOf } from './editor';
import { urisOf } from './long-typing';
import { openTypist, type Typist } from './typist';

const SERVER = fileURLToPath(new URL('../../out/server.cjs', import.meta.url));

test('the finding at a vent moves with its line, and goes when the vent is raised', async () => {
    const folder = fileURLToPath(new URL('ottilwake', EXAMPLES));
    const texts = textsOf('ottilwake');
    const uris = urisOf(folder, Object.keys(texts));
    const typist: Typist = await openTypist(SERVER, folder, Object.keys(texts).length);
    for (const [file, uri] of Object.entries(uris)) await typist.open(uri, texts[file]!);
    await typist.quiet(800);
    const uri = uris['lines.orlop']!;
    const line = (): number | undefined => typist.diagnostics.get(uri)?.find(({ code }) => code === 'VENT-HEEL')?.range.start.line;
    const at = texts['lines.orlop']!.split('\n').findIndex((text) => text.includes('hose VH1'));
    expect(line()).toBe(at);

    await typist.type(uri, { offset: 0, length: 0, text: '-- a remark\n' });
    expect(line()).toBe(at + 1);

    // Dry to 40 degrees: 520 + 1500 x tan 40 = 1779 mm; the crest 520 + 1450 x tan 40 = 1737 mm.
    const raise = async (from: string, to: string): Promise<void> => { await typist.type(uri, { offset: typist.text(uri).indexOf(from), length: from.length, text: to }); };
    await raise('crest at 1560 mm', 'crest at 1800 mm');
    await raise('outlet at 1500 mm', 'outlet at 1780 mm');
    await typist.quiet(800);
    expect(line()).toBeUndefined();
    await raise('outlet at 1780 mm', 'outlet at 1770 mm');
    await typist.quiet(800);
    expect(line()).toBe(at + 1);
    // Somebody who asks at once, as an editor does for its light bulb, must not keep the answer to himself.
    const text = 'outlet at 1770 mm';
    typist.send(uri, { offset: typist.text(uri).indexOf(text), length: text.length, text: 'outlet at 1785 mm' });
    await typist.ask('textDocument/codeAction', { textDocument: { uri }, range: { start: { line: at + 1, character: 3 }, end: { line: at + 1, character: 3 } }, context: { diagnostics: [] } });
    await typist.quiet(800);
    expect(line()).toBeUndefined();
    await typist.close();
}, 60_000);
