/** The mended Ottilwake changed, and what is told of each of her pages held against the same pages in print, made from the changed boat. */
import { beforeAll, describe, expect, test } from 'vitest';
import { isUnreadable, issue, readRegister, standingOf, type Register, type Standing } from '../../../src/documents/procedures/issued';
import { pageMarkdown } from '../../../src/documents/procedures/markdown';
import { entriesOf, pageFor, type Entry } from '../../../src/documents/procedures/pages';
import { askedOf, remade } from '../../../src/documents/procedures/remade';
import { layOut } from '../../../src/layout/elk';
import { pageDrawings } from '../../../src/layout/pages';
import type { Laid, Layouter } from '../../../src/documents/drawing/plan';
import type { Boat } from '../../../src/model/boat';
import { procedureFor, procedureTable } from '../../../src/procedures/service/generate';
import type { ProcedureRequest } from '../../../src/procedures/service/plan';
import { ottilwake } from './pages';

const entries = (boat: Boat): Entry[] => entriesOf(boat, procedureTable(boat).map(({ job, made }) => ({ jobs: [job], made })));
/** The page with its drawing. */
async function prints(boat: Boat, all: readonly Entry[]): Promise<Map<string, string>> {
    const pages = all.flatMap(({ page }) => page ?? []);
    const drawings = await pageDrawings(boat, pages, layouter, new Map());
    return new Map(pages.map((page) => [page.id, `${pageMarkdown(page)}\n${drawings.get(page.id) ?? ''}`]));
}
const laid = new Map<string, Promise<Laid>>();
const layouter: Layouter = (plan, rows) => { const key = JSON.stringify(plan); const found = laid.get(key) ?? layOut(plan, rows); laid.set(key, found); return found; };
/** The print but for what says for which state of the boat it holds. */
const body = (text: string): string => text.split('\n').filter((line) => !/Boat as written|Facts of this page/.test(line)).join('\n').replace(/>[0-9a-f]{12}</, '><');
const digest = (text: string): string | undefined => /Facts of this page.*?\b([0-9a-f]{12})\b/.exec(text)?.[1];

let register: Register;
let printed: Map<string, string>;
beforeAll(async () => {
    const boat = await ottilwake();
    const all = entries(boat);
    printed = await prints(boat, all);
    const made = issue(boat, all.flatMap(({ page, jobs }) => (page ? [{ page, asked: askedOf({ jobs }), files: [] }] : [])), undefined, '2026-03-01');
    if (isUnreadable(made)) throw new Error(made.unreadable);
    register = readRegister(made[0]!.text) as Register;
}, 60_000);

async function held(...edits: readonly (readonly [from: string, to: string])[]): Promise<{ of: (id: string) => Standing; ids: (status: Standing['status']) => string[] }> {
    const boat = await ottilwake(...edits);
    const standings = standingOf(register, boat, (page) => remade(boat, page));
    const now = await prints(boat, entries(boat));
    const expected = [...printed].map(([id, text]) => { const other = now.get(id); return [id, other === undefined ? 'gone' : body(other) !== body(text) ? 'false' : digest(other) === digest(text) ? 'untouched' : 'still true']; });
    expect(Object.fromEntries(standings.map(({ page: { id }, status }) => [id, status]))).toEqual(Object.fromEntries(expected));
    expect(standings.length).toBeGreaterThan(30);
    return { of: (id) => standings.find(({ page }) => page.id === id)!, ids: (status) => standings.filter((standing) => standing.status === status).map(({ page }) => page.id).sort() };
}

describe('what is told is what is printed', () => {
    test('the log and a passage concern no page', async () => {
        const { ids } = await held(['2025-09-01   E1 1538 h', '2025-09-03   E1 1541 h'], ['motors 40 h', 'motors 44 h']);
        expect(ids('untouched')).toEqual([...printed.keys()].sort());
    });
    test('a spanner size makes false exactly the pages that print it', async () => {
        const { ids, of } = await held(['bleed BS2   at 900 mm   spanner 10 mm', 'bleed BS2   at 900 mm   spanner 11 mm']);
        const with10 = [...printed].filter(([, text]) => /spanner[^\n]*\(BS2|BS2 with the 10 mm spanner/.test(text)).map(([id]) => id);
        expect(ids('false')).toEqual(with10.sort());
        expect(with10).toContain('renew-F2-element');
        expect(of('renew-F2-element').because).toEqual([{ about: 'BS2', fact: 'spanner', was: '10 mm', now: '11 mm' }]);
        expect(ids('untouched')).toContain('look-VH1');
    });
    test('a valve that is put in', async () => {
        const { of } = await held(['  primer PR1 ', '  shutoff V3    at 650 mm up, 3200 mm fwd, 300 mm port   in EngineBay   normally open\n  primer PR1 ']);
        // The valve stands between S1 and PR1 then.
        expect(of('renew-PR1').because).toContainEqual({ about: 'PR1', fact: 'in joins', was: 'S1 out, Feed', now: 'V3 out, Feed' });
    });
    test('F1 moved below the level of the tank', async () => {
        const { of } = await held(['ports at 660 mm up', 'ports at 360 mm up'], ['drain at 480 mm', 'drain at 180 mm'], ['bleed BS1   at 705 mm', 'bleed BS1   at 405 mm']);
        expect(of('renew-F1-element').status).toBe('false');
        // 40 mm over ports, at 660 mm and then at 360 mm
        expect(of('renew-F1-element').because).toContainEqual({ about: 'F1', fact: 'lid', was: '700 mm up, 3300 mm fwd, 300 mm port', now: '400 mm up, 3300 mm fwd, 300 mm port' });
    });
    test('a part that is gone', async () => {
        const { ids, of } = await held(['  gauge G1      vacuum   at 660 mm\n', ''], ['   G1 1.0 inHg at 2400 rpm', ''], ['   G1 1.4 inHg at 2400 rpm', '']);
        expect(ids('gone')).toEqual([...printed.keys()].filter((id) => /-G1(-|$)/.test(id)).sort());
        expect(of('renew-G1').gone).toContain('G1');
    });
});

describe('what was asked for is asked again', () => {
    const issuedFor = (boat: Boat, request: ProcedureRequest): Register => {
        const page = pageFor(boat, { jobs: request.jobs, made: procedureFor(boat, request) });
        if ('blank' in page) throw new Error(page.blank);
        const made = issue(boat, [{ page, asked: askedOf(request), files: [] }], undefined, undefined);
        return readRegister((made as { text: string }[])[0]!.text) as Register;
    };
    const RENEW = { verb: 'renew', part: 'F1', piece: 'element' };
    const standing = (issued: Register, boat: Boat): Standing => standingOf(issued, boat, (page) => remade(boat, page))[0]!;

    test('several jobs in one visit', async () => {
        const boat = await ottilwake();
        expect(standing(issuedFor(boat, { jobs: [RENEW, { verb: 'renew', part: 'F2', piece: 'element' }] }), boat).status).toBe('untouched');
    });
    test('how she was that day', async () => {
        const boat = await ottilwake();
        // 0.18 m³ in T1, 10° to port
        const issued = issuedFor(boat, { jobs: [RENEW], today: { volumes: new Map([['T1', 0.18]]), attitude: { heel: -Math.PI / 18, trim: 0 } } });
        expect(issued.pages[0]!.says).not.toEqual(issuedFor(boat, { jobs: [RENEW] }).pages[0]!.says);
        expect(standing(issued, boat).status).toBe('untouched');
    });
    test('what somebody wrote: rewritten, and then taken out of the text', async () => {
        const [anchor, block] = ['line-up RUN       run       is normal', 'procedure work V1 "Mine" {\n  shut V1\n  open V1\n}\n'];
        const boat = await ottilwake([anchor, `${block}${anchor}`]);
        const issued = issuedFor(boat, { jobs: [{ verb: 'work', part: 'V1', piece: '' }] });
        expect(issued.pages[0]!.title).toBe('Mine');
        expect(standing(issued, boat).status).toBe('untouched');
        const rewritten = standing(issued, await ottilwake([anchor, `${block.replace('  open V1', '  wait 10 min\n  open V1')}${anchor}`]));
        expect(rewritten).toMatchObject({ status: 'false', because: expect.arrayContaining([{ about: 'procedure work V1', fact: 'line 2', was: 'open V1', now: 'wait 10 min' }]) });
        // Then what is made from the boat stands in its place.
        expect(standing(issued, await ottilwake())).toMatchObject({ status: 'false' });
    });
});
