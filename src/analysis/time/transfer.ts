/** Moving fuel from tank to tank by a pump, and pumping one round through a filter. */
import type { Boat, Id, Tank } from '../../model/boat';
import { estimateOf, exactly, minus, over, sound, type Estimate } from '../estimate';
import { grossOf } from '../tanks/liquid';
import { FULL } from '../tanks/pickups';
import type { ResolvedLineUp } from '../topology/line-ups';
import { networkOf } from '../topology/network';
import { running, tanksAfter, tanksBefore } from '../topology/paths';
import { barredFor } from './burners';
import { eachLackOnce, type TimeLack } from './lack';
import { movers } from './overflow';
import type { Volumes } from './store';

export interface Transfer {
    readonly lineUp: Id;
    readonly pump: Id;
    readonly from: readonly Id[];
    readonly to: readonly Id[];
    /** m³ planned, and m³/s of the pump. */
    readonly moves?: Estimate;
    readonly rate?: Estimate;
    /** Room up to 95 %, m³: with what is in now, and if it were empty. Of all the tanks that it can run into, the least: it may all go into that one. */
    readonly room?: number;
    readonly roomWhenEmpty?: number;
    /** What does not fit, m³, with what is in now, or else with what would be too much even if the tank were empty. */
    readonly tooMuch?: Estimate;
    /** s for what is planned at the pump's rate, and for the room that there is. */
    readonly seconds?: Estimate;
    readonly secondsToFull?: Estimate;
    readonly lacks: readonly TimeLack[];
}

/** For each electric pump between tanks in a line-up for transfer. `volumes`: m³ that are in the tanks now. */
export function transfersOf(boat: Boat, lineUp: ResolvedLineUp, volumes: Volumes = new Map()): readonly Transfer[] {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const barred = barredFor(network).any;
    if (lineUp.use !== 'transfer') return [];
    const plan = boat.lineUps.find(({ id }) => id === lineUp.id)?.moves;
    return movers(network, linedUp).map((pump): Transfer => {
        const from = tanksBefore(linedUp, `${pump.id}:in`, barred);
        const to = tanksAfter(linedUp, `${pump.id}:out`, barred);
        const into = boat.tanks.filter(({ id }) => to.includes(id));
        const rooms = into.map((tank) => roomIn(tank, volumes.get(tank.id)));
        const empty = into.map((tank) => roomIn(tank, 0));
        const room = leastOf(rooms);
        const roomWhenEmpty = leastOf(empty);
        const moves = plan && sound(estimateOf(plan));
        const rate = pump.rate && sound(estimateOf(pump.rate));
        const against = room ?? roomWhenEmpty;
        const excess = moves && against !== undefined ? minus(moves, exactly(against)) : undefined;
        const seconds = moves && rate && over(moves, rate);
        const secondsToFull = room !== undefined && rate ? over(exactly(room), rate) : undefined;
        return {
            lineUp: lineUp.id, pump: pump.id, from, to, ...(moves && { moves }), ...(rate && { rate }), ...(room !== undefined && { room }), ...(roomWhenEmpty !== undefined && { roomWhenEmpty }),
            ...(excess && excess.most > 0 && { tooMuch: { si: Math.max(0, excess.si), least: Math.max(0, excess.least), most: excess.most } }),
            ...(seconds && { seconds }), ...(secondsToFull && { secondsToFull }),
            lacks: eachLackOnce([
                ...(moves ? [] : [{ about: lineUp.id, of: 'moves' } as const]), ...(rate ? [] : [{ about: pump.id, of: 'rate' } as const]),
                ...into.flatMap((tank, i): TimeLack[] => (empty[i] === undefined ? [{ about: tank.id, of: 'shape' }] : rooms[i] === undefined ? [{ about: tank.id, of: 'level' }] : [])),
            ]),
        };
    });
}

/** Up to 95 %, m³; nothing where it is fuller. */
export function roomIn(tank: Tank, volume: number | undefined): number | undefined {
    const gross = grossOf(tank);
    return gross === undefined || volume === undefined || !Number.isFinite(volume) ? undefined : Math.max(0, FULL * gross - Math.max(0, volume));
}

const leastOf = (rooms: readonly (number | undefined)[]): number | undefined => (rooms.length === 0 || rooms.includes(undefined) ? undefined : Math.min(...rooms as number[]));

/** How many times a tank is pumped round until it counts as clean. Common practice: three at least, five is better. */
export const TURNOVERS = [3, 5] as const;

export interface Polishing {
    /** s in which as much is pumped as is in the tank: V / Q. */
    readonly turnover: Estimate;
    /** s for three and for five of them. */
    readonly seconds: readonly [Estimate, Estimate];
    /** The shares that have not been through the filter by then. */
    readonly unfiltered: readonly [number, number];
}

/** A tank that mixes well all the while: what enters the filter is a sample of the whole, so dc/dt = -c Q/V. Undefined for no tank or no flow. */
export function polishing(volume: Estimate, rate: Estimate): Polishing | undefined {
    const turnover = volume.least >= 0 ? over(volume, rate) : undefined;
    if (!turnover) return undefined;
    const by = (n: number): Estimate => ({ si: n * turnover.si, least: n * turnover.least, most: n * turnover.most });
    return { turnover, seconds: [by(TURNOVERS[0]), by(TURNOVERS[1])], unfiltered: [unfiltered(TURNOVERS[0]), unfiltered(TURNOVERS[1])] };
}

/** e^-n: what has not been through the filter after n turnovers. It also holds for the dirt, for a filter that stops all of it. */
export const unfiltered = (turnovers: number): number => Math.exp(-Math.max(0, turnovers));

export interface PolishingLoop extends Partial<Polishing> {
    readonly lineUp: Id;
    readonly pump: Id;
    readonly tank: Id;
    readonly lacks: readonly TimeLack[];
}

/** For each electric pump that pumps a tank round in a line-up for polishing; the tank is taken as full to 95 % where no volume is given. */
export function polishingOf(boat: Boat, lineUp: ResolvedLineUp, volumes: Volumes = new Map()): readonly PolishingLoop[] {
    const network = networkOf(boat);
    const linedUp = running(network, lineUp.positions);
    const barred = barredFor(network).any;
    if (lineUp.use !== 'polish') return [];
    return movers(network, linedUp).flatMap((pump) => {
        const back = tanksAfter(linedUp, `${pump.id}:out`, barred);
        const round = tanksBefore(linedUp, `${pump.id}:in`, barred).filter((id) => back.includes(id));
        return boat.tanks.filter(({ id }) => round.includes(id)).map((tank): PolishingLoop => {
            const gross = grossOf(tank);
            const rate = pump.rate && sound(estimateOf(pump.rate));
            const volume = volumes.get(tank.id) ?? (gross === undefined ? undefined : FULL * gross);
            const found = rate && volume !== undefined ? polishing(exactly(volume), rate) : undefined;
            return { lineUp: lineUp.id, pump: pump.id, tank: tank.id, ...found, lacks: [...(volume === undefined ? [{ about: tank.id, of: 'shape' } as const] : []), ...(rate ? [] : [{ about: pump.id, of: 'rate' } as const])] };
        });
    });
}
