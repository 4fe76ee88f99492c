/** What the parts of lowering share: problems found, sources kept, ids given out. */
import { CstUtils, GrammarUtils, type AstNode, type CstNode } from 'langium';
import type { Id } from '../../model/boat';
import type { Measure, Place } from '../../model/measure';
import type { AnyToken, FactLine, Token } from '../generated/ast';
import type { Facts, PlaceFact, Problem } from '../facts';
import { readFacts } from '../line-reader';
import { Sources } from '../sources';
import { FACTS } from '../vocabulary';

/** Anything in the grammar that carries facts: tokens on its own line, and fact lines in its block. */
export interface Bearer {
    readonly $cstNode?: CstNode;
    readonly tokens: readonly (Token | AnyToken)[];
    readonly facts?: readonly FactLine[];
}

export class Context {
    readonly problems: Problem[] = [];
    readonly sources = new Sources();
    readonly tags = new Map<string, Id[]>();
    /** Facts by id, for heights that are measured from another part. */
    readonly facts = new Map<Id, Facts>();
    /** The height of the bottom of each tank. */
    readonly bottoms = new Map<Id, Measure>();

    read(kind: string, bearer: Bearer): Facts {
        for (const line of bearer.facts ?? []) {
            const first = line.tokens[0];
            if (line.block && first?.$type === 'Word' && (FACTS[kind] ?? []).some(({ words }) => words.split(' ')[0] === first.text)) this.problem('block', line.block.$cstNode && CstUtils.flattenCst(line.block.$cstNode).head(), `\`${first.text}\` has no block of its own: write what belongs to it on its line, without \`{\` and \`}\`.`);
        }
        return readFacts(kind, [bearer.tokens, ...(bearer.facts ?? []).map((line) => line.tokens)], this.problems);
    }

    /** The declarations of each tag in the order of the files: the linker means the first of them, and so does the tag. */
    constructor(private readonly declared: ReadonlyMap<string, ReadonlyMap<AstNode, number>> = new Map()) {}

    /** The id for a tag: the tag itself for its first declaration, `V1~2` for the second. */
    claim(tag: string, node: CstNode | undefined): Id {
        const at = this.declared.get(tag)?.get(node?.astNode as AstNode) ?? 0;
        const id = at === 0 ? tag : `${tag}~${at + 1}`;
        const ids = this.tags.get(tag);
        if (ids) ids.push(id); else this.tags.set(tag, [id]);
        if (node) this.sources.add(id, node, GrammarUtils.findNodeForProperty(node, 'name'));
        return id;
    }

    keepFacts(id: Id, facts: Facts): void {
        this.facts.set(id, facts);
        for (const fact of facts.all()) this.sources.addFact(id, fact.word.words, fact.cst, fact.end);
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
        const up = fact.up && this.height(owner, fact, 0);
        const fwd = fact.fwd ?? base?.fwd;
        const stbd = fact.stbd ?? base?.stbd;
        return { ...(up && { up }), ...(fwd && { fwd }), ...(stbd && { stbd }) };
    }

    private height(id: Id, fact: PlaceFact, depth: number): Measure | undefined {
        const said = fact.up;
        if (!said?.from) return said?.measure;
        if (depth > 8) return undefined; // two heights measured from one another
        const of = said.of ? this.idOf(said.of.to.$refText) : id;
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
}
