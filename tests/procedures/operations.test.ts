/** Operations: what is done with the boat rather than to a part. Figures by the hand arithmetic beside them. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Boat, Job } from '../../src/model/boat';
import type { ServiceStep } from '../../src/model/step';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { UPRIGHT } from '../../src/analysis/tanks/attitude';
import { execute, withCautions } from '../../src/procedures/service/execute';
import { procedureFor, programOf } from '../../src/procedures/service/generate';
import { isBlank, jobWords, type Blank, type ProcedurePlan, type Remark } from '../../src/procedures/service/plan';
import type { Told } from '../../src/procedures/service/told';
import { OPERATIONS } from '../../src/procedures/service/recipes/operations';
import { edit, example, load, type Texts } from '../checks/boats';
import { loadBoat } from '../../src/language/load';
import { drawBoat, textOf } from '../analysis/boats-with-heights';
import { randomCase, toText } from '../oracle/random-boats';
import { DAY, LITRE } from '../analysis/time/boats';

const boatOf = async (texts: Texts): Promise<Boat> => (await load(texts)).boat;
const made = (boat: Boat, job: Job, today?: readonly (readonly [string, number])[], starts?: string): ProcedurePlan | Blank =>
    procedureFor(boat, { jobs: [job], ...(starts !== undefined && { starts }), ...(today && { today: { volumes: new Map(today.map(([tank, litres]) => [tank, litres * LITRE])), attitude: UPRIGHT } }) });

function planOf(boat: Boat, job: Job, today?: readonly (readonly [string, number])[], starts?: string): ProcedurePlan {
    const found = made(boat, job, today, starts);
    if (isBlank(found)) throw new Error(`${jobWords(job)}: ${found.blank} ${found.missing.map(({ fact }) => fact).join(', ')}`);
    return found;
}

const blankOf = (boat: Boat, job: Job, today?: readonly (readonly [string, number])[]): string => {
    const found = made(boat, job, today);
    return isBlank(found) ? [found.blank, ...found.missing.map(({ fact }) => fact)].join(' | ') : 'a procedure';
};

const stepsOf = ({ steps }: ProcedurePlan): ServiceStep[] => steps.map(({ step }) => step).filter((step) => step.do !== 'caution');
const remarkOf = <Say extends Remark['say']>({ steps }: ProcedurePlan, say: Say): Extract<Remark, { say: Say }> | undefined => steps.flatMap(({ remarks }) => remarks).find((remark): remark is Extract<Remark, { say: Say }> => remark.say === say);
const toldOf = <Tell extends Told['tell']>({ steps }: ProcedurePlan, tell: Tell): Extract<Told, { tell: Tell }> | undefined => steps.map(({ told }) => told).find((told): told is Extract<Told, { tell: Tell }> => told?.tell === tell);
/** Valves in the order in which they are set: `VT open`. */
const valves = (plan: ProcedurePlan): string[] => stepsOf(plan).flatMap((step) => (step.do === 'set' ? [`${step.part} ${step.position}`] : []));
const litres = (volume: number | undefined): number | undefined => (volume === undefined ? undefined : Number((volume / LITRE).toFixed(3)));

describe('every operation on every example', () => {
    const names = readdirSync(new URL('../../examples', import.meta.url));
    test.each(names)('%s: it breaks no law, ends in its line-up, and a blank says why', async (name) => {
        const boat = await boatOf(example(name));
        for (const job of OPERATIONS.flatMap(({ rows }) => rows?.(boat) ?? [])) {
            const found = made(boat, job);
            if (isBlank(found)) { expect(found.blank, jobWords(job)).toMatch(/^[A-Z].*[.?]$/s); expect(found.blank, jobWords(job)).not.toMatch(/could not be proven/); continue; }
            const on = found.on ?? boat;
            const { states, broken, atEnd } = execute(on, programOf(found));
            expect([...broken.flat(), ...atEnd], jobWords(job)).toEqual([]);
            const ends = lineUpsOf(on).find(({ id }) => id === found.ends)!;
            expect([...states.at(-1)!.positions].filter(([valve, position]) => ends.positions.get(valve) !== position), jobWords(job)).toEqual([]);
            expect([...states.at(-1)!.open], jobWords(job)).toEqual([]);
        }
    });
});

describe('boats drawn by lot', () => {
    test.each(Array.from({ length: 15 }, (_, i) => i + 1))('%i: no operation throws, and what is given is proven', async (seed) => {
        for (const text of [toText(randomCase(seed).boat), textOf(drawBoat(seed, seed % 2 === 0 ? 0.2 : 0))]) {
            const { boat } = await loadBoat({ 'boat.orlop': text });
            for (const job of OPERATIONS.flatMap(({ rows }) => rows?.(boat) ?? [])) {
                const found = made(boat, job);
                if (isBlank(found)) expect(found.blank, jobWords(job)).not.toMatch(/could not be proven/);
            }
        }
    });
});

describe('transfer', () => {
    const LIFT: Job = { verb: 'transfer', part: 'LIFT', piece: '' };
    // TP1 gives 100 L/h, 1.667 L in a minute. DT holds 50 L: 95 % are 47.5, less 1.667 are 45.83, whole litres 45. 30 L take 30 / 100 h = 18 min.
    test('nobody said how much is in the tanks: at most 15 L in DT before 30 go in', async () => {
        const plan = planOf(await boatOf(DAY), LIFT);
        expect(stepsOf(plan).find((step) => step.do === 'run')).toEqual({ do: 'run', part: 'TP1', until: { tank: 'DT', holds: 45 * LITRE } });
        expect(litres(remarkOf(plan, 'sound first')!.with.most)).toBe(15);
        expect(remarkOf(plan, 'expect transfer')!.with.likely).toBeCloseTo(18 * 60, 6);
        expect(remarkOf(plan, 'never unattended')).toBeDefined();
    });
    // T1 is 1000 x 500 mm: its mouth, 25 mm off bottom, is just wet with 12.5 L.
    test('today there are 27.5 L in DT: 45 - 27.5 = 17.5, so 17 L of the 30, in 10.2 min; T1 keeps its 12.5', async () => {
        const plan = planOf(await boatOf(DAY), LIFT, [['DT', 27.5], ['T1', 100]]);
        const run = stepsOf(plan).find((step) => step.do === 'run');
        expect(run?.do === 'run' && litres(run.until?.holds)).toBe(44.5);
        expect([litres(remarkOf(plan, 'moves less')!.with.volume), litres(remarkOf(plan, 'moves less')!.with.planned)]).toEqual([17, 30]);
        expect(remarkOf(plan, 'expect transfer')!.with.likely / 60).toBeCloseTo(10.2, 6);
        expect(litres(remarkOf(plan, 'stop pumping if')!.with.keeps)).toBe(12.5);
    });
    test('T1 holds 20 L, and 7 of them can go: 20 - 12.5 = 7.5', async () => {
        expect(litres(remarkOf(planOf(await boatOf(DAY), LIFT, [['DT', 5], ['T1', 20]]), 'expect transfer')!.with.volume)).toBe(7);
    });
    test('it is opened from the source on, and shut again', async () => expect(valves(planOf(await boatOf(DAY), LIFT))).toEqual(['V2 open', 'V2 shut']));
    test('refused: full already; below its pickup; more than an empty tank takes; no shape, no rate, no mouth; a pump that fills it in a minute; two pumps; none', async () => {
        const boat = await boatOf(DAY);
        expect(blankOf(boat, LIFT, [['DT', 46], ['T1', 100]])).toMatch(/DT holds 46 L already; TP1 is to be stopped at 45 L/);
        expect(blankOf(boat, LIFT, [['DT', 5], ['T1', 12]])).toMatch(/T1 holds 12 L, and needs 12\.5 L to keep T1\.P1 covered/);
        expect(blankOf(await boatOf(edit(DAY, 'moves 30 L', 'moves 46 L')), LIFT)).toMatch(/46 L are to be moved, and DT takes no more than 45 L even when it is empty/);
        expect(blankOf(await boatOf(edit(DAY, 'box 400 x 250 x 500 mm   low aft inner corner at 900 mm up, 3000 mm fwd, 100 mm stbd', '')), LIFT)).toMatch(/\| the size and height of DT$/);
        expect(blankOf(await boatOf(edit(DAY, 'gives 100 L/h', '')), LIFT)).toMatch(/\| what TP1 delivers$/);
        expect(blankOf(await boatOf(edit(DAY, 'pickup P1   bore 10 mm   mouth at 25 mm off bottom', 'pickup P1   bore 10 mm')), LIFT)).toMatch(/\| the height of the mouth of T1\.P1$/);
        // 50 L a minute are 3000 L/h.
        expect(blankOf(await boatOf(edit(DAY, 'gives 100 L/h', 'gives 3000 L/h')), LIFT)).toMatch(/TP1 fills DT within a minute/);
        expect(blankOf(await boatOf(edit(DAY, 'electric pump TP1 gives 100 L/h when off blocks', 'electric pump TP1 gives 100 L/h when off blocks   hose H2   electric pump TP2 gives 100 L/h when off blocks')), LIFT)).toMatch(/TP1 and TP2 run at once/);
        expect(blankOf(await boatOf(edit(DAY, 'electric pump TP1 gives 100 L/h when off blocks   ', '')), LIFT)).toMatch(/no electric pump moves fuel/);
        expect(blankOf(await boatOf(edit(DAY, 'tank DT {\n', 'tank DT carries heating water {\n')), LIFT)).toMatch(/T1 carries diesel, DT heating water: the one is never pumped into the other/);
    });
    test('a day tank is the only one that feeds its engine: said, not refused', async () => expect(remarkOf(planOf(await boatOf(DAY), LIFT), 'only this tank')).toEqual({ say: 'only this tank', with: { engine: 'E1', tank: 'DT' } }));

    /** She runs from T2, which is to be filled from T1: published C5 asks her to be turned to T1 first. */
    const TWO = `vessel V { envelope heel 10 deg   trim 3 deg   level 10 to 95 % }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 600 mm port\n pickup P1   mouth at 25 mm off bottom   top at 420 mm up, 1100 mm fwd, 800 mm port\n pickup P2   mouth at 25 mm off bottom   top at 420 mm up, 1200 mm fwd, 800 mm port\n drop R1 }
tank T2 { box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 600 mm stbd\n pickup P1   mouth at 25 mm off bottom   top at 420 mm up, 1100 mm fwd, 800 mm stbd\n drop R1\n drop R2 }
engine E1 { burns 5 L/h at 2000 rpm   draws 25 L/h at 2000 rpm }
selector SV1 { ports port, stbd, out\n position PORT joins port, out\n position STBD joins stbd, out }
selector SV2 { ports in, port, stbd\n position PORT joins in, port\n position STBD joins in, stbd\n ganged with SV1 }
supply course FromPort from T1.P1 to SV1.port { shutoff V1 normally open }
supply course FromStbd from T2.P1 to SV1.stbd { shutoff V2 normally open }
supply course Common from SV1.out to E1 { hose S1   filter F1 final }
return course Back from E1 to SV2.in { hose B1 }
return course ToPort from SV2.port to T1.R1 { hose B2 }
return course ToStbd from SV2.stbd to T2.R1 { hose B3 }
transfer course Over from T1.P2 to T2.R2 { shutoff VT normally shut   electric pump TP1 gives 120 L/h when off blocks   shutoff VU normally shut }
line-up RUN-STBD run is normal { SV1 STBD }
line-up RUN-PORT run from RUN-STBD { SV1 PORT }
line-up TRIM transfer from RUN-STBD moves 60 L { VT open   VU open }
`;
    const TRIM: Job = { verb: 'transfer', part: 'TRIM', piece: '' };
    test('the engine is turned to the other tank before, and back afterwards, by both selectors', async () => {
        const plan = planOf(await boatOf(TWO), TRIM);
        expect(valves(plan)).toEqual(['SV1 PORT', 'VT open', 'VU open', 'VU shut', 'VT shut', 'SV1 STBD']);
        expect(remarkOf(plan, 'another tank feeds')).toEqual({ say: 'another tank feeds', with: { engine: 'E1', tank: 'T2', tanks: ['T1'] } });
        expect(stepsOf(plan).some((step) => step.do === 'stop' && step.part === 'E1')).toBe(false);
    });
    test('where no line-up for running draws from the other, it is said', async () => {
        expect(remarkOf(planOf(await boatOf(edit(TWO, 'line-up RUN-PORT run from RUN-STBD { SV1 PORT }\n', '')), TRIM), 'only this tank')).toBeDefined();
    });
    test('where the other tank can feed it, but its return would still fill this one, it stands still', async () => {
        const text = edit(edit(TWO, '\n ganged with SV1 }', ' }'), 'line-up RUN-STBD run is normal { SV1 STBD }', 'line-up RUN-STBD run is normal { SV1 STBD   SV2 STBD }');
        const plan = planOf(await boatOf(text), TRIM);
        expect(stepsOf(plan)[0]).toEqual({ do: 'stop', part: 'E1' });
        expect(plan.consumers).toEqual(['E1']);
    });
});

describe('polish', () => {
    /** T1 holds 1.0 x 0.8 x 0.5 m = 400 L, 380 L full. */
    const LOOP = `vessel V { envelope heel 10 deg   trim 3 deg   level 10 to 95 % }
tank T1 { box 1000 x 800 x 500 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 0 mm stbd
  pickup P1   mouth at 25 mm off bottom
  pickup P2   mouth at 10 mm up, 2100 mm fwd, 400 mm stbd   top at 520 mm up, 2100 mm fwd, 400 mm stbd
  drop R1
  drop R2     mouth at 10 mm up, 2800 mm fwd, 400 mm stbd
}
engine E1
supply course Feed from T1.P1 to E1 { hose S1 }
return course Back from E1 to T1.R1 { hose B1 }
transfer course Polish from T1.P2 to T1.R2 { shutoff VP normally shut   hose H1   electric pump EP1   gives 95 L/h   filter FP primary   dirty 8 kPa   hose H2 }
line-up RUN run is normal
line-up POLISH polish from RUN { VP open }
`;
    const POLISH: Job = { verb: 'polish', part: 'POLISH', piece: '' };
    // 380 / 95 = 4 h a turn; three are 12 h, five 20 h. e^-3 = 0.0498, e^-5 = 0.0067.
    test('three turns of 380 L at 95 L/h take 12 h', async () => {
        const plan = planOf(await boatOf(LOOP), POLISH);
        expect(stepsOf(plan).find((step) => step.do === 'run')).toEqual({ do: 'run', part: 'EP1', seconds: 12 * 3600 });
        const turns = remarkOf(plan, 'expect turns')!.with;
        expect([turns.turn / 3600, turns.likely / 3600, turns.longer / 3600, turns.leaves, turns.leavesLess]).toEqual([4, 12, 20, 0.0498, 0.0067].map((value) => expect.closeTo(value, 4)));
        expect(remarkOf(plan, 'watch element')!.with).toEqual({ filter: 'FP', every: 3600, gauges: [], dirty: 8000 });
        expect(valves(plan)).toEqual(['VP open', 'VP shut']);
    });
    test('today it holds 190 L: half the time', async () => expect(stepsOf(planOf(await boatOf(LOOP), POLISH, [['T1', 190]])).find((step) => step.do === 'run')).toMatchObject({ seconds: 6 * 3600 }));
    test('refused: no filter; into another tank; no rate', async () => {
        expect(blankOf(await boatOf(edit(LOOP, 'filter FP primary   dirty 8 kPa', '')), POLISH)).toMatch(/no filter between EP1 and T1/);
        expect(blankOf(await boatOf(edit(edit(LOOP, 'to T1.R2', 'to T2.R2'), 'engine E1\n', 'tank T2 { drop R2 }\nengine E1\n')), POLISH)).toMatch(/moves fuel from tank to tank/);
        expect(blankOf(await boatOf(edit(LOOP, 'gives 95 L/h', '')), POLISH)).toMatch(/\| what EP1 delivers$/);
    });
});

const ottilwake = example('ottilwake') as Readonly<Record<string, string>>;
const marrenwake = example('marrenwake') as Readonly<Record<string, string>>;
const changed = (texts: Readonly<Record<string, string>>, file: string, old: string, now: string): Texts => ({ ...texts, [file]: edit(texts[file]!, old, now) });
const vents = (plan: ProcedurePlan): string[] => stepsOf(plan).flatMap((step) => (step.do === 'bleed' ? [`${step.vent} ${step.driver.by}`] : []));
const placeIn = (plan: ProcedurePlan, test: (step: ServiceStep) => boolean): number => stepsOf(plan).findIndex(test);

describe('an engine fed from a can', () => {
    const CAN: Job = { verb: 'bleed', part: 'E1', piece: 'from a can' };
    // The highest that the can feeds is BS2, at 900 mm; 100 mm over it, twice the 50 mm that gravity needs, is 1000 mm, and LP1 stands at 620.
    test('it stands 380 mm over the lift pump, and needs no pump', async () => {
        const plan = planOf(await boatOf(ottilwake), CAN);
        expect([remarkOf(plan, 'can stands')!.with.up, toldOf(plan, 'lash the can')!.with.over]).toEqual([1, 0.38].map((value) => expect.closeTo(value, 9)));
        expect(vents(plan)).toEqual(['BS2 gravity', 'BS3 gravity']);
    });
    // At 1300 rpm between 0.6 L/h at 850 and 2.4 at 2400: 0.6 + 1.8 x 450 / 1550 = 1.1226 L/h, so 60 / 1.1226 = 53.4 min.
    test('a litre lasts 53.4 min at the speed at which it is run', async () => {
        const { seconds, speed } = remarkOf(planOf(await boatOf(ottilwake), CAN), 'a litre lasts')!.with;
        expect([seconds! / 60, speed! * 60]).toEqual([53.4, 1300].map((value) => expect.closeTo(value, 1)));
    });
    test('until the can hangs there the caution speaks of the valve and the tank of the boat, never of the tap', async () => {
        const plan = planOf(await boatOf(ottilwake), CAN);
        const texts = plan.steps.slice(0, plan.steps.findIndex(({ step }) => step.do === 'set' && step.part === 'CAN-TAP')).flatMap(({ step }) => (step.do === 'caution' && step.topic === 'flood' ? [step.text] : []));
        expect(texts).toHaveLength(2);
        for (const text of texts) { expect(text).toMatch(/^V1 shut/); expect(text).not.toMatch(/CAN/); }
    });
    test('the battery is off for hands at the lever and on for the start; joints are looked at before it and after', async () => {
        const steps = stepsOf(planOf(await boatOf(ottilwake), CAN)).map((step) => (step.do === 'switch' && step.thing === 'battery switch' ? `battery ${step.to}` : step.do === 'look' && step.piece === 'all joints' ? 'joints' : step.do));
        expect(steps.filter((words) => ['battery off', 'battery on', 'prove', 'start', 'joints'].includes(words))).toEqual(['battery off', 'prove', 'joints', 'battery on', 'start', 'joints']);
    });
    test('the tank is shut off before the first line is parted, both lines are told, and her own end of each is plugged', async () => {
        const plan = planOf(await boatOf(ottilwake), CAN);
        expect(plan.steps.flatMap(({ told }) => (told?.tell === 'part and plug' ? [told.with] : []))).toEqual([{ part: 'LP1', from: 'S2', side: 'supply' }, { part: 'E1', from: 'R', side: 'return' }]);
        expect(plan.after).toContainEqual({ say: 'back to the tank', with: { engine: 'E1', lineUp: 'RUN', opened: ['LP1', 'E1'], plugged: ['S2', 'R'], tap: 'CAN-TAP', valves: ['V1'] } });
        expect(placeIn(plan, (step) => step.do === 'set' && step.part === 'V1')).toBeLessThan(placeIn(plan, (step) => step.do === 'open'));
        expect(placeIn(plan, (step) => step.do === 'set' && step.part === 'CAN-TAP')).toBeGreaterThan(placeIn(plan, (step) => step.do === 'look'));
    });
    test('the boat that was asked about stays as she is', async () => {
        const boat = await boatOf(ottilwake);
        const before = JSON.stringify([boat.parts, boat.joints, boat.tanks, boat.lineUps]);
        planOf(boat, CAN);
        expect(JSON.stringify([boat.parts, boat.joints, boat.tanks, boat.lineUps])).toBe(before);
    });
    test('it runs on when she is under way, and a generator, which does not, is stopped again', async () => {
        const boat = await boatOf(marrenwake);
        const stops = (part: string): number => stepsOf(planOf(boat, { ...CAN, part })).filter((step) => step.do === 'stop' && step.part === part).length;
        expect([stops('E1'), stops('GN')]).toEqual([1, 2]);
    });
    test('refused: a rail; no height; no filter behind the pump; too much pressure', async () => {
        expect(blankOf(await boatOf(changed(ottilwake, 'boat.orlop', 'injection in-line mechanical', 'injection common-rail electronic')), CAN)).toMatch(/^E1 has a rail/);
        expect(blankOf(await boatOf(changed(ottilwake, 'lines.orlop', 'lift pump LP1 at 620 mm up, 3000 mm fwd, 150 mm port   lever', 'lift pump LP1 lever')), CAN)).toMatch(/\| the height of the ports of LP1$/);
        const bare = ottilwake['lines.orlop']!.replace(/ {2}filter F2 final[^}]*\}\n/, '');
        expect(blankOf(await boatOf({ 'boat.orlop': ottilwake['boat.orlop']!, 'lines.orlop': bare }), CAN)).toMatch(/^Behind the lift pump of E1 no filter follows/);
        // Full it stands 1.35 - 0.82 = 0.53 m over the inlet: some 0.53 x 8.3 = 4.4 kPa.
        expect(blankOf(await boatOf(changed(ottilwake, 'boat.orlop', 'return 10 kPa', 'return 10 kPa   head 4 kPa')), CAN)).toMatch(/presses 4\.4\d kPa \(1\.3 inHg\) on the inlet of E1; its maker allows 4 kPa/);
    });
});

describe('a duplex under way', () => {
    const TURN: Job = { verb: 'work', part: 'CH1-P', piece: 'to B under way' };
    test('the changeover first, the drain that proves it, the element, and filled to the brim before the lid; the other side and the engine are let alone', async () => {
        const plan = planOf(await boatOf(marrenwake), TURN);
        const steps = stepsOf(plan).map((step) => [step.do, 'part' in step ? step.part : '', 'opening' in step ? step.opening : ''].join(' ').trim());
        expect(steps.filter((step) => /^(set|hold|open|remove|prefill|close)/.test(step))).toEqual([
            'set CH1-P', 'hold FA-P drain', 'open FA-P lid', 'remove FA-P', 'remove FA-P', 'close FA-P drain', 'prefill FA-P', 'close FA-P lid',
        ]);
        expect(steps.some((step) => /^(stop|start|bleed)/.test(step))).toBe(false);
        expect(remarkOf(plan, 'turn slowly')!.with.passes).toBe('BOTH');
        expect(plan.underWay).toBe(true);
    });
    test('it ends with the others as they were, and says which line-up to write', async () => {
        const plan = planOf(await boatOf(marrenwake), TURN);
        const ends = lineUpsOf(plan.on!).find(({ id }) => id === plan.ends)!;
        expect(['CH1-P', 'CH1-S', 'CH1-G'].map((id) => ends.positions.get(id))).toEqual(['B', 'A', 'A']);
        expect(plan.defaults[0]).toContain('line-up RUN-CH1-P-B run from RUN { CH1-P B }');
        const declared = await boatOf({ ...marrenwake, 'more.orlop': 'line-up PORT-B run from RUN { CH1-P B }\n' });
        expect([planOf(declared, TURN).ends, planOf(declared, TURN).defaults]).toEqual(['PORT-B', []]);
    });
    test('back again from the line-up in which the other side runs', async () => expect(remarkOf(planOf(await boatOf(marrenwake), { ...TURN, piece: 'to A under way' }, undefined, 'RUN-B'), 'not the other side')!.with).toEqual({ opens: ['FB-P'], runs: ['FA-P'] }));
    test('refused: may not be filled by hand; both at once; a generator; a leg that stays joined', async () => {
        expect(blankOf(await boatOf(changed(marrenwake, 'patterns.orlop', 'prefill allowed', 'prefill forbidden')), TURN)).toMatch(/FA-P may not be filled by hand/);
        const boat = await boatOf(marrenwake);
        expect(blankOf(boat, { ...TURN, piece: 'to BOTH under way' })).toMatch(/takes no filter off line/);
        expect(blankOf(boat, { ...TURN, part: 'CH1-G' })).toMatch(/^GN can be stopped while FA-G is renewed.*`renew FA-G element`/);
        // In B the outlet of leg A stays open to what the engine draws from.
        const leaky: Boat = { ...boat, parts: boat.parts.map((part) => (part.id !== 'CH1-P' ? part : {
            ...part, positions: part.positions.map((position) => (position.name !== 'B' ? position : { ...position, joins: position.joins.map((group) => (group.includes('out') ? [...group, ...outletOfA(part.positions)] : group)) })),
        })) };
        expect(blankOf(leaky, TURN)).toMatch(/FA-P is still joined to (E1|T1)/);
    });
    /** The port that position A joins to `out`. */
    const outletOfA = (positions: Boat['parts'][number]['positions']): readonly string[] => positions.find(({ name }) => name === 'A')!.joins.find((group) => group.includes('out'))!.filter((port) => port !== 'out');
});

describe('after running dry', () => {
    const DRY: Job = { verb: 'bleed', part: 'E1', piece: 'after running dry' };
    // At 25° to starboard and 3° bow down 53.5 L keep the pickup wet (worked out apart); 1.037 L of lines with a quarter more are 1.30: 54.8.
    test('so much that the pickup stays covered when the lines have filled; from the tank to the engine', async () => {
        const plan = planOf(await boatOf(ottilwake), DRY);
        expect(litres(toldOf(plan, 'fill the tank')!.with.volume)).toBeCloseTo(54.8, 1);
        expect(vents(plan).map((words) => words.split(' ')[0])).toEqual(['BS1', 'BS2', 'BS3']);
    });
    test('the same from lines that are full of air: the executor finds nothing broken', async () => {
        for (const name of ['ottilwake', 'brackenwake-mended', 'marrenwake']) {
            const boat = await boatOf(example(name));
            const plan = planOf(boat, DRY);
            const first = stepsOf(plan).findIndex((step) => step.do === 'bleed' || step.do === 'set');
            // An electric pump of the sequence has no power while the battery is off.
            const isBled = (step: ServiceStep): boolean => ['bleed', 'set', 'prove', 'start'].includes(step.do);
            const program = programOf(plan);
            const steps: ServiceStep[] = [...stepsOf(plan).slice(0, first), { do: 'switch', thing: 'battery switch', to: 'on' }, { do: 'sequence', engine: 'E1', opened: [], prefilled: [], ranDry: true }, ...stepsOf(plan).slice(first).filter((step) => !isBled(step))];
            const { broken, atEnd } = execute(boat, withCautions(boat, { ...program, steps }));
            expect([...broken.flat(), ...atEnd], name).toEqual([]);
        }
    });
    test('others that draw from the same tank are told', async () => expect(remarkOf(planOf(await boatOf(marrenwake), DRY), 'bleed these too')).toEqual({ say: 'bleed these too', with: { consumers: ['GN'], tanks: ['T1'] } }));
});

describe('a shutoff that is pulled from outside', () => {
    const PULL: Job = { verb: 'test', piece: 'remote shutoff' };
    const said = changed(ottilwake, 'upkeep.orlop', 'tend {\n', 'tend {\n  test V1 remote shutoff   every 12 months\n');
    test('nothing says which', async () => expect(blankOf(await boatOf(ottilwake), PULL)).toMatch(/\| which shutoffs are worked from outside$/));
    test('with the engine stopped: pulled, seen to lie across, reset, seen to lie along', async () => {
        const plan = planOf(await boatOf(said), PULL);
        expect(plan.steps.flatMap(({ step, remarks }) => (step.do === 'set' ? [step.position] : remarks.flatMap((remark) => (remark.say === 'lever tells' ? [`seen ${remark.with.position}`] : []))))).toEqual(['shut', 'seen shut', 'open', 'seen open']);
        expect(stepsOf(plan)[0]).toEqual({ do: 'stop', part: 'E1' });
        expect(stepsOf(plan).some((step) => step.do === 'run' || step.do === 'start')).toBe(false);
    });
    // Behind V1 stand 130.7 + 20 + 12.6 + 450 + 70.4 + 25 + 17 + 220 + 9.9 + 60 = 1015.6 mL, drawn at 5.3 L/h: 690 s.
    test('an engine idling would die within 11.5 min', async () => expect(remarkOf(planOf(await boatOf(said), PULL), 'engine would die')!.with.seconds).toBeCloseTo(690, -1));
    test('a solenoid is shut by its switch; one that is locked open cannot be pulled', async () => {
        const boat = await boatOf(changed(ottilwake, 'lines.orlop', 'in QuarterBerth   normally open   label "FUEL"', 'in QuarterBerth   normally open   label "FUEL"   solenoid'));
        expect(remarkOf(planOf(boat, PULL), 'shut by its switch')).toEqual({ say: 'shut by its switch', with: { valve: 'V1' } });
        expect(blankOf(await boatOf(changed(said as Record<string, string>, 'lines.orlop', 'normally open   label "FUEL"', 'locked open   label "FUEL"')), PULL)).toMatch(/^V1 is locked open/);
    });
});

describe('whether a shutoff holds', () => {
    const HOLD: Job = { verb: 'test', part: 'V1', piece: 'for holding' };
    // The drain stands at 480 mm; the primer holds back 0.2 kPa, 24 mm of fuel: 504 - 200 = 304 mm of 0.48 L are 146 L.
    test('by the drain of the filter behind it, with more than 146 L', async () => {
        const plan = planOf(await boatOf(ottilwake), HOLD);
        expect(stepsOf(plan).find((step) => step.do === 'hold')).toMatchObject({ valves: ['V1'], part: 'F1', opening: 'drain' });
        expect(litres(remarkOf(plan, 'proves above')!.with.volume)).toBeCloseTo(146, 0);
    });
    test('today there are 100 L: a stream that cannot come proves nothing', async () => expect(blankOf(await boatOf(ottilwake), HOLD, [['T1', 100]])).toMatch(/^T1 holds 100 L\. With less than 146 L nothing comes at the drain of F1, whether V1 holds or not\. .*work PR1/));
    test('where nothing stands below the surface it is said what else shows it', async () => {
        expect(blankOf(await boatOf(example('ottilwake-mended')), { ...HOLD, part: 'V2' })).toMatch(/^Nothing behind V2 stands below the surface of T1 while she is upright, .*work the lever of LP1/);
    });
    test('the other tank\'s is asked for from its own line-up', async () => expect(blankOf(await boatOf(example('brackenwake-mended')), { ...HOLD, part: 'V2' })).toMatch(/Ask for the procedure that starts from RUN-STBD/));
});

describe('laying up', () => {
    const UP: Job = { verb: 'lay', piece: 'up' };
    const OUT: Job = { verb: 'recommission', piece: '' };
    // 0.95 x 201.6 L = 191.5.
    test('treated fuel is run to the injectors for 15 min, then the valve is shut, then the bowl is drained', async () => {
        const plan = planOf(await boatOf(ottilwake), UP);
        expect([plan.starts, plan.ends]).toEqual(['RUN', 'LAID-UP']);
        const order = [(step: ServiceStep) => step.do === 'run' && step.seconds === 900, (step: ServiceStep) => step.do === 'set' && step.part === 'V1' && step.position === 'shut', (step: ServiceStep) => step.do === 'open' && step.opening === 'drain', (step: ServiceStep) => step.do === 'switch' && step.to === 'shut'].map((is) => placeIn(plan, is));
        expect(order).toEqual([...order].sort((a, b) => a - b));
        expect(order[0]).toBeGreaterThan(0);
        expect(litres(toldOf(plan, 'treat the fuel')!.with.full)).toBeCloseTo(191.5, 1);
    });
    test('taken into use from where she was laid up: a sample, the bowl, valves, bleed, seacock, start', async () => {
        const plan = planOf(await boatOf(ottilwake), OUT);
        expect([plan.starts, plan.ends]).toEqual(['LAID-UP', 'RUN']);
        const order = [(step: ServiceStep) => step.do === 'look' && step.piece === 'level', (step: ServiceStep) => step.do === 'open', (step: ServiceStep) => step.do === 'set' && step.position === 'open', (step: ServiceStep) => step.do === 'bleed', (step: ServiceStep) => step.do === 'switch' && step.thing === 'seacock', (step: ServiceStep) => step.do === 'start'].map((is) => placeIn(plan, is));
        expect(order).toEqual([...order].sort((a, b) => a - b));
        expect(order[0]).toBeGreaterThan(0);
    });
    test('without a line-up for it there is none; a consumer that stays open is told', async () => {
        expect(blankOf(await boatOf(example('brackenwake')), UP)).toMatch(/^There is no line-up for laying up/);
        const open = await boatOf(changed(marrenwake, 'lines.orlop', '{ V1-G shut   VH shut }', '{ V1-G shut }'));
        expect(remarkOf(planOf(open, UP), 'still open')).toEqual({ say: 'still open', with: { consumer: 'HE1', tanks: ['T2'], lineUp: 'LAID-UP' } });
    });
});
