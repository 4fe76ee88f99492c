/** What a skipper reads after a slip: one message, at the slip, in plain words that say what is wrong and what to write. */
import { describe, expect, it } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { reportOf } from '../../src/language/report';
import { lots } from '../oracle/random-boats';
import { spoil } from './slips';
import { BOATS, SOUND, part } from './texts';
import { judge } from '../../src/checks/judge';

/** What is to be underlined stands between these marks. */
const MARKS = /[«»]/g;

const SLIPS: readonly (readonly [slip: string, text: string, message: string])[] = [
    // ---- quantities
    ['a unit misspelt', part('hose S1 bore 8 «mn»'), '`mn` is not a unit. Did you mean `8 mm`?'],
    ['a unit of everyday speech', part('filter F2 { rated 60 «lph» }'), '`lph` is not a unit. Did you mean `60 L/h`?'],
    ['a unit in full', part('filter F2 { holds 2 «litres» }'), '`litres` is not a unit. Write it like 450 mL.'],
    ['no unit at the end of the line', part('hose S1 bore «8»'), '8 what? A unit is missing: write it like 8 mm.'],
    ['no unit before the next fact', part('hose S1 bore «8»   length 2 m'), '8 what? A unit is missing: write it like 8 mm.'],
    ['a unit of something else', part('hose S1 bore «8 kPa»'), '`8 kPa`: `bore` is a length, not a pressure. Write it like 8 mm.'],
    ['a negative bore', part('hose S1 bore «-8 mm»'), '`-8 mm`: `bore` must be more than nothing. Write it like 8 mm.'],
    ['a length of nothing', part('hose S1 length «0 m»'), '`0 m`: `length` must be more than nothing. Write it like 2.6 m.'],
    ['ten times too wide', part('hose S1 bore «800 mm»'), '`800 mm` is far from what a `bore` usually is (1.5 mm to 80 mm). Did you mean 80 mm?'],
    ['ten times too narrow', part('hose S1 bore «0.8 mm»'), '`0.8 mm` is far from what a `bore` usually is (1.5 mm to 80 mm). Did you mean 8 mm?'],
    ['ten times too long', part('hose S1 length «260 m»'), '`260 m` is far from what a `length` usually is (0.02 m to 30 m). Did you mean 26 m?'],
    ['millimetres called metres', part('hose S1 length «26000 m»'), '`26000 m` is far from what a `length` usually is (0.02 m to 30 m). Is the unit right?'],
    ['two sizes of three', 'tank T2 { «box» 800 x 600 mm }', '`box` needs length x breadth x height, like 800 x 600 x 420 mm.'],
    ['a quantity without its word', part('gauge G1 «660 mm»'), '`660 mm` stands here without a word that says what it is. Write `at 660 mm`.'],
    // ---- words
    ['a word misspelt', part('hose S1 «boer» 8 mm'), '`boer` is not a word that Orlop knows for a hose. Did you mean `bore`?'],
    ['another word of the trade', part('hose S1 «diameter» 8 mm'), '`diameter` is not a word that Orlop knows for a hose. Did you mean `bore`?'],
    ['a fact of the filter behind its bleed point', part('filter F2 { bleed BS2   at 700 mm   «rated» 60 L/h }'), '`rated` is not a word that Orlop knows for a bleed point. It belongs to a filter: write it before `bleed`, or on a line of its own.'],
    ['one of a few, misspelt', 'tank T2 carries «deisel»', '`deisel` cannot stand here: after `carries` comes `diesel`, `coolant`, `heating water` or `raw water`. Did you mean `diesel`?'],
    ['one of a few, but none of them', part('filter F2 { prefill «never» }'), '`never` cannot stand here: after `prefill` comes `allowed`, `not on the clean side` or `forbidden`.'],
    ['a fact said twice', part('hose S1 bore 8 mm «bore» 9 mm'), '`bore` is said twice here; the later one is used. Remove the one that is wrong.'],
    ['a mark of evidence without a fact', part('hose S1 «about»'), '`about` says how well a fact is known, but no fact stands before it.'],
    ['a height from nothing', part('filter F2 { lid at 40 mm «over» }'), 'over what? Say `off bottom`, `over ports` or `under F1 outlet`.'],
    // ---- names
    ['a name misspelt', part('hose S1 in «EngineBuy»'), '`EngineBuy` is not in this boat. Did you mean `EngineBay`?'],
    ['a name in small letters', 'tank «t2» {\n  sender\n}', 'A name begins with a capital letter: write `T2`, not `t2`.'],
    ['no name before the block', 'tank «{»\n  sender\n}', 'A name is missing here; it begins with a capital letter, like `V1`.'],
    ['no name before the next word', 'supply course «from» T1 to E1 { hose }', 'A name is missing before `from`; it begins with a capital letter, like `V1`.'],
    ['a second vessel', '«vessel Other»', 'A folder is one boat, and this one already has the vessel Hulk. Move Other to a folder of its own.'],
    // ---- braces and quotes
    ['a block in a course not closed', 'supply course More from T1 to E1 {\n  filter F2 {\n    holds 450 mL\n  «hose» S1\n}\n', '`filter F2` (line 2) is still open: put a `}` before `hose`.'],
    ['a brace too many', 'tank T2 {\n  sender\n}\n«}»\nheater H1\n', 'This `}` closes nothing: there is one too many, or a `{` is missing above.'],
    ['a quote not closed', part('shutoff V2 label «"FUEL»'), 'This quote is not closed: end it with `"` on the same line.'],
    // ---- courses and valves
    ['an end at a tank with two pickups', 'tank T2 { pickup P1\n  pickup P2 }\nsupply course More from «T2» to E1 { hose }', 'T2 has 2 pickup fittings. Say which: `T2.P1` or `T2.P2`.'],
    ['an end at a part that has none', 'supply course More from «F1» to E1 { hose }', 'A course ends at a tank, a consumer, a port of a selector or a tee, and F1 is none of these. Put a tee beside it, and name the tee here.'],
    ['a position that joins nothing said', 'selector SV2 { ports in, out\n  «position ON»\n}', 'Say what position ON joins, like `joins in, out` or `joins nothing`.'],
    ['a position that the selector has not', 'line-up X run { «SV1 TREE» }', 'SV1 cannot be `TREE`; it can be `ONE`, `TWO`.'],
    ['a position in small letters', 'line-up X run { «SV1 one» }', 'SV1 cannot be `one`; it can be `ONE`, `TWO`. Did you mean `ONE`?'],
    ['a shutoff closed instead of shut', 'line-up X run { «V1 closed» }', 'V1 cannot be `closed`; it can be `open`, `shut`. Did you mean `shut`?'],
    ['a filter shut', 'line-up X run { «F1 shut» }', 'F1 is not a valve: it has no positions.'],
    ['a line-up from one that is not there', 'line-up X run from «SERVIC»', '`SERVIC` is not in this boat. Did you mean `SERVICE`?'],
    // ---- upkeep and sequences
    ['an interval without a time', 'tend { «renew» F1 element }', 'How often? Write it like `every 250 h or 12 months`.'],
    ['a job misspelt', 'tend { «renw» F1 element every 250 h }', '`renw` is no job that Orlop counts. A line of `tend` begins with what is done: renew, refit, look, test, drain, clean, work, bleed, grease. Did you mean `renew`?'],
    ['a line of the log without a date', 'log 2025 { «E1» 10 h renewed F1 element }', 'A line of the log begins with a date, like 2025-03-12.'],
    ['a job in the log misspelt', 'log 2025 { 2025-02-03 E1 10 h «renewd» F1 element }', '`renewd` is not a job that the log counts. Did you mean `renewed`?'],
    ['a sequence from a line-up that is not there', 'bleed E1 after opening F1 starts «SERVIC» ends RUN {\n  note "slowly"\n}\n', '`SERVIC` is not in this boat. Did you mean `SERVICE`?'],
];

describe('a slip is told once, at its place', () => {
    it.each(SLIPS)('%s', async (_, marked, message) => {
        const text = marked.replace(MARKS, '');
        const { problems } = await loadBoat({ 'boat.orlop': SOUND, 'slip.orlop': text });
        const lines = text.split('\n');
        const told = problems.map(({ uri, range: { start, end }, message }) => {
            expect(uri).toMatch(/slip\.orlop$/);
            expect(end.line).toBe(start.line);
            const line = lines[start.line]!;
            const shown = `${line.slice(0, start.character)}«${line.slice(start.character, end.character)}»${line.slice(end.character)}`;
            return { shown, message };
        });
        expect(told).toEqual([{ shown: marked.split('\n').find((line) => line.includes('«')), message }]);
    });

    it.each([
        ['the boat itself', ''], ['a wide but usual bore', part('hose S1 bore 80 mm')], ['a long hose in millimetres', part('hose S1 length 26000 mm')],
        ['a unit without a blank', part('hose S1 bore 8mm')], ['a hyphen in a name', part('shutoff V-9')],
    ])('nothing is told of %s', async (_, text) => {
        expect((await loadBoat({ 'boat.orlop': SOUND, 'slip.orlop': text })).problems).toEqual([]);
    });
});

/** Slips that only the boat shows: the text is well written, what it says cannot be. */
const FAULTS: readonly (readonly [slip: string, text: string, rule: string, message: string, advice: string])[] = [
    [
        'a loop without a tank', 'engine «E1»\nselector SV1 { ports in, out\n  position ON joins in, out }\nsupply course A from SV1.out to E1 { hose }\nreturn course B from E1 to SV1.in { hose }\n',
        'PATH-ONE', 'E1 is fed by no tank: its supply is a loop, or begins at nothing, or something in it points the wrong way.', 'Follow the supply of E1 back to a tank, and name the tank where the course begins.',
    ],
    [
        'a check valve turned round', 'tank T1\nengine E1\nsupply course Feed from T1 to E1 {\n  check CV1 «reversed»\n}\n',
        'CHECK-DIR', 'CV1 points against the flow of Feed.', 'Turn CV1 end for end; then remove the word `reversed`. What lies beyond it is judged only then.',
    ],
    [
        'a tag given twice', 'tank T1\nengine E1\nsupply course Feed from T1 to E1 {\n  shutoff V1\n  shutoff «V1»\n}\n',
        'TAG-UNIQUE', 'V1 is already the tag of something else on this boat.', 'Give one of the two another tag.',
    ],
];

describe('a fault of the boat is told at its place', () => {
    it.each(FAULTS)('%s', async (_, marked, rule, message, advice) => {
        const text = marked.replace(MARKS, '');
        const loaded = await loadBoat({ 'boat.orlop': text });
        expect(loaded.problems).toEqual([]);
        const told = reportOf(loaded, () => text, () => 'boat.orlop', judge(loaded.boat)).findings.filter((finding) => finding.rule.code === rule)
            .map(({ message, advice, place }) => ({ shown: place && `${place.text.slice(0, place.column - 1)}«${place.text.slice(place.column - 1, place.column - 1 + place.length)}»${place.text.slice(place.column - 1 + place.length)}`, message, advice }));
        expect(told).toEqual([{ shown: marked.split('\n').find((line) => line.includes('«')), message, advice }]);
    });
});

/** Words of those who write programs, for those who write of boats. */
const PROGRAMMERS = /\b(?:token|pars(?:e|er|ed|ing)|expect(?:ing|ed)|EOF|undefined|null|NaN|identifier|keyword|syntax|lexer|symbol|string|function|object|exception|Redundant|input)\b/i;
const SPOILT = 60;

describe.each([...BOATS])('no message about %s spoilt', (_, sound) => {
    it('speaks a programmer\'s language', async () => {
        const told = new Set<string>();
        for (let seed = 1; seed <= SPOILT; seed++) {
            const { problems } = await loadBoat(spoil(sound, lots(2_000_000 + seed)).texts);
            // What stands between backquotes is the writer's own.
            for (const { message } of problems) told.add(message.replace(/`[^`]*`/g, '``'));
        }
        expect(told.size).toBeGreaterThan(10);
        expect([...told].filter((message) => PROGRAMMERS.test(message))).toEqual([]);
    });
});
