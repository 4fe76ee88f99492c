/** What can be said of a drawing: read, refused in words, and offered. */
import { describe, expect, test } from 'vitest';
import { NotUnderstood } from '../../src/language/ask/question';
import { readShow, SHOWS, showsFor } from '../../src/language/ask/show';
import { loadBoat } from '../../src/language/load';
import { boatOf, EXAMPLES } from '../documents/drawing/markups/shown';

const ottilwake = await boatOf('ottilwake');

test.each([
    ['line-up', { show: 'line-up' }], ['findings', { show: 'findings' }], ['changes', { show: 'changes' }],
    // 2400 rpm are 40 turns a second.
    ['pressure at 2400 rpm', { show: 'pressure', speed: 40 }], ['pressure running at 2400 rpm', { show: 'pressure', speed: 40 }], ['pressure', { show: 'pressure', speed: 'full' }],
    ['pressure running', { show: 'pressure', speed: 'full' }], ['  pressure   stopped ', { show: 'pressure', speed: 'stopped' }],
    ['isolate F1', { show: 'isolate', part: 'F1' }], ['bleed E1 opened F1', { show: 'bleed', engine: 'E1', opened: ['F1'] }], ['bleed E1 after opening F1, F2', { show: 'bleed', engine: 'E1', opened: ['F1', 'F2'] }],
    ['bleed E1 opened F1 and F2', { show: 'bleed', engine: 'E1', opened: ['F1', 'F2'] }], ['bleed E1 ran dry', { show: 'bleed', engine: 'E1', opened: [], ranDry: true }], ['bleed E1 after running dry', { show: 'bleed', engine: 'E1', opened: [], ranDry: true }],
    ['step 7 of renew F1 element', { show: 'step', step: 7, of: { jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }] } }],
    ['step 1 of renew F1 element, F2 element', { show: 'step', step: 1, of: { jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'renew', part: 'F2', piece: 'element' }] } }],
])('`%s`', (words, expected) => expect(readShow(words, ottilwake)).toMatchObject(expected));

const told = (words: string): string => { try { return JSON.stringify(readShow(words, ottilwake)); } catch (error) { if (error instanceof NotUnderstood) return error.message; throw error; } };

test.each([
    ['', 'What is to be shown? You can say:'], ['isolat F1', '`isolat` is nothing that can be shown. Did you mean `isolate`?'], ['isolate F9', 'There is no part called F9.'], ['isolate', 'Which part?'],
    ['isolate T1', 'T1 is no part.'], ['isolate F1 lid', '`lid` is not understood in `isolate F1 lid`. It is said like `isolate F1`.'], ['line-up RUN', '`RUN` is not understood in `line-up RUN`.'],
    ['pressure at 50 %', '`50 %` is not understood here. Write it like `pressure at 2400 rpm` or `pressure stopped`.'], ['pressure at 0 rpm', '`pressure stopped` shows'], ['pressure at', 'Something is missing at the end.'],
    ['bleed E1', 'Bleed E1 after what? Write `bleed E1 opened F1, F2` or `bleed E1 ran dry`.'], ['bleed F1', 'F1 is no engine or other consumer.'], ['bleed E1 opened', 'Which part?'],
    ['step', 'Which step of what? Write it like `step 7 of renew F1 element`'], ['step 0 of renew F1 element', 'steps are numbered from 1'], ['step two of renew F1 element', 'Which step of what?'], ['step 7', 'Which step of what?'],
    ['step 7 of renew F9 element', 'There is no F9 on this boat.'], ['step 7 of reneww F1 element', 'Did you mean `renew F1 element`?'],
])('`%s` is answered in words', (words, expected) => expect(told(words)).toContain(expected));

test('whatever is written, it is understood or answered in words', () => {
    const signs = ['line-up', 'pressure', 'bleed', 'isolate', 'step', 'of', 'at', '7', '2400 rpm', '-1', '1e9 rpm', 'E1', 'F1', 'BS1', 'T1.P1', 'opened', ',', '"', '\\', '{', '}', '--', '\n', '\u0000', 'ß', '💧', 'constructor', '__proto__', 'renew', 'ran', 'dry', 'stopped'];
    let seed = 1;
    const lot = (): number => { seed = (seed * 48271) % 2147483647; return seed; };
    for (let turn = 0; turn < 3000; turn++) expect(typeof told(Array.from({ length: 1 + (lot() % 6) }, () => signs[lot() % signs.length]!).join(lot() % 3 === 0 ? '' : ' '))).toBe('string');
});

describe.each(EXAMPLES)('%s', async (name) => {
    const boat = await boatOf(name);
    const choices = showsFor(boat);
    test('all that is offered can be said, once, and in one line', () => {
        for (const { show, title } of choices) {
            expect(() => readShow(show, boat), show).not.toThrow();
            expect(show + title).not.toMatch(/\n/);
            expect(title).not.toBe('');
        }
        expect(new Set(choices.map(({ show }) => show)).size).toBe(choices.length);
    });
    test('each filter can be cut off, each job of an interval has its procedure', () => {
        const said = choices.map(({ show }) => show);
        for (const { id } of boat.parts.filter(({ kind }) => kind === 'filter')) expect(said).toContain(`isolate ${id}`);
        for (const { job } of boat.intervals) if (job.part !== undefined) expect(said).toContain(`step 1 of ${[job.verb, job.part, job.piece].filter((word) => word !== '').join(' ')}`);
    });
});

test('Ottilwake: all that there is', () => expect(showsFor(ottilwake).map(({ show }) => show)).toEqual([
    // From her text: one speed in her table, two filters on the lines of one engine, two jobs in `tend`, no survey.
    'line-up', 'pressure at 2400 rpm', 'pressure', 'pressure stopped', 'findings', 'isolate F1', 'isolate F2', 'bleed E1 opened F1', 'bleed E1 opened F2', 'bleed E1 ran dry', 'step 1 of renew F1 element', 'step 1 of renew F2 element',
]));

test('what has no tag, or shares it, is not offered; what somebody wrote without a job is, by its title', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Untagged\ntank T1 { pickup P1 vent }\nengine E1\nsupply course Feed from T1.P1 to E1 { shutoff V1   filter   hose   filter F1 }\nsurvey Spring {\n}\nprocedure "Her own" { shut V1 }\ntend { renew hoses every 60 months }\n' });
    expect(showsFor(boat).map(({ show }) => show)).toEqual(['line-up', 'pressure', 'pressure stopped', 'findings', 'changes', 'isolate F1', 'bleed E1 opened F1', 'bleed E1 ran dry', 'step 1 of "Her own"']);
});

test('each example in the help is a show', () => { for (const { example } of Object.values(SHOWS)) expect(told(example)).toMatch(/^\{/); });
