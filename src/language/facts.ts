/** The facts of one declaration, as read from its lines. */
import type { CstNode } from 'langium';
import type { Evidence, Measure } from '../model/measure';
import type { AnyToken, Ref, Token } from './generated/ast';
import { EITHER, type FactWord } from './vocabulary';

export interface Problem {
    readonly code: string;
    readonly message: string;
    readonly node: CstNode;
    /** The last node that it is about, when that is not `node`. What else is wrong with the nodes between is told by it too. */
    readonly end?: CstNode;
    readonly severity: 'error' | 'warning';
}

/** A height as people measure it: above the datum, or off, over or under something. */
export interface Height {
    readonly measure: Measure;
    readonly from?: 'bottom' | 'ports' | 'lid' | 'drain' | 'inlet' | 'outlet';
    /** The other part that it is measured from, when it is not this one. */
    readonly of?: Ref;
    readonly sign: 1 | -1;
}

export interface PlaceFact {
    readonly up?: Height;
    readonly fwd?: Measure;
    readonly stbd?: Measure;
}

export interface Fact {
    readonly word: FactWord;
    readonly measure?: Measure;
    readonly sizes?: readonly Measure[];
    readonly points?: readonly { readonly value: Measure; readonly at: Measure }[];
    readonly place?: PlaceFact;
    readonly choice?: string;
    readonly text?: string;
    readonly ref?: Ref;
    readonly pieces?: readonly string[];
    /** Said, but with `unknown` or `unreached` in place of a value. */
    readonly missing?: true;
    readonly evidence?: Evidence;
    readonly cst: CstNode;
    readonly end: CstNode;
}

export type AnyFactToken = Token | AnyToken;

export class Facts {
    private readonly found = new Map<string, Fact>();
    constructor(readonly kind: string, readonly problems: Problem[]) {}

    get(words: string): Fact | undefined {
        return this.found.get(words);
    }
    all(): Iterable<Fact> {
        return this.found.values();
    }
    measure(words: string): Measure | undefined {
        return this.found.get(words)?.measure;
    }
    has(words: string): boolean {
        const fact = this.found.get(words);
        return fact !== undefined && !fact.missing;
    }
    add(fact: Fact): void {
        const { words } = fact.word;
        const other = EITHER.find((group) => group.includes(words))?.find((one) => one !== words && this.found.has(one));
        if (other !== undefined) this.problems.push({
            code: 'either', severity: 'error', node: fact.cst, message: `\`${other}\` and \`${words}\` cannot both be: remove the one that is wrong.`,
        });
        if (this.found.has(fact.word.words)) {
            this.problems.push({
                code: 'said-twice', severity: 'warning', node: fact.cst,
                message: `\`${fact.word.words}\` is said twice here; the later one is used. Remove the one that is wrong.`,
            });
        }
        this.found.set(fact.word.words, fact);
    }
}
