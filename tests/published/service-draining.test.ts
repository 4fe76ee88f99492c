/** Published orders in which something is drained or filled, or fuel is shifted from one tank to another. */
import { describe, expect, test } from 'vitest';
import { execute } from '../../src/procedures/service/execute';
import { procedureFor } from '../../src/procedures/service/generate';
import { separatorWithPrimer, tankToBeFilled, twoServiceTanks } from './service-boats';
import { both, ours, oursIn, published, publishedIn } from './ledger';
import { aboard, bare, broken, earlier, job, lawsIn, linesOf, made, sayable, without, written } from './service';

const READY = ours('The page takes for granted that the engine cannot start and that nothing pumps the bilge; ours says so.', 'stop E1 key out', 'set bilge pump off', 'set battery switch off');
const TRIED = ours('The page ends when what was drained runs clean, or with a start; ours ends with the engine tried under load and every joint looked at.',
    'look all joints "dry card"', 'set battery switch on', 'start E1 at most 3 times 10 s', 'run E1 at 1300 rpm for 5 min', 'look all joints "dry card"', 'run E1 for 10 min in gear', 'look all joints "dry card"', 'stop E1', 'set bilge pump auto');
const WASHER = 'A drain that was open gets its washer renewed, where the boat names one; the page does not speak of it.';

/**
 * TM 5-3810-307-10, Table 5-1 item 33: a separator drained by its hand primer. The drain is written twice here, as a drain and as the lowest bleed
 * point, so that fuel can be pumped out of it.
 */
const BY_ITSELF = 'The page opens the drain and pumps fuel through it, with the system shut everywhere else; ours shuts the tank off, lets the bowl empty by itself, and pumps afterwards to fill it. '
    + 'The page is right for a little water every day; ours is made for any height of the tank, and shows what was in the bowl.';
const SEPARATOR = [
    ...READY, ...ours(BY_ITSELF, 'shut V1'), ...ours('Fuel on hands and floor: the page has no pads.', 'place 3 pads under F1'),
    ...both('place can 2 L under F1'),
    ...ours(BY_ITSELF, 'open F1 drain', 'look F1 bowl "water, slime"'), ...ours(WASHER, 'remove F1 drain washer', 'fit F1 drain washer'), ...ours(BY_ITSELF, 'shut F1 drain', 'open V1', 'place 1 pads under E1'),
    ...both('bleed D1 by PR1'),
    ...ours(BY_ITSELF, 'bleed BS1 by PR1', 'bleed BS2 by PR1'), ...TRIED, ...ours('What is not written down is not known to the next.', 'log drain F1'),
];
/** The page names the pan second, after the drain is open. No order is made of that: the pan is there before anything runs. */
const PAN = ['place can 2 L under F1', 'bleed D1 by PR1'];

describe('TM 5-3810-307-10: the separator drained with its hand primer', () => {
    const lines = oursIn(SEPARATOR);
    const run = (changed: readonly string[], text = separatorWithPrimer): Promise<string[]> => broken(text, 'drain F1   starts RUN   ends RUN', changed);
    // By pumping alone no drain is opened, so that its head says what it does: the primer is worked.
    const pumped = (changed: readonly string[], text = separatorWithPrimer): Promise<string[]> => broken(text, 'work PR1   starts RUN   ends RUN', changed);
    const AROUND = ['stop E1 key out', 'set bilge pump off', 'place 2 pads under F1', ...PAN, 'look all joints "dry card"', 'set bilge pump auto', 'start E1 at most 3 times 10 s', 'run E1 for 5 min', 'stop E1'];
    test('the published column: a pan, and the primer until clean fuel comes', () => expect(publishedIn(SEPARATOR)).toEqual(PAN));
    test('ours is what is generated, and breaks no law', async () => {
        expect(linesOf(made(await aboard(separatorWithPrimer), ['drain F1']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    test('as printed the primer does push fuel out of a low drain; what lacks is pads, and that nothing starts', async () => {
        expect(lawsIn(await pumped(PAN))).toEqual(['no-pads', 'bilge-pump-on', 'key-in']);
        expect(await pumped(AROUND)).toEqual([]);
    });
    test('the drain open before the pan is under it', async () => expect(lawsIn(await run(earlier(lines, 'open F1 drain', 'place can 2 L under F1')))).toEqual(['no-can']));
    test('a primer behind the separator pulls at the drain instead of pushing', async () => {
        const primer = /^ {2}primer PR1.*\n/m.exec(separatorWithPrimer)![0];
        const behind = separatorWithPrimer.replace(primer, '').replace('  tube S2', `${primer}  tube S2`);
        expect(await pumped(AROUND, behind)).toContain('on-suction D1 PR1: bleed D1 by PR1');
    });
});

/**
 * NAVEDTRA 14075, chapter 9: water in the day tank. Suction is shifted to the other tank before anything is drained. That there is water in a tank is
 * nothing that the model holds, so the job does not begin by itself in the right line-up: who knows of the water shifts, and asks for what starts there.
 */
const SHIFTED = 'The page shifts with the engine running and drains after; ours is asked for from the line-up that she was shifted to.';
const FILTERS = [
    ...published(SHIFTED, 'turn SV1 to B', '(report it)'),
    ...READY,
    ...ours('The page drains with the lines under the head of the good tank; ours shuts that too, since its fuel would follow into the bilge.', 'shut VB', 'place 4 pads under F1', 'place can 2 L under F1'),
    ...published('Ours opens the same drain to see that VB holds.', 'open F1 drain'), ...ours('See there.', 'prove VB by draining F1 until the stream dies within 10 s'),
    ...ours('What comes is looked at: it tells how far the water went.', 'look F1 bowl "water, slime"'), ...ours(WASHER, 'remove F1 drain washer', 'fit F1 drain washer'),
    ...both('shut F1 drain'),
    ...ours('The filter was emptied and is filled again from the good tank, by its own bleed point.', 'open VB', 'bleed BS1 by gravity from DB'),
    ...published('The page opens the test cocks and turns the engine until they run clear; ours turns no engine to move fuel, since the tank does it here, and has no line for several cocks open at once. Nothing behind the '
        + 'filter was emptied here, so nothing is bled there.', 'bleed BS2 by gravity from DB', '(turn the engine until clear)', '(close the cocks)'),
    ...ours('What was opened is looked over while the engine is cold.', 'look all joints "dry card"', 'set battery switch on'), ...both('start E1 at most 3 times 10 s'),
    ...ours('Under load too.', 'run E1 at 1300 rpm for 5 min', 'look all joints "dry card"', 'run E1 for 10 min in gear', 'look all joints "dry card"', 'stop E1', 'set bilge pump auto', 'log drain F1'),
    ...published('To empty, clean and refill a tank is no step here: it is pumped out from above, and its opening is a yard\'s work.', '(strip and refill the bad tank)'),
];

describe('NAVEDTRA 14075: water in one of two service tanks', () => {
    const lines = oursIn(FILTERS);
    const run = (changed: readonly string[]): Promise<string[]> => broken(twoServiceTanks, 'drain F1   starts RUN-A   ends RUN-B', changed);
    const SHIFT = 'turn SV1 to B';
    test('ours is what is generated once she draws from the good tank', async () => {
        expect(linesOf(made(await aboard(twoServiceTanks), ['drain F1'], { starts: 'RUN-B', ends: 'RUN-B' }))).toEqual(lines.map(bare));
    });
    test('shifted first it breaks no law, and from the shift on nothing comes from the bad tank', async () => {
        const { boat, program } = await written(twoServiceTanks, 'drain F1   starts RUN-A   ends RUN-B', [SHIFT, ...lines]);
        const { states, broken: found, atEnd } = execute(boat, program);
        expect([...found.flat(), ...atEnd]).toEqual([]);
        const after = states.slice(program.steps.findIndex(({ do: what }) => what === 'set') + 1);
        expect(new Set(after.map(({ positions }) => `${positions.get('SV1')} ${positions.get('SV2')}`))).toEqual(new Set(['B B']));
    });
    test('drained before the shift the bad tank comes out of the drain', async () => {
        const late = lines.flatMap((line) => (line === 'shut F1 drain' ? [line, SHIFT] : [line]));
        expect(await run(late)).toContain('could-flood F1 drain DA: prove VB by draining F1');
    });
    test('not shifted at all: she ends on the bad tank', async () => expect(await run(lines)).toContain('wrong-line-up SV1 SV2: end'));
    test('as printed, its cocks before the filter is bled: no clear stream comes', async () => {
        const found = await run(sayable(publishedIn(FILTERS)));
        expect(found).toContain('air-upstream BS2 F1: bleed BS2 by gravity from DB');
        expect(found).toContain('could-flood F1 drain DB: open F1 drain');
    });
    test('the tank itself is not stripped by a procedure, and that is said', async () => {
        expect(procedureFor(await aboard(twoServiceTanks), { jobs: [job('drain DA bottom')] })).toHaveProperty('blank', expect.stringContaining('hand pump'));
    });
});

/** NAVEDTRA 14079, fuelling: service fuel is never drawn from the tank that is filled; a full standby tank is shifted to just before. */
const SOUNDED = 'The page wants the standby tank full; ours has both sounded, since it knows neither level.';
const FILLING = [
    ...ours(SOUNDED, 'look DB level', 'look DA level'), ...published(SOUNDED, '(a full standby tank)'),
    ...both('turn SV1 to B'),
    ...published('The page fuels from a barge; here a pump shifts it from the other tank, since filling from ashore is no line-up.', '(fill tank A)'),
    ...ours('See there.', 'open VT', 'run TP1 until DA holds 89 L', 'stop TP1', 'shut VT'),
    ...ours('Where the page is cut; ours ends in the line-up that it began in, with both tanks sounded again.', 'turn SV1 to A', 'look DB level', 'look DA level', 'look all joints "dry card"', 'log transfer FILL-A'),
];

describe('NAVEDTRA 14079: never from the tank that is filled', () => {
    const lines = oursIn(FILLING);
    const run = (changed: readonly string[]): Promise<string[]> => broken(tankToBeFilled, 'transfer FILL-A   starts RUN-A   ends RUN-A', changed);
    test('ours is what is generated, and breaks no law', async () => {
        expect(linesOf(made(await aboard(tankToBeFilled), ['transfer FILL-A']))).toEqual(lines.map(bare));
        expect(await run(lines)).toEqual([]);
    });
    // 600 x 400 x 400 mm are 96 L, 95 % of them 91.2 L.
    test('filled beyond 95 %', async () => expect(await run(lines.map((line) => line.replace('89 L', '92 L')))).toContainEqual(expect.stringMatching(/^overfills TP1 DA: /)));
    test('the valve of the transfer not opened', async () => expect(await run(without(lines, 'open VT'))).toContainEqual(expect.stringMatching(/^not-(fed|reached) .*TP1.*: run TP1/)));
    test('not turned back: she is left in another line-up', async () => expect(await run(without(lines, 'turn SV1 to A'))).toEqual(['wrong-line-up SV1 SV2: end']));
});

/**
 * TM 5-3805-263-14&P-3: a tank is drained after it was filled and has stood 5 to 10 min. A tank has no opening here, so it is not drained by a line;
 * and waiting is a line that changes nothing, since the model knows no water that sinks. So no law can tell that the wait came too late.
 */
describe('TM 5-3805-263-14&P-3: wait, then drain', () => {
    const run = (lines: readonly string[]): Promise<string[]> => broken(separatorWithPrimer, 'drain T1 bottom   starts RUN   ends RUN', lines);
    test('a tank\'s drain is nothing that a line can open, before the wait or after it', async () => {
        for (const lines of [['wait 10 min', 'open T1 drain'], ['open T1 drain', 'wait 10 min']]) expect(lawsIn(await run(lines))).toEqual(['no-such-opening', 'not-done']);
    });
    test('none is generated, and what is done instead is said', async () => {
        expect(procedureFor(await aboard(separatorWithPrimer), { jobs: [job('drain T1 bottom')] })).toHaveProperty('blank', expect.stringContaining('lowest corner'));
    });
    test('a separator is drained after the same wait', async () => {
        const [waits, ...rest] = ['wait 10 min', ...oursIn(SEPARATOR)];
        expect(await broken(separatorWithPrimer, 'drain F1   starts RUN   ends RUN', [waits, ...rest])).toEqual([]);
    });
});
