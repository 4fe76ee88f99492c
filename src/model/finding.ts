/** What a rule says of a boat. */
import type { Waiver } from './boat';
import type { Id } from './id';
import type { Grade } from './measure';

export const SEVERITIES = ['critical', 'major', 'minor', 'advice', 'document'] as const;
export type Severity = (typeof SEVERITIES)[number];

/** A fact that was not stated and that something needs. */
export interface MissingFact {
    readonly about: Id;
    /** As a noun: the height of the lid. */
    readonly fact: string;
    /** How a person finds it out. */
    readonly how: string;
}

/** A fact that a verdict rests on: a thing's being there, or one of its facts by the words of the language. */
export interface Ground {
    readonly about: Id;
    readonly fact?: string;
}

export type Verdict =
    | { readonly outcome: 'pass'; readonly about: Id; readonly rests?: readonly Ground[] }
    | Failure
    | { readonly outcome: 'cannot tell'; readonly about: Id; readonly missing: readonly MissingFact[] }
    | { readonly outcome: 'not applicable'; readonly about: Id; readonly why: string };

export interface Failure {
    readonly outcome: 'fail';
    readonly about: Id;
    /** When one failure weighs less or more than its rule. */
    readonly severity?: Severity;
    /** One sentence with the boat's own names: what is wrong. */
    readonly message: string;
    /** What may come of it here. */
    readonly reason: string;
    /** What to do, in words: part, place, effect. */
    readonly advice: string;
    readonly fix?: Fix;
    /** Other places that the reader should see. */
    readonly see?: readonly { readonly id: Id; readonly why: string }[];
    /** The fact to underline, when it is one. */
    readonly fact?: string;
    /** What it rests on beside its own being there. */
    readonly rests?: readonly Ground[];
    /** All the things that it speaks of, when they are told together; by default that which it is about. */
    readonly members?: readonly Id[];
}

/** An edit of the text, said in terms of the boat: a line to put before, after or into something. */
export interface Fix {
    readonly title: string;
    readonly line: string;
    readonly where: { readonly before: Id } | { readonly after: Id } | { readonly intoStartOf: Id } | { readonly endOfLineOf: Id } | { readonly afterBlockOf: Id };
}

export interface Rule {
    readonly code: string;
    readonly severity: Severity;
    readonly statement: string;
    readonly prevents: string;
    /** The facts that it reads. */
    readonly facts: string;
    /** Where it comes from; common practice is marked so. */
    readonly source: string;
}

/** A failure with its rule, and the grade of the weakest fact that a rule's verdict rests on. */
export type Finding = Failure & { readonly rule: Rule; readonly severity: Severity; readonly grade?: Grade };

/** A finding that someone answers for until a day. */
export interface Waived {
    readonly finding: Finding;
    readonly waivers: readonly Waiver[];
}

