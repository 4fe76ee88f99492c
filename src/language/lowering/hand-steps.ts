/** The steps of procedures, as they are written: those of bleeding, and what hands do around them. */
import type { Id } from '../../model/boat';
import type { CautionStep, CautionTopic, LookStep, PieceStep, RunStep, SequenceStep, ServiceStep, SwitchStep } from '../../model/step';
import { listed } from '../../model/words';
import type { Dimension } from '../../model/units';
import type { Cursor } from '../cursor';
import type { AnyToken, Ref } from '../generated/ast';
import { unquote } from '../quantity';
import { nearest } from '../vocabulary';
import { readBleedStep } from './bleed-steps';
import type { Context } from './context';
import { PROCEDURE_VERBS, readJobs } from './jobs';
import { quantityOf, rangeOf } from './readings';
import { optional } from './vessel';

/** The verbs of steps that no bleed sequence has, each with an example. */
export const HAND_VERBS: Readonly<Record<string, string>> = {
    stop: 'stop E1 key out', set: 'set bilge pump off', place: 'place can 2 L under F1', remove: 'remove F1 element, lid ring', fit: 'fit F1 element, lid ring', refit: 'refit F1 element',
    clean: 'clean F1 bowl', look: 'look F1 bowl "water, slime"', do: 'do bleed E1 after opening F1', run: 'run E1 at 1300 rpm for 5 min', read: 'read G1 expect 0.4 to 1.4 inHg at 2400 rpm',
    wait: 'wait 10 min', log: 'log renew F1 element', caution: 'caution fire, flood F1',
};
/** What is opened, besides bleed points, as a person says it. */
export const OPENING_WORDS: readonly string[] = ['lid', 'drain', 'ports', 'joint'];
export const TOPICS: readonly CautionTopic[] = ['fire', 'flood', 'skin', 'spill', 'starter', 'jet', 'exhaust', 'scald', 'waste', 'underway', 'overfill', 'rail'];
/** What is set that is not plumbed, and to what. */
export const SWITCHES: Readonly<Record<SwitchStep['thing'], readonly SwitchStep['to'][]>> = { 'bilge pump': ['off', 'auto'], 'battery switch': ['off', 'on'], seacock: ['shut', 'open'] };
const SIGNALS = /^(DANGER|WARNING|CAUTION|NOTICE):\s*(.*)$/;

type Steps = readonly ServiceStep[] | undefined;
export interface Slip {
    readonly message: string;
    readonly at: AnyToken | undefined;
    readonly end?: AnyToken;
}

/** Reads one line. Where it knows better what is wrong than that the line is not understood, it says so in `slip`. */
export class HandSteps {
    slip: Slip | undefined;

    constructor(private readonly context: Context, private readonly cursor: Cursor, private readonly openingsOf: (part: Id) => readonly string[]) {}

    read(): Steps {
        const { cursor } = this;
        const verb = wordOf(cursor.peek());
        const list = cursor.peek(2)?.$type === 'Comma';
        switch (verb) {
            case 'open': case 'shut': cursor.take(); return this.openings(verb);
            case 'prove': if (this.provesValves()) { cursor.take(); return this.hold(); } break;
            case 'prefill': if (list) { cursor.take(); return this.each((part) => ({ do: 'prefill', part })); } break;
            case 'turn': case 'bleed': case 'start': break;
            default: cursor.take(); return this.hands(verb);
        }
        const step = readBleedStep(cursor, (tag) => this.context.idOf(tag));
        return step && [step];
    }

    private hands(verb: string): Steps {
        const { cursor } = this;
        switch (verb) {
            case 'stop': return this.each((part) => ({ do: 'stop', part }), () => (cursor.words('key out') ? { keyOut: true } : {}));
            case 'set': return this.switched();
            case 'place': return this.place();
            case 'remove': case 'fit': case 'refit': return this.pieces(verb);
            case 'clean': return this.withPiece((part, piece) => ({ do: 'clean', part, piece }));
            case 'look': return this.look();
            case 'do': return this.sequence();
            case 'run': return this.run();
            case 'read': return this.gauge();
            case 'wait': { const seconds = this.quantity('time', 'wait 10 min'); return seconds === undefined ? undefined : [{ do: 'wait', seconds }]; }
            case 'log': return this.log();
            case 'caution': return this.cautions();
            default: return undefined;
        }
    }

    // ---- what several have

    private wrong(message: string, at: AnyToken | undefined = this.cursor.peek() ?? this.cursor.peek(-1), end?: AnyToken): undefined {
        this.slip ??= { message, at, ...(end && { end }) };
        return undefined;
    }

    private part(): Id | undefined {
        const ref = this.cursor.ref();
        return ref && this.context.idOf(ref.to.$refText);
    }

    /** A step for each part of a list; what follows the list is said of all. */
    private each(of: (part: Id) => ServiceStep, more: () => object = () => ({})): Steps {
        const parts = this.parts();
        if (parts.length === 0) return undefined;
        const said = more();
        return parts.map((part) => ({ ...of(part), ...said }));
    }

    private parts(): Id[] {
        const found: Id[] = [];
        for (let part = this.part(); part !== undefined; part = this.goesOn() ? this.part() : undefined) found.push(part);
        return found;
    }

    /** A comma or `and` with something behind it, taken. */
    private goesOn(): boolean {
        const { cursor } = this;
        return cursor.peek(1) !== undefined && (cursor.comma() || cursor.words('and'));
    }

    private withPiece(of: (part: Id, piece: string) => ServiceStep): Steps {
        const found: ServiceStep[] = [];
        do {
            const part = this.part();
            if (part === undefined) return undefined;
            found.push(of(part, this.piece()));
        } while (this.goesOn());
        return found;
    }

    private piece(): string {
        return this.cursor.wordsUntil(AND);
    }

    /** One quantity with a unit of this kind. */
    private quantity(dimension: Dimension, like: string): number | undefined {
        const token = this.cursor.peek();
        const text = this.cursor.measure();
        const value = text === undefined ? undefined : quantityOf(text, dimension);
        if (value === undefined || value <= 0) return this.wrong(`A figure with its unit belongs here, like \`${like}\`.`, token);
        return value;
    }

    // ---- one by one

    private openings(verb: 'open' | 'shut'): Steps {
        const { cursor } = this;
        const found: ServiceStep[] = [];
        let last: Id | undefined;
        do {
            const token = cursor.peek();
            const ref = cursor.ref();
            const part = ref ? this.context.idOf(ref.to.$refText) : last;
            if (part === undefined) return token?.$type === 'Word' && token.text === 'seacock' ? this.wrong(`A seacock is set: write \`set E1 seacock ${verb}\`.`, token) : undefined;
            const here = cursor.peek();
            const opening = here?.$type === 'Ref' ? cursor.ref()?.to.$refText ?? '' : this.piece();
            if (opening === '' && ref) {
                const other = this.isNoValve(ref, verb);
                if (other !== undefined) return this.wrong(other, token);
                found.push({ do: 'set', part, position: verb });
            } else {
                if (here?.$type !== 'Ref' && !OPENING_WORDS.includes(opening)) return this.noOpening(verb, part, opening, here);
                found.push({ do: verb === 'open' ? 'open' : 'close', part, opening });
            }
            last = part;
        } while (this.goesOn());
        return found;
    }

    /** What to write for something that is not opened and shut as a valve is. */
    private isNoValve(ref: Ref, verb: 'open' | 'shut'): string | undefined {
        const node = ref.to.ref;
        const name = ref.to.$refText;
        switch (node?.$type) {
            case 'BleedPoint': return `A bleed point is opened, bled and closed in one step: write \`bleed ${name} by PR1\`, with the pump of your boat. To ${verb} it alone, name its part too: \`${verb} F1 ${name}\`.`;
            case 'Selector': case 'Changeover': return `${name} is turned to a position: write \`turn ${name} to\` and the position.`;
            case 'Consumer': case 'Part': {
                if (node.$type === 'Part' && node.kind === 'shutoff') return undefined;
                const own = this.openingsOf(this.context.idOf(name));
                return own.length === 0 ? undefined : `What of ${name}? It has ${listed(own.map((opening) => `\`${opening}\``), 'and')}: write \`${verb} ${name} ${own[0]}\`.`;
            }
            default: return undefined;
        }
    }

    private noOpening(verb: string, part: Id, words: string, here: AnyToken | undefined): undefined {
        if (words === 'seacock') return this.wrong(`A seacock is set: write \`set ${part} seacock ${verb}\`.`, here);
        const own = this.openingsOf(part);
        const meant = Object.hasOwn(OTHER_OPENINGS, words) ? OTHER_OPENINGS[words] : nearest(words, OPENING_WORDS);
        const has = own.length === 0 ? '' : ` ${part} has ${listed(own.map((opening) => `\`${opening}\``), 'and')}.`;
        return this.wrong(`\`${words}\` is nothing that is opened or shut.${has}${meant !== undefined && own.includes(meant) ? ` Did you mean \`${verb} ${part} ${meant}\`?` : ' Write remarks as `note "..."`.'}`, here);
    }

    /** `prove V1 by draining F1 ...` shows that valves hold; `prove LP1 at BS2 ...` that a pump draws. */
    private provesValves(): boolean {
        for (let ahead = 1; ; ahead++) {
            const token = this.cursor.peek(ahead);
            if (token?.$type === 'Word' && token.text === 'by') return true;
            if (token?.$type !== 'Ref' && token?.$type !== 'Comma' && wordOf(token) !== 'and') return false;
        }
    }

    private hold(): Steps {
        const { cursor } = this;
        const valves = this.parts();
        const draining = cursor.words('by draining');
        if (valves.length === 0 || (!draining && !cursor.words('by opening'))) return undefined;
        const part = this.part();
        if (part === undefined) return undefined;
        const at = cursor.peek();
        const vent = draining ? undefined : cursor.ref();
        const opening = draining ? 'drain' : vent?.to.$refText ?? cursor.wordsUntil(UNTIL);
        if (!draining && !vent && !OPENING_WORDS.includes(opening)) return this.noOpening('open', part, opening, at);
        cursor.words('until the stream dies');
        if (!cursor.words('within')) return this.wrong('Within what time must the stream die? Write `until the stream dies within 10 s`.', cursor.peek() ?? at);
        const within = this.quantity('time', 'within 10 s');
        return within === undefined ? undefined : [{ do: 'hold', valves, part, opening, within }];
    }

    private switched(): Steps {
        const { cursor } = this;
        const at = cursor.peek();
        const of = this.part();
        const thing = (Object.keys(SWITCHES) as SwitchStep['thing'][]).find((words) => cursor.words(words));
        if (thing === undefined || (of !== undefined) !== (thing === 'seacock')) {
            const node = at?.$type === 'Ref' ? at.to?.ref : undefined;
            const to = wordOf(cursor.peek());
            if (node?.$type === 'Selector' || node?.$type === 'Changeover') return this.wrong(`${of} is turned: write \`turn ${of} to\` and the position.`, at);
            if (of !== undefined && (to === 'open' || to === 'shut')) return this.wrong(`A valve is opened or shut without \`set\`: write \`${to} ${of}\`.`, at);
            if (thing === 'seacock') return this.wrong('Whose seacock? Write `set E1 seacock open`.', at);
            return this.wrong(`What is set is the ${listed(Object.keys(SWITCHES).slice(0, 2).map((words) => `\`${words}\``), 'or')}, or a \`seacock\`: \`set bilge pump off\`, \`set E1 seacock open\`.`, at);
        }
        const here = cursor.peek() ?? at;
        const to = SWITCHES[thing].find((word) => cursor.words(word));
        if (to === undefined) return this.wrong(`The ${thing} is set to ${listed(SWITCHES[thing].map((word) => `\`${word}\``), 'or')}.`, here);
        return [{ do: 'switch', thing, ...optional('of', of), to }];
    }

    private place(): Steps {
        const { cursor } = this;
        const number = cursor.peek();
        const text = cursor.measure();
        if (cursor.words('pads') || cursor.words('pad')) {
            if (text !== undefined && !/^\d+$/.test(text)) return this.wrong('How many pads? Write a whole number, like `place 4 pads under F1`.', number);
            return this.under((part) => ({ do: 'place', thing: 'pads', part, ...(text !== undefined && { count: Number(text) }) }));
        }
        if (text !== undefined || !cursor.words('can')) return this.wrong('What is placed is a can or pads: `place can 2 L under F1`, `place 4 pads under F1`.', number);
        const holds = cursor.peek()?.$type === 'Measure' ? this.quantity('volume', 'place can 2 L under F1') : undefined;
        return this.under((part) => ({ do: 'place', thing: 'can', part, ...optional('holds', holds) }));
    }

    private under(of: (part: Id) => ServiceStep): Steps {
        if (!this.cursor.words('under')) return this.wrong('Under what? Write `place can 2 L under F1`.');
        return this.each(of);
    }

    /** `remove F1 element, lid ring, F2 element`: what follows a comma is a piece of the same part, unless it begins with another. */
    private pieces(verb: 'remove' | 'fit' | 'refit'): Steps {
        const found: (PieceStep & { pieces: string[] })[] = [];
        do {
            const part = this.part();
            const piece = this.piece();
            if (part === undefined && (found.length === 0 || piece === '')) return undefined;
            if (part !== undefined) found.push({ do: verb === 'remove' ? 'remove' : 'fit', part, pieces: [], ...(verb === 'refit' && { again: true as const }) });
            if (piece !== '') found.at(-1)!.pieces.push(piece);
        } while (this.goesOn());
        return found;
    }

    private look(): Steps {
        const { cursor } = this;
        const steps: LookStep[] = [];
        do {
            const part = this.part();
            const vent = cursor.ref()?.to.$refText;
            const piece = [vent ?? '', this.piece()].filter((word) => word !== '').join(' ');
            if (part === undefined && piece === '') return undefined;
            steps.push({ do: 'look', ...optional('part', part), piece });
        } while (this.goesOn());
        const words = cursor.quoted();
        return words === undefined ? steps : steps.map((step) => ({ ...step, words }));
    }

    private sequence(): Steps {
        const { cursor } = this;
        const engine = cursor.words('bleed') ? this.part() : undefined;
        if (engine === undefined) return undefined;
        let found: SequenceStep = { do: 'sequence', engine, opened: [], prefilled: [] };
        while (!cursor.done) {
            if (cursor.words('after opening')) found = { ...found, opened: this.parts() };
            else if (cursor.words('after running dry')) found = { ...found, ranDry: true };
            else if (cursor.words('prefilled')) found = { ...found, prefilled: this.parts() };
            else break;
        }
        return [found];
    }

    private run(): Steps {
        const { cursor } = this;
        const part = this.part();
        if (part === undefined) return undefined;
        let step: RunStep = { do: 'run', part };
        while (!cursor.done) {
            if (cursor.words('at')) step = { ...step, ...optional('speed', this.quantity('rotation', `run ${part} at 1300 rpm`)) };
            else if (cursor.words('for')) step = { ...step, ...optional('seconds', this.quantity('time', `run ${part} for 5 min`)) };
            else if (cursor.words('in gear')) step = { ...step, inGear: true };
            else if (cursor.words('until')) {
                const tank = this.part();
                if (tank === undefined || !cursor.words('holds')) return this.wrong(`Until what? Write \`run ${part} until T2 holds 100 L\`.`);
                const holds = this.quantity('volume', `until ${tank} holds 100 L`);
                if (holds !== undefined) step = { ...step, until: { tank, holds } };
            } else break;
        }
        return [step];
    }

    private gauge(): Steps {
        const { cursor } = this;
        const gauge = this.part();
        if (gauge === undefined) return undefined;
        const at = cursor.peek();
        const expect = cursor.words('expect') ? rangeOf(cursor, 'pressure') : undefined;
        if (wordOf(at) === 'expect' && expect === undefined) return this.wrong(`A pressure belongs here, like \`read ${gauge} expect 0.4 to 1.4 inHg\`.`, at);
        const [low, high] = [expect?.low ?? expect?.si ?? 0, expect?.high ?? expect?.si ?? 0];
        // Nobody writes the sign of a vacuum. Nought has none.
        const vacuum = low >= 0 && this.context.facts.get(gauge)?.has('vacuum') === true;
        const speed = cursor.words('at') ? this.quantity('rotation', `read ${gauge} at 2400 rpm`) : undefined;
        return [{ do: 'read', gauge, ...(expect && { expect: vacuum ? { low: 0 - high, high: 0 - low } : { low, high } }), ...optional('speed', speed) }];
    }

    private log(): Steps {
        const { cursor } = this;
        const jobs = [];
        do {
            const token = cursor.peek();
            const verb = PROCEDURE_VERBS.find((words) => cursor.words(words));
            if (verb === undefined) return this.wrong(`\`log\` is followed by the job as it stands in the head: \`log renew F1 element\`.`, token ?? cursor.peek());
            jobs.push(...readJobs(this.context, cursor, verb, 'procedure').map(({ job }) => job));
        } while (this.goesOn());
        return [{ do: 'log', jobs }];
    }

    private cautions(): Steps {
        const { cursor } = this;
        const found: CautionStep[] = [];
        do {
            const token = cursor.peek();
            const word = cursor.word();
            const topic = TOPICS.find((known) => known === word);
            if (topic === undefined) {
                const meant = word === undefined ? undefined : nearest(word, TOPICS);
                return this.wrong(`${word === undefined ? 'Of what is warned here?' : `\`${word}\` is nothing that Orlop warns of.`} ${meant === undefined ? `It is one of ${listed(TOPICS.map((known) => `\`${known}\``), 'or')}` : `Did you mean \`${meant}\``}${meant === undefined ? '.' : '?'}`, token);
            }
            const part = topic === 'flood' ? this.part() : undefined;
            found.push({ do: 'caution', topic, ...optional('part', part) });
        } while (this.goesOn());
        const quoted = cursor.peek();
        if (quoted?.$type !== 'Quoted') return found;
        cursor.take();
        const said = SIGNALS.exec(unquote(quoted.text));
        const own = { ...(said && { signal: said[1] as NonNullable<CautionStep['signal']> }), text: said ? said[2]! : unquote(quoted.text) };
        return found.map((step) => ({ ...step, ...own }));
    }
}

const AND = new Set(['and']);
const UNTIL = new Set(['until', 'within']);
/** What people also say for an opening. */
const OTHER_OPENINGS: Readonly<Record<string, string>> = { cover: 'lid', top: 'lid', cap: 'lid', bowl: 'lid', body: 'ports', plug: 'drain', 'drain plug': 'drain', 'drain cock': 'drain', tap: 'drain', union: 'joint', connection: 'joint', fitting: 'joint' };
const wordOf = (token: AnyToken | undefined): string => (token?.$type === 'Word' ? token.text : '');
