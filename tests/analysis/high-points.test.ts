/** High points of lines drawn by lot, against a walk over the row of their heights. */
import { expect, test } from 'vitest';
import { profileOf } from '../../src/analysis/air/high-points';
import { networkOf } from '../../src/analysis/topology/network';
import { running } from '../../src/analysis/topology/paths';
import { load } from '../checks/boats';

/** Numerical Recipes' generator: the same lines on every machine. */
function lot(seed: number): (below: number) => number {
    let state = seed;
    return (below) => { state = (Math.imul(state, 1664525) + 1013904223) >>> 0; return Math.floor((state / 2 ** 32) * below); };
}

interface Stop { readonly name: string; readonly mm: number }

/**
 * From the tank's fitting over valves, and crests of hoses between them, to the engine: no two at one height, and none within 20 mm of another. A hose
 * is nowhere lower for a crest that is written below one of its ends: such a crest is none.
 */
function lineOf(seed: number): { stops: Stop[]; text: string } {
    const draw = lot(seed);
    const heights = Array.from({ length: 40 }, (_, i) => 200 + 25 * i);
    const take = (): number => heights.splice(draw(heights.length), 1)[0]!;
    const stops: Stop[] = [{ name: 'T1.P1', mm: take() }];
    const lines: string[] = [];
    const valves = 3 + draw(8);
    for (let n = 1; n <= valves; n++) {
        const crest = draw(3) === 0 ? take() : undefined;
        const valve = { name: `V${n}`, mm: take() };
        if (crest !== undefined && crest > Math.max(valve.mm, stops.at(-1)!.mm)) stops.push({ name: `S${n}`, mm: crest });
        stops.push(valve);
        lines.push(`hose S${n}   bore 8 mm${crest === undefined ? '' : `   crest at ${crest} mm`}`, `shutoff V${n}   at ${valve.mm} mm`);
    }
    const inlet = take();
    stops.push({ name: 'E1', mm: inlet });
    const text = `tank T1 { pickup P1   top at ${stops[0]!.mm} mm   vent }\nengine E1 { inlet at ${inlet} mm }\nsupply course Feed from T1.P1 to E1 {\n${lines.join('\n')}\nhose SL   bore 8 mm\n}\n`;
    return { stops, text };
}

/** How far the row goes down on one side of a stop before it goes higher, mm. */
function depth(stops: readonly Stop[], i: number, step: 1 | -1): number {
    let low = stops[i]!.mm;
    for (let j = i + step; stops[j] !== undefined && stops[j]!.mm < stops[i]!.mm; j += step) low = Math.min(low, stops[j]!.mm);
    return stops[i]!.mm - low;
}

test('120 lines', async () => {
    let met = 0;
    for (let seed = 1; seed <= 120; seed++) {
        const { stops, text } = lineOf(seed);
        const expected = stops.flatMap(({ name, mm }, i) => (i === 0 || i === stops.length - 1 || depth(stops, i, -1) <= 20 || depth(stops, i, 1) <= 20 ? [] : [{ name, mm, rise: depth(stops, i, -1), fall: depth(stops, i, 1) }]));
        const { boat } = await load(text);
        const profile = profileOf(running(networkOf(boat), new Map(), 'all open'), 'E1')!;
        const found = profile.points.map(({ part, height, rise, fall }) => ({ name: part, mm: Math.round(height * 1000), rise: Math.round(rise * 1000), fall: Math.round(fall * 1000) }));
        const byName = (a: { name: string }, b: { name: string }): number => (a.name < b.name ? -1 : 1);
        expect([profile.gaps, profile.unsure], text).toEqual([false, []]);
        expect(found.sort(byName), text).toEqual(expected.sort(byName));
        met += found.length;
    }
    expect(met).toBeGreaterThan(200);
});
