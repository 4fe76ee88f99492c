/** `each` in a line of `tend`: the words that belong to it, for the linker and the editor. */
import type { AstNode } from 'langium';
import { isLine, isTend, isWord, type AnyToken, type Word } from './generated/ast';
import { EACH_KINDS } from './vocabulary';

const tokensBefore = (node: AstNode): { tokens: readonly AnyToken[]; at: number } | undefined =>
    isLine(node.$container) && isTend(node.$container.$container) ? { tokens: node.$container.tokens, at: node.$container.tokens.indexOf(node as AnyToken) } : undefined;

/** Whether a name stands behind `each`, where only a pattern has a meaning. */
export function isAfterEach(node: AstNode): boolean {
    const found = tokensBefore(node);
    const before = found?.tokens[found.at - 1];
    return isWord(before) && before.text === 'each';
}

/** What a word of a line has to do with `each`: it is that word, or one of the kind behind it. */
export function ofEach(word: Word): 'each' | 'kind' | undefined {
    const found = tokensBefore(word);
    if (!found) return undefined;
    const text = (at: number): string | undefined => { const token = found.tokens[at]; return isWord(token) ? token.text : undefined; };
    if (word.text === 'each') return 'each';
    const first = text(found.at - 1) === 'each' ? found.at : text(found.at - 2) === 'each' ? found.at - 1 : undefined;
    if (first === undefined) return undefined;
    const two = Object.hasOwn(EACH_KINDS, `${text(first)} ${text(first + 1)}`);
    return two || (first === found.at && Object.hasOwn(EACH_KINDS, word.text)) ? 'kind' : undefined;
}
