/** Pressures at their places: by the height of a liquid that stands still, and what is not told. */
import { expect, test } from 'vitest';
import { toSI } from '../../../../src/model/units';
import { boatFrom, boatOf, idsOf, marked, shown } from './shown';

/**
 * A tank of 1000 x 500 x 400 mm whose bottom is 400 mm up: half full, its surface is 600 mm up. F1 hangs 300 mm below that, V1 stands 200 mm
 * above; S2 rises to 900 mm between two ends that both stand lower than the surface.
 */
const STANDING = `vessel Stillwake {
  waterline at 300 mm
  envelope heel 10 deg   trim 2 deg   level 5 to 95 %
}
tank T1 carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 400 mm up, 1000 mm fwd, 100 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 800 mm up, 1500 mm fwd, 300 mm stbd
  drop R1   bore 8 mm   mouth at 25 mm off bottom   top at 800 mm up, 1500 mm fwd, 300 mm stbd
  vent at 800 mm up, 1500 mm fwd, 300 mm stbd
}
engine E1 { inlet at 350 mm up, 1500 mm fwd, 300 mm stbd }
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 800 mm up, 1500 mm fwd, 300 mm stbd   normally open
  hose S1   bore 8 mm   length 1 m
  filter F1   ports at 300 mm up, 1500 mm fwd, 300 mm stbd
  hose S2   bore 8 mm   length 1 m   crest at 900 mm up, 1500 mm fwd, 300 mm stbd
  filter F2   ports at 500 mm up, 1500 mm fwd, 300 mm stbd
  tube S3   bore 8 mm   length 1 m
}
return course Back from E1 to T1.R1 { tube R1   bore 8 mm   length 1 m }
vent course Up from T1 to air { hose VH1   bore 16 mm   outlet at 1500 mm up, 1500 mm fwd, 300 mm stbd }
line-up RUN run is normal
`;

/** The figure in front of kPa. */
const figure = (words: string | undefined): number => Number(/([\d.]+) kPa/.exec(words ?? '')?.[1]);
/** Diesel weighs 840 kg/m³, 820 to 845 (EN 590, at 15 °C), a little more in the cold: ρ g = 8.24 kPa a metre, 2.5 % either way. */
const near = (metres: number): [number, number] => [8.24 * metres * 0.975, 8.24 * metres * 1.025];

test('at rest each part is told by its height under or over the surface', async () => {
    const found = shown('pressure stopped', { boat: await boatFrom(STANDING), level: 0.5 });
    const at = (id: string, as: string): number => figure(found.marks.find((mark) => mark.about === id && mark.as === as)?.words);
    for (const [id, as, metres] of [['F1', 'pressure', 0.3], ['V1', 'suction', 0.2], ['F2', 'pressure', 0.1], ['E1', 'pressure', 0.25], ['S2', 'suction', 0.3]] as const) {
        const [least, most] = near(metres);
        expect(at(id, as), `${id} ${as}`).toBeGreaterThan(least);
        expect(at(id, as), `${id} ${as}`).toBeLessThan(most);
    }
    // Both ends of S2 are pressed; only its crest is not.
    expect(marked(found, 'suction').find((words) => words.startsWith('S2'))).toMatch(/^S2 [\d.]+ kPa \([\d.]+ inHg\) at its crest$/);
    // What vents holds air.
    expect(found.marks.some(({ about }) => about === 'VH1' || about === 'T1.VENT')).toBe(false);
});

test('running, nothing is told of the lines of an engine of which no flow is written, and what to find out is said', async () => {
    const found = shown('pressure at 2000 rpm', { boat: await boatFrom(STANDING), level: 0.5 });
    expect(found.marks).toEqual([]);
    expect(found.notes).toContain('What E1 draws is not known: nothing is told of its lines.');
    expect(found.notes.some((note) => note.startsWith('Missing: the gross flow of E1 ('))).toBe(true);
});

test('a bore that is not written leaves what lies beyond it untold', async () => {
    const boat = await boatFrom(STANDING.replace('hose S1   bore 8 mm', 'hose S1').replace('engine E1 {', 'engine E1 { draws 10 L/h at 2000 rpm '));
    const found = shown('pressure at 2000 rpm', { boat, level: 0.5 });
    expect(idsOf(found, 'suction')).toContain('V1');
    expect(found.marks.filter(({ about }) => about === 'F1' || about === 'F2')).toEqual([]);
    expect(found.notes.find((note) => note.startsWith('Not told at '))).toContain('F1');
    expect(found.notes.some((note) => note.startsWith('Missing: the bore of S1 ('))).toBe(true);
});

test('behind a pump no figure is made up, and one figure of two says at which port it is', async () => {
    // On Ottilwake all from LP1 on is pushed, and nothing says how hard; only the return of E1 hangs on the tank.
    const found = shown('pressure at 2400 rpm', { boat: await boatOf('ottilwake') });
    for (const id of ['S3', 'F2', 'S4']) expect(found.marks.filter(({ about }) => about === id)).toEqual([]);
    expect(found.notes).toEqual(expect.arrayContaining(['Not told at S3, F2 and S4.', 'Behind a pump nothing states the pressure that it makes.']));
    expect(marked(found, 'suction').find((words) => words.startsWith('E1 '))).toMatch(/^E1 out /);
    expect(marked(found, 'suction').find((words) => words.startsWith('F1 '))).toMatch(/^F1 in [\d.]+ kPa .*, out [\d.]+ kPa /);
    // 12 kPa over a dirty element, common practice: what is between in and out of F1.
    const [into, out] = [...marked(found, 'suction').find((words) => words.startsWith('F1 '))!.matchAll(/([\d.]+) kPa/g)].map(([, kPa]) => Number(kPa)) as [number, number];
    expect(out - into).toBeCloseTo(12, 0);
});

test('circuits that a pump moves which nobody reckons are not told while she runs, but at rest', async () => {
    const boat = await boatOf('brackenwake');
    expect(shown('pressure', { boat }).marks.filter(({ about }) => about === 'RA1')).toEqual([]);
    // HT1 stands over all of it: RA1 at 700 mm is pressed by more than 800 mm of water from a mouth at 1510 mm, 9.79 kPa a metre.
    const [rest] = shown('pressure stopped', { boat }).marks.filter(({ about }) => about === 'RA1');
    expect(rest?.as).toBe('pressure');
    expect(figure(rest?.words)).toBeGreaterThan(9.79 * 0.8);
});

test('a speed is told in the words of the title', async () => {
    const boat = await boatOf('ottilwake');
    expect(shown('pressure running at 2400 rpm', { boat }).title).toBe('Pressures at 2400 rpm, RUN');
    expect(shown('pressure stopped', { boat, lineUp: 'SERVICE' }).title).toBe('Pressures at rest, SERVICE');
    expect(toSI(2400, 'rpm')).toBe(40);
});

test('a stub on the line of an engine of which no flow is written is not told either, but another tank\'s line is', async () => {
    const boat = await boatFrom(STANDING.replace('  filter F1 ', '  tee J1 at 400 mm up, 1500 mm fwd, 300 mm stbd\n  hose S8   bore 8 mm   length 1 m\n  filter F1 ').replace('vent course', `transfer course Stub from J1 to T2.D1 { shutoff V5   at 300 mm up, 1500 mm fwd, 300 mm stbd   normally shut   hose X1   bore 8 mm   length 1 m   shutoff V6   at 500 mm up, 1500 mm fwd, 300 mm stbd   normally open }
tank T2 carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 400 mm up, 1000 mm fwd, 900 mm stbd
  drop D1   bore 8 mm   mouth at 25 mm off bottom   top at 800 mm up, 1500 mm fwd, 300 mm stbd
  vent at 800 mm up, 1500 mm fwd, 1100 mm stbd
}
vent course`));
    const found = shown('pressure at 2000 rpm', { boat, level: 0.5 });
    expect(idsOf(found, 'pressure')).toContain('V6');
    expect(found.marks.filter(({ about }) => ['J1', 'V1', 'F1', 'V5'].includes(about))).toEqual([]);
});
