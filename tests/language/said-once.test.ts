/**
 * The twin-engined example says once what is more than once on board. How many lines that saves is counted against the same boat
 * with every part, fitting and job written out in its place: a text that stands beside this test, set line for line as
 * examples/ottilwake is, the sloop without patterns. That it is the same boat is not taken on trust: both are read, and what is
 * read is compared.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { loadBoat, type Loaded } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';

const textsOf = (folder: string): Record<string, string> => {
    const url = new URL(folder, import.meta.url);
    return Object.fromEntries(readdirSync(url).sort().map((file) => [file, readFileSync(new URL(file, url), 'utf8')]));
};
const [ONCE, OUT] = [textsOf('../../examples/marrenwake/'), textsOf('./written-out/')];
/** Lines that say something: neither blank nor a remark alone. */
const linesOf = (texts: Record<string, string>): number => Object.values(texts).flatMap((text) => text.split('\n')).filter((line) => line.replace(/ *--.*$/, '').trim() !== '').length;

let once: Loaded;
let out: Loaded;
beforeAll(async () => { [once, out] = [await loadBoat(ONCE), await loadBoat(OUT)]; });

const sorted = <T>(list: readonly T[], key: (one: T) => string = (one) => JSON.stringify(one)): T[] => [...list].sort((a, b) => (key(a) < key(b) ? -1 : 1));
/** All that is known of the boat, but for the order and the numbers of lines, and the names of patterns. */
const known = ({ boat }: Loaded): unknown => ({
    ...boat, tags: undefined,
    intervals: sorted(boat.intervals.map((interval) => ({ ...interval, id: '' }))),
    log: boat.log.map((entry) => ({ ...entry, jobs: sorted(entry.jobs) })),
} satisfies Partial<Record<keyof Boat, unknown>>);

test('both say the same boat, without a slip', () => {
    expect([once.problems, out.problems]).toEqual([[], []]);
    expect(known(once)).toEqual(known(out));
    // Of the tanks 6 jobs, 7 shutoffs and 3 changeovers, 3 + 1 + 1 pumps for priming and of the heater, 3 lift pumps, 6 primaries with
    // 2 each, 4 finals with 2 each, the heater's among them, and 2 for all hoses together: 6 + 10 + 5 + 3 + 12 + 8 + 2.
    expect(once.boat.intervals).toHaveLength(46);
});

test('and the same is found in it', () => {
    const found = ({ boat }: Loaded): string[] => judge(boat, '2026-11-01').verdicts.flatMap(({ check, verdict, grade }) => (check.code === 'TAG-UNIQUE' && verdict.outcome === 'pass' ? [] : [`${check.code} ${grade} ${JSON.stringify(verdict)}`])).sort();
    expect(found(once)).toEqual(found(out));
});

test('in at most half of the lines', () => expect(linesOf(ONCE) / linesOf(OUT)).toBeLessThanOrEqual(1 / 2));
