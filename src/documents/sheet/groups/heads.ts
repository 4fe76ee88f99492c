/**
 * How high each pump stands over the surface that it draws from, at the lowest level: upright and where that is most. A pickup draws only while its mouth is wet, so where the
 * surface would lie below the mouth, the mouth counts.
 */
import type { Consumer, Fitting, Id, Part, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Place } from '../../../model/measure';
import { estimateOf, exactly } from '../../../analysis/estimate';
import { attitudesOf } from '../../../analysis/opening/condition';
import { heightOf, UPRIGHT, type Attitude } from '../../../analysis/tanks/attitude';
import { partsBefore, tanksBefore } from '../../../analysis/topology/paths';
import { burnsFuel, type View } from '../../../checks/check';
import { distinct, missingOf, mouthMissing, whereMissing } from '../../../analysis/missing';
import { attitudeWords, listed, mm } from '../../../model/words';
import { inletFact } from '../flows';
import { signed } from '../numbers';
import { byName, carried, within, type From, type Limit, type Working } from '../working';
import { leanInputs, leanedHeight, placeInputs } from './box';
import { mouthFrom } from './pickups';
import { surfaceWorking } from './surfaces';

/** What sucks: a pump, or an engine with no other pump before it; from one pickup. */
interface Sucks {
    readonly id: Id;
    readonly name: string;
    readonly place: Place | undefined;
    readonly placed: string;
    readonly tank: Tank;
    readonly pickup: Fitting;
    /** The tank, or the pickup where it draws from more than one in it. */
    from: Id;
    limit?: Limit;
    readonly lineUps: Id[];
}

const PUMPS: ReadonlySet<Part['kind']> = new Set(['lift pump', 'electric pump']);

export const headWorkings = (view: View): Working[] => sucking(view).flatMap((pump) => {
    const [upright, ...leaned] = casesOf(view, pump);
    return [upright!.working, ...(leaned.length > 0 ? [worstOf(pump, leaned)] : [])];
});

/** The head of a pump, or of an engine that sucks, over what a pickup draws from, in one corner; by the id under which that corner stands among these. */
export function headIn(view: View, id: Id, pickup: Id, attitude: Attitude): Working | undefined {
    const pump = sucking(view).find((one) => one.id === id && one.pickup.id === pickup);
    if (!pump) return undefined;
    const [upright, ...leaned] = casesOf(view, pump);
    const same = (one: Attitude): boolean => one.heel === attitude.heel && one.trim === attitude.trim;
    if (same(UPRIGHT)) return upright!.working;
    const worst = leaned.every(({ working }) => working.result) ? greatest(leaned) : undefined;
    if (worst && same(worst.attitude)) return worstOf(pump, leaned);
    const own = leaned.find((one) => same(one.attitude))?.working;
    return own && { ...own, id: `head ${id} from ${pump.from}, ${attitudeWords(attitude)}` };
}

interface Case {
    readonly attitude: Attitude;
    readonly working: Working;
}

const casesOf = (view: View, pump: Sucks): Case[] => attitudesOf(view.boat).map((attitude) => ({ attitude, working: headWorking(view, pump, attitude) }));
const height = ({ working }: Case): number => working.result!.value.si;
const greatest = (cases: readonly Case[]): Case => cases.reduce((most, other) => (height(other) > height(most) + 1e-9 ? other : most));

/** The greatest in the corners of the envelope. One that cannot be told may be the greatest. */
function worstOf(pump: Sucks, cases: readonly Case[]): Working {
    const id = `head ${pump.id} from ${pump.from}, worst`;
    const open = cases.find(({ working }) => !working.result);
    if (open) return { ...open.working, id, inputs: [], where: `lowest level, the corners of the envelope, line-up ${listed(pump.lineUps)}` };
    const worst = greatest(cases);
    const told = cases.map((one) => `${signed(mm(height(one)))} ${attitudeWords(one.attitude)}`).join('; ');
    return { ...worst.working, id, notes: [`In the corners of the envelope: ${told}.`, ...worst.working.notes] };
}

/** Asked again by what adds losses to the height. */
function sucking(view: View): readonly Sucks[] {
    const found = suckingKnown.get(view) ?? suckingIn(view);
    suckingKnown.set(view, found);
    return found;
}

const suckingKnown = new WeakMap<View, readonly Sucks[]>();

function suckingIn(view: View): readonly Sucks[] {
    const { boat, network } = view;
    const found = new Map<string, Sucks>();
    for (const lineUp of [...view.runs].sort((a, b) => byName(a.id, b.id))) for (const consumer of boat.consumers.filter((other) => burnsFuel(view, other) && !lineUp.stopped.includes(other.id))) {
        const linedUp = view.running(lineUp);
        const pumpsBefore = (point: Id): Part[] => [...partsBefore(linedUp, `${point}:in`)].map((id) => network.parts.get(id)).filter((part): part is Part => part !== undefined && PUMPS.has(part.kind));
        // A pump behind another is fed by it.
        const first = pumpsBefore(consumer.id).filter(({ id }) => pumpsBefore(id).every((other) => other.id === id)).sort((a, b) => byName(a.id, b.id));
        const points = first.length > 0 ? first.map((part) => ({ id: part.id, name: part.name, place: part.at, placed: part.at?.up ? 'at' : 'ports', limit: limitOf(part, consumer) })) : [{ id: consumer.id, name: `the inlet of ${consumer.id}`, place: consumer.inlet, placed: inletFact(consumer), limit: lift(consumer) }];
        for (const { limit, ...point } of points) for (const tankId of [...tanksBefore(linedUp, `${point.id}:in`)].sort(byName)) {
            const tank = boat.tanks.find(({ id }) => id === tankId)!;
            if ((tank.carries ?? 'diesel') !== 'diesel') continue;
            const before = partsBefore(linedUp, `${point.id}:in`);
            for (const pickup of tank.fittings.filter(({ id, kind }) => (kind === 'pickup' || kind === 'drop') && before.has(id))) {
                const key = `${point.id} ${pickup.id}`;
                const known = found.get(key);
                if (!known) { found.set(key, { ...point, tank, pickup, from: tankId, ...(limit && { limit }), lineUps: [lineUp.id] }); continue; }
                if (!known.lineUps.includes(lineUp.id)) known.lineUps.push(lineUp.id);
                // A pump that feeds two engines must keep to the lesser limit.
                if (limit && (!known.limit || limit.value.si < known.limit.value.si)) known.limit = limit;
            }
        }
    }
    const all = [...found].sort(([a], [b]) => byName(a, b)).map(([, sucks]) => sucks);
    for (const one of all) if (all.some((other) => other !== one && other.id === one.id && other.tank.id === one.tank.id)) one.from = one.pickup.id;
    return all;
}

const lift = ({ id, limits }: Consumer): Limit | undefined => limits.lift && { value: estimateOf(limits.lift), unit: 'mm', sense: 'at most', from: { about: id, fact: 'limits lift' } };
/** What is said of the pump itself, else what the maker of the engine says of its own lift pump. */
const limitOf = (pump: Part, consumer: Consumer): Limit | undefined => (pump.lifts ? { value: estimateOf(pump.lifts), unit: 'mm', sense: 'at most', from: { about: pump.id, fact: 'lifts' } } : pump.kind === 'lift pump' ? lift(consumer) : undefined);

function headWorking(view: View, pump: Sucks, attitude: Attitude): Working {
    const { id, name, place, tank, pickup, lineUps, limit } = pump;
    const surface = surfaceWorking(view, tank, attitude);
    const words = attitudeWords(attitude);
    const from = (): From => ({ about: id, fact: pump.placed });
    const upright = attitude.heel === UPRIGHT.heel && attitude.trim === UPRIGHT.trim;
    const [up, mouth] = [heightOf(place, attitude), heightOf(pickup.mouth, attitude)];
    const isDry = surface.result !== undefined && mouth !== undefined && mouth > surface.result.value.si;
    const base = {
        id: `head ${id} from ${pump.from}, ${upright ? 'upright' : 'worst'}`, about: id, what: `How high ${name} stands over the surface of ${tank.id} that it draws from`, formula: isDry ? 'h = p − max(S, m)' : 'h = p − S', source: 'geometry',
        where: `lowest level, ${words}, line-up ${listed(lineUps)}`, ...(limit && { limit }),
    };
    const inputs = [
        ...(place ? placeInputs(name, place, attitude, from) : []), ...(isDry ? placeInputs(`mouth of ${pickup.id}`, pickup.mouth!, attitude, mouthFrom(pickup), { fwd: 'x₁', stbd: 'y₁', up: 'z₁' }) : []),
        ...leanInputs(attitude), ...carried('S', `surface of ${tank.id}`, surface),
    ];
    if (up === undefined || !surface.result || mouth === undefined || !place?.up) {
        const lacks: MissingFact[] = [
            ...surface.missing, ...(place?.up ? up === undefined ? [whereMissing(id, name)] : [] : [missingOf(view.boat, { about: id, of: 'height' })]),
            ...(mouth !== undefined ? [] : [pickup.mouth?.up ? whereMissing(pickup.id, pickup.id) : mouthMissing(pickup.id)]),
        ];
        return { ...base, inputs, steps: [], notes: [], missing: distinct(lacks) };
    }
    const zero = { si: 0 };
    const at = ({ up: z, fwd, stbd }: Place) => [z ?? zero, fwd ?? zero, stbd ?? zero].map(estimateOf);
    const raised = (z: number, fwd: number, stbd: number): number => heightOf({ up: { si: z }, fwd: { si: fwd }, stbd: { si: stbd } }, attitude)!;
    const stands = within(at(place), (z, x, y) => raised(z!, x!, y!));
    const level = isDry ? within(at(pickup.mouth!), (z, x, y) => Math.max(raised(z!, x!, y!), surface.result!.value.si)) : exactly(surface.result.value.si);
    const value = stands && level && { si: stands.si - level.si, least: stands.least - level.most, most: stands.most - level.least };
    return {
        ...base, inputs,
        steps: [
            { symbol: 'p', what: 'its height as she lies', formula: `p = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: up, unit: 'mm' },
            ...(isDry ? [{ symbol: 'm', what: `height of the mouth of ${pickup.id} as she lies`, formula: `m = ${leanedHeight(attitude, 'x₁', 'y₁', 'z₁')}`, value: mouth, unit: 'mm' }] : []),
        ],
        ...(value && { result: { symbol: 'h', value, unit: 'mm' } }), missing: [], rule: 'LIFT-STATIC', notes: [
            value && value.si < 0 ? 'Below nought: the surface stands over it, and fuel comes by itself.' : 'What the line takes comes on top of it.',
            ...(isDry ? [`The surface would lie below the mouth of ${pickup.id}, which draws only while it is wet: the mouth counts. See the least for each pickup.`] : []),
        ],
    };
}
