/** Seconds by gravity in a sequence, what is said where there are none, and strokes that only thin the air. The arithmetic stands beside each number. */
import { describe, expect, test } from 'vitest';
import { blockText } from '../../src/documents/bleed/block';
import { sheetText } from '../../src/documents/bleed/sheet';
import { GRAVITY } from '../../src/analysis/flow/pipe';
import { loadBoat } from '../../src/language/load';
import { planBleed, type BleedPlan } from '../../src/procedures/bleed';
import { judge } from '../../src/checks/judge';
import { checkBleedBlocks } from '../../src/documents/bleed/kept';
import type { Boat } from '../../src/model/boat';
import { edit, load } from '../checks/boats';

/** 200 L; at its lowest level of 50 % the surface stands at 1200 mm, over BS1 at 650 mm by 550 mm. */
const ABOVE = `
vessel Highernwake {
  heights from "keel"
  envelope heel 10 deg   trim 2 deg   level 50 to 95 %
}
tank T1 carries diesel {
  box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 1000 mm
  drop R1     top at 1420 mm
  vent        at 1420 mm
  fill        at 1420 mm
}
engine E1 {
  injection in-line mechanical   exhaust dry   holds 60 mL   inlet at 600 mm
  bleed BS2   at 620 mm
}
supply course Feed from T1.P1 to E1 {
  shutoff V1    at 990 mm   normally open
  hose S1       bore 6 mm   length 3 m
  filter F1 primary {
    holds 500 mL   ports at 600 mm   lid at 640 mm   prefill forbidden
    bleed BS1   at 650 mm
  }
  hose S2       bore 6 mm   length 1 m
}
return course Back from E1 to T1.R1 { tube B1   bore 6 mm   length 4 m }
line-up RUN run is normal
line-up SERVICE service from RUN { V1 shut }
`;

async function sequence(text: string, opened = ['F1']): Promise<{ boat: Boat; plan: BleedPlan; at: (vent: string) => BleedPlan['steps'][number] }> {
    const { boat } = await load(text);
    const plan = planBleed(boat, { engine: 'E1', opened });
    if ('refused' in plan) throw new Error(plan.refused);
    return { boat, plan, at: (vent) => plan.steps.find(({ step }) => step.do === 'bleed' && step.vent === vent)! };
}

/** 3 m of 6 mm and 20 mm of 8 mm, laminar, 5.5 mm²/s, with 1.5 velocity heads in the wider: a v² + b v = h for the speed in 6 mm. */
function flow(head: number): number {
    const share = (6 / 8) ** 2;
    const [a, b] = [1.5 * share ** 2 / (2 * GRAVITY), 32 * 5.5e-6 / GRAVITY * (3 / 0.006 ** 2 + 0.02 * share / 0.008 ** 2)];
    const speed = (-b + Math.sqrt(b * b + 4 * a * head)) / (2 * a);
    expect(speed * 0.006 / 5.5e-6).toBeLessThan(2000);
    return speed * Math.PI * 0.006 ** 2 / 4;
}

describe('seconds', () => {
    test('from the air alone by the pipes, to all that may be air with filters and fittings, the tank having sunk', async () => {
        // F1 is empty, 500 mL; S1 hangs above it and may have run out, 84.82 mL. The tank of 0.5 m² sinks by 1.25 · 584.82 mL / 0.5 m² = 1.46 mm.
        const all = 0.5e-3 + Math.PI * 0.006 ** 2 / 4 * 3;
        const likely = Math.ceil(1.25 * 0.5e-3 / flow(0.55));
        const most = Math.ceil(3 * 1.25 * all / flow(0.55 - 1.25 * all / 0.5));
        expect([likely, most]).toEqual([61, 214]);
        const { at } = await sequence(ABOVE);
        // Stop and think at 1.25 times the most: 267.5.
        expect(at('BS1').step).toMatchObject({ driver: { by: 'gravity', part: 'T1' }, expect: { in: 's', likely: 61, most: 214, think: 268 } });
    });

    test('the sheet says how they are reckoned, and with what', async () => {
        const { boat, plan } = await sequence(ABOVE);
        const sheet = sheetText(boat, plan).replace(/\s+/g, ' ');
        expect(sheet).toContain('Expect 61 to 214 s. Stop and think at 268: past that the cause is not trapped air but a shut valve, a blocked pickup or vent, or a tank that is too low.');
        expect(sheet).toContain('Seconds by gravity are reckoned from the lowest level of the tank');
        for (const taken of ['diesel is taken as 840 kg/m³ at 15 °C (common practice; EN 590: 820 to 845)', 'diesel at 8 °C is taken as 5.5 mm²/s (common practice; EN 590: 2.0 to 4.5 mm²/s at 40 °C)', 'the coldest fuel is taken as 8 °C (common practice)']) expect(sheet).toContain(taken);
        expect(sheet).not.toContain('Strokes are reckoned');
    });

    test('a kept block holds them, and a bore that is measured anew makes it untrue', async () => {
        const { boat, plan } = await sequence(ABOVE);
        const block = blockText(boat, plan);
        expect(block).toContain('bleed BS1 by gravity from T1   expect 61 to 214 s   stop and think at 268');
        const loaded = await load(`${ABOVE}\n${block}`);
        expect(checkBleedBlocks(loaded.boat)).toEqual([]);
        const wider = await loadBoat({ 'boat.orlop': `${edit(ABOVE, 'hose S1       bore 6 mm', 'hose S1       bore 8 mm')}\n${block}` });
        expect(checkBleedBlocks(wider.boat).map(({ message }) => message)).toContain('This line of the bleed sequence is no longer true.');
        expect(judge(wider.boat).findings.length).toBeGreaterThan(0);
    });

    test.each([
        ['a bore', 'hose S1       bore 6 mm   length 3 m', 'hose S1       length 3 m'], ['a length', 'hose S1       bore 6 mm   length 3 m', 'hose S1       bore 6 mm'],
        ['the volume', 'holds 500 mL   ports', 'ports'],
        // 1.25 · 500 mL and more from a tank that holds 1 L in all, half full.
        ['enough in the tank', 'box 1000 x 500 x 400 mm', 'box 50 x 50 x 400 mm'],
    ])('not without %s', async (_what, from, to) => {
        const { boat, plan, at } = await sequence(edit(ABOVE, from, to));
        expect(at('BS1').step).not.toHaveProperty('expect');
        expect(sheetText(boat, plan).replace(/\s+/g, ' ')).toContain('How many cannot be said: at its lowest level T1 does not hold what must come (top it up as it sinks), or a volume, a bore or a length on the way is not known.');
    });
});

describe('strokes that only thin the air', () => {
    // A pump 600 mm above the lowest surface, with 10 m of 12 mm before it: 1131 mL, and strokes of 10 mL, of which 8 count.
    const BELOW = ABOVE.replace('low aft inner corner at 1000 mm up', 'low aft inner corner at 0 mm up').replace('top at 1000 mm', 'top at 420 mm')
        .replace('hose S1       bore 6 mm   length 3 m', 'hose S0       bore 12 mm   length 10 m\n  primer PR1    at 800 mm   stroke 10 mL   holds 20 mL\n  hose S1       bore 6 mm   length 0.3 m');
    test('are told with the height', async () => {
        const { boat } = await load(BELOW);
        const plan = planBleed(boat, { engine: 'E1', opened: [], ranDry: true });
        if ('refused' in plan) throw new Error(plan.refused);
        const first = plan.steps.find(({ step }) => step.do === 'bleed')!;
        // n = ln(p0/(p0 - Δp)) / ln(1 + s/V), 840 kg/m³ are 844.95 at 8 °C (tests/analysis/flow/fuel.test.ts), Δp = 844.95 · 9.80665 · 0.6 = 4971.7 Pa, V = 1131.0 mL + the dip tube's 20.1 mL: ln 1.05160 / ln 1.0069498 = 7.26.
        const volume = Math.PI / 4 * (0.012 ** 2 * 10 + 0.008 ** 2 * 0.4);
        const strokes = Math.log(101325 / (101325 - 844.95 * GRAVITY * 0.6)) / Math.log(1 + 8e-6 / volume);
        expect(strokes).toBeCloseTo(7.26, 1);
        expect(first.drawUp).toEqual({ tank: 'T1', above: expect.closeTo(0.6, 9), strokes: 8 });
        expect(sheetText(boat, plan).replace(/\s+/g, ' ')).toContain('PR1 stands 600 mm above the surface of T1 at its lowest level: there the first 8 strokes may bring nothing, while the air before it is thinned.');
    });
    test('are not told where the pump stands below the surface, or the line before it is full', async () => {
        // Behind the shut V1, and no higher than F1, S0 keeps its fuel when F1 is opened.
        const full = BELOW.replace('V1    at 990 mm', 'V1    at 420 mm').replace('at 800 mm   stroke', 'at 600 mm   stroke');
        const filters = planBleed((await load(full)).boat, { engine: 'E1', opened: ['F1'] });
        const high = planBleed((await load(BELOW.replace('at 800 mm   stroke', 'at 150 mm   stroke'))).boat, { engine: 'E1', opened: [], ranDry: true });
        for (const plan of [filters, high]) {
            if ('refused' in plan) throw new Error(plan.refused);
            expect(plan.steps.filter(({ step }) => step.do === 'bleed').length).toBeGreaterThan(0);
            expect(plan.steps.filter(({ drawUp }) => drawUp)).toEqual([]);
        }
    });
});

describe('crests', () => {
    const crested = (stroke: string): string => ABOVE.replace('low aft inner corner at 1000 mm up', 'low aft inner corner at 0 mm up').replace('top at 1000 mm', 'top at 420 mm')
        .replace('hose S1       bore 6 mm   length 3 m', `primer PR1    at 500 mm   stroke ${stroke}   holds 20 mL\n  hose S1       bore 8 mm   length 2 m   crest at 900 mm`);
    const beware = async (stroke: string): Promise<string> => {
        const { boat, plan } = await sequence(crested(stroke));
        return blockText(boat, plan).split('\n').find((line) => line.includes('beware S1'))!;
    };
    // A stroke a second through 50.265 mm²: 3 mL are 0.0597 m/s, below the 0.0775 m/s of the least law (Viana, by hand in the tests of the air).
    test('that keep their air, by every law', async () => expect(await beware('3 mL')).toContain('its crest at 900 mm keeps its air: PR1 moves only 0.06 m/s through it, less than the 0.15 m/s of common practice and than any law asks (the least: 0.08 m/s, Viana and others (2003), straight down).'));
    // 6 mL: 0.119 m/s; the next law is Benjamin's, 0.542 · 0.28010 = 0.152.
    test('between the laws', async () => expect(await beware('6 mL')).toContain('may keep air: PR1 moves 0.12 m/s through it, less than the 0.15 m/s of common practice, less than the 0.15 m/s of Benjamin (1968), lying level.'));
    // 15 mL: 0.298 m/s; Kalinske and Bliss ask 0.423.
    test('above most', async () => expect(await beware('15 mL')).toContain('may keep air: PR1 moves 0.30 m/s through it, more than the 0.15 m/s of common practice, less than the 0.42 m/s of Kalinske and Bliss (1943), at 45° down.'));
    // 30 mL: 0.597 m/s.
    test('and above all of them it may still be there', async () => expect(await beware('30 mL')).toContain('may keep air: PR1 moves 0.60 m/s through it, more than the 0.15 m/s of common practice. No law is proven in so small a bore.'));
});
