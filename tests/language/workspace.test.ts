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

async function fleet(): Promise<Fleet> {
    const texts = new Map(Object.entries(TEXTS));
    const services = createOrlopEditorServices({ fileSystemProvider: () => Object.assign(new EmptyFileSystemProvider(), { readFile: async (uri: URI) => texts.get(uri.path)! }) });
    const { workspace } = services.shared;
    const documents = Object.entries(TEXTS).map(([path, text]) => workspace.LangiumDocumentFactory.fromString(text, URI.file(path)));
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
