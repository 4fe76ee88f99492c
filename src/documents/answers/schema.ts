/** The form of what `orlop ask --json` prints, as JSON Schema (draft 2020-12). A field may be added; none changes its meaning. */
import { DRAFT, always, flag, id, list, number, object, one, text, type Schema } from '../json-schema';

const setting = object({ part: id, position: text });
const set = object({ settings: list(setting), blocks: list(id) }, 'Valves to set together, and the consumers whose return they block.');
const held = object({ parts: list(id), litres: number('Of the parts whose content is known.'), notKnownOf: list(id) });
const opened = object({
    outcome: one('floods', 'level', 'falls back', 'stays', 'shut off', 'cannot tell'), 'litres?': number('What would come if nobody stopped it.'),
    tanks: list(object({
        tank: id, fitting: id, through: list(id), outcome: one('floods', 'level', 'below', 'dry', 'cannot tell'), 'headMm?': number('What drives it: positive out of the opening, mm of the liquid.'),
        'siphon?': flag, 'litres?': number('What would come of it if nobody stopped it.'), 'litresPerMinute?': number('At first, at most.'),
    })),
    runsOut: held, fallsBack: held,
});
const never: Schema = { const: 'never' };
const limit = object({
    tank: id, 'litres?': { anyOf: [number('It floods with more than this in the tank.'), never] },
    'degreesPort?': { anyOf: [number('It floods when heeled further than this to port; 0 when even upright.'), never] }, 'degreesStbd?': { anyOf: [number('The same to starboard.'), never] },
});
const amount = object({ part: id, 'litres?': number('What it holds.') });
const attitude = { ...text, description: 'How she lies, in words.' };
const poured = object({
    from: list(object({ tank: id, fitting: id, end: one('in', 'out'), 'stop?': object({ valve: id, position: text }) })), pushedBy: list(id),
    'litresIn150s?': number('At most, without `orMore`.'), 'litresPerMinute?': number('At most, without `orMore`.'), 'attitude?': attitude, 'litresInAll?': number('At most, if nobody stops it, without `orMore`.'),
    'orMore?': { const: true, description: 'Places are not known: the figures bound nothing, and a tank may empty itself.' },
});
const atAttitude = (litres: Schema): Schema => list(object({ attitude, litres }));

/** What each kind of question adds. */
const KINDS: Readonly<Record<string, Readonly<Record<string, Schema>>>> = {
    isolate: { part: id, lineUp: id, sources: list(id), already: flag, sets: list(set), more: number('So many more of the same size.'), alternatives: list(set), ifChecksHold: list(set), cannot: list(object({ from: id, by: list(id) })), floodsFrom: list(id) },
    open: { part: id, lineUp: id, levels: list(object({ tank: id, litres: number('In the tank, as asked or as full as it is ever used.') })), openings: list(object({ opening: text, cases: list(object({ attitude, heel: number('Degrees, starboard down positive.'), trim: number('Degrees, bow up positive.'), checksTight: opened, checksWorn: opened })), thresholds: list(limit) })) },
    air: { after: list(id), ranDry: flag, lineUp: id, air: list(amount), mayHoldAir: list(amount), crests: list(id), consumers: list(id) },
    paths: { way: one('to', 'from'), consumer: id, lineUp: id, tanks: list(id), parts: list(id), 'singlePoints?': list(id) },
    reach: { vents: list(object({ vent: id, outlet: id, 'underAt?': { anyOf: [number('Heel in degrees, to port negative.'), never] }, 'crestUnderAt?': { anyOf: [number('Heel in degrees, to port negative.'), never] } })), pickups: list(object({ tank: id, pickup: id, feeds: list(id), least: atAttitude({ anyOf: [number('The least that keeps it in the liquid.'), { type: 'null' }] }) })) },
    severed: { line: id, lineUp: id, cases: list(object({ state: one('stopped', 'running'), checksTight: poured, checksWorn: poured })), stops: list(text) },
    sounding: { tank: id, rows: list(object({ dipMm: number('From the bottom, along the boat\'s own vertical.'), litres: atAttitude(number('In the tank.')) })) },
};

const common = {
    boat: text, question: text, standing: text, text: list(text),
    used: list(object({ about: id, 'fact?': text, words: text, 'grade?': one('measured', 'touched', 'seen', 'inferred', 'told', 'unreached'), guess: flag })),
    defaults: list(text), missing: list(object({ about: id, fact: text, how: text })),
};

export const ANSWER_SCHEMA: Schema = {
    $schema: DRAFT, title: 'An answer of Orlop', description: 'What `orlop ask --json` prints. Volumes in litres, heights in millimetres, angles in degrees.',
    oneOf: Object.entries(KINDS).map(([ask, fields]) => object({ ask: always(ask), ...common, ...fields })),
};
