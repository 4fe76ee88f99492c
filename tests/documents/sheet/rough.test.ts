/** What is only about right never stands as within its limit, however many computations lie between. */
import { beforeAll, expect, test } from 'vitest';
import { loadBoat } from '../../../src/language/load';
import { printed, remarks, type PrintedWorking } from '../../../src/documents/sheet/printed';
import { calculationSheet } from '../../../src/documents/sheet/sheet';
import { quoter } from '../../../src/language/ask/quoter';

const TEXT = `
vessel Roughwake { heights from "keel"   envelope heel 10 deg   trim 2 deg   level 30 to 95 %   reserve 20 % }
tank T1 { box 1000 x 500 x 600 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 850 mm up, 2400 mm fwd, 500 mm stbd
  drop R1 }
engine E1 { burns 2.4 L/h at 2400 rpm   draws 15 L/h at 2400 rpm }
supply course Feed from T1.P1 to E1 { hose S1   bore 8 mm   length 2.0 m }
return course Back from E1 to T1.R1 { hose B1 }
passage Near   motors 10 h at 2400 rpm   margin 10 %
`;
const sheetFor = async (text: string): Promise<Map<string, PrintedWorking>> => {
    const texts = { 'a.orlop': text };
    const loaded = await loadBoat(texts);
    expect(loaded.problems).toEqual([]);
    return new Map(printed(calculationSheet(loaded.boat), quoter(loaded, () => text)).groups.flatMap(({ workings }) => workings).map((one) => [one.working.id, one]));
};
let [exact, rough, burns]: Map<string, PrintedWorking>[] = [];
beforeAll(async () => {
    exact = await sheetFor(TEXT);
    rough = await sheetFor(TEXT.replace('box 1000 x 500 x 600 mm', 'box 1000 x 500 x 600 mm about'));
    burns = await sheetFor(TEXT.replace('burns 2.4 L/h at 2400 rpm', 'burns 2.4 L/h at 2400 rpm about'));
});

const limited = (sheet: Map<string, PrintedWorking>): string[] => [...sheet].filter(([, { verdict }]) => verdict === 'within').map(([id]) => id);

test('as written exactly, the passage and the pickup are within their limits', () => {
    // 10 h x 2.4 L/h x 1.1 = 26.4 L of 0.8 x (285 - 12.5) = 218 L.
    expect(exact!.get('passage Near')!.verdict).toBe('within');
    expect(limited(exact!).some((id) => id.startsWith('least T1.P1'))).toBe(true);
});
test('with a tank that is only about so large neither is, and each says why', () => {
    for (const id of ['passage Near', 'least T1.P1']) {
        expect(rough!.get(id)!.verdict, id).toBe('thin');
        expect(remarks(rough!.get(id)!).join(' '), id).toMatch(/only about right/);
    }
});
test('a rate with `about` is a range of a tenth either way: 23.8 to 29.0 L', () => {
    const { result } = burns!.get('passage Near')!;
    expect([result!.value, result!.least, result!.most].map(Number)).toEqual([26.4, 23.8, 29.0]);
});
