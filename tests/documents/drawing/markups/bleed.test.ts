/** A bleed sequence on the drawing has the numbers of the printed one. */
import { expect, test } from 'vitest';
import { sheetText } from '../../../../src/documents/bleed/sheet';
import { planBleed } from '../../../../src/procedures/bleed';
import { boatOf, idsOf, marked, refused, shown } from './shown';

test('Ottilwake after opening F1 and F2: from the tank on, by the pump that stands before it', async () => {
    const boat = await boatOf('ottilwake');
    const found = shown('bleed E1 opened F1, F2', { boat });
    // SERVICE leaves V1 shut, so it is opened first. Then upstream first (trade practice): BS1 on F1, BS2 on F2, BS3 on the engine. PR1 stands before all of them.
    expect(found.positions?.get('V1')).toBe('shut');
    expect(marked(found, 'turned')).toEqual(['V1 1: open']);
    expect(idsOf(found, 'number')).toEqual(['BS1', 'BS2', 'BS3']);
    expect(marked(found, 'open')[0]).toBe('BS1 by PR1');
    expect(idsOf(found, 'about')).toEqual(expect.arrayContaining(['PR1', 'F1', 'F2']));
});

test('each number is that of the step on the printed sheet that names the point', async () => {
    for (const [name, engine, words] of [['ottilwake', 'E1', 'F1, F2'], ['brackenwake', 'E1', 'F1'], ['marrenwake', 'E1', 'FA-P'], ['marrenwake', 'HE1', 'FH']] as const) {
        const boat = await boatOf(name);
        const found = shown(`bleed ${engine} opened ${words}`, { boat });
        const plan = planBleed(boat, { engine, opened: words.split(', ') });
        if ('refused' in plan) throw new Error(plan.refused);
        const printed = sheetText(boat, plan).replace(/\n {4}(?= *\S)/g, ' ');
        const numbers = found.marks.filter(({ as }) => as === 'number');
        expect(numbers.length).toBeGreaterThan(0);
        for (const { about, words: own } of numbers) for (const number of own!.split(', ')) expect(printed.match(new RegExp(`^ ?${number}\\. .*`, 'm'))?.[0], `${name} ${about}`).toContain(about);
        for (const { about, words: own } of found.marks.filter(({ as }) => as === 'turned')) for (const turn of own!.split(', ')) {
            const [number, position] = turn.split(': ') as [string, string];
            const line = printed.match(new RegExp(`^ ?${number}\\. .*`, 'm'))?.[0].toLowerCase();
            expect(line).toContain(about.toLowerCase());
            expect(line).toContain(position.toLowerCase());
        }
    }
});

test('a sequence that there is not is refused, with the plan\'s own reason', async () => {
    const boat = await boatOf('brackenwake');
    // Nothing before F1 pumps, and no tank is proven to stand above it.
    expect(refused('bleed E1 ran dry', { boat })).toMatch(/^F1 cannot be bled: no pump upstream of BS1/);
    const plan = planBleed(boat, { engine: 'E1', opened: [], ranDry: true });
    expect('refused' in plan && refused('bleed E1 ran dry', { boat }).startsWith(plan.refused)).toBe(true);
});
