/** Every figure in time of every example, whole and with lines taken out: nothing throws, and no figure is not a number. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { demandAt, grossFlow } from '../../../src/analysis/flow/demand';
import { fluidOf } from '../../../src/analysis/flow/fluid';
import { grossOf } from '../../../src/analysis/tanks/liquid';
import { crossovers, levelling } from '../../../src/analysis/time/crossover';
import { enduranceFor, enduranceOfAll } from '../../../src/analysis/time/endurance';
import { crankBudget } from '../../../src/analysis/time/exhaust';
import { expansionOf } from '../../../src/analysis/time/expansion';
import { fillingsOf } from '../../../src/analysis/time/filling';
import { dayTanks, heatingOf } from '../../../src/analysis/time/heating';
import { fills, ledgersOf, uncovers } from '../../../src/analysis/time/overflow';
import { passageFuel, ranges } from '../../../src/analysis/time/passage';
import { runOn } from '../../../src/analysis/time/run-on';
import { polishingOf, transfersOf } from '../../../src/analysis/time/transfer';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import { networkOf } from '../../../src/analysis/topology/network';
import { loadBoat } from '../../../src/language/load';
import type { Boat } from '../../../src/model/boat';
import { example } from '../../checks/boats';
import { DAY } from './boats';

function all(boat: Boat): unknown {
    const network = networkOf(boat);
    const lineUps = lineUpsOf(boat);
    const tank = (id: string): Boat['tanks'][number] => boat.tanks.find((other) => other.id === id)!;
    return [
        boat.consumers.map((consumer) => [demandAt(consumer, 'full'), demandAt(consumer, 20), grossFlow(consumer), enduranceFor(boat, consumer.id, 'full'), enduranceFor(boat, consumer.id, 30), crankBudget(consumer), runOn(boat, consumer, lineUps[0]!.positions, boat.parts.filter(({ kind }) => kind === 'shutoff').map(({ id }) => id))]),
        enduranceOfAll(boat, 'full'), ranges(boat), boat.passages.map((passage) => passageFuel(boat, passage)),
        lineUps.map((lineUp) => [
            ledgersOf(boat, lineUp).map((ledger) => [ledger, fills(tank(ledger.tank), 0.05, ledger), uncovers(boat, lineUp, tank(ledger.tank), 0.05, ledger, { heel: 0.2, trim: 0.05 })]), transfersOf(boat, lineUp), polishingOf(boat, lineUp, new Map([['T1', 0.05]])),
            crossovers(network, lineUp.positions).map(({ tanks: [one, other], mouths: [a, b], pipes }) => levelling({ tank: one, volume: (grossOf(one) ?? 0) / 2, ...(a && { mouth: a }) }, { tank: other, volume: 0, ...(b && { mouth: b }) }, pipes, fluidOf(boat.vessel))),
        ]),
        dayTanks(boat).map((day) => heatingOf(boat, day)), fillingsOf(boat), boat.tanks.map((one) => expansionOf(one, 0.95, 280, 310, (kelvin) => 1 - (kelvin - 288.15) * 8e-4)),
    ];
}

const notNumbers = (value: unknown): unknown[] => (typeof value === 'number' ? (Number.isFinite(value) ? [] : [value]) : value !== null && typeof value === 'object' ? Object.values(value).flatMap(notNumbers) : []);

const BOATS = { ...Object.fromEntries(['brackenwake', 'brackenwake-mended', 'marrenwake', 'ottilwake', 'ottilwake-mended'].map((name) => [name, example(name) as Record<string, string>])), DAY: { 'day.orlop': DAY } };

test.each(Object.entries(BOATS))('%s', async (_, texts) => {
    const { boat } = await loadBoat(texts);
    const found = all(boat);
    expect(notNumbers(found)).toEqual([]);
    expect(all((await loadBoat(texts)).boat)).toEqual(found);
});

test('with lines taken out', async () => {
    const shares = fc.array(fc.nat({ max: 999 }), { minLength: 1, maxLength: 6 });
    await fc.assert(fc.asyncProperty(fc.constantFrom(...Object.values(BOATS)), shares, async (texts, out) => {
        const lines = Object.entries(texts).flatMap(([file, text]) => text.split('\n').map((line) => [file, line] as const));
        const gone = new Set(out.map((share) => Math.floor(share / 1000 * lines.length)));
        const kept = lines.filter((_, i) => !gone.has(i));
        const { boat } = await loadBoat(Object.fromEntries(Object.keys(texts).map((file) => [file, kept.filter(([of]) => of === file).map(([, line]) => line).join('\n')])));
        expect(notNumbers(all(boat))).toEqual([]);
    }), { numRuns: 40 });
}, 60_000);
