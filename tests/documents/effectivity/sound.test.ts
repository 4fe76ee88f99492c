/**
 * The heart of it: whenever one fact of a boat is changed and the text of a page changes with it, the digest on the page changes.
 * A digest that misses a fact leaves stale paper on board. That one changes though the text does not is allowed: facts are told with
 * room to spare. Each fact meets a few pages, each page many facts; ORLOP_FUZZ=1 tries every fact with every page, for an hour.
 */
import { beforeAll, expect, test } from 'vitest';
import { differences, saysOf, type Said } from '../../../src/documents/procedures/says';
import { pageFor } from '../../../src/documents/procedures/pages';
import type { Page } from '../../../src/documents/procedures/tree';
import { loadBoat } from '../../../src/language/load';
import type { Boat, Job } from '../../../src/model/boat';
import { procedureFor, procedureTable } from '../../../src/procedures/service/generate';
import { exampleTexts } from '../sheet/boats';
import { edited } from './edits';

const ALL = process.env.ORLOP_FUZZ !== undefined;
const pageOf = (boat: Boat, jobs: readonly Job[]): Page | undefined => { const page = pageFor(boat, { jobs, made: procedureFor(boat, { jobs }) }); return 'blank' in page ? undefined : page; };
const text = (page: Said): string => JSON.stringify(saysOf(page));

/** Of each boat so many facts, each with so many pages. */
test.each<[string, number, number]>([['ottilwake-mended', 5, 1], ['ottilwake', 5, 1], ['brackenwake-mended', 20, 2], ['marrenwake', 60, 4]])('%s', async (name, every, pages) => {
    const { boat } = await loadBoat(exampleTexts(name));
    const base = procedureTable(boat).flatMap(({ job, made }) => { const page = pageFor(boat, { jobs: [job], made }); return 'blank' in page ? [] : [{ job, page }]; });
    const missed: string[] = [];
    const count = { changed: 0, touched: 0, untouched: 0 };
    for (const [i, { path, boat: other }] of [...edited(boat)].entries()) {
        if (!ALL && i % every !== 0) continue;
        for (const [j, { job, page }] of base.entries()) {
            if (!ALL && (i / every * 7 + j) % base.length >= pages) continue;
            const now = pageOf(other, [job]);
            if (!now) continue;
            const [says, digest] = [text(now) !== text(page), now.effectivity.facts !== page.effectivity.facts];
            if (says && !digest) missed.push(`${path}: ${page.id}: ${JSON.stringify(differences(saysOf(page), saysOf(now)).slice(0, 2))}`);
            count[says ? 'changed' : digest ? 'touched' : 'untouched']++;
        }
    }
    expect(missed).toEqual([]);
    // The trial is worth something only where pages do change, and where some are left alone.
    expect(count.changed).toBeGreaterThan(3);
    expect(count.untouched).toBeGreaterThan(10);
}, ALL ? 1e8 : 240_000);

/** A part put in or taken out is a change of what it stands between, so no page of that line is untouched by it. */
const PARTS = [
    ['a valve', '  primer PR1 ', '  shutoff V3    at 650 mm up, 3200 mm fwd, 300 mm port   in EngineBay   normally open\n  primer PR1 '],
    ['a hose without a name', '  gauge G1 ', '  hose          bore 8 mm   length 0.3 m\n  gauge G1 '],
    ['a check', '  lift pump LP1', '  check CV2     at 620 mm up\n  lift pump LP1'],
    ['a gauge taken out', '  gauge G1      vacuum   at 660 mm\n', ''],
    ['a valve taken out', '  shutoff V2    at 620 mm up, 3000 mm fwd, 150 mm port   in EngineBay   normally open   label "FUEL ENGINE"\n', ''],
    ['a line-up', 'line-up LAID-UP', 'line-up MINE   service   from RUN   { V1 shut, V2 shut }\nline-up LAID-UP'],
    ['a heater on the same tank', 'line-up LAID-UP', 'heater H1 in EngineBay\nsupply course Warm from T1.P1 to H1 { shutoff V9   normally open }\nline-up LAID-UP'],
    ['a tank with nothing on it', 'line-up LAID-UP', 'tank T9\nline-up LAID-UP'],
] as const;
/** The pages of the boat before; its table is made once. */
let before: readonly { readonly job: Job; readonly was: Page }[];
beforeAll(async () => {
    const { boat } = await loadBoat(exampleTexts('ottilwake-mended'));
    before = procedureTable(boat).flatMap(({ job, made }) => ('blank' in made ? [] : [{ job, was: pageOf(boat, [job])! }]));
}, 60_000);
test.each(PARTS)('%s', async (_, from, to) => {
    const texts = exampleTexts('ottilwake-mended');
    expect(texts['lines.orlop']).toContain(from);
    const { boat: other } = await loadBoat({ ...texts, 'lines.orlop': texts['lines.orlop']!.replace(from, to) });
    expect(before.length).toBeGreaterThan(10);
    const missed = before.flatMap(({ job, was }) => {
        const now = pageOf(other, [job]);
        return now && text(was) !== text(now) && was.effectivity.facts === now.effectivity.facts ? [was.id] : [];
    });
    expect(missed).toEqual([]);
});
