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

const pressureFields = (says: string): Readonly<Record<string, Schema>> => ({ kPa: number(says), inHg: number('The same.') });
const bandFields = (says: string): Readonly<Record<string, Schema>> => ({ ...pressureFields(says), leastKPa: number('As little as it may be by what is only guessed.'), mostKPa: number('As much as it may be.') });
const [ABOVE, AGAINST] = ['Above the surroundings; suction is negative.', 'To be drawn or pushed against; below nothing where it helps.'];
const [pressure, against, band] = [object(pressureFields(ABOVE)), object(pressureFields(AGAINST)), object(bandFields(AGAINST))];
const is = one('suction', 'pressure', 'none');
const shown = object({ ...bandFields(ABOVE), is });
const reading = object({
    'litresPerHour?': number('Through the part, downstream positive.'), 'metresPerSecond?': number('In its narrowest pipe.'), 'reynolds?': number('In its narrowest pipe.'), 'regime?': one('at rest', 'laminar', 'between laminar and turbulent', 'turbulent'),
    'kPa?': number('Above the surroundings; suction is negative. Absent where nothing settles it.'), 'inHg?': number('The same.'), 'is?': is,
});
const speed: Schema = { anyOf: [always('full'), number('Of the engines, rpm.')] };
const elements = one('clean', 'dirty');
const by = one('dry pickup', 'suction');

const lasts = object({ hours: number('As is likely.'), leastHours: number('By the guesses.'), mostHours: number('By the guesses.') });
const when = object({ soonestHours: number('No sooner.'), 'hours?': number('As is likely; absent where it may never come.'), 'latestHours?': number('No later; absent where it may never come.') });
const drawn = object({ by: id, 'litresPerHour?': number('Out of the tank or into it.'), shared: flag });

/** What each kind of question adds. */
const KINDS: Readonly<Record<string, Readonly<Record<string, Schema>>>> = {
    isolate: { part: id, lineUp: id, sources: list(id), already: flag, sets: list(set), more: number('So many more of the same size.'), alternatives: list(set), ifChecksHold: list(set), cannot: list(object({ from: id, by: list(id) })), floodsFrom: list(id) },
    open: { part: id, lineUp: id, levels: list(object({ tank: id, litres: number('In the tank, as asked or as full as it is ever used.') })), openings: list(object({ opening: text, cases: list(object({ attitude, heel: number('Degrees, starboard down positive.'), trim: number('Degrees, bow up positive.'), checksTight: opened, checksWorn: opened })), thresholds: list(limit) })) },
    air: { after: list(id), ranDry: flag, lineUp: id, air: list(amount), mayHoldAir: list(amount), crests: list(id), consumers: list(id) },
    paths: { way: one('to', 'from'), consumer: id, lineUp: id, tanks: list(id), parts: list(id), 'singlePoints?': list(id) },
    reach: { vents: list(object({ vent: id, outlet: id, 'underAt?': { anyOf: [number('Heel in degrees, to port negative.'), never] }, 'crestUnderAt?': { anyOf: [number('Heel in degrees, to port negative.'), never] } })), pickups: list(object({ tank: id, pickup: id, feeds: list(id), least: atAttitude({ anyOf: [number('The least that keeps it in the liquid.'), { type: 'null' }] }) })) },
    severed: { line: id, lineUp: id, cases: list(object({ state: one('stopped', 'running'), checksTight: poured, checksWorn: poured })), stops: list(text) },
    sounding: { tank: id, rows: list(object({ dipMm: number('From the bottom, along the boat\'s own vertical.'), litres: atAttitude(number('In the tank.')) })) },
    flow: {
        'part?': id, 'to?': id, 'from?': id, lineUp: id, speed, elements, status: one('settled', 'not settled', 'cannot flow', 'unusable'),
        liquids: list(object({ carries: text, densityKgPerM3: number('As cold as she uses it.'), viscosityMm2PerS: number('Kinematic.') })),
        strands: list(object({ of: text, ports: list(object({ port: text, part: id, running: reading, stopped: reading })) })),
        'leftOver?': object({ litresPerHour: number('The most that is left over at a point, or of all flows.'), headMm: number('The most by which the heads of a part differ from what it takes.') }),
    },
    gauge: {
        gauge: id, lineUp: id, speed, 'clean?': shown, 'dirty?': shown, 'actAt?': list(pressure), limits: list(object({ consumer: id, limitKPa: number('Suction at its inlet.'), reachedAt: pressure })),
        logged: list(object({ date: text, ...pressureFields(ABOVE), 'rpm?': number('Of the engine.') })),
    },
    suction: {
        consumer: id, speed, elements, 'lineUp?': id, 'attitude?': attitude, 'at?': { ...text, description: 'The port at which it is measured.' }, 'litresPerHour?': number('What it draws.'), 'total?': band, 'clean?': band, 'dirty?': band,
        budget: list(object({ 'part?': id, of: one('height', 'friction', 'element', 'check'), ...pressureFields(AGAINST) })), 'limitDirtyKPa?': number('The maker\'s.'), 'limitCleanKPa?': number('The maker\'s, with new elements.'),
        bores: list(object({ part: id, fromMm: number('Its bore.'), toMm: number('The next nominal one.'), gainKPa: number('So much less to draw against.'), worth: flag })),
    },
    'back-pressure': {
        consumer: id, 'lineUp?': id, 'attitude?': attitude, 'speed?': speed, 'litresPerHour?': number('What it returns.'), 'total?': band, 'height?': against, 'friction?': against, 'checks?': against, 'over?': id, 'tank?': id, 'limitKPa?': number('The maker\'s.'),
    },
    starve: {
        lineUp: id, speed, elements, first: list(object({ consumer: id, tank: id, by, attitude, litres: number('It starves with less in the tank.'), percent: number('Of the gross volume.'), suctionAtMouthKPa: number('With the surface just at the mouth.'), 'marginAtMouthKPa?': number('The limit less that.') })),
        ways: list(object({ attitude, first: list(object({ consumer: id, tank: id, by, litres: number('It starves with less in the tank.') })) })), cannotTell: list(id),
    },
    endurance: {
        reservePercent: number('Of what can be used.'), usableLitres: number('Upright, down to the mouths.'), tanks: list(object({ tank: id, litres: number('In it.'), usableLitres: number('Upright.') })), astray: list(id),
        speeds: list(object({ speed, 'all?': lasts, 'engines?': lasts, 'knots?': number('As stated at that speed.'), 'miles?': object({ miles: number('Nautical.'), leastMiles: number('By the guesses.'), mostMiles: number('By the guesses.') }) })),
    },
    overflow: {
        lineUp: id, speed,
        tanks: list(object({ tank: id, 'litres?': number('In it to begin with.'), gives: list(drawn), takes: list(drawn), netLitresPerHour: number('How fast it rises; below nothing when it falls. Of what is known.'), joined: list(id), 'to95?': when, 'overflows?': when, pickups: list(object({ pickup: id, 'dryBelowLitres?': number('As she lies.'), 'dry?': when })) })),
    },
};

const common = {
    boat: text, question: text, standing: text, text: list(text),
    used: list(object({ about: id, 'fact?': text, words: text, 'grade?': one('measured', 'touched', 'seen', 'inferred', 'told', 'unreached'), guess: flag })),
    defaults: list(text), missing: list(object({ about: id, fact: text, how: text })),
};

export const ANSWER_SCHEMA: Schema = {
    $schema: DRAFT, title: 'An answer of Orlop', description: 'What `orlop ask --json` prints. Volumes in litres, heights in millimetres, angles in degrees, pressures in kPa and inHg.',
    oneOf: Object.entries(KINDS).map(([ask, fields]) => object({ ask: always(ask), ...common, ...fields })),
};
