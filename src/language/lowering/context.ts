/** What the parts of lowering share: problems found, sources kept, ids given out. */
import type { AstNode, CstNode } from 'langium';
import type { Id } from '../../model/boat';
import type { Evidence, Measure, Place } from '../../model/measure';
import type { AnyToken, FactLine, Token } from '../generated/ast';
import { mirrored, overruled, type Facts, type PlaceFact, type Problem } from '../facts';
import { mirroredFrom } from '../likeness';
import { readFacts } from '../line-reader';
import { Sources } from '../sources';
import { NO_EFFECTS, type Effects } from './overlays';

/** Anything in the grammar that carries facts: tokens on its own line, and fact lines in its block. */
export interface Bearer {
    readonly $cstNode?: CstNode;
    readonly tokens: readonly (Token | AnyToken)[];
    readonly facts?: readonly FactLine[];
}

export class Context {
    readonly problems: Problem[] = [];
    readonly sources: Sources;
    readonly tags = new Map<string, Id[]>();
    /** Facts by id, for heights that are measured from another part. */
    readonly facts = new Map<Id, Facts>();
    /** The height of the bottom of each tank. */
    readonly bottoms = new Map<Id, Measure>();
    /** How well each thing and each fact is known: by id, and by id and the words of the fact. */
    readonly evidence = new Map<string, Evidence>();
    /** Facts that were written with `unknown` or `unreached`. */
    readonly unknown: { about: Id; fact: string }[] = [];
    private readonly known = new Map<Bearer, Facts>();
    private readonly claimed = new Map<string, Set<AstNode>>();

    /**
     * `declared` gives the declarations of each tag in the order of the files: the linker means the first of them, and so does
     * the tag. `home` are the files of the boat; what stands in another one shows where the boat uses it.
     */
    constructor(
        private readonly declared: ReadonlyMap<string, readonly AstNode[]> = new Map(), home: ReadonlySet<string> = new Set(), readonly overlays: Effects = NO_EFFECTS,
    ) {
        this.sources = new Sources(home);
    }

    /** What one declaration says by itself; read once, so that each slip is told once. */
    read(kind: string, bearer: Bearer): Facts {
        let facts = this.known.get(bearer);
        if (!facts) {
            facts = readFacts(kind, [bearer.tokens, ...(bearer.facts ?? []).map((line) => line.tokens)], this.problems);
            this.known.set(bearer, facts);
        }
        return facts;
    }

    /** What a thing says and takes over, the nearest first; from `swapped` on with port and starboard swapped. */
    readLine(kind: string, line: readonly Bearer[], id: Id, swapped = mirroredFrom(line)): Facts {
        const layers = line.map((bearer, i) => (i >= swapped ? mirrored(this.read(kind, bearer)) : this.read(kind, bearer)));
        return overruled([...this.overlays.factsOf(id).map((bearer) => this.read(kind, bearer)), ...layers]);
    }

    /**
     * The id for a tag: the tag itself for its first declaration, `V1~2` for the second. `by` is the node that makes the tag,
     * when it is not the one that is written there: the course that is like a pattern.
     */
    claim(tag: string, node: CstNode | undefined, by: AstNode | undefined = node?.astNode): Id {
        const owners = this.declared.get(tag) ?? [];
        const claimed = this.claimed.get(tag) ?? new Set();
        this.claimed.set(tag, claimed);
        let at = Math.max(0, by ? owners.indexOf(by) : 0);
        // The same node twice: a pattern that uses the tag twice.
        if (by && claimed.has(by)) at = Math.max(owners.length, this.tags.get(tag)?.length ?? 0);
        if (by) claimed.add(by);
        const id = at === 0 ? tag : `${tag}~${at + 1}`;
        this.tags.set(tag, [...(this.tags.get(tag) ?? []), id].sort());
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
            this.sources.addFact(id, fact.word.words, fact.cst, fact.end);
            const evidence = fact.evidence ?? whole;
            if (evidence) this.evidence.set(`${id} ${fact.word.words}`, evidence);
            if (fact.missing || (fact.place && !fact.place.up && !fact.place.fwd && !fact.place.stbd)) this.unknown.push({ about: id, fact: fact.word.words });
        }
    }

    problem(code: string, node: CstNode | undefined, message: string, severity: Problem['severity'] = 'error'): void {
        if (node) this.problems.push({ code, message, node, severity });
    }

    /**
     * A point in the boat; heights measured from something else are added up, `owner` being what `over ports` means.
     * What `base` knows of places along and across the boat, the point inherits.
     */
    place(owner: Id, fact: PlaceFact | undefined, base?: Place): Place | undefined {
        if (!fact) return undefined;
        const up = fact.up && this.height(owner, fact, 0);
        const moved = this.overlays.moveOf(owner);
        const fwd = fact.fwd ? shifted(fact.fwd, moved.fwd) : base?.fwd;
        const stbd = fact.stbd ? shifted(fact.stbd, moved.stbd) : base?.stbd;
        return { ...(up && { up }), ...(fwd && { fwd }), ...(stbd && { stbd }) };
    }

    private height(id: Id, fact: PlaceFact, depth: number): Measure | undefined {
        const said = fact.up;
        if (!said?.from) return said && shifted(said.measure, this.overlays.moveOf(id).up);
        if (depth > 8) return undefined; // two heights measured from one another
        const of = said.of ? this.idNear(said.of.to.$refText, id) : id;
        const base = said.from === 'bottom' ? this.bottoms.get(of.split('.')[0]!) : this.anchor(of, said.from, depth);
        if (!base) return undefined;
        return {
            ...said.measure, si: base.si + said.sign * said.measure.si,
            ...(base.about && { about: true as const }),
        };
    }

    private anchor(id: Id, anchor: string, depth: number): Measure | undefined {
        const facts = this.facts.get(id);
        const words = anchor === 'lid' || anchor === 'drain' ? [anchor] : [anchor, 'ports', 'at'];
        const fact = words.map((word) => facts?.get(word)).find((found) => found?.place?.up);
        return fact?.place && this.height(id, fact.place, depth + 1);
    }

    idOf(tag: string): Id {
        return this.tags.get(tag)?.[0] ?? tag;
    }

    /** The same beside a thing that a pattern made: F1 is F1-S for what has the suffix -S. */
    private idNear(tag: string, beside: Id): Id {
        const suffix = this.suffixes.get(beside);
        return suffix !== undefined && this.tags.has(tag + suffix) ? this.idOf(tag + suffix) : this.idOf(tag);
    }

    /** The suffix that each id got from the course it stands in. */
    readonly suffixes = new Map<Id, string>();
}

function shifted(measure: Measure, by: number | undefined): Measure {
    if (!by) return measure;
    return { ...measure, si: measure.si + by, ...(measure.low !== undefined && { low: measure.low + by }), ...(measure.high !== undefined && { high: measure.high + by }) };
}
