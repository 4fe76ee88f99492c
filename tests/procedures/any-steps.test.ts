/** Steps drawn by lot, sense or nonsense: the executor tells what is wrong with each and never throws, always the same, and a step costs what it costs. */
import { describe, expect, test } from 'vitest';
import type { Boat } from '../../src/model/boat';
import type { CautionTopic, ServiceStep } from '../../src/model/step';
import { execute, wayBack, withCautions } from '../../src/procedures/service/execute';
import { ruleOf } from '../../src/procedures/service/laws';
import type { Program } from '../../src/procedures/service/program';
import { cautionAt } from '../../src/procedures/service/warnings';
import { lots } from '../oracle/random-boats';
import { boatOf } from './boats';

const NUMBERS = [0, 1, -1, 10, 0.001, 1e300, -1e300, NaN, Infinity];
const TOPICS: readonly CautionTopic[] = ['fire', 'flood', 'skin', 'spill', 'starter', 'jet', 'exhaust', 'scald', 'waste', 'underway', 'overfill', 'rail'];

function drawn(boat: Boat, lot: () => number, count: number): ServiceStep[] {
    const pick = <T>(all: readonly T[]): T => all[Math.floor(lot() * all.length)]!;
    const names = [...boat.parts, ...boat.consumers, ...boat.tanks].map(({ id }) => id);
    const vents = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents.map(({ id }) => id));
    const id = (): string => (lot() < 0.05 ? pick(['', 'X9', 'F1 lid', '__proto__', 'constructor']) : pick(names));
    const vent = (): string => (lot() < 0.9 && vents.length > 0 ? pick(vents) : id());
    const opening = (): string => pick(['lid', 'ports', 'drain', 'joint', '', 'toString', vent()]);
    const piece = (): string => pick(['element', 'bowl', 'lid ring', 'drain washer', 'upper ring', '', 'impeller']);
    const pieces = (): string[] => Array.from({ length: Math.floor(lot() * 3) }, piece);
    const number = (): number => pick(NUMBERS);
    const perhaps = <T extends object>(facts: T): T | Record<never, never> => (lot() < 0.5 ? facts : {});
    const step = (): ServiceStep => {
        switch (pick(['set', 'prefill', 'bleed', 'prove', 'start', 'open', 'close', 'hold', 'remove', 'fit', 'look', 'switch', 'place', 'run', 'caution', 'sequence', 'stop', 'clean', 'read', 'wait', 'log'] as const)) {
            case 'set': return { do: 'set', part: id(), position: pick(['open', 'shut', 'A', 'B', 'BOTH', 'PORT', 'OFF', '']) };
            case 'prefill': return { do: 'prefill', part: id() };
            case 'bleed': return { do: 'bleed', vent: vent(), driver: { by: pick(['hand', 'lever', 'electric', 'gravity'] as const), part: id() } };
            case 'prove': return { do: 'prove', part: id(), vent: vent(), strokes: number() };
            case 'start': return { do: 'start', engine: id(), tries: number(), seconds: number(), ...perhaps({ seacock: 'open' as const }), ...perhaps({ budget: number() }) };
            case 'open': return { do: 'open', part: id(), opening: opening() };
            case 'close': return { do: 'close', part: id(), opening: opening() };
            case 'hold': return { do: 'hold', valves: lot() < 0.2 ? [] : [id()], part: id(), opening: opening(), within: number() };
            case 'remove': return { do: 'remove', part: id(), pieces: pieces() };
            case 'fit': return { do: 'fit', part: id(), pieces: pieces(), ...perhaps({ again: true as const }) };
            case 'look': return { do: 'look', piece: piece(), ...perhaps({ part: id() }) };
            case 'switch': return { do: 'switch', thing: pick(['bilge pump', 'battery switch', 'seacock'] as const), to: pick(['off', 'auto', 'on', 'open', 'shut'] as const), ...perhaps({ of: id() }) };
            case 'place': return { do: 'place', thing: pick(['can', 'pads'] as const), part: id(), ...perhaps({ holds: number() }), ...perhaps({ count: number() }) };
            case 'run': return { do: 'run', part: id(), ...perhaps({ seconds: number() }), ...perhaps({ until: { tank: id(), holds: number() } }) };
            case 'caution': return { do: 'caution', topic: pick(TOPICS), ...perhaps({ part: id() }), ...perhaps({ text: 'own words' }) };
            case 'sequence': return { do: 'sequence', engine: id(), opened: lot() < 0.5 ? [] : [id()], prefilled: lot() < 0.8 ? [] : [id()], ...perhaps({ ranDry: true as const }) };
            case 'stop': return { do: 'stop', part: id(), ...perhaps({ keyOut: true as const }) };
            case 'clean': return { do: 'clean', part: id(), piece: piece() };
            case 'read': return { do: 'read', gauge: id() };
            case 'wait': return { do: 'wait', seconds: number() };
            case 'log': return { do: 'log', jobs: [] };
        }
    };
    return Array.from({ length: count }, step);
}

describe.each(['ottilwake', 'brackenwake', 'marrenwake'])('on %s', (name) => {
    test('nothing that is asked throws, every step has its answer, and twice it is the same', async () => {
        const boat = await boatOf(name);
        for (let seed = 1; seed <= 12; seed++) {
            const lot = lots(seed * 104729);
            const pickLineUp = (): string => (lot() < 0.2 ? 'NOWHERE' : boat.lineUps[Math.floor(lot() * boat.lineUps.length)]!.id);
            const written: Program = {
                jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: '', piece: '' }, { verb: 'polish', part: 'X9', piece: 'toString' }], starts: pickLineUp(), ends: pickLineUp(), steps: drawn(boat, lot, 25),
                ...(lot() < 0.5 && { underWay: true }), ...(lot() < 0.5 && { today: { volumes: new Map([['T1', 0.1], ['X9', NaN]]), attitude: { heel: 0.3, trim: 0 } } }),
            };
            const warned = withCautions(boat, written);
            const done = execute(boat, warned);
            expect(done.states).toHaveLength(warned.steps.length + 1);
            expect(done.broken).toHaveLength(warned.steps.length);
            for (const { law } of [...done.broken.flat(), ...done.atEnd]) expect(ruleOf(law)).toBeDefined();
            for (const state of done.states) wayBack(boat, warned, state);
            warned.steps.forEach((step, i) => { if (step.do === 'caution') expect(cautionAt(boat, warned, i, done.states)?.text).toBeTruthy(); });
            expect(execute(boat, warned)).toEqual(done);
            // What is remembered of a boat changes no answer.
            expect(execute({ ...boat }, warned)).toEqual(done);
        }
    });
    test('no steps at all', async () => {
        const boat = await boatOf(name);
        const { id } = boat.lineUps[0]!;
        expect(execute(boat, { jobs: [], starts: id, ends: id, steps: [] })).toMatchObject({ broken: [], atEnd: [] });
    });
});

test('a boat with nothing on board', async () => {
    const boat = await boatOf('vessel Barewake { heights from "keel" }\n');
    const { atEnd } = execute(boat, { jobs: [], starts: 'RUN', ends: 'RUN', steps: [{ do: 'open', part: 'F1', opening: 'lid' }, { do: 'sequence', engine: 'E1', opened: [], prefilled: [] }] });
    expect(atEnd).toEqual([]);
});
