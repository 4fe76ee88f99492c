/** Vessel A of the trade sheet as plain data, and two of its procedures by hand: bleeding after both filters, and the gold procedure. */
import type { PlainBoat, PlainPart } from './boat';
import type { PlainProgram, PlainStep } from './steps';

const IN_OUT = ['in', 'out'];
const VALVE = { open: [IN_OUT], shut: [] };
/** mL of a bore and a length: π/4 times 8 mm squared is 50.265 mL a metre, of 6 mm 28.274. */
const litres = (mLPerMetre: number, metres: number): number => mLPerMetre * metres / 1000;
const pipe = (name: string, holds: number, more: Partial<PlainPart> = {}): PlainPart => ({ name, kind: 'pipe', ports: IN_OUT, litres: holds, vents: [], seals: [], ...more });
const chain = (...names: string[]): (readonly [string, string])[] => names.slice(1).map((name, i) => [names[i]!.includes('.') ? names[i]! : `${names[i]}:out`, name.includes('.') ? name : `${name}:in`]);

const F1_AT = { up: 0.66, fwd: 3.3, stbd: -0.3 };
const F2_AT = { up: 0.88, fwd: 3.05, stbd: -0.15 };

export const vesselA: PlainBoat = {
    tanks: [{
        name: 'T1', fluid: 'fuel', box: { fwd: [2.2, 3], stbd: [0.55, 1.15], up: [0.2, 0.62] },
        fittings: [
            { name: 'P1', kind: 'pickup', mouth: { up: 0.225, fwd: 2.35, stbd: 0.7 }, top: { up: 0.65, fwd: 2.35, stbd: 0.7 }, litres: 0.0214 },
            { name: 'R1', kind: 'drop', mouth: { up: 0.225, fwd: 2.9, stbd: 0.85 }, top: { up: 0.65, fwd: 2.9, stbd: 0.85 } },
        ],
    }],
    consumers: [{
        name: 'E1', kind: 'engine', inlet: { up: 0.82, stbd: -0.2 }, litres: 0.06, vents: [{ name: 'BS3', at: { up: 0.82, stbd: -0.2 } }],
        // 2.0 L at 25 L/min x 200/3600 is 86.4 s; half of it is the budget.
        exhaust: { wet: true, floods: 86.4 },
    }],
    parts: [
        { name: 'V1', kind: 'shutoff', ports: IN_OUT, at: { up: 0.66, fwd: 2.35, stbd: 0.7 }, positions: VALVE, vents: [], seals: [] },
        pipe('S1', litres(50.265, 2.6), { low: 0.56 }),
        { name: 'PR1', kind: 'hand pump', ports: IN_OUT, at: { up: 0.64, stbd: -0.3 }, litres: 0.02, vents: [], seals: [] },
        pipe('S1b', litres(50.265, 0.25)),
        {
            name: 'F1', kind: 'filter', ports: IN_OUT, at: F1_AT, litres: 0.45, primary: true, prefill: 'allowed',
            lid: { ...F1_AT, up: 0.7 }, drain: { ...F1_AT, up: 0.48 }, vents: [{ name: 'BS1', at: { ...F1_AT, up: 0.705 } }], seals: ['lid ring', 'T-ring', 'drain washer'],
        },
        { name: 'G1', kind: 'gauge', ports: IN_OUT, at: { up: 0.66 }, vents: [], seals: [] },
        pipe('S2', litres(50.265, 1.4), { crest: 0.76 }),
        { name: 'LP1', kind: 'lever pump', ports: IN_OUT, at: { up: 0.62, fwd: 3, stbd: -0.15 }, litres: 0.025, vents: [], seals: [] },
        pipe('S3', litres(28.274, 0.6)),
        { name: 'F2', kind: 'filter', ports: IN_OUT, at: F2_AT, litres: 0.22, prefill: 'not on the clean side', vents: [{ name: 'BS2', at: { ...F2_AT, up: 0.9 } }], seals: ['top ring', 'bottom ring'] },
        pipe('S4', litres(28.274, 0.35)),
        pipe('R', litres(28.274, 3.4), { low: 0.56 }),
    ],
    joins: [...chain('T1.P1', 'V1', 'S1', 'PR1', 'S1b', 'F1', 'G1', 'S2', 'LP1', 'S3', 'F2', 'S4', 'E1', 'R', 'T1.R1')],
    lineUps: { RUN: { V1: 'open' }, SERVICE: { V1: 'shut' } },
    laidUp: [],
    envelope: { heel: 25 * Math.PI / 180, trim: 3 * Math.PI / 180, low: 0.05, high: 0.95 },
};

const cautions = (...topics: string[]): PlainStep[] => topics.map((topic) => { const [name, part] = topic.split(' ') as [string, string?]; return { do: 'caution', topic: name, ...(part && { part }) }; });
const under = (part: string, holds: number): PlainStep[] => [{ do: 'place', thing: 'can', part, holds }, { do: 'place', thing: 'pads', part }];
const start: PlainStep = { do: 'start', engine: 'E1', tries: 2, seconds: 10 };

/** S1 of the trade sheet: bleeding after F1 and F2 were changed, with V1 shut first and F1 not filled; here with what hands do around it. */
export const bleedingA: readonly PlainStep[] = [
    { do: 'set', part: 'V1', position: 'open' },
    { do: 'bleed', vent: 'BS1', driver: 'PR1' },
    { do: 'bleed', vent: 'BS2', driver: 'PR1' },
    { do: 'prove', pump: 'LP1', vent: 'BS2' },
    { do: 'bleed', vent: 'BS3', driver: 'LP1' },
];

/** The gold procedure, step by step: change F1 element, inspect F2. F1 is not filled by hand, since PR1 can fill it. */
export const goldA: PlainProgram = {
    jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'look', part: 'F2', piece: 'element' }],
    starts: 'RUN', ends: 'RUN',
    steps: [
        ...cautions('fire', 'skin', 'spill', 'starter', 'waste', 'exhaust', 'flood F1', 'flood F2', 'flood E1'),
        { do: 'stop', what: 'E1', keyOut: true },
        { do: 'switch', thing: 'battery switch', to: 'off' },
        { do: 'switch', thing: 'bilge pump', to: 'off' },
        { do: 'set', part: 'V1', position: 'shut' },
        ...under('F1', 2),
        { do: 'hold', valves: ['V1'], part: 'F1', opening: 'drain' },
        { do: 'open', part: 'F1', opening: 'lid' },
        { do: 'remove', part: 'F1', pieces: ['element', 'lid ring', 'T-ring'] },
        { do: 'look', part: 'F1', piece: 'element' },
        { do: 'clean', part: 'F1', piece: 'bowl' },
        { do: 'remove', part: 'F1', pieces: ['drain washer'] },
        { do: 'fit', part: 'F1', pieces: ['drain washer'] },
        { do: 'close', part: 'F1', opening: 'drain' },
        { do: 'fit', part: 'F1', pieces: ['element', 'lid ring', 'T-ring'] },
        { do: 'close', part: 'F1', opening: 'lid' },
        ...under('F2', 1),
        { do: 'open', part: 'F2', opening: 'ports' },
        { do: 'remove', part: 'F2', pieces: ['element', 'top ring', 'bottom ring'] },
        { do: 'look', part: 'F2', piece: 'element' },
        { do: 'fit', part: 'F2', pieces: ['element'], again: true },
        { do: 'fit', part: 'F2', pieces: ['top ring', 'bottom ring'] },
        { do: 'close', part: 'F2', opening: 'ports' },
        { do: 'place', thing: 'pads', part: 'E1' },
        ...bleedingA,
        { do: 'switch', thing: 'battery switch', to: 'on' },
        start,
        { do: 'run', what: 'E1', ends: false },
        { do: 'look', piece: 'joints' },
        { do: 'read', gauge: 'G1', running: true },
        { do: 'stop', what: 'E1' },
        { do: 'switch', thing: 'bilge pump', to: 'auto' },
        { do: 'log' },
    ],
};
