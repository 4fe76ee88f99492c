/** Published orders in which a line is parted or a part taken off: the valve before the joint, and what the page leaves out at the end. */
import { describe, expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { execute } from '../../src/procedures/service/execute';
import { procedureFor } from '../../src/procedures/service/generate';
import { dayTankAbove, exchangerBelowTank } from './service-boats';
import { both, ours, oursIn, published, publishedIn } from './ledger';
import { aboard, bare, broken, earlier, job, lawsIn, linesOf, made, sayable, without } from './service';

const READY = ours('The page takes for granted that the engine cannot start and that nothing pumps the bilge; ours says so, since a hand is in the line.', 'stop E1 key out', 'set bilge pump off', 'set battery switch off');
const CATCH = 'The page does not say what catches the fuel that hangs in the line; ours lays pads and a can before the joint is opened, and no law is kept without them.';
const PROVE = 'The page trusts the valve that it closed; ours opens the same joint to see that the stream dies, since one that leaks floods the bilge.';
const ADDED = 'Not printed. Without it the engine would be left with its valve shut, or with air in its line.';
const TRIED = ours('The page ends with the air out; ours ends with the engine tried and every joint looked at, because only that ends the job.',
    'look all joints "dry card"', 'set battery switch on', 'start E1 at most 3 times 10 s', 'run E1 at 1300 rpm for 5 min', 'look all joints "dry card"', 'run E1 for 10 min in gear', 'look all joints "dry card"', 'stop E1', 'set bilge pump auto');

/**
 * TB 55-1900-231-15, section A(2): the fuel system preserved with oil out of a container. There is no job for it here: what oil and how much is the
 * engine maker's to say. What is generated is the same two lines parted and made good.
 */
const CLOSED = 'The page parts both lines, runs the engine on the container, and makes both good afterwards; ours does one line after the other, each with a new hose, since that is the nearest job there is.';
const RUNS = 'No line here says where a loose end is led, so that to the laws a joint that is open spills: an engine is not run with one. The page is right for what it does, with both ends in vessels; it is written '
    + 'by hand as notes.';
const PRESERVE = [
    ...published('It is warmed so that the oil goes everywhere; to part a line it is better cold, and ours begins so.', 'start E1 at most 3 times 10 s', 'run E1 for 10 min', 'stop E1'),
    ...READY, ...both('shut V10'),
    ...ours(CATCH, 'place 2 pads under S1', 'place can 0.5 L under S1'),
    ...published(PROVE, 'open S1 joint'), ...ours(PROVE, 'prove V10 by opening S1 joint until the stream dies within 10 s'),
    ...published(RUNS, '(connect the hose of the container to the pump side)'),
    ...ours(CLOSED, 'remove S1', 'fit S1', 'shut S1 joint'),
    ...ours(CATCH, 'place 2 pads under R', 'place can 1 L under R'),
    ...both('open R joint'),
    ...published(RUNS, '(fit the transparent hose and lead it into the recovery container)', 'start E1 at most 3 times 10 s', 'run E1 at 900 rpm', '(until undiluted oil shows)', 'stop E1'),
    ...published(CLOSED, 'shut S1 joint'), ...ours(CLOSED, 'remove R', 'fit R'), ...both('shut R joint'),
    ...ours(ADDED, 'open V10'), ...ours(CATCH, 'place 1 pads under E1', 'place can 1 L under E1'),
    ...both('bleed BS1 by gravity from DT'),
    ...ours('The page does not say how it is bled; LP1 is worked last, to see that it draws.', 'prove LP1 at BS1 by lever 10 strokes'),
    ...TRIED, ...ours('What is not written down is not known to the next.', 'log renew S1, renew R'),
];

describe('TB 55-1900-231-15: preserving the fuel side', () => {
    const lines = oursIn(PRESERVE);
    const run = (changed: readonly string[]): Promise<string[]> => broken(dayTankAbove, 'renew S1, R   starts RUN   ends RUN', changed);
    test('ours is what is generated for the two lines, and breaks no law', async () => {
        expect(linesOf(made(await aboard(dayTankAbove), ['renew S1', 'renew R']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    // The valve is shut, so the engine is not fed; both lines are open while it runs; the valve is never opened again, so nothing comes to be bled.
    test('as printed it runs an engine with both lines open, and leaves the valve shut', async () => {
        const found = await broken(dayTankAbove, 'bleed E1   starts RUN   ends RUN', sayable(publishedIn(PRESERVE)));
        expect(found).toContain('open-while-pumped E1 S1 joint R joint: start E1');
        expect(found).toContain('wrong-line-up V10: end');
        expect(found).toContain('not-reached BS1 DT: bleed BS1 by gravity from DT');
        expect(lawsIn(found)).not.toContain('could-flood');
    });
    test('the joint before the valve', async () => expect(await run(earlier(lines, 'prove V10 by opening S1 joint until the stream dies within 10 s', 'shut V10'))).toContain('could-flood S1 joint DT: prove V10 by opening S1 joint'));
    test('the valve opened again before the return is closed', async () => expect(await run(earlier(lines, 'open V10', 'shut R joint'))).toContain('could-flood R joint DT: open V10'));
    test('the valve not opened again, as it is not printed', async () => expect(lawsIn(await run(without(lines, 'open V10')))).toEqual(expect.arrayContaining(['not-reached', 'not-fed', 'wrong-line-up'])));
    test('not bled', async () => expect(lawsIn(await run(without(lines, 'bleed BS1 by gravity from DT')))).toContain('air-left'));
});

/** TM 55-1905-217-12: a heat exchanger for fuel is removed. */
const HOSES = 'The unions of one part are one opening here, and what drains out of it comes by the lower one.';
const EXCHANGER = [
    ...READY, ...both('shut V20'),
    ...ours(CATCH, 'place 3 pads under HX1', 'place can 2 L under HX1'),
    ...published(PROVE, 'open HX1 joint'), ...ours(PROVE, 'prove V20 by opening HX1 joint until the stream dies within 10 s'),
    ...published(HOSES, '(disconnect the bottom hose)', '(drain)'), ...published('Sea water or coolant on its other side is another system, which this boat does not describe.', '(remove the water-side hoses)'),
    ...both('remove HX1'),
    ...ours(ADDED, 'fit HX1', 'shut HX1 joint', 'open V20', 'place 1 pads under E1', 'place can 1 L under E1', 'bleed BS1 by gravity from T1'),
    ...TRIED, ...ours('What is not written down is not known to the next.', 'log renew HX1'),
];

describe('TM 55-1905-217-12: the heat exchanger removed', () => {
    const lines = oursIn(EXCHANGER);
    const run = (changed: readonly string[]): Promise<string[]> => broken(exchangerBelowTank, 'renew HX1   starts RUN   ends RUN', changed);
    test('ours is what is generated, and breaks no law', async () => {
        expect(linesOf(made(await aboard(exchangerBelowTank), ['renew HX1']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    test('as printed nothing floods, and she is left with it off, the valve shut and air in the line', async () => {
        const found = await run(sayable(publishedIn(EXCHANGER)));
        expect(lawsIn(found)).not.toContain('could-flood');
        expect(lawsIn(found.filter((words) => words.endsWith(': end')))).toEqual(['left-open', 'left-out', 'wrong-line-up', 'air-left', 'not-done']);
    });
    test('the hoses before the valve', async () => expect(await run(earlier(lines, 'prove V20 by opening HX1 joint until the stream dies within 10 s', 'shut V20'))).toContain('could-flood HX1 joint T1: prove V20 by opening HX1 joint'));
    test('the valve opened before it is on again', async () => expect(await run(earlier(lines, 'open V20', 'fit HX1'))).toEqual(expect.arrayContaining([expect.stringMatching(/^could-flood HX1 .*: open V20$/)])));
    test('not vented', async () => expect(lawsIn(await run(without(lines, 'bleed BS1 by gravity from T1')))).toContain('air-left'));
});

/**
 * TM 9-2320-280-20-1, the air-leak test: the return is parted, its end put under the fuel in a bucket, the engine run, bubbles looked for. And the
 * conclusion from it and the Navy's Engineman course: a hole before the pump draws air in, one behind it lets fuel out. Which of the two a sign means
 * is a question to ask, and no step.
 */
const LEAK_TEST = [
    ...published('The law is right of a return that is merely open, for all that the engine does not burn would run into the bilge; the page is right with its bucket. No line here says where a loose end is led, so it cannot be '
        + 'written as steps, and is not generated.', 'open R joint', '(fit a line that reaches the ground, its end under the fuel in a bucket)', 'start E1 at most 3 times 10 s'),
    ...ours('With a piece of clear hose built into the return the same is seen with nothing open.', 'start E1 at most 3 times 10 s'),
    ...both('run E1 for 5 min', 'look R "bubbles"', 'stop E1'),
    ...published('See above.', 'shut R joint'),
];

describe('TM 9-2320-280-20-1: the air-leak test', () => {
    test('as printed an engine is started with its return open', async () => {
        expect(await broken(dayTankAbove, 'look R   starts RUN   ends RUN', sayable(publishedIn(LEAK_TEST)))).toContain('open-while-pumped E1 R joint: start E1');
    });
    test('looked at through clear hose it breaks no law', async () => expect(await broken(dayTankAbove, 'look R   starts RUN   ends RUN', oursIn(LEAK_TEST))).toEqual([]));
});

/**
 * Army transportation subcourse TR0656: after an injector is replaced its pipe nut stays slack until only fuel comes. No high-pressure joint is an opening
 * here, so that nobody is led to one by a procedure: the fuel goes through skin. It is left to the maker's book, and on a rail it is a broken law.
 */
describe('the subcourse on a replaced injector', () => {
    const slack = { do: 'open', part: 'E1', opening: 'INJ1' } as const;
    const laws = async (text: string): Promise<string[]> => execute(await aboard(text), { jobs: [], starts: 'RUN', ends: 'RUN', steps: [slack] }).broken[0]!.map(({ law }) => law);
    test('its nut is no opening; on a rail the union is a law of its own', async () => {
        expect(await laws(dayTankAbove)).toEqual(['no-such-opening']);
        expect(await laws(dayTankAbove.replace('injection unit mechanical', 'injection common-rail electronic'))).toEqual(['no-such-opening', 'rail-union']);
    });
    test('written as a line it is told to be nothing of this boat', async () => {
        const { problems } = await loadBoat({ 'boat.orlop': `${dayTankAbove}\nprocedure look E1 {\n  open E1 INJ1\n}\n` });
        expect(problems.map(({ message }) => message)).toContainEqual(expect.stringContaining('INJ1'));
    });
    test('no procedure is generated for it', async () => expect(procedureFor(await aboard(dayTankAbove), { jobs: [job('renew E1 injector')] })).toHaveProperty('blank', expect.stringContaining('maker')));
});
