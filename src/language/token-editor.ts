/** The tokens of a text while they are put right: what has been passed, what is still to come, and what was told. */
import type { IToken, TokenType } from 'chevrotain';
import { FACT_WORDS, KINDS, NAMED, type Place } from './places';
import type { TextSlip } from './signs';

export interface Repaired {
    readonly tokens: IToken[];
    readonly slips: TextSlip[];
    /** Words that were written for words of the language, for the tree to hold what was meant. */
    readonly meant: ReadonlyMap<string, string>;
}

export class TokenEditor implements Repaired {
    readonly tokens: IToken[] = [];
    readonly slips: TextSlip[] = [];
    readonly meant = new Map<string, string>();
    at = 0;

    constructor(readonly input: readonly IToken[], private readonly types: Readonly<Record<string, TokenType>>) {}

    /** A name in small letters where only a name can stand, or one that looks like one behind a part. */
    capital(kind: string, place: Place): void {
        const next = this.input[this.at + 1];
        if (next?.tokenType.name !== 'WORD') return;
        const sure = NAMED.has(kind) && !(kind === 'bleed' && place !== 'text' && place !== 'part' && place !== 'consumer') && !FACT_WORDS.has(next.image);
        if (!sure && !/^[a-z]{1,3}\d+$/.test(next.image)) return;
        const name = next.image[0]!.toUpperCase() + next.image.slice(1);
        this.tell(next, `A name begins with a capital letter: write \`${name}\`, not \`${next.image}\`.`);
        next.tokenType = this.types['TAG']!;
        next.tokenTypeIdx = next.tokenType.tokenTypeIdx!;
        next.image = name;
    }

    take(): void { this.tokens.push(this.input[++this.at]!); }
    ahead(): IToken | undefined { return this.input[this.at + 1]; }
    isKind(token: IToken): boolean { return isKeyword(token) && KINDS.has(this.kindOf(token)); }
    kindOf(token: IToken | undefined): string { return token === undefined ? '' : isKeyword(token) ? token.tokenType.name.replace(/:KW$/, '') : token.image; }
    rest(): IToken[] {
        const found: IToken[] = [];
        for (let i = this.at + 1; i < this.input.length && !isEnd(this.input[i]!); i++) found.push(this.input[i]!);
        return found;
    }

    /** Reads a token as the keyword that was meant, or as a plain word. */
    becomes(token: IToken, keyword: string | undefined): void {
        if (keyword !== undefined && token.image !== keyword) this.meant.set(token.image, keyword);
        token.tokenType = keyword === undefined ? this.types['WORD']! : this.types[keyword] ?? this.types[`${keyword}:KW`]!;
        token.tokenTypeIdx = token.tokenType.tokenTypeIdx!;
    }

    /** A token that nobody wrote: the parser sees it, the tree does not hold it. */
    put(name: string, near: IToken): void {
        const tokenType = this.types[name] ?? this.types[`${name}:KW`]!;
        this.tokens.push({ ...near, image: name, tokenType, tokenTypeIdx: tokenType.tokenTypeIdx!, isInsertedInRecovery: true });
    }

    tell(token: IToken, message: string, to: IToken = token, clouds?: true): void {
        this.slips.push({ code: 'syntax', message, offset: token.startOffset, length: to.startOffset + to.image.length - token.startOffset, ...(clouds && { clouds }) });
    }
}

export const isEnd = (token: IToken): boolean => token.tokenType.name === 'NL';
export const isKeyword = (token: IToken): boolean => !/^[A-Z]/.test(token.tokenType.name);
export const isSign = (token: IToken | undefined, sign: string): boolean => token?.tokenType.name === sign;
export const isEndOfCourse = (token: IToken | undefined): boolean => token?.tokenType.name === 'TAG' || token?.image === 'air' || token?.image === 'deck' || token?.image === 'sea';
export const tagOf = (token: IToken | undefined): string => token?.tokenType.name === 'TAG' ? ` ${token.image}` : '';
