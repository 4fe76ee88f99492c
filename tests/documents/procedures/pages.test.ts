/** Pages of whole boats: every procedure that is made, and one that somebody wrote. */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { entriesOf, type Entry } from '../../../src/documents/procedures/pages';
import { indexText, allForms } from '../../../src/documents/procedures/forms';
import { pageText } from '../../../src/documents/procedures/text';
import { MOST_WORDS, wordsIn } from '../../../src/documents/procedures/step-words';
import { loadBoat } from '../../../src/language/load';
import type { Boat } from '../../../src/model/boat';
import { procedureTable } from '../../../src/procedures/service/generate';
import { boatOf } from './sample';

const EXAMPLES = ['ottilwake', 'brackenwake-mended'];
const entries = (boat: Boat): Entry[] => entriesOf(boat, procedureTable(boat).map(({ job, made }) => ({ jobs: [job], made })));

describe.each(EXAMPLES)('%s', (name) => {
    test('each page: sentences of at most 20 words, no contraction, nothing unsaid, 80 columns', async () => {
        const boat = await boatOf(name);
        const all = entries(boat);
        expect(all.some(({ page }) => page)).toBe(true);
        for (const { page } of all) {
            if (!page) continue;
            for (const { action, does = [] } of page.sections.flatMap(({ steps }) => steps)) for (const text of [action, ...does]) for (const sentence of text.split(/(?<=[.?!]) (?=\p{Lu})/u)) expect([page.id, sentence, wordsIn(sentence) <= MOST_WORDS]).toEqual([page.id, sentence, true]);
            const text = pageText(page);
            expect([page.id, /undefined|NaN|\[object|\b\w+n't\b/.exec(text)?.[0]]).toEqual([page.id, undefined]);
            expect([page.id, text.split('\n').filter((line) => [...line].length > 80)]).toEqual([page.id, []]);
        }
        expect(indexText(name, all).split('\n').filter((line) => [...line].length > 80)).toEqual([]);
        // Every job has a page or a reason, and no two pages one file.
        expect(all.filter(({ page, blank }) => (page === undefined) === (blank === undefined))).toEqual([]);
        const paths = allForms(name, all).map(({ path }) => path.toLowerCase());
        expect(new Set(paths).size).toBe(paths.length);
    });
});

async function withProcedure(text: string): Promise<Boat> {
    const folder = fileURLToPath(new URL('../../../examples/ottilwake', import.meta.url));
    const files = Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).map((file) => [file, readFileSync(`${folder}/${file}`, 'utf8')]));
    return (await loadBoat({ ...files, 'own.orlop': text })).boat;
}

const OWN = `procedure renew F1 element "Our own way"   starts RUN   ends RUN   45 min   one person {
  stop E1 key out
  note "the key hangs on the seacock"
  set bilge pump off
  set battery switch off
  shut V1
  place 4 pads under F1
  place can 2 L under F1
  prove V1 by draining F1 until the stream dies within 10 s
  open F1 lid
  remove F1 element, lid ring, T-ring
  remove F1 drain washer
  fit F1 drain washer
  fit F1 element, lid ring, T-ring
  shut F1 lid, F1 drain
  open V1
  do bleed E1 after opening F1
}
`;

test('what somebody wrote takes the place of what would be made: in their order, with their words, marked, with the cautions of the table', async () => {
    const boat = await withProcedure(OWN);
    const page = entries(boat).find(({ jobs }) => jobs[0]?.verb === 'renew' && jobs[0].part === 'F1')!.page!;
    const steps = page.sections.flatMap((section) => section.steps);
    expect([page.title, page.byHand]).toEqual(['Our own way', true]);
    expect(steps[0]).toMatchObject({ tag: 'E1', notes: ['the key hangs on the seacock'] });
    const at = (words: RegExp): number => steps.findIndex(({ action }) => words.test(action));
    expect(at(/^Prove that V1 holds/)).toBeGreaterThan(at(/^Shut V1/));
    // Nobody wrote a caution of fire; the table asks for one before anything is opened.
    expect(steps.slice(0, at(/^Open the lid of F1/) + 1).flatMap(({ cautions }) => cautions.map(({ hazard }) => hazard)).join()).toMatch(/hot parts/);
    // The bleed sequence is told step by step: first the filter that was opened, at its own bleed point, and at last the engine is started. BS1
    // takes 49 strokes (trade's scenario S1: F1 and S1b hold 462.6 mL, 1.25 x 462.6 / (0.8 x 15) = 48.2).
    expect(at(/at BS1\.$/)).toBeGreaterThan(at(/^Open V1/));
    expect(steps[at(/at BS1\.$/)]!.signs).toContain('Expect 49 strokes for the air, and the ten more.');
    expect(at(/^Start E1/)).toBeGreaterThan(at(/at BS1\.$/));
});

test('what is wrong with it stands at the top', async () => {
    const boat = await withProcedure(OWN.replace('  shut V1\n', ''));
    const page = entries(boat).find(({ jobs }) => jobs[0]?.verb === 'renew' && jobs[0].part === 'F1')!.page!;
    // V1 stands open while the drain is opened: the drain floods above 134 L upright.
    expect(page.faults?.some((fault) => /T1/.test(fault) && /drain of F1/.test(fault))).toBe(true);
    expect(pageText(page)).toMatch(/Do not follow this as it stands/);
});
