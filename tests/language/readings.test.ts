/** What gauges read and how deep tanks were, in the log; passages; what a transfer moves. Read from text, slips included. */
import { describe, expect, test } from 'vitest';
import { logUntil } from '../../src/analysis/upkeep/hours';
import { loadBoat } from '../../src/language/load';
import type { Boat, LogEntry } from '../../src/model/boat';
import { SLOOP, before } from '../checks/boats';

const GAUGED = before(SLOOP, 'hose S2 bore 8 mm', '  gauge G1   vacuum\n  gauge G2   pressure\n  gauge G3');
const read = async (text: string): Promise<{ boat: Boat; said: string[] }> => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': `${GAUGED}${text}\n` });
    return { boat, said: problems.map(({ message }) => message) };
};
const logged = async (line: string): Promise<{ entry: LogEntry; said: string[] }> => {
    const { boat, said } = await read(`log 2025 { 2025-03-12   ${line} }`);
    return { entry: boat.log[0]!, said };
};
/** 1 inHg = 3386.389 Pa (NIST SP 811, conventional): 0.9 inHg = 3047.750 Pa. 2400 rpm / 60 = 40 rev/s. */
const READ = { about: 'G1', of: 'gauge', value: expect.closeTo(-3047.75, 2), speed: 40 };
const DIP = { about: 'T1', of: 'dip', value: 0.21 };

describe('a line of the log', () => {
    test.each([
        ['G1 0.9 inHg at 2400 rpm', [READ]],
        ['G1 -0.9 inHg at 2400 rpm', [READ]],
        ['G1 0.9 inHg', [{ about: 'G1', of: 'gauge', value: expect.closeTo(-3047.75, 2) }]],
        ['G1 9 kPa at 2400 rpm', [{ about: 'G1', of: 'gauge', value: -9000, speed: 40 }]],
        ['G2 9 kPa', [{ about: 'G2', of: 'gauge', value: 9000 }]],
        ['G3 9 kPa', [{ about: 'G3', of: 'gauge', value: 9000 }]],
        ['G1 0 kPa', [{ about: 'G1', of: 'gauge', value: 0 }]],
        ['T1 dipped 210 mm', [DIP]],
        ['T1 dipped 0 mm', [{ ...DIP, value: 0 }]],
        ['E1 1538 h   T1 dipped 210 mm   G1 0.9 inHg at 2400 rpm', [DIP, READ]],
        ['renewed F1 element, G1 0.9 inHg at 2400 rpm', [READ]],
        ['renewed F1 element and T1 dipped 210 mm by "skipper"', [DIP]],
        ['looked G1 0.9 inHg at 2400 rpm', [READ]],
        ['G1 9 kPa at 1200 rpm   G1 18 kPa at 2400 rpm', [{ about: 'G1', of: 'gauge', value: -9000, speed: 20 }, { about: 'G1', of: 'gauge', value: -18000, speed: 40 }]],
        ['G1 steady', []],
        ['G1', []],
        ['T1 45 L', []],
        ['T1 level 40 %', []],
    ])('%s', async (line, readings) => {
        const { entry, said } = await logged(line);
        expect([entry.readings, said]).toEqual([readings, []]);
    });

    test.each([
        ['G1 3 L at 2400 rpm', [], '`3 L` is no pressure'],
        ['G1 0.9', [], '`0.9` is no pressure'],
        ['G1 1 x 2 inHg', [], 'is no pressure'],
        ['G1 showed 0.9 inHg at 2400 rpm', [], '`G1 0.9 inHg`'],
        ['G1 at 2400 rpm 0.9 inHg', [], '`G1 0.9 inHg`'],
        ['G1 9 kPa at 2400', [{ about: 'G1', of: 'gauge', value: -9000 }], '`2400` is no speed'],
        ['G1 9 kPa at 0 rpm', [{ about: 'G1', of: 'gauge', value: -9000 }], '`0 rpm` is no speed'],
        ['T1 dipped', [], 'How deep?'],
        ['T1 dipped 45 L', [], '`45 L` is no depth'],
        ['T1 dipped 210', [], '`210` is no depth'],
        ['T1 dipped -20 mm', [], '`-20 mm` is no depth'],
        ['T1 210 mm', [], '`T1 dipped 210 mm`'],
        ['dipped T1 210 mm', [], '`T1 dipped 210 mm`'],
        ['V1 dipped 210 mm', [], 'V1 is no tank'],
        ['E1 dipped 210 mm', [], 'E1 is no tank'],
        ['T9 dipped 210 mm', [], '`T9` is not in this boat'],
    ])('%s is told', async (line, readings, message) => {
        const { entry, said } = await logged(line);
        expect(entry.readings).toEqual(readings);
        expect(said).toEqual([expect.stringContaining(message)]);
    });

    test('what a gauge reads that is gone by a survey stays in the log and stops nothing', async () => {
        const { boat, said } = await read('log 2025 { 2025-03-12 G1 9 kPa }\nsurvey Spring26 on 2026-03-02 { missing G1 touched }');
        expect([boat.log[0]!.readings.length, boat.parts.some(({ id }) => id === 'G1'), said]).toEqual([1, false, []]);
    });

    test('a correction reaches readings and dips, and nothing else on that day', async () => {
        const { boat, said } = await read(`log 2025 {
  2025-03-12   E1 10 h   T1 dipped 210 mm
  2025-03-12   G1 9 kPa at 2400 rpm   G2 5 kPa
  2025-03-14   corrects 2025-03-12   G1 7 kPa at 2400 rpm   T1 dipped 310 mm
  2025-03-15   corrects 2025-03-12   G3 1 kPa
}`);
        expect(said).toEqual([]);
        const told = (today: string): unknown[] => logUntil(boat.log, today).map(({ readings }) => readings.map(({ about, value }) => [about, value]));
        expect(told('2025-03-13')).toEqual([[['T1', 0.21]], [['G1', -9000], ['G2', 5000]]]);
        expect(told('2025-03-14')).toEqual([[['T1', 0.31]], [['G2', 5000], ['G1', -7000]]]);
        // What that day did not tell comes to its first line, once.
        expect(told('2025-03-15')).toEqual([[['T1', 0.31], ['G3', 1000]], [['G2', 5000], ['G1', -7000]]]);
    });
});

describe('a passage', () => {
    /** 90 h x 3600 = 324 000 s; 80 to 100 h = 288 000 to 360 000 s. */
    test.each([
        ['leaves 2026-09-10 motors 90 h at 2400 rpm margin 25 %', { leaves: '2026-09-10', motors: { si: 324_000 }, speed: { si: 40 }, margin: { si: 0.25 } }],
        ['', {}],
        ['margin 25 %, motors 90 h', { motors: { si: 324_000 }, margin: { si: 0.25 } }],
        ['"Summer" leaves 2026-09-10 note "with the tide"', { leaves: '2026-09-10' }],
        ['motors 80 to 100 h', { motors: { si: 324_000, low: 288_000, high: 360_000 } }],
        ['motors 90 h about at 2400 rpm', { motors: { si: 324_000, about: true }, speed: { si: 40 } }],
        ['margin 0 %', { margin: { si: 0 } }],
    ])('%s', async (line, passage) => {
        const { boat, said } = await read(`passage Islands ${line}`);
        expect([boat.passages, said]).toEqual([[{ id: 'Islands', ...passage }], []]);
    });

    test.each([
        ['motors 90 at 2400 rpm margin 25 %', { speed: { si: 40 }, margin: { si: 0.25 } }, '`motors 90 h`'],
        ['motors ninety hours at 2400 rpm', { speed: { si: 40 } }, '`motors 90 h`'],
        ['motors 90-100 h margin 25 %', { margin: { si: 0.25 } }, '`motors 90 h`'],
        ['motors -5 h', {}, '`motors 90 h`'],
        ['motors 0 h', {}, '`motors 90 h`'],
        ['motors 90 h at 6 kn margin 25 %', { motors: { si: 324_000 }, margin: { si: 0.25 } }, '`at 2400 rpm`'],
        ['motors 90 h at', { motors: { si: 324_000 } }, '`at 2400 rpm`'],
        ['margin 25 L motors 90 h', { motors: { si: 324_000 } }, '`margin 25 %`'],
        ['leaves tomorrow motors 90 h', { motors: { si: 324_000 } }, 'like 2026-09-10'],
        ['leaves 10 Sep motors 90 h', { motors: { si: 324_000 } }, 'like 2026-09-10'],
        ['leaves 2026-02-30', {}, '`2026-02-30` is not a day of the calendar'],
        ['sails 40 h motors 90 h', { motors: { si: 324_000 } }, '`sails`'],
        ['motors 80 h motors 90 h', { motors: { si: 324_000 } }, '`motors` is said twice'],
        ['{ motors 90 h }', { motors: { si: 324_000 } }, 'no block'],
        ['\n  motors 90 h', {}, 'on the line of its passage'],
    ])('%s is told once, and the rest is read', async (line, passage, message) => {
        const { boat, said } = await read(`passage Islands ${line}`);
        expect([boat.passages, said]).toEqual([[{ id: 'Islands', ...passage }], [expect.stringContaining(message)]]);
    });

    test('the name of something else is told', async () => {
        expect((await read('passage E1 motors 90 h')).boat.tags.get('E1')).toHaveLength(2);
    });
});

describe('what a line-up moves', () => {
    test.each([
        ['line-up X transfer moves 60 L { V1 shut }', { si: expect.closeTo(0.06, 12) }, []],
        ['line-up X transfer from RUN moves 40 to 60 L', { si: expect.closeTo(0.05, 12), low: expect.closeTo(0.04, 12), high: expect.closeTo(0.06, 12) }, []],
        ['line-up X transfer', undefined, []],
        ['line-up X transfer moves 60 { V1 shut }', undefined, [expect.stringContaining('`moves 60 L`')]],
        ['line-up X moves sixty litres transfer { V1 shut }', undefined, [expect.stringContaining('`moves 60 L`')]],
        ['line-up X transfer moves', undefined, [expect.stringContaining('`moves 60 L`')]],
        ['line-up X transfer 60 L', undefined, [expect.stringContaining('`60 L`')]],
    ])('%s', async (line, moves, said) => {
        const loaded = await read(line);
        const lineUp = loaded.boat.lineUps.find(({ id }) => id === 'X')!;
        expect([lineUp.moves, lineUp.use, loaded.said]).toEqual([moves, 'transfer', said]);
    });
});

test('behind a limit of the inlet its place may be said on the same line', async () => {
    const { boat, problems } = await loadBoat({ 'a.orlop': 'engine E1 { limits inlet 20 kPa   lift 900 mm   inlet at 820 mm }\n' });
    expect(problems).toEqual([]);
    expect([boat.consumers[0]!.limits.inlet!.si, boat.consumers[0]!.inlet!.up!.si]).toEqual([20_000, expect.closeTo(0.82, 9)]);
});
