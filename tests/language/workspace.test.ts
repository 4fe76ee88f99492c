/** Several boats in one workspace: which of them an edit reaches, in which order, and that nothing stale is left when it is broken off. */
import { DocumentState, EmptyFileSystemProvider, URI, type Cancellation, type LangiumDocument } from 'langium';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { expect, test } from 'vitest';
import { createOrlopEditorServices, type OrlopEditorServices } from '../../src/language/lsp/services';

const PATTERNS = 'pattern Valve is shutoff { metal }\n';
const lines = (valve: string): string => `tank T1 { pickup P1 }
engine E1
supply course Feed from T1.P1 to E1 {
  shutoff ${valve} like Valve
  hose
}
`;
const LINE_UP = 'line-up RUN run is normal { V1 open }\n';
/** Two boats that are sound, one with a name that is nowhere. */
const TEXTS: Readonly<Record<string, string>> = {
    '/fleet/shared/patterns.orlop': PATTERNS, '/fleet/one/lines.orlop': lines('V1'), '/fleet/one/line-up.orlop': LINE_UP,
    '/fleet/two/lines.orlop': lines('V1'), '/fleet/two/line-up.orlop': LINE_UP, '/fleet/slip/lines.orlop': lines('V9'), '/fleet/slip/line-up.orlop': LINE_UP,
};

interface Fleet extends OrlopEditorServices {
    /** What would be read from the disk. */
    readonly texts: Map<string, string>;
}

async function fleet(given = TEXTS, today?: () => string): Promise<Fleet> {
    const texts = new Map(Object.entries(given));
    const services = createOrlopEditorServices({ fileSystemProvider: () => Object.assign(new EmptyFileSystemProvider(), { readFile: async (uri: URI) => texts.get(uri.path)! }) }, today);
    const { workspace } = services.shared;
    const documents = Object.entries(given).map(([path, text]) => workspace.LangiumDocumentFactory.fromString(text, URI.file(path)));
    for (const document of documents) workspace.LangiumDocuments.addDocument(document);
    await workspace.DocumentBuilder.build(documents, { validation: true });
    return { ...services, texts };
}

const documentOf = ({ shared }: Fleet, path: string): LangiumDocument => shared.workspace.LangiumDocuments.getDocument(URI.file(path))!;
const openFile = ({ shared, texts }: Fleet, path: string): void => { shared.workspace.TextDocuments.set(TextDocument.create(URI.file(path).toString(), 'orlop', 0, texts.get(path)!)); };

/** Writes another text into a file, and has it built. */
async function write({ shared, texts }: Fleet, path: string, text: string, token?: Cancellation.CancellationToken): Promise<void> {
    texts.set(path, text);
    await shared.workspace.DocumentBuilder.update([URI.file(path)], [], token);
}

/** The files that reach a state from now on, in that order. */
function reaching({ shared }: Fleet, state: DocumentState): string[] {
    const reached: string[] = [];
    shared.workspace.DocumentBuilder.onDocumentPhase(state, ({ uri }) => { reached.push(uri.path); });
    return reached;
}

const slipsOf = (services: Fleet, path: string): string[] => services.boats.of(documentOf(services, path)).problems.map(({ message }) => message);

test('an edit in one boat leaves the others alone, also one with a name that is nowhere', async () => {
    const services = await fleet();
    const linked = reaching(services, DocumentState.Linked);
    const other = services.boats.of(documentOf(services, '/fleet/two/lines.orlop'));
    await write(services, '/fleet/one/lines.orlop', lines('V2'));
    expect(linked.sort()).toEqual(['/fleet/one/line-up.orlop', '/fleet/one/lines.orlop']);
    expect(slipsOf(services, '/fleet/one/lines.orlop')).toEqual([expect.stringContaining('`V1` is not in this boat')]);
    expect(services.boats.of(documentOf(services, '/fleet/two/lines.orlop'))).toBe(other);
});

test('an edit in the shared patterns reaches every boat, the open one first', async () => {
    const services = await fleet();
    const judged = reaching(services, DocumentState.Validated);
    openFile(services, '/fleet/two/lines.orlop');
    await write(services, '/fleet/shared/patterns.orlop', PATTERNS.replace('Valve', 'Cock'));
    expect([...judged].sort()).toEqual(Object.keys(TEXTS).sort());
    const [open, closed] = ['/fleet/two/', '/fleet/one/'].map((boat) => judged.flatMap((path, i) => (path.startsWith(boat) ? [i] : [])));
    expect(Math.max(...open!)).toBeLessThan(Math.min(...closed!));
    for (const boat of ['one', 'two', 'slip']) expect(slipsOf(services, `/fleet/${boat}/lines.orlop`)).toContainEqual(expect.stringContaining('`Valve` is not in this boat'));
});

test('a file whose turn has not come is waited for', async () => {
    const services = await fleet();
    const { DocumentBuilder } = services.shared.workspace;
    openFile(services, '/fleet/two/lines.orlop');
    const closed = URI.file('/fleet/one/lines.orlop');
    let asked: Promise<unknown> | undefined;
    // The open boat is linked, the other not yet.
    DocumentBuilder.onDocumentPhase(DocumentState.Validated, ({ uri }) => { if (uri.path === '/fleet/two/lines.orlop') asked = DocumentBuilder.waitUntil(DocumentState.Linked, closed); });
    await write(services, '/fleet/shared/patterns.orlop', `${PATTERNS}\n`);
    expect(await asked).toEqual(closed);
});

test.each([DocumentState.Parsed, DocumentState.IndexedContent, DocumentState.Linked, DocumentState.Validated])('broken off when state %i is reached, and another boat typed into: nothing stale is left, and every file is told of', async (state) => {
    const services = await fleet();
    const file = documentOf(services, '/fleet/one/lines.orlop');
    expect(slipsOf(services, '/fleet/one/line-up.orlop')).toEqual([]);
    const judged = reaching(services, DocumentState.Validated);
    // The file is as it was built last until the update begins.
    let begun = false;
    services.shared.workspace.DocumentBuilder.onUpdate(() => { begun = true; });
    const token = { get isCancellationRequested() { return begun && file.state >= state; }, onCancellationRequested: () => ({ dispose: () => {} }) };
    await write(services, '/fleet/one/lines.orlop', lines('V2'), token).catch(() => {});
    await write(services, '/fleet/two/lines.orlop', `${lines('V1')}\n`);
    expect(slipsOf(services, '/fleet/one/line-up.orlop')).toEqual([expect.stringContaining('`V1` is not in this boat')]);
    expect([...new Set(judged)].sort()).toEqual(Object.keys(TEXTS).filter((path) => /one|two/.test(path)).sort());
});

test('a boat that is kept open over midnight is judged by the new day; every boat is told anew with the next key anywhere', async () => {
    const WAIVER = 'waive SHUT-AT-TANK at S1 until 2027-04-01 by "owner" because "ordered"\n';
    const unshut = { '/fleet/one/a.orlop': `${lines('V1').replace('  shutoff V1 like Valve\n  hose\n', '  hose S1\n')}${WAIVER}`, '/fleet/two/a.orlop': lines('V1') };
    let day = '2027-04-01';
    const services = await fleet(unshut, () => day);
    const { DocumentBuilder } = services.shared.workspace;
    const file = (): LangiumDocument => documentOf(services, '/fleet/one/a.orlop');
    const codes = (): string[] => services.boats.of(file()).report.findings.map(({ rule }) => rule.code);
    const told = (): unknown[] => file().diagnostics!.map(({ code }) => code);
    DocumentBuilder.updateBuildOptions = { validation: true };
    const before = services.boats.of(file());
    expect(codes()).not.toContain('SHUT-AT-TANK');
    expect(told()).not.toContain('SHUT-AT-TANK');
    const judged = reaching(services, DocumentState.Validated);
    await write(services, '/fleet/two/a.orlop', lines('V2'));
    expect(judged).toEqual(['/fleet/two/a.orlop']);
    expect(services.boats.of(file())).toBe(before);

    day = '2027-04-02';
    expect(codes()).toContain('SHUT-AT-TANK');
    // The text is read once, whatever the day.
    expect(services.boats.of(file()).boat).toBe(before.boat);
    await write(services, '/fleet/two/a.orlop', lines('V3'));
    expect(told()).toContain('SHUT-AT-TANK');
    await write(services, '/fleet/two/a.orlop', lines('V4'));
    expect(judged.filter((path) => path.startsWith('/fleet/one/'))).toHaveLength(1);
});
