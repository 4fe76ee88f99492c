/** Each fact that a figure in time may lack has words of its own, and what they tell to write is understood. */
import { expect, test } from 'vitest';
import type { LackOf } from '../../src/analysis/time/lack';
import { missingInTime } from '../../src/checks/missing-in-time';
import { edit, load, SLOOP } from './boats';

const ABOUT: Readonly<Record<LackOf, string>> = {
    shape: 'T1', level: 'T1', tested: 'T1', pickup: 'E1', mouth: 'T1.P1', takes: 'T1.fill', burns: 'E1', draws: 'E1', returns: 'E1', limit: 'E1', fuel: 'vessel', motors: 'Islands', speed: 'Islands', moves: 'OVER',
    bore: 'S1', length: 'S1', holds: 'F1', rate: 'TP1', line: 'T1',
};

test('every one', async () => {
    const { boat } = await load(SLOOP);
    const facts = Object.entries(ABOUT).map(([of, about]) => missingInTime(boat, { about, of: of as LackOf }));
    for (const { fact, how } of facts) expect([fact, how].filter((words) => words === '' || /undefined|NaN/.test(words))).toEqual([]);
    expect(new Set(facts.map(({ fact }) => fact)).size).toBe(facts.length);
});
test('what they tell to write is understood', async () => {
    const written = (of: LackOf): string => /`([^`]*)`/.exec(missingInTime({ parts: [], tanks: [{ id: 'T1', fittings: [] }] } as never, { about: ABOUT[of], of }).how)![1]!;
    const text = edit(edit(edit(edit(SLOOP, 'fill        ends at the top', `fill   ends at the top   ${written('takes')}`), 'pickup P1   bore 8 mm', `${written('tested')}\n  pickup P1   bore 8 mm   ${written('mouth')}`),
        'engine E1 {', `engine E1 {\n  ${written('burns')}\n  ${written('draws')}\n  ${written('returns')}\n  ${written('limit')}`), 'envelope heel 20 deg   trim 5 deg   level 10 to 95 %', `envelope heel 20 deg   trim 5 deg   level 10 to 95 %   ${written('fuel').replace('envelope ', '')}`);
    const { boat } = await load(`${text}line-up OVER transfer ${written('moves')}\npassage Islands leaves 2026-09-10 ${written('motors')}\n`);
    const [engine] = boat.consumers;
    expect([engine!.burns.length, engine!.draws.length, engine!.returns.length, engine!.limits.fuel !== undefined, boat.tanks[0]!.tested !== undefined, boat.vessel.envelope.fuel !== undefined]).toEqual([1, 1, 1, true, true, true]);
    expect([boat.lineUps[1]!.moves?.si, boat.passages[0]!.motors?.si, boat.passages[0]!.speed?.si]).toEqual([0.06, 90 * 3600, 40]);
    expect(boat.tanks[0]!.fittings.map(({ takes, mouth }) => [takes !== undefined, mouth !== undefined])).toEqual([[false, true], [false, false], [false, false], [true, false]]);
});
