/** A folder is a boat: the same tags on two boats have nothing to do with one another, in whatever the editor is asked. */
import { EmptyFileSystem, URI, isReference, type LangiumDocument } from 'langium';
import type { Location, Position, TextEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { describe, expect, test } from 'vitest';
import { createOrlopEditorServices } from '../../src/language/lsp/services';

type Texts = Readonly<Record<string, string>>;

/** One boat in one file; `own` is a tag that only it has. */
const boat = (own: string): string => `vessel Boat
tank T1 carries diesel {
  pickup P1
  drop R1
}
engine E1 {
  injection rotary mechanical
  exhaust dry
  bleed BE1
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   normally open
  primer PR1
  filter F1 final {
    bleed BS1
  }
  hose ${own}
}
return course Back from E1 to T1.R1 { hose }
line-up RUN run is normal {
  V1 open
}
line-up SERVICE service from RUN { V1 shut }
tend {
  renew F1 element   every 12 months
}
log 2026 {
  2026-01-31   E1 100 h   worked V1   renewed F1 element
}
bleed E1 after opening F1 starts SERVICE ends RUN {
  open V1
  bleed BS1 by PR1
  bleed BE1 by PR1
}
`;

const FIRST = '/fleet/ottil/boat.orlop';
const SECOND = '/fleet/bracken/boat.orlop';
const NESTED = '/fleet/ottil/as-found/boat.orlop';
const FLEET: Texts = { [FIRST]: boat('HA'), [SECOND]: boat('HB'), [NESTED]: boat('HC') };

/** The texts open in one editor. */
async function open(texts: Texts) {
    const { shared, Orlop, boats } = createOrlopEditorServices(EmptyFileSystem);
    const uri = (file: string): URI => URI.file(file);
    let version = 0;
    async function write(written: Texts, removed: readonly string[] = []): Promise<void> {
        for (const [file, text] of Object.entries(written)) shared.workspace.TextDocuments.set(TextDocument.create(uri(file).toString(), 'orlop', version++, text));
        for (const file of removed) shared.workspace.TextDocuments.delete(uri(file).toString());
        await shared.workspace.DocumentBuilder.update(Object.keys(written).map(uri), removed.map(uri));
    }
    await write(texts);
    const document = (file: string): LangiumDocument => shared.workspace.LangiumDocuments.getDocument(uri(file))!;
    const textOf = (file: string): string => document(file).textDocument.getText();
    /** Where the `turn`th occurrence of some words begins, from 0; `@` marks the place within them. */
    function at(file: string, words: string, turn = 0): Position {
        const plain = words.replace('@', '');
        let offset = -1;
        for (let i = 0; i <= turn; i++) offset = textOf(file).indexOf(plain, offset + 1);
        expect(offset, `${words} in ${file}`).toBeGreaterThanOrEqual(0);
        return document(file).textDocument.positionAt(offset + Math.max(0, words.indexOf('@')));
    }
    const ask = (file: string, words: string, turn = 0) => ({ textDocument: { uri: uri(file).toString() }, position: at(file, words, turn) });
    const fileOf = (address: string): string => URI.parse(address).path;
    const lineOf = ({ uri: address, range }: Location): string => `${fileOf(address)}: ${textOf(fileOf(address)).split('\n')[range.start.line]!.trim()}`;
    return {
        shared, document, textOf, write, at,
        messages: (file: string): string[] => boats.of(document(file)).problems.filter((problem) => problem.uri === uri(file).toString()).map(({ message }) => message),
        findings: (file: string, code: string) => boats.of(document(file)).report.findings.filter(({ rule }) => rule.code === code),
        references: async (file: string, words: string, turn = 0): Promise<string[]> =>
            ((await Orlop.lsp.ReferencesProvider!.findReferences(document(file), { ...ask(file, words, turn), context: { includeDeclaration: true } })) as Location[]).map(lineOf),
        definition: async (file: string, words: string): Promise<string[]> => ((await Orlop.lsp.DefinitionProvider!.getDefinition(document(file), ask(file, words))) ?? [])
            .map(({ targetUri, targetSelectionRange }) => lineOf({ uri: targetUri, range: targetSelectionRange })),
        /** The texts after a rename; files that it leaves alone are left out. */
        rename: async (file: string, words: string, newName: string, turn = 0): Promise<Texts> => {
            const edit = await Orlop.lsp.RenameProvider!.rename(document(file), { ...ask(file, words, turn), newName });
            return Object.fromEntries(Object.entries(edit?.changes ?? {}).map(([address, edits]) => [fileOf(address), TextDocument.applyEdits(document(fileOf(address)).textDocument, edits as TextEdit[])]));
        },
        complete: async (file: string, words: string): Promise<string[]> => (await Orlop.lsp.CompletionProvider!.getCompletion(document(file), ask(file, words)))!.items.map(({ label }) => label),
        hover: (file: string, words: string, turn = 0) => Orlop.lsp.HoverProvider!.getHoverContent(document(file), ask(file, words, turn)),
    };
}

describe('boats with the same tags', () => {
    test('every name means the one on its own boat', async () => {
        const editor = await open(FLEET);
        for (const file of Object.keys(FLEET)) {
            expect(editor.messages(file)).toEqual([]);
            const references = editor.document(file).references.filter((reference) => isReference(reference));
            expect(references.length).toBeGreaterThan(20);
            expect(references.filter(({ $nodeDescription }) => $nodeDescription?.documentUri.path !== file).map(({ $refText }) => $refText)).toEqual([]);
            expect(editor.findings(file, 'TAG-UNIQUE')).toEqual([]);
        }
    });

    test('a name of another boat, the folder above or the folder below is no name here', async () => {
        const editor = await open({ ...FLEET, [FIRST]: `${boat('HA')}log 2027 {\n  2027-01-31   worked HB   worked HC   worked HA\n}\n` });
        expect(editor.messages(FIRST)).toEqual([expect.stringMatching(/^`HB` is not in this boat\./), expect.stringMatching(/^`HC` is not in this boat\./)]);
    });

    test('taken away, a valve is missing on its own boat and not found on the other', async () => {
        const editor = await open(FLEET);
        await editor.write({ [FIRST]: boat('HA').replace(/^ {2}shutoff V1.*\n/m, '') });
        // Two line-ups, the log and the bleed sequence.
        expect(editor.messages(FIRST)).toEqual(Array.from({ length: 4 }, () => expect.stringMatching(/^`V1` is not in this boat\./)));
        expect([editor.messages(SECOND), editor.messages(NESTED)]).toEqual([[], []]);
        await editor.write({ [FIRST]: boat('HA') });
        expect(editor.messages(FIRST)).toEqual([]);
    });

    test('a boat that is closed leaves the others as they were', async () => {
        const editor = await open(FLEET);
        await editor.write({}, [FIRST]);
        expect([editor.messages(SECOND), editor.messages(NESTED)]).toEqual([[], []]);
        expect(await editor.references(SECOND, 'shutoff @V1')).toHaveLength(5);
    });

    test.each([
        ['V1', ['shutoff V1   normally open', 'V1 open', 'line-up SERVICE service from RUN { V1 shut }', '2026-01-31   E1 100 h   worked V1   renewed F1 element', 'open V1']],
        ['F1', ['filter F1 final {', 'renew F1 element   every 12 months', '2026-01-31   E1 100 h   worked V1   renewed F1 element', 'bleed E1 after opening F1 starts SERVICE ends RUN {']],
    ])('the places where %s stands are those on its own boat', async (tag, lines) => {
        const editor = await open(FLEET);
        for (const file of Object.keys(FLEET)) {
            expect((await editor.references(file, `worked @V1   renewed @F1`.replace(`@${tag}`, '#').replace('@', '').replace('#', `@${tag}`))).toSorted()).toEqual(lines.map((line) => `${file}: ${line}`).toSorted());
        }
        expect(await editor.definition(SECOND, 'open @V1\n')).toEqual([`${SECOND}: shutoff V1   normally open`]);
    });

    test.each([['V1', 'V7'], ['F1', 'Filter-A'], ['BS1', 'BS8'], ['E1', 'Perkeo'], ['T1', 'T9'], ['RUN', 'SAIL']])('%s renamed to %s is renamed wherever it stands on its boat, and only there', async (tag, newName) => {
        const editor = await open(FLEET);
        const turn = tag === 'RUN' ? 1 : 0; // from its use rather than its name
        const renamed = await editor.rename(FIRST, tag, newName, turn);
        expect(renamed).toEqual({ [FIRST]: boat('HA').replace(new RegExp(`(?<![A-Z])${tag}\\b`, 'g'), newName) });
        await editor.write(renamed);
        expect(editor.messages(FIRST)).toEqual([]);
    });

    test('a pick-up is renamed with the course that begins at it', async () => {
        const editor = await open(FLEET);
        expect(await editor.rename(FIRST, 'pickup @P1', 'P9')).toEqual({ [FIRST]: boat('HA').replace('pickup P1', 'pickup P9').replace('T1.P1', 'T1.P9') });
    });

    test.each([
        ['in a line-up', 'normal {\n  @'], ['in the log', 'worked @'], ['in a bleed sequence', '  open @'], ['at the end of a course', 'from @T1.P1'],
        ['in an interval', '  renew @F1'], ['in the head of a bleed sequence', 'after opening @'],
    ])('names offered %s are those of its own boat', async (_, words) => {
        const editor = await open({ [FIRST]: boat('HA').replace(/\b(T1|E1|V1|F1|PR1|BS1|BE1|P1|R1)\b/g, 'A$1').replaceAll('RUN', 'ARUN'), [SECOND]: boat('HB') });
        const names = (await editor.complete(SECOND, words)).filter((label) => /^[A-Z]/.test(label));
        expect(names.length).toBeGreaterThan(0);
        expect(names.filter((name) => name.startsWith('A') || name === 'HA')).toEqual([]);
    });
});

describe('one boat in three files', () => {
    const FOLDER = '/fleet/Näcken II';
    const at = (line: string): number => boat('HA').indexOf(line);
    const [lines, upkeep] = [at('supply course'), at('line-up RUN')];
    const THREE: Texts = {
        [`${FOLDER}/boat.orlop`]: boat('HA').slice(0, lines), [`${FOLDER}/lines.orlop`]: boat('HA').slice(lines, upkeep), [`${FOLDER}/upkeep.orlop`]: boat('HA').slice(upkeep),
    };
    const [BOAT, LINES, UPKEEP] = Object.keys(THREE) as [string, string, string];

    test('names are found in whatever file they stand, in whatever order the files come', async () => {
        for (const files of [Object.entries(THREE), Object.entries(THREE).toReversed()]) {
            const editor = await open({ ...Object.fromEntries(files), [SECOND]: boat('HB') });
            for (const file of Object.keys(THREE)) expect(editor.messages(file)).toEqual([]);
            expect(await editor.definition(UPKEEP, 'worked @V1')).toEqual([`${LINES}: shutoff V1   normally open`]);
            expect(await editor.definition(LINES, 'from @T1.P1')).toEqual([`${BOAT}: tank T1 carries diesel {`]);
        }
    });

    test('a rename goes through all of them', async () => {
        const editor = await open({ ...THREE, [SECOND]: boat('HB') });
        expect(await editor.rename(UPKEEP, 'open @V1\n', 'V7')).toEqual({ [LINES]: THREE[LINES]!.replaceAll('V1', 'V7'), [UPKEEP]: THREE[UPKEEP]!.replaceAll('V1', 'V7') });
    });

    test('a change in one file is seen in the others', async () => {
        const editor = await open({ ...THREE, [SECOND]: boat('HB') });
        await editor.write({ [LINES]: THREE[LINES]!.replace('shutoff V1', 'shutoff V7') });
        expect(editor.messages(UPKEEP)).toEqual(Array.from({ length: 4 }, () => expect.stringMatching(/^`V1` is not in this boat\./)));
        await editor.write({}, [LINES]);
        expect(editor.messages(UPKEEP)).toContainEqual(expect.stringMatching(/^`F1` is not in this boat\./));
        await editor.write({ [LINES]: THREE[LINES]! });
        expect(editor.messages(UPKEEP)).toEqual([]);
        expect(editor.messages(SECOND)).toEqual([]);
    });

    test('a tag given twice is one finding at the second, and everything still answers', async () => {
        const editor = await open({ ...THREE, [LINES]: THREE[LINES]!.replace('  hose HA', '  hose HA\n  shutoff V1   normally shut') });
        expect(editor.findings(BOAT, 'TAG-UNIQUE').map(({ message, place }) => [message, place?.file, place?.text])).toEqual([
            ['V1 is already the tag of something else on this boat.', 'lines.orlop', '  shutoff V1   normally shut'],
        ]);
        // Every use means the first one.
        expect(await editor.definition(UPKEEP, 'open @V1\n')).toEqual([`${LINES}: shutoff V1   normally open`]);
        expect(await editor.references(LINES, 'shutoff @V1')).toHaveLength(5);
        expect(await editor.references(LINES, 'shutoff @V1', 1)).toEqual([`${LINES}: shutoff V1   normally shut`]);
        expect(await editor.hover(LINES, 'shutoff @V1')).toMatchObject({ contents: { value: expect.stringContaining('normally open') } });
        expect(await editor.hover(LINES, 'shutoff @V1', 1)).toMatchObject({ contents: { value: expect.stringContaining('normally shut') } });
        // Renaming the second mends it.
        const renamed = await editor.rename(LINES, 'shutoff @V1', 'V2', 1);
        expect(renamed).toEqual({ [LINES]: THREE[LINES]!.replace('  hose HA', '  hose HA\n  shutoff V2   normally shut') });
        await editor.write(renamed);
        expect(editor.findings(BOAT, 'TAG-UNIQUE')).toEqual([]);
        for (const file of Object.keys(THREE)) expect(editor.messages(file)).toEqual([]);
    });

    test('given twice to things of two kinds, the one that every use means is not the one that is found wrong', async () => {
        const editor = await open({ ...THREE, [UPKEEP]: `${THREE[UPKEEP]!}generator V1 {\n  injection rotary mechanical\n  exhaust dry\n  self-bleeding\n}\n` });
        const wrong = editor.findings(BOAT, 'TAG-UNIQUE').map(({ place }) => place?.text.trim());
        expect(wrong).toHaveLength(1);
        expect(await editor.definition(UPKEEP, 'open @V1\n')).not.toContainEqual(expect.stringContaining(wrong[0]!));
    });
});
