/** What a drawing says of arrangements in which fuel moves without an engine, or in which what comes is not fuel. */
import { expect, test } from 'vitest';
import { drawElevation } from '../../../src/documents/drawing/elevation/elevation';
import { markupFor } from '../../../src/documents/drawing/markups/markup';
import { topologyOf } from '../../../src/documents/drawing/schematic/runs';
import { layOut } from '../../../src/layout/elk';
import { laidOut, pictureOf } from '../../../src/layout/schematic';
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

test('a line without a part in it is as live as the engine that it leads to', async () => {
    // One tank and one engine, screwed to one another both ways: all that is written is live while she runs.
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Bare\ntank T1 { pickup P1\n drop R1 }\nengine E1\nsupply course Feed from T1.P1 to E1\nreturn course Back from E1 to T1.R1\nline-up RUN run is normal\n' });
    const markup = markupFor(readShow('line-up', boat), { boat });
    if ('refused' in markup) throw new Error(markup.refused);
    const { svg } = pictureOf(await laidOut(boat, layOut), { markup });
    for (const course of ['Feed', 'Back']) expect(Number(new RegExp(`<g data-course="${course}"><path [^>]*stroke-width="([\\d.]+)"`).exec(svg)![1]), course).toBeGreaterThan(3);
});

test('a port of a selector that no line leads to has the sign of an end that is joined to nothing', async () => {
    // Of four ports two are used.
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Spare\ntank T1 { pickup P1 }\nengine E1\nselector SV1 {\n  ports a, b, c, d\n  position ONE joins a, c\n  position TWO joins b, d\n}\nsupply course Feed from T1.P1 to SV1.a\nsupply course On from SV1.c to E1\nline-up RUN run is normal { SV1 ONE }\n' });
    const { svg } = pictureOf(await laidOut(boat, layOut), {});
    const cross = /d="M[\d.]+ [\d.]+L[\d.]+ [\d.]+M[\d.]+ [\d.]+L[\d.]+ [\d.]+"/g;
    expect(svg.match(cross)).toHaveLength(2);
    expect(svg).toContain('>end that is joined to nothing<');
});

test('a valve that nothing places is told to be taken as open, on every drawing and in its words', async () => {
    const boatWith = async (facts: string) => (await loadBoat({ 'boat.orlop': `vessel Unsaid\ntank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 { shutoff V1   ${facts} }\nline-up RUN run is normal\n` })).boat;
    for (const [facts, isTold] of [['', true], ['normally open', false]] as const) {
        const boat = await boatWith(facts);
        const [schematic, elevation] = [pictureOf(await laidOut(boat, layOut), {}), drawElevation(boat, {})];
        for (const { svg } of [schematic, elevation]) expect(svg.includes('V1 is taken as open'), facts).toBe(isTold);
        expect(schematic.words.some(({ about, text }) => about === 'V1' && text.includes('taken so')), facts).toBe(isTold);
        expect(elevation.words.some(({ text }) => text.includes('V1 is taken as open')), facts).toBe(isTold);
    }
});

test('of a line at a port that is neither inlet, outlet nor circuit it is not told that nothing moves in it', async () => {
    // A leak-off: fuel comes from it while she runs, and no rule of the language says so.
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Weeping\ntank T1 { pickup P1\n drop R1 }\nengine E1\nsupply course Feed from T1.P1 to E1 { filter F1 }\nreturn course Leak from E1.rail to T1.R1 { hose H1 }\nline-up RUN run is normal\nline-up STOP run from RUN { E1 stopped }\n' });
    const told = (lineUp: string) => { const markup = markupFor(readShow('line-up', boat), { boat, lineUp }); if ('refused' in markup) throw new Error(markup.refused); return markup; };
    expect(looks(boat, 'RUN').get('F1')).toBe('live');
    expect(looks(boat, 'RUN').has('H1')).toBe(false);
    expect(told('RUN').notes.join(' ')).toContain('What moves in Leak is not told: nothing says what comes and goes at E1.rail.');
    expect(told('RUN').notes.join(' ')).not.toContain('Nothing moves in');
    expect(looks(boat, 'STOP').get('H1')).toBe('dead');
});

test('a hose that rises at the tank and falls behind is drawn so', async () => {
    // S1 of boat 18 begins at CVA; its crest lies 2400 mm forward and its lowest point 2800 mm, so the crest is met first: the line goes up before it goes down.
    const { svg } = drawElevation(await boatOf(18), { heel: 0 });
    const line = /data-id="S1"[\s\S]*?points="([^"]+)"/.exec(svg)![1]!.split(' ').map((point) => point.split(',').map(Number) as [number, number]);
    const [highest, lowest] = [Math.min(...line.map(([, y]) => y)), Math.max(...line.map(([, y]) => y))];
    expect(line.find(([, y]) => y === highest)![0]).toBeLessThan(line.find(([, y]) => y === lowest)![0]);
});

test('heights stand on a schematic to the millimetre, as they were written', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': 'vessel Probewake\ntank T1 { pickup P1 mouth at 1515 mm }\nengine E1\nsupply course Feed from T1.P1 to E1 { hose S1   crest at 2348 mm }\n' });
    const { svg } = pictureOf(await laidOut(boat, layOut), {});
    expect(svg).toContain('>mouth 1515 mm<');
    expect(svg).toContain('>crest 2348 mm<');
});
