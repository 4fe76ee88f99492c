/**
 * Say it once: what a declaration is like. `filter F1 like Primary60` takes from a pattern or from another filter what it does
 * not say itself; `supply course Stbd like WingSupply ... tags -S` takes the parts of a whole course. Tags are made, not
 * written: V1 of the pattern is V1-S, and the bleed point BS of a pattern for filters is BS-F1 on F1.
 */
import { AstUtils, type AstNode } from 'langium';
import type { AnyToken, BleedPoint, Consumer, Course, Fitting, Item, Part, Pattern, Ref, Selector, SelectorPort, Tank, Token } from './generated/ast';
import { isChangeover, isCourse, isFitting, isPart, isPattern, isSplit, isTank } from './generated/ast';

export type Likeable = Tank | Consumer | Selector | Part;

/** How a name is followed: by the linker, or by the names alone while nothing is linked yet. */
export type Follow = (ref: Ref) => AstNode | undefined;
export const linked: Follow = (ref) => ref.to.ref;

const LIKEABLE: ReadonlySet<string> = new Set(['Tank', 'Consumer', 'Selector', 'Part']);
export const isLikeable = (node: AstNode | undefined): node is Likeable => node !== undefined && LIKEABLE.has(node.$type);

type Tokens = readonly (Token | AnyToken)[];
const isWord = (token: Token | AnyToken | undefined, text: string): boolean => token?.$type === 'Word' && token.text === text;

/** The name behind the word `like`. */
export function likeOf(node: Likeable): Ref | undefined {
    for (const tokens of [node.tokens as Tokens, ...node.facts.map((line) => line.tokens as Tokens)]) {
        const at = tokens.findIndex((token) => isWord(token, 'like'));
        const ref = tokens[at + 1];
        if (at >= 0 && ref?.$type === 'Ref') return ref;
    }
    return undefined;
}

export const isMirrored = (node: { readonly tokens: Tokens }): boolean => node.tokens.some((token) => isWord(token, 'mirrored'));

/** The same kind of thing: a filter is like a filter. */
const sameKind = (a: Likeable, b: Likeable): boolean => a.$type === b.$type
    && ((a as Part).kind ?? '') === ((b as Part).kind ?? '') && ((a as Part).driven ?? '') === ((b as Part).driven ?? '');

/** A declaration, what it is like, what that is like, and so on; each once, so that a circle ends. */
export function lineage(node: Likeable, follow: Follow = linked): Likeable[] {
    const found = [node];
    for (let ref = likeOf(node); ref;) {
        const target = follow(ref);
        const next = isPattern(target) ? target.part : target;
        if (!isLikeable(next) || found.includes(next) || !sameKind(node, next)) break;
        found.push(next);
        ref = likeOf(next);
    }
    return found;
}

/** What is wrong with a `like`, in words; the name itself is the linker's business. */
export function likenessSlip(node: Likeable): { ref: Ref; message: string } | undefined {
    const ref = likeOf(node);
    const target = ref?.to.ref;
    if (!ref || !target) return undefined;
    const name = ref.to.$refText;
    const next = isPattern(target) ? target.part : target;
    if (isPattern(target) && !target.part) return { ref, message: `${name} is a pattern of a whole course. Only a course can be like it.` };
    if (!isLikeable(next) || !sameKind(node, next)) return { ref, message: `${name} is ${isLikeable(next) ? `${article(wordsOf(next))}` : 'another kind of thing'}, and this is ${article(wordsOf(node))}: it can only be like its own kind.` };
    const seen: AstNode[] = [node];
    for (let at: Likeable | undefined = next; at;) {
        if (seen.includes(at)) return { ref, message: `${name} leads back to this one: a thing cannot be like itself. Break the circle.` };
        seen.push(at);
        const further: AstNode | undefined = likeOf(at)?.to.ref;
        at = isPattern(further) ? further.part : isLikeable(further) ? further : undefined;
    }
    return undefined;
}

const wordsOf = (node: Likeable): string => node.$type === 'Part' || node.$type === 'Consumer' ? [(node as Part).driven, node.kind].filter(Boolean).join(' ') : node.$type.toLowerCase();
const article = (words: string): string => `${/^[aeiou]/.test(words) ? 'an' : 'a'} ${words}`;

// ---- bleed points

export interface LikeVent {
    /** The bleed point, and those whose facts it takes over, nearest first. */
    readonly layers: readonly BleedPoint[];
    /** How many of them are of the thing itself; none when the bleed point is taken over. */
    readonly own: number;
    /** Which of them have port and starboard swapped. */
    readonly turned: readonly boolean[];
    readonly tag: string;
}

/** How a line of likeness was come by: how many of it are the thing itself, its suffix, and which of it is mirrored. */
export interface Kinship {
    readonly own?: number;
    readonly suffix?: string;
    readonly turned?: readonly boolean[];
}

/**
 * The bleed points of a part or consumer. Its own, each taking facts from the one in the same place of what it is like; when
 * it lists none, those of what it is like, named after itself.
 */
export function likeVents(line: readonly (Part | Consumer)[], tag: string | undefined, { own = 1, suffix = '', turned = turnedIn(line) }: Kinship = {}): LikeVent[] {
    const from = line.findIndex((node) => node.vents.length > 0);
    if (from < 0) return [];
    return line[from]!.vents.flatMap((vent, i) => {
        if (vent.name === undefined) return [];
        const layers = line.flatMap((node, at) => { const other = at < from ? undefined : node.vents[i]; return other ? [{ other, at }] : []; });
        return [{ layers: layers.map(({ other }) => other), own: layers.filter(({ at }) => at < own).length, turned: layers.map(({ at }) => turned[at] ?? false), tag: from < own || tag === undefined ? vent.name + suffix : `${vent.name}-${tag}` }];
    });
}

/** Which of a line of likeness is taken over with port and starboard swapped: each mirroring turns all that lies behind it. */
export function turnedIn(line: readonly { readonly tokens: Tokens }[], from = Infinity): boolean[] {
    let turns = 0;
    return line.map((node, i) => {
        const turned = (turns + (i >= from ? 1 : 0)) % 2 === 1;
        if (isMirrored(node)) turns++;
        return turned;
    });
}

// ---- whole courses

export function patternOf(course: Course, follow: Follow = linked): Pattern | undefined {
    const target = course.pattern && follow(course.pattern);
    return isPattern(target) && target.service !== undefined ? target : undefined;
}

/** What every tag of the pattern gets behind it: `tags -S`. */
export function suffixOf(course: Course): string {
    const said = course.tokens[course.tokens.findIndex((token) => isWord(token, 'tags')) + 1];
    return said?.$type === 'Suffix' || (said?.$type === 'Measure' && isSuffix(said.text)) ? said.text : '';
}

/** -S, and -2, which reads as a number. */
export const isSuffix = (text: string): boolean => /^-\w+$/.test(text);

/** What a course says otherwise than its pattern, by the tag in the pattern; the later line first. */
export function overridesOf(course: Course): ReadonlyMap<string, readonly Part[]> {
    const found = new Map<string, Part[]>();
    for (const item of course.items) if (isPart(item) && item.name !== undefined) found.set(item.name, [item, ...found.get(item.name) ?? []]);
    return found;
}

/** Every part, split and changeover of a course or pattern, legs included. */
export function* itemsOf(items: readonly Item[]): Generator<Item> {
    for (const item of items) {
        yield item;
        if (isSplit(item) || isChangeover(item)) for (const leg of item.legs) yield* itemsOf(leg.items);
    }
}

// ---- tags

/** Tags that likeness makes on the boat, with the node where each is written. */
export function* madeTags(node: AstNode, follow: Follow): Generator<{ tag: string; node: AstNode }> {
    if (isCourse(node)) {
        const pattern = patternOf(node, follow);
        if (!pattern) return;
        const [suffix, overrides] = [suffixOf(node), overridesOf(node)];
        for (const item of itemsOf(pattern.items)) {
            if (item.name === undefined) continue;
            yield { tag: item.name + suffix, node: item };
            if (!isPart(item)) continue;
            const over = overrides.get(item.name) ?? [];
            const line = [...over, ...lineage(item, follow)] as Part[];
            for (const { tag, layers } of likeVents(line, item.name + suffix, { own: over.length + 1, suffix })) yield { tag, node: layers[0]! };
        }
    } else if ((node.$type === 'Part' || node.$type === 'Consumer') && (node as Part | Consumer).vents.length === 0 && declaresTag(node)) {
        const part = node as Part | Consumer;
        for (const { tag, layers } of likeVents(lineage(part, follow) as (Part | Consumer)[], part.name)) yield { tag, node: layers[0]! };
    }
}

/** Named only inside their selector, changeover or tank. */
const INNER = new Set(['Position', 'Leg', 'Fitting', 'SelectorPort']);

/** The tag that a node declares for the whole boat. What stands in a pattern, or changes one, declares none. */
export function tagOf(node: AstNode): string | undefined {
    const { name } = node as { name?: unknown };
    return typeof name === 'string' && !INNER.has(node.$type) && declaresTag(node) ? name : undefined;
}

function declaresTag(node: AstNode): boolean {
    if (node.$type === 'Pattern' || node.$type === 'Course') return true;
    return AstUtils.getContainerOfType(node.$container, (at): at is Pattern | Course => isPattern(at) || (isCourse(at) && at.pattern !== undefined)) === undefined;
}

/** The pattern, or the course made from one, in which a node stands: there its names go without the suffix. */
export function patternAround(node: AstNode, follow: Follow): Pattern | undefined {
    const at = AstUtils.getContainerOfType(node, (other): other is Pattern | Course => isPattern(other) || isCourse(other));
    return isPattern(at) ? at : at && patternOf(at, follow);
}

/** Names inside a pattern, as written there. */
export function* innerTags(pattern: Pattern, follow: Follow): Generator<{ tag: string; node: AstNode }> {
    for (const item of itemsOf(pattern.items)) {
        if (item.name !== undefined) yield { tag: item.name, node: item };
        if (isPart(item)) for (const { tag, layers } of likeVents(lineage(item, follow) as Part[], item.name)) yield { tag, node: layers[0]! };
    }
    if (pattern.part) for (const vent of pattern.part.vents) if (vent.name !== undefined) yield { tag: vent.name, node: vent };
}

// ---- ports

/** The fittings of a tank, or the ports of a selector, those taken over included. */
export function likePorts(node: Tank | Selector, follow: Follow = linked): (Fitting | SelectorPort)[] {
    const line = lineage(node, follow) as (Tank | Selector)[];
    if (isTank(node)) return [...new Map([...line].reverse().flatMap((other) => (other as Tank).fittings.map((fitting) => [portName(fitting), fitting] as const))).values()];
    return [...(line as Selector[]).find((other) => other.ports.length > 0)?.ports ?? []];
}

/** A vent or fill without a tag goes by its kind: T1.vent. */
export const portName = (port: Fitting | SelectorPort): string => isFitting(port) ? port.name ?? port.kind : port.name;
