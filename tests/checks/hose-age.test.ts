/** HOSE-AGE: ten years by the year or the day that is marked on it. */
import { expect, test } from 'vitest';
import { SLOOP, edit, said, type Texts } from './boats';

const TODAY = '2026-09-01';
const rule = (texts: Texts, hose?: string, today: string | undefined = TODAY): Promise<string[]> => said('HOSE-AGE', texts, hose, today);
const dated = (year: string, text = SLOOP): string => edit(text, 'hose S1      bore 8 mm', `hose S1      bore 8 mm   dated ${year}`);
const old = (year: string): string => `fail S1, minor: S1 (${year}) is more than ten years old.`;

// 2026 - 2016 = 10, 2026 - 2015 = 11; by the day, ten years of 2016-09-01 are full on 2026-09-01 and past on the next day.
test.each([['2021', 'pass S1'], ['2016', 'pass S1'], ['2015', old('2015')], ['2016-09-01', 'pass S1'], ['2016-08-31', old('2016-08-31')]])('dated %s', async (year, verdict) => expect(await rule(dated(year), 'S1')).toEqual([verdict]));
test('the day decides, not the clock', async () => {
    expect(await rule(dated('2016'), 'S1', '2026-12-31')).toEqual(['pass S1']);
    expect(await rule(dated('2016'), 'S1', '2027-01-01')).toEqual([old('2016')]);
});
test('several are one finding', async () => {
    const two = edit(dated('2014'), 'hose B1      bore 6 mm', 'hose B1      bore 6 mm   dated 2012');
    expect((await rule(two)).filter((line) => line.startsWith('fail'))).toEqual(['fail S1, minor: S1 (2014) and B1 (2012) are more than ten years old.']);
});
test('cannot tell: no year is written', async () => expect(await rule(SLOOP, 'S1')).toEqual(['cannot tell S1: the year marked on S1']));
test('not applicable: no day was given; no fuel hose', async () => {
    expect(await said('HOSE-AGE', dated('1990'))).toEqual(['not applicable vessel: no day was given']);
    expect(await rule('tank T1 {\n vent\n}')).toEqual(['not applicable vessel: no fuel hose is written']);
});
test('of a day that the calendar has not the year counts', async () => {
    expect(await rule(dated('2016-99-99'), 'S1')).toEqual(['pass S1']);
    expect(await rule(dated('2015-99-99'), 'S1')).toEqual([old('2015-99-99')]);
});
