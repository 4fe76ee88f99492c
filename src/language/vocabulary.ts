/**
 * What the words of a line mean. One table a kind of part: each fact with its words, what follows them, and one
 * sentence for hover, completion and the reference. The reader in facts.ts, the messages about misspelt words and
 * the editor all work from these tables, so a new fact is a new line here.
 */
import type { Dimension } from '../model/units';

/** What follows the words of a fact. */
export type Form =
    /** one quantity */
    | { readonly is: 'quantity'; readonly of: Dimension }
    /** quantities at speeds: 0.6 L/h at 850 rpm, 2.4 L/h at 2400 rpm */
    | { readonly is: 'curve'; readonly of: Dimension; readonly at: Dimension }
    /** three lengths: 800 x 600 x 420 mm */
    | { readonly is: 'sizes' }
    /** points of a section, parted by commas: 200 mm up 550 mm stbd, 620 mm up 550 mm stbd */
    | { readonly is: 'corners' }
    /** `at` and a height or a point */
    | { readonly is: 'place' }
    | { readonly is: 'flag' }
    | { readonly is: 'choice'; readonly of: readonly string[] }
    | { readonly is: 'text' }
    | { readonly is: 'name' }
    | { readonly is: 'year' }
    | { readonly is: 'count' }
    /** words in pieces, parted by commas: lid ring, T-ring */
    | { readonly is: 'pieces' }
    /** nothing of its own: the words after it belong to it */
    | { readonly is: 'heading' }
    /** what tags get behind them: -S */
    | { readonly is: 'suffix' }
    /** the rest of the line, read elsewhere */
    | { readonly is: 'rest' };

export interface FactWord {
    /** As written; the key under which the reader keeps it. */
    readonly words: string;
    readonly form: Form;
    readonly doc: string;
    /** For a quantity: the SI range outside which a slip is likely. Common practice, from memory. */
    readonly usual?: readonly [number, number];
    /** For a quantity that cannot be negative or zero. */
    readonly positive?: true;
    /** What may follow the words, as it is written. */
    readonly example?: string;
    /** Facts that this one takes the place of: a filter is primary or final, not both. */
    readonly instead?: readonly string[];
    /** The rest of the line is about this word too: `limits inlet 20 kPa lift 900 mm`. */
    readonly heads?: true;
    /** Completes the fact before it and is written close to it: tested 25 kPa on 2019. */
    readonly close?: true;
}

/** Of several flags one holds. */
const oneOf = (flags: readonly FactWord[]): FactWord[] => flags.map((flag) => ({ ...flag, instead: flags.filter((other) => other !== flag).map(({ words }) => words) }));

const quantity = (words: string, of: Dimension, doc: string, usual?: readonly [number, number], example?: string): FactWord => ({
    words, form: { is: 'quantity', of }, doc, positive: true, ...(usual && { usual }), ...(example && { example }),
});
const place = (words: string, doc: string, example = '660 mm'): FactWord => ({ words, form: { is: 'place' }, doc, example: /(^| )at$/.test(words) ? example : `at ${example}` });
const flag = (words: string, doc: string): FactWord => ({ words, form: { is: 'flag' }, doc });
const choice = (words: string, of: readonly string[], doc: string): FactWord => ({ words, form: { is: 'choice', of }, doc });
const text = (words: string, doc: string, example?: string): FactWord => ({ words, form: { is: 'text' }, doc, ...(example && { example }) });
const name = (words: string, doc: string, example?: string): FactWord => ({ words, form: { is: 'name' }, doc, ...(example && { example }) });
const year = (words: string, doc: string): FactWord => ({ words, form: { is: 'year' }, doc });
const count = (words: string, doc: string): FactWord => ({ words, form: { is: 'count' }, doc });
const pieces = (words: string, doc: string): FactWord => ({ words, form: { is: 'pieces' }, doc });
const heading = (words: string, doc: string): FactWord => ({ words, form: { is: 'heading' }, doc, heads: true });
const curve = (words: string, of: Dimension, at: Dimension, doc: string, example?: string): FactWord => ({ words, form: { is: 'curve', of, at }, doc, positive: true, ...(example && { example }) });

const mm = (low: number, high: number): readonly [number, number] => [low / 1e3, high / 1e3];
const mL = (low: number, high: number): readonly [number, number] => [low / 1e6, high / 1e6];
const Lh = (low: number, high: number): readonly [number, number] => [low / 3.6e6, high / 3.6e6];
const kPa = (low: number, high: number): readonly [number, number] => [low * 1e3, high * 1e3];

const AT: FactWord = { ...place('at', 'Where it is: a height above the datum, or a point up, fwd or aft, stbd or port. For a part with ports, the height of its ports.'), instead: ['ports', 'top'] };
/** The same as `at`, said of the ports. */
const PORTS: FactWord = { ...place('ports', 'Height of its ports.'), instead: ['at'] };
const IN = name('in', 'The space that it stands in.');
const LABEL = text('label', 'What is engraved or written on it.');
const DATED = year('dated', 'The year marked on it.');
const PORT_BORE = quantity('bore', 'length', 'The smallest inside diameter on the way through it.', mm(1.5, 80));
const PUSHES = quantity('pushes', 'pressure', 'The greatest pressure that it makes, against a shut line.', kPa(1, 1000), '35 kPa');
const STANDS = quantity('stands', 'pressure', 'The greatest pressure that it may have inside, by its maker.', kPa(1, 2000), '70 kPa');
const HOLDS = quantity('holds', 'volume', 'The liquid that it holds, net.', mL(1, 50_000));
const REVERSED = flag('reversed', 'Turned end for end: its arrow points against the course it stands in.');
const CRACKS = quantity('cracks', 'pressure', 'The pressure at which its check opens.', kPa(0.01, 60), '0.5 kPa');
const TURNING: FactWord = { words: 'turning', form: { is: 'rest' }, doc: 'What the plug passes between two positions: turning PORT to STBD passes OFF.', example: 'PORT to STBD passes OFF' };
const METAL = flag('metal', 'Its body is metal.');
const NOTE = text('note', 'A remark for people; nothing is computed from it.', '"stiff in cold weather"');
const LIKE = name('like', 'A pattern, or another thing of the same kind, whose facts are taken where none are said here.', 'Primary60');
const MIRRORED = flag('mirrored', 'What is taken over has port and starboard swapped.');
const COMMON = [AT, IN, LABEL, NOTE, LIKE, MIRRORED];

const PIPE: readonly FactWord[] = [
    ...COMMON, DATED,
    quantity('bore', 'length', 'Inside diameter.', mm(1.5, 80)),
    quantity('length', 'length', 'Length along the line.', mm(20, 30_000), '2.6 m'),
    place('low', 'The lowest point of its run.', '560 mm'),
    place('crest', 'The highest point of its run, where air stays.', '760 mm'),
    place('outlet', 'The open end of a vent.', '1500 mm up, 1500 mm stbd'),
    place('plate', 'The deck plate of a fill.', '1420 mm up'),
    flag('fire-resistant', 'Marked as a fire-resistant type.'),
];

/** Facts by kind. Keys are the kinds as lowering names them. */
export const FACTS: Readonly<Record<string, readonly FactWord[]>> = {
    vessel: [
        quantity('length', 'length', 'Length of the hull.', [2, 60], '10.8 m'),
        text('heights from', 'The datum: the one level from which all heights are measured.', '"inside of hull at the engine bay"'),
        place('waterline', 'Height of the waterline above the datum.', '520 mm'),
        heading('envelope', 'The limits within which the boat must work.'),
        quantity('envelope heel', 'angle', 'Greatest heel, either way.', [0, Math.PI / 3]),
        quantity('envelope trim', 'angle', 'Greatest trim, bow up or down.', [0, Math.PI / 6], '3 deg'),
        quantity('envelope level', 'ratio', 'Tank level from and to, of the gross volume.', [0, 1], '5 to 95 %'),
        quantity('envelope fuel', 'temperature', 'Fuel temperature from and to.', [233, 353], '5 to 45 degC'),
        quantity('survival heel', 'angle', 'Heel at which vents must still be dry.', [0, Math.PI / 2], '45 deg'),
        curve('speed', 'speed', 'rotation', 'Speed through the water.', '5.5 kn at 2400 rpm'),
        quantity('reserve', 'ratio', 'The share of what can be used that is kept back on every passage.', [0.05, 0.6], '20 %'),
        choice('runs on', ['summer diesel', 'winter diesel', 'renewable diesel', 'biodiesel blend'], 'The grade of fuel that she burns.'),
        heading('fuel', 'What is known of the fuel itself, from its certificate or a sample.'),
        quantity('fuel density', 'density', 'Its density at 15 degC.', [700, 1000], '836 kg/m3'),
        curve('fuel viscosity', 'viscosity', 'temperature', 'Its viscosity at a temperature; at two, it is known at all.', '3.1 mm2/s at 40 degC'),
        quantity('fuel dirt', 'ratio', 'What it carries in solid particles.', [1e-7, 1e-3], '24 mg/kg'),
        text('fuel cleanliness', 'Its code by ISO 4406, particles of 4, 6 and 14 um.', '"18/16/13"'),
        choice('answers to', ['us-small-passenger', 'us-small-passenger as guidance'], 'The rules that the boat is judged by; nothing is ever said to comply.'),
        NOTE,
    ],
    space: [flag('machinery', 'The space holds an engine.'), NOTE],
    tank: [
        IN, LABEL, NOTE, LIKE, MIRRORED,
        choice('carries', ['diesel', 'coolant', 'heating water', 'raw water'], 'What is in it; decides which rules apply.'),
        { words: 'box', form: { is: 'sizes' }, doc: 'Inside length, breadth and height of a box tank.', example: '800 x 600 x 420 mm' },
        place('low aft inner corner', 'The corner of a box tank that is lowest, furthest aft and nearest the centreline.', '200 mm up, 2200 mm fwd, 550 mm stbd'),
        quantity('aluminium', 'length', 'Aluminium of this thickness.', mm(0.5, 20), '5 mm'), quantity('steel', 'length', 'Steel of this thickness.', mm(0.5, 20), '3 mm'),
        quantity('stainless', 'length', 'Stainless steel of this thickness.', mm(0.5, 20), '2 mm'), flag('plastic', 'Made of plastic.'),
        quantity('tested', 'pressure', 'The pressure that it was tested at.', kPa(5, 200)), { ...year('on', 'The year of the test.'), close: true },
        flag('sender', 'Has a level sender.'), quantity('inspection', 'length', 'Diameter of the inspection opening.', mm(50, 800), '150 mm'), DATED,
    ],
    fitting: [
        AT, NOTE, quantity('bore', 'length', 'Inside diameter of its tube.', mm(3, 80)),
        place('mouth', 'The open end inside the tank.', '25 mm off bottom'), { ...place('top', 'Where it leaves the tank.', '650 mm up'), instead: ['at'] },
        choice('ends', ['at the top', 'into the tank'], 'For a fill: where its pipe ends.'),
        flag('under pressure', 'For a fill: the tank is filled under pressure.'),
        quantity('takes', 'flow', 'For a fill: how fast the tank is filled.', Lh(60, 120_000), '45 L/min'),
    ],
    section: [
        place('at', 'How far forward of the transom the section is taken.', '2200 mm fwd'),
        { words: 'corners', form: { is: 'corners' }, doc: 'The corners of the inside, in order round the section, each with its height and its place across. All sections of a tank begin at the same corner and go round the same way.', example: '200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd, 620 mm up 550 mm stbd' },
        NOTE,
    ],
    consumer: [
        IN, LABEL, NOTE, LIKE, MIRRORED, count('cylinders', 'Number of cylinders.'),
        curve('makes', 'power', 'rotation', 'Rated power at a speed.'),
        curve('burns', 'flow', 'rotation', 'Fuel burnt at each speed.', '0.6 L/h at 850 rpm, 2.4 L/h at 2400 rpm'),
        curve('draws', 'flow', 'rotation', 'Gross flow at each speed: what the filters see.'),
        heading('limits', 'The maker\'s limits.'),
        quantity('limits inlet', 'pressure', 'Greatest suction at its inlet, with dirty filters.', kPa(1, 100)),
        quantity('limits clean', 'pressure', 'Greatest suction at its inlet with new elements.', kPa(1, 100), '10 kPa'),
        quantity('limits head', 'pressure', 'Greatest pressure at its inlet while it is stopped.', kPa(1, 200), '20 kPa'),
        quantity('limits fuel', 'temperature', 'Greatest temperature of the fuel that it draws.', [293, 373], '60 degC'),
        quantity('limits lift', 'length', 'Greatest static lift.', mm(100, 5000), '900 mm'),
        quantity('limits return', 'pressure', 'Greatest back-pressure in its return.', kPa(1, 200), '10 kPa'),
        curve('returns', 'temperature', 'temperature', 'How warm its return is, at a temperature of what it draws.', '55 degC at 40 degC'),
        heading('injection', 'The injection pump: in-line, rotary, unit or common-rail; mechanical or electronic.'),
        ...oneOf([
            flag('injection in-line', 'In-line injection pump.'), flag('injection rotary', 'Rotary (distributor) injection pump.'),
            flag('injection unit', 'Unit injectors.'), flag('injection common-rail', 'Common rail: high-pressure unions are never opened.'),
        ]),
        ...oneOf([flag('injection mechanical', 'Governed mechanically.'), flag('injection electronic', 'Governed electronically.')]),
        quantity('injection holds', 'volume', 'The low-pressure gallery of the injection pump.', mL(1, 5000), '60 mL'),
        place('injection inlet', 'Where fuel enters the injection pump.', '820 mm'),
        HOLDS, place('inlet', 'Where liquid enters.', '820 mm'),
        { ...count('injectors', 'How many injectors.'), heads: true }, quantity('injectors nuts', 'length', 'Spanner size of their union nuts.', mm(5, 40), '17 mm'),
        place('injectors at', 'Their height.', '900 mm'),
        quantity('injectors pipe bore', 'length', 'Bore of the injector pipes.', mm(0.5, 6), '2 mm'), quantity('injectors pipe length', 'length', 'Length of an injector pipe.', mm(50, 3000), '450 mm'),
        heading('exhaust', 'Wet (water-injected) or dry.'),
        ...oneOf([flag('exhaust wet', 'Sea water is injected into the exhaust.'), flag('exhaust dry', 'No water in the exhaust.')]),
        quantity('exhaust muffler free', 'volume', 'Room in the muffler above the water that rests in it.', mL(200, 100_000), '2 L'),
        { ...curve('exhaust raw water', 'flow', 'rotation', 'Flow of the raw-water pump at a speed.', '25 L/min at 3600 rpm'), usual: Lh(60, 120_000) },
        quantity('exhaust cranks', 'rotation', 'Cranking speed.', [0.5, 10], '200 rpm'),
        flag('self-bleeding', 'Clears small air by itself through its return.'),
        flag('loses prime', 'Found to start hard after a night: its supply has lost fuel, and air has come in.'),
        choice('backflow', ['passes', 'blocks'], 'Whether liquid can come back through it from its return while it is stopped; the overflow of many injection pumps has a check.'),
    ],
    bleed: [AT, NOTE, quantity('spanner', 'length', 'Spanner that fits the bleed screw.', mm(4, 40))],
    selector: [...COMMON, HOLDS, PORT_BORE, name('ganged with', 'Turns together with this one.', 'SV2'), METAL, TURNING],
    position: [],
    course: [NOTE, MIRRORED, { words: 'tags', form: { is: 'suffix' }, doc: 'What every tag of the pattern gets behind it.', example: '-S' }],
    pattern: [NOTE],
    leg: [NOTE],
    split: [NOTE],
    changeover: [IN, AT, LABEL, NOTE, HOLDS, PORT_BORE, TURNING],
    hose: PIPE, tube: PIPE,
    shutoff: [
        ...COMMON, METAL, quantity('bore', 'length', 'Inside diameter.', mm(3, 80)), choice('normally', ['open', 'shut'], 'Its position when nothing else is said.'),
        flag('locked open', 'Cannot be shut by hand without a tool or key.'), flag('solenoid', 'Worked by electricity; not counted as a manual shutoff.'), DATED,
    ],
    check: [...COMMON, PORT_BORE, CRACKS, REVERSED, DATED],
    tee: [...COMMON, PORT_BORE],
    gauge: [...COMMON, ...oneOf([flag('vacuum', 'Reads suction.'), flag('pressure', 'Reads pressure.')])],
    strainer: [...COMMON, HOLDS, PORT_BORE, REVERSED],
    radiator: [...COMMON, HOLDS, PORTS],
    filter: [
        ...COMMON, HOLDS, REVERSED, METAL, ...oneOf([flag('primary', 'The first filter, on the tank side.'), flag('final', 'The last filter before injection.')]),
        flag('separates water', 'Separates water and can be drained.'),
        quantity('passes', 'length', 'The size of particle that still passes.', [1e-6, 5e-4], '10 um'),
        quantity('rated', 'flow', 'Rated flow.', Lh(1, 3000), '60 L/h'), PORT_BORE, STANDS,
        quantity('clean', 'pressure', 'What a new element takes at the rated flow.', kPa(0.02, 30), '1.5 kPa'),
        quantity('dirty', 'pressure', 'What the element takes when it is to be renewed, at the flow that it then has.', kPa(0.5, 100), '12 kPa'),
        quantity('dirt', 'mass', 'The dirt that the element holds until then.', [0.5e-3, 2], '30 g'),
        count('beta', 'Of particles as large as `passes`, how many come for one that goes through (ISO 16889, ISO 19438).'), quantity('bowl', 'volume', 'Volume of the bowl.', mL(1, 5000)),
        flag('metal shield', 'Its bowl has a metal shield.'),
        PORTS, place('lid', 'Height of its lid.', '40 mm over ports'), place('drain', 'Height of its drain.', '480 mm'),
        flag('plugged', 'Its drain has a cap or plug.'),
        pieces('seals', 'Every seal that is renewed with the element, by position.'),
        choice('prefill', ['allowed', 'not on the clean side', 'forbidden'], 'Whether it may be filled by hand before it is closed.'),
    ],
    'hand primer': [
        ...COMMON, HOLDS, PORT_BORE, PUSHES, STANDS, CRACKS, REVERSED, METAL, quantity('stroke', 'volume', 'What one full stroke moves.', mL(0.5, 150), '15 mL'),
        quantity('lifts', 'length', 'How high it lifts fuel when dry.', mm(100, 6000), '900 mm'), DATED,
    ],
    'electric primer': [
        ...COMMON, HOLDS, PORT_BORE, PUSHES, STANDS, REVERSED, METAL, { ...quantity('gives', 'flow', 'What it moves.', Lh(1, 3000)), example: '30 L/h' },
        flag('momentary', 'Runs only while the button is held.'), quantity('lifts', 'length', 'How high it lifts fuel when dry.', mm(100, 6000), '900 mm'),
        choice('when off', ['passes', 'blocks'], 'Whether liquid passes it when it does not run.'),
    ],
    'lift pump': [...COMMON, HOLDS, PORT_BORE, PUSHES, STANDS, REVERSED, quantity('lever', 'volume', 'What one full stroke of its hand lever moves.', mL(0.2, 30), '3 mL'), DATED],
    'electric pump': [
        ...COMMON, HOLDS, PORT_BORE, PUSHES, STANDS, REVERSED, quantity('gives', 'flow', 'What it moves.', Lh(1, 3000)), quantity('lifts', 'length', 'How high it lifts when dry.', mm(100, 6000), '900 mm'),
        choice('when off', ['passes', 'blocks'], 'Whether liquid passes it when it does not run.'),
    ],
};

/** One length of a place. */
export const lengthOf = ({ words }: FactWord): FactWord => ({ words, form: { is: 'quantity', of: 'length' }, doc: '', usual: [-10, 60], example: '660 mm' });

/** What a point of a curve is at: the speed of an engine, or the temperature of the fuel. */
export const behindAt = (of: Dimension): FactWord => ({ words: 'at', form: { is: 'quantity', of }, doc: '', positive: true, usual: of === 'rotation' ? [1, 200] : [233, 423] });

/** Words that trail a fact and say how well it is known. */
export const MARKS: Readonly<Record<string, string>> = {
    measured: 'Measured or tested.', touched: 'Seen and touched.', seen: 'Seen, or on a photograph.', inferred: 'Concluded from the ends.',
    told: 'Said by someone or by a document only.', unreached: 'Could not be reached.', unknown: 'Not known; goes to the facts to measure.',
    about: 'Not exact.', photo: 'The photograph that shows it.', by: 'Who said so.',
};

/** The words that begin a part in a course. */
export const COURSE_WORDS = ['hose', 'tube', 'shutoff', 'check', 'tee', 'filter', 'strainer', 'gauge', 'radiator', 'primer', 'lift pump', 'electric pump', 'split', 'changeover'];

/** What may stand behind `each`, and the kind that it means: the words that begin a thing of that kind. */
export const EACH_KINDS: Readonly<Record<string, string>> = {
    ...Object.fromEntries(['tank', 'engine', 'generator', 'heater', 'exchanger', 'selector', ...COURSE_WORDS.filter((word) => word !== 'split' && word !== 'primer'), 'electric primer'].map((kind) => [kind, kind])),
    primer: 'hand primer',
};

/** Where a line with this word stands, for messages about one that stands elsewhere. */
export function whereItStands(word: string): string | undefined {
    if (COURSE_WORDS.includes(word) || ['pump', 'lift', 'electric'].includes(word)) return 'in a course';
    if (['pickup', 'drop', 'vent', 'fill', 'section'].includes(word)) return 'in the block of a `tank`';
    if (word === 'bleed') return 'in the block of an engine or of a part'; // a bleed point
    if (word === 'leg') return 'in a `split` or a `changeover`';
    if (word === 'position') return 'in a `selector` or a `changeover`';
    if (word === 'ports') return 'in a `selector`';
    if (word === 'space') return 'in the block of the `vessel`';
    return undefined;
}

/** The words of a direction: along which axis, and which way. */
export const DIRECTIONS: Readonly<Record<string, readonly ['up' | 'fwd' | 'stbd', 1 | -1]>> = {
    up: ['up', 1], fwd: ['fwd', 1], aft: ['fwd', -1], stbd: ['stbd', 1], port: ['stbd', -1],
};
/** What a height may be measured from. */
export const ANCHORS= ['bottom', 'ports', 'lid', 'drain', 'inlet', 'outlet'] as const;

/** What the trade also says, and the word that Orlop uses for it. */
const SYNONYMS: Readonly<Record<string, string>> = {
    valve: 'shutoff', cock: 'shutoff', seacock: 'shutoff', pipe: 'tube', line: 'hose', piping: 'tube', separator: 'filter', prefilter: 'filter',
    nonreturn: 'check', 'non-return': 'check', bulb: 'primer', diameter: 'bore', id: 'bore', size: 'bore', height: 'at', capacity: 'holds',
    volume: 'holds', micron: 'passes', dip: 'pickup', suction: 'pickup', breather: 'vent', filler: 'fill', motor: 'engine', genset: 'generator',
    boat: 'vessel', ship: 'vessel', duplex: 'changeover', closed: 'shut', close: 'shut', opened: 'open', manifold: 'tee', junction: 'tee', schedule: 'tend', interval: 'tend', lineup: 'line-up', highest: 'crest', lowest: 'low',
};

/** Of these, a thing is one alone. */
export const EITHER: readonly (readonly string[])[] = [
    ['primary', 'final'], ['exhaust wet', 'exhaust dry'], ['injection in-line', 'injection rotary', 'injection unit', 'injection common-rail'],
    ['injection mechanical', 'injection electronic'],
];

export const synonym = (word: string): string | undefined => (Object.hasOwn(SYNONYMS, word) ? SYNONYMS[word] : undefined);

/** The nearest of `candidates` to `word`, when it is near enough to be a slip of the hand. */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
    let best: string | undefined;
    // In a name of two or three signs one wrong sign is another name, unless only the case differs.
    let least = word.length <= 3 && /\d/.test(word) ? 0.5 : Math.max(1, Math.floor(word.length / 3)) + 0.5;
    for (const candidate of candidates) {
        if (Math.abs(candidate.length - word.length) > least) continue;
        // Of two as far away, the hand more likely kept the first letter and the length.
        const distance = editDistance(word.toLowerCase(), candidate.toLowerCase()) - (candidate[0]?.toLowerCase() === word[0]?.toLowerCase() ? 0.2 : 0) - (candidate.length === word.length ? 0.1 : 0);
        // Of two as near, the same is always chosen.
        if (distance < least || (distance === least && best !== undefined && candidate < best)) { best = candidate; least = distance; }
    }
    return best;
}

/** Edits to turn `a` into `b`, a swap of two neighbours counting as one. */
function editDistance(a: string, b: string): number {
    const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
    for (let i = 1; i <= a.length; i++) {
        const row = [i];
        for (let j = 1; j <= b.length; j++) {
            const changed = a[i - 1] === b[j - 1] ? 0 : 1;
            let cost = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + changed);
            if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, rows[i - 2]![j - 2]! + 1);
            row.push(cost);
        }
        rows.push(row);
    }
    return rows[a.length]![b.length]!;
}
