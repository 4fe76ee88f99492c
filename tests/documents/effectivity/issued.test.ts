/** The register: what is written into it, what is refused, and how its pages stand against the boat. */
import { Ajv2020 } from 'ajv/dist/2020';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { REGISTER_SCHEMA, PAGES_SCHEMA } from '../../../src/documents/procedures/issued-schema';
import { generationsOf, isUnreadable, issue, ofOther, readRegister, standingOf, type Register, type Standing } from '../../../src/documents/procedures/issued';
import { generationsData, mentionsData, mentionsIn, standingData, standingText } from '../../../src/documents/procedures/standing';
import type { Page } from '../../../src/documents/procedures/tree';
import type { Boat } from '../../../src/model/boat';
import { ottilwake, page, step } from './pages';

let boat: Boat;
let text: string;
const f1 = page('renew-F1-element', [step('Shut V1.'), step('Open the lid of F1.')]);
const f2 = page('renew-F2-element', [step('Shut V2.'), step('Open F2. It holds 220 mL.')]);
const issued = (of: Boat, pages: readonly Page[], old?: string, day?: string): string => {
    const made = issue(of, pages.map((each) => ({ page: each, asked: { jobs: [] }, files: [`${each.id}.md`] })), old, day);
    if (isUnreadable(made)) throw new Error(made.unreadable);
    return made[0]!.text;
};
const read = (from: string): Register => { const found = readRegister(from); if (isUnreadable(found)) throw new Error(found.unreadable); return found; };
beforeAll(async () => { boat = await ottilwake(); text = issued(boat, [f2, f1], undefined, '2026-03-01'); }, 60_000);

describe('what is written', () => {
    test('is of the published form, the same every time, and read back', () => {
        const valid = new Ajv2020({ strict: true }).compile(REGISTER_SCHEMA);
        expect([valid(JSON.parse(text)), valid.errors]).toEqual([true, null]);
        expect(issued(boat, [f1, f2], undefined, '2026-03-01')).toBe(text);
        expect(read(text).pages.map(({ id, files, issued }) => [id, files, issued])).toEqual([['renew-F1-element', ['renew-F1-element.md'], '2026-03-01'], ['renew-F2-element', ['renew-F2-element.md'], '2026-03-01']]);
    });
    test('a page that is not issued now stays as it was, with the facts of its own revision', async () => {
        const later = await ottilwake(['holds 220 mL', 'holds 250 mL']);
        const both = read(issued(later, [f1], text, '2026-04-01'));
        expect(both.pages.map(({ id, issued }) => [id, issued])).toEqual([['renew-F1-element', '2026-04-01'], ['renew-F2-element', '2026-03-01']]);
        expect(Object.keys(both.revisions)).toHaveLength(2);
        expect(both.pages[1]).toEqual(read(text).pages[1]);
        // Issued again, nothing is left of the first revision.
        expect(Object.keys(read(issued(later, [f2], JSON.stringify(both), '2026-05-01')).revisions)).toHaveLength(1);
    });
    test('what a later version added is kept', () => {
        const later = JSON.parse(text) as Record<string, unknown> & { pages: Record<string, unknown>[] };
        later.seals = 'lead';
        later.pages[1]!.approved = 'by the owner';
        const again = JSON.parse(issued(boat, [f1], JSON.stringify(later), '2026-04-01')) as typeof later;
        expect([again.seals, again.pages[1]!.approved]).toEqual(['lead', 'by the owner']);
    });
});

describe('a register that cannot be relied on is refused, and nothing is written over it', () => {
    const edit = (change: (register: { version: number; boat: string; register: string; revisions: Record<string, Record<string, Record<string, string>>>; pages: Record<string, unknown>[] }) => void): string => { const copy = JSON.parse(text); change(copy); return JSON.stringify(copy); };
    const sentence = (from: string): string => { const made = issue(boat, [], from, '2026-03-01'); return isUnreadable(made) ? made.unreadable : 'written'; };
    test('half written', () => expect(sentence(text.slice(0, text.length / 2))).toBe('issued.json is cut short or is no register. Put back a copy of it, or move it away and issue the pages anew; nothing was written over it.'));
    test('empty', () => expect(sentence('')).toContain('cut short'));
    test('of something else', () => { for (const other of ['{}', '[]', 'null', '7', '{"register":"crew"}']) expect(sentence(other)).toContain('is a file of something else'); });
    test('from a later version', () => expect(sentence(edit((register) => { register.version = 2; }))).toBe('issued.json was written by a later Orlop (form 2; this one reads up to 1). Use that one here; nothing was changed.'));
    test('of another boat', () => expect(sentence(edit((register) => { register.boat = 'Marrenwake'; }))).toBe('The pages there were issued for Marrenwake, and this is Ottilwake. Use another folder, or that boat.'));
    test('a field that is missing', () => expect(sentence(edit(({ pages }) => { delete pages[0]!.says; }))).toContain('is damaged: `says` is missing in entry 1 of `pages` of the register'));
    test('a field of another form', () => expect(sentence(edit(({ pages }) => { pages[1]!.files = 'a.md'; }))).toContain('`files` of entry 2 of `pages` of the register is no list'));
    test('a fact that somebody changed', () => expect(sentence(edit(({ revisions }) => { Object.values(revisions)[0]!.F1!.lid = '100 mm up'; }))).toContain('was changed: the facts of revision'));
    test('what a page used, changed', () => expect(sentence(edit(({ pages }) => { pages[0]!.rests = []; }))).toContain('was changed: what renew-F1-element used'));
    test('a revision that is not there', () => expect(sentence(edit(({ pages }) => { pages[0]!.revision = 'ffffffffffff'; }))).toContain('is damaged: the facts of revision ffffffffffff'));
    test('any cut and any one sign changed: a sentence or a register, never an exception', () => {
        fc.assert(fc.property(fc.nat(text.length - 1), fc.string({ minLength: 0, maxLength: 2 }), (at, put) => {
            for (const wrong of [text.slice(0, at), text.slice(0, at) + put + text.slice(at + 1)]) { const found = readRegister(wrong); if (isUnreadable(found)) expect(found.unreadable).toMatch(/^issued\.json .*\.$/s); else expect(found.pages).toBeDefined(); }
        }), { numRuns: 150 });
    });
    test('a byte-order mark is no damage', () => expect(isUnreadable(readRegister(`\ufeff${text}`))).toBe(false));
    test('of the right boat there is nothing to say', () => expect(ofOther(boat, read(text))).toBeUndefined());
});

describe('how pages stand', () => {
    const stand = (now: Boat, made: (id: string) => Page | { blank: string } = (id) => (id === f1.id ? f1 : f2)): Standing[] => standingOf(read(text), now, ({ id }) => made(id));
    const statuses = (standings: readonly Standing[]): string[] => standings.map(({ status }) => status);

    test('the boat is as she was', () => expect(statuses(stand(boat))).toEqual(['untouched', 'untouched']));
    test('the log and a passage concern no page', async () => {
        const later = await ottilwake(['E1 1538 h   T1 dipped 240 mm', 'E1 1540 h   T1 dipped 230 mm'], ['motors 40 h', 'motors 50 h']);
        expect(statuses(stand(later))).toEqual(['untouched', 'untouched']);
    });
    test('a spanner size concerns the pages that name its thing', async () => {
        const later = await ottilwake(['bleed BS2   at 900 mm   spanner 10 mm', 'bleed BS2   at 900 mm   spanner 11 mm']);
        const [first, second] = stand(later);
        expect(statuses([first!, second!])).toEqual(['untouched', 'still true']);
        expect(second!.because).toEqual([{ about: 'BS2', fact: 'spanner', was: '10 mm', now: '11 mm' }]);
    });
    test('what a page says otherwise, and because of what', async () => {
        const later = await ottilwake(['holds 220 mL', 'holds 250 mL']);
        const [first, second] = stand(later, (id) => (id === f1.id ? f1 : page(f2.id, [step('Shut V2.'), step('Open F2. It holds 250 mL.')])));
        expect(first).toMatchObject({ status: 'still true', differences: [], because: [{ about: 'F2', fact: 'holds', was: '220 mL', now: '250 mL' }] });
        expect(second).toMatchObject({ status: 'false', differences: [{ kind: 'step', figures: [{ was: '220 mL', now: '250 mL' }] }], because: [{ about: 'F2', fact: 'holds', was: '220 mL', now: '250 mL' }] });
    });
    test('a job that can no longer be made', () => {
        const [first] = stand(boat, (id) => (id === f1.id ? { blank: 'F1 is not on the boat.' } : f2));
        expect(first).toMatchObject({ status: 'gone', gone: 'F1 is not on the boat.' });
    });
    test('with the same facts it is made otherwise: false all the same, and the reason says so', () => {
        const standings = stand(boat, (id) => (id === f1.id ? page(f1.id, [step('Open the lid of F1.')]) : f2));
        expect(standings[0]).toMatchObject({ status: 'false', because: [] });
        expect(standingText(boat, standings)).toContain('because: no fact that it rests on has changed; this Orlop makes it otherwise');
    });
    test('a page that names nothing of the boat rests on all that she has', async () => {
        const words = page('look-hoses', [step('Look at all of them.')]);
        const register = read(issued(boat, [words]));
        expect(standingOf(register, await ottilwake(['bore 16 mm', 'bore 18 mm']), () => words)[0]!.status).toBe('still true');
    });
    test('what is printed for machines is of the published form', async () => {
        const valid = new Ajv2020({ strict: true }).compile(PAGES_SCHEMA);
        const later = await ottilwake(['holds 220 mL', 'holds 250 mL']);
        const standings = stand(later, (id) => (id === f1.id ? { blank: 'no' } : page(f2.id, [])));
        for (const data of [standingData(later, standings), mentionsData(boat, 'V1', mentionsIn(read(text), 'V1')), generationsData(boat, generationsOf(read(text), read(issued(later, [f1]))))]) expect([valid(JSON.parse(JSON.stringify(data))), valid.errors]).toEqual([true, null]);
    });
});

test('two issues compared by what they say', () => {
    const later = read(issued(boat, [page(f1.id, [step('Shut V1.'), step('Open the lid of F1.'), step('Shut V3.')]), page('renew-F3-element', [])]));
    expect(generationsOf(read(text), later)).toMatchObject([
        { id: 'renew-F1-element', change: 'changed', differences: [{ kind: 'step', now: 'Shut V3.' }] }, { id: 'renew-F2-element', change: 'withdrawn' }, { id: 'renew-F3-element', change: 'new' },
    ]);
});
