/** Published maintenance intervals against ours: a job is due at the earlier of its hours and its months. */
import { expect, test } from 'vitest';
import { duePlan } from '../../src/analysis/upkeep/due';
import { loadBoat } from '../../src/language/load';
import type { Job } from '../../src/model/boat';
import { bothFilters, quarter, semiannualOf500, tankDrain } from './upkeep';

const TODAY = '2026-03-01';

interface Line {
    readonly job: string;
    readonly state: string;
    readonly by: string | undefined;
    readonly due: string | undefined;
}

async function plan(text: string): Promise<readonly Line[]> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': text });
    expect(problems.map(({ message }) => message)).toEqual([]);
    return duePlan(boat, TODAY).map(({ job, state, by, due }) => ({ job: words(job), state, by, due }));
}

const words = ({ verb, part, piece }: Job): string => [verb, part, piece].filter(Boolean).join(' ');

async function only(text: string, job: string): Promise<Line> {
    const found = (await plan(text)).filter((line) => line.job === job);
    expect(found).toHaveLength(1);
    return found[0]!;
}

/** Due or past due: the published tables know no difference between the two. */
const isDue = ({ state }: Line): boolean => state === 'due' || state === 'overdue';

const FILTERS = ['renew F1 element', 'renew F2 element'];

// TM 9-4940-568-20, Table 2-1, item 10 g.

test.each(FILTERS)('250 h or semiannually: %s at 251 h in month 1 is due by hours', async (job) => {
    // Done 1 Feb at 1000 h; 28 Feb at 1251 h: 251 h in 27 days. 250 h were full between 1 and 28 Feb; months would say 1 Aug.
    const line = await only(bothFilters({ served: '2026-02-01', at: 1000, read: '2026-02-28', hours: 1251 }), job);
    expect(isDue(line)).toBe(true);
    expect(line.by).toBe('hours');
    expect(line.due! > '2026-02-01' && line.due! <= '2026-02-28').toBe(true);
});

test.each(FILTERS)('250 h or semiannually: %s at 10 h in month 7 is due by months', async (job) => {
    // Done 15 Aug at 1000 h; 6 months on is 15 Feb. 10 of 250 h used.
    const line = await only(bothFilters({ served: '2025-08-15', at: 1000, read: '2026-02-20', hours: 1010 }), job);
    expect(isDue(line)).toBe(true);
    expect(line).toMatchObject({ by: 'months', due: '2026-02-15' });
});

test.each(FILTERS)('250 h or semiannually: %s at 249 h in month 5 is not due', async (job) => {
    // Done 10 Oct at 1000 h; today, 4 months and 19 days on, 1249 h. 6 months on is 10 Apr; the last hour comes first.
    const line = await only(bothFilters({ served: '2025-10-10', at: 1000, read: TODAY, hours: 1249 }), job);
    expect(isDue(line)).toBe(false);
    expect(line.by).toBe('hours');
    expect(line.due! >= TODAY && line.due! < '2026-04-10').toBe(true);
});

// A word of the calendar does not stand for one figure of hours.
test('260 h in month 2 is due where half a year goes with 250 h, and not where it goes with 500 h (TM 9-6115-653-14&P)', async () => {
    const log = { served: '2026-01-10', at: 1000, read: TODAY, hours: 1260 };
    expect(isDue(await only(bothFilters(log), 'renew F1 element'))).toBe(true);
    expect(isDue(await only(semiannualOf500(log), 'renew F1 element'))).toBe(false);
});

// TM 5-3895-359-14&P, maintenance items.

const TANK = 'drain T1 bottom';
const REST = ['look T1 breather', 'look T1 cap seal'];

test('tank: 510 h in month 9, only the drain is due', async () => {
    // Done 10 Jun at 2000 h; today 2510 h. 510 > 500; 510 < 700 and 12 months on is 10 Jun 2026.
    const lines = await plan(tankDrain({ served: '2025-06-10', at: 2000, read: TODAY, hours: 2510 }));
    expect(lines.filter(isDue).map(({ job, by }) => `${job} by ${by}`)).toEqual([`${TANK} by hours`]);
});

test('tank: 705 h in month 9, all is due by hours', async () => {
    // 705 > 500 and 705 > 700.
    const lines = await plan(tankDrain({ served: '2025-06-10', at: 2000, read: TODAY, hours: 2705 }));
    expect(lines.filter(isDue).map(({ job, by }) => `${job} by ${by}`).sort()).toEqual([TANK, ...REST].map((job) => `${job} by hours`));
});

test('tank: 100 h in month 13, only the rest is due, by months', async () => {
    // Done 15 Feb 2025 at 2000 h; 12 months on is 15 Feb 2026. 100 of 500 h used; the drain has no months.
    const lines = await plan(tankDrain({ served: '2025-02-15', at: 2000, read: TODAY, hours: 2100 }));
    expect(lines.filter(isDue).map(({ job, by, due }) => `${job} by ${by} ${due}`).sort()).toEqual(REST.map((job) => `${job} by months 2026-02-15`));
});

// TM 10-4930-251-12&P, para 4-7.

test('quarter: the months are those of the calendar', async () => {
    // 28 Nov and three months is 28 Feb: 2 + 31 + 31 + 28 = 92 days; three times 30 days would be 26 Feb. 60 of 250 h used.
    const line = await only(quarter({ served: '2025-11-28', at: 1000, read: '2026-02-20', hours: 1060 }), 'renew F1 element');
    expect(line).toMatchObject({ by: 'months', due: '2026-02-28' });
});

test('quarter: due on the very day', async () => {
    // 1 Dec and three months is 1 Mar, today. 60 of 250 h used.
    const line = await only(quarter({ served: '2025-12-01', at: 1000, read: '2026-02-20', hours: 1060 }), 'renew F1 element');
    expect(line).toMatchObject({ by: 'months', due: TODAY });
    expect(isDue(line)).toBe(true);
});

test('quarter: a day before three calendar months, with hours left, it is not due', async () => {
    // 2 Dec and three months is 2 Mar. 60 of 250 h used.
    const line = await only(quarter({ served: '2025-12-02', at: 1000, read: '2026-02-20', hours: 1060 }), 'renew F1 element');
    expect(line).toMatchObject({ by: 'months', due: '2026-03-02' });
    expect(isDue(line)).toBe(false);
});

test('quarter: 250 h come first', async () => {
    // Done 1 Feb at 1000 h, today 1260 h. 260 > 250; three months on is 1 May.
    const line = await only(quarter({ served: '2026-02-01', at: 1000, read: TODAY, hours: 1260 }), 'renew F1 element');
    expect(isDue(line)).toBe(true);
    expect(line.by).toBe('hours');
});
