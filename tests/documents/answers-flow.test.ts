/**
 * Answers about flow on the worked vessel, by hand. Its hoses have 8 mm of bore, its tubes 6 mm; density and viscosity are those that the answer names, since they
 * are another's to choose. Laminar friction is Hagen and Poiseuille's: 128 ρ ν Q L / (π D⁴).
 */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { answerData, answerText, type Answer } from '../../src/documents/answers/answer';
import { answer } from '../../src/documents/answers/answers';
import { readQuestion } from '../../src/language/ask/question';
import { loadBoat } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';

const folder = (name: string): string => fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
async function boatOf(name: string, edit: (text: string) => string = (text) => text): Promise<Boat> {
    return (await loadBoat(Object.fromEntries(readdirSync(folder(name)).filter((file) => file.endsWith('.orlop')).map((file) => [file, edit(readFileSync(`${folder(name)}/${file}`, 'utf8'))])))).boat;
}
const asked = (boat: Boat, words: string): Answer => { const { question, circumstances } = readQuestion(words, boat); return answer(boat, question, circumstances)!; };
const data = <T>(boat: Boat, words: string): T => asked(boat, words).data as T;
const text = (boat: Boat, words: string): string => answerText(boat, asked(boat, words), () => undefined).replace(/\s+/g, ' ');

/** The worked vessel with an element of which all is stated: 1 kPa new at 60 L/h, 12 kPa when it is to be renewed. */
const ottilwake = await boatOf('ottilwake', (words) => words.replace('rated 60 L/h', 'rated 60 L/h   clean 1 kPa   dirty 12 kPa').replace('line-up SERVICE', 'line-up STUCK run from RUN { V1 shut }\nline-up SERVICE'));
const { liquids: [diesel] } = data<{ liquids: { carries: string; densityKgPerM3: number; viscosityMm2PerS: number }[] }>(ottilwake, 'flow');
const [RHO, NU, G] = [diesel!.densityKgPerM3, diesel!.viscosityMm2PerS * 1e-6, 9.80665];
const LITRE_PER_HOUR = 1e-3 / 3600;
const friction = (litresPerHour: number, metres: number, bore: number): number => 128 * RHO * NU * litresPerHour * LITRE_PER_HOUR * metres / (Math.PI * bore ** 4);
const IN_HG = 3386.389;

interface Reading { litresPerHour?: number; metresPerSecond?: number; reynolds?: number; regime?: string; kPa?: number; inHg?: number; is?: string }
interface Flow { status: string; strands: { of: string; ports: { port: string; running: Reading; stopped: Reading }[] }[]; leftOver: { litresPerHour: number; headMm: number } }
const port = ({ strands }: Flow, name: string): { running: Reading; stopped: Reading } => strands.flatMap(({ ports }) => ports).find((each) => each.port === name)!;

describe('flow', () => {
    const flow = data<Flow>(ottilwake, 'flow');
    // 15 L/h at 2400 rpm carried on to 3600: 22.5 L/h = 6.25e-6 m³/s; in 8 mm, π/4 x 0.008² = 50.265 mm²: 0.1243 m/s.
    test('speed and Reynolds number in a hose of 8 mm', () => {
        const { running } = port(flow, 'S1:out');
        expect(running.litresPerHour).toBeCloseTo(22.5, 6);
        expect(running.metresPerSecond).toBeCloseTo(0.1243, 4);
        expect(running.reynolds).toBeCloseTo(4 * 6.25e-6 / (Math.PI * 0.008 * NU), 2);
        expect(running.regime).toBe('laminar');
    });
    // 5 % of 201.6 L stands 21 mm high, lower than the mouth at 25 mm: the surface is taken there, at 225 mm. V1 stands at 660 mm: 435 mm higher.
    test('stopped there is the height alone', () => {
        const { stopped } = port(flow, 'V1:out');
        expect(stopped.kPa! * 1e3).toBeCloseTo(-RHO * G * 0.435, -1);
        expect(stopped.inHg! * IN_HG).toBeCloseTo(-RHO * G * 0.435, -1);
        expect([stopped.is, stopped.litresPerHour]).toEqual(['suction', 0]);
    });
    // Up to the lift pump at 620 mm, 395 mm higher: the pickup's 0.425 m and 2.60, 0.25 and 1.40 m of 8 mm; F1; two checks of 0.1 kPa in PR1.
    test('running before the lift pump: height, friction, element and checks', () => {
        const { running } = port(flow, 'S2:out');
        const sum = RHO * G * 0.395 + friction(22.5, 0.425 + 2.6 + 0.25 + 1.4, 0.008) + 12_000 + 200;
        expect(Math.abs(-running.kPa! * 1e3 - sum)).toBeLessThan(2);
        expect(running.is).toBe('suction');
        // With a new element 1 kPa x 22.5/60 in place of 12 kPa.
        expect(Math.abs(-port(data<Flow>(ottilwake, 'flow clean'), 'S2:out').running.kPa! * 1e3 - (sum - 12_000 + 375))).toBeLessThan(2);
    });
    test('behind the lift pump no figure is made up', () => {
        expect(port(flow, 'S3:out').running).not.toHaveProperty('kPa');
        expect(text(ottilwake, 'flow')).toContain('Behind a pump `?` stands for the pressure that it makes');
    });
    test('what is left over is next to nothing, and is told', () => {
        expect(flow.leftOver.litresPerHour).toBeLessThan(1e-6);
        expect(flow.leftOver.headMm).toBeLessThan(1e-3);
        expect(text(ottilwake, 'flow')).toContain('Left over when all is added up: less than 0.001 L/h of the flows');
    });
    test('what burns is not in the return: 22.5 - 6.25 = 16.25 L/h', () => expect(port(data<Flow>(ottilwake, 'flow from E1'), 'R:out').running.litresPerHour).toBeCloseTo(16.25, 6));
    test('one part, with both its ports', () => {
        const { strands } = data<Flow>(ottilwake, 'flow F1 at 2400 rpm');
        expect(strands.map(({ ports }) => ports.map((each) => each.port))).toEqual([['F1:in', 'F1:out']]);
        expect(strands[0]!.ports[0]!.running.litresPerHour).toBeCloseTo(15, 6);
        expect((strands[0]!.ports[0]!.running.kPa! - strands[0]!.ports[1]!.running.kPa!)).toBeCloseTo(12, 3);
    });
    test('a pickup that stands dry, and a valve that is shut, cannot flow', () => {
        expect([data<Flow>(ottilwake, 'flow to E1 at 1 %').status, asked(ottilwake, 'flow to E1 at 1 %').body[0]]).toEqual(['cannot flow', 'It cannot flow: T1.P1 stands dry at this level.']);
        expect([data<Flow>(ottilwake, 'flow to E1 in STUCK').status, asked(ottilwake, 'flow to E1 in STUCK').body[0]]).toEqual(['cannot flow', 'No tank feeds E1 in STUCK: the 22.5 L/h that it would draw at full speed cannot come.']);
        expect(asked(ottilwake, 'flow in LAID-UP').body[0]).toBe('Nothing runs in LAID-UP.');
    });
    test('what draws nobody knows how much is not said to stand', async () => {
        const untold = await boatOf('ottilwake', (words) => words.replace(/draws [^\n]*/, '').replace(/burns [^\n]*/, ''));
        expect(asked(untold, 'flow').title).toContain('at full speed');
        expect(asked(untold, 'flow').body[0]).toBe('What is drawn is not known: the flows and pressures below are those with nothing running.');
    });
    // A hose without a bore counts as none: pressures before it hold, those beyond would be told too low. The return has nothing to do with it.
    test('beyond a pipe of which no bore is known no pressure is made up', async () => {
        const without = await boatOf('ottilwake', (words) => words.replace('hose S1       bore 8 mm', 'hose S1'));
        const blind = data<Flow>(without, 'flow');
        expect(['V1:out', 'S1:out', 'G1:out', 'R:out'].map((name) => port(blind, name).running.kPa === undefined)).toEqual([false, true, true, false]);
        expect(port(blind, 'S2:out').stopped.kPa).toBeDefined();
        expect(asked(without, 'flow').missing.map(({ fact }) => fact)).toContain('the bore of S1');
        expect(data<object>(without, 'gauge G1')).not.toHaveProperty('clean');
        expect(asked(without, 'gauge G1').missing.map(({ fact }) => fact)).toEqual(['the bore of S1']);
        expect(asked(await boatOf('ottilwake', (words) => words.replace('tube R        bore 6 mm', 'tube R')), 'gauge G1').missing).toEqual([]);
    });
    // HT1.R1 in Brackenwake: its mouth as high as its top.
    test('a fitting without a pipe hinders nothing, and stops nothing', async () => {
        const found = data<Flow>(await boatOf('brackenwake'), 'flow HX1');
        expect([found.status, port(found, 'HX1:out').stopped.is]).toEqual(['settled', 'pressure']);
    });
    test('what was taken stands there, one line a part', async () => {
        const { defaults } = asked(await boatOf('ottilwake'), 'flow to E1');
        expect(defaults.filter((words) => words.startsWith('F1 '))).toHaveLength(1);
        expect(defaults).toContain('E1 draws 22.5 L/h (15 to 22.5) at 3600 rpm: in proportion to its speed, since its curve does not reach so far');
        expect(defaults).toContain('upright');
        expect(defaults.join()).toContain('T1 as low as it is ever used, 5 %');
        expect(asked(ottilwake, 'flow to E1 at 2400 rpm at 50 % clean upright').defaults.filter((words) => !/kg\/m³|mm²\/s/.test(words))).toEqual(['line-up RUN', expect.stringMatching(/^F2 takes/)]);
    });
});

interface Gauge { clean: Reading; dirty: Reading; actAt: Reading[]; limits: { consumer: string; reachedAt: Reading }[]; logged: unknown[] }

describe('gauge', () => {
    // 50 % is 210 mm high, at 410 mm; G1 at 660 mm is 250 mm higher. 15 L/h through 0.425 + 2.60 + 0.25 m; checks 0.2 kPa; the element 1 kPa x 15/60, or 12 kPa.
    const before = RHO * G * 0.25 + friction(15, 0.425 + 2.6 + 0.25, 0.008) + 200;
    const found = data<Gauge>(ottilwake, 'gauge G1 at 2400 rpm at 50 %');
    test('with a new element and with one that is to be renewed', () => {
        expect(Math.abs(-found.clean.kPa! * 1e3 - (before + 250))).toBeLessThan(2);
        expect(Math.abs(-found.dirty.kPa! * 1e3 - (before + 12_000))).toBeLessThan(2);
        expect([found.clean.is, found.dirty.is]).toEqual(['suction', 'suction']);
    });
    test('act at 3 to 4 inHg more', () => {
        expect(found.actAt.map(({ kPa }) => Math.round(found.clean.kPa! * 1e3 - kPa! * 1e3))).toEqual([3, 4].map((more) => Math.round(more * IN_HG)));
        expect(text(ottilwake, 'gauge G1 at 2400 rpm at 50 %')).toContain('no standard was found. The engine maker\'s limit governs.');
    });
    // At the pump the suction is that at the gauge less 40 mm of height (660 - 620) more 1.40 m of friction: the limit of 20 kPa there is so much more or less here.
    test('what it shows when the pump is at its limit', () => {
        const [limit] = found.limits;
        expect(Math.abs(-limit!.reachedAt.kPa! * 1e3 - (20_000 + RHO * G * 0.04 - friction(15, 1.4, 0.008)))).toBeLessThan(2);
    });
    test('what the log has stands beside it: 1.8 inHg at 2200 rpm', async () => {
        const { logged } = data<Gauge>(await boatOf('brackenwake'), 'gauge G1');
        expect(logged).toEqual([{ date: '2026-08-30', kPa: expect.closeTo(-1.8 * IN_HG / 1e3, 3), inHg: -1.8, rpm: 2200 }]);
    });
    test('before the element it tells nothing of it', async () => {
        const moved = await boatOf('ottilwake', (words) => words.replace(/ {2}gauge G1 .*\n/, '').replace('  hose S1b', '  gauge G1      vacuum   at 640 mm\n  hose S1b'));
        expect(text(moved, 'gauge G1')).toContain('No element stands before G1, as seen from the tank');
        expect(data<object>(moved, 'gauge G1')).not.toHaveProperty('actAt');
    });
    test('elements play no part: both are told', () => expect(asked(ottilwake, 'gauge G1 clean').body[0]).toBe('What you said of elements plays no part in this answer.'));
});

interface Suction { attitude: string; total: { kPa: number; leastKPa: number; mostKPa: number }; budget: { part?: string; of: string; kPa: number }[]; bores: { part: string; fromMm: number; toMm: number; gainKPa: number; worth: boolean }[] }

describe('suction', () => {
    const found = data<Suction>(ottilwake, 'suction E1');
    /*
     * Heeled 25° to starboard, bow 3° up. z' = (z cos 25 - y sin 25) cos 3 + x sin 3. The pump, 620 up, 3000 fwd, 150 to port: (561.9 + 63.4) x 0.99863 + 157.0 = 781.5 mm. The mouth, 225 up, 2350 fwd,
     * 700 to starboard: (203.9 - 295.8) x 0.99863 + 123.0 = 31.2 mm. It wants 41.8 L to be wet so, more than the 10.1 L of 5 %: the surface is taken at the mouth, 750.3 mm lower than the pump.
     */
    test('the worst lean, and the sum', () => {
        expect(found.attitude).toBe('heeled 25° to starboard, bow 3° up');
        const height = found.budget.find(({ of }) => of === 'height')!.kPa;
        expect(Math.abs(height * 1e3 - RHO * G * 0.7503)).toBeLessThan(2);
        const rest = friction(22.5, 0.425 + 2.6 + 0.25 + 1.4, 0.008) + 12_000 + 200;
        expect(Math.abs(found.total.kPa * 1e3 - height * 1e3 - rest)).toBeLessThan(2);
        expect(found.budget.map(({ part, of }) => `${part ?? ''} ${of}`)).toEqual([' height', 'T1.P1 friction', 'S1 friction', 'PR1 check', 'S1b friction', 'F1 element', 'S2 friction']);
        expect(found.total.leastKPa).toBeLessThanOrEqual(found.total.kPa);
        expect(found.total.mostKPa).toBeGreaterThanOrEqual(found.total.kPa);
    });
    // Friction falls with the fourth power of the bore: from 8 to 10 mm by 1 - 0.8⁴ = 0.5904 of it.
    test('what the next bore buys, the best first', () => {
        expect(found.bores.map(({ part }) => part)).toEqual(['S1', 'S2', 'T1.P1', 'S1b']);
        expect([found.bores[0]!.fromMm, found.bores[0]!.toMm, found.bores[0]!.worth]).toEqual([8, 10, false]);
        expect(Math.abs(found.bores[0]!.gainKPa * 1e3 - 0.5904 * friction(22.5, 2.6, 0.008))).toBeLessThan(2);
        expect(text(ottilwake, 'suction E1')).toMatch(/No wider pipe matters: the best, S1 from 8 mm to 10 mm.*ISO 1307 for hoses, from memory/);
    });
    // 5 mm in place of 8: friction of S1 grows by (8/5)⁴ = 6.55, to well above a tenth of the sum.
    test('a pipe that is too narrow is worth a wider one', async () => {
        const narrow = await boatOf('ottilwake', (words) => words.replace('hose S1       bore 8 mm', 'hose S1       bore 5 mm'));
        expect(data<Suction>(narrow, 'suction E1').bores[0]).toMatchObject({ part: 'S1', fromMm: 5, toMm: 6.3, worth: true });
        expect(text(narrow, 'suction E1')).toContain('One wider pipe is worth doing first: S1 from 5 mm to 6.3 mm');
    });
    test('upright at 50 % it is as said: 620 - 410 = 210 mm of height', () => {
        const { budget } = data<Suction>(ottilwake, 'suction E1 upright at 50 %');
        expect(Math.abs(budget[0]!.kPa * 1e3 - RHO * G * 0.21)).toBeLessThan(2);
    });
    test('without a bore nothing is told but what is to be measured', async () => {
        const without = await boatOf('ottilwake', (words) => words.replace('hose S1       bore 8 mm', 'hose S1'));
        const { body, missing } = asked(without, 'suction E1');
        expect([body[0], missing.map(({ fact }) => fact)]).toEqual(['It cannot be told yet: see what is to be measured.', ['the bore of S1']]);
    });
});

// The outlet of E1 at 820 mm; the end of R at 650 mm, 170 mm lower; 16.25 L/h through 3.40 m of 6 mm. Until the line is full it runs down to there and no further.
test('back-pressure: over the end of its return, upright', () => {
    const { total, over, limitKPa } = data<{ total: { kPa: number }; over: string; limitKPa: number }>(ottilwake, 'back-pressure E1 upright');
    expect([over, limitKPa]).toEqual(['R', 10]);
    expect(Math.abs(total.kPa * 1e3 - (friction(16.25, 3.4, 0.006) - RHO * G * 0.17))).toBeLessThan(2);
});

describe('starve', () => {
    interface Starve { first: { consumer: string; by: string; litres: number; attitude: string; marginAtMouthKPa?: number }[]; ways: { attitude: string; first: { litres: number }[] }[] }
    // Upright the mouth is 25 mm off the bottom of 0.8 x 0.6 m: 12 L. The 53.46 L of the worst lean are tanks-liquid.test.ts's.
    test('the pickup comes dry before the pump draws too much', () => {
        const { first, ways } = data<Starve>(ottilwake, 'starve');
        expect(first).toMatchObject([{ consumer: 'E1', by: 'dry pickup', litres: expect.closeTo(53.46, 1), attitude: 'heeled 25° to starboard, bow 3° down' }]);
        expect(ways.find(({ attitude }) => attitude === 'upright')!.first[0]!.litres).toBeCloseTo(12, 3);
    });
    // Upright the sum with the surface at the mouth is 395 mm of height, friction, 12.2 kPa. With a limit 1 kPa below that the surface must stand 1000 / ρg higher: so many mm x 0.48 L more than 12 L.
    test('with a low limit it is the suction', async () => {
        const sum = RHO * G * 0.395 + friction(22.5, 0.425 + 2.6 + 0.25 + 1.4, 0.008) + 12_200;
        const weak = await boatOf('ottilwake', (words) => words.replace('rated 60 L/h', 'rated 60 L/h   clean 1 kPa   dirty 12 kPa').replace('limits inlet 20 kPa', `limits inlet ${((sum - 1000) / 1e3).toFixed(4)} kPa`));
        const [first] = data<Starve>(weak, 'starve upright').first;
        expect(first).toMatchObject({ by: 'suction', marginAtMouthKPa: expect.closeTo(-1, 2), litres: expect.closeTo(12 + 1000 / (RHO * G) * 480, 0) });
        expect(asked(weak, 'starve upright').body[0]).toMatch(/^E1 starves with less than .* in T1, upright: its pump then draws against more than its maker allows\.$/);
    });
});

// 52 L/h is the engine's at 2000 rpm; the generator's 12 L/h are stated at the 1500 rpm at which it runs, whatever the engines do.
test('a speed is of the engines, not of the generator', async () => {
    const boat = await boatOf('marrenwake');
    const flow = data<Flow>(boat, 'flow at 2000 rpm');
    expect([port(flow, 'V1-P:out').running.litresPerHour, port(flow, 'V1-G:out').running.litresPerHour]).toEqual([expect.closeTo(52, 6), expect.closeTo(12, 6)]);
    expect(text(boat, 'suction GN at 2000 rpm')).toContain('What you said of speed is of the engines: GN runs at its own full speed.');
});

test('the same boat read twice gives the same bytes', async () => {
    const [one, two] = [await boatOf('marrenwake'), await boatOf('marrenwake')];
    for (const words of ['flow', 'starve', 'suction GN', 'back-pressure E2']) {
        const bytes = (boat: Boat): string => answerText(boat, asked(boat, words), () => undefined) + JSON.stringify(answerData(boat, asked(boat, words), () => undefined));
        expect(bytes(one), words).toBe(bytes(two));
    }
});

// 95 % of 201.6 L less the 12 L below the mouth: 179.52 L. Of it 20 % stay, up to 33 %: 143.6 or 120.3 L. By 2.4 L/h 59.84 h, or 50.12; at 5.5 kn 329.1 miles, or 275.6. At full 6.25 L/h: 22.98 h.
test('endurance: hours and miles down to the reserve', () => {
    const { speeds } = data<{ speeds: { speed: number | string; engines: { hours: number; leastHours: number }; miles?: { miles: number; leastMiles: number } }[] }>(ottilwake, 'endurance');
    expect(speeds).toMatchObject([
        { speed: 2400, engines: { hours: expect.closeTo(59.84, 2), leastHours: expect.closeTo(50.12, 2) }, miles: { miles: expect.closeTo(329.1, 1), leastMiles: expect.closeTo(275.6, 1) } },
        { speed: 'full', engines: { hours: expect.closeTo(22.98, 2) } },
    ]);
    expect(speeds[1]).not.toHaveProperty('miles');
    expect(asked(ottilwake, 'endurance').defaults.join()).toMatch(/T1 is taken as filled to 95 %.*the reserve is taken as 20 %/);
    // 100.8 - 12 = 88.8 L x 0.8 / 2.4 = 29.6 h.
    expect(asked(ottilwake, 'endurance at 50 % at 2400 rpm').body[0]).toContain('Her fuel lasts 29.6 h');
});

/** It draws from one tank and returns to the other; each 1000 x 500 x 400 mm, 200 L, its mouth 25 mm off the bottom: 12.5 L. */
const ASTRAY = `vessel Straywake
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom
  vent }
tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 100 mm port
  drop R1   mouth at 25 mm off bottom
  vent }
engine E1 { burns 5 L/h at 2400 rpm   draws 45 L/h at 2400 rpm }
supply course Feed from T1.P1 to E1 { hose S1 }
return course Back from E1 to T2.R1 { hose S2 }
line-up RUN run is normal
`;

// At 80 % each holds 160 L. 45 L/h leave T1: (160 - 12.5) / 45 = 3.278 h. 40 L/h come to T2: 30 L up to 95 % in 0.75 h, 40 L to the lid in 1 h.
test('overflow: which tank runs over, and which pickup stands dry', async () => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': ASTRAY });
    expect(problems.map(({ message }) => message)).toEqual([]);
    const { tanks } = data<{ tanks: unknown[] }>(boat, 'overflow at 80 %');
    expect(tanks).toMatchObject([
        { tank: 'T1', litres: 160, netLitresPerHour: -45, pickups: [{ pickup: 'T1.P1', dryBelowLitres: expect.closeTo(12.5, 3), dry: { hours: expect.closeTo(3.278, 3) } }] },
        { tank: 'T2', netLitresPerHour: 40, to95: { hours: expect.closeTo(0.75, 6) }, overflows: { hours: expect.closeTo(1, 6) } },
    ]);
    expect(asked(boat, 'overflow at 80 %').body.slice(0, 2)).toEqual(['WARNING: T2 rises and runs over, by its vent unless an overflow takes it, after 60 min; it stands at 95 % after 45 min.', 'T1.P1 in T1 stands dry after 3.28 h.']);
    expect(text(boat, 'endurance')).toContain('What E1 returns comes to a tank that does not feed it, and is counted as gone.');
});

describe('what a figure leaves out is said', () => {
    const boat = async (lines: string): Promise<Boat> => (await loadBoat({ 'a.orlop': `
vessel Leftwake { envelope heel 20 deg   trim 2 deg   level 20 to 95 %   fuel 5 to 40 degC }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 600 mm port
  pickup P1   bore 12 mm   mouth at 25 mm off bottom   top at 420 mm up, 1500 mm fwd, 850 mm port
  drop R1   drop X1   vent }
tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 600 mm stbd
  pickup P2   drop X2   vent }
engine E1 { burns 10 L/h at 2000 rpm   draws 40 L/h at 2000 rpm   injection in-line mechanical   inlet at 500 mm up, 1500 mm fwd, 0 mm stbd }
return course Back from E1 to T1.R1 { hose B1 }
line-up RUN run is normal
${lines}` })).boat;
    const FEED = 'supply course Feed from T1.P1 to E1 { shutoff V1   normally open   hose S1   bore 12 mm   length 2 m   lift pump LP1 at 500 mm up, 1500 mm fwd, 0 mm stbd }';
    test('tanks that are joined level out as she leans', async () => {
        const said = 'An open line joins T1 and T2: leaning, fuel runs to the lower';
        expect(text(await boat(`${FEED}\ntransfer course Cross from T1.X1 to T2.X2 { shutoff VX   normally open   hose HX }`), 'starve')).toContain(said);
        expect(text(await boat(`${FEED}\ntransfer course Cross from T1.X1 to T2.X2 { shutoff VX   normally shut   hose HX }`), 'starve')).not.toContain(said);
    });
    test('a pump between tanks that nobody says is on', async () => {
        const lift = `${FEED}\ntransfer course Lift from T2.P2 to T1.X1 { electric pump TP1   gives 200 L/h   when off blocks   hose H1 }\nline-up LIFT transfer from RUN`;
        expect(text(await boat(lift), 'overflow')).toContain('TP1 can pump from tank to tank as the valves stand in RUN, and is taken as off');
        expect(text(await boat(lift), 'overflow in LIFT')).not.toContain('is taken as off');
    });
    test('a pump that gives less than is drawn through it', async () => {
        const feed = (gives: string): string => `supply course Feed from T1.P1 to E1 { shutoff V1   normally open   electric pump EP1   at 420 mm up, 1500 mm fwd, 850 mm port   gives ${gives}   when off passes   hose S1   bore 12 mm   length 2 m }`;
        expect(text(await boat(feed('30 L/h')), 'suction E1')).toContain('WARNING: EP1 gives 30 L/h: less than is drawn through it.');
        expect(text(await boat(feed('42 L/h about')), 'suction E1')).toContain('WARNING: EP1 gives 42 L/h, and it may be 37.8 L/h: less than is drawn through it.');
        expect(text(await boat(feed('40 L/h')), 'suction E1')).not.toContain('EP1 gives');
    });
});

test('beyond the speeds of which it is written what it burns nothing is made up of its return', () => {
    // 15 L/h at 2400 rpm, in proportion: 56.25 L/h at 9000 rpm. Burns end at 3600 rpm.
    expect(text(ottilwake, 'flow E1 at 9000 rpm')).toContain('E1 draws 56.3 L/h at 9000 rpm and returns what it does not burn; how much it burns at that speed is not written');
    expect(text(ottilwake, 'flow E1 at 2400 rpm')).toContain('E1 draws 15 L/h at 2400 rpm and returns 12.6 L/h.');
});
