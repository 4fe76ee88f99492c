/**
 * Slips in how a text is built: a brace that is missing or stands on a line of its own, a part outside of a course, a
 * kind misspelt, a course without `to`. Each is told once, and the tokens are put right so that all that follows is
 * read in its place and every name is there.
 */
import type { IToken, TokenType } from 'chevrotain';
import { courseHead } from './course-head';
import { ENTRIES, FACT_WORDS, ITEMS, MAY_STAND, PARTS, SERVICES, opens, type Place } from './places';
import { TokenEditor, isEnd, isKeyword, isSign, tagOf, type Repaired } from './token-editor';
import { nearest, synonym } from './vocabulary';

/** Deeper than any boat needs; the parser and all that walks its trees go down by recursion. */
const DEEPEST = 24;

interface Block {
    readonly place: Place;
    /** How a message names it: `tank T2`. */
    readonly label: string;
    readonly brace: IToken;
    /** A block that nobody wrote ends with the one around it. */
    readonly unwritten?: true;
    /** The braces of a thing that has no block: what stands between them is read as its line. */
    readonly flat?: true;
}

interface Head {
    readonly place: Place;
    readonly label: string;
    /** It has no block. */
    readonly flat?: true;
}

export function repair(tokens: readonly IToken[], types: Readonly<Record<string, TokenType>>): Repaired {
    const repairer = new Repairer(tokens, types);
    repairer.run();
    return repairer;
}

class Repairer extends TokenEditor {
    private readonly blocks: Block[] = [];
    private head: Head | undefined;
    /** The entry above, when it has no block yet. */
    private above: Head | undefined;
    /** Closing braces that are missing in the whole text. */
    private missing: number;

    constructor(input: readonly IToken[], types: Readonly<Record<string, TokenType>>) {
        super(input, types);
        const count = (sign: string): number => input.reduce((sum, token) => sum + (isSign(token, sign) ? 1 : 0), 0);
        this.missing = count('{') - count('}');
    }

    run(): void {
        for (; this.at < this.input.length; this.at++) this.next(this.input[this.at]!);
        if (this.blocks.length === 0) return;
        const { label, brace: last } = this.blocks.at(-1)!;
        this.tell(last, `${label === '' ? 'This block' : `\`${label}\``} is still open where the text ends: a \`}\` is missing.`);
        for (const { brace, flat } of this.blocks) if (!flat) this.put('}', this.input.at(-1) ?? brace);
    }

    private get place(): Place { return this.blocks.at(-1)?.place ?? 'text'; }

    private next(token: IToken): void {
        if (isEnd(token)) return this.lineEnd(token);
        if (isSign(token, '{')) return this.open(token);
        if (isSign(token, '}')) return this.close(token);
        if (isSign(token, ',') && this.place === 'line-up') return; // harmless between settings
        if (isSign(token, '.') && !this.isPort()) return this.tell(token, '`.` stands only between a name and its port, like `T1.P1`: take it out.');
        if (this.isKind(token) && (token.image === 'leg' || token.image === 'position')) this.closeUnwritten(token);
        this.legless(token);
        if (this.atHead()) {
            this.closeBefore(token);
            if (this.strayBrace(token)) this.blocks.push({ place: this.above!.place, label: this.above!.label, brace: token });
            if (this.place === 'text') this.above = undefined;
            if (this.lead(token)) return;
        }
        this.word(token);
    }

    // ---- line ends and braces

    private lineEnd(token: IToken): void {
        let ahead = this.at;
        while (this.head && this.input[ahead] && isEnd(this.input[ahead]!)) ahead++;
        const next = this.input[ahead];
        if (this.head && next && isSign(next, '{')) {
            this.tell(next, `Put this \`{\` at the end of the line above, behind \`${this.head.label}\`.`);
            this.at = ahead;
            return this.open(next);
        }
        if (this.head && this.place === 'text') this.above = this.head;
        if (this.blocks.at(-1)?.flat) return;
        this.head = undefined;
        this.tokens.push(token);
    }

    private open(token: IToken): void {
        const own = this.head ?? { place: 'free' as const, label: '' };
        this.head = undefined;
        if (own.flat && this.blocks.length < DEEPEST) {
            this.tell(token, `\`${own.label}\` has no block: write what belongs to it on its line, without \`{\` and \`}\`.`);
            this.blocks.push({ ...own, brace: token });
            return;
        }
        if (own.label === '' && this.place === 'text') {
            this.tell(token, 'This `{` opens nothing: put it on the line of the thing that it belongs to.');
            this.put('WORD', token);
        }
        this.tokens.push(token);
        if (this.blocks.length < DEEPEST) { this.blocks.push({ ...own, brace: token }); return; }
        this.tell(token, 'Blocks are nested too deep here: what stands within this `{` is not read. Close the blocks that are still open above.');
        let depth = 1;
        while (this.at + 1 < this.input.length && depth > 0) {
            const inner = this.input[this.at + 1]!;
            depth += isSign(inner, '{') ? 1 : isSign(inner, '}') ? -1 : 0;
            if (depth > 0) this.at++;
        }
        if (depth > 0) this.put('}', token);
        else this.tokens.push(this.input[++this.at]!);
    }

    private close(token: IToken): void {
        this.closeUnwritten(token);
        const block = this.blocks.pop();
        if (!block) this.tell(token, 'This `}` closes nothing: there is one too many, or a `{` is missing above.');
        else if (!block.flat) this.tokens.push(token);
        this.head = this.above = undefined;
    }

    private isPort(): boolean {
        const next = this.input[this.at + 1];
        const before = this.tokens.at(-1);
        return before?.tokenType.name === 'TAG' && !before.isInsertedInRecovery && next !== undefined && (next.tokenType.name === 'TAG' || next.tokenType.name === 'WORD' || /^[a-z]/.test(next.tokenType.name));
    }

    private closeUnwritten(near: IToken): void {
        if (!this.blocks.at(-1)?.unwritten) return;
        this.put('}', near);
        this.blocks.pop();
    }

    /** A part that stands in a split or a changeover, and in none of its legs. */
    private legless(token: IToken): void {
        if ((this.place !== 'split' && this.place !== 'changeover') || !this.isKind(token) || !ITEMS.includes(token.image)) return;
        this.tell(token, `\`${token.image}\` stands in no leg. In a \`${this.place}\` every part stands in a \`leg\`: write \`leg main { ${token.image} ... }\`.`);
        this.put('leg', token);
        this.put('WORD', token);
        this.put('{', token);
        this.blocks.push({ place: 'leg', label: 'leg', brace: token, unwritten: true });
    }

    private atHead(): boolean {
        const before = this.tokens.at(-1);
        return before === undefined || isEnd(before) || isSign(before, '{') || isSign(before, '}');
    }

    /** Closes the blocks in which a line cannot stand, when a brace may be missing. */
    private closeBefore(token: IToken): void {
        if (this.blocks.length === 0) return;
        let stay = this.blocks.length;
        if (this.beginsEntry(token)) stay = 0;
        else if (this.missing > 0 && this.isKind(token) && !MAY_STAND[this.place]?.includes(token.image) && MAY_STAND[this.place]) {
            stay = this.blocks.findLastIndex(({ place }) => MAY_STAND[place]?.includes(token.image)) + 1;
            if (stay === 0) stay = this.blocks.length;
        }
        const open = this.blocks.splice(stay).reverse();
        if (open.length === 0) return;
        const named = open.map(({ label, brace }) => `\`${label === '' ? '{' : label}\` (line ${brace.startLine})`);
        this.tell(token, open.length === 1
            ? `${named[0]} is still open: put a \`}\` before \`${token.image}\`.`
            : `${named.slice(0, -1).join(', ')} and ${named.at(-1)} are still open: put a \`}\` for each before \`${token.image}\`.`);
        this.missing -= open.length;
        for (const { flat } of open) if (!flat) this.put('}', token);
        this.head = undefined;
    }

    private beginsEntry(token: IToken): boolean {
        const lineHead = this.at === 0 || isEnd(this.input[this.at - 1]!);
        if (!lineHead || !isKeyword(token)) return false;
        // Lines of these may begin with any word; an entry stands at the margin.
        if ((this.place === 'free' || this.place === 'lines') && token.startColumn !== 1) return false;
        const next = this.input[this.at + 1];
        if (SERVICES.has(token.image)) return next?.image === 'course' || (token.startColumn === 1 && (token.image === 'supply' || token.image === 'transfer'));
        if (token.image === 'bleed') return next?.tokenType.name === 'TAG' && this.rest().some(({ image }) => image === 'after' || image === 'starts' || image === 'kept');
        // `refit F2 element` and `log renew F1 element` are steps; the log of a year has its lines in braces.
        if (this.place === 'lines' && (token.image === 'refit' || (token.image === 'log' && next?.tokenType.name === 'WORD'))) return false;
        return ENTRIES.includes(token.image);
    }

    /** A line that belongs into the block of the entry above, which has not been opened. */
    private strayBrace(token: IToken): boolean {
        const { above } = this;
        if (this.place !== 'text' || !above || this.missing >= 0 || above.place === 'text') return false;
        const belongs = above.place === 'line-up' ? token.tokenType.name === 'TAG' : this.isKind(token) && MAY_STAND[above.place]?.includes(token.image);
        if (!belongs) return false;
        if (ENTRIES.includes(token.image) && this.beginsEntry(token)) return false;
        this.tell(token, `\`${token.image}\` belongs to \`${above.label}\`: a \`{\` is missing at the end of that line.`);
        this.missing++;
        const ends: IToken[] = [];
        while (this.tokens.length > 0 && isEnd(this.tokens.at(-1)!)) ends.push(this.tokens.pop()!);
        this.put('{', token);
        this.tokens.push(...ends.reverse());
        return true;
    }

    // ---- words

    /** The first word of a line, when it is one for another; whether the line has been dealt with. */
    private lead(token: IToken): boolean {
        const { place } = this;
        const next = this.input[this.at + 1];
        if (place === 'line-up' && token.image === 'each') {
            this.tell(token, '`each` has its place in `tend`. A line-up names every valve that it sets: write `{ V1 shut   V2 shut }`.');
            while (this.ahead() && !isEnd(this.ahead()!) && !isSign(this.ahead(), '}')) this.at++;
            return true;
        }
        if (place === 'line-up' && token.tokenType.name === 'WORD' && next?.tokenType.name === 'TAG') {
            this.tell(token, `Name the valve first: write \`${next.image} ${token.image}\`.`);
            this.at++;
            return true;
        }
        const choice = MAY_STAND[place];
        if (!choice || isKeyword(token)) return false;
        const after = this.input[this.at + 2];
        if ((place === 'course' || place === 'leg') && token.tokenType.name === 'WORD' && next && this.isKind(next) && choice.includes(next.image)) {
            const rest = token.image === 'primary' || token.image === 'final' ? ` ${token.image}` : '';
            this.tell(token, `\`${token.image}\` does not stand before \`${next.image}\`: write \`${next.image}${tagOf(after)}${rest}\`.`);
            return true;
        }
        if (place === 'text' && token.tokenType.name === 'WORD' && next?.image === 'course') {
            const meant = nearest(token.image, SERVICES);
            this.tell(token, `\`${token.image}\` is not a service. Write ${meant === undefined ? `\`supply course${tagOf(after)}\` or another of ${[...SERVICES].map((word) => `\`${word}\``).join(', ')}` : `\`${meant} course${tagOf(after)}\``}.`);
            this.becomes(token, meant ?? 'supply');
            return false;
        }
        if (token.tokenType.name === 'TAG') {
            const small = token.image[0]!.toLowerCase() + token.image.slice(1).toLowerCase();
            if (!choice.includes(small)) return false;
            this.tell(token, `\`${token.image}\` is written in small letters here: \`${small}\`.`);
            this.becomes(token, small);
            return false;
        }
        if (token.tokenType.name !== 'WORD' || (FACT_WORDS.has(token.image) && !(token.image === 'lift' && choice.includes('lift')))) return false;
        if (place === 'text' && token.image === 'line' && next?.image === 'up') {
            this.tell(token, '`line up` is one word here: write `line-up`.', next);
            this.becomes(token, 'line-up');
            this.head = { place: 'line-up', label: 'line-up' };
            this.tokens.push(token);
            this.at++;
            return true;
        }
        if (place === 'text' && token.image === 'line') return false;
        const other = synonym(token.image);
        const meant = token.image === 'lift' && choice.includes('lift') ? 'lift' : other !== undefined && choice.includes(other) ? other : other === undefined ? nearest(token.image, choice) : undefined;
        if (meant === undefined) return false;
        if (meant !== token.image) this.tell(token, `\`${token.image}\` is not a word that begins a line here. Did you mean \`${meant}\`?`);
        this.becomes(token, meant);
        return false;
    }

    private word(token: IToken): void {
        const { place } = this;
        const choice = MAY_STAND[place];
        // In its head line a word of the language is what it says; the head of the text's entries is the first word alone.
        const begins = this.isKind(token) && (place !== 'text' || this.head === undefined);
        const kind = this.kindOf(token);
        const next = this.input[this.at + 1];
        if (begins && choice?.includes('lift') && (kind === 'pump' || kind === 'lift') && this.electricBehind(token)) return;
        if (begins && choice && kind === 'pump' && choice.includes('lift')) {
            this.tell(token, '`pump` of which kind? Write `lift pump`, worked by the engine, or `electric pump`.');
            this.put('lift', token);
        } else if (begins && place === 'text' && kind === 'course') {
            this.tell(token, `\`course\` of which service? Write \`supply course${tagOf(next)}\`, \`return course${tagOf(next)}\` or another of ${[...SERVICES].map((word) => `\`${word}\``).join(', ')}.`);
            this.put('supply', token);
            this.head = { place: 'course', label: `course${tagOf(next)}` };
            this.tokens.push(token);
            return courseHead(this);
        } else if (begins && choice && !choice.includes(kind) && kind !== 'pump') {
            this.becomes(token, undefined);
            if (place === 'text') this.head = { place: 'free', label: kind };
        } else if (begins && choice) {
            const block = kind === 'pattern' ? this.patternBlock() : opens(kind, place);
            this.head = { place: block ?? 'free', label: this.labelOf(kind), ...(block === undefined && { flat: true as const }) };
        } else if (place === 'text' && this.head === undefined && token.tokenType.name !== 'WORD') {
            this.becomes(token, undefined); // a line that begins with no word is none; lowering says so
            this.head = { place: 'free', label: token.image };
        } else if (place === 'free' || place === 'lines' || (place === 'text' && this.head === undefined)) {
            this.head ??= { place: 'free', label: token.image };
        }
        this.tokens.push(token);
        if (begins && place === 'text' && SERVICES.has(kind) && isKeyword(token)) return this.service(token);
        if (kind === 'lift' && begins && (place === 'course' || place === 'leg') && this.kindOf(next) !== 'pump') {
            this.tell(token, `\`lift\` is followed by \`pump\`: write \`lift pump${tagOf(next)}\`.`);
            this.put('pump', token);
        }
        if (kind === 'electric' && begins && (place === 'course' || place === 'leg') && this.kindOf(next) !== 'pump' && this.kindOf(next) !== 'primer') {
            this.tell(token, `\`electric\` is followed by \`pump\` or \`primer\`: write \`electric pump${tagOf(next)}\` or \`electric primer${tagOf(next)}\`.`);
            this.put('pump', token);
        }
        if (kind === 'lift' || kind === 'electric') { if (next && (next.image === 'pump' || next.image === 'primer')) { this.tokens.push(next); this.at++; } }
        if (begins && (place === 'course' || place === 'leg') && PARTS.includes(kind)) this.noise(kind);
        if (begins && choice && isKeyword(token)) this.capital(kind, place);
        if (begins && choice?.includes('ports') && kind === 'ports' && isKeyword(token)) this.commas();
    }

    /** `pump HP1 electric`, `lift pump HP1 electric`: read as the electric pump that is meant. */
    private electricBehind(token: IToken): boolean {
        let at = this.at + (token.image === 'lift' ? 1 : 0);
        const pump = this.input[at];
        const tag = this.input[at + 1]?.tokenType.name === 'TAG' ? this.input[++at] : undefined;
        const electric = this.input[at + 1];
        if (this.kindOf(pump) !== 'pump' || this.kindOf(electric) !== 'electric' || ['pump', 'primer'].includes(this.kindOf(this.input[at + 2]))) return false;
        const written = `electric pump${tagOf(tag)}`;
        this.tell(token, `What drives a pump stands before it: write \`${written}\`.`, electric);
        this.head = { place: 'part', label: written };
        this.put('electric', token);
        this.tokens.push(pump!, ...(tag ? [tag] : []));
        this.at = at + 1;
        return true;
    }

    /** What stands between the braces of a pattern: what comes behind its `is` says so. */
    private patternBlock(): Place {
        const rest = this.rest();
        const what = rest[rest.findIndex(({ image }) => image === 'is') + 1]?.image ?? '';
        return SERVICES.has(what) ? 'course' : PARTS.includes(what) ? 'part' : 'free';
    }

    /** `shutoff valve V1`, `primer pump PR1`: the kind alone says it. */
    private noise(kind: string): void {
        const [next, after] = [this.input[this.at + 1], this.input[this.at + 2]];
        const more = next?.tokenType.name === 'WORD' ? !FACT_WORDS.has(next.image) : next?.image === 'pump';
        if (!next || !more || after?.tokenType.name !== 'TAG' || this.tokens.at(-1)!.image === 'lift') return;
        const written = ['lift', 'electric'].includes(kind) ? `${kind} ${this.tokens.at(-1)!.image}` : kind;
        this.tell(next, `\`${next.image}\` is not needed here: write \`${written} ${after.image}\`.`);
        this.at++;
    }

    /** Ports written one behind the other without the commas between them. */
    private commas(): void {
        let told = false;
        const start = this.at;
        for (let next = this.input[this.at + 1]; next && !isEnd(next) && next.image !== '}' && next.image !== 'position'; next = this.input[this.at + 1]) {
            const before = this.tokens.at(-1)!;
            // `in` is a port like any other, but behind a port without a comma it begins a fact.
            if (this.at > start && before.image !== ',' && FACT_WORDS.has(next.image)) return;
            if (this.at > start && before.image !== ',' && next.image !== ',') {
                if (!told) this.tell(next, `Ports are parted by commas: write \`${before.image}, ${next.image}\`.`);
                told = true;
                this.put(',', next);
            }
            if (isKeyword(next) && next.image !== ',') this.becomes(next, undefined);
            this.tokens.push(next);
            this.at++;
        }
    }

    /** `supply` and its `course`. */
    private service(token: IToken): void {
        const next = this.input[this.at + 1];
        if (next?.image === 'course') { this.tokens.push(next); this.at++; }
        else if (next?.tokenType.name === 'WORD' && this.input[this.at + 2]?.tokenType.name === 'TAG') {
            this.tell(next, `\`${next.image}\` stands where \`course\` belongs: write \`${token.image} course${tagOf(this.input[this.at + 2])}\`.`);
            this.becomes(next, 'course');
            this.tokens.push(next);
            this.at++;
        } else if (next?.tokenType.name === 'TAG') {
            this.tell(token, `\`${token.image}\` is followed by \`course\`: write \`${token.image} course${tagOf(next)}\`.`);
            this.put('course', token);
        } else return;
        courseHead(this);
    }

    private labelOf(kind: string): string {
        const [next, after] = [this.input[this.at + 1], this.input[this.at + 2]];
        const second = next && ['course', 'pump', 'primer'].includes(next.image) ? ` ${next.image}` : '';
        return `${kind}${second}${tagOf(second === '' ? next : after)}`;
    }
}
