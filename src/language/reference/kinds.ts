/** The kinds of things on a boat: how each is written, what it is, and an example. The words of each come from vocabulary.ts. */
import { COURSE, ENDS, type Example } from './examples';

export interface Kind {
    readonly title: string;
    /** The tables of vocabulary.ts that it takes its facts from, with a heading where there are several. */
    readonly tables: readonly (readonly [table: string, heading?: string])[];
    /** One entry a paragraph or list. */
    readonly says: readonly string[];
    readonly example?: Example;
}

const inCourse = (shown: string): Example => ({ shown, inside: COURSE, around: ENDS });
const SPACES = 'vessel Ottilwake {\n  space EngineBay machinery\n  space QuarterBerth\n}\n';

/** What stands by itself at the head of a line. */
export const ENTRIES: readonly Kind[] = [
    {
        title: 'vessel and space', tables: [['vessel', 'Facts of a `vessel`'], ['space', 'Facts of a `space`']],
        says: ['`vessel` names the boat; a folder has one. Its block says how large she is, from where heights are measured and within what limits she must work. `space` names a part of the hull, so that a thing can stand `in` it.'],
        example: {
            shown: `vessel Ottilwake "Ottilwake" {
  length 10.8 m
  heights from "inside of hull at the engine bay"
  waterline at 520 mm
  envelope heel 25 deg   trim 3 deg   level 5 to 95 %   fuel 5 to 45 degC
  answers to us-small-passenger as guidance
  space EngineBay machinery
  space QuarterBerth
}`,
        },
    },
    {
        title: 'tank and its fittings', tables: [['tank', 'Facts of a `tank`'], ['fitting', 'Facts of a fitting']],
        says: [
            'A `tank` holds its fittings in its block, each on its own line:',
            '- `pickup`: the tube through which it is drawn from;\n- `drop`: the tube in which a return ends;\n- `vent`: where air goes in and out;\n- `fill`: where it is filled.',
            'A fitting has a name of its tank: the pickup P1 of T1 is `T1.P1`. A fitting without a name goes by its kind: `T1.vent`. A course that names only the tank takes the fitting that suits it, if there is only one.',
        ],
        example: {
            around: SPACES,
            shown: `tank T1 "starboard tank" in QuarterBerth carries diesel {
  box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, 2200 mm fwd, 550 mm stbd
  aluminium 5 mm   tested 25 kPa on 2019
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 650 mm
  drop R1     bore 8 mm   mouth at 25 mm off bottom   top at 650 mm
  vent
  fill        ends at the top
}`,
        },
    },
    {
        title: 'section of a tank', tables: [['section']],
        says: ['The shape of a tank is a `box`, or else two or more lines that begin with `section`, each a cut across its inside. Straight lines join each corner to the same corner of the next section, and the ends are flat. So all sections have as many corners, begin at the same one and go round the same way; where a section is pointed, a corner is written twice.'],
        example: {
            shown: `tank T2 "wing tank" {
  section at 1800 mm fwd   corners 320 mm up 500 mm stbd, 380 mm up 900 mm stbd, 640 mm up 1050 mm stbd, 640 mm up 500 mm stbd
  section at 3000 mm fwd   corners 200 mm up 450 mm stbd, 240 mm up 1000 mm stbd, 640 mm up 1250 mm stbd, 640 mm up 450 mm stbd
  pickup P1   mouth at 25 mm off bottom
  vent
  fill
}`,
        },
    },
    {
        title: 'engine, generator, heater, exchanger', tables: [['consumer']],
        says: ['These are what the liquid is for. An `engine`, a `generator` and a `heater` burn fuel; an `exchanger` only warms or cools what runs through it. All take the same facts. Bleed points are listed in the maker\'s order; the last is where low pressure ends.'],
        example: {
            around: SPACES,
            shown: `engine E1 "main engine" in EngineBay {
  makes 21 kW at 3600 rpm
  burns 0.6 L/h at 850 rpm, 2.4 L/h at 2400 rpm, 6.25 L/h at 3600 rpm
  draws 5.3 L/h at 850 rpm, 15 L/h at 2400 rpm
  limits inlet 20 kPa   lift 900 mm   return 10 kPa
  injection in-line mechanical   holds 60 mL   inlet at 820 mm
  bleed BS3 "gallery"   at 820 mm   spanner 8 mm
  injectors 3   nuts 17 mm   at 900 mm
  exhaust wet   muffler free 2 L   raw water 25 L/min at 3600 rpm   cranks 200 rpm
}`,
        },
    },
    {
        title: 'bleed point', tables: [['bleed']],
        says: ['A `bleed` line in the block of a part or of an engine is a screw or a cock that lets air out. Outside of any block, `bleed` begins a [bleed sequence](#bleed-sequences).'],
        example: inCourse('filter F1 primary {\n  bleed BS1 "on the lid"   at 705 mm   spanner 10 mm\n}'),
    },
    {
        title: 'selector and position', tables: [['selector']],
        says: [
            'A `selector` is a valve with several ports, on which courses end. `ports` lists them. Each `position` says what it `joins`, or `joins nothing`. `joins port, out and stbd, spare` joins two pairs, each by itself.',
            '`turning` says what the plug passes between two positions. A return must not be blocked, not even on the way.',
        ],
        example: {
            around: ENDS,
            shown: `selector SV1 "supply" in EngineBay at 660 mm {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
  position OFF  joins nothing
  turning PORT to STBD passes OFF
}`,
        },
    },
];

/** What stands in the block of a course. */
export const PARTS: readonly Kind[] = [
    {
        title: 'hose and tube', tables: [['hose']],
        says: ['A `hose` bends; a `tube` is rigid. Both take the same facts. A hose that needs no name may have none.'],
        example: inCourse('hose S1       bore 8 mm   length 2.6 m   low at 560 mm   fire-resistant   dated 2021\ntube          bore 6 mm   length 0.6 m'),
    },
    {
        title: 'shutoff', tables: [['shutoff']], says: ['A `shutoff` is a valve that is open or shut and is worked by hand, unless it says otherwise.'],
        example: inCourse('shutoff V1    at 660 mm   in QuarterBerth   normally open   label "FUEL"'),
    },
    {
        title: 'check', tables: [['check']], says: ['A `check` valve passes one way only: downstream, unless it is `reversed`. It is not a shutoff.'],
        example: inCourse('check CV1     cracks 0.5 kPa'),
    },
    { title: 'tee', tables: [['tee']], says: ['At a `tee` another course may begin or end. That course names the tee as its end.'], example: inCourse('tee J1        at 660 mm') },
    {
        title: 'filter', tables: [['filter']], says: ['A `filter` may be written with its facts on its line, or in a block behind it.'],
        example: inCourse(`filter F1 primary {
  separates water   passes 10 um   rated 60 L/h   holds 450 mL
  ports at 660 mm   lid at 40 mm over ports   drain at 480 mm   plugged
  bleed BS1   at 45 mm over ports   spanner 10 mm
  seals lid ring, T-ring, drain washer
  prefill allowed
}`),
    },
    { title: 'strainer', tables: [['strainer']], says: ['A `strainer` keeps out coarse dirt and is cleaned, not renewed.'], example: inCourse('strainer ST1  holds 100 mL') },
    { title: 'gauge', tables: [['gauge']], says: ['A `gauge` stands in the line and reads its suction or its pressure.'], example: inCourse('gauge G1      vacuum   at 660 mm') },
    { title: 'radiator', tables: [['radiator']], says: ['A `radiator` is for heating water: liquid runs through it, and air stays at its top.'], example: inCourse('radiator RA1 "saloon" {\n  holds 3 L   ports at 700 mm\n  bleed BH1   at 1250 mm\n}') },
    { title: 'primer', tables: [['hand primer']], says: ['A `primer` is worked by hand: a bulb, or a plunger in the line.'], example: inCourse('primer PR1    at 640 mm   stroke 15 mL   lifts 900 mm   cracks 0.1 kPa   holds 20 mL') },
    {
        title: 'electric primer', tables: [['electric primer']], says: ['An `electric primer` is run to bleed, and not while the engine runs. The word `gives` may be left out: `electric primer EP1 30 L/h`.'],
        example: inCourse('electric primer EP1   30 L/h   momentary   lifts 900 mm   when off passes'),
    },
    { title: 'lift pump', tables: [['lift pump']], says: ['A `lift pump` is driven by the engine. Its hand lever, if it has one, is stated with `lever`.'], example: inCourse('lift pump LP1 at 620 mm   lever 3 mL   holds 25 mL') },
    { title: 'electric pump', tables: [['electric pump']], says: ['An `electric pump` runs with the engine, or moves liquid from tank to tank.'], example: inCourse('electric pump EP2   gives 60 L/h   lifts 900 mm   when off passes') },
    {
        title: 'split and leg', tables: [['split', 'Facts of a `split`'], ['leg', 'Facts of a `leg`']],
        says: ['A `split` parts the line into legs that come together again, such as a primer beside the main line. Each `leg` has a name and a block of parts. No tee need be written for it.'],
        example: inCourse('split {\n  leg main { check CV2   cracks 0.5 kPa }\n  leg bypass {\n    shutoff VB    normally shut\n    electric primer EP1   30 L/h   momentary\n  }\n}'),
    },
    {
        title: 'changeover', tables: [['changeover']],
        says: ['A `changeover` is one valve before and behind its legs, as of two filters side by side. Each `position` says which legs it leads `through`; `turning` says what it passes on the way.'],
        example: inCourse('changeover CH1 at 660 mm {\n  leg A { filter FA primary }\n  leg B { filter FB primary }\n  position A    through A\n  position B    through B\n  position BOTH through A, B\n  turning passes BOTH\n}'),
    },
];
