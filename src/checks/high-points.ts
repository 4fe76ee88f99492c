/**
 * The high points of all fuel lines, and what takes their air away: for BLEED-AT-HIGH and NO-HUMP. Upright, since she is bled so, and
 * since a hose that lies athwart stands on end whenever she heels.
 */
import type { Consumer, Id } from '../model/boat';
import type { MissingFact } from '../model/finding';
import type { Driver } from '../model/step';
import { profileOf, type HighPoint } from '../analysis/air/high-points';
import { endPlace } from '../analysis/air/heights';
import { rateOf } from '../analysis/air/strokes';
import { SWEEP, sweep } from '../analysis/air/sweeping';
import { fluidOf } from '../analysis/flow/fluid';
import { areaOf } from '../analysis/flow/pipe';
import { isPipe, isPump } from '../analysis/topology/network';
import { connectedTo, followers, partsBefore } from '../analysis/topology/paths';
import { listed, mm } from '../model/words';
import { bleedSettings, pumpingOf } from './bleeding';
import { burnsFuel, nameOf, type View } from './check';
import { boreMissing, distinct, heightsMissing, linesMissing, lowPressureMissing, rateMissing, strokeMissing } from '../analysis/missing';

export interface Trap {
    readonly point: HighPoint;
    readonly consumers: readonly Consumer[];
    /** Line-ups for running in which it is one; `always` when it is in all in which they are fed. */
    readonly lineUps: readonly Id[];
    readonly always: boolean;
    /** Fuel is drawn through it while the engine runs, not pushed. */
    readonly suction: boolean;
    readonly cleared: Cleared;
}

export type Cleared =
    /** a bleed point stands there, or it is a pump, which moves on what is in it */
    | { readonly by: 'vent' }
    | { readonly by: 'pump' }
    /** fast enough for common practice; the fastest that there is */
    | { readonly by: 'sweep'; readonly sweep: Sweep }
    /** too slow, or nothing at all */
    | { readonly by: 'nothing'; readonly fastest?: Sweep; readonly bore?: number }
    | { readonly by: 'unknown'; readonly missing: readonly MissingFact[] };

export interface Sweep {
    readonly driver: Driver;
    /** m/s, in the widest pipe in which the line falls, and its bore, m. */
    readonly speed: number;
    readonly bore: number;
}

export interface Traps {
    readonly traps: readonly Trap[];
    /** Of each consumer that burns fuel and is fed in a line-up for running, what is not known of the way to it. */
    readonly lines: readonly { readonly consumer: Consumer; readonly missing: readonly MissingFact[] }[];
}

export function trapsOf(view: View): Traps {
    const found = known.get(view) ?? findTraps(view);
    known.set(view, found);
    return found;
}

const known = new WeakMap<View, Traps>();

function findTraps(view: View): Traps {
    const lesser = ({ rise, fall }: HighPoint): number => Math.min(rise, fall);
    const met = new Map<Id, { point: HighPoint; consumers: Set<Consumer>; lineUps: Set<Id>; of: number; suction: boolean }>();
    const lines: { consumer: Consumer; missing: MissingFact[] }[] = [];
    for (const consumer of view.boat.consumers.filter((other) => burnsFuel(view, other))) {
        const profiles = view.runs.flatMap((lineUp) => { const profile = profileOf(view.running(lineUp), consumer.id); return profile && !lineUp.stopped.includes(consumer.id) ? [{ lineUp, profile }] : []; });
        if (profiles.length === 0) continue;
        const unsure = profiles.flatMap(({ profile }) => profile.unsure.map((id) => heightsMissing(id, nameOf(view.boat, id))));
        lines.push({ consumer, missing: distinct([...unsure, ...(unsure.length === 0 && profiles.some(({ profile }) => profile.gaps) ? [linesMissing(consumer.id)] : [])]) });
        for (const { lineUp, profile } of profiles) for (const point of profile.points) {
            const trap = met.get(point.part) ?? { point, consumers: new Set(), lineUps: new Set(), of: 0, suction: false };
            met.set(point.part, trap);
            if (lesser(point) > lesser(trap.point)) trap.point = point;
            trap.consumers.add(consumer);
            trap.lineUps.add(lineUp.id);
            trap.of = Math.max(trap.of, profiles.length);
            trap.suction ||= isDrawn(view, lineUp, point.part, consumer);
        }
    }
    const traps = [...met.values()].map(({ consumers, lineUps, of, ...trap }): Trap => ({
        ...trap, consumers: [...consumers], lineUps: [...lineUps], always: lineUps.size === of, cleared: clearing(view, trap.point, [...consumers]),
    }));
    return { traps, lines };
}

/** Not the pump itself, in which the suction line ends, and nothing behind it. A primer only helps to fill the line. */
function isDrawn(view: View, lineUp: View['runs'][number], part: Id, consumer: Consumer): boolean {
    const linedUp = view.running(lineUp);
    const pumps = [...partsBefore(linedUp, `${consumer.id}:in`)].map((id) => view.network.parts.get(id)).filter((other) => other?.kind === 'lift pump' || other?.kind === 'electric pump');
    const points = view.network.through.get(part)?.map((i) => view.network.passages[i]!.from) ?? [view.network.index.get(part)!];
    return !pumps.some((pump) => pump!.id === part || points.some((point) => followers(linedUp, pump!.id).has(point)));
}

function clearing(view: View, { part: id, level, falling }: HighPoint, consumers: readonly Consumer[]): Cleared {
    const { network } = view;
    const parts = level.flatMap((other) => network.parts.get(other) ?? []);
    const part = network.parts.get(id)!;
    if (parts.some(({ vents }) => vents.length > 0)) return { by: 'vent' };
    if (isPump(part)) return { by: 'pump' };
    // A filter without a bleed point is far wider than any pipe: nothing sweeps it.
    if (part.kind === 'filter' || part.kind === 'strainer') return { by: 'nothing' };
    const drivers = sweeping(view, falling, consumers);
    const bores = falling.map((other) => network.parts.get(other)!).map((pipe) => ({ pipe, bore: pipe.bore?.si }));
    const widest = Math.max(0, ...bores.map(({ bore }) => bore ?? 0));
    const sweeps = drivers.flatMap((driver): Sweep[] => {
        const rate = rateOf(network.parts.get(driver.part), driver.by);
        return rate === undefined || !(widest > 0) ? [] : [{ driver, speed: rate / areaOf(widest), bore: widest }];
    }).sort((a, b) => b.speed - a.speed);
    const missing: MissingFact[] = [
        ...bores.flatMap(({ pipe, bore }) => (bore === undefined ? [boreMissing(pipe)] : [])),
        ...drivers.flatMap((driver) => {
            const pump = network.parts.get(driver.part)!;
            return rateOf(pump, driver.by) !== undefined ? [] : [driver.by === 'electric' ? rateMissing(pump) : strokeMissing(pump)];
        }),
    ];
    if (sweeps[0] && sweeps[0].speed > SWEEP - 1e-9 && bores.every(({ bore }) => bore !== undefined)) return { by: 'sweep', sweep: sweeps[0] };
    if (drivers.length > 0 && missing.length > 0) return { by: 'unknown', missing };
    const blind = consumers.filter((consumer) => consumer.vents.length === 0 && !consumer.selfBleeding);
    if (drivers.length === 0 && blind.length > 0) return { by: 'unknown', missing: blind.map((consumer) => lowPressureMissing(consumer.id)) };
    return { by: 'nothing', ...(sweeps[0] && { fastest: sweeps[0] }), ...(widest > 0 && { bore: widest }) };
}

/** Pumps of which all that is moved passes these pipes on its way to some bleed point, in some setting for bleeding (see `bleedSettings`). */
function sweeping(view: View, falling: readonly Id[], consumers: readonly Consumer[]): Driver[] {
    const { boat, network } = view;
    const pumping = pumpingOf(view);
    const settings = view.runs.flatMap((lineUp) => bleedSettings(view, lineUp));
    // Nothing is moved through a tank: what other tanks feed need not be asked.
    const near = new Set(consumers.flatMap(({ id }) => [id, ...connectedTo(network, id)]));
    const vents = [...boat.parts, ...boat.consumers].filter(({ id }) => near.has(id)).flatMap((owner) => owner.vents);
    return boat.parts.filter((part) => isPump(part) && near.has(part.id)).map((pump): Driver => ({ by: pump.kind === 'hand primer' ? 'hand' : pump.kind === 'lift pump' ? 'lever' : 'electric', part: pump.id }))
        .filter((driver) => consumers.some((consumer) => settings.some((positions) => vents.some((vent) => {
            const flow = pumping.flow(vent.id, driver, consumer.id, positions);
            return !('law' in flow) && falling.every((pipe) => flow.sure.includes(pipe));
        }))));
}

/** Common practice, m. */
const HUMP = 0.05;

/** A rise of more than 50 mm in a suction line, where no bleed point lets the air out. */
export const isHump = ({ suction, point, cleared }: Trap): boolean => suction && cleared.by !== 'vent' && Math.min(point.rise, point.fall) > HUMP + 1e-9;

/** The crest of S2, or V2. */
export const placeOf = (view: View, { point }: Trap): string => (isPipe(view.network.parts.get(point.part)!) ? `the crest of ${nameOf(view.boat, point.part)}` : nameOf(view.boat, point.part));

/** `, in RUN-STBD` where it is so in some line-ups only. */
export const inLineUps = ({ always, lineUps }: Trap): string => (always ? '' : `, in ${listed(lineUps)}`);

/** How fast a pump sweeps, beside what is asked. The laws are advice: see `sweeping.ts`. */
export function sweepWords(view: View, { driver, speed, bore }: Sweep): string {
    const asked = sweep(bore, speed, fluidOf(view.boat.vessel)).laws.find((law) => law.speed > speed);
    const isSlow = speed < SWEEP - 1e-9;
    return `${driverName(view, driver)} moves ${isSlow ? 'only ' : ''}${metresPerSecond(speed)} through it, ${isSlow ? 'less' : 'more'} than the ${SWEEP} m/s of common practice`
        + (!isSlow && asked ? ` and less than the ${metresPerSecond(asked.speed)} of ${asked.name}, ${asked.slope}` : '');
}

/** Just below what is asked must not read as if it were reached. */
const metresPerSecond = (speed: number): string => `${speed.toFixed(speed < SWEEP && speed.toFixed(2) === SWEEP.toFixed(2) ? 3 : 2)} m/s`;
const driverName = (view: View, { by, part }: Driver): string => (by === 'lever' ? `the lever of ${nameOf(view.boat, part)}` : nameOf(view.boat, part));

/** Heights that people measure are good to so much, m: common practice. */
const MARGIN = 0.01;

/** How the line is led so that it is no high point. */
export function ledLower(view: View, { point }: Trap): string {
    const name = nameOf(view.boat, point.part);
    if (!isPipe(view.network.parts.get(point.part)!)) return `Set ${name} lower, or lead the line another way, so that it does not rise to ${name} and fall again`;
    const ends = ['in', 'out'].map((end) => endPlace(view.network, `${point.part}:${end}`)?.up?.si);
    return ends.includes(undefined) ? `Lead ${name} lower, so that it only rises or only falls between its ends` : `Lead ${name} lower, clipped so that it is nowhere above ${mm(Math.max(...ends as number[]) - MARGIN)}`;
}
