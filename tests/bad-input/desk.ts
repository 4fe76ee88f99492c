/** A boat open in the editor, typed over again and again; and what can be asked of it after each change. */
import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import type { Position, Range, TextEdit } from 'vscode-languageserver-types';
import { ResponseError } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { duePlan } from '../../src/analysis/upkeep/due';
import { blockText } from '../../src/documents/bleed/block';
import { refusalText, sheetData, sheetPage, sheetText } from '../../src/documents/bleed/sheet';
import { reportData, reportPage, reportText } from '../../src/documents/findings/report';
import { dueData, duePage, dueText } from '../../src/documents/upkeep/due-list';
import type { KnownBoat } from '../../src/language/boats';
import { createOrlopEditorServices } from '../../src/language/lsp/services';
import { planBleed } from '../../src/procedures/bleed';
import type { Lot } from './slips';
import { requestsOf, type Texts } from './texts';

/** A day after the last entry of every log. */
const TODAY = '2026-10-01';
/** Nothing may keep a person waiting for longer, ms. */
const SLOW = 2000;
const SELDOM = 3;

export interface Desk {
    /** Types the texts in. What goes wrong is added to `wrong`, here and below. */
    readonly type: (texts: Texts) => Promise<void>;
    /** All that the terminal program writes; of sequences, which take longest, one at every third turn, each request in its turn. */
    readonly write: (turn: number) => Promise<void>;
    /** All that the editor is asked for at one place drawn by lot. */
    readonly ask: (file: string, lot: Lot) => Promise<void>;
    readonly known: () => KnownBoat;
    readonly wrong: string[];
}

export function openDesk(): Desk {
    const { shared, Orlop, boats } = createOrlopEditorServices(EmptyFileSystem);
    const wrong: string[] = [];
    const current = new Map<string, TextDocument>();
    const uriOf = (file: string): string => URI.file(`/boat/${file}`).toString();
    const documentOf = (file: string): LangiumDocument => shared.workspace.LangiumDocuments.getDocument(URI.parse(uriOf(file)))!;
    const known = (): KnownBoat => boats.of(shared.workspace.LangiumDocuments.all.head()!);

    /** Does one thing and notes an exception, or that it took too long. */
    async function attempt<T>(what: string, work: () => T | Promise<T>): Promise<T | undefined> {
        const begun = performance.now();
        try {
            return await work();
        } catch (error) {
            wrong.push(`${what}: ${(error as Error).stack?.split('\n').slice(0, 3).join(' ')}`);
            return undefined;
        } finally {
            const took = performance.now() - begun;
            if (took > SLOW) wrong.push(`${what}: took ${Math.round(took)} ms`);
        }
    }
    const look = (what: unknown, written: unknown): void => { for (const fault of faults(written)) wrong.push(`${what}: ${fault}`); };
    const within = (what: unknown, uri: string, range: Range): void => {
        const text = current.get(uri)?.getText();
        const fault = text === undefined ? 'names a file that is not there' : outside(text, range);
        if (fault !== undefined) wrong.push(`${what}: ${fault}`);
    };

    async function type(texts: Texts): Promise<void> {
        const changed = Object.entries(texts).filter(([file, text]) => current.get(uriOf(file))?.getText() !== text).map(([file, text]) => TextDocument.create(uriOf(file), 'orlop', version++, text));
        const gone = [...current.keys()].filter((uri) => !Object.keys(texts).some((file) => uriOf(file) === uri));
        for (const document of changed) { current.set(document.uri, document); shared.workspace.TextDocuments.set(document); }
        for (const uri of gone) { current.delete(uri); shared.workspace.TextDocuments.delete(uri); }
        await attempt('typing', () => shared.workspace.DocumentBuilder.update(changed.map(({ uri }) => URI.parse(uri)), gone.map((uri) => URI.parse(uri))));
        await attempt('judging', () => {
            const { boat, problems } = known();
            look('boat', boat);
            for (const { uri, range, message } of problems) within(message, uri, range);
        });
        for (const file of Object.keys(texts)) {
            for (const { message, range, relatedInformation = [] } of documentOf(file).diagnostics ?? []) {
                within(message, uriOf(file), range);
                for (const { location } of relatedInformation) within(message, location.uri, location.range);
            }
        }
    }

    async function write(turn: number): Promise<void> {
        const judged = await attempt('judging', known);
        if (!judged) return;
        const { boat, report } = judged;
        await attempt('findings', () => { look('findings', [reportData(report), reportText(report), reportPage(report)]); });
        await attempt('due', () => {
            const plan = duePlan(boat, TODAY);
            look('due', [dueData(report.boat, plan, TODAY), dueText(report.boat, plan, TODAY), duePage(report.boat, plan, TODAY)]);
        });
        const requests = requestsOf(boat);
        const request = turn % SELDOM === 0 ? requests[(turn / SELDOM) % requests.length] : undefined;
        if (request) await attempt(`bleed ${request.engine} ${request.ranDry ? 'ran dry' : request.opened.join()}`, () => {
            const plan = planBleed(boat, request);
            look('sequence', 'refused' in plan ? [plan, refusalText(plan)] : [sheetData(boat, plan), sheetText(boat, plan), sheetPage(boat, plan), blockText(boat, plan)]);
        });
    }

    async function ask(file: string, lot: Lot): Promise<void> {
        const document = documentOf(file);
        const uri = document.uri.toString();
        const place = (): Position => document.textDocument.positionAt(Math.floor(lot() * (document.textDocument.getText().length + 1)));
        const at = { textDocument: { uri }, position: place() };
        const [one, other] = [at.position, place()];
        const range = one.line < other.line || (one.line === other.line && one.character <= other.character) ? { start: one, end: other } : { start: other, end: one };
        const edits = (what: string, changes: Readonly<Record<string, readonly TextEdit[]>> = {}): void => {
            for (const [where, list] of Object.entries(changes)) for (const edit of list) { within(what, where, edit.range); look(what, edit.newText); }
        };
        const { lsp } = Orlop;
        await attempt('completion', async () => { look('completion', await lsp.CompletionProvider!.getCompletion(document, at)); });
        const hover = await attempt('hover', () => lsp.HoverProvider!.getHoverContent(document, at));
        if (hover) { look('hover', hover.contents); if (hover.range) within('hover', uri, hover.range); }
        for (const chosen of [{ start: one, end: one }, range]) {
            const diagnostics = document.diagnostics ?? [];
            const actions = await attempt('actions', () => lsp.CodeActionProvider!.getCodeActions(document, { textDocument: { uri }, range: chosen, context: { diagnostics } })) ?? [];
            for (const action of actions) { look('action', action.title); if ('edit' in action) edits(action.title, action.edit?.changes); }
        }
        await attempt('outline', () => lsp.DocumentSymbolProvider!.getSymbols(document, at));
        for (const link of await attempt('definition', () => lsp.DefinitionProvider!.getDefinition(document, at)) ?? []) within('definition', link.targetUri, link.targetRange);
        for (const location of await attempt('uses', () => lsp.ReferencesProvider!.findReferences(document, { ...at, context: { includeDeclaration: true } })) ?? []) within('uses', location.uri, location.range);
        // A refusal in words is an answer too.
        edits('rename', (await attempt('rename', async () => {
            try {
                return await lsp.RenameProvider!.rename(document, { ...at, newName: 'V99' });
            } catch (error) {
                if (!(error instanceof ResponseError)) throw error;
                look('rename', error.message);
                return undefined;
            }
        }))?.changes);
    }

    let version = 0;
    return { type, write, ask, known, wrong };
}

/** Why a range does not lie in a text; lines end as an editor ends them. */
function outside(text: string, { start, end }: Range): string | undefined {
    const lines = text.split(/\r\n|\r|\n/);
    const show = ({ line, character }: Position): string => `${line + 1}:${character + 1}`;
    for (const place of [start, end]) {
        const line = lines[place.line];
        if (line === undefined || place.character < 0 || place.character > line.length) return `${show(place)} lies outside the text`;
    }
    return start.line > end.line || (start.line === end.line && start.character > end.character) ? `it ends at ${show(end)} before it begins at ${show(start)}` : undefined;
}

/** Numbers that are none, and words that tell that a value was not there. */
function* faults(value: unknown, path = ''): Generator<string> {
    if (typeof value === 'number' && !Number.isFinite(value)) yield `${path} is ${value}`;
    else if (typeof value === 'string') { const found = /(?<![\p{L}\d])(?:NaN|undefined|Infinity|null)(?![\p{L}\d])|\[object/u.exec(value); if (found) yield `${path} says "${value.slice(Math.max(0, found.index - 40), found.index + 40)}"`; }
    else if (value instanceof Map || value instanceof Set) yield* faults([...value], path);
    else if (Array.isArray(value)) for (const [i, inner] of value.entries()) yield* faults(inner, `${path}/${i}`);
    else if (value !== null && typeof value === 'object') for (const [key, inner] of Object.entries(value)) yield* faults(inner, `${path}/${key}`);
}
