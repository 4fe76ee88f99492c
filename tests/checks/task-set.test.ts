/** TASK-SET: each serviced part has an interval, a renewed element one in hours and one in months. */
import { expect, test } from 'vitest';
import { usualJobs } from '../../src/analysis/upkeep/practice';
import { tendBlock } from '../../src/documents/upkeep/tend';
import { SLOOP, after, edit, load, said, without, type Texts } from './boats';

const rule = (texts: Texts, part?: string): Promise<string[]> => said('TASK-SET', texts, part);
const TENDED = `${SLOOP}tend {
  renew F1 element every 250 h or 12 months
  renew F2 element every 500 h or 24 months
  test PR1 every 12 months
  look LP1 every 500 h
  look hoses every 12 months
}
`;
const none = (part: string): string => `fail ${part}, document: ${part} has no interval.`;

test('all of them; a line taken away', async () => {
    expect(await rule(TENDED)).toEqual(['pass PR1', 'pass F1', 'pass LP1', 'pass F2', 'pass S1']);
    expect(await rule(without(TENDED, 'test PR1 every 12 months'), 'PR1')).toEqual([none('PR1')]);
    expect(await rule(without(TENDED, 'renew F1 element every 250 h or 12 months'), 'F1')).toEqual([none('F1')]);
    expect(await rule(without(TENDED, 'look hoses every 12 months'), 'S1')).toEqual(['fail S1, document: The hoses have no interval.']);
});
test('an element in hours only, in months only, in two lines', async () => {
    const only = (every: string): Promise<string[]> => rule(edit(TENDED, 'every 250 h or 12 months', every), 'F1');
    expect(await only('every 250 h')).toEqual(['fail F1, document: The element of F1 has an interval in hours only.']);
    expect(await only('every 12 months')).toEqual(['fail F1, document: The element of F1 has an interval in months only.']);
    expect(await only('every 250 h\n  renew F1 element every 12 months')).toEqual(['pass F1']);
});
test('a filter that is only looked at', async () => expect(await rule(edit(TENDED, 'renew F2 element every 500 h or 24 months', 'look F2 bowl every 100 h'), 'F2')).toEqual(['pass F2']));
test('no interval at all is one finding', async () => expect(await rule(SLOOP)).toEqual(['fail PR1, document: No interval is written for any part of this boat.']));
test('cannot tell: a part without a tag', async () => expect((await rule(after(TENDED, 'hose S1 bore 8 mm', 'strainer')))[0]).toBe('cannot tell Feed/3: the tag of the strainer after S1'));
test('not applicable: nothing is serviced', async () => expect(await rule('tank T1 {\n vent\n}')).toEqual(['not applicable vessel: it has no part that is serviced']));
test('the usual intervals mend it', async () => {
    const jobs = usualJobs((await load(SLOOP)).boat);
    expect((await rule(`${SLOOP}${tendBlock(jobs)}`)).filter((line) => !line.startsWith('pass'))).toEqual([]);
});
