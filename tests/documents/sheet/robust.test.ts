/** Boats that have lost lines or are half typed: a sheet all the same, whose every formula still comes out as printed. */
import { describe, expect, test } from 'vitest';
import { calculationSheet } from '../../../src/documents/sheet/sheet';
import { sheetForms } from '../../../src/documents/sheet/forms';
import { loadBoat } from '../../../src/language/load';
import { BOATS, type Texts } from '../../bad-input/texts';
import { lots, randomCase, toText } from '../../oracle/random-boats';
import type { Data } from './boats';
import { PLOVERWAKE } from './ploverwake';
import { redone } from './redo';

async function wrongWith(texts: Texts): Promise<string[]> {
    const { boat } = await loadBoat(texts);
    const { text, csv, data, pages } = sheetForms(calculationSheet(boat), () => undefined);
    const printed = [text, csv, ...pages.map((page) => page.text)].join('\n');
    return [...(data as Data).computations.flatMap(redone), ...(/NaN|Infinity|undefined/.exec(printed) ?? [])];
}

/** Of each boat. */
const TRIES = 25;

describe.each([...BOATS, ['ploverwake', { 'boat.orlop': PLOVERWAKE }] as const])('%s', (_, sound) => {
    test('cut short, or without some of its lines', async () => {
        const lot = lots(3);
        for (let i = 0; i < TRIES; i++) {
            const texts = Object.fromEntries(Object.entries(sound).map(([file, text]) => [file, i % 2 === 0 ? text.slice(0, Math.floor(lot() * text.length)) : text.split('\n').filter(() => lot() > 0.1).join('\n')]));
            expect([texts, await wrongWith(texts)]).toEqual([texts, []]);
        }
    }, 240_000);
});

test('boats drawn by lot', async () => {
    for (let seed = 1; seed <= 40; seed++) {
        const text = toText(randomCase(seed).boat);
        expect([text, await wrongWith({ 'boat.orlop': text })]).toEqual([text, []]);
    }
}, 240_000);
