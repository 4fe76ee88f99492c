/** What is said of the boat beside its parts: once for many, as found, as proposed, how it is worked and kept. */
import type { Disposition } from '../../model/boat';
import { listed } from '../../model/words';
import { JOB_VERBS } from '../lowering/jobs';
import { OPENING_WORDS, SWITCHES, TOPICS } from '../lowering/hand-steps';
import { PROCEDURE_STEPS, STEP_VERBS } from '../lowering/steps';
import { USES } from '../lowering/lines';
import { DISPOSITIONS, KEPT, VERBS, WAYS } from '../lowering/overlays';
import { BOAT, type Example } from './examples';
import { EACH_KINDS } from '../vocabulary';
import { code, table } from './markdown';
import { wordsOfKind } from './words';

export interface Topic {
    readonly title: string;
    /** Markdown, and examples where they belong. */
    readonly says: readonly (string | Example)[];
}

const onBoat = (shown: string): Example => ({ shown, around: BOAT });
const words = (list: readonly string[], last?: 'and' | 'or'): string => listed(list.map(code), last);

export const SAID_ONCE: readonly Topic[] = [
    {
        title: 'Said once: patterns and likeness',
        says: [
            'A `pattern` describes a part, or a whole course, that the boat has more than once. What stands in it is on no boat until something is `like` it. A thing may also be `like` another thing of its own kind.',
            'What is like a pattern takes over every fact that it does not state itself. Bleed points are taken over too, unless it lists its own, and are named after the part: BS of the pattern is `BS-F7` on F7.',
            ...wordsOfKind('pattern').map((said) => `Of a pattern as a whole: ${said[0]!.toLowerCase()}${said.slice(1)}`),
            {
                around: BOAT,
                shown: `pattern Primary60 "60 L/h primary" is filter primary {
  separates water   passes 10 um   rated 60 L/h   holds 450 mL
  lid at 40 mm over ports   drain at 180 mm under ports
  bleed BS   at 45 mm over ports   spanner 10 mm
}
supply course Extra from T1.P1 to E1 {
  filter F7     like Primary60   ports at 660 mm   holds 500 mL
}`,
            },
            'A course that is `like` a pattern takes all its parts. `tags -S` puts `-S` behind each of their names: V1 becomes `V1-S`. In its block stands only what differs, under the name in the pattern.',
            '`mirrored` swaps port and starboard in what is taken over, and leaves alone what is said beside it.',
            {
                around: 'tank T1 { pickup P1 }\ntank T2 { pickup P1 }\nengine E1\nengine E2\n',
                shown: `pattern WingSupply is supply course {
  shutoff V1    at 660 mm up, 700 mm stbd   normally open
  hose S1       bore 8 mm   length 2.6 m
}
supply course Stbd like WingSupply from T2.P1 to E2 tags -S
supply course Port like WingSupply from T1.P1 to E1 tags -P mirrored {
  hose S1       length 1.9 m
}`,
            },
            'A pattern is looked for in the folder of the boat, then in a folder called `shared` beside it, then among those that come with Orlop. A nearer one of the same name wins. A shared folder gives its patterns only; nothing else in it is on the boat.',
        ],
    },
];

const SETTLED: Readonly<Record<Disposition, string>> = {
    'accept found': 'What was found is right; the text will be changed.', 'drawing error': 'The drawing was wrong, the boat is not.',
    'defect A': 'To be mended before she is used.', 'defect B': 'To be mended before the next season or passage.', 'defect C': 'To be mended when it suits.',
    open: 'Not settled. It counts only when the boat is looked at as found.',
};

export const OVERLAYS: readonly Topic[] = [
    {
        title: 'What was found: surveys',
        says: [
            'A `survey` says what was found on board, laid over what is written above. What is drawn stays as it is. In the head stand the day with `on` and the surveyor with `by`.',
            {
                around: BOAT,
                shown: `survey Spring26 "before purchase" on 2026-03-02 by "surveyor" afloat {
  limits "heads lining not lifted"
  found S1 bore 6 mm, drawn 8 mm   measured photo "p14.jpg"   accept found
  found V1 shut, drawn open   touched
  found tee J9 between S1 and PR1, not drawn   touched   defect B
  missing G1   touched   drawing error
  answer CHAFE at S2 fail "no grommet at frame 6" seen photo "p22.jpg"
  unreached S2 "behind the heads lining"
}`,
            },
            table(['line', 'what it says'], [
                [code('found S1 bore 6 mm'), 'A fact as it was found.'], [code('found V1 shut'), 'A valve found open or shut.'], [code('found Back to T2.R1'), 'A course that ends elsewhere than it is drawn.'],
                [code('found tee J9 between S1 and PR1'), 'A part that is not drawn, between two that are, in the order of flow.'], [code('missing G1'), 'A part that is drawn and is not there.'],
                [code('unreached S2 "behind the heads lining"'), 'A part that nobody could look at.'],
                [code('answer CHAFE at S2 fail'), `The answer to a rule that a person answers: ${words(['pass', 'fail', 'cannot tell'], 'or')}. See [the rules](rules.md#inspected-rules).`],
            ]),
            `Behind a comma stands what was drawn, for the reader. Then come the marks of how well it is known, and what became of it:`,
            table(['words', 'what became of it'], DISPOSITIONS.map((disposition) => [code(disposition), SETTLED[disposition]])),
            `Lines that begin with ${words([...KEPT])} are kept for the reader; nothing is drawn from them.`,
        ],
    },
    {
        title: 'What is proposed: refits',
        says: [
            'A `refit` says what would be changed, so that it can be tried before metal is cut. It counts only when the boat is looked at after it.',
            {
                around: BOAT,
                shown: `refit Haul26 "second shutoff, lower the crest" {
  insert shutoff V2 at 620 mm between S2 and LP1
  set S2 crest at 650 mm
  move F1 up 200 mm, aft 50 mm
  remove G1
}`,
            },
            `A line of a refit begins with ${words(VERBS.refit.filter((verb) => !KEPT.has(verb)), 'or')}. \`insert\` names what is put in and the two parts between which it goes, in the order of flow. \`move\` goes ${words(Object.keys(WAYS), 'or')}.`,
        ],
    },
    {
        title: 'Four ways to look at the boat',
        says: [
            '`orlop check`, `bleed` and `due` take `--as`. Surveys count in the order in which they stand; the later one overrules.',
            table(['written', 'the boat'], [
                [code('--as is'), 'As she is: what is drawn, changed by all that surveys found and did not leave open. This is taken when nothing is said.'],
                [code('--as found'), 'The same with what was left open.'],
                [code('--as drawn'), 'What is drawn, without surveys and refits.'],
                [code('--as Haul26'), 'As she is, and then the refit of that name.'],
            ]),
        ],
    },
    {
        title: 'Waivers',
        says: [
            '`waive` sets a finding aside, for a reason and until a day. It names the rule by its code, says `at` what, and needs all three of `until` (its last day), `by` and `because`. What is waived is still told, apart from the findings. Without `at` it holds for the whole boat.',
            onBoat('waive CHAFE at S1 until 2027-04-01 by "owner" because "supple, inspected"'),
        ],
    },
];

const VERB_MEANS: Readonly<Record<string, string>> = {
    renew: 'A new one goes in.', refit: 'The same one goes back in.', look: 'It is looked at.', test: 'It is tried.', drain: 'Water or dirt is let out.', clean: 'It is cleaned.',
    work: 'It is moved to and fro, so that it does not seize.', bleed: 'Air is let out.', grease: 'It is greased.',
};
const USE_MEANS: Readonly<Record<(typeof USES)[number], string>> = {
    run: 'An engine runs.', service: 'Something is opened.', 'laid up': 'Nobody is on board.', transfer: 'Liquid is moved from tank to tank.', polish: 'Fuel is pumped round through a filter.', emergency: 'Something has failed.',
};

export const KEEPING: readonly Topic[] = [
    {
        title: 'Line-ups',
        says: [
            'A `line-up` says how the valves stand for one use. In its block stand pairs, on one line or on several: a valve and its position. That is `open` or `shut` for a shutoff, the name of a position for a selector or changeover. An engine that does not run in a line-up is `stopped` there, like `E1 stopped`; its lines may then be shut.',
            table(['use', 'when'], USES.map((use) => [code(use), USE_MEANS[use]])),
            '`is normal` marks the one that holds when nothing else is said. `from` takes another line-up and changes only what stands in the block. For a transfer, `moves 60 L` says how much is to be moved; it stands before the block: `line-up TOP-UP transfer from RUN moves 60 L { SV1 PORT }`.',
            onBoat('line-up LAID-UP   laid up   from RUN   { V1 shut }'),
        ],
    },
    {
        title: 'Intervals: tend',
        says: [
            '`tend` is a table of jobs. A job is a verb, a part and a piece of it: `renew F1 element`. The part may be one that is only named, such as an impeller.',
            table(['verb', 'in the log', 'what is done'], Object.entries(JOB_VERBS).map(([verb, past]) => [code(verb), code(past), VERB_MEANS[verb] ?? ''])),
            'How often: `every 250 h or 12 months`, whichever comes first; `every start`, `every day`, `every week`. `with` lists the seals that are renewed too. `common practice` or `source "..."` says where the interval comes from. `note "..."` is for people. `refit if clean under 250 h` lets the same one go in again while it is clean and has run less.',
            'Several parts may share a line: a list, `renew F1, F2 element`, or `each` with a kind, `work each shutoff`, or with a pattern of a part, `renew each Primary60 element`: all that is like it, directly, through another pattern or in a course that is like one. Every part then has a job of its own, as if it had been written out.',
            `The kinds are ${words(Object.keys(EACH_KINDS), 'and')}. As elsewhere, a \`primer\` alone is one that is worked by hand. What has no name is left out, and that is told.`,
            'Of the same verb, part and piece the nearer statement holds: a line that names the part before one that names a pattern, the nearer pattern before the further, and both before one that names a kind. Two lines as near hold both.',
            onBoat(`tend {
  work each shutoff        every 12 months   common practice
  work V1                  every 3 months    note "stiff"
  renew F1, F2 element     every 250 h or 12 months
  look each filter bowl    every start
}`),
            'Each part by itself:',
            onBoat(`tend {
  renew F1 element   every 250 h or 12 months   with lid ring, drain washer
  renew F2 element   every 500 h or 24 months   source "maker's book"
  look F1 bowl       every start
  work V1            every 12 months   common practice
}`),
        ],
    },
    {
        title: 'The log',
        says: [
            'A line of the `log` begins with its date. What Orlop reads are the hours of an engine, the jobs in the past, what a gauge read (`G1 0.9 inHg at 2400 rpm`), how deep a tank was when it was `dipped`, and `corrects` with the date of the line that is put right. All else on the line is for people.',
            'A list is one job for each: `renewed F1, F2 element`. `each` is not taken in the log: what was done stays done to the same parts, whatever comes on board later.',
            onBoat(`log 2025 {
  2025-03-12   E1 1410 h   renewed F1, F2 element   BS1 52 strokes   by "skipper"
  2025-09-01   E1 1538 h   T1 dipped 210 mm   G1 0.9 inHg at 2400 rpm
  2025-09-02   corrects 2025-03-12   E1 1412 h   note "misread"
}`),
        ],
    },
    {
        title: 'Passages',
        says: [
            'A `passage` is a plan for fuel: how long she motors, at which speed of the engine, and the margin that is added for weather and foul tides. What it leaves is judged against the `reserve` of the vessel.',
            onBoat('passage Islands   leaves 2026-09-10   motors 90 h at 2400 rpm   margin 25 %'),
        ],
    },
];

export const BLEEDS: readonly Topic[] = [
    {
        title: 'Bleed sequences',
        says: [
            'A block that begins with `bleed` and an engine is a bleed sequence. `orlop bleed` prints one; the editor writes it into the text, where it stays checked.',
            table(['in its head', 'what it says'], [
                [code('after opening F1, F2'), 'What was opened.'], [code('after running dry'), 'The tank ran dry.'], [code('prefilled F1'), 'What was filled by hand before it was closed.'], [code('from T1'), 'The tank to bleed from.'],
                [code('starts SERVICE'), 'The line-up in which it begins.'], [code('ends RUN'), 'The line-up in which it ends.'], [code('kept'), 'Orlop keeps it: when the boat changes, the lines that became false are findings.'],
            ]),
            'A step is one line:',
            table(['verb', 'for example'], Object.entries(STEP_VERBS).map(([verb, example]) => [code(verb), code(example)])),
            'Between the steps Orlop writes its own remarks: `heed`, `caution`, `sign`, `beware`, `if no resistance`, `taken`. A line that Orlop does not write is yours, best as `note "..."`. It is carried along with the step above it when the sequence is written again.',
        ],
    },
];

const STEP_MEANS: Readonly<Record<string, string>> = {
    stop: 'An engine or an electric pump; with its key, the stop control goes out too.', set: `What is not plumbed: ${listed(Object.entries(SWITCHES).map(([thing, to]) => `the ${thing} (${to.map(code).join(', ')})`))}.`,
    place: 'A can, or pads, under what will drip.', open: `A valve, or what of a part is opened: ${words(OPENING_WORDS)}, or the tag of its bleed point. \`shut\` is the contrary.`, shut: 'Several may stand on one line: `shut F1 lid, F1 drain`.',
    turn: 'A selector or a changeover.', prove: 'A pump draws; or a valve holds: `prove V1 by draining F1 until the stream dies within 10 s`.', remove: 'A piece, or with no piece the whole part.', fit: 'A new one goes in.',
    refit: 'What was taken out goes in again.', clean: 'A piece is cleaned.', look: 'What is looked at, and between quotes for what; `look all joints "dry card"`.', prefill: 'Filled by hand, to the brim, before it is closed.',
    bleed: 'A bleed point is opened, pumped at and closed.', do: 'The steps of that bleed sequence. `prefilled F1` may follow.', start: 'An engine is started.', run: '`run E1 for 10 min in gear`, `run TP1 until T2 holds 100 L`.',
    read: 'What a gauge should show.', wait: 'Nothing is done for so long.', log: 'What is to be written into the log.',
    caution: `Of what is warned before the next step: ${words(TOPICS)}. Own words may follow between quotes, like \`"WARNING: The sill is low."\``,
};

export const PROCEDURES: readonly Topic[] = [
    {
        title: 'Procedures',
        says: [
            'A block that begins with `procedure` is a service visit, step by step. Its steps are carried out against the boat as she is written: a step that would open a line to a full tank, leave a lid open or a valve shut is a finding at its line.',
            table(['in its head', 'what it says'], [
                [code('renew F1 element, look F2 bowl'), 'What is done: the same verb, part and piece as in `tend` and in the log.'], [code('"Change the primary element"'), 'A title.'], [code('starts RUN'), 'The line-up in which it begins. Without one it is the normal one.'],
                [code('ends RUN'), 'The line-up in which it ends.'], [code('45 min'), 'How long it takes.'], [code('one person'), 'How many people it needs.'], [code('kept'), 'Orlop keeps it: when the boat changes, the lines that became false are findings.'],
            ]),
            'A step is one line, and begins with what is done:',
            table(['verb', 'for example', 'what it is for'], Object.entries(PROCEDURE_STEPS).map(([verb, example]) => [code(verb), code(example), STEP_MEANS[verb] ?? ''])),
            'Remarks are `note "..."` and `if no resistance "..."`. A line that is not understood ends the judging of its procedure, and says so.',
            onBoat(`procedure look F1 element "Look into the primary"   starts RUN   ends RUN   30 min   one person {
  stop E1   key out
  set bilge pump off
  shut V1
  caution fire, skin, spill, flood F1, flood F2
  place can 2 L under F1
  place 4 pads under F1, F2
  open F1 lid
  look F1 element "dark, slime, water"
  remove F1 lid ring
  fit F1 lid ring
  prefill F1
  shut F1 lid
  open V1
  caution starter, jet, exhaust
  do bleed E1 after opening F1 prefilled F1
  look all joints "dry card"
  set bilge pump auto
  stop E1
  caution waste
  log look F1 element
}`),
        ],
    },
];

export const LATER: readonly Topic[] = [
    {
        title: 'Kept as it stands',
        says: [
            'These blocks are part of the language and keep their place in the text. Nothing is drawn from them yet, and `check` says so.',
            table(['word', 'what it is for'], [
                [code('locker'), 'What spares are where.'], [code('season'), 'When she is laid up.'], [code('now'), 'How things stand at this moment.'],
            ]),
            onBoat(`locker "port settee, box 3" {
  2 of F1 element
  1 of seal kit for F1
}
season laid up 1 Nov to 31 Mar`),
        ],
    },
];
