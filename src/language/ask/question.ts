/**
 * A question in the words of the language: `open F1 lid at 50 % heel 10 port`. First what is asked, then the state of the boat in which it
 * is asked, in any order. Read with the lexer of the language, so that names, quantities and units are spelt alike.
 */
import { EmptyFileSystem } from 'langium';
import type { Boat, Id } from '../../model/boat';
import type { Circumstances, Level, Question } from '../../documents/answers/question';
import { figure } from '../../documents/figures';
import { fromSI, toSI, UNITS } from '../../model/units';
import { listed } from '../../model/words';
import { lineUpsOf } from '../../analysis/topology/line-ups';
import { openingsOf } from '../../analysis/opening/openings';
import { MOST } from '../../analysis/opening/thresholds';
import { grossOf } from '../../analysis/tanks/liquid';
import { nearest } from '../vocabulary';
import type { OrlopLexer } from '../lexer';
import { splitQuantity } from '../quantity';
import { createOrlopServices } from '../services';

/** What can be asked, with an example of each; the help, the messages and the reference print it. */
export const QUESTIONS: Readonly<Record<Question['ask'], { readonly example: string; readonly doc: string }>> = {
    isolate: { example: 'isolate F1', doc: 'the fewest valves to shut so that no liquid can come to a part that is opened' },
    open: { example: 'open F1 lid at 50 % heel 10 port', doc: 'whether it floods or falls back, how much comes, and from which level and heel' },
    air: { example: 'air after F1, F2', doc: 'what holds air after parts were opened, or after `running dry`, and where it may stay' },
    paths: { example: 'paths to E1', doc: 'the ways from the tanks to a consumer, or back from it, and the parts without which it stops' },
    reach: { example: 'reach', doc: 'the least that each tank must hold for its pickups to stay in the liquid, on both tacks' },
    severed: { example: 'severed S1', doc: 'what is lost if a line is cut, stopped and running, and what stops it' },
    sounding: { example: 'sounding T1', doc: 'litres by the dip, upright and heeled' },
    flow: { example: 'flow to E1 at 2400 rpm', doc: 'what flows, how fast and at which pressure, running and stopped; `flow` alone for all' },
    gauge: { example: 'gauge G1 at 2400 rpm at 50 %', doc: 'what a gauge should read with new elements and with old ones' },
    suction: { example: 'suction E1', doc: 'what a pump draws against, part by part, its limit, and what wider pipes would buy' },
    'back-pressure': { example: 'back-pressure E1', doc: 'what a return pushes against, over which crest, and its limit' },
    starve: { example: 'starve heel 20 port', doc: 'which engine or other consumer loses its fuel first, at which level, and why' },
    endurance: { example: 'endurance at 2400 rpm at 50 %', doc: 'the hours and miles that the fuel lasts, down to the reserve' },
    overflow: { example: 'overflow at 80 %', doc: 'where fuel goes in a line-up, when a tank is full and when a pickup stands dry' },
};

/** What is wrong with a question, in words. */
export class NotUnderstood extends Error {}

interface Token {
    readonly text: string;
    readonly type: string;
}

export class Reader {
    private at = 0;
    constructor(private readonly tokens: readonly Token[], private readonly boat: Boat) {}

    get done(): boolean { return this.at >= this.tokens.length; }
    peek(): Token | undefined { return this.tokens[this.at]; }
    take(): Token | undefined { return this.tokens[this.at++]; }
    word(...words: string[]): boolean {
        const [before, all] = [this.at, words.every((word) => this.take()?.text === word)];
        if (!all) this.at = before;
        return all;
    }

    /** The id of a tag on the boat, of one of these kinds of thing. */
    name(what: string, among: readonly Id[]): Id {
        const token = this.take();
        if (!token) throw new NotUnderstood(`Which ${what}? ${some(among, 'Name one of')}`);
        const ids = (this.boat.tags.get(token.text) ?? []).filter((id) => among.includes(id));
        if (ids.length > 1) throw new NotUnderstood(`${token.text} is the tag of two things. Give one of them another.`);
        if (ids.length === 1) return ids[0]!;
        if (among.includes(token.text)) return token.text;
        const near = nearest(token.text, among);
        const taken = (this.boat.tags.get(token.text) ?? []).length > 0;
        throw new NotUnderstood(`${taken ? `${token.text} is no ${what}.` : `There is no ${what} called ${token.text}.`} ${near === undefined ? some(among, 'There is') : `Did you mean ${near}?`}`);
    }

    quantity(dimensions: readonly string[], examples: readonly string[], bare?: string): { si: number; dimension: string } {
        const token = this.take();
        const { numbers, unit } = token?.type === 'MEASURE' ? splitQuantity(token.text) : { numbers: [], unit: undefined };
        const symbol = unit ?? bare;
        const found = symbol === undefined ? undefined : UNITS[symbol];
        if (numbers.length !== 1 || !found || !dimensions.includes(found.dimension)) throw new NotUnderstood(`${token ? `\`${token.text}\` is not understood here` : 'Something is missing at the end'}. Write it like ${listed(examples.map((example) => `\`${example}\``), 'or')}.`);
        return { si: toSI(numbers[0]!, symbol!), dimension: found.dimension };
    }
}

/** Reads a question about a boat; throws NotUnderstood, never anything else. */
export function readQuestion(words: string, boat: Boat): { question: Question; circumstances: Circumstances } {
    const reader = readerOf(words, boat);
    return { question: readWhat(reader, boat), circumstances: readCircumstances(reader, boat) };
}

/** How she is today: `T1 110 L heel 4 port`. */
export const readToday = (words: string, boat: Boat): Circumstances => readCircumstances(readerOf(words, boat), boat);

/** A level alone, a share of the gross volume: `60 %`. */
export function readLevel(words: string, boat: Boat): number {
    const reader = readerOf(words, boat);
    const { si } = reader.quantity(['ratio'], ['60 %']);
    if (!(si >= 0 && si <= 1)) throw new NotUnderstood(`\`${words}\` is no level: it is between 0 and 100 %.`);
    return ended(reader, si, '60 %');
}

/** How she leans, alone: `15 port`; rad, positive with the starboard side down. */
export function readHeel(words: string, boat: Boat): number {
    const reader = readerOf(words, boat);
    if (reader.word('upright')) return ended(reader, 0, 'upright');
    const si = angle(reader, '15 port');
    return ended(reader, si * side(reader, ['port'], ['stbd', 'starboard'], '15 port'), '15 port');
}

function ended<T>(reader: Reader, found: T, example: string): T {
    const more = reader.peek();
    if (more) throw new NotUnderstood(`\`${more.text}\` is not understood here. Write it like \`${example}\`.`);
    return found;
}

export function readerOf(words: string, boat: Boat): Reader {
    const { tokens } = lexer().asWritten(words);
    return new Reader(tokens.filter(({ tokenType }) => tokenType.name !== 'NL').map(({ image, tokenType }) => ({ text: image, type: tokenType.name })), boat);
}

function readWhat(reader: Reader, boat: Boat): Question {
    const parts = [...boat.parts, ...boat.consumers].map(({ id }) => id);
    const consumers = boat.consumers.map(({ id }) => id);
    const first = reader.take();
    switch (first?.text) {
        case 'isolate': case 'open': {
            const [owner, point] = [ownerOfPoint(boat, reader.peek()?.text), reader.peek()?.text];
            if (owner !== undefined) throw new NotUnderstood(`${point} is a bleed point on ${owner}. Ask \`${first.text} ${owner} ${point}\`.`);
            const part = reader.name('part', parts);
            const opening = readOpening(reader, boat, part);
            return { ask: first.text, part, ...(opening !== undefined && { opening }) };
        }
        case 'air': {
            if (!reader.word('after')) throw new NotUnderstood('Air after what? Write `air after F1, F2` or `air after running dry`.');
            if (reader.word('running', 'dry')) return { ask: 'air', after: [] };
            const after = [reader.name('part', parts)];
            while (reader.word(',') || reader.word('and')) after.push(reader.name('part', parts));
            return { ask: 'air', after };
        }
        case 'paths': {
            const way = reader.take()?.text;
            if (way !== 'to' && way !== 'from') throw new NotUnderstood(`Write \`paths to ${consumers[0] ?? 'E1'}\` for its supply, \`paths from ${consumers[0] ?? 'E1'}\` for its return.`);
            return { ask: 'paths', way, consumer: reader.name('engine or other consumer', consumers) };
        }
        case 'reach': return { ask: 'reach' };
        case 'severed': return { ask: 'severed', line: reader.name('hose or tube', boat.parts.filter(({ kind }) => kind === 'hose' || kind === 'tube').map(({ id }) => id)) };
        case 'sounding': return { ask: 'sounding', tank: reader.name('tank', boat.tanks.map(({ id }) => id)) };
        case 'flow': {
            const way = reader.word('to') ? 'to' : reader.word('from') ? 'from' : undefined;
            if (way !== undefined) { const consumer = reader.name('engine or other consumer', consumers); return { ask: 'flow', way: way === 'to' ? { to: consumer } : { from: consumer } }; }
            const next = reader.peek();
            return next && !isCircumstance(next, boat) ? { ask: 'flow', part: reader.name('part', parts) } : { ask: 'flow' };
        }
        case 'gauge': return { ask: 'gauge', gauge: reader.name('gauge', boat.parts.filter(({ kind }) => kind === 'gauge').map(({ id }) => id)) };
        case 'suction': case 'back-pressure': return { ask: first.text, consumer: reader.name('engine or other consumer', consumers) };
        case 'starve': case 'endurance': case 'overflow': return { ask: first.text };
        default: throw new NotUnderstood(`${first === undefined ? 'What do you ask?' : `\`${first.text}\` begins no question.`} You can ask:\n${Object.values(QUESTIONS).map(({ example, doc }) => `  ${example.padEnd(36)}${doc}`).join('\n')}`);
    }
}

/** The part that a bleed point stands on, when the word names one. */
const ownerOfPoint = (boat: Boat, name: string | undefined): Id | undefined => [...boat.parts, ...boat.consumers].find(({ vents }) => vents.some(({ tag }) => tag === name))?.id;

/** The opening of a part, when one is named: lid, drain, ports, joint, or a bleed point. */
function readOpening(reader: Reader, boat: Boat, part: Id): string | undefined {
    const names = (openingsOf(boat).get(part) ?? []).map(({ name }) => name);
    const next = reader.peek();
    if (!next || isCircumstance(next, boat)) return undefined;
    if (names.includes(next.text)) { reader.take(); return next.text; }
    throw new NotUnderstood(`${part} has no ${next.text} to open. It has ${listed(names)}.`);
}

const CIRCUMSTANCES = ['at', 'heel', 'trim', 'upright', 'in', 'with', 'and', 'clean', 'dirty'];
const isCircumstance = ({ text, type }: Token, boat: Boat): boolean => CIRCUMSTANCES.includes(text) || type === 'COMMA' || text === ',' || boat.tanks.some(({ id }) => id === text);

function readCircumstances(reader: Reader, boat: Boat): Circumstances {
    let found: Circumstances = { levels: new Map() };
    while (!reader.done) {
        if (reader.word(',') || reader.word('with') || reader.word('and')) continue;
        if (reader.word('upright')) { found = { ...found, heel: 0, trim: found.trim ?? 0 }; continue; }
        if (reader.word('clean')) { found = { ...found, elements: 'clean' }; continue; }
        if (reader.word('dirty')) { found = { ...found, elements: 'dirty' }; continue; }
        if (reader.word('at')) found = { ...found, ...levelOrSpeed(reader) }; else if (reader.word('heel')) {
            const si = angle(reader, 'heel 10 deg port');
            found = { ...found, heel: si * side(reader, ['port'], ['stbd', 'starboard'], 'heel 10 deg port') };
        } else if (reader.word('trim')) {
            const si = angle(reader, 'trim 3 deg bow down');
            reader.word('bow');
            found = { ...found, trim: si * side(reader, ['down'], ['up'], 'trim 3 deg bow down') };
        } else if (reader.word('in')) found = { ...found, lineUp: reader.name('line-up', lineUpsOf(boat).map(({ id }) => id)) };
        else {
            const tanks = boat.tanks.map(({ id }) => id);
            const next = reader.peek()!;
            if (!tanks.includes(next.text)) throw new NotUnderstood(`\`${next.text}\` is not understood here. After what you ask may stand a level (\`at 50 %\`, \`T1 at 100 L\`), a speed (\`at 2400 rpm\`), \`clean\` or \`dirty\` elements, \`heel 10 deg port\`, \`trim 3 deg bow down\`, \`upright\`, and a line-up (\`in RUN\`).`);
            const tank = reader.name('tank', tanks);
            reader.word('at');
            found = { ...found, levels: new Map([...found.levels, [tank, levelOf(reader)]]) };
        }
    }
    for (const tank of boat.tanks) {
        const [level, gross] = [found.levels.get(tank.id) ?? found.level, grossOf(tank)];
        if (level && 'volume' in level && gross !== undefined && level.volume > gross * (1 + 1e-9)) throw new NotUnderstood(`${tank.id} holds no more than ${figure(gross * 1e3, 4)} L.`);
    }
    return found;
}

/** rev/s: no engine of a boat turns faster. */
const FASTEST = toSI(10_000, 'rpm');

function levelOrSpeed(reader: Reader): Pick<Circumstances, 'level' | 'speed'> {
    const found = reader.quantity(['ratio', 'volume', 'rotation'], ['50 %', '2400 rpm']);
    if (found.dimension !== 'rotation') return { level: checkedLevel(found) };
    if (!(found.si > 0 && found.si <= FASTEST)) throw new NotUnderstood('A running engine turns faster than 0 and no faster than 10000 rpm. What is so while it stands still, `flow` tells beside it.');
    return { speed: found.si };
}

const levelOf = (reader: Reader): Level => checkedLevel(reader.quantity(['ratio', 'volume'], ['50 %']));

function checkedLevel({ si, dimension }: { readonly si: number; readonly dimension: string }): Level {
    if (si < 0 || (dimension === 'ratio' && si > 1)) throw new NotUnderstood('A level is between 0 and 100 %.');
    return dimension === 'ratio' ? { share: si } : { volume: si };
}

function angle(reader: Reader, example: string): number {
    const { si } = reader.quantity(['angle'], [example], 'deg');
    if (!(si >= 0 && si <= MOST + 1e-9)) throw new NotUnderstood(`An angle is between 0 and ${Math.round(fromSI(MOST, 'deg'))} degrees, and the side stands behind it: \`${example}\`.`);
    return si;
}

/** Port and bow down are negative. */
function side(reader: Reader, negative: readonly string[], positive: readonly string[], example: string): 1 | -1 {
    if (negative.some((word) => reader.word(word))) return -1;
    if (positive.some((word) => reader.word(word))) return 1;
    throw new NotUnderstood(`To which side? Write it like \`${example}\`.`);
}

/** What has no tag cannot be named. */
function some(ids: readonly Id[], before: string): string {
    const tags = ids.filter((id) => !/[/~]/.test(id));
    if (tags.length === 0) return ids.length === 0 ? 'There is none on this boat.' : 'None on this boat has a tag: write one behind its kind, like `hose S1`.';
    return `${before} ${tags.length > 12 ? `${tags.slice(0, 12).join(', ')} and others` : listed(tags, 'or')}.`;
}

let services: ReturnType<typeof createOrlopServices> | undefined;
const lexer = (): OrlopLexer => (services ??= createOrlopServices(EmptyFileSystem)).Orlop.parser.Lexer as OrlopLexer;
