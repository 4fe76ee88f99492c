/** The facts of one declaration, as read from its lines. */
import type { CstNode } from 'langium';
import { GRADES, type Evidence, type Measure } from '../model/measure';
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
    readonly corners?: readonly PlaceFact[];
    readonly choice?: string;
    readonly text?: string;
    readonly ref?: Ref;
    readonly pieces?: readonly string[];
    /** Said, but with `unknown` or `unreached` in place of a value. */
    readonly missing?: true;
    readonly evidence?: Evidence;
    /** Taken over with port and starboard swapped. */
    readonly turned?: boolean;
    readonly cst: CstNode;
    readonly end: CstNode;
}

export type AnyFactToken = Token | AnyToken;

/** What a token was taken for: a word of a fact or a value without one, a choice, a word of a place, a mark of evidence. */
export type Reading = 'fact' | 'value' | 'choice' | 'place' | 'mark';
/** Hears each token as it is understood; `begins` is the fact that it begins. */
export type Hear = (token: AnyFactToken, as: Reading, begins?: FactWord) => void;

export class Facts {
    private readonly found = new Map<string, Fact>();
    /** How well the declaration as a whole is known: a mark with no fact before it on its line. */
    given: Evidence | undefined;
    constructor(readonly kind: string, readonly problems: Problem[] = []) {}

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

/**
 * The facts of several declarations of one kind as one: what an earlier one says overrules the later ones. The first `own` are of
 * the thing itself; the rest it is like, and what was measured there is only inferred here.
 */
export function overruled(layers: readonly Facts[], own: number): Facts {
    const all = new Facts(layers[0]?.kind ?? '');
    all.given = layers.slice(0, own).find((facts) => facts.given !== undefined)?.given;
    layers.forEach((facts, i) => {
        const said = new Set([...all.all()].flatMap(({ word }) => [word.words, ...(word.instead ?? [])]));
        for (const fact of facts.all()) {
            if (said.has(fact.word.words)) continue;
            const evidence = fact.evidence ?? facts.given;
            all.add({ ...fact, ...(evidence && { evidence: i < own ? evidence : takenOver(evidence) }) });
        }
    });
    return all;
}

/** Better than inferred nothing is known of a thing because it is known of another. */
export function takenOver(evidence: Evidence): Evidence {
    const inferred = GRADES.indexOf('inferred');
    return evidence.grade !== undefined && GRADES.indexOf(evidence.grade) < inferred ? { ...evidence, grade: 'inferred' } : evidence;
}

/** The same facts with port and starboard swapped. */
export function mirrored(facts: Facts): Facts {
    const swapped = new Facts(facts.kind);
    swapped.given = facts.given;
    for (const fact of facts.all()) {
        swapped.add({ ...fact, ...(fact.place && { place: acrossSwapped(fact.place) }), ...(fact.corners && { corners: fact.corners.map(acrossSwapped) }), turned: !fact.turned });
    }
    return swapped;
}

const acrossSwapped = (place: PlaceFact): PlaceFact => (place.stbd ? { ...place, stbd: negative(place.stbd) } : place);

const negative = ({ si, low, high, ...rest }: Measure): Measure => ({ ...rest, si: -si, ...(high !== undefined && { low: -high }), ...(low !== undefined && { high: -low }) });
