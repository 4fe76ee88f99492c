/** What the words of a declaration's own lines mean, told token by token. */
import type { AstNode } from 'langium';
import type { AnyFactToken } from '../facts';
import type { FactLine } from '../generated/ast';
import { readFacts, type Reading } from '../line-reader';
import { FACTS, type FactWord } from '../vocabulary';
import { tableOf } from './hover';

export interface Heard {
    readonly token: AnyFactToken;
    readonly as: Reading;
    readonly begins?: FactWord;
}

/** Every understood token of the lines that carry facts of this node, in the order of the text. */
export function readingsOf(node: AstNode): Heard[] {
    const table = tableOf(node);
    const { tokens, facts = [] } = node as AstNode & { tokens?: readonly AnyFactToken[]; facts?: readonly FactLine[] };
    if (!tokens || (FACTS[table] ?? []).length === 0) return [];
    const heard: Heard[] = [];
    readFacts(table, [tokens, ...facts.map((line) => line.tokens)], [], (token, as, begins) => heard.push({ token, as, ...(begins && { begins }) }));
    return heard.sort((a, b) => (a.token.$cstNode?.offset ?? 0) - (b.token.$cstNode?.offset ?? 0));
}
