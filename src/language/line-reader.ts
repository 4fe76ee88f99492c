/**
 * Reads the flat tokens of a line into facts, by the tables of vocabulary.ts. Every slip becomes a problem in plain
 * words at its own place; reading goes on behind it, so that one slip never costs another fact.
 */
import { GRADES, type Evidence, type Grade, type Measure } from '../model/measure';
import { EXAMPLE, UNITS, toSI, type Dimension } from '../model/units';
import { Facts, type AnyFactToken, type Fact, type Hear, type PlaceFact, type Problem } from './facts';
import type { Ref } from './generated/ast';
import { isSuffix } from './likeness';
import { splitQuantity, unquote } from './quantity';
import { spellingsOf, type Spelling } from './spellings';
import { ANCHORS, DIRECTIONS, FACTS, MARKS, behindAt, lengthOf, type FactWord } from './vocabulary';
import { adjacent, article, heightElsewhere, likelyWords, misplaced, noSuchChoice, noSuchUnit, quote, sameLine, strangeWord, trim, unlikely, wordless } from './wording';

/** Reads the lines of one declaration of `kind`. Lines are read apart from one another: a fact ends with its line. */
export function readFacts(kind: string, lines: readonly (readonly AnyFactToken[])[], problems: Problem[], hear: Hear = () => {}): Facts {
    const facts = new Facts(kind, problems);
    for (const line of lines) if (!misplaced(kind, line, problems)) new LineReader(kind, line, facts, problems, hear).read();
    return facts;
}

class LineReader {
    private at = 0;
    private heading = '';
    private last: { fact: Fact } | undefined;
    private readonly table: readonly FactWord[];
    private readonly spellings: ReadonlyMap<string, readonly Spelling[]>;
    constructor(private readonly kind: string, private readonly tokens: readonly AnyFactToken[], private readonly facts: Facts, private readonly problems: Problem[], private readonly hear: Hear) {
        this.table = FACTS[kind] ?? [];
        this.spellings = spellingsOf(kind);
    }

    read(): void {
        while (this.at < this.tokens.length) this.next();
        this.keep();
    }

    private next(): void {
        const token = this.tokens[this.at]!;
        if (token.$type === 'Comma') { this.at++; return; }
        if (token.$type === 'Word') {
            const from = this.at;
            const word = this.match();
            if (word) {
                for (let at = from; at < this.at; at++) this.hear(this.tokens[at]!, 'fact', at === from ? word : undefined);
                return this.fact(word);
            }
            if (Object.hasOwn(MARKS, token.text)) return this.mark(token.text);
            return this.strange();
        }
        const gives = this.table.find((entry) => entry.words === 'gives');
        if (token.$type === 'Measure' && gives && !this.last) return this.value(gives, token);
        this.at++;
        if (token.$type === 'Measure') return this.unsaid(token);
        // Half typed; meant for a word; or the linker says that it is not there.
        if (token.$type === 'Ref' && (!token.to || this.small(token) || token.to.error)) return;
        this.problem('stray', token, wordless(token));
    }

    /** A quantity before its word, or without one. */
    private unsaid(token: AnyFactToken & { text: string }): void {
        const start = this.at;
        const dimension = UNITS[splitQuantity(token.text).unit ?? '']?.dimension;
        const word = this.match();
        if (word?.form.is === 'quantity' && word.form.of === dimension && this.tokens[this.at]?.$type !== 'Measure') {
            this.problem('order', token, `${quote(token)} stands before its word: write \`${word.words} ${token.text}\`.`);
            return;
        }
        this.at = start;
        this.problem('stray', token, wordless(token, likelyWords(this.table, token.text, dimension)));
    }

    /** A word of the language that was written with a capital letter. */
    private small(token: Ref): boolean {
        const word = token.to.$refText.toLowerCase();
        if (!token.to.error || (!this.spellings.has(word) && !Object.hasOwn(MARKS, word))) return false;
        this.problem('capital', token, `\`${token.to.$refText}\` is written in small letters here: \`${word}\`.`);
        if (this.tokens[this.at]?.$type === 'Measure') this.at++;
        return true;
    }

    /** The longest entry whose words stand here, the heading of the line counting as said. */
    private match(): FactWord | undefined {
        const first = this.word(0);
        let best: Spelling | undefined;
        for (const spelling of this.spellings.get(first ?? '') ?? []) {
            // `limits inlet 20 kPa   inlet at 820 mm`: the second is a place of its own.
            if (spelling.under !== undefined && spelling.entry.form.is === 'quantity' && this.word(spelling.words.length) === 'at') continue;
            if (spelling.words.length <= (best?.words.length ?? 0) || (spelling.under !== undefined && spelling.under !== this.heading)) continue;
            if (spelling.words.every((word, i) => this.word(i) === word)) best = spelling;
        }
        if (best) this.at += best.words.length;
        return best?.entry;
    }

    private word(ahead: number): string | undefined {
        const token = this.tokens[this.at + ahead];
        return token?.$type === 'Word' ? token.text : undefined;
    }

    private fact(word: FactWord): void {
        this.keep();
        const head = this.tokens[this.at - 1]!;
        const open = (rest: Omit<Fact, 'word' | 'cst' | 'end'>): void => {
            this.last = { fact: { word, cst: head.$cstNode!, end: this.tokens[this.at - 1]!.$cstNode!, ...rest } };
        };
        const next = this.tokens[this.at];
        const heads = this.table.find((entry) => entry.heads && (word === entry || word.words.startsWith(`${entry.words} `)));
        if (heads) this.heading = heads.words;
        if (word.form.is === 'heading') return;
        if (next?.$type === 'Word' && (next.text === 'unknown' || next.text === 'unreached') && word.form.is !== 'flag') {
            this.hear(next, 'mark');
            this.at++;
            return open({ missing: true, ...(next.text === 'unreached' && { evidence: { grade: 'unreached' as const } }) });
        }
        switch (word.form.is) {
            case 'flag': return open({});
            case 'quantity': { const measure = this.range(word, word.form.of, head); return measure && open({ measure }); }
            case 'curve': { const points = this.curve(word, word.form.of, word.form.at, head); return points.length > 0 ? open({ points }) : undefined; }
            case 'sizes': { const sizes = this.sizes(word, head); return sizes && open({ sizes }); }
            case 'corners': { const found = this.corners(word, head); return found && open({ corners: found }); }
            case 'place': { const found = this.place(word, head); return found && open({ place: found }); }
            case 'choice': { const found = this.choice(word, word.form.of, head); return found !== undefined ? open({ choice: found }) : undefined; }
            case 'text': {
                if (next?.$type !== 'Quoted') {
                    const bare = next?.$type === 'Ref' || (next?.$type === 'Word' && !this.isFactHere() && !Object.hasOwn(MARKS, next.text)) ? next.$cstNode?.text : undefined;
                    if (bare !== undefined) this.at++;
                    return this.wants(word, head, `words between quotes, like \`"${bare ?? word.example?.replace(/"/g, '') ?? 'FUEL'}"\``, bare === undefined ? undefined : next);
                }
                this.at++;
                return open({ text: unquote(next.text) });
            }
            case 'name': {
                if (next?.$type !== 'Ref') return this.wants(word, head, 'a name, like EngineBay');
                this.at++;
                return open({ ref: next });
            }
            case 'year': {
                if ((next?.$type === 'Measure' && /^\d{4}$/.test(next.text)) || (next?.$type === 'Day' && /^\d{4}-/.test(next.text))) { this.at++; return open({ text: next.text }); }
                return this.wants(word, head, 'a year or a date, like 2021');
            }
            case 'count': {
                if (next?.$type !== 'Measure') return this.wants(word, head, 'a whole number, like 3');
                this.at++;
                if (!/^\d+$/.test(next.text)) return this.wants(word, head, 'a whole number, like 3', next);
                return open({ measure: { si: Number(next.text) } });
            }
            case 'suffix': {
                if (next?.$type !== 'Suffix' && !(next?.$type === 'Measure' && isSuffix(next.text))) return this.wants(word, head, 'what the tags get behind them, like -S');
                this.at++;
                return open({ text: next.text });
            }
            case 'pieces': return open({ pieces: this.pieces() });
            case 'rest': this.at = this.tokens.length; return open({});
        }
    }

    /** Puts the open fact away: marks may still have trailed it until now. */
    private keep(): void {
        if (this.last) this.facts.add(this.last.fact);
        this.last = undefined;
    }

    private value(word: FactWord, head: AnyFactToken): void {
        this.hear(head, 'value', word);
        const measure = this.range(word, word.form.is === 'quantity' ? word.form.of : 'ratio', head);
        if (measure) this.last = { fact: { word, measure, cst: head.$cstNode!, end: head.$cstNode! } };
    }

    private mark(text: string): void {
        const token = this.tokens[this.at++]!;
        this.hear(token, 'mark');
        // With no fact before it on its line it speaks for the whole declaration.
        if (!this.last && (text === 'about' || text === 'unknown')) { this.problem('mark', token, `\`${text}\` says how well a fact is known, but no fact stands before it.`); return; }
        let evidence: Evidence = this.last?.fact.evidence ?? (this.last ? {} : this.facts.given ?? {});
        if ((GRADES as readonly string[]).includes(text)) evidence = { ...evidence, grade: text as Grade };
        if (text === 'about' && this.last?.fact.measure) this.last.fact = { ...this.last.fact, measure: { ...this.last.fact.measure, about: true } };
        if (text === 'about' && this.last?.fact.points) this.last.fact = { ...this.last.fact, points: this.last.fact.points.map(({ value, at }) => ({ value: { ...value, about: true }, at })) };
        if (text === 'photo' || text === 'by') {
            const next = this.tokens[this.at];
            if (next?.$type !== 'Quoted') { this.problem('mark', token, `After \`${text}\` come words between quotes, like ${text === 'photo' ? '"p14.jpg"' : '"surveyor"'}.`); return; }
            this.at++;
            evidence = { ...evidence, [text]: unquote(next.text) };
        }
        if (this.tokens[this.at]?.$type === 'Day') evidence = { ...evidence, on: (this.tokens[this.at++] as { text: string }).text };
        if (this.last) this.last.fact = { ...this.last.fact, ...(Object.keys(evidence).length > 0 && { evidence }), end: this.tokens[this.at - 1]!.$cstNode! };
        else this.facts.given = evidence;
    }

    /** One quantity, or two with `to` between them. */
    private range(word: FactWord, dimension: Dimension, head: AnyFactToken): Measure | undefined {
        const first = this.tokens[this.at];
        if (first?.$type !== 'Measure') { this.wants(word, head, `a ${dimension === 'ratio' ? 'share' : dimension}, like ${word.example ?? EXAMPLE[dimension]}`); return undefined; }
        this.at++;
        const hyphen = this.tokens[this.at];
        if (hyphen?.$type === 'Measure' && hyphen.text.startsWith('-') && adjacent(first, hyphen)) {
            this.at++;
            this.problem('range', hyphen, `Write a range with \`to\`: \`${first.text} to ${hyphen.text.slice(1)}\`.`);
            return undefined;
        }
        const second = this.word(0) === 'to' ? this.tokens[this.at + 1] : undefined;
        if (second?.$type !== 'Measure') return this.quantity(word, dimension, first);
        this.hear(this.tokens[this.at]!, 'place');
        this.at += 2;
        const unit = splitQuantity(second.text).unit;
        const high = this.quantity(word, dimension, second);
        if (!high) return undefined;
        const low = this.quantity(word, dimension, first, unit);
        return low && { si: (low.si + high.si) / 2, low: Math.min(low.si, high.si), high: Math.max(low.si, high.si) };
    }

    private quantity(word: FactWord, dimension: Dimension, token: AnyFactToken, defaultUnit?: string): Measure | undefined {
        const written = (token as { text: string }).text;
        const { numbers, unit: own } = splitQuantity(written);
        const unit = own ?? defaultUnit;
        const value = numbers[0];
        const like = word.example ?? EXAMPLE[dimension];
        if (value === undefined || !Number.isFinite(value)) { this.problem('number', token, `${quote(token)} is not a number. Write it like ${like}.`); return undefined; }
        if (unit === undefined) { this.noUnit(word, dimension, token, value); return undefined; }
        const found = UNITS[unit]!;
        if (found.dimension !== dimension) {
            this.problem('dimension', token, `${quote(token)}: \`${word.words}\` is ${article(dimension)}, not ${article(found.dimension)}. Write it like ${like}.`);
            return undefined;
        }
        if (numbers.length > 1) { this.problem('number', token, `${quote(token)} is several sizes; \`${word.words}\` is one, like ${like}.`); return undefined; }
        const si = toSI(value, unit);
        if (word.positive && dimension !== 'temperature' && (si < 0 || (si === 0 && dimension !== 'ratio'))) {
            this.problem('negative', token, `${quote(token)}: \`${word.words}\` must be more than nothing. Write it like ${like}.`);
            return undefined;
        }
        if (word.usual && (si < word.usual[0] * 0.999999 || si > word.usual[1] * 1.000001)) this.problem('unlikely', token, unlikely(word, token, si, unit), 'warning');
        return { si };
    }

    private noUnit(word: FactWord, dimension: Dimension, token: AnyFactToken, value: number): void {
        const next = this.tokens[this.at];
        const like = word.example ?? EXAMPLE[dimension];
        if (next?.$type === 'Comma' && this.tokens[this.at + 1]?.$type === 'Measure' && adjacent(token, next)) {
            const rest = this.tokens[this.at + 1] as { text: string } & AnyFactToken;
            this.problem('decimal-comma', token, `Write ${trim(value)}.${rest.text}, with a point: a comma parts two things.`, 'error', rest);
            this.at += 2;
            return;
        }
        if (next?.$type === 'Word' && !this.isFactHere() && !Object.hasOwn(MARKS, next.text) && sameLine(token, next)) {
            this.at++;
            this.problem('unit', next, noSuchUnit(next.text, value, dimension, like));
            return;
        }
        if (/^"/.test(token.$cstNode?.root.fullText.slice(token.$cstNode.end) ?? '')) return this.problem('no-unit', token, `Inches are written with their unit: \`${(token as { text: string }).text} in\`.`);
        this.problem('no-unit', token, `${trim(value)} what? A unit is missing: write it like ${like}.`);
    }

    private isFactHere(): boolean {
        const at = this.at;
        const found = this.match() !== undefined;
        this.at = at;
        return found;
    }

    private curve(word: FactWord, of: Dimension, at: Dimension, head: AnyFactToken): { value: Measure; at: Measure }[] {
        const points: { value: Measure; at: Measure }[] = [];
        do {
            if (this.tokens[this.at]?.$type === 'Comma') this.at++;
            const value = this.range(word, of, head);
            if (!value) return points;
            if (this.word(0) !== 'at') { this.problem('curve', this.tokens[this.at - 1]!, `At what ${at === 'rotation' ? 'speed' : at}? Write it like ${word.example?.split(',')[0] ?? `${EXAMPLE[of]} at ${EXAMPLE[at]}`}.`); return points; }
            this.hear(this.tokens[this.at++]!, 'place');
            const point = this.range(behindAt(at), at, this.tokens[this.at - 1]!);
            if (!point) return points;
            points.push({ value, at: point });
        } while (this.tokens[this.at]?.$type === 'Comma' && this.tokens[this.at + 1]?.$type === 'Measure');
        return points;
    }

    private sizes(word: FactWord, head: AnyFactToken): Measure[] | undefined {
        const token = this.tokens[this.at];
        const { numbers, unit } = token?.$type === 'Measure' ? splitQuantity(token.text) : { numbers: [], unit: undefined };
        if (token?.$type === 'Measure') this.at++;
        if (numbers.length !== 3 || unit === undefined || UNITS[unit]!.dimension !== 'length') {
            this.wants(word, head, `length x breadth x height, like ${word.example}`);
            while (this.tokens[this.at]?.$type === 'Measure' || ['x', 'by'].includes(this.word(0) ?? '')) this.at++; // they were meant for it
            return undefined;
        }
        if (numbers.some((number) => number <= 0)) { this.problem('negative', token!, `${quote(token!)}: each size must be more than nothing.`); return undefined; }
        return numbers.map((number) => ({ si: toSI(number, unit) }));
    }

    private choice(word: FactWord, of: readonly string[], head: AnyFactToken): string | undefined {
        const fits = of.filter((option) => option.split(' ').every((part, i) => this.word(i) === part)).sort((a, b) => b.length - a.length);
        if (fits[0] !== undefined) {
            for (const { length } = fits[0].split(' '), end = this.at + length; this.at < end; this.at++) this.hear(this.tokens[this.at]!, 'choice');
            return fits[0];
        }
        const said = this.word(0);
        if (said !== undefined) this.at++;
        this.problem('choice', said !== undefined ? this.tokens[this.at - 1]! : head, noSuchChoice(word, of, said));
        return undefined;
    }

    /** Pieces run to the end of the line, or to a word that begins another fact and does not begin a piece. */
    private pieces(): string[] {
        const found: string[] = [];
        let piece: string[] = [];
        for (; this.at < this.tokens.length; this.at++) {
            const token = this.tokens[this.at]!;
            if (token.$type === 'Comma') { if (piece.length > 0) found.push(piece.join(' ')); piece = []; continue; }
            if (token.$type !== 'Word' || Object.hasOwn(MARKS, token.text) || (piece.length > 0 && this.isFactHere())) break;
            piece.push(token.text);
        }
        if (piece.length > 0) found.push(piece.join(' '));
        return found;
    }

    private place(word: FactWord, head: AnyFactToken): PlaceFact | undefined {
        const saidAt = /(^| )at$/.test(word.words);
        const lacksAt = !saidAt && this.word(0) !== 'at';
        if (!saidAt && !lacksAt) this.hear(this.tokens[this.at++]!, 'place');
        const unknown = this.word(0);
        if (unknown === 'unreached' || unknown === 'unknown') { this.hear(this.tokens[this.at++]!, 'mark'); return {}; }
        if (lacksAt) { this.wants(word, head, `\`at\` and a height, like \`${word.words} ${word.example}\``); if (this.tokens[this.at]?.$type === 'Measure') this.at++; return undefined; }
        let found: PlaceFact = {};
        let any = false;
        do {
            if (this.tokens[this.at]?.$type === 'Comma') this.at++;
            const measure = this.range(lengthOf(word), 'length', head);
            if (!measure) return any ? found : undefined;
            any = true;
            found = { ...found, ...this.direction(measure) };
        } while (this.tokens[this.at]?.$type === 'Comma' && this.tokens[this.at + 1]?.$type === 'Measure');
        return found;
    }

    private direction(measure: Measure): PlaceFact {
        const said = this.word(0);
        const [axis, sign] = (said !== undefined && Object.hasOwn(DIRECTIONS, said) ? DIRECTIONS[said] : undefined) ?? ['up', 1];
        if (said !== undefined && Object.hasOwn(DIRECTIONS, said)) this.hear(this.tokens[this.at++]!, 'place');
        const turned = sign === 1 ? measure : { ...measure, si: -measure.si };
        if (axis !== 'up') return { [axis]: turned };
        const relative = said === 'off' || said === 'over' || said === 'under';
        if (!relative) return { up: { measure, sign: 1 } };
        this.hear(this.tokens[this.at++]!, 'place');
        const token = this.tokens[this.at];
        let of: Ref | undefined;
        if (token?.$type === 'Ref') { of = token; this.at++; }
        const anchor = this.word(0) as (typeof ANCHORS)[number] | undefined;
        if (anchor === undefined || !ANCHORS.includes(anchor)) {
            this.problem('anchor', this.tokens[this.at - 1]!, `${said} what? Say \`off bottom\`, \`over ports\` or \`under F1 outlet\`.`);
            return {};
        }
        this.hear(this.tokens[this.at++]!, 'place');
        return { up: { measure, from: anchor, ...(of && { of }), sign: said === 'under' ? -1 : 1 } };
    }

    /** Corners, each of a height and a place across; a comma parts them, and may stand within one too. */
    private corners(word: FactWord, head: AnyFactToken): PlaceFact[] | undefined {
        if (this.tokens[this.at]?.$type !== 'Measure') { this.wants(word, head, `the corners of the section, like \`${word.example}\``); return undefined; }
        const found: PlaceFact[] = [];
        do {
            if (this.tokens[this.at]?.$type === 'Comma') this.at++;
            const measure = this.range(lengthOf(word), 'length', head);
            if (!measure) return undefined;
            const [last, part] = [found.at(-1), this.direction(measure)];
            if (last && !(last.up && last.stbd) && !Object.keys(part).some((axis) => Object.hasOwn(last, axis))) found[found.length - 1] = { ...last, ...part };
            else found.push(part);
        } while (this.tokens[this.at + (this.tokens[this.at]?.$type === 'Comma' ? 1 : 0)]?.$type === 'Measure');
        return found;
    }

    private wants(word: FactWord, head: AnyFactToken, what: string, end?: AnyFactToken): void {
        this.problem('wants', head, `\`${word.words}\` needs ${what}.`, 'error', end);
        // A word in its place was meant for it.
        const next = this.word(0);
        if (!end && next !== undefined && !this.isFactHere() && !Object.hasOwn(MARKS, next)) this.at++;
    }

    private strange(): void {
        const token = this.tokens[this.at++] as { text: string } & AnyFactToken;
        const height = this.tokens[this.at];
        const elsewhere = token.text === 'at' && height?.$type === 'Measure' ? heightElsewhere(this.kind, token, height.text) : undefined;
        if (elsewhere !== undefined) { this.problem('word', token, elsewhere); return this.past(); }
        const { message, meant, isOption } = strangeWord(this.kind, [...this.spellings.keys()], token.text);
        this.problem('word', token, message);
        if (!isOption) this.past(meant);
    }

    /** What follows belonged to the word; it is left out too, so that one slip gives one message. */
    private past(meant?: string): void {
        while (['Measure', 'Quoted', 'Day', 'Comma'].includes(this.tokens[this.at]?.$type ?? '') || this.optionOf(meant)) this.at++;
    }

    /** Whether one of the words stands here that may follow `fact`. */
    private optionOf(fact: string | undefined): boolean {
        const word = this.word(0);
        return word !== undefined && this.table.some(({ words, form }) => words === fact && form.is === 'choice' && form.of.some((option) => option.split(' ').includes(word)));
    }

    private problem(code: string, token: AnyFactToken, message: string, severity: 'error' | 'warning' = 'error', end?: AnyFactToken): void {
        if (token.$cstNode) this.problems.push({ code, message, node: token.$cstNode, severity, ...(end?.$cstNode && { end: end.$cstNode }) });
    }
}
