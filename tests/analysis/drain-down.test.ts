/** What a tank gives at an opening, against a simulation in small steps, on boxes, places, levels and heels drawn by lot. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { open } from '../../src/analysis/opening/open';
import { openingNamed } from '../../src/analysis/opening/openings';
import { plumbing } from '../../src/analysis/opening/plumbing';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { networkOf } from '../../src/analysis/topology/network';
import { load } from '../checks/boats';
import { drained, heightAt, type Box, type Point } from './drain-down-by-steps';

const side = (stbd: number): string => (stbd < 0 ? `${-stbd} mm port` : `${stbd} mm stbd`);
const spot = ([fwd, stbd, up]: Point): string => `${up} mm up, ${fwd} mm fwd, ${side(stbd)}`;

interface Drawn { box: Box; toPort: boolean; level: number; heel: number; trim: number; opening: Point; mouth: Point }

function text({ box: { at: [x, y, z], size: [length, breadth, high] }, toPort, opening, mouth }: Drawn): string {
    // The box grows outboard from its inner corner, to port where that is written to port.
    const inner = toPort ? y + breadth : y;
    return `
vessel Lotwake {
  heights from "keel"
}
tank T1 carries diesel {
  box ${length} x ${breadth} x ${high} mm   low aft inner corner at ${spot([x, inner, z])}
  pickup P1   mouth at ${mouth[2] - z} mm off bottom   top at ${spot([mouth[0], mouth[1], z + high + 20])}
}
engine E1 { backflow blocks }
supply course Feed from T1.P1 to E1 {
  hose S1
  filter F1   at ${spot([opening[0], opening[1], opening[2] - 40])}   lid at ${spot(opening)}
}
`;
}

const within = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min, max });
const drawn: fc.Arbitrary<Drawn> = fc.record({
    toPort: fc.boolean(), x: within(0, 4000), inner: within(1, 900), z: within(50, 800), length: within(300, 1200), breadth: within(200, 800), high: within(200, 700),
    level: within(3, 98), heel: within(-40, 40), trim: within(-8, 8), u: within(1, 99), v: within(1, 99), off: within(5, 150), ox: within(0, 5000), oy: within(-1200, 1200), oz: within(40, 1400),
}).map(({ toPort, x, inner, z, length, breadth, high, level, heel, trim, u, v, off, ox, oy, oz }) => {
    const y = toPort ? -inner - breadth : inner;
    return { box: { at: [x, y, z], size: [length, breadth, high] }, toPort, level, heel, trim, opening: [ox, oy === 0 ? 1 : oy, oz], mouth: [Math.round(x + length * u / 100), Math.round(y + breadth * v / 100) || 1, z + off] };
});

test('litres to 0.5 % of the tank, and whether anything comes', async () => {
    const met = { floods: 0, dry: 0, spilled: 0 };
    await fc.assert(fc.asyncProperty(drawn, async (lot) => {
        const { box: { size }, level, heel, trim, opening, mouth } = lot;
        const gross = size[0] * size[1] * size[2] / 1e6;
        const { boat } = await load(text(lot));
        const condition = { attitude: { heel: heel * Math.PI / 180, trim: trim * Math.PI / 180 }, volumes: new Map([['T1', gross * level / 1e5]]) };
        const found = open(plumbing(networkOf(boat), lineUpsOf(boat)[0]!.positions), openingNamed(boat, 'F1', 'lid')!, condition);
        const { surface, litres } = drained(lot.box, gross * level / 100, heel, trim, opening, mouth);
        const [over, wet] = [surface - heightAt(opening, heel, trim), surface - heightAt(mouth, heel, trim)];
        // The simulation knows a surface to some mm: what lies nearer than that to 20 mm, or to the mouth, may go either way.
        if (Math.abs(over - 20) < 3 || Math.abs(over + 20) < 3 || Math.abs(wet) < 3) return;
        const outcome = found.tanks[0]!.outcome;
        expect(outcome).toBe(wet < 0 ? 'dry' : over > 20 ? 'floods' : over < -20 ? 'below' : 'level');
        if (outcome === 'dry') met.dry++;
        if (outcome !== 'floods') return;
        met.floods++;
        if (litres < gross * level / 100 - 1) met.spilled++;
        expect(Math.abs(found.volume! * 1e3 - litres) / gross, `${found.volume! * 1e3} L against ${litres} L of ${gross} L`).toBeLessThan(0.005);
    }), { seed: 20261125, numRuns: 120 });
    // The lots are no use if they all end alike.
    expect(Math.min(met.floods, met.spilled)).toBeGreaterThan(20);
    expect(met.dry).toBeGreaterThan(0);
});
