/** The drawing of a page: of its own lines alone, with the valves during the work, in every form of the page. */
import { beforeAll, describe, expect, test } from 'vitest';
import { drawn } from '../../../src/documents/procedures/drawing';
import { pageForms } from '../../../src/documents/procedures/forms';
import { handWrittenPage } from '../../../src/documents/procedures/hand-written';
import { pageOf } from '../../../src/documents/procedures/page';
import { pageFor } from '../../../src/documents/procedures/pages';
import { saysOf } from '../../../src/documents/procedures/says';
import { pageText } from '../../../src/documents/procedures/text';
import type { Page } from '../../../src/documents/procedures/tree';
import { layOut } from '../../../src/layout/elk';
import { pageDrawings } from '../../../src/layout/pages';
import { loadBoat } from '../../../src/language/load';
import type { Boat, Job } from '../../../src/model/boat';
import { procedureFor } from '../../../src/procedures/service/generate';
import { PLAN, boatOf } from './sample';

const RENEW: Job = { verb: 'renew', part: 'F1', piece: 'element' };

function made(boat: Boat, ...jobs: Job[]): Page {
    const page = pageFor(boat, { jobs, made: procedureFor(boat, { jobs }) });
    if ('blank' in page) throw new Error(page.blank);
    return page;
}
const svgOf = async (boat: Boat, page: Page): Promise<string> => (await pageDrawings(boat, [page], layOut, new Map())).get(page.id)!;
const idsIn = (svg: string): string[] => [...svg.matchAll(/ data-id="([^"]*)"/g)].map(([, id]) => id!);

describe('the plan that is written out by hand', () => {
    let boat: Boat;
    let page: Page;
    let svg: string;
    beforeAll(async () => { boat = await boatOf('ottilwake'); page = pageOf(boat, PLAN); svg = await svgOf(boat, page); });

    test('V1 is shut and turned, F1 is what it is about, each bleed point has the number of its step', () => {
        const { positions, marks } = page.drawing!;
        expect(positions).toMatchObject({ V1: 'shut' });
        expect(marks).toContainEqual({ about: 'V1', as: 'turned', words: 'shut' });
        expect(marks).toContainEqual({ about: 'F1', as: 'about' });
        // By count of the plan in sample.ts, cautions left out: 5 steps to prepare, 2 to isolate, 3 to open, 3 to renew, 2 to close, 1 valve; then BS1, BS2, BS3.
        expect(marks.filter(({ as }) => as === 'number')).toEqual([{ about: 'BS1', as: 'number', words: '17' }, { about: 'BS2', as: 'number', words: '18' }, { about: 'BS3', as: 'number', words: '19' }]);
        const steps = page.sections.flatMap((section) => section.steps);
        for (const [number, vent] of [[17, 'BS1'], [18, 'BS2'], [19, 'BS3']] as const) expect(JSON.stringify(steps.find((step) => step.number === number))).toContain(vent);
        // Upstream of V1 stands nothing but the tank; the way from V1 to F1 gets nothing from it while V1 is shut.
        expect(marks.filter(({ as }) => as === 'dead').map(({ about }) => about)).toEqual(expect.arrayContaining(['S1', 'PR1', 'S1b']));
    });

    test('no vent and no fill, no figure and no title: what is not shown cannot become untrue', () => {
        expect(idsIn(svg)).toEqual(expect.arrayContaining(['T1', 'V1', 'F1', 'F2', 'E1', 'R']));
        expect(idsIn(svg).filter((id) => ['VH1', 'FH1'].includes(id))).toEqual([]);
        expect(svg).not.toMatch(/starboard tank|main engine|\d mm</);
        expect(new Set(idsIn(svg)).size).toBe(idsIn(svg).length);
    });

    test('it stands before the first step in HTML, in words beside it; Markdown and DITA name the file; the terminal says which it is', () => {
        const forms = new Map(pageForms(page, svg).map(({ path, text }) => [path.replace(page.id, ''), text]));
        const html = forms.get('.html')!;
        expect(forms.get('.svg')).toBe(svg);
        expect(html).toContain(svg.trimEnd());
        expect(html.indexOf('<figure>')).toBeGreaterThan(html.indexOf('<h2>Valves</h2>'));
        expect(html.indexOf('<figure>')).toBeLessThan(html.indexOf('<h2>Steps</h2>'));
        expect(html).toMatch(/<details>[^]*V1, shutoff, shut[^]*<\/details>/);
        const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id!);
        expect(new Set(ids).size).toBe(ids.length);
        // The policy of the page forbids styles in attributes.
        expect(svg).not.toMatch(/\sstyle=|<style|<script|\shref=|\son\w+=/);
        expect(forms.get('.md')).toContain(`](${page.id}.svg)`);
        expect(forms.get('.dita')).toContain(`<image href="${page.id}.svg"`);
        expect(pageText(page)).toContain(`${page.id}.svg`);
        expect(pageForms(page).map(({ text }) => text).join()).not.toContain(`${page.id}.svg`);
    });

    test('what it shows is among what the page says, in few lines', () => {
        const lines = saysOf(page).filter(({ kind }) => kind === 'drawing').map(({ text }) => text);
        expect(lines.find((text) => text.startsWith('Feed: supply'))).toMatch(/V1, shutoff, shut.*F1, filter/);
        expect(lines.length).toBeLessThan(10);
    });
});

test('of two systems that share nothing a page draws its own', async () => {
    // Brackenwake heats water in a circuit that no fuel line joins.
    const boat = await boatOf('brackenwake-mended');
    const [fuel, heating] = [made(boat, RENEW), made(boat, { verb: 'look', part: 'W1', piece: '' })];
    const [one, other] = [idsIn(await svgOf(boat, fuel)), idsIn(await svgOf(boat, heating))];
    expect([one.includes('F1'), one.includes('W1'), other.includes('W1'), other.includes('F1')]).toEqual([true, false, true, false]);
    expect(drawn(boat, heating.drawing!).boat.joints.length).toBeGreaterThan(0);
});

test('what is cut off on other lines is no matter of the page', async () => {
    // Marrenwake has three lines side by side; some of the others' valves stand shut at any time.
    const one = made(await boatOf('marrenwake'), { verb: 'renew', part: 'CH1-G', piece: '' });
    expect(JSON.stringify(one.drawing)).not.toMatch(/SH2|Not on the drawing/);
    expect(one.drawing!.marks.map(({ about }) => about).filter((id) => !one.drawing!.words.some((line) => line.about === id))).toEqual([]);
});

test('a procedure by hand has its drawing too; one without anything to draw has none', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Bare {\n}\ntank T1 {\n  pickup P1 at 25 mm\n}\nengine E1\nsupply course Feed from T1.P1 to E1 { shutoff V1   normally open   hose S1 }\nline-up RUN run is normal { V1 open }\nprocedure work V1 "Mine" {\n  shut V1\n}\n' });
    const mine = made(boat, { verb: 'work', part: 'V1', piece: '' });
    expect([mine.byHand, mine.drawing?.positions]).toEqual([true, { V1: 'shut' }]);
    expect(idsIn(await svgOf(boat, mine)).sort()).toEqual(['E1', 'S1', 'T1', 'T1.P1', 'V1']);
    const { boat: bare } = await loadBoat({ 'boat.orlop': 'vessel Bare {\n}\nprocedure "Think" {\n  wait 10 min\n}\n' });
    const page = handWrittenPage(bare, bare.procedures[0]!);
    expect([page.title, page.drawing, (await pageDrawings(bare, [page], layOut, new Map())).size]).toEqual(['Think', undefined, 0]);
});
