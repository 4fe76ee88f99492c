/** Walks the tokens of a line from left to right. */
import type { CstNode } from 'langium';
import type { AnyToken, Ref, Token } from './generated/ast';
import { unquote } from './quantity';

export class Cursor {
    private at = 0;
    constructor(private readonly tokens: readonly (Token | AnyToken)[]) {}

    get done(): boolean {
        return this.at >= this.tokens.length;
    }
    peek(ahead = 0): Token | AnyToken | undefined {
        return this.tokens[this.at + ahead];
    }
    take(): Token | AnyToken | undefined {
        return this.tokens[this.at++];
    }
    /** Whether these words stand here; when they do they are taken. */
    words(text: string): boolean {
        const words = text.split(' ');
        const stand = words.every((word, i) => { const token = this.peek(i); return token?.$type === 'Word' && token.text === word; });
        if (stand) this.at += words.length;
        return stand;
    }
    word(): string | undefined {
        const token = this.peek();
        if (token?.$type !== 'Word') return undefined;
        this.at++;
        return token.text;
    }
    ref(): Ref | undefined {
        const token = this.peek();
        if (token?.$type !== 'Ref' || !token.to) return undefined; // a port whose part is still to be typed
        this.at++;
        return token;
    }
    refs(): Ref[] {
        const found: Ref[] = [];
        for (let ref = this.ref(); ref; ref = this.ref()) { found.push(ref); this.comma(); }
        return found;
    }
    quoted(): string | undefined {
        const token = this.peek();
        if (token?.$type !== 'Quoted') return undefined;
        this.at++;
        return unquote(token.text);
    }
    measure(): string | undefined {
        const token = this.peek();
        if (token?.$type !== 'Measure') return undefined;
        this.at++;
        return token.text;
    }
    day(): string | undefined {
        const token = this.peek();
        if (token?.$type !== 'Day') return undefined;
        this.at++;
        return token.text;
    }
    comma(): boolean {
        if (this.peek()?.$type !== 'Comma') return false;
        this.at++;
        return true;
    }
    /** Words up to one of `stops`, a comma or anything that is no word; and up to a word with its own quantity (water 5 mL), unless a quantity stands for itself here. */
    wordsUntil(stops: ReadonlySet<string>, apart = false): string {
        const found: string[] = [];
        for (let token = this.peek(); token?.$type === 'Word' && !stops.has(token.text) && (apart || this.peek(1)?.$type !== 'Measure'); token = this.peek()) { found.push(token.text); this.at++; }
        return found.join(' ');
    }
    /** All that is left, taken. */
    rest(): readonly (Token | AnyToken)[] {
        const left = this.tokens.slice(this.at);
        this.at = this.tokens.length;
        return left;
    }
    get cst(): CstNode | undefined {
        return (this.peek() ?? this.tokens.at(-1))?.$cstNode;
    }
}

/** The tokens of a line in one spelling: single spaces, commas close to what stands before them. */
export function spelling(tokens: readonly (Token | AnyToken)[]): string {
    return tokens.map((token) => token.$type === 'Comma' ? ',' : ` ${token.$cstNode?.text.replace(/\s+/g, ' ') ?? ''}`).join('').trim();
}
