/** Thousands of keys in one boat: slips of the hand, some of them mended, drawn from a seed; and all that a server then says of it. */
import { pathToFileURL } from 'node:url';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { SLIPS, type Lot } from '../bad-input/slips';
import type { Keys, Typist } from './typist';

export type Uris = Readonly<Record<string, string>>;
export const urisOf = (folder: string, files: readonly string[]): Uris => Object.fromEntries(files.map((file) => [file, pathToFileURL(`${folder}/${file}`).href]));

/** What turns one text into another: all between what they have in common before and behind. */
export function between(from: string, to: string): Keys {
    const most = Math.min(from.length, to.length);
    let before = 0;
    while (before < most && from[before] === to[before]) before++;
    let behind = 0;
    while (behind < most - before && from[from.length - 1 - behind] === to[to.length - 1 - behind]) behind++;
    return { offset: before, length: from.length - before - behind, text: to.slice(before, to.length - behind) };
}

const KINDS = Object.values(SLIPS);

/** One edit: of a file with three slips or so the mend, else one slip more. Most are not waited for, as a fast hand does not. */
export async function typeOnce(typist: Typist, uris: Uris, sound: Readonly<Record<string, string>>, slips: Map<string, number>, lot: Lot): Promise<void> {
    const files = Object.keys(uris);
    const file = files[Math.floor(lot() * files.length)]!;
    const [uri, made] = [uris[file]!, slips.get(file) ?? 0];
    const mend = lot() < made / 4;
    const text = typist.text(uri);
    const keys = between(text, mend ? sound[file]! : KINDS[Math.floor(lot() * KINDS.length)]!(text, lot));
    slips.set(file, mend ? 0 : made + 1);
    if (lot() < 0.4) await typist.type(uri, keys);
    else typist.send(uri, keys);
}

/** Diagnostics of every file, its symbols, and hover and completion at some places. */
export async function everythingSaid(typist: Typist, uris: Uris, lot: Lot): Promise<unknown> {
    const said: Record<string, unknown> = {};
    for (const [file, uri] of Object.entries(uris)) {
        const textDocument = { uri };
        const text = typist.text(uri);
        const document = TextDocument.create(uri, 'orlop', 0, text);
        const symbols = await typist.ask('textDocument/documentSymbol', { textDocument });
        const places: unknown[] = [];
        for (let i = 0; i < 12; i++) {
            const at = { textDocument, position: document.positionAt(Math.floor(lot() * (text.length + 1))) };
            places.push([at.position, await typist.ask('textDocument/hover', at), await typist.ask('textDocument/completion', at)]);
        }
        said[file] = { text, diagnostics: typist.diagnostics.get(uri), symbols, places };
    }
    return said;
}
