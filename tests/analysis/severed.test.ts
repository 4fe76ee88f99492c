/** A line cut through: what comes from both sides, stopped and running, and what would stop it. The arithmetic stands beside each number. */
import { describe, expect, test } from 'vitest';
import { severed, LIMIT, TIME, type Severed } from '../../src/analysis/opening/severed';
import { GRAVITY } from '../../src/analysis/flow/pipe';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { lineMissing } from '../../src/analysis/missing';
import { edit, load } from '../checks/boats';

/** The tank's bottom is at 1000 mm; 1 m x 0.5 m x 0.4 m, 200 L. At 75 % the surface stands at 1300 mm; the cut can be at 800 mm. */
const HIGH = `
vessel Undernwake {
  heights from "keel"
  envelope level 10 to 75 %
}
tank T1 carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up
  pickup P1   mouth at 20 mm off bottom   top at 1420 mm
  drop R1     mouth at 390 mm off bottom   top at 1420 mm
  vent        at 1420 mm
  fill        at 1420 mm
}
engine E1 {
  draws 5 L/h at 800 rpm, 15 L/h at 2400 rpm   inlet at 850 mm
}
supply course Feed from T1.P1 to E1 {
  hose S1       bore 6 mm   length 6 m
  shutoff V1    at 800 mm   normally open
  hose S2       bore 8 mm   length 1 m
  lift pump LP1 at 800 mm
  tube S3       bore 6 mm   length 0.50 m
}
return course Back from E1 to T1.R1 {
  tube B1       bore 6 mm   length 5 m
}
line-up RUN run is normal
line-up OFF service from RUN { V1 shut }
`;

async function cut(text: string, line: string, state: Severed['state'], lineUp = 'RUN', checks: 'tight' | 'leaky' = 'tight'): Promise<Severed> {
    const { boat } = await load(text);
    return severed(boat, lineUpsOf(boat).find(({ id }) => id === lineUp)!, checks).find((found) => found.line === line && found.state === state)!;
}

/** Laminar with a minor loss: h = 32 ν L v/(g D²) + K v²/2g, solved for v as a quadratic. Another way than the program's, which halves. */
function laminar(bore: number, length: number, head: number, viscosity = 2.0e-6, k = 1.5): number {
    const [a, b] = [k / (2 * GRAVITY), 32 * viscosity * length / (GRAVITY * bore ** 2)];
    return Math.PI * bore ** 2 / 4 * (-b + Math.sqrt(b * b + 4 * a * head)) / (2 * a);
}
const near = (value: number | undefined, expected: number, relative = 1e-6): void => expect(Math.abs(value! / expected - 1), `${value} against ${expected}`).toBeLessThan(relative);

test('its time and its amount are those of 33 CFR 183.558: 2 1/2 minutes, 5 US fl oz', () => {
    expect(TIME).toBe(150);
    // A US gallon, 231 cubic inches, is 128 fl oz.
    near(LIMIT, 5 * 231 * 0.0254 ** 3 / 128, 1e-12);
});

describe('stopped', () => {
    // The head is 1300 - 800 = 500 mm. Cut at its lower end S1 is 6 m long, and with v = 0.43 m/s still laminar: Re = v D/ν = 1290 in warm diesel of 2.0 mm²/s.
    test('from the tank\'s side, by its head through the whole hose; from the other side nothing, for the pump\'s checks hold', async () => {
        const found = await cut(HIGH, 'S1', 'stopped');
        const rate = laminar(0.006, 6, 0.5);
        near(found.fastest?.rate, rate);
        near(found.fastest?.inTime, 150 * rate);
        // 150 L stand in the tank; below the pickup, 20 mm up, 10 L stay.
        near(found.all?.volume, 0.140);
        expect(found.fastest?.attitude).toEqual({ heel: 0, trim: 0 });
        expect(found.lacks).toEqual([]);
        // V1 stands behind it: nothing shuts the way from the tank.
        expect(found.sources.map(({ end, tank, fitting, stop }) => [end, tank, fitting, stop])).toEqual([['in', 'T1', 'T1.P1', undefined]]);
        expect((await cut(HIGH, 'S2', 'stopped')).sources[0]?.stop).toEqual({ valve: 'V1', position: 'shut' });
    });

    test('with worn checks both sides pour, where the drop reaches down: back through the engine', async () => {
        // From the return: 5 m of 6 mm, 0.5 m of 6 mm, S2's 1 m of 8 mm, in which the mouths count. Cut at S1's outlet, at 800 mm.
        const text = edit(HIGH, 'drop R1     mouth at 390 mm off bottom', 'drop R1     mouth at 20 mm off bottom');
        const found = await cut(text, 'S1', 'stopped', 'RUN', 'leaky');
        expect(found.sources.map(({ end, fitting, stop, backThrough }) => [end, fitting, stop?.valve, backThrough])).toEqual([['in', 'T1.P1', undefined, undefined], ['out', 'T1.R1', 'V1', 'E1']]);
        const other = found.fastest!.rate - laminar(0.006, 6, 0.5);
        const speed = (bore: number): number => other / (Math.PI * bore ** 2 / 4);
        const friction = (bore: number, length: number): number => 32 * 2.0e-6 * length * speed(bore) / (GRAVITY * bore ** 2);
        expect(speed(0.006) * 0.006 / 2.0e-6).toBeLessThan(2000);
        // S1 itself counts at its outlet with none of its length, 6 mm wide; the widest is S2.
        near(friction(0.006, 5.5) + friction(0.008, 1) + 1.5 * speed(0.008) ** 2 / (2 * GRAVITY), 0.5);
        // Where the drop ends above the surface it is dry.
        near((await cut(HIGH, 'S1', 'stopped', 'RUN', 'leaky')).fastest?.rate, laminar(0.006, 6, 0.5));
    });

    test('a consumer that blocks lets nothing back', async () => {
        const text = edit(edit(HIGH, 'drop R1     mouth at 390', 'drop R1     mouth at 20'), 'inlet at 850 mm', 'inlet at 850 mm   backflow blocks');
        expect((await cut(text, 'S1', 'stopped', 'RUN', 'leaky')).sources.map(({ end }) => end)).toEqual(['in']);
    });

    test('behind a shut valve nothing comes from the supply', async () => {
        const found = await cut(HIGH, 'S2', 'stopped', 'OFF');
        expect(found.sources).toEqual([]);
        expect(found.fastest?.rate).toBe(0);
        expect(found.all?.volume).toBe(0);
    });

    test('a check holds back its cracking pressure', async () => {
        // At 8 °C the heaviest fuel of EN 590, 845 kg/m³, is 849.943 (tests/analysis/flow/fuel.test.ts): 849.943 · 9.80665 · 0.2 m = 1667.02 Pa is 200 mm of head.
        const text = edit(HIGH, 'hose S1       bore 6 mm   length 6 m\n', 'check CV1     at 1400 mm   cracks 1.66702 kPa\n  hose S1       bore 6 mm   length 6 m\n');
        near((await cut(text, 'S1', 'stopped')).fastest?.rate, laminar(0.006, 6, 0.3), 1e-5);
        // It runs until the surface is 200 mm above the cut: the tank's bottom is, so the pickup ends it.
        near((await cut(text, 'S1', 'stopped')).all?.volume, 0.140, 1e-5);
    });

    test('above the surface nothing comes', async () => {
        // At 10 % the surface stands at 1040 mm.
        const text = edit(edit(HIGH, 'level 10 to 75 %', 'level 5 to 10 %'), 'shutoff V1    at 800 mm', 'shutoff V1    at 1100 mm');
        expect((await cut(text, 'S1', 'stopped')).fastest?.rate).toBe(0);
    });

    test('at a low that is known, with none of its length', async () => {
        // 1300 - 700 = 600 mm through a mouth of 6 mm: v = √(2 g · 0.6/1.5).
        near((await cut(edit(HIGH, 'hose S1       bore 6 mm   length 6 m', 'hose S1       bore 6 mm   length 6 m   low at 700 mm'), 'S1', 'stopped')).fastest?.rate, Math.PI * 0.006 ** 2 / 4 * Math.sqrt(2 * GRAVITY * 0.6 / 1.5));
    });
});

describe('running', () => {
    test('before the lift pump no more than stopped', async () => {
        for (const line of ['S1', 'S2']) expect((await cut(HIGH, line, 'running')).fastest).toEqual((await cut(HIGH, line, 'stopped')).fastest);
    });
    test('behind it the gross flow at the highest speed too, 15 L/h, until the pickup is dry', async () => {
        const [running, stopped] = [await cut(HIGH, 'S3', 'running'), await cut(HIGH, 'S3', 'stopped')];
        near(running.fastest!.rate - stopped.fastest!.rate, 15e-3 / 3600);
        expect(running.pushed.map(({ by, tanks }) => [by, tanks])).toEqual([['E1', ['T1']]]);
        near(running.all?.volume, 0.140);
    });
    test('and in the return', async () => near((await cut(HIGH, 'B1', 'running')).fastest!.rate - (await cut(HIGH, 'B1', 'stopped')).fastest!.rate, 15e-3 / 3600));
    test('a shut tank gives nothing to a pump that runs dry, and the return carries nothing', async () => {
        for (const line of ['S3', 'B1']) expect((await cut(HIGH, line, 'running', 'OFF')).fastest?.rate).toBe(0);
    });
    test('an electric pump delivers what it states, when that is more', async () => {
        const text = edit(HIGH, 'lift pump LP1 at 800 mm', 'electric pump EP1 at 800 mm   gives 60 L/h');
        near((await cut(text, 'S3', 'running')).fastest!.rate - (await cut(text, 'S3', 'stopped')).fastest!.rate, 60e-3 / 3600);
    });
});

test('an electric pump that is off stops what it says it blocks; one that says nothing stops nothing', async () => {
    const [silent, blocks] = ['', '   when off blocks'].map((words) => edit(HIGH, 'lift pump LP1 at 800 mm', `electric pump EP1 at 800 mm${words}`));
    expect((await cut(silent!, 'S3', 'stopped')).fastest?.rate).toBeGreaterThan(0);
    expect((await cut(blocks!, 'S3', 'stopped')).fastest?.rate).toBe(0);
    // While it runs liquid comes through it either way, beside the engine's gross flow.
    expect((await cut(blocks!, 'S3', 'running')).fastest).toEqual((await cut(silent!, 'S3', 'running')).fastest);
});

test('a line between two tanks pours from both, and each way has its valve', async () => {
    // Surfaces at 1300 mm, the cut at its low, 700 mm: twice a mouth of 10 mm with 0.6 m of head. 75 % of 200 L stand in each; below 20 mm stay 10 L.
    const text = `
vessel Overnwake {
  heights from "keel"
  envelope level 10 to 75 %
}
${['T1', 'T2'].map((tank) => `tank ${tank} carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up
  pickup X   mouth at 20 mm off bottom   top at 1020 mm
}`).join('\n')}
transfer course Cross from T1.X to T2.X {
  shutoff V1   at 1020 mm   normally open
  hose H1      bore 10 mm   length 2 m   low at 700 mm
  shutoff V2   at 1020 mm   normally open
}
`;
    const found = (await load(text)).boat;
    const [stopped] = severed(found, lineUpsOf(found)[0]!);
    near(stopped?.fastest?.rate, 2 * Math.PI * 0.01 ** 2 / 4 * Math.sqrt(2 * GRAVITY * 0.6 / 1.5));
    near(stopped?.all?.volume, 0.280);
    expect(stopped?.sources.map(({ end, tank, stop }) => [end, tank, stop?.valve])).toEqual([['in', 'T1', 'V1'], ['out', 'T2', 'V2']]);
});

describe('what is not known', () => {
    const lacks = async (from: string, to: string, line = 'S1', state: Severed['state'] = 'stopped'): Promise<string[]> => {
        const found = await cut(edit(HIGH, from, to), line, state);
        expect(JSON.stringify(found)).not.toMatch(/NaN|null/);
        return found.lacks.map(({ about, of }) => `${about} ${of}`);
    };
    test('a bore, a length, a height, the tank\'s shape, the gross flow', async () => {
        expect(await lacks('hose S1       bore 6 mm', 'hose S1')).toEqual(['S1 bore']);
        expect(await lacks('hose S1       bore 6 mm   length 6 m', 'hose S1       bore 6 mm')).toEqual(['S1 length']);
        expect(await lacks('hose S1       bore 6 mm', 'hose S1', 'S2')).toEqual(['S1 bore']);
        expect(await lacks('pickup P1   mouth at 20 mm off bottom   top at 1420 mm', 'pickup P1   mouth at 20 mm off bottom')).toEqual(['S1 heights']);
        expect(await lacks('  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up\n', '')).toEqual(['T1 shape']);
        expect(await lacks('  draws 5 L/h at 800 rpm, 15 L/h at 2400 rpm   inlet at 850 mm', '  inlet at 850 mm', 'S3', 'running')).toEqual(['E1 draws']);
    });
    test('and each says how it is found out', async () => {
        const { boat } = await load(HIGH);
        const told = (['heights', 'place', 'bore', 'length', 'shape', 'tank place', 'draws', 'rate'] as const).map((of) => lineMissing(boat, { about: 'S1', of }));
        expect(new Set(told.map(({ fact }) => fact)).size).toBe(8);
        expect(told.filter(({ about, fact, how }) => about !== 'S1' || !/^(the|where|what) .*S1/.test(fact) || how.length < 20)).toEqual([]);
    });
    test('heeled, where things stand across the boat; upright is told all the same', async () => {
        const found = await cut(edit(HIGH, 'envelope level', 'envelope heel 20 deg   level'), 'S1', 'stopped');
        expect(found.lacks.map(({ about, of }) => `${about} ${of}`)).toEqual(['S1 place', 'T1 tank place']);
        near(found.fastest?.rate, laminar(0.006, 6, 0.5));
    });
});
