/** How long and how far fuel lasts. The figures of the worked vessel were worked out by hand from its drawing, the arithmetic beside each. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exactly, type Estimate } from '../../../src/analysis/estimate';
import { enduranceFor, enduranceOfAll, lasts } from '../../../src/analysis/time/endurance';
import { passageFuel, ranges } from '../../../src/analysis/time/passage';
import { storeFor } from '../../../src/analysis/time/store';
import { networkOf } from '../../../src/analysis/topology/network';
import { edit, example, load, TWIN } from '../../checks/boats';
import { boatOf, DAY, LH, LITRE } from './boats';

const round = (value: number | undefined, digits = 3): number | undefined => (value === undefined ? undefined : Number(value.toFixed(digits)));
const hours = (found: Estimate | undefined): (number | undefined)[] => [found?.least, found?.si, found?.most].map((s) => round(s === undefined ? undefined : s / 3600));

// 200 L filled to 90 % is 180 L; a tenth of the capacity is 20 L: 160 / 6 = 26.667 h.
test('a derived vector: 26.667 h', () => expect(hours(lasts(exactly(180 * LITRE), exactly(20 * LITRE), exactly(6 * LH)))).toEqual([26.667, 26.667, 26.667]));
test('below the reserve nothing is left; where nothing may be burnt there is no bound', () => {
    expect(lasts(exactly(0.01), exactly(0.02), exactly(1e-6))).toEqual(exactly(0));
    expect(lasts(exactly(0.01), exactly(0), { si: 1e-6, least: 0, most: 2e-6 })).toBeUndefined();
});

describe('the worked vessel', async () => {
    const { boat } = await load(example('ottilwake'));
    // 800 x 600 x 420 mm = 201.6 L, 95 % = 191.52; 0.8 x 0.6 x 0.025 m = 12.0 L lie below the mouth: 179.52 L.
    test('usable 179.5 L', () => {
        const store = storeFor(networkOf(boat), 'E1');
        expect(store.tanks.map(({ gross, holds, unusable, usable }) => [gross, holds, unusable, usable].map((volume) => round(volume / LITRE, 2)))).toEqual([[201.6, 191.52, 12, 179.52]]);
        expect(store.taken).toEqual(['T1 is taken as filled to 95 % (no level is stated)']);
    });
    // Less 20 %: 143.616 L; / 2.4 L/h = 59.84 h. Less 33 %: 179.52 x 0.67 = 120.278 L: 50.116 h.
    test('59.8 h at 2400 rpm, down to a reserve that nobody stated', () => {
        const found = enduranceFor(boat, 'E1', 2400 / 60);
        expect(hours(found.seconds)).toEqual([50.116, 59.84, 59.84]);
        expect(round(found.reserve.si / LITRE, 2)).toBe(35.9);
        expect(found.taken).toContain('the reserve is taken as 20 % of what can be used (common practice, 20 to 33 %)');
        // 143.616 / 6.25 at full speed.
        expect(hours(enduranceFor(boat, 'E1', 'full').seconds)[1]).toBe(22.979);
    });
    // 100 L in it: (100 - 12) x 0.8 / 2.4.
    test('from what is in the tank now', () => expect(hours(enduranceFor(boat, 'E1', 2400 / 60, new Map([['T1', 0.1]])).seconds)[1]).toBe(29.333));
    // 59.84 h x 5.5 kn = 329.12 nautical miles of 1852 m.
    test('range 329 miles', () => expect(ranges(boat).map(({ speed, metres }) => [round(speed * 60), round(metres!.si / 1852, 2)])).toEqual([[2400, 329.12]]));
    test('at a speed at which nobody said what is burnt, it is lacking', () => expect(enduranceFor(boat, 'E1', 4000 / 60)).toMatchObject({ lacks: [{ about: 'E1', of: 'burns' }] }));
});

describe('a passage', () => {
    // 90 h x 2.4 = 216 L against 143.6 L; with a quarter more 270 L. Left 179.52 - 216 = -36.48 L; short of the reserve 216 - 143.616 = 72.384 L.
    const told = async (margin: string): Promise<unknown> => {
        const files = example('ottilwake') as Record<string, string>;
        const { boat } = await load({ ...files, 'passage.orlop': `passage Islands leaves 2026-09-10 motors 90 h at 2400 rpm ${margin}\n` });
        const { needs, left, short, lacks } = passageFuel(boat, boat.passages[0]!);
        return { needs: round(needs!.si / LITRE), left: round(left!.si / LITRE), short: [short!.least, short!.si].map((v) => round(v / LITRE)), lacks };
    };
    test('90 h: 216 L', async () => expect(await told('')).toEqual({ needs: 216, left: -36.48, short: [72.384, 72.384], lacks: [] }));
    test('with a margin of 25 %: 270 L', async () => expect(await told('margin 25 %')).toMatchObject({ needs: 270, left: -90.48 }));
    test('no speed, no hours', async () => {
        const files = example('ottilwake') as Record<string, string>;
        const { boat } = await load({ ...files, 'passage.orlop': 'passage Islands leaves 2026-09-10\n' });
        expect(passageFuel(boat, boat.passages[0]!)).toMatchObject({ engines: ['E1'], lacks: [{ about: 'Islands', of: 'motors' }, { about: 'Islands', of: 'speed' }] });
    });
});

describe('several tanks', () => {
    // T1: 190 - 12.5 = 177.5 L, DT: 47.5 - 5 = 42.5 L; 220 L x 0.8 / 5 L/h = 35.2 h.
    test('a main tank counts that is pumped into the day tank', async () => {
        const found = enduranceFor(await boatOf(DAY), 'E1', 2000 / 60);
        expect(found.store.tanks.map(({ tank, usable }) => [tank, round(usable / LITRE)])).toEqual([['T1', 177.5], ['DT', 42.5]]);
        expect([hours(found.seconds), found.astray, found.lacks]).toEqual([[35.2, 35.2, 35.2], [], []]);
    });
    test('not one that takes only the overflow', async () => {
        const over = edit(DAY, 'transfer course Lift from T1.P1 to DT.L1 { shutoff V2 normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1 }', 'transfer course Over from DT.L1 to T1.O1 { check CV1 }').replace('{ V2 open }', '');
        const found = enduranceFor(await boatOf(over), 'E1', 2000 / 60);
        expect(found.store.tanks.map(({ tank }) => tank)).toEqual(['DT']);
        expect(hours(found.seconds)[1]).toBe(6.8); // 42.5 x 0.8 / 5
    });
    // T2 is as T1 but stands 100 mm lower, and only a pipe joins them: T1 gives down to 25 mm, where T2 still holds 0.5 m² x 125 mm = 62.5 of its 190 L. A pump gets
    // down to 10 mm off its bottom: 5 L stay.
    test('what runs by itself runs only down to what the next tank can give', async () => {
        const text = (line: string): string => `tank T1 {\n box 1000 x 500 x 400 mm low aft inner corner at 0 mm up\n pickup P1 mouth at 25 mm off bottom\n drop X1 mouth at 10 mm off bottom\n vent\n}
tank T2 {\n box 1000 x 500 x 400 mm low aft inner corner at -100 mm up\n pickup X2 mouth at 10 mm off bottom\n vent\n}\nengine E1 { burns 5 L/h at 2000 rpm }\nsupply course Feed from T1.P1 to E1 { filter F1 final }
transfer course Level from T2.X2 to T1.X1 { ${line} }\n`;
        const usable = async (line: string): Promise<unknown> => storeFor(networkOf(await boatOf(text(line))), 'E1').tanks.map((one) => [one.tank, round(one.usable / LITRE)]);
        expect(await usable('hose X')).toEqual([['T1', 177.5], ['T2', 127.5]]);
        expect(await usable('electric pump TP1')).toEqual([['T1', 177.5], ['T2', 185]]);
    });
    // E1 draws from T1 alone, and its return can be turned to T2: no fuel is brought from T2 through the return lines.
    test('not one that the returns alone join to it', async () => {
        const one = edit(edit(TWIN, 'supply course FromStbd from T2.P1 to SV1.stbd { shutoff V2   normally open }\n', ''), 'engine E1\n', 'engine E1 { burns 6 L/h at 3000 rpm }\n');
        expect(storeFor(networkOf(await boatOf(one)), 'E1')).toMatchObject({ lacks: [{ about: 'T1', of: 'shape' }] });
        expect(storeFor(networkOf(await boatOf(edit(TWIN, 'engine E1\n', 'engine E1 { burns 6 L/h at 3000 rpm }\n'))), 'E1')).toMatchObject({ lacks: [{ about: 'T1', of: 'shape' }, { about: 'T2', of: 'shape' }] });
    });
    // What returns to the tank that does not feed it is gone: 42.5 x 0.8 / 25 = 1.36 h.
    test('a return to a tank that cannot give it back', async () => {
        const astray = edit(edit(DAY, 'transfer course Lift from T1.P1 to DT.L1 { shutoff V2 normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1 }', '').replace('{ V2 open }', ''), 'from E1 to DT.R1', 'from E1 to T1.O1');
        const found = enduranceFor(await boatOf(astray), 'E1', 2000 / 60);
        expect([hours(found.seconds), found.astray]).toEqual([[1.36, 1.36, 1.36], ['E1']]);
    });
    const two = (second: string): string => `${DAY}engine E2 {\n burns 10 L/h at 2000 rpm\n draws 20 L/h at 2000 rpm\n}\n${second}`;
    test('of two engines the one that is first short decides', async () => {
        // E2 has T1 alone, E1 both. Together 220 x 0.8 / 15 = 11.733 h, E2 alone 177.5 x 0.8 / 10 = 14.2 h, E1 alone 35.2 h: 11.733.
        const shared = await boatOf(two('supply course Feed2 from T1.P1 to E2 { hose S2 }\nreturn course Back2 from E2 to T1.O1 { hose B2 }\n'));
        expect(hours(enduranceOfAll(shared, 2000 / 60).seconds)[1]).toBe(11.733);
        // E2 at 30 L/h, by three times the burn: alone 177.5 x 0.8 / 30 = 4.733 h, together 220 x 0.8 / 35 = 5.029 h.
        const thirsty = await boatOf(two('supply course Feed2 from T1.P1 to E2 { hose S2 }\nreturn course Back2 from E2 to T1.O1 { hose B2 }\n').replace('burns 10 L/h', 'burns 30 L/h').replace('draws 20 L/h', 'draws 40 L/h'));
        expect(hours(enduranceOfAll(thirsty, 2000 / 60).seconds)[1]).toBe(4.733);
    });
    test('one that no tank feeds', async () => expect(enduranceFor(await boatOf(two('')), 'E2', 'full')).toMatchObject({ lacks: [{ about: 'E2', of: 'pickup' }] }));
});

test('no figure is not a number', () => {
    const figure = fc.oneof(fc.double(), fc.double({ min: 0, max: 1, noNaN: true }));
    const estimate = fc.tuple(figure, figure, figure).map((three) => { const [least, si, most] = three.toSorted((a, b) => a - b); return { least: least!, si: si!, most: most! }; });
    fc.assert(fc.property(estimate, estimate, estimate, (volume, kept, burn) => {
        const found = lasts(volume, kept, burn);
        if (found) expect([found.si, found.least, found.most].every(Number.isFinite)).toBe(true);
    }));
});
