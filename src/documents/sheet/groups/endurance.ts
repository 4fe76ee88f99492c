/** How long her fuel lasts and how far it takes her, down to the reserve; and what each passage needs of it. */
import type { Consumer, Id, Passage } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { exactly, sound, times, type Estimate } from '../../../analysis/estimate';
import { enduranceOf, firstShort, usuallyRunning, type Endurance, type Group } from '../../../analysis/time/endurance';
import { passageFuel } from '../../../analysis/time/passage';
import { reserveOf, type Stored } from '../../../analysis/time/store';
import type { View } from '../../../checks/check';
import { burnsMissing, distinct } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { fromSI } from '../../../model/units';
import { figure, listed } from '../../../model/words';
import { byName, carried, input, within, type From, type Input, type Working } from '../working';
import { fullOf, read, rpm, type At } from './curves';
import { fullWorking, grossWorking, lowestPickup, sub, unusableWorking, usableWorking } from './tanks';

const SOURCE = 'what can be used, less what is kept back, by what is burnt';

export function enduranceWorkings(view: View): Working[] {
    const { boat } = view;
    const running = usuallyRunning(boat);
    const engines = running.filter(({ kind }) => kind === 'engine');
    const stated = [...boat.vessel.speeds].filter(({ at }) => at.si > 0).sort((a, b) => a.at.si - b.at.si);
    const cruising = engines.length === 0 ? [] : stated.flatMap(({ value, at }) => {
        const lasts = lasting(view, engines, () => ({ speed: at.si, from: { about: 'vessel', fact: 'speed' } }), rpm(at.si));
        const time = lasts.at(-1)!;
        const speed = input('v', 'her speed through the water', value, 'kn', { about: 'vessel', fact: 'speed' });
        const metres = time.result && sound(times(time.result.value, speed.value));
        return [...lasts, {
            id: `range, ${rpm(at.si)}`, about: 'vessel', what: `How far she motors at ${rpm(at.si)}, down to the reserve`, formula: 'D = t × v', source: 'definition', inputs: [...carried('t', 'how long her fuel lasts', time), speed], steps: [],
            where: 'still water', ...(metres && { result: { symbol: 'D', value: metres, unit: 'nmi' } }), notes: [], missing: time.missing,
        }];
    });
    // What the speed of the vessel says of one engine is not said again.
    const told = (consumer: Consumer): boolean => engines.length === 1 && consumer === engines[0] && stated.some(({ at }) => at.si === fullOf(consumer)?.speed);
    const alone = running.filter((consumer) => !told(consumer)).flatMap((consumer) => lasting(view, [consumer], () => fullOf(consumer), 'full speed'));
    const together = running.length > 1 ? lasting(view, running, fullOf, 'full speed') : [];
    return [...cruising, ...alone, ...together, ...[...boat.passages].sort((a, b) => byName(a.id, b.id)).flatMap((passage) => passageWorkings(view, passage, engines))];
}

/** The last of them is how long it lasts, the others what that rests on. */
function lasting(view: View, consumers: readonly Consumer[], atOf: (consumer: Consumer) => At | undefined, words: string): Working[] {
    const { boat } = view;
    const found = enduranceOf(boat, consumers.map(({ id }) => id), (consumer) => atOf(consumer)?.speed ?? NaN);
    const group = firstShort(found);
    const names = consumers.map(({ id }) => id);
    const shared = { id: `endurance ${names.join(' and ')}, ${words}`, about: names[0]!, what: `How long ${listed(names)} ${names.length > 1 ? 'run' : 'runs'} at ${words} from full tanks, down to the reserve`, source: SOURCE };
    if (!group || !found.seconds) return [{ ...shared, formula: 't = U × (1 − r) / b', inputs: [], steps: [], notes: [], missing: distinct(found.lacks.map((lack) => (lack.of === 'burns' ? burnsMissing({ id: lack.about }, words) : missingInTime(boat, lack)))) }];
    const tanks = tankInputs(view, found, group);
    const taken = takenBy(view, found, group, atOf);
    const [use, burn] = [bracketed(tanks.inputs), bracketed(taken.inputs)];
    return [...tanks.before, ...taken.before, {
        ...shared, formula: `t = ${use} × (1 − r) / ${burn}`, inputs: [...tanks.inputs, reserveInput(view), ...taken.inputs], steps: [], result: { symbol: 't', value: found.seconds, unit: 'h' },
        notes: [
            ...(group.consumers.length < names.length ? [`${listed(group.consumers)} ${group.consumers.length > 1 ? 'come' : 'comes'} down to the reserve first: no other group of ${listed(names)} is short sooner.`] : []),
            ...astrayNotes(found.astray.filter((id) => group.consumers.includes(id))),
            ...(names.length === 1 && usuallyRunning(boat).length > 1 ? ['Alone: what else she burns is not counted.'] : []),
            ...(tanks.inputs.length > 1 ? ['Every tank counts that some setting of the valves, or a pump, lets it draw on.'] : []),
        ], missing: [],
    }];
}

const bracketed = (inputs: readonly Input[]): string => (inputs.length === 1 ? inputs[0]!.symbol : `(${inputs.map(({ symbol }) => symbol).join(' + ')})`);
const numbered = (letter: string, i: number, of: number): string => (of === 1 ? letter : `${letter}${sub(i + 1)}`);
const astrayNotes = (astray: readonly Id[]): string[] => (astray.length > 0 ? [`What ${listed(astray)} ${astray.length > 1 ? 'return' : 'returns'} goes to a tank that does not feed ${astray.length > 1 ? 'them' : 'it'}, and counts as gone.`] : []);

function reserveInput({ boat }: View): Input {
    const { reserve } = boat.vessel;
    if (reserve) return input('r', 'share that is kept back', reserve, '%', { about: 'vessel', fact: 'reserve' });
    return { symbol: 'r', what: 'share that is kept back', value: reserveOf(boat).share, unit: '%', from: { taken: '20 %, of the 20 to 33 % that the trade keeps back (common practice)' } };
}

interface Rests {
    readonly inputs: readonly Input[];
    readonly before: readonly Working[];
}

function tankInputs(view: View, { store }: Pick<Endurance, 'store'>, group: Pick<Group, 'tanks'>): Rests {
    const tanks = store.tanks.filter(({ tank }) => group.tanks.includes(tank));
    const all = tanks.map((stored) => usableOf(view, stored));
    return { before: all.flat(), inputs: all.flatMap((workings, i) => carried(numbered('U', i, tanks.length), `what can be used of ${tanks[i]!.tank}`, workings.at(-1)!)) };
}

/** By its own lowest pickup; or down to another mouth, where that is what counts. */
export function usableOf({ boat }: View, { tank: id, usable, mouth }: Stored): Working[] {
    const tank = boat.tanks.find((other) => other.id === id)!;
    const pickups = tank.fittings.filter(({ kind }) => kind === 'pickup');
    const own = usableWorking(tank, pickups);
    if (pickups.length > 0 && lowestPickup(pickups) && own.result && Math.abs(own.result.value.si - usable) <= 1e-9 * usable) return [grossWorking(tank), fullWorking(tank), unusableWorking(tank, pickups), own];
    const fitting = boat.tanks.flatMap(({ fittings }) => fittings).filter((other) => other.id === mouth);
    const down = ` down to ${mouth}`;
    return [grossWorking(tank), fullWorking(tank), unusableWorking(tank, fitting, down), usableWorking(tank, fitting, down)];
}

function takenBy({ boat }: View, { astray }: Pick<Endurance, 'astray'>, group: Pick<Group, 'consumers'>, atOf: (consumer: Consumer) => At | undefined): Rests {
    const consumers = boat.consumers.filter(({ id }) => group.consumers.includes(id));
    const all = consumers.map((consumer, i) => {
        const which = astray.includes(consumer.id) ? 'draws' : 'burns';
        const found = read(consumer, which, atOf(consumer)!, numbered('b', i, consumers.length));
        return which === 'burns' ? found : { ...found, inputs: found.inputs.map((one) => ({ ...one, what: `${one.what}, all of it gone` })) };
    });
    return { inputs: all.flatMap(({ inputs }) => inputs), before: all.flatMap(({ before }) => before) };
}

/** What a passage needs, against what may be used. */
function passageWorkings(view: View, passage: Passage, engines: readonly Consumer[]): Working[] {
    const { boat } = view;
    const { id, motors, margin, speed } = passage;
    const found = passageFuel(boat, passage);
    const motored: From = { about: id, fact: 'motors', ...(motors && { words: `motors ${figure(fromSI(motors.si, 'h'))} h${speed ? ` at ${rpm(speed.si)}` : ''}` }) };
    const atOf = ({ burns, id: engine }: Consumer): At | undefined => (speed ? { speed: speed.si, from: motored } : burns.length === 1 ? { speed: burns[0]!.at.si, from: { about: engine, fact: 'burns' } } : undefined);
    const shared = { id: `passage ${id}`, about: id, what: `What the passage ${id} needs`, source: 'definition', rule: 'RESERVE' };
    const missing: MissingFact[] = distinct(found.lacks.map((lack) => (lack.of === 'burns' ? burnsMissing({ id: lack.about }, speed ? rpm(speed.si) : 'the speed of the passage') : missingInTime(boat, lack))));
    const reserve = reserveInput(view);
    // Some keep back more than 20 % by practice; a passage is measured against the 20 %.
    const share: Estimate = boat.vessel.reserve ? reserve.value : exactly(reserve.value.si);
    const group = [...found.groups].sort((a, b) => b.needs.si / b.usable - a.needs.si / a.usable || a.engines.length - b.engines.length)[0];
    if (!group || !motors || missing.length > 0) return engines.length === 0 ? [] : [{ ...shared, formula: 'N = b × t × (1 + m)', inputs: [], steps: [], notes: [], missing }];
    const endurance = enduranceOf(boat, group.engines, (engine) => atOf(engine)!.speed);
    const tanks = tankInputs(view, endurance, group);
    const taken = takenBy(view, endurance, { consumers: group.engines }, atOf);
    const spare = within([exactly(group.usable), share], (usable, kept) => usable! * (1 - kept!));
    const allowed: Working = {
        id: `to use on ${id}`, about: id, what: `What may be used on the passage ${id}, full tanks, and the reserve whole`, formula: `W = ${bracketed(tanks.inputs)} × (1 − r)`, source: 'definition',
        inputs: [...tanks.inputs, { ...reserve, value: share }], steps: [], notes: [], missing: [],
        ...(spare && { result: { symbol: 'W', value: spare, unit: 'L' } }),
    };
    const without = found.without.length > 0 ? [`${listed(found.without)} ${found.without.length > 1 ? 'are' : 'is'} not counted: nobody says how long ${found.without.length > 1 ? 'they run' : 'it runs'}.`] : [];
    return [...tanks.before, ...taken.before, allowed, {
        ...shared, formula: `N = ${bracketed(taken.inputs)} × t${margin ? ' × (1 + m)' : ''}`, steps: [], missing: [],
        inputs: [...taken.inputs, input('t', 'hours under engine', motors, 'h', motored), ...(margin ? [input('m', 'share that is added for weather and foul tides', margin, '%', { about: id, fact: 'margin', words: `margin ${figure(margin.si * 100)} %` })] : [])],
        result: { symbol: 'N', value: group.needs, unit: 'L' }, ...(allowed.result && { limit: { value: allowed.result.value, unit: 'L', sense: 'at most' as const, from: { step: allowed.id } } }),
        notes: [...(group.engines.length < found.engines.length ? [`Told for ${listed(group.engines)}: of all groups of engines that share tanks the one that needs most of what it has.`] : []), ...(margin ? [] : ['Nothing is added for weather and foul tides.']), ...without, ...astrayNotes(found.astray.filter((one) => group.engines.includes(one)))],
    }];
}
