/** Mends every finding of one rule at once: fix by fix, judging in between, so that no valve is put in twice and no tag is given twice. */
import { delayNextTick, URI, UriUtils, type LangiumDocument } from 'langium';
import type { TextEdit } from 'vscode-languageserver-protocol';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { judge } from '../../checks/judge';
import type { Finding } from '../../model/finding';
import { editOf } from '../edits';
import { loadBoat, type Texts } from '../load';

/** No boat has more findings of one kind that a line mends. */
const MOST = 40;

/** Something put into a text, by its place in the text as it was. */
interface Insert {
    readonly at: number;
    readonly text: string;
}

export interface MendAll {
    /** The texts that the changes are for. */
    readonly texts: Texts;
    readonly changes: Readonly<Record<string, TextEdit[]>>;
}

/**
 * Nothing when fewer than two fixes are needed, when two would meddle with one another, or when something else would come to be wrong.
 * Others are served between two fixes, so a text may be another one when the answer comes.
 */
export async function mendAll(files: readonly LangiumDocument[], shared: Texts, code: string): Promise<MendAll | undefined> {
    const names = new Map(files.map((file) => [UriUtils.basename(file.uri), file.uri.toString()]));
    const asked: Texts = Object.fromEntries(files.map((file) => [UriUtils.basename(file.uri), file.textDocument.getText()]));
    const texts: Record<string, string> = { ...asked };
    const inserts = new Map([...names.keys()].map((name): [string, Insert[]] => [name, []]));
    let loaded = await loadBoat(texts, { shared });
    const before = judge(loaded.boat).findings;
    const slips = loaded.problems.length;
    let findings = before;
    for (let count = 0; count <= MOST; count++) {
        await delayNextTick();
        const finding = findings.find(({ rule, fix }) => rule.code === code && fix !== undefined);
        if (!finding) return count > 1 && findings.every((left) => before.some((old) => key(old) === key(left))) ? { texts: asked, changes: changesOf(names, asked, inserts) } : undefined;
        const edit = editOf(finding.fix!, loaded.sources, Object.values(texts).some((text) => text.includes('\r\n')) ? '\r\n' : '\n');
        const name = [...names.keys()].find((other) => edit !== undefined && UriUtils.basename(URI.parse(edit.uri)) === other);
        if (!edit || name === undefined) return undefined;
        const document = TextDocument.create(edit.uri, 'orlop', 0, texts[name]!);
        const own = inserted(inserts.get(name)!, document.offsetAt(edit.edit.range.start), edit.edit.newText);
        if (!own) return undefined;
        inserts.set(name, own);
        texts[name] = TextDocument.applyEdits(document, [edit.edit]);
        loaded = await loadBoat(texts, { shared });
        findings = judge(loaded.boat).findings;
        if (loaded.problems.length > slips || findings.some((left) => key(left) === key(finding))) return undefined;
    }
    return undefined;
}

const key = ({ rule, about }: Finding): string => `${rule.code} ${about}`;

/** The inserts with one more, at an offset of the text as it is with them; nothing when that lies inside one of them. */
function inserted(inserts: readonly Insert[], offset: number, text: string): Insert[] | undefined {
    let shift = 0;
    let index = 0;
    for (const { at, text: other } of inserts) {
        if (at + shift >= offset) break;
        if (at + shift + other.length > offset) return undefined;
        shift += other.length;
        index++;
    }
    return [...inserts.slice(0, index), { at: offset - shift, text }, ...inserts.slice(index)];
}

function changesOf(names: ReadonlyMap<string, string>, texts: Texts, inserts: ReadonlyMap<string, readonly Insert[]>): Record<string, TextEdit[]> {
    return Object.fromEntries([...inserts].filter(([, own]) => own.length > 0).map(([name, own]) => {
        const document = TextDocument.create(names.get(name)!, 'orlop', 0, texts[name]!);
        return [document.uri, own.map(({ at, text }): TextEdit => { const place = document.positionAt(at); return { range: { start: place, end: place }, newText: text }; })];
    }));
}
