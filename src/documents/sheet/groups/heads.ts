/** How high each pump stands over the surface that it draws from, at the lowest level: upright and where that is most. */
import type { Consumer, Fitting, Id, Part, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Place } from '../../../model/measure';
import { estimateOf } from '../../../analysis/estimate';
import { attitudesOf } from '../../../analysis/opening/condition';
import { heightOf, UPRIGHT, type Attitude } from '../../../analysis/tanks/attitude';
import { partsBefore, tanksBefore } from '../../../analysis/topology/paths';
import { burnsFuel, type View } from '../../../checks/check';
import { distinct, missingOf, whereMissing } from '../../../checks/missing';
import { attitudeWords, listed, mm } from '../../../model/words';
import { signed } from '../numbers';
import { byName, carried, within, type From, type Limit, type Working } from '../working';
import { leanInputs, leanedHeight, placeInputs } from './box';
import { surfaceWorking } from './surfaces';

/** What sucks: a pump, or an engine with no other pump before it. */
interface Sucks {
    readonly id: Id;
    readonly name: string;
    readonly place: Place | undefined;
    readonly placed: string;
    readonly tank: Tank;
    /** The pickups of that tank that it draws from. */
    readonly pickups: readonly Fitting[];
    limit?: Limit;
    readonly lineUps: Id[];
}

const PUMPS: ReadonlySet<Part['kind']> = new Set(['lift pump', 'electric pump']);

export const headWorkings = (view: View): Working[] => sucking(view).flatMap((pump) => {
    const [upright, ...leaned] = attitudesOf(view.boat).map((attitude) => ({ attitude, working: headWorking(view, pump, attitude) }));
    return [upright!.working, ...(leaned.length > 0 ? [worstOf(pump, leaned)] : [])];
});

interface Case {
    readonly attitude: Attitude;
    readonly working: Working;
}

/** The greatest in the corners of the envelope. One that cannot be told may be the greatest. */
function worstOf(pump: Sucks, cases: readonly Case[]): Working {
    const id = `head ${pump.id} from ${pump.tank.id}, worst`;
    const open = cases.find(({ working }) => !working.result);
    if (open) return { ...open.working, id, inputs: [], where: `lowest level, the corners of the envelope, line-up ${listed(pump.lineUps)}` };
    const height = ({ working }: Case): number => working.result!.value.si;
    const worst = cases.reduce((most, other) => (height(other) > height(most) + 1e-9 ? other : most));
    const told = cases.map((one) => `${signed(mm(height(one)))} ${attitudeWords(one.attitude)}`).join('; ');
    return { ...worst.working, id, notes: [`In the corners of the envelope: ${told}.`, ...worst.working.notes] };
}

function sucking(view: View): Sucks[] {
    const { boat, network } = view;
    const found = new Map<string, Sucks>();
    for (const lineUp of [...view.runs].sort((a, b) => byName(a.id, b.id))) for (const consumer of boat.consumers.filter((other) => burnsFuel(view, other) && !lineUp.stopped.includes(other.id))) {
        const linedUp = view.running(lineUp);
        const pumpsBefore = (point: Id): Part[] => [...partsBefore(linedUp, `${point}:in`)].map((id) => network.parts.get(id)).filter((part): part is Part => part !== undefined && PUMPS.has(part.kind));
        // A pump behind another is fed by it.
        const first = pumpsBefore(consumer.id).filter(({ id }) => pumpsBefore(id).every((other) => other.id === id)).sort((a, b) => byName(a.id, b.id));
        const points = first.length > 0 ? first.map((part) => ({ id: part.id, name: part.name, place: part.at, placed: part.at?.up ? 'at' : 'ports', limit: limitOf(part, consumer) })) : [{ id: consumer.id, name: `the inlet of ${consumer.id}`, place: consumer.inlet, placed: 'inlet', limit: lift(consumer) }];
        for (const { limit, ...point } of points) for (const tankId of [...tanksBefore(linedUp, `${point.id}:in`)].sort(byName)) {
            const tank = boat.tanks.find(({ id }) => id === tankId)!;
            if ((tank.carries ?? 'diesel') !== 'diesel') continue;
            const before = partsBefore(linedUp, `${point.id}:in`);
            const pickups = tank.fittings.filter(({ id, kind }) => kind === 'pickup' && before.has(id));
            const key = `${point.id} ${tankId}`;
            const known = found.get(key);
            if (!known) { found.set(key, { ...point, tank, pickups, ...(limit && { limit }), lineUps: [lineUp.id] }); continue; }
            if (!known.lineUps.includes(lineUp.id)) known.lineUps.push(lineUp.id);
            // A pump that feeds two engines must keep to the lesser limit.
            if (limit && (!known.limit || limit.value.si < known.limit.value.si)) known.limit = limit;
        }
    }
    return [...found].sort(([a], [b]) => byName(a, b)).map(([, sucks]) => sucks);
}

const lift = ({ id, limits }: Consumer): Limit | undefined => limits.lift && { value: estimateOf(limits.lift), unit: 'mm', sense: 'at most', from: { about: id, fact: 'limits lift' } };
/** What is said of the pump itself, else what the maker of the engine says of its own lift pump. */
const limitOf = (pump: Part, consumer: Consumer): Limit | undefined => (pump.lifts ? { value: estimateOf(pump.lifts), unit: 'mm', sense: 'at most', from: { about: pump.id, fact: 'lifts' } } : pump.kind === 'lift pump' ? lift(consumer) : undefined);

function headWorking(view: View, pump: Sucks, attitude: Attitude): Working {
    const { id, name, place, tank, lineUps, limit } = pump;
    const surface = surfaceWorking(view, tank, attitude);
    const words = attitudeWords(attitude);
    const from = (): From => ({ about: id, fact: pump.placed });
    const upright = attitude.heel === UPRIGHT.heel && attitude.trim === UPRIGHT.trim;
    const height = heightOf(place, attitude);
    const base = {
        id: `head ${id} from ${tank.id}, ${upright ? 'upright' : 'worst'}`, about: id, what: `How high ${name} stands over the surface of ${tank.id}`, formula: 'h = p − S', source: 'geometry',
        where: `lowest level, ${words}, line-up ${listed(lineUps)}`, ...(limit && { limit }),
    };
    const inputs = [...(place ? placeInputs(name, place, attitude, from) : []), ...leanInputs(attitude), ...carried('S', `surface of ${tank.id}`, surface)];
    if (height === undefined || !surface.result || !place?.up) {
        const lacks: MissingFact[] = [...surface.missing, ...(place?.up ? height === undefined ? [whereMissing(id, name)] : [] : [missingOf(view.boat, { about: id, of: 'height' })])];
        return { ...base, inputs, steps: [], notes: [], missing: distinct(lacks) };
    }
    const dry = pump.pickups.filter(({ mouth }) => (heightOf(mouth, attitude) ?? -Infinity) > surface.result!.value.si).map(({ id: pickup }) => pickup);
    const zero = { si: 0 };
    const value = within([...[place.up, place.fwd ?? zero, place.stbd ?? zero].map(estimateOf), surface.result.value], (up, fwd, stbd, level) => { const p = heightOf({ up: { si: up! }, fwd: { si: fwd! }, stbd: { si: stbd! } }, attitude); return p === undefined ? undefined : p - level!; });
    return {
        ...base, inputs, steps: [{ symbol: 'p', what: 'its height as she lies', formula: `p = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: height, unit: 'mm' }],
        ...(value && { result: { symbol: 'h', value, unit: 'mm' } }), missing: [], notes: [
            value && value.si < 0 ? 'Below nought: the surface stands over it, and fuel comes by itself.' : 'What the line takes comes on top of it.',
            ...(dry.length === 0 ? [] : [`${listed(dry)} ${dry.length > 1 ? 'stand' : 'stands'} above that surface and ${dry.length > 1 ? 'draw' : 'draws'} air there: see the least for each pickup.`]),
        ],
    };
}
