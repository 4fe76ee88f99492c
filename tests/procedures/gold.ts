/**
 * The whole of a filter service on Ottilwake, written out by hand: change the element of F1, look at that of F2. It follows a procedure as the
 * trade writes it, step by step; where it differs a comment says why.
 */
import type { ServiceStep } from '../../src/model/step';
import type { Program } from '../../src/procedures/service/program';

const caution = (topic: Extract<ServiceStep, { do: 'caution' }>['topic'], part?: string): ServiceStep => ({ do: 'caution', topic, ...(part !== undefined && { part }) });

export const GOLD: Program = {
    jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'look', part: 'F2', piece: 'element' }],
    starts: 'RUN', ends: 'RUN',
    steps: [
        // 1: fire, flood, start inhibit; gloves and spill too, since the table asks for them.
        caution('fire'), caution('skin'), caution('spill'), caution('flood', 'F1'), caution('flood', 'F2'), caution('flood', 'E1'), caution('starter'),
        // 2
        { do: 'stop', part: 'E1', keyOut: true }, { do: 'switch', thing: 'battery switch', to: 'off' }, { do: 'switch', thing: 'bilge pump', to: 'off' },
        // 3
        { do: 'set', part: 'V1', position: 'shut' },
        // 4: pads stand under each part that is opened or bled, and a can under F2 too, since its bowl comes down full.
        { do: 'place', thing: 'pads', part: 'F1', count: 2 }, { do: 'place', thing: 'pads', part: 'F2', count: 1 }, { do: 'place', thing: 'pads', part: 'E1', count: 1 },
        { do: 'place', thing: 'can', part: 'F1', holds: 2e-3 }, { do: 'place', thing: 'can', part: 'F2', holds: 1e-3 },
        // 5
        { do: 'hold', valves: ['V1'], part: 'F1', opening: 'drain', within: 10 },
        // 6
        { do: 'open', part: 'F1', opening: 'lid' },
        { do: 'remove', part: 'F1', pieces: ['element', 'lid ring', 'T-ring', 'drain washer'] },
        { do: 'look', part: 'F1', piece: 'element', words: 'dark, slimy, gritty, water' },
        // 7
        { do: 'clean', part: 'F1', piece: 'bowl' },
        { do: 'fit', part: 'F1', pieces: ['drain washer'] }, { do: 'close', part: 'F1', opening: 'drain' },
        // 8
        { do: 'fit', part: 'F1', pieces: ['element', 'lid ring', 'T-ring'] },
        // 9: optional; it saves strokes.
        { do: 'prefill', part: 'F1' },
        // 10
        { do: 'close', part: 'F1', opening: 'lid' },
        // 11: the model names no seals of F2, so its rings are not spoken of.
        { do: 'open', part: 'F2', opening: 'ports' }, { do: 'look', part: 'F2', piece: 'element', words: 'clean' }, { do: 'close', part: 'F2', opening: 'ports' },
        // 12
        { do: 'set', part: 'V1', position: 'open' },
        // 13 to 16
        { do: 'bleed', vent: 'BS1', driver: { by: 'hand', part: 'PR1' } }, { do: 'bleed', vent: 'BS2', driver: { by: 'hand', part: 'PR1' } },
        { do: 'prove', part: 'LP1', vent: 'BS2', strokes: 10 }, { do: 'bleed', vent: 'BS3', driver: { by: 'lever', part: 'LP1' } },
        // 17
        { do: 'look', piece: 'all joints', words: 'dry' },
        // 18: the step that says start puts the battery on and the stop control in.
        caution('jet'), caution('exhaust'),
        { do: 'start', engine: 'E1', tries: 2, seconds: 10, seacock: 'open', budget: 43 },
        // 19
        { do: 'run', part: 'E1', speed: 1300 / 60, seconds: 300 }, { do: 'look', piece: 'all joints', words: 'dry card' },
        // 20
        { do: 'run', part: 'E1', speed: 2400 / 60, seconds: 600, inGear: true }, { do: 'read', gauge: 'G1', expect: { low: -4741, high: -1355 }, speed: 2400 / 60 },
        // Between 20 and 21 the trade's text takes for granted that the engine is stopped.
        { do: 'stop', part: 'E1' },
        // 21
        { do: 'switch', thing: 'bilge pump', to: 'auto' },
        // 22: old elements are put away, so their caution comes first.
        caution('waste'), { do: 'log', jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'look', part: 'F2', piece: 'element' }] },
    ],
};
