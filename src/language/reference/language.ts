/** The page of the language: what can be written, from the tables that read it. */
import { blockHead, blockLines } from '../../documents/bleed/block';
import { GRADES } from '../../model/measure';
import { listed } from '../../model/words';
import { planBleed } from '../../procedures/bleed';
import { LIBRARY_TEXT } from '../library';
import { loadBoat } from '../load';
import { ANCHORS, DIRECTIONS, MARKS } from '../vocabulary';
import { BOAT, show, type Example } from './examples';
import { BLEEDS, KEEPING, LATER, OVERLAYS, PROCEDURES, SAID_ONCE, type Topic } from './topics';
import { ENTRIES, PARTS, type Kind } from './kinds';
import { code, fence, page, plain, table } from './markdown';
import { SHARED, wordTable, wordsOfKind } from './words';

function kind({ title, tables, says, example }: Kind): string[] {
    return [
        `### ${title}`, ...says, ...(example ? [show(example)] : []),
        ...tables.flatMap(([name, heading]) => [...(heading === undefined ? [] : [`**${heading}**`]), ...wordsOfKind(name)]),
    ];
}

const topic = ({ title, says }: Topic): string[] => [`## ${title}`, ...says.map((said) => (typeof said === 'string' ? said : show(said)))];

const COMMENT: Example = { shown: '-- Ottilwake, as measured in spring\nvessel Ottilwake { heights from "keel" }\nengine E1   -- the only one' };
const HEIGHTS: Example = {
    around: BOAT,
    shown: `supply course Extra from T1.P1 to E1 {
  hose S7       low at 560 mm   crest at 740 to 760 mm
  tee J7        at 660 mm up, 2350 mm fwd, 700 mm port
  filter F7 {
    ports at 100 mm under F1 lid   lid at 40 mm over ports
    drain at unreached
  }
}`,
};
const EVIDENCE: Example = {
    around: BOAT,
    shown: `supply course Extra from T1.P1 to E1 told by "owner's sketch" 2026-02-20 {
  hose S7       bore 8 mm measured   length 2.6 m about   low at 560 mm inferred   dated 2021 seen photo "p14.jpg"
  hose S8       bore unknown
}`,
};

/** Every example on the page. */
export const EXAMPLES: readonly Example[] = [
    COMMENT, HEIGHTS, EVIDENCE, ...[...ENTRIES, ...PARTS].flatMap(({ example }) => example ?? []),
    ...[...SAID_ONCE, ...OVERLAYS, ...KEEPING, ...BLEEDS, ...PROCEDURES, ...LATER].flatMap(({ says }) => says.filter((said) => typeof said !== 'string')),
];

/** The bleed sequence of the boat of the examples, as Orlop writes it. */
export async function keptBlock(): Promise<string | undefined> {
    const { boat } = await loadBoat({ 'boat.orlop': BOAT });
    const plan = planBleed(boat, { engine: 'E1', opened: ['F1'], prefilled: [] });
    return 'refused' in plan ? undefined : `${blockHead(boat, plan)} {\n${blockLines(boat, plan).map((line) => `  ${line}\n`).join('')}}`;
}

export async function languagePage(): Promise<string> {
    const kept = await keptBlock();
    return page([
        '# The language',
        'All that can be written, and what Orlop draws from it. [The guide](guide.md) is the gentler way in; [units](units.md) and [rules](rules.md) have pages of their own.',
        '## A text',
        [
            '- **A folder is a boat.** Its files end in `.orlop`, and their order does not matter. Two boats may both have a V1.',
            '- **A line begins with a word that says what it is**, and ends where the line ends. A block in braces, `{` and `}`, holds what belongs to the line before it; the opening brace stands on that line.',
            '- **A name begins with a capital letter**, as in `F1`, `EngineBay`, `V1-S`. The words of the language never do. A title in quotes may follow the name.',
            '- **A figure carries its unit.** Facts follow one another in any order; three blanks between them are custom, one is enough.',
            '- **A word that heads others is said once**: in `limits inlet 20 kPa   lift 900 mm` the lift is a limit too.',
            '- **A quote** ends on the line on which it begins.',
            '- **A comment** begins with `--` and runs to the end of the line.',
            '- **A fact that is not written is not known.** Nothing is filled in silently: where something has to be taken, the page that took it says so.',
        ].join('\n'),
        show(COMMENT),
        '## Words that many kinds share',
        'A kind of thing takes these where its own table names them.',
        wordTable(SHARED),
        '## Things on the boat',
        'They may be written in any order.',
        ...ENTRIES.flatMap(kind),
        '## Courses',
        'A course is a chain of parts, one on a line, in the order in which the liquid meets them: read downstream. Where two parts follow one another, they are joined.',
        table(['course', 'what it is'], [
            [code('supply course'), 'From a tank to what it feeds.'], [code('return course'), 'From an engine back to a tank.'], [code('vent course'), 'From the vent of a tank to the air.'],
            [code('fill course'), 'From the deck to a tank.'], [code('transfer course'), 'From tank to tank.'],
        ]),
        'The head says where it runs `from` and `to`: the fitting of a tank (`T1.P1`), an engine or its like (`E1`), the port of a selector (`SV1.port`), a tee (`J1`), or the outside: `air`, `deck` or `sea`.',
        ...wordsOfKind('course'),
        ...PARTS.flatMap(kind),
        '## Heights and places',
        'A place is always said with `at`, and `at` with a length is always a place, never a size. A height alone is above the datum that `heights from` names. What has several heights has a word for each: `low at`, `crest at`, `lid at`. (With a speed, as in `burns 2.4 L/h at 2400 rpm`, `at` says at what speed.)',
        table(['written', 'what it is'], [
            [code('at 660 mm'), 'A height above the datum.'],
            [code('at 660 mm up, 2350 mm fwd, 700 mm port'), `A point. Any of ${listed(Object.keys(DIRECTIONS).map(code))}: up from the datum, forward of the transom, off the centreline.`],
            [code('at 25 mm off bottom'), `Measured up from something, with ${code('off')} or ${code('over')}; ${code('under')} measures down.`],
            [code('at 100 mm under F1 lid'), 'The same from another thing, whose name stands before.'],
            [code('at 740 to 760 mm'), 'Somewhere between.'],
            [code('at unknown'), `Not known, and it goes to the facts to measure. ${code('at unreached')}: nobody could get at it.`],
        ]),
        `Heights are measured from ${listed(ANCHORS.map(code))}. The bottom is that of the tank, once its \`box\` and its corner, or its sections, are written. In a tank by sections it is the bottom under the place that is written, or the lowest point of the tank where none is. Where a part states only \`ports\` or \`at\`, its inlet and outlet are taken there.`,
        show(HEIGHTS),
        '## How well a fact is known',
        `A mark trails its fact. With no fact before it on its line it speaks for the whole thing, and in the head of a course for all that stands in it. ${listed(GRADES.map(code))} are the grades, from the strongest to the weakest; a fact without one counts as ${code('told')}. A date may follow a mark. A finding names the grade of the weakest fact that it rests on.`,
        table(['mark', 'what it says'], Object.entries(MARKS).map(([word, doc]) => [code(word), plain(doc)])),
        `${code('photo')} and ${code('by')} are followed by words between quotes.`,
        show(EVIDENCE),
        ...SAID_ONCE.flatMap(topic),
        '### The patterns that come with Orlop',
        fence(LIBRARY_TEXT),
        ...OVERLAYS.flatMap(topic),
        ...KEEPING.flatMap(topic),
        ...BLEEDS.flatMap(topic),
        ...(kept === undefined ? [] : ['This is the sequence that Orlop writes for the boat of the examples on this page, after F1 was opened. It is for no other boat.', fence(kept)]),
        ...PROCEDURES.flatMap(topic),
        ...LATER.flatMap(topic),
    ]);
}
