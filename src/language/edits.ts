/** Turns a fix, which speaks of the boat, into an edit of the text. */
import { AstUtils, CstUtils, type CstNode } from 'langium';
import type { TextEdit } from 'vscode-languageserver-types';
import type { Fix } from '../model/finding';
import { rangeOf, type Sources } from './sources';

export interface FileEdit {
    readonly uri: string;
    readonly edit: TextEdit;
}

export function editOf(fix: Fix, sources: Sources, eol = '\n'): FileEdit | undefined {
    const { where } = fix;
    const source = sources.find(Object.values(where)[0] as string);
    const node = source?.node.$cstNode;
    // What is written outside the boat serves other boats too: nothing is changed there.
    if (!source || !node || source.elsewhere) return undefined;
    const insert = (offset: 'start' | 'end', text: string, at: CstNode = node): FileEdit => ({
        uri: source.uri, edit: { range: { start: rangeOf(at)[offset], end: rangeOf(at)[offset] }, newText: text },
    });
    if ('before' in where) {
        const indent = leadingBlank(node);
        return insert('start', indent === undefined ? `${fix.line}   ` : `${fix.line}${eol}${indent}`);
    }
    if ('after' in where) {
        const { fullText } = node.root;
        const end = node.offset + node.text.trimEnd().length;
        const rest = /^[^\r\n]*/.exec(fullText.slice(end))![0];
        const indent = leadingBlank(node);
        // A remark at the end of the line belongs to what stands before it.
        if (indent === undefined || !/^\s*(--.*)?$/.test(rest)) return insert('end', `   ${fix.line}`);
        const at = AstUtils.getDocument(node.astNode).textDocument.positionAt(end + rest.length);
        return { uri: source.uri, edit: { range: { start: at, end: at }, newText: `${eol}${indent}${fix.line}` } };
    }
    if ('afterBlockOf' in where) return insert('end', `${eol}${eol}${fix.line}`);
    if ('endOfLineOf' in where) {
        const head = CstUtils.flattenCst(node).toArray();
        const brace = head.findIndex((leaf) => leaf.text === '{');
        return insert('end', `   ${fix.line}`, head[(brace < 0 ? head.length : brace) - 1]!);
    }
    const brace = CstUtils.flattenCst(node).find((leaf) => leaf.text === '{');
    return brace ? insert('end', `${eol}  ${fix.line}`, brace) : insert('end', ` {${eol}  ${fix.line}${eol}}`);
}

/** The blanks before a node, when nothing else stands before it on its line. */
function leadingBlank(node: CstNode): string | undefined {
    const before = node.root.fullText.slice(0, node.offset);
    const line = before.slice(before.lastIndexOf('\n') + 1);
    return /^[ \t]*$/.test(line) ? line : undefined;
}
