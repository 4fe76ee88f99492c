/** `orlop ask`: every kind of question on every example, by the published schema; what is not understood; and questions drawn by lot. */
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { URI } from 'langium';
import { describe, expect, test } from 'vitest';
import { openingsOf } from '../../src/analysis/opening/openings';
import { answerData, answerPage, answerText } from '../../src/documents/answers/answer';
import { answer } from '../../src/documents/answers/answers';
import { ANSWER_SCHEMA } from '../../src/documents/answers/schema';
import { NotUnderstood, QUESTIONS, readQuestion } from '../../src/language/ask/question';
import { quoter } from '../../src/language/ask/quoter';
import { loadBoat } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';
import { lots } from '../oracle/random-boats';

const CLI = fileURLToPath(new URL('../../out/orlop.cjs', import.meta.url));
const folder = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
const EXAMPLES = readdirSync(folder('.')).sort();
const orlop = (...args: readonly string[]): { status: number | null; stdout: string; stderr: string } => spawnSync(process.execPath, [CLI, ...args], { encoding: 'utf8', maxBuffer: 1 << 26 });

function textsOf(name: string): Record<string, string> {
    return Object.fromEntries(readdirSync(folder(name)).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(`${folder(name)}/${file}`, 'utf8')]));
}
const boatOf = async (name: string): Promise<Boat> => (await loadBoat(textsOf(name))).boat;
const tagged = (ids: readonly string[]): string[] => ids.filter((id) => !/[/~]/.test(id));

/** One of each kind, with what is first on the boat. */
function oneOfEach(boat: Boat): Record<keyof typeof QUESTIONS, string[]> {
    const filter = tagged(boat.parts.filter(({ kind }) => kind === 'filter').map(({ id }) => id))[0]!;
    const hose = tagged(boat.parts.filter(({ kind, course }) => kind === 'hose' && boat.courses.some(({ id, service }) => id === course && service === 'supply')).map(({ id }) => id))[0]!;
    const gauge = tagged(boat.parts.filter(({ kind }) => kind === 'gauge').map(({ id }) => id))[0];
    const [tank, engine] = [boat.tanks[0]!.id, boat.consumers[0]!.id];
    return {
        isolate: [`isolate ${filter}`], open: [`open ${filter} at 50 % heel 10 port`, `open ${filter}`], air: [`air after ${filter}`, 'air after running dry'], paths: [`paths to ${engine}`, `paths from ${engine}`],
        reach: ['reach'], severed: [`severed ${hose}`], sounding: [`sounding ${tank}`],
        flow: ['flow', `flow ${filter}`, `flow to ${engine} at 2000 rpm clean`, `flow from ${engine}`], gauge: gauge === undefined ? [] : [`gauge ${gauge} at 2400 rpm at 50 %`, `gauge ${gauge}`],
        suction: [`suction ${engine}`], 'back-pressure': [`back-pressure ${engine}`], starve: ['starve', 'starve heel 10 port'], endurance: ['endurance', 'endurance at 2000 rpm at 50 %'], overflow: ['overflow'],
    };
}

const valid = new Ajv2020({ strict: true, allErrors: true }).compile(ANSWER_SCHEMA as object);
const faults = (data: unknown): unknown[] => (valid(data) ? [] : valid.errors!.map(({ instancePath, message }) => `${instancePath} ${message}`));

test('`orlop schema` prints the schema, and the schema turns away what is no answer', () => {
    const { status, stdout } = orlop('schema');
    expect([status, JSON.parse(stdout)]).toEqual([0, ANSWER_SCHEMA]);
    expect(faults({ ask: 'reach' })).not.toEqual([]);
    expect(faults({ ask: 'guess' })).not.toEqual([]);
});

describe.each(EXAMPLES)('%s', (name) => {
    test('every kind of question, JSON by the schema; the first of each kind by the program on the boat that has most', async () => {
        const texts = textsOf(name);
        const loaded = await loadBoat(texts);
        const { boat } = loaded;
        const quoted = quoter(loaded, (uri) => texts[URI.parse(uri).fsPath.slice(1)] ?? '');
        const asked = oneOfEach(boat);
        expect(Object.keys(asked).sort()).toEqual(Object.keys(QUESTIONS).sort());
        for (const [kind, questions] of Object.entries(asked)) for (const [i, question] of questions.entries()) {
            const inside = readQuestion(question, boat);
            let data = answerData(boat, answer(boat, inside.question, inside.circumstances)!, quoted) as { ask: string };
            if (name === 'marrenwake' && i === 0) {
                const { status, stdout, stderr } = orlop('ask', folder(name), '--json', ...question.split(' '));
                expect([question, status, stderr]).toEqual([question, 0, '']);
                expect([question, faults(data)]).toEqual([question, []]);
                data = JSON.parse(stdout) as { ask: string };
            }
            expect([question, data.ask, faults(data)]).toEqual([question, kind, []]);
        }
    }, 180_000);
});

test('every example of the help is understood', async () => {
    const boat = await boatOf('brackenwake');
    for (const { example } of Object.values(QUESTIONS)) expect(() => readQuestion(example, boat)).not.toThrow();
});

test('in words for the terminal, and the same twice', () => {
    const one = orlop('ask', folder('ottilwake'), 'open', 'F1', 'lid', 'at', '50', '%', 'heel', '20', 'port');
    expect(one.status).toBe(0);
    // The sums are in tests/analysis/opening.test.ts. The fuel is up to 45 °C warm, and 2.0 mm²/s at 40 °C are 1.84 there: laminar, v = g h D² / (32 nu L) = 9.80665 x 0.1208
    // x 64e-6 / (32 x 1.84e-6 x 3.275) = 0.393 m/s, 1.19 L a minute; at 0.36 m/s the mouths take 1.5 v² / 2g = 9.9 mm of the 120.8: 1.09.
    expect(one.stdout.replace(/\s+/g, ' ')).toContain('T1 stands 121 mm above it; 60.9 L would come if nobody stopped it, at first up to 1.1 L a minute.');
    expect(one.stdout).toContain('V1 shut');
    expect(orlop('ask', folder('ottilwake'), 'open F1 lid at 50 % heel 20 port').stdout).toBe(one.stdout);
});

test('the answer in the README is the answer', () => {
    const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
    const [, words, told] = /```console\n\$ node out\/orlop\.cjs ask examples\/([^\n]*)\n([^]*?)```/.exec(readme)!;
    const [boat, ...question] = words!.split(' ');
    expect(orlop('ask', folder(boat!), ...question).stdout).toBe(told);
});

test('what was said of the boat and plays no part in an answer is told first', async () => {
    const boat = await boatOf('ottilwake');
    const first = (words: string): unknown => { const { question, circumstances } = readQuestion(words, boat); return answer(boat, question, circumstances)!.body[0]; };
    expect(first('severed S2 at 50 % heel 10 port')).toBe('What you said of level and heel or trim plays no part in this answer.');
    expect(first('reach in SERVICE')).toBe('What you said of line-up plays no part in this answer.');
    for (const words of ['open F1 lid at 50 % heel 10 port in SERVICE', 'reach heel 10 port', 'severed S2 in SERVICE', 'sounding T1 trim 1 bow up']) expect(first(words), words).not.toContain('plays no part');
});

test('JSON of an opening has the state in figures: 20° to port is -20, 50 % of 0.8 x 0.6 x 0.42 m is 100.8 L', async () => {
    const boat = await boatOf('ottilwake');
    const { question, circumstances } = readQuestion('open F1 lid at 50 % heel 20 port trim 2 bow up', boat);
    const { levels, openings } = answer(boat, question, circumstances)!.data as { levels: unknown; openings: { cases: { heel: number; trim: number }[] }[] };
    expect([levels, openings[0]!.cases.map(({ heel, trim }) => [heel, trim])]).toEqual([[{ tank: 'T1', litres: 100.8 }], [[-20, 2]]]);
});

// By hand from the courses of examples/brackenwake/lines.orlop: Back, SV2 and ToPort; FromPort, SV1 and Common.
test('paths are told in the order of flow, a selector where it stands', async () => {
    const boat = await boatOf('brackenwake');
    const parts = (words: string): unknown => { const { question, circumstances } = readQuestion(words, boat); return answer(boat, question, circumstances)!.data['parts']; };
    expect(parts('paths from E1')).toEqual(['R1', 'SV2', 'R2', 'T1.R1']);
    expect(parts('paths to E1')).toEqual(['T1.P1', 'S1', 'SV1', 'S3', 'F1', 'G1', 'S4', 'LP1', 'S5', 'F2', 'S6']);
});

// The widest tables: attitudes with heel and trim in the first column. Only a word alone may be longer than the page.
test('no line is longer than 80 columns', async () => {
    for (const name of EXAMPLES) {
        const boat = await boatOf(name);
        for (const words of [...Object.values(oneOfEach(boat)).flat(), ...boat.lineUps.flatMap(({ id }) => [`flow in ${id}`, `overflow in ${id}`])]) {
            const { question, circumstances } = readQuestion(words, boat);
            for (const line of answerText(boat, answer(boat, question, circumstances)!, () => undefined).split('\n')) expect([name, words, line.length <= 80 ? '' : line]).toEqual([name, words, '']);
        }
    }
});

test('an unknown question ends with 64, an unreadable folder too; nothing on standard output', () => {
    const { status, stdout, stderr } = orlop('ask', folder('ottilwake'), 'open', 'F99');
    expect([status, stdout]).toEqual([64, '']);
    expect(stderr).toContain('F99');
    expect(orlop('ask', folder('nowhere'), 'reach').status).toBe(64);
});

describe('what is not understood', async () => {
    const boat = await boatOf('ottilwake');
    const told = (words: string): string => { try { readQuestion(words, boat); } catch (error) { if (error instanceof NotUnderstood) return error.message; throw error; } return 'understood'; };
    test.each([
        ['', ['What do you ask?', 'isolate F1']], ['flood F1', ['`flood`', 'You can ask']],
        ['open', ['Which part?']], ['open PR11', ['PR11', 'Did you mean PR1?']], ['open T1', ['T1 is no part']], ['open BS1 at 50 %', ['BS1 is a bleed point on F1', '`open F1 BS1`']], ['open F1 nozzle', ['nozzle', 'lid, drain and BS1']],
        ['open F1 heel 10', ['To which side?', 'heel 10 deg port']], ['open F1 trim 3', ['To which side?', 'bow down']],
        ['open F1 heel 95 deg port', ['between 0 and 60 degrees']], ['open F1 heel -5 deg port', ['between 0 and 60 degrees']],
        ['open F1 at 120 %', ['between 0 and 100 %']], ['open F1 at 300 L', ['T1 holds no more than 201.6 L']], ['open F1 at', ['missing at the end', '50 %']], ['open F1 at 3 mm', ['3 mm', '50 %']],
        ['open F1 in NOWHERE', ['NOWHERE', 'RUN']], ['open F1 sideways', ['sideways']], ['open F1 lid sideways', ['`sideways`', 'heel 10 deg port']],
        ['air before F1', ['Air after what?']], ['paths E1', ['paths to E1']], ['paths to E2', ['E2', 'E1']], ['severed F1', ['F1 is no hose or tube']], ['sounding T2', ['T2', 'T1']],
        ['gauge', ['Which gauge?', 'G1']], ['gauge G2', ['There is no gauge called G2', 'G1']], ['gauge F1', ['F1 is no gauge', 'G1']], ['gauge G1 at 2400', ['`2400` is not understood', '`50 %` or `2400 rpm`']], ['gauge G1 at 0 rpm', ['faster than 0']],
        ['gauge G1 at 99999 rpm', ['10000 rpm']], ['gauge G1 at -5 rpm', ['faster than 0']], ['flow T1 at 2400 rpm', ['2400 rpm', '`50 %`']], ['flow to', ['Which engine or other consumer?', 'E1']], ['flow to F1', ['F1 is no engine']],
        ['flow F9', ['no part called F9']], ['suction', ['Which engine or other consumer?', 'E1']], ['suction E2', ['E2', 'E1']], ['back-pressure R', ['R is no engine']], ['starve E1', ['`E1`', 'at 2400 rpm', '`clean`']],
    ])('%s', (words, parts) => { for (const part of parts) expect(told(words)).toContain(part); });
    test.each(['open F1 T1 at 50 %', 'open F1 at 100.8 L heel 10 starboard', 'open F1 lid upright in RUN', 'open F1 BS1', 'sounding T1 heel 5 deg stbd, trim 1 deg bow up', 'flow', 'flow clean at 2400 rpm at 20 %', 'flow from E1 in RUN', 'gauge G1 at 2400 rpm at 50 %', 'suction E1 dirty', 'starve upright'])('%s is understood', (words) => expect(told(words)).toBe('understood'));
    test('starboard is positive, port and bow down are negative; upright is no heel', () => {
        const lies = (words: string): unknown => { const { heel, trim } = readQuestion(`open F1 ${words}`, boat).circumstances; return [heel, trim].map((angle) => angle === undefined ? undefined : Math.round(angle * 180 / Math.PI) + 0); };
        expect([lies('heel 10 starboard'), lies('heel 10 port trim 3 bow down'), lies('upright')]).toEqual([[10, undefined], [-10, -3], [0, 0]]);
    });
});

test('2000 questions drawn by lot: an answer by the schema, or what is not understood', async () => {
    const boats = await Promise.all(EXAMPLES.map(boatOf));
    const lot = lots(20261125);
    const pick = <T>(from: readonly T[]): T => from[Math.floor(lot() * from.length)]!;
    let answered = 0;
    for (let i = 0; i < 2000; i++) {
        const boat = pick(boats);
        const names = [...boat.tags.keys(), ...[...openingsOf(boat).values()].flat().map(({ name }) => name), ...boat.lineUps.map(({ id }) => id)];
        const part = (): string => pick([...boat.parts, ...boat.consumers]).id;
        const state = ['at', 'heel', 'trim', 'in', 'with', 'and', ',', 'bow', 'up', 'down', 'port', 'stbd', 'upright', '50 %', '10 deg', '3 deg', '20 L', '0 %', '100 %', '1e99 L', '-3', '"', '{', 'lid', 'drain', 'running', 'dry', 'after', 'to', 'from', 'clean', 'dirty', '2400 rpm', '0 rpm', '1e99 rpm', '2400'];
        const first = pick(['open', 'isolate', 'air after', 'air after running dry', 'paths to', 'paths from', 'reach', 'severed', 'sounding', 'flow', 'flow to', 'flow from', 'gauge', 'suction', 'back-pressure', 'starve', 'endurance', 'overflow', ...names.slice(0, 2)]);
        const rest = Array.from({ length: Math.floor(lot() * 7) }, () => pick([pick(state), pick(state), pick(names), 'at 50 %', 'at 2400 rpm', 'heel 10 deg port', 'trim 2 deg bow up']));
        const words = [first, ...(lot() < 0.8 ? [lot() < 0.7 ? part() : pick(names)] : []), ...(lot() < 0.5 ? rest : [])].join(' ');
        try {
            const { question, circumstances } = readQuestion(words, boat);
            const found = answer(boat, question, circumstances)!;
            answered++;
            const quoted = (): undefined => undefined;
            const text = answerText(boat, found, quoted) + answerPage(boat, found, quoted);
            expect(text, words).not.toMatch(/undefined|NaN|Infinity|\[object/);
            expect([words, faults(answerData(boat, found, quoted))]).toEqual([words, []]);
        } catch (error) {
            if (!(error instanceof NotUnderstood)) throw new Error(`${words} (on ${boat.name}): ${(error as Error).message}`, { cause: error });
            expect(error.message.length, words).toBeGreaterThan(15);
        }
    }
    expect(answered).toBeGreaterThan(200);
}, 300_000);
