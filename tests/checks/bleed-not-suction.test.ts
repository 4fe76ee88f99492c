/** BLEED-NOT-SUCTION: no bleed block of the text opens a bleed point upstream of the pump that it works; told once. */
import { describe, expect, test } from 'vitest';
import { blockText } from '../../src/documents/bleed/block';
import { planBleed } from '../../src/procedures/bleed';
import { checkBleedBlocks } from '../../src/documents/bleed/kept';
import { SLOOP, TWIN, edit, load, said, type Texts } from './boats';

const rule = (texts: Texts): Promise<string[]> => said('BLEED-NOT-SUCTION', texts);
const block = (...steps: readonly string[]): string => `${SLOOP}bleed E1 after opening F1, F2 {\n${steps.map((step) => `  ${step}\n`).join('')}}\n`;
const drawn = (line: string, vent: string, pump: string): string => `fail ${line}, critical: This step opens ${vent} on the suction side of ${pump}, the pump that it works.`;
/** What BLEED-KEPT says of the same text. */
const kept = async (texts: Texts): Promise<string[]> => checkBleedBlocks((await load(texts)).boat).map(({ about, message }) => `${about}: ${message}`);

test('by the primer before the filter, and by the pump behind it', async () => {
    expect(await rule(block('bleed BS1 by PR1'))).toEqual(['pass bleed/1']);
    expect(await rule(block('bleed BS1 by LP1 lever'))).toEqual([drawn('bleed/1/1', 'BS1', 'LP1')]);
});
test('a lever that is proven at a bleed point before it', async () => {
    expect(await rule(block('prove LP1 at BS2 by lever 10 strokes'))).toEqual(['pass bleed/1']);
    expect(await rule(block('note "cold engine"', 'prove LP1 at BS1 by lever 10 strokes'))).toEqual([drawn('bleed/1/2', 'BS1', 'LP1')]);
});
test('the order of steps counts: what a valve joins when the pump is worked', async () => {
    // F1 and F9 side by side; with VA shut, F9's bleed point is not on the suction side of LP9 behind F1 alone.
    const legs = edit(SLOOP, '  tube S3      bore 6 mm\n', '  split {\n    leg A { filter F8 { bleed BS8 }   shutoff VA normally open   lift pump LP8 }\n    leg B { hose }\n  }\n');
    const text = (...steps: readonly string[]): string => `${legs}bleed E1 after opening F8 {\n${steps.map((step) => `  ${step}\n`).join('')}}\n`;
    expect(await rule(text('bleed BS8 by LP8 lever'))).toEqual([drawn('bleed/1/1', 'BS8', 'LP8')]);
    expect(await rule(text('shut VA', 'bleed BS8 by LP8 lever'))).toEqual(['pass bleed/1']);
});

describe('one false step is one finding', () => {
    test('of a sequence that a person wrote: nothing of it, and nothing of what follows it', async () => {
        const text = block('bleed BS1 by LP1 lever', 'bleed BS2 by PR1', 'bleed BS3 by PR1', 'start E1 at most 2 times 10 s');
        expect(await rule(text)).toEqual([drawn('bleed/1/1', 'BS1', 'LP1')]);
        expect(await kept(text)).toEqual([]);
    });
    test('of a kept sequence', async () => {
        const boat = edit(SLOOP, 'engine E1 {', 'engine E1 {\n  injection in-line\n  exhaust dry');
        const loaded = (await load(boat)).boat;
        const plan = planBleed(loaded, { engine: 'E1', opened: ['F1', 'F2'] });
        if ('refused' in plan) throw new Error(plan.refused);
        const sound = `${boat}${blockText(loaded, plan)}`;
        expect([await rule(sound), await kept(sound)]).toEqual([['pass bleed/1'], []]);
        const turned = edit(sound, '  bleed BS1 by PR1', '  bleed BS1 by LP1 lever');
        expect(await rule(turned)).toEqual([expect.stringMatching(/^fail bleed\/1\/\d+, critical: This step opens BS1 on the suction side of LP1/)]);
        expect(await kept(turned)).toEqual([]);
    });
    test('what is wrong before it is still told', async () => {
        expect(await kept(block('bleed BS3 by PR1', 'bleed BS1 by LP1 lever'))).toEqual(['bleed/1/1: This step breaks a law of bleeding.']);
    });
});
test('cannot tell: the position of a selector on these lines', async () => {
    const open = edit(edit(TWIN, '{ SV1 PORT   SV2 PORT }', '{ SV2 PORT }'), 'engine E1', 'engine E1 {\n  bleed BS3\n}').replace('filter F1 final', 'lift pump LP1   filter F1 final');
    expect(await rule(`${open}bleed E1 after opening F1 {\n  bleed BS3 by LP1 lever\n}\n`)).toEqual(['cannot tell bleed/1: the position of SV1 in line-up RUN-PORT']);
    expect(await rule(`${open}bleed E1 after opening F1 {\n  turn SV1 to PORT\n  bleed BS3 by LP1 lever\n}\n`)).toEqual(['pass bleed/1']);
});
test('not applicable: no block; one that opens nothing', async () => {
    expect(await rule(SLOOP)).toEqual(['not applicable vessel: no bleed sequence is written']);
    expect(await rule(block('open V1'))).toEqual(['not applicable bleed/1: it opens no bleed point']);
});
