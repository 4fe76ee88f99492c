/**
 * Slips that people who know boats and not programs make when they write one down, and what they need to read: the words
 * that the message must hold. Each was settled from the slip alone: its own word quoted, and the word or the line to write.
 */
import { part } from './texts';

export interface SkipperSlip {
    readonly slip: string;
    /** What the message must underline stands between « and ». */
    readonly text: string;
    readonly words: readonly string[];
    /** One message, unless the slip cannot but strike twice. */
    readonly count: number;
    /** Not beside the sound boat, but on its own. */
    readonly alone?: true;
}

const slip = (slip: string, text: string, ...words: string[]): SkipperSlip => ({ slip, text, words, count: 1 });
const alone = (told: SkipperSlip): SkipperSlip => ({ ...told, alone: true });
const twice = (told: SkipperSlip): SkipperSlip => ({ ...told, count: 2 });

export const SKIPPER_SLIPS: readonly SkipperSlip[] = [
    // ---- braces
    slip('a tank not closed before the next entry', 'tank T2 {\n  sender\n«engine» E2\ntend { look T2 vent every 12 months }\n', '`tank T2`', 'still open', '`}`', '`engine`'),
    slip('a course not closed before the next course', 'supply course More from T1 to E1 {\n  hose S1\n  shutoff V2\n«return» course Over from E1 to T1 { hose }\n', '`supply course More`', 'still open', '`}`'),
    slip('a filter and its course not closed', 'supply course More from T1 to E1 {\n  filter F2 {\n    holds 450 mL\n«engine» E2\n', '`filter F2`', '`supply course More`', 'still open'),
    slip('a filter not closed before the next part', 'supply course More from T1 to E1 {\n  filter F2 {\n    holds 450 mL\n  «hose» S1\n  hose S2\n}\n', '`filter F2`', 'still open', '`}`', '`hose`'),
    slip('an engine not closed before a sequence', 'engine E2 {\n  exhaust dry\n«bleed» E1 after opening F1 {\n  open V1\n}\n', '`engine E2`', 'still open', '`}`'),
    slip('a log not closed before the next entry', 'log 2025 {\n  2025-02-03 E1 10 h\n«tank» T2\n', '`log`', 'still open', '`}`'),
    slip('the last block not closed', 'tank T2 «{»\n  sender\n', '`tank T2`', '`}`'),
    slip('a brace on a line of its own', 'tank T2\n«{»\n  sender\n}\n', '`{`', 'line above', '`tank T2`'),
    slip('no brace before the lines of a course', 'supply course More from T1 to E1\n  «hose» S1\n  shutoff V2\n}\n', '`{`', '`supply course More`', 'missing'),
    twice(slip('a course closed too early', 'supply course More from T1 to E1 {\n  hose S1\n}\n  «shutoff» V2\n  hose S2\n  hose S3\n}\n', '`shutoff`', 'course')),
    // ---- things out of their place
    slip('a tee outside of a course', '«tee» J1 at 660 mm\n', '`tee`', 'in a course'),
    slip('a filter outside of a course, with its block', '«filter» F2 primary {\n  holds 450 mL\n  bleed BS1\n}\n', '`filter`', 'in a course'),
    slip('a shutoff outside of a course that a line-up then sets', '«shutoff» V2 normally open\nline-up X run { V2 shut }\n', '`shutoff`', 'in a course'),
    slip('a leg outside of a split', '«leg» A { hose }\n', '`leg`', '`split`'),
    slip('a pair of filters by its trade name', '«duplex» CH1 { hose }\n', '`duplex`', '`changeover`'),
    slip('a part in a tank', 'tank T2 {\n  «shutoff» V2\n  sender\n}\n', '`shutoff`', 'in a course', 'tank'),
    slip('a filter with its block in a tank', 'tank T2 {\n  «filter» F2 {\n    holds 1 L\n  }\n}\n', '`filter`', 'in a course', 'tank'),
    slip('a pickup in a course', part('«pickup» P1'), '`pickup`', 'tank'),
    slip('a space outside of the vessel', '«space» Locker\n', '`space`', '`vessel`'),
    slip('a part in a split without a leg', part('split {\n    «hose» S1\n  }'), '`hose`', '`leg`'),
    // ---- words for things
    slip('a valve', part('«valve» V2 normally open'), '`valve`', '`shutoff`'),
    slip('a valve that a line-up then sets', `${part('«valve» V2 normally open')}line-up X run { V2 shut }\n`, '`valve`', '`shutoff`'),
    slip('a separator with its block', part('«separator» F2 primary {\n    holds 450 mL\n    bleed BS1\n  }'), '`separator`', '`filter`'),
    slip('a kind of part misspelt, with its block', part('«fliter» F2 {\n    holds 450 mL\n  }'), '`fliter`', '`filter`'),
    slip('a part that is none', part('«widget» W1 bore 8 mm'), '`widget`', '`hose`', '`filter`'),
    slip('a part that is none, with its block', part('«widget» W1 {\n    holds 450 mL\n  }'), '`widget`'),
    slip('a pump of no kind', part('«pump» LP1'), '`pump`', '`lift pump`', '`electric pump`'),
    slip('a lift pump without its second word', part('«lift» LP1'), '`lift`', '`lift pump LP1`'),
    slip('a tank by another word', '«tnak» T2 {\n  sender\n}\n', '`tnak`', '`tank`'),
    slip('a motor', '«motor» E2 {\n  exhaust dry\n}\nreturn course Other from E2 to T1 { hose }\n', '`motor`', '`engine`'),
    slip('a breather on a tank', 'tank T2 {\n  «breather» at 660 mm\n}\n', '`breather`', '`vent`'),
    slip('a capital letter at the head of a line', '«Tank» T2 { sender }\n', '`Tank`', '`tank`'),
    // ---- names
    slip('a tank in small letters', 'tank «t2» { sender }\n', '`t2`', '`T2`'),
    slip('a valve in small letters in its course', part('shutoff «v2» normally open'), '`v2`', '`V2`'),
    slip('a name that is not declared', 'line-up X run { «V11» shut }\n', '`V11`', 'V1'),
    slip('a port that the tank has not', 'supply course More from «T1.P2» to E1 { hose }\n', '`T1.P2`', '`T1.P1`', '`T1.R1`'),
    slip('a port that the selector has not', 'supply course More from T1 to «SV1.three» { hose }\n', '`SV1.three`', '`SV1.in`', '`SV1.out`', '`SV1.two`'),
    slip('a port of a tank that has none', 'tank T2\nsupply course More from «T2.P1» to E1 { hose }\n', '`T2.P1`', '`pickup P1`'),
    slip('the tank of a course not declared', 'supply course More from «T9».P1 to E1 { hose }\n', '`T9`', 'not in this boat'),
    // ---- courses
    slip('a course without its second word', '«supply» More from T1 to E1 { hose }\n', '`supply course More`'),
    slip('a course without its service', '«course» More from T1 to E1 {\n  hose\n}\n', '`course`', '`supply course More`', '`return course More`'),
    slip('no `to`', 'supply course More from T1 «E1» {\n  hose\n}\n', '`to E1`'),
    slip('no `from`', 'supply course More «T1» to E1 {\n  hose\n}\n', '`from T1`'),
    slip('`to` before `from`', 'supply course More «to» E1 from T1 {\n  hose\n}\n', '`from`', '`to`', 'downstream'),
    slip('no end', 'supply course More from T1 «{»\n  hose\n}\n', '`to`', 'ends'),
    slip('an arrow for `to`', 'supply course More from T1 «->» E1 {\n  hose\n}\n', '`->`', '`to`'),
    slip('`from` misspelt', 'supply course More «form» T1 to E1 {\n  hose\n}\n', '`form`', '`from`'),
    // ---- signs
    slip('a comment behind two strokes', part('hose S1 «// the old one, 2019»'), '`--`'),
    slip('a comment behind a hash', '«# the day tank»\ntank T2\n', '`--`'),
    slip('a comment between strokes and stars', '«/* the day tank,»\n   port side */\ntank T2\n', '`--`'),
    slip('a remark in brackets', part('hose S1 «(old)» bore 8 mm'), '`(old)`', '`--`'),
    slip('typographic quotes', part('shutoff V2 label «“FUEL”»'), '`"FUEL"`'),
    slip('low typographic quotes', part('shutoff V2 label «„FUEL“»'), '`"FUEL"`'),
    slip('single quotes', part('shutoff V2 label «\'FUEL\'»'), '`"FUEL"`'),
    slip('a long dash before a remark', part('hose S1 «— the old one»'), '`--`'),
    slip('a long dash in a word', '«line–up» X run\n', '`line-up`'),
    slip('a long dash in a range', part('filter F2 { holds 400«–450 mL» }'), '400 to 450 mL'),
    slip('a hyphen in a range', part('filter F2 { holds 400«-450 mL» }'), '400 to 450 mL'),
    slip('a minus as it is printed', part('gauge G1 at «−»40 mm'), '`−`', '`-`'),
    slip('a colon behind a word', part('hose S1 bore«:» 8 mm'), '`:`', '`bore 8 mm`'),
    slip('an equals sign', part('hose S1 bore«=»8mm'), '`=`', '`bore 8mm`'),
    slip('a semicolon at the end', part('hose S1 bore 8 mm«;»'), '`;`', 'line end'),
    slip('a sign of no use', part('hose S1 «&» bore 8 mm'), '`&`'),
    slip('the sign for a diameter', part('hose S1 bore «Ø»8 mm'), '`Ø`', '`bore 8 mm`'),
    slip('the sign for about', part('hose S1 length «~»2 m'), '`~`', '`about`'),
    // ---- quantities
    slip('millimetres in capitals', part('hose S1 bore 8 «MM»'), '`MM`', '`8 mm`'),
    slip('millimetres in capitals, close up', part('hose S1 bore 8«MM»'), '`MM`', '`8 mm`'),
    slip('kilopascals in capitals', part('check CV1 cracks 0.5 «KPA»'), '`KPA`', '`0.5 kPa`'),
    slip('kilopascals with one capital', part('check CV1 cracks 0.5 «Kpa»'), '`Kpa`', '`0.5 kPa`'),
    slip('litres an hour with the wrong capital', part('filter F2 { rated 60 «l/H» }'), '`l/H`', '`60 L/h`'),
    slip('a unit misspelt', part('hose S1 bore 8 «mn»'), '`mn`', '`8 mm`'),
    slip('an unknown unit of a height', part('gauge G1 at 660 «MM»'), '`MM`', '`660 mm`'),
    slip('no unit', part('hose S1 bore «8»'), '8 what', '8 mm'),
    slip('a decimal comma', part('hose S1 length «2,6 m»'), '2.6 m', 'point'),
    slip('inches by their sign', part('hose S1 bore «3/8»"'), '3/8 in'),
    slip('a half by its sign', part('hose S1 bore 1«½» in'), '`½`', '1/2'),
    slip('a negative bore', part('hose S1 bore «-8 mm»'), '`-8 mm`', '`bore`', 'more than nothing'),
    slip('ten times too wide', part('hose S1 bore «100 mm»'), '`100 mm`', '`bore`', '10 mm'),
    alone(slip('a level in litres', 'vessel Hulk { envelope level 5 to «95 L» }\n', 'level', '%')),
    slip('a time where a length belongs', part('hose S1 length «2 h»'), '`2 h`', '`length`', '2.6 m'),
    slip('the figure before its word', part('hose S1 «8 mm» bore'), '`8 mm`', '`bore 8 mm`'),
    slip('no figure behind a word', part('hose S1 «bore»'), '`bore`', '8 mm'),
    // ---- facts
    slip('a fact twice', part('hose S1 bore 8 mm «bore» 9 mm'), '`bore`', 'twice'),
    slip('two kinds at once', part('filter F2 primary «final»'), '`primary`', '`final`'),
    slip('`normally` misspelt', part('shutoff V2 «normaly» open'), '`normaly`', '`normally`'),
    slip('normally closed', part('shutoff V2 normally «closed»'), '`closed`', '`shut`'),
    slip('a height without `at`', part('gauge G1 «660 mm»'), '`660 mm`', '`at 660 mm`'),
    slip('words without quotes', part('shutoff V2 «label FUEL»'), '`label`', '`"FUEL"`'),
    slip('a fact of something else', part('hose S1 «stroke» 15 mL'), '`stroke`', 'hose', 'primer'),
    // ---- selectors and line-ups
    slip('a position that does not say what it joins', 'selector SV2 { ports in, out\n  «position ON»\n}\n', 'ON', '`joins in, out`', '`joins nothing`'),
    slip('a position that joins ports without the word', 'selector SV2 { ports in, out\n  «position ON in, out»\n}\n', 'ON', '`joins in, out`'),
    slip('a position that joins a port that is not there', 'selector SV2 { ports in, out\n  position ON joins in, «uot»\n}\n', '`uot`', '`out`'),
    slip('a line-up that sets a filter', 'line-up X run { «F1 shut» }\n', 'F1', 'no positions'),
    slip('a position that the selector has not', 'line-up X run { «SV1 THREE» }\n', '`THREE`', '`ONE`', '`TWO`'),
    slip('a shutoff closed', 'line-up X run { «V1 closed» }\n', '`closed`', '`shut`'),
    slip('a line-up in two words', '«line up» X run\n', '`line-up`'),
    slip('a setting the wrong way about', 'line-up X run { «shut» V1 }\n', '`V1 shut`'),
    // ---- upkeep
    slip('hours shortened', 'tend { renew F1 element every 250 «hrs» }\n', '`hrs`', '`250 h`'),
    slip('engine hours', 'tend { renew F1 element every 250 «engine hours» }\n', '`engine hours`', '`250 h`'),
    slip('hours in capitals', 'tend { renew F1 element every 250 «H» }\n', '`H`', '`250 h`'),
    slip('no unit in an interval', 'tend { renew F1 element every «250» }\n', '`250`', '250 h'),
    slip('a word for how often', 'tend { renew F1 element «yearly» }\n', '`yearly`', '`every 12 months`'),
    slip('the piece before the part', 'tend { renew «element» F1 every 250 h }\n', '`renew F1 element`'),
    slip('another word for renew', 'tend { «replace» F1 element every 250 h }\n', '`replace`', '`renew`'),
    slip('a day that the calendar has not', 'log 2025 { «2025-02-30» E1 10 h }\n', '`2025-02-30`', 'calendar'),
    slip('a day written as at home', 'log 2025 { «12.03.2025» E1 10 h }\n', '`12.03.2025`', '2025-03-12'),
    slip('a line of the log without a day', 'log 2025 { «E1» 10 h renewed F1 element }\n', 'date', '2025-03-12'),
    slip('a part in the log that is not there', 'log 2025 { 2025-02-03 E1 10 h renewed «F9» element }\n', '`F9`', 'not in this boat'),
    // ---- sequences
    slip('a step at a bleed point that is not there', 'bleed E1 after opening F1 {\n  bleed «BS9» by gravity from T1\n}\n', '`BS9`', 'not in this boat'),
    slip('a step that shuts what is not there', 'bleed E1 after opening F1 {\n  shut «V7»\n}\n', '`V7`', 'not in this boat'),
    slip('a verb of no step', 'bleed E1 after opening F1 {\n  «close» V1\n}\n', '`close`', '`shut V1`'),
    slip('a step half said', 'bleed E1 after opening F1 {\n  «bleed» BF1\n}\n', '`bleed BF1 by', 'gravity from T1'),
    // ---- as people speak
    slip('a shutoff valve', part('shutoff «valve» V2 normally open'), '`valve`', '`shutoff V2`'),
    slip('a fuel filter', part('«fuel» filter F2'), '`fuel`', '`filter F2`'),
    slip('a primary filter', part('«primary» filter F2'), '`filter F2 primary`'),
    slip('a primer pump', part('primer «pump» PR1'), '`pump`', '`primer PR1`'),
    slip('an electric one of no kind', part('«electric» LP2'), '`electric pump LP2`', '`electric primer LP2`'),
    slip('open without `normally`', part('shutoff V2 «open»'), '`open`', '`normally open`'),
    slip('a capital letter at a fact', part('hose S1 «Bore» 8 mm'), '`Bore`', '`bore`'),
    slip('a size in microns without its word', part('filter F2 «10 micron»'), '`10 micron`', '`passes 10 micron`'),
    slip('the unit at each size', 'tank T2 {\n  «box» 800 mm x 600 mm x 420 mm\n}\n', '`box`', '800 x 600 x 420 mm'),
    slip('a number in words', 'engine E2 { «cylinders» four }\n', '`cylinders`', '3'),
    slip('a pickup with a block', 'tank T2 {\n  pickup P1 «{» bore 8 mm }\n}\n', '`pickup P1`', 'no block'),
    slip('a bleed point with a block', 'engine E2 {\n  bleed BE2 «{»\n    at 660 mm\n  }\n}\n', '`bleed BE2`', 'no block'),
    slip('a line in place of a course', 'supply «line» More from T1 to E1 { hose }\n', '`line`', '`supply course More`'),
    slip('a service that is none', '«feed» course More from T1 to E1 { hose }\n', '`feed`', '`supply course More`'),
    slip('the kind before the name of an end', 'supply course More from «tank» T1 to E1 { hose }\n', '`tank`', '`from T1`'),
    slip('a port without its point', 'supply course More from T1 «P1» to E1 { hose }\n', '`T1.P1`'),
    slip('ports without commas', 'selector SV2 { ports in «out»\n  position ON joins in, out\n}\n', '`in, out`'),
    slip('no ports', 'selector SV2 {\n  «position ON joins in, out»\n}\n', 'ON', '`ports in, out`'),
    slip('a colon in a line-up', 'line-up X run { V1«:» shut }\n', '`:`', '`V1 shut`'),
    slip('settings without braces', 'line-up X run «V1» shut\n', '`{ V1 shut }`'),
    slip('a number before a step', 'bleed E1 after opening F1 {\n  «1.» open V1\n}\n', '`1.`'),
    slip('a dash before a line', '«-» tank T2\n', '`-`'),
    slip('an engine speed behind its trade sign', 'engine E2 { burns 2.4 L/h «@» 2400 rpm }\n', '`@`', '`at 2400 rpm`'),
    slip('litres an hour as it is often written', 'engine E2 { burns 2.4 «l/hr» at 2400 rpm }\n', '`l/hr`', '`2.4 L/h`'),
    slip('`every` left out', 'tend { renew F1 element «250 h» }\n', '`every 250 h`'),
    slip('every year', 'tend { renew F1 element every «year» }\n', '`year`', '`every 12 months`'),
    slip('an interval in words', 'tend { renew F1 element every «six» months }\n', '`six months`', '12 months'),
    slip('an interval from to', 'tend { renew F1 element every «250»-300 h }\n', '`every 250 h`'),
    slip('a day in words', 'log 2025 {\n  «3 March 2025» E1 10 h\n}\n', '`3 March 2025`', '`2025-03-03`'),
    slip('a day that may be read in two ways', 'log 2025 { «3/4/2025» E1 10 h }\n', '`2025-04-03`', '`2025-03-04`'),
    slip('blocks between square brackets', 'supply course More from T1 to E1 [hose]\n'.replace('[hose]', '«[hose]»'), '`[hose]`'),
];
