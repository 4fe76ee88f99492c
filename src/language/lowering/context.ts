/** What the parts of lowering share: problems found, sources kept, ids given out. */
import { CstUtils, type AstNode, type CstNode } from 'langium';
import type { Id } from '../../model/boat';
import type { Evidence, Measure, Place } from '../../model/measure';
import type { AnyToken, FactLine, Token } from '../generated/ast';
import { mirrored, overruled, type Facts, type PlaceFact, type Problem } from '../facts';
import { turnedIn } from '../likeness';
import { readFacts } from '../line-reader';
import { Sources } from '../sources';
import { NO_EFFECTS, type Effects, type Move } from './overlays';
import { FACTS } from '../vocabulary';

/** Anything in the grammar that carries facts: tokens on its own line, and fact lines in its block. */
export interface Bearer {
    readonly $cstNode?: CstNode;
    readonly tokens: readonly (Token | AnyToken)[];
    readonly facts?: readonly FactLine[];
}

/** The nodes that declare each tag, with how many of it stand before. */
export type Declared = ReadonlyMap<string, ReadonlyMap<AstNode, number>>;

interface Thing {
    readonly kind: string;
    readonly line: readonly AstNode[];
    readonly tagged: boolean;
}

export class Context {
    readonly problems: Problem[] = [];
    readonly sources: Sources;
    readonly tags = new Map<string, Id[]>();
    /** Facts by id, for heights that are measured from another part. */
    readonly facts = new Map<Id, Facts>();
    /** The height of the bottom of each tank under a place. */
    readonly bottoms = new Map<Id, (under: Place) => Measure>();
    /** The suffix that each id got from the course it stands in. */
    readonly suffixes = new Map<Id, string>();
    /** Everything that a job may be done to: its kind, and itself with all that it is like, the nearest first. */
    readonly things = new Map<Id, Thing>();
    /** The patterns of parts that stand in the boat's own folder. */
    readonly patterns: string[] = [];
    /** How well each thing and each fact is known: by id, and by id and the words of the fact. */
    readonly evidence = new Map<string, Evidence>();
    /** Facts that were written with `unknown` or `unreached`. */
    readonly unknown: { about: Id; fact: string }[] = [];
    /** A height was measured from what is not laid yet: the boat is read once more, with all that was read this time. */
    forward = false;
    private readonly known = new Map<Bearer, Facts>();
    private readonly claimed = new Map<string, Set<AstNode>>();

    /**
     * `declared` gives the declarations of each tag in the order of the files: the linker means the first of them, and so does
     * the tag. `home` are the files of the boat; what stands in another one shows where the boat uses it.
     */
    constructor(
        private readonly declared: Declared = new Map(), home: ReadonlySet<string> = new Set(), readonly overlays: Effects = NO_EFFECTS,
        private readonly earlier?: Context,
    ) {
        this.sources = new Sources(home);
    }

    /** What one declaration says by itself; read once, so that each slip is told once. */
    read(kind: string, bearer: Bearer): Facts {
        let facts = this.known.get(bearer);
        if (!facts) {
            for (const line of bearer.facts ?? []) this.blockless(kind, line);
            facts = readFacts(kind, [bearer.tokens, ...(bearer.facts ?? []).map((line) => line.tokens)], this.problems);
            this.known.set(bearer, facts);
        }
        return facts;
    }

    /** A fact takes no block. */
    private blockless(kind: string, { block, tokens: [first] }: FactLine): void {
        if (!block?.$cstNode || first?.$type !== 'Word' || !(FACTS[kind] ?? []).some(({ words }) => words.split(' ')[0] === first.text)) return;
        this.problem('block', CstUtils.flattenCst(block.$cstNode).head(), `\`${first.text}\` has no block of its own: write what belongs to it on its line, without \`{\` and \`}\`.`);
    }

    /** What a thing says and takes over, the nearest first, `own` of it the thing itself; what is `turned` with port and starboard swapped. */
    readLine(kind: string, line: readonly Bearer[], id: Id, { own = 1, turned = turnedIn(line) }: { own?: number; turned?: readonly boolean[] } = {}): Facts {
        const over = this.overlays.factsOf(id).map((bearer) => this.read(kind, bearer));
        return overruled([...over, ...line.map((bearer, i) => (turned[i] ? mirrored(this.read(kind, bearer)) : this.read(kind, bearer)))], over.length + own);
    }

    /**
     * The id for a tag: the tag itself for its first declaration, `V1~2` for the second. `by` is the node that makes the tag,
     * when it is not the one that is written there: the course that is like a pattern.
     */
    claim(tag: string, node: CstNode | undefined, by: AstNode | undefined = node?.astNode): Id {
        const owners = this.declared.get(tag);
        const claimed = this.claimed.get(tag) ?? new Set();
        this.claimed.set(tag, claimed);
        let at = (by && owners?.get(by)) ?? 0;
        // The same node twice: a pattern that uses the tag twice.
        if (by && claimed.has(by)) at = Math.max(owners?.size ?? 0, this.tags.get(tag)?.length ?? 0);
        if (by) claimed.add(by);
        const id = at === 0 ? tag : `${tag}~${at + 1}`;
        const ids = this.tags.get(tag);
        if (ids) ids.push(id); else this.tags.set(tag, [id]);
        if (node) this.sources.add(id, node, undefined, by?.$cstNode);
        return id;
    }

    /** Keeps what an id says: for heights measured from it, for places in the text, and how well it is known. */
    keepFacts(id: Id, facts: Facts, block?: Evidence): void {
        this.facts.set(id, facts);
        const whole = facts.given ?? block;
        if (whole) this.evidence.set(id, whole);
        for (const fact of facts.all()) {
            if (fact.word.words === 'like' || fact.word.words === 'mirrored') continue;
            this.sources.addFact(id, fact.word.words, fact.cst, fact.end, fact.turned);
            const evidence = fact.evidence ?? block;
            if (evidence) this.evidence.set(`${id} ${fact.word.words}`, evidence);
            if (fact.missing || (fact.place && !fact.place.up && !fact.place.fwd && !fact.place.stbd)) this.unknown.push({ about: id, fact: fact.word.words });
        }
    }

    problem(code: string, node: CstNode | undefined, message: string, severity: Problem['severity'] = 'error', end?: CstNode): void {
        if (node) this.problems.push({ code, message, node, severity, ...(end && { end }) });
    }

    /**
     * A point in the boat; heights measured from something else are added up, `owner` being what `over ports` means.
     * What `base` knows of places along and across the boat, the point inherits.
     */
    place(owner: Id, fact: PlaceFact | undefined, base?: Place): Place | undefined {
        if (!fact) return undefined;
        const moved = this.moveOf(owner);
        const fwd = fact.fwd ? shifted(fact.fwd, moved.fwd) : base?.fwd;
        const stbd = fact.stbd ? shifted(fact.stbd, moved.stbd) : base?.stbd;
        const up = fact.up && this.height(owner, fact, 0, { ...(fwd && { fwd }), ...(stbd && { stbd }) });
        return { ...(up && { up }), ...(fwd && { fwd }), ...(stbd && { stbd }) };
    }

    /** `under`: where it stands along and across the boat. `drawn`: where it stood before anything was moved, for what is measured from it and was not moved itself. */
    private height(id: Id, fact: PlaceFact, depth: number, under: Place, drawn = false): Measure | undefined {
        const said = fact.up;
        if (!said) return undefined;
        const moved = drawn ? undefined : this.moveOf(id).up;
        if (!said.from) return shifted(said.measure, moved);
        if (depth > 8) return undefined; // two heights measured from one another
        const of = said.of ? this.idNear(said.of.to.$refText, id) : id;
        const other = said.of !== undefined;
        // The bottom has moved with its tank already, and a part's own ports with the part.
        const base = said.from === 'bottom' ? this.bottoms.get(of.split('.')[0]!)?.(under) : this.anchor(of, said.from, depth, drawn || other);
        if (!base) { this.forward ||= other; return undefined; }
        const own = other ? moved : said.from === 'bottom' && !drawn ? this.overlays.moveOf(id).up : undefined;
        return shifted({ ...said.measure, si: base.si + said.sign * said.measure.si, ...(base.about && { about: true as const }) }, own);
    }

    private anchor(id: Id, anchor: string, depth: number, drawn: boolean): Measure | undefined {
        const facts = this.facts.get(id) ?? this.earlier?.facts.get(id);
        const words = anchor === 'lid' || anchor === 'drain' ? [anchor] : [anchor, 'ports', 'at'];
        const fact = words.map((word) => facts?.get(word)).find((found) => found?.place?.up);
        return fact?.place && this.height(id, fact.place, depth + 1, {}, drawn);
    }

    /** What a survey or refit moves it by; a fitting moves with its tank. */
    private moveOf(id: Id): Move {
        const [own, tank] = [this.overlays.moveOf(id), id.includes('.') ? this.overlays.moveOf(id.split('.')[0]!) : {}];
        return { up: (own.up ?? 0) + (tank.up ?? 0), fwd: (own.fwd ?? 0) + (tank.fwd ?? 0), stbd: (own.stbd ?? 0) + (tank.stbd ?? 0) };
    }

    idOf(tag: string): Id {
        return this.tags.get(tag)?.[0] ?? tag;
    }

    /** The same beside a thing that a pattern made: F1 is F1-S for what has the suffix -S. */
    private idNear(tag: string, beside: Id): Id {
        const suffix = this.suffixes.get(beside);
        if (suffix !== undefined && (this.tags.has(tag + suffix) || this.earlier?.tags.has(tag + suffix))) return this.idOf(tag + suffix);
        this.forward ||= suffix !== undefined;
        return this.idOf(tag);
    }
}

function shifted(measure: Measure, by: number | undefined): Measure {
    if (!by) return measure;
    return { ...measure, si: measure.si + by, ...(measure.low !== undefined && { low: measure.low + by }), ...(measure.high !== undefined && { high: measure.high + by }) };
}
