/** The elevation read with a ruler, against the heights that stand in the text and hand arithmetic from them. ORLOP_FUZZ=100 draws so many boats by lot. */
import { describe, expect, test } from 'vitest';
import type { Look, Mark } from '../../../../src/documents/drawing/markup';
import { inWords } from '../../../../src/documents/drawing/words';
import { drawBoat, textOf } from '../../../analysis/boats-with-heights';
import { anew, example, shown, written, type Shown } from './boats';
import { crosses, overlap, rectOf } from './reader';

const RAD = Math.PI / 180;
const BY_LOT = Number(process.env['ORLOP_FUZZ'] ?? 8);
/** To the millimetre: the sheet is drawn to a tenth of a unit, which is less than half a millimetre at 1 : 15. */
const near = (heights: readonly number[], mm: number): boolean => heights.some((height) => Math.abs(height - mm) < 0.8);

/** Ottilwake has two rows in each view: Feed; and Back, Breather, Filler. */
const [UPRIGHT, STARBOARD, PORT] = [[0, 1], [2, 3], [4, 5]] as const;

describe('Ottilwake upright', () => {
    let found: Shown;
    const heights = async (id: string): Promise<readonly number[]> => { found ??= shown(await example('ottilwake')); return found.heights(id, UPRIGHT); };

    // Each figure stands in examples/ottilwake. Lid: 40 mm over ports at 660. Mouths: 25 mm off a bottom at 200. The tank is 420 high; half of a box is half its height: 200 + 210.
    test.each([
        ['V1', 660], ['S1', 560], ['PR1', 640], ['F1', 660], ['F1', 700], ['F1', 480], ['BS1', 705], ['G1', 660], ['S2', 760], ['LP1', 620], ['F2', 880], ['BS2', 900], ['E1', 820], ['BS3', 820], ['R', 560],
        ['T1', 200], ['T1', 620], ['T1', 410], ['T1', 599], ['T1', 221], ['T1.P1', 650], ['T1.P1', 225], ['T1.R1', 225], ['T1.vent', 630], ['VH1', 1560], ['VH1', 1500], ['FH1', 1420],
    ] as const)('%s is drawn at %i mm', async (id, mm) => { expect(near(await heights(id), mm), `${id}: ${(await heights(id)).map(Math.round).join(' ')}`).toBe(true); });

    test('a pipe stays between its ends, its lowest point and its crest', async () => {
        for (const [id, low, high] of [['S1', 560, 660], ['S1b', 640, 660], ['S2', 620, 760], ['S3', 620, 880], ['S4', 820, 880], ['VH1', 630, 1560], ['FH1', 630, 1420]] as const) {
            const all = await heights(id);
            // The symbols of open ends stand 6 units about theirs, which is 24 mm at this scale.
            const spare = id === 'VH1' || id === 'FH1' ? 25 : 1;
            expect(Math.min(...all), id).toBeGreaterThan(low - spare);
            expect(Math.max(...all), id).toBeLessThan(high + spare);
        }
    });

    test('each tag is printed with its height', async () => {
        await heights('F1');
        for (const [tag, words] of [['F1', '660'], ['BS1', '705'], ['PR1', '640'], ['S2', 'crest 760']] as const) {
            const own = found.words.find((one) => one.tag === tag)!;
            expect(own.bold).toBe(true);
            expect(found.words.some((one) => one.text === words && one.y === own.y && one.x > own.x && one.thing === tag), tag).toBe(true);
        }
    });

    test('all strips of a row stand on one scale, and it says what scale that is', async () => {
        await heights('F1');
        const to = Number(/1 : ([\d.]+) printed/.exec(found.svg)![1]);
        // A unit of an SVG is 1/96 inch of 25.4 mm (CSS Values and Units 4).
        for (const { pixel } of found.axes) expect(Math.abs(pixel / (25.4 / 96 * to) - 1)).toBeLessThan(0.003);
        // The datum of the text, and the level that was taken.
        expect(found.svg).toContain('above inside of hull at the engine bay');
        expect(found.svg).toContain('No level was said: tanks are drawn half full.');
    });
});

/*
 * z' = z cos φ - y sin φ, y to starboard and φ positive with the starboard side down. At 25°: cos 0.90631, sin 0.42262.
 * F1 660 up, 300 port:       660 x 0.90631 = 598.2; + 300 x 0.42262 = 126.8: 724.9 to starboard, 471.4 to port.
 * lid 700: 634.4 ± 126.8 = 761.2, 507.6.   drain 480: 435.0 ± 126.8 = 561.8, 308.2.   V1 660 up, 700 stbd: 598.2 ∓ 295.8 = 302.3, 894.0.
 * PR1 640 up, 300 port: 580.0 ± 126.8 = 706.8, 453.3.   outlet 1500 up, 1500 stbd: 1359.5 ∓ 633.9 = 725.5, 1993.4.   E1 820 up, 200 port: 743.2 ± 84.5 = 827.7, 658.6.
 * T1 from 200 to 620 up and 550 to 1150 stbd. To starboard: lowest 200 x 0.90631 - 1150 x 0.42262 = -304.8, highest 620 x 0.90631 - 550 x 0.42262 = 329.5;
 * to port: lowest 181.3 + 232.4 = 413.7, highest 561.9 + 486.0 = 1047.9. Half of a box is parted by a plane through its middle (410 up, 850 stbd): 371.6 ∓ 359.2 = 12.4, 730.8.
 */
test.each([
    ['F1', 724.9, 471.4], ['F1', 761.2, 507.6], ['F1', 561.8, 308.2], ['V1', 302.3, 894.0], ['PR1', 706.8, 453.3], ['VH1', 725.5, 1993.4], ['E1', 827.7, 658.6],
    ['T1', -304.8, 413.7], ['T1', 329.5, 1047.9], ['T1', 12.4, 730.8],
] as const)('leaning 25° %s stands at %f mm, and at %f mm to port', async (id, starboard, port) => {
    const found = shown(await example('ottilwake'));
    expect(near(found.heights(id, STARBOARD), starboard), found.heights(id, STARBOARD).map(Math.round).join(' ')).toBe(true);
    expect(near(found.heights(id, PORT), port), found.heights(id, PORT).map(Math.round).join(' ')).toBe(true);
});

/** The surface in a box by a fine grid of its cross-section: so much of it lies below. */
function surfaceByGrid(heel: number, share: number): number {
    const heights: number[] = [];
    for (let y = 551; y < 1150; y += 2) for (let z = 201; z < 620; z += 2) heights.push(z * Math.cos(heel) - y * Math.sin(heel));
    return heights.toSorted((a, b) => a - b)[Math.floor(share * heights.length)]!;
}

test.each([[14, 0.5], [-14, 0.5], [14, 0.7], [-14, 0.3], [-20, 0.95], [25, 0.05], [0, 0.7]])('at %i° with %f of it the surface is where a grid of the tank has it', async (degrees, level) => {
    const found = shown(await example('ottilwake'), { heel: degrees * RAD, level });
    const expected = surfaceByGrid(degrees * RAD, level);
    const heights = found.heights('T1', [0]);
    expect(heights.some((height) => Math.abs(height - expected) < 3), `${expected}: ${heights.map(Math.round).join(' ')}`).toBe(true);
    expect(found.axes.length).toBe(2);
});

/** Words under the parts of Feed, with the height at which the part is drawn; V1 and what follows it is full and stands open to T1. */
const under = (found: Shown, id: string): string[] => found.words.filter(({ thing, text }) => thing === id && /(floods|falls back|even|can't tell|holds|shut off)$/.test(text)).map(({ text }) => text);

/*
 * A joint below the surface by more than the checks hold back lets the tank out; one above it does not. The primer's two checks hold 2 x 0.1 kPa, some 25 mm; within 20 mm it
 * is called even. So 60 mm either way is plain. S1, G1, S2 and R, whose places athwart are not in the text, are given them: else it cannot be told what they do as she leans.
 */
test.each([[-25, 0.5], [-14, 0.95], [-8, 0.5], [0, 0.95], [10, 0.5], [25, 0.95]])('at %i° with %f what floods is drawn below the surface, and what does not, above it', async (degrees, level) => {
    const boat = await example('ottilwake', ['low at 560 mm   fire-resistant', 'low at 560 mm up, 0 mm stbd   fire-resistant'], ['at 660 mm\n  hose S2', 'at 660 mm up, 300 mm port\n  hose S2'], ['crest at 760 mm', 'crest at 760 mm up, 200 mm port'], ['low at 560 mm\n', 'low at 560 mm up, 0 mm stbd\n'], ['injection in-line', 'backflow blocks\n  injection in-line']);
    const found = shown(boat, { heel: degrees * RAD, level });
    const surface = surfaceByGrid(degrees * RAD, level);
    let told = 0;
    for (const id of ['V1', 'PR1', 'G1', 'LP1', 'F1']) {
        // The flat line of a part lies at its ports; a pipe's does not, so parts alone are asked.
        const axis = found.axes[0]!;
        const flat = found.strokes.filter(({ thing, from, to }) => thing === id && from[1] === to[1] && Math.abs(to[0] - from[0]) > 25)[0]!;
        const drain = found.strokes.filter(({ thing, from, to }) => thing === id && from[0] === to[0]).flatMap(({ from, to }) => [from[1], to[1]]);
        const [ports, lowest] = [axis.heightAt(flat.from[1]), Math.min(...drain.map(axis.heightAt))];
        const words = under(found, id);
        const at = id === 'F1' ? lowest : ports;
        if (at < surface - 60) { told++; expect(words.some((word) => word.endsWith('floods')), `${id} at ${at}, surface ${surface}: ${words.join()}`).toBe(true); }
        if (at > surface + 60) { told++; expect(words.some((word) => word.endsWith('floods')), `${id} at ${at}, surface ${surface}: ${words.join()}`).toBe(false); }
    }
    expect(told).toBeGreaterThan(2);
});

test('a shut valve is black and said to be shut, and what it cuts off does not flood', async () => {
    // The drain stands at 480 and the full tank's surface at 599: with V1 open it floods. Back through the engine nothing comes here.
    const boat = await example('ottilwake', ['injection in-line', 'backflow blocks\n  injection in-line']);
    const [run, service] = [shown(boat, { heel: 0, level: 0.95 }), shown(boat, { heel: 0, level: 0.95, lineUp: 'SERVICE' })];
    expect(under(run, 'F1')).toContain('drain floods');
    expect(under(service, 'F1').join()).not.toContain('floods');
    const black = ({ svg }: Shown): boolean => /<polygon class="solid"/.test(/<g data-id="V1".*?<\/g>/s.exec(svg)![0]);
    expect([black(run), black(service)]).toEqual([false, true]);
    expect(service.words.some(({ thing, text }) => thing === 'V1' && text === 'shut')).toBe(true);
});

/*
 * Brackenwake leaning 15° to port: SV1, 640 up and 100 port, comes to 640 x 0.96593 - 100 x 0.25882 = 592.3. Half of a tank: 600 up in the middle. Each surface is read from the drawing.
 * Taken apart, the selector opens all of its ports: the tank that stands above it comes, though it is set to the other.
 */
test('with several tanks it is said which one floods', async () => {
    const found = shown(await example('brackenwake'), { heel: -15 * RAD });
    const words = found.words.filter(({ thing }) => thing === 'SV1').map(({ text }) => text);
    const [port, starboard] = ['T1', 'T2'].map((tank) => Number(new RegExp(`${tank} half full with [^,]*, surface at (-?\\d+) mm`).exec(found.svg)![1]));
    expect(port).toBeLessThan(592 - 60);
    expect(starboard).toBeGreaterThan(592 + 60);
    expect(words).toContain('floods from T2');
});

describe('what is not stated', () => {
    test('is named, and drawn at no height', async () => {
        const boat = await example('ottilwake', ['primer PR1    at 640 mm up, 300 mm port', 'primer PR1'], ['lid at 40 mm over ports', 'lid unknown'], ['crest at 760 mm', 'crest unknown'], ['bleed BS2   at 900 mm', 'bleed BS2']);
        const found = shown(boat, { heel: 0 });
        const line = found.said.find((text) => text.startsWith('Not on the drawing for want of:'))!;
        for (const fact of ['the height of the ports of PR1', 'the height of the lid of F1', 'the height of the crest of S2', 'the height of BS2']) expect(line).toContain(fact);
        expect(line.match(/PR1/g)).toHaveLength(1);
        expect(found.svg).toContain('Not on the drawing for want of:');
        // Its tag stands at the foot; no line, symbol or height of it stands anywhere.
        expect(found.strokes.filter(({ thing }) => thing === 'PR1')).toEqual([]);
        expect(found.shapes.filter(({ thing }) => thing === 'PR1')).toEqual([]);
        const own = found.words.filter(({ thing }) => thing === 'PR1');
        expect(own.map(({ text }) => text).join(' ')).toContain('PR1 height not stated');
        for (const { y } of own) expect(y).toBeGreaterThan(found.axes[0]!.bottom);
        expect(found.things.has('BS2')).toBe(false);
        // S2 runs over a crest of unknown height: it is broken off at both ends, and at none of them does it rise.
        expect(Math.max(...found.heights('S2', [0]))).toBeLessThan(662 + 25);
        expect(found.strokes.filter(({ thing, from, to }) => thing === 'S2' && Math.abs(from[1] - to[1]) > 12)).toEqual([]);
    });

    test('leaning, a place athwart that is not stated is named too', async () => {
        const found = shown(await example('ottilwake'), { heel: 10 * RAD });
        expect(found.said.find((text) => text.startsWith('Not on a view in which she leans'))).toContain('where G1 stands along and across the boat');
        expect(found.words.filter(({ thing }) => thing === 'G1').map(({ text }) => text).join(' ')).toContain('place athwart not stated');
        expect(found.strokes.filter(({ thing }) => thing === 'G1')).toEqual([]);
    });

    test('without any height there is no scale, and everything has its tag', async () => {
        const found = shown(await written('vessel Bare\ntank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 { shutoff V1   hose S1   filter F1 { bleed BS1 } }'));
        expect(found.axes).toEqual([]);
        for (const tag of ['T1', 'T1.P1', 'V1', 'S1', 'F1', 'E1']) expect(found.words.some((one) => one.tag === tag), tag).toBe(true);
        expect(found.svg).toContain('the size and height of T1');
    });
});

const LOOKS: readonly Look[] = ['live', 'dead', 'suction', 'pressure', 'about', 'turned', 'open', 'number', 'finding', 'changed', 'added', 'removed'];

/** Every label that lies on another, or on a line. */
function lying({ words, strokes, width, height }: Shown): string[] {
    const boxes = words.filter(({ text }) => text !== '').map((one) => ({ text: one.text, box: rectOf(one) }));
    return boxes.flatMap(({ text, box }, i) => [
        ...(box.left < 0 || box.right > width || box.bottom > height ? [`${text} is off the sheet`] : []),
        ...boxes.slice(i + 1).filter((other) => overlap(box, other.box)).map((other) => `${text} on ${other.text}`),
        ...strokes.filter((stroke) => crosses(stroke, box)).map(({ thing }) => `${text} on a line of ${thing ?? 'the sheet'}`),
    ]);
}

describe('no label lies on another or on a line', () => {
    test('as the reader sees it', async () => {
        const found = shown(await example('ottilwake'));
        const first = found.words[0]!;
        expect(lying({ ...found, words: [...found.words, { ...first, text: 'other', x: first.x + 4 }] })).toContain(`${first.text} on other`);
        expect(lying({ ...found, strokes: [...found.strokes, { from: [0, first.y - 4], to: [900, first.y - 4], thing: 'X' }] })).toContain(`${first.text} on a line of X`);
    });
    test.each(['ottilwake', 'brackenwake', 'marrenwake', 'ottilwake-mended', 'brackenwake-mended'])('on %s, plain and marked', async (name) => {
        const boat = await example(name);
        expect(lying(shown(boat))).toEqual([]);
        const ids = [...boat.parts, ...boat.consumers, ...boat.tanks, ...boat.tanks.flatMap(({ fittings }) => fittings), ...boat.parts.flatMap(({ vents }) => vents)].map(({ id }) => id);
        const marks = ids.flatMap((about, i): Mark[] => [{ about, as: LOOKS[i % LOOKS.length]!, words: `${i} kPa` }, ...(i % 3 === 0 ? [{ about, as: 'number' as const, words: String(i) }] : [])]);
        expect(lying(shown(boat, { level: 0.8, markup: { title: 'marked', marks, notes: ['One note.'] } }))).toEqual([]);
    });
    test('on boats drawn by lot, with heights left out', async () => {
        for (let seed = 1; seed <= BY_LOT; seed++) expect(lying(shown(await written(textOf(drawBoat(seed, seed % 3 === 0 ? 0.3 : 0))), { heel: (seed % 13 - 6) * 4 * RAD, level: seed % 13 / 12 })), `seed ${seed}`).toEqual([]);
    });
});

test('marks are drawn: words, numbers in rings, clouds, and the ink of what the sheet is about', async () => {
    const boat = await example('ottilwake');
    const plain = shown(boat, { heel: 0 });
    const found = shown(boat, { heel: 0, markup: { title: 'Step 7', marks: [{ about: 'F1', as: 'about', words: 'renew' }, { about: 'BS1', as: 'number', words: '1' }, { about: 'LP1', as: 'changed' }, { about: 'S2', as: 'dead' }, { about: 'S3', as: 'live', words: '9 kPa' }], notes: ['A note.'] } });
    const own = ({ svg }: Shown, id: string): string => new RegExp(`<g data-id="${id}".*?</g>`, 's').exec(svg)![0];
    expect(own(plain, 'F1')).not.toContain('accent');
    expect(own(found, 'F1')).toContain('class="accent"');
    expect(own(found, 'F1')).toContain('>renew<');
    expect(own(found, 'BS1')).toMatch(/<rect[^>]* rx="6.5"\/><text[^>]*>1</);
    // A cloud is made of arcs.
    expect([own(plain, 'LP1'), own(found, 'LP1')].map((body) => (body.match(/A[\d.]+ [\d.]+ 0 0 1/g) ?? []).length > 7)).toEqual([false, true]);
    const weight = (body: string): number => Number(/<polyline[^>]*stroke-width="([\d.]+)"/.exec(body)![1]);
    expect(weight(own(found, 'S2'))).toBeLessThan(weight(own(plain, 'S2')));
    expect(own(found, 'S2')).toMatch(/<polyline[^>]*stroke-dasharray/);
    expect(weight(own(found, 'S3'))).toBeGreaterThan(weight(own(plain, 'S3')));
    expect(found.words.filter(({ text }) => ['9 kPa', 'changed', 'A note.', 'Elevation: Step 7'].includes(text)).length).toBeGreaterThanOrEqual(4);
});

test.each(['ottilwake', 'brackenwake', 'marrenwake'])('on %s everything has one group, and the drawing and its words name all of it', async (name) => {
    const boat = await example(name);
    const found = shown(boat);
    for (const [id, count] of found.things) expect(count, id).toBe('+');
    for (const { id } of [...boat.parts, ...boat.consumers, ...boat.tanks, ...boat.tanks.flatMap(({ fittings }) => fittings.filter(({ id: own }) => boat.joints.some(({ from, to }) => from === own || to === own)))]) expect(found.things.has(id), id).toBe(true);
    for (const { tag, name: named } of boat.parts) expect(found.said.some((text) => text.startsWith(`${tag ?? named},`)), named).toBe(true);
    expect(shown(await anew(name)).svg).toBe(found.svg);
});

test('legs side by side are unrolled one after another, each joined to what it is joined to', async () => {
    const found = shown(await example('marrenwake'), { heel: 0 });
    // CH1-P stands before and after each of its two primaries, and once more where the strip of the second begins and ends.
    expect(found.words.filter(({ tag }) => tag === 'CH1-P').length).toBe(4);
    expect(found.words.filter(({ tag }) => tag === 'FB-P').length).toBe(1);
});

describe('rough texts', () => {
    const whole = (svg: string): void => {
        const open: string[] = [];
        for (const [, closing, name, self] of svg.matchAll(/<(\/?)([a-z]+)[^>]*?(\/?)>/g)) { if (self) continue; if (closing) expect(open.pop()).toBe(name); else open.push(name!); }
        expect(open).toEqual([]);
        expect(svg).not.toMatch(/NaN|Infinity|undefined|&(?!(amp|lt|gt|quot|#39);)/);
    };
    test.each([
        ['nothing at all', ''], ['one part', 'supply course A { hose S1 }'], ['a tank alone', 'tank T1 { box 800 x 600 x 420 mm   low aft inner corner at 200 mm }'],
        ['a valve that is joined to nothing', 'selector SV1 at 300 mm {\n  ports a, b\n  position X joins a, b\n}\nengine E1 { inlet at 500 mm }'],
        ['names of 80 signs', `vessel ${'W'.repeat(80)} "${'測'.repeat(80)}"\ntank ${'Ω'.repeat(80)} { box 800 x 600 x 420 mm   low aft inner corner at 200 mm   pickup P1   top at 650 mm }\nsupply course ${'é'.repeat(80)} from ${'Ω'.repeat(80)}.P1 { shutoff ${'V'.repeat(80)} at 400 mm   hose ${'Ж'.repeat(80)}   filter ${'م'.repeat(80)} { ports at 500 mm } }`],
        ['hostile words', 'vessel X "<script>alert(1)</script> & \u202e]]>"\nengine E1 "<b onload=x>" { inlet at 500 mm }'],
        ['a height of a mountain, and one in the deep', 'vessel X { waterline at 500 mm }\nsupply course A { shutoff V1 at 8848 m   hose S1   shutoff V2 at -11 km   shutoff V3 at 99999999999999999999 m }'],
        ['a ring', 'supply course A from J1 to J1 { tee J1   hose S1 }\nsupply course B from B1 to B1 { shutoff B1   hose S2 }'],
    ])('%s', async (_, text) => {
        const found = shown(await written(text));
        whole(found.svg);
        expect(lying(found)).toEqual([]);
        expect(found.said.at(-1)).toContain('come before this sheet');
    });
    test('three hundred parts', async () => {
        const parts = Array.from({ length: 150 }, (_, i) => `shutoff V${i} at ${400 + (i * 37) % 500} mm\nhose H${i}`).join('\n');
        const found = shown(await written(`tank T1 { box 800 x 600 x 420 mm   low aft inner corner at 200 mm   pickup P1   mouth at 225 mm   top at 650 mm }\nengine E1 { inlet at 900 mm }\nsupply course Feed from T1.P1 to E1 {\n${parts}\n}`));
        whole(found.svg);
        expect(lying(found)).toEqual([]);
        for (let i = 0; i < 150; i++) expect(found.things.has(`V${i}`)).toBe(true);
        expect(found.width).toBeLessThan(1800);
    });
    test('levels and leans that are none', async () => {
        const boat = await example('ottilwake');
        for (const sheet of [{ level: NaN, heel: NaN }, { level: 7, heel: Infinity }, { level: -1, heel: 1e9 }, { lineUp: 'NONE' }, { heel: Math.PI / 2 }]) whole(shown(boat, sheet).svg);
    });
});

test('a check that is turned end for end is drawn against its line, and told so', async () => {
    const boat = await written('vessel Turned\ntank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 {\n  check CV1   at 600 mm\n  check CV2   at 600 mm   reversed\n}\nline-up RUN run is normal\n');
    const { svg, said } = shown(boat);
    // The tip of the triangle, and the bar beyond it, lie where liquid goes: to the right as a strip is read, to the left of a check that is turned.
    const reach = (id: string): readonly [tip: number, bar: number] => {
        const body = new RegExp(`<g data-id="${id}"[\\s\\S]*?</g>`).exec(svg)![0];
        const [foot, , tip] = /points="([^"]*)"/.exec(body)![1]!.split(' ').map((point) => Number(point.split(',')[0]));
        return [tip! - foot!, Number(/d="M([\d.]+) [\d.]+V/.exec(body.slice(body.indexOf('<polygon')))![1]) - foot!];
    };
    for (const size of reach('CV1')) expect(size).toBeGreaterThan(0);
    for (const size of reach('CV2')) expect(size).toBeLessThan(0);
    expect(said.filter((line) => line.includes('its arrow points against the line')).map((line) => line.split(',')[0])).toEqual(['CV2']);
    expect(inWords(boat, {}).filter(({ text }) => text.includes('its arrow points against the line')).map(({ about }) => about)).toEqual(['CV2']);
});

test('a lift pump, which the engine drives, is not explained as a pump worked by hand', async () => {
    const { svg } = shown(await written('vessel Driven\ntank T1 { pickup P1 }\nengine E1\nsupply course Feed from T1.P1 to E1 { lift pump LP1 at 600 mm }\nline-up RUN run is normal\n'));
    expect(svg).toContain('lift pump<');
    expect(svg).not.toContain('worked by hand');
});
