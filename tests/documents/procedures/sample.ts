/** Ottilwake, and a plan written out by hand: the trade's gold example, "change F1 element", with one step of every kind somewhere. */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadBoat } from '../../../src/language/load';
import type { Boat, Job } from '../../../src/model/boat';
import type { ServiceStep } from '../../../src/model/step';
import type { PlannedServiceStep, ProcedurePlan, Section } from '../../../src/procedures/service/plan';

const folder = (name: string): string => fileURLToPath(new URL(`../../../examples/${name}`, import.meta.url));

export async function boatOf(name: string): Promise<Boat> {
    const files = readdirSync(folder(name)).filter((file) => file.endsWith('.orlop'));
    return (await loadBoat(Object.fromEntries(files.map((file) => [file, readFileSync(`${folder(name)}/${file}`, 'utf8')])))).boat;
}

const F1: Job = { verb: 'renew', part: 'F1', piece: 'element' };
const in_ = (section: Section, ...steps: readonly ServiceStep[]): PlannedServiceStep[] => steps.map((step) => ({ step, section, remarks: [] }));
const LITRE = 1e-3;
const DEGREE = Math.PI / 180;

export const GOLD: readonly PlannedServiceStep[] = [
    ...in_('prepare',
        { do: 'caution', topic: 'fire' }, { do: 'caution', topic: 'starter' }, { do: 'stop', part: 'E1', keyOut: true },
        { do: 'switch', thing: 'battery switch', to: 'off' }, { do: 'switch', thing: 'bilge pump', to: 'off' },
        { do: 'place', thing: 'pads', part: 'F1', count: 4 }, { do: 'place', thing: 'can', part: 'F1', holds: 2 * LITRE }),
    ...in_('isolate', { do: 'set', part: 'V1', position: 'shut' }, { do: 'caution', topic: 'flood' }, { do: 'caution', topic: 'skin' }, { do: 'hold', valves: ['V1'], part: 'F1', opening: 'drain', within: 10 }),
    ...in_('open', { do: 'open', part: 'F1', opening: 'lid' }, { do: 'remove', part: 'F1', pieces: ['element', 'lid ring', 'T-ring'] }, { do: 'look', part: 'F1', piece: 'element', words: 'dark, slime, grit, water' }),
    ...in_('renew',
        { do: 'clean', part: 'F1', piece: 'bowl' }, { do: 'fit', part: 'F1', pieces: ['element', 'lid ring', 'T-ring', 'drain washer'] }, { do: 'prefill', part: 'F1' }),
    ...in_('close', { do: 'close', part: 'F1', opening: 'drain' }, { do: 'close', part: 'F1', opening: 'lid' }),
    ...in_('restore', { do: 'set', part: 'V1', position: 'open' }),
    {
        section: 'bleed', remarks: [], traps: [{ part: 'S2', speed: 0.06 }], drawUp: { tank: 'T1', above: 0.42, strokes: 3 },
        step: { do: 'bleed', vent: 'BS1', driver: { by: 'hand', part: 'PR1' }, expect: { in: 'strokes', likely: 49, most: 49, think: 98 } },
    },
    ...in_('bleed',
        { do: 'prove', part: 'LP1', vent: 'BS2', strokes: 10 },
        { do: 'bleed', vent: 'BS3', driver: { by: 'lever', part: 'LP1' }, expect: { in: 'strokes', likely: 37, most: 45, think: 90 } }),
    ...in_('start', { do: 'switch', thing: 'battery switch', to: 'on' }, { do: 'switch', thing: 'seacock', of: 'E1', to: 'open' }, { do: 'caution', topic: 'exhaust' }, { do: 'start', engine: 'E1', tries: 2, seconds: 10, seacock: 'open', budget: 43 }),
    ...in_('verify',
        { do: 'run', part: 'E1', speed: 1300 / 60, seconds: 300 }, { do: 'caution', topic: 'jet' }, { do: 'look', piece: 'all joints', words: 'dry card' },
        { do: 'run', part: 'E1', speed: 2400 / 60, seconds: 600, inGear: true }, { do: 'read', gauge: 'G1', expect: { low: -4741, high: -1355 }, speed: 40 }, { do: 'wait', seconds: 3600 }),
    ...in_('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { do: 'log', jobs: [F1] }),
];

export const PLAN: ProcedurePlan = {
    id: 'renew F1 element', request: { jobs: [F1] }, jobs: [F1], starts: 'RUN', ends: 'RUN', consumers: ['E1'], fluid: 'fuel', takes: { seconds: 45 * 60, people: 1 }, steps: GOLD,
    needs: {
        parts: [{ part: 'F1', piece: 'element', count: 1 }, { part: 'F1', piece: 'lid ring', count: 1 }, { part: 'F1', piece: 'T-ring', count: 1 }, { part: 'F1', piece: 'drain washer', count: 1 }],
        spanners: [{ size: 0.01, for: ['BS1', 'BS2'] }, { size: 0.008, for: ['BS3'] }], tools: ['strap wrench', 'clear tube 6 mm'], fuel: 1.1 * LITRE, can: 2 * LITRE, pads: 4,
    },
    drainsWhere: [
        { part: 'F1', opening: 'drain', thresholds: [{ tank: 'T1', volume: 134 * LITRE, port: 3.5 * DEGREE, stbd: 'never' }], stops: ['V1'], byReturn: [] },
        { part: 'F1', opening: 'lid', thresholds: [{ tank: 'T1', volume: 'never', port: 14.2 * DEGREE, stbd: 'never' }], today: 'falls back', stops: ['V1'], byReturn: [{ tank: 'T1', volume: 'never', port: 11 * DEGREE, stbd: 'never' }] },
    ],
    acceptance: [], log: [], after: [], defaults: ['T1 carries diesel (not stated)'],
};
