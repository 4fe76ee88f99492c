/** What each word is, for the theme to colour: names by what they name, facts, quantities, marks of evidence, choices. Standard types only. */
import { GrammarUtils, type AstNode, type CstNode } from 'langium';
import { AbstractSemanticTokenProvider, type SemanticTokenAcceptor } from 'langium/lsp';
import { SemanticTokenModifiers, SemanticTokenTypes } from 'vscode-languageserver-protocol';
import { ofEach } from '../each';
import { isLine, isMeasure, isSetting, isWord } from '../generated/ast';
import type { Reading } from '../facts';
import { JOB_VERBS } from '../lowering/jobs';
import { PROCEDURE_STEPS } from '../lowering/steps';
import { kindOfNode } from './kinds';
import { readingsOf } from './readings';
import { usesIn } from './references';

const WORDS: Readonly<Record<Exclude<Reading, 'value'>, string>> = {
    fact: SemanticTokenTypes.parameter, choice: SemanticTokenTypes.enumMember, place: SemanticTokenTypes.operator, mark: SemanticTokenTypes.modifier,
};
const VERBS: ReadonlySet<string> = new Set([...Object.keys(JOB_VERBS), ...Object.values(JOB_VERBS), ...Object.keys(PROCEDURE_STEPS)]);

export class BoatColours extends AbstractSemanticTokenProvider {
    protected override highlightElement(node: AstNode, accept: SemanticTokenAcceptor): void {
        const paint = (cst: CstNode | undefined, type: string, modifier: string[] = []): void => { if (cst) accept({ cst, type, modifier }); };
        if (typeof (node as { name?: unknown }).name === 'string') {
            paint(GrammarUtils.findNodeForProperty(node.$cstNode, 'name'), kindOfNode(node.$type).token, [SemanticTokenModifiers.declaration]);
        }
        for (const { target, cst } of usesIn(node)) paint(cst, kindOfNode(target.$type).token);
        if (isMeasure(node)) paint(node.$cstNode, SemanticTokenTypes.number);
        if (isSetting(node) && /^[a-z]/.test(node.state ?? '')) paint(GrammarUtils.findNodeForProperty(node.$cstNode, 'state'), SemanticTokenTypes.enumMember);
        for (const { token, as } of readingsOf(node)) if (as !== 'value') paint(token.$cstNode, WORDS[as]);
        // The verb of a step or a job stands first, in the log anywhere; words that belong to nothing are left to the grammar of the editor.
        if (isLine(node)) node.tokens.forEach((token, i) => {
            if (!isWord(token)) return;
            if (VERBS.has(token.text) && (i === 0 || node.$container.$type === 'Log')) paint(token.$cstNode, SemanticTokenTypes.keyword);
            const each = ofEach(token);
            if (each) paint(token.$cstNode, each === 'each' ? SemanticTokenTypes.keyword : SemanticTokenTypes.type);
        });
    }
}
