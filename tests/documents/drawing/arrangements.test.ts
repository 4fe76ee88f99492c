/** What a drawing says of arrangements in which fuel moves without an engine, or in which what comes is not fuel. */
import { expect, test } from 'vitest';
import { drawElevation } from '../../../src/documents/drawing/elevation/elevation';
import { markupFor } from '../../../src/documents/drawing/markups/markup';
import { topologyOf } from '../../../src/documents/drawing/schematic/runs';
import { readShow } from '../../../src/language/ask/show';
import { loadBoat } from '../../../src/language/load';
import { topology } from '../../topologies/topologies';

const boatOf = async (n: number) => (await loadBoat({ 'boat.orlop': topology(n).text })).boat;
const looks = (boat: Awaited<ReturnType<typeof boatOf>>, lineUp: string): Map<string, string> => {
    const markup = markupFor(readShow('line-up', boat), { boat, lineUp });
    if ('refused' in markup) throw new Error(markup.refused);
    return new Map(markup.marks.map(({ about, as }) => [about, as]));
};

test('through an open crossover fuel moves by itself, and none through a shut one', async () => {
    const boat = await boatOf(17);
    // Both its valves are open in LEVEL and shut in RUN; no pump stands between the tanks.
    const [level, run] = [looks(boat, 'LEVEL'), looks(boat, 'RUN')];
    expect(['VX1', 'X', 'VX2'].map((id) => [level.get(id), run.get(id)])).toEqual([['live', 'dead'], ['live', 'dead'], ['live', 'dead']]);
});

test('what the sea reaches is not told as shut off', async () => {
    const boat = await boatOf(19);
    const told = drawElevation(boat, { heel: 0 }).svg;
    expect(told.match(/>the sea</g)!.length).toBeGreaterThanOrEqual(4);
    expect(told).not.toContain('>shut off<');
    expect(looks(boat, 'RUN').get('W1')).toBe('live');
});

test('of all boats a tank has nothing but vents and fills on its left', async () => {
    for (const n of [5, 6, 7, 17, 21]) {
        const { fixtures } = topologyOf(await boatOf(n));
        const west = fixtures.flatMap(({ tank, outlets }) => tank ? outlets.filter(({ side }) => side === 'west').map(({ point }) => tank.fittings.find(({ id }) => id === point)!.kind) : []);
        expect(new Set(west)).toEqual(new Set(['vent', 'fill']));
    }
});
