/**
 * The boat with a can of clean fuel hung in her: its hose goes to the inlet of the lift pump, or of the last filter, in place of the line that ends there,
 * and the engine's return comes back into it. Everything that is asked of a boat can be asked of this one.
 */
import type { Boat, Consumer, Course, Id, Joint, LineUp, Part, Tank } from '../../../model/boat';
import type { Measure, Place } from '../../../model/measure';
import { networkOf, reach } from '../../../analysis/topology/network';
import { inOrder, running } from '../../../analysis/topology/paths';
import { partsOnEveryWayTo } from '../../../analysis/topology/every-way';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';

export interface WithCan {
    readonly boat: Boat;
    readonly can: Id;
    /** The tap of the can's hose, and the hose. */
    readonly tap: Id;
    readonly hose: Id;
    /** The part whose inlet the can feeds, and what stood before it. */
    readonly fed: Id;
    readonly from: string;
    /** What the return of the engine led to; none where it comes back into its own supply behind the can. */
    readonly back?: string;
    /** The line-up in which it runs from the can, and the same with the tap shut. */
    readonly runs: Id;
    readonly ready: Id;
    /** Height of the bottom of the can over the datum, and over the inlet that it feeds, m. */
    readonly bottom: number;
    readonly over: number;
}

/** The bottom of the can stands so far over the highest point that it feeds, m: twice the 50 mm that gravity needs at a bleed point (trade practice). */
const OVER = 0.1;
/** A can of some 20 L, m: no source. Its tap is at the bottom: a hose over its rim would have to be filled first. */
const [LONG, WIDE, HIGH] = [0.3, 0.2, 0.35];
/** Its hose: as wide and as long as a person has at hand; m. */
const [BORE, LENGTH] = [0.008, 1.5];

/** Undefined with what is not known: the height of one of these. */
export function withCan(boat: Boat, engine: Consumer, ends: ResolvedLineUp, shut: readonly Id[]): WithCan | { readonly lacks: readonly Id[] } | 'no place' | 'no filter' {
    const network = networkOf(boat);
    const linedUp = running(network, ends.positions);
    const order = inOrder(linedUp, engine.id, 'to').filter((id) => network.parts.has(id));
    const always = partsOnEveryWayTo(linedUp, `${engine.id}:in`);
    const part = (id: Id): Part => network.parts.get(id)!;
    const fed = order.find((id) => part(id).kind === 'lift pump' && always.has(id)) ?? [...order].reverse().find((id) => part(id).kind === 'filter' && always.has(id));
    if (fed === undefined) return 'no place';
    const behind = order.slice(order.indexOf(fed));
    if (!behind.some((id) => part(id).kind === 'filter')) return 'no filter';
    const joint = boat.joints.find(({ to }) => to === `${fed}:in`);
    if (!joint) return 'no place';

    const heights = [...behind.filter((id) => part(id).kind !== 'hose' && part(id).kind !== 'tube').map((id) => [id, part(id).at] as const), [engine.id, engine.inlet] as const];
    const lacks = heights.filter(([, at]) => at?.up === undefined).map(([id]) => id);
    if (lacks.length > 0) return { lacks };
    const tops = [...heights.map(([, at]) => at!.up!), ...behind.flatMap((id) => part(id).crest?.up ?? []), ...[...behind.map(part), engine].flatMap(({ vents }) => vents.flatMap(({ at }) => at?.up ?? []))];
    const bottom = Math.ceil((Math.max(...tops.map((measure) => measure.high ?? measure.si)) + OVER) * 100 - 1e-6) / 100;

    const name = namesFor(boat);
    const [can, tap, hose, returned] = [name('CAN'), name('CAN-TAP'), name('CAN-HOSE'), name('CAN-RETURN')];
    const place = part(fed).at!;
    const tank: Tank = {
        id: can, title: 'feed can', portable: true, carries: 'diesel', box: boxAt(place, bottom), fittings: [
            { id: `${can}.P1`, tank: can, kind: 'pickup', port: 'P1', bore: si(BORE), mouth: { ...place, up: si(bottom) }, top: { ...place, up: si(bottom) } },
            { id: `${can}.R1`, tank: can, kind: 'drop', port: 'R1', bore: si(BORE), mouth: { ...place, up: si(bottom + HIGH) }, top: { ...place, up: si(bottom + HIGH) } },
        ],
    };
    const bare = { seals: [], vents: [], ports: [], positions: [], turning: [] } as const;
    const supply: Course = { id: name('CanFeed'), service: 'supply', from: { part: can, port: 'P1' }, to: { part: engine.id }, parts: [tap, hose, ...behind.filter((id) => part(id).kind === 'lift pump')] };
    const parts: Part[] = [
        { ...bare, id: tap, tag: tap, name: tap, title: 'tap or clamp of the feed can\'s hose', kind: 'shutoff', normally: 'shut', course: supply.id },
        { ...bare, id: hose, tag: hose, name: hose, title: 'hose of the feed can', kind: 'hose', bore: si(BORE), length: si(LENGTH), course: supply.id },
    ];
    const feed: Joint[] = [{ from: `${can}.P1`, to: `${tap}:in`, course: supply.id }, { from: `${tap}:out`, to: `${hose}:in`, course: supply.id }, { from: `${hose}:out`, to: `${fed}:in`, course: supply.id }];
    const fromCan = boat.joints.filter((other) => other !== joint);
    const back = returnJoint({ ...boat, tanks: [...boat.tanks, tank], parts: [...boat.parts, ...parts], joints: [...fromCan, ...feed] }, engine.id, ends);
    const home: Course = { id: name('CanBack'), service: 'return', from: { part: engine.id }, to: { part: can, port: 'R1' }, parts: [returned] };
    if (back) parts.push({ ...bare, id: returned, tag: returned, name: returned, title: 'return hose into the feed can', kind: 'hose', bore: si(BORE), length: si(LENGTH), course: home.id });
    const joints = [
        ...fromCan.filter((other) => other !== back), ...feed,
        ...(back ? [{ from: `${engine.id}:out`, to: `${returned}:in`, course: home.id }, { from: `${returned}:out`, to: `${can}.R1`, course: home.id }] : []),
    ];
    const [runs, ready] = [name('FROM-CAN'), name('CAN-READY')];
    const settings = [...shut.map((id) => ({ part: id, position: 'shut' }))];
    const lineUps: LineUp[] = [
        { id: runs, use: 'emergency', normal: false, base: ends.id, settings: [...settings, { part: tap, position: 'open' }] },
        { id: ready, use: 'emergency', normal: false, base: ends.id, settings: [...settings, { part: tap, position: 'shut' }] },
    ];
    const declared: readonly LineUp[] = boat.lineUps.length > 0 ? boat.lineUps : [{ id: ends.id, use: 'run', normal: true, settings: [] }];
    return {
        boat: { ...boat, tanks: [...boat.tanks, tank], parts: [...boat.parts, ...parts], joints, courses: [...boat.courses, supply, ...(back ? [home] : [])], lineUps: [...declared, ...lineUps] },
        can, tap, hose, fed, from: partOfPoint(joint.from), ...(back && { back: partOfPoint(back.to) }), runs, ready, bottom, over: bottom - place.up!.si,
    };
}

const si = (value: number): Measure => ({ si: value });
const partOfPoint = (point: string): string => (point.includes(':') ? point.slice(0, point.lastIndexOf(':')) : point);

/** Over the part, so that leaning lifts both alike. The box grows forward and to starboard of its corner. */
function boxAt(place: Place, bottom: number): NonNullable<Tank['box']> {
    const corner = { up: si(bottom), ...(place.fwd && { fwd: si(place.fwd.si - LONG / 2) }), ...(place.stbd && { stbd: si(place.stbd.si - WIDE / 2) }) };
    return { length: LONG, breadth: WIDE, height: HIGH, corner, outboard: 1 };
}

/** Where the return leaves the engine, unless it comes back into the supply behind the can: then all of it is drawn again. */
function returnJoint(boat: Boat, engine: Id, ends: ResolvedLineUp): Joint | undefined {
    const linedUp = running(networkOf(boat), ends.positions);
    const { index } = linedUp.network;
    const [out, into] = [index.get(`${engine}:out`)!, index.get(`${engine}:in`)!];
    if (reach(linedUp, linedUp.ways, [out], new Set(linedUp.network.through.get(engine))).has(into)) return undefined;
    return boat.joints.find(({ from }) => from === `${engine}:out`);
}

/** A name that nothing on board has yet. */
function namesFor(boat: Boat): (wanted: string) => Id {
    const taken = new Set([...boat.tanks, ...boat.parts, ...boat.consumers, ...boat.courses, ...boat.lineUps].map(({ id }) => id));
    return (wanted) => { let found = wanted; for (let n = 2; taken.has(found); n++) found = `${wanted}${n}`; taken.add(found); return found; };
}
