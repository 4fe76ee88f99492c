/** A text that is half typed or has lost a line is answered like any other: no exception, no number that is none, no wait, no place outside the text. */
import { describe, expect, it } from 'vitest';
import { lots } from '../oracle/random-boats';
import { openDesk } from './desk';
import { BOATS, type Texts } from './texts';

/** In each file, drawn by lot besides the ends of its lines. */
const CUTS = 4;
/** Of the lines, and of their ends, one in so many is tried, drawn by lot; all of them with `ORLOP_CUTS=all`. */
const EACH = process.env['ORLOP_CUTS'] === 'all' ? 1 : 2;

describe.each([...BOATS])('%s', (_, sound) => {
    const desk = openDesk();
    let turn = 0;

    /** Types in what is left of the text and has everything written that can be. */
    async function after(what: string, texts: Texts): Promise<string[]> {
        await desk.type(texts);
        await desk.write(turn++);
        return desk.wrong.splice(0).map((wrong) => `${what}: ${wrong}`);
    }

    it('is read as it stands', async () => {
        expect(await after('sound', sound)).toEqual([]);
        expect(desk.known().problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    });

    it(`can be cut short at the end of one line in ${EACH}, and at ${CUTS} places drawn by lot`, async () => {
        const wrong: string[] = [];
        const lot = lots(1);
        for (const [file, text] of Object.entries(sound)) {
            const ends = [...text.matchAll(/\n/g)].map(({ index }) => index).filter(() => lot() * EACH < 1);
            const drawn = Array.from({ length: CUTS }, () => Math.floor(lot() * text.length));
            for (const cut of [...ends, ...drawn]) wrong.push(...await after(`${file} cut at ${cut}`, { ...sound, [file]: text.slice(0, cut) }));
        }
        expect(wrong).toEqual([]);
    }, 240_000);

    it(`can lose any one line; one in ${EACH} is tried`, async () => {
        const wrong: string[] = [];
        const lot = lots(2);
        for (const [file, text] of Object.entries(sound)) {
            const lines = text.split('\n');
            for (const [i, line] of lines.entries()) {
                if (line.trim() === '' || line.startsWith('--') || lot() * EACH >= 1) continue;
                wrong.push(...await after(`${file} without line ${i + 1}`, { ...sound, [file]: [...lines.slice(0, i), ...lines.slice(i + 1)].join('\n') }));
            }
        }
        expect(wrong).toEqual([]);
    }, 240_000);
});

const course = (...lines: readonly string[]): string => `tank T1 { pickup P1\n  drop R1 }\nengine E1 { injection rotary\n  exhaust dry\n  bleed BE1 }\nsupply course Feed from T1.P1 to E1 {\n${lines.map((line) => `  ${line}\n`).join('')}}\nreturn course Back from E1 to T1.R1 { hose }\n`;
const engine = (...lines: readonly string[]): string => course('hose').replace('exhaust dry', lines.join('\n  '));
const log = (line: string): string => `${course('hose')}log 2025 { ${line} }\ntend { renew E1 belt every 250 h }\n`;
const bleed = (line: string): string => `${course('hose')}bleed E1 after running dry {\n  ${line}\n}\n`;

/** The smallest texts found that strike a weak place. */
const WEAK: readonly (readonly [what: string, text: string])[] = [
    ['nothing', ''], ['blank lines', '\n\n'], ['a byte order mark alone', '\ufeff'], ['a nought byte', '\0'], ['half a letter', '\ud83d'],
    ['a kind of part half typed', course('electric')], ['another', course('lift')],
    ['a position without a name', 'selector SV1 { ports a, b\n  position\n  position ONE joins a, b }\nline-up X { SV1 TWO }\n'],
    ['lines ended by returns alone', '-- two boats\rvessel Hulk {\r  length 9 m\r}\rtank T1 { vent }\r'],
    ['a block just opened', 'pattern {\n'], ['a block of no kind just opened', 'hello {\r\n'], ['a tank just opened', 'tank T1 {\n'],
    ['a list that goes on, in an interval', 'tend {\n  look T1 ,\n}\n'], ['a list that goes on, in a tank', 'tank T1 ,\n'],
    ['a word of the host language for a direction', course('gauge at 3 mm toString')], ['for a unit', course('hose bore 8 constructor')], ['for a mark', course('hose valueOf')],
    ['for a line', 'valueOf T1\n'], ['for a job', 'tend { constructor T1 every 2 h }\nlog 2025 { 2025-01-01 toString T1 }\n'],
    ['nothing parted by nothing, for a size', 'tank T1 { box 0/0 x 600 x 420 mm }\n'], ['for a reading', log('2025-01-01 E1 0/0 h')], ['for a count', bleed('bleed BE1 by gravity from T1 expect 0/0 strokes stop and think at 9')],
    ['one parted by nothing, for a reading', log('2025-01-01 E1 1/0 h renewed E1 belt')], ['for a try', bleed('start E1 at most 1/0 times 10 s')],
    ['a number of four hundred digits', `tank T1 { box ${'9'.repeat(400)} x 600 x 420 mm }\n`],
    ['a raw-water pump that gives nothing', engine('exhaust wet   muffler free 2 L   raw water 0 L/min at 2400 rpm   cranks 200 rpm')],
    ['part of a month', `${log('2025-01-01 E1 10 h renewed E1 belt')}tend { renew E1 belt every 1.5 months }\n`], ['a million years', `${log('2025-01-01 E1 10 h renewed E1 belt')}tend { renew E1 belt every 1000000 years }\n`],
    ['a meter that hardly moves', log('2025-01-01 E1 1000 h renewed E1 belt\n2025-07-01 E1 1000.0001 h')],
    ['line-ups made from one another', 'line-up A from B\nline-up B from A\n'], ['heights measured from one another', course('filter F1 { ports at 10 mm over F2 ports }', 'filter F2 { ports at 10 mm over F1 ports }')],
    ['a course from a tee to itself', `${course('tee J1')}supply course Loop from J1 to J1 { hose }\n`],
];

describe('a weak place', () => {
    it.each(WEAK)('%s', async (_, text) => {
        const desk = openDesk();
        await desk.type({ 'boat.orlop': text });
        await desk.write(0);
        for (let seed = 0; seed < 12; seed++) await desk.ask('boat.orlop', lots(seed));
        expect([...new Set(desk.wrong)]).toEqual([]);
    });

    it('eight engines, each with two selectors and a changeover: no rule looks through the settings of all of them', async () => {
        const one = (n: number): string => `tank T${n}a { pickup P1\n  drop R1 }\ntank T${n}b { pickup P1\n  drop R1 }\nengine E${n}
selector SA${n} {\n  ports a, b, out\n  position A joins a, out\n  position B joins b, out\n}
selector SB${n} {\n  ports in, a, b\n  position A joins in, a\n  position B joins in, b\n}
supply course FA${n} from T${n}a.P1 to SA${n}.a { hose }\nsupply course FB${n} from T${n}b.P1 to SA${n}.b { hose }
supply course FC${n} from SA${n}.out to E${n} {
  changeover CO${n} {\n    leg A { filter FA${n}1 }\n    leg B { filter FB${n}2 }\n    position A through A\n    position B through B\n  }
  filter FC${n}3 final
}
return course RA${n} from E${n} to SB${n}.in { hose }\nreturn course RB${n} from SB${n}.a to T${n}a.R1 { hose }\nreturn course RC${n} from SB${n}.b to T${n}b.R1 { hose }\n`;
        const desk = openDesk();
        await desk.type({ 'boat.orlop': Array.from({ length: 8 }, (_, i) => one(i + 1)).join('') });
        expect(desk.wrong).toEqual([]);
    }, 60_000);

    it('a dozen filters, each with its shutoff, and no way to bleed them', async () => {
        const desk = openDesk();
        await desk.type({ 'boat.orlop': course(...Array.from({ length: 12 }, (_, i) => `shutoff V${i}\n  filter F${i} { holds 1 L\n  bleed B${i} }`)) });
        await desk.write(0);
        expect(desk.wrong).toEqual([]);
    }, 120_000);
});
