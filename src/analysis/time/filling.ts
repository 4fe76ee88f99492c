/**
 * What the air that a filling tank pushes out takes in the vent line, by the formula of Darcy and Weisbach: Δp = (f L/D + K) ρ v²/2, the air leaving as
 * fast as the fuel comes. At such pressures air is not squeezed together to speak of.
 */
import type { Boat, Fitting, Id, Part } from '../../model/boat';
import { estimateOf, sound, type Estimate } from '../estimate';
import { areaOf, DRAWN, frictionFactor, reynolds, type Pipe } from '../flow/pipe';
import { rowOf } from '../flow/row';
import { linesOut } from '../tanks/to-outside';
import { networkOf, type Network } from '../topology/network';
import { eachLackOnce, type TimeLack } from './lack';

/** At some 20 °C and sea level: 1.2 kg/m³ (the standard atmosphere gives 1.204) and 1.5e-5 m²/s. Handbook values, rounded. */
export const AIR = { density: 1.2, viscosity: 1.5e-5 } as const;

/**
 * Into the line 0.5, out of it 1.0, and 1.5 for the bend over at its crest: the textbooks' values for a flush mouth, a free end and a screwed
 * half turn. A gauze that is clogged takes more; nobody knows how much.
 */
export const MOUTH_K = 0.5 + 1.0;
export const CREST_K = 1.5;

/** 33 CFR 183.520, for petrol boats, by analogy: the vent must keep the tank within 80 % of the pressure it is labelled for. */
export const SHARE_OF_TEST = 0.8;

/** Pa at a rate of filling in m³/s. `k` counts at the speed in the narrowest pipe, so that it is never counted for less than it takes. Undefined without pipes, or for figures that are none. */
export function ventPressure(pipes: readonly Pipe[], rate: number, k: number): number | undefined {
    if (pipes.length === 0 || !(rate >= 0) || !(k >= 0) || pipes.some(({ bore, length }) => !(bore > 0) || !(length >= 0))) return undefined;
    const dynamic = (bore: number): number => AIR.density * (rate / areaOf(bore)) ** 2 / 2;
    const friction = pipes.reduce((sum, { bore, length }) => sum + frictionFactor(reynolds(rate / areaOf(bore), bore, AIR.viscosity), DRAWN / bore) * (length / bore) * dynamic(bore), 0);
    const found = friction + k * dynamic(Math.min(...pipes.map(({ bore }) => bore)));
    return Number.isFinite(found) ? found : undefined;
}

export interface Filling {
    readonly tank: Id;
    readonly fill: Id;
    /** The vent line by which it is told: of several the one that takes least, as if the others were not there. */
    readonly vent?: Id;
    readonly parts: readonly Id[];
    /** m³/s. */
    readonly rate?: Estimate;
    /** Pa in the tank while it is filled, at most. */
    readonly pressure?: Estimate;
    /** Pa that it may be: 80 % of its test pressure. */
    readonly allowed?: number;
    readonly lacks: readonly TimeLack[];
    readonly taken: readonly string[];
}

/** For each fill of each tank that has one. */
export function fillingsOf(boat: Boat): readonly Filling[] {
    const network = networkOf(boat);
    return boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'fill').map((fill): Filling => {
        const rate = fill.takes && sound(estimateOf(fill.takes));
        const lines = tank.fittings.filter(({ kind }) => kind === 'vent').flatMap((vent) => linesOut(network, vent.id).map((parts) => ({ vent, parts, ...ventLine(network, vent, parts) })));
        const whole = lines.filter(({ lacks, pipes }) => lacks.length === 0 && pipes.length > 0);
        const told = rate ? whole.flatMap((line) => { const pressure = through(line.pipes, rate, line.k); return pressure ? [{ ...line, pressure }] : []; }).sort((a, b) => a.pressure.si - b.pressure.si)[0] : undefined;
        const line = told ?? whole[0] ?? lines[0];
        const tested = tank.tested && sound(estimateOf(tank.tested));
        const lacks: TimeLack[] = [
            ...(rate ? [] : [{ about: fill.id, of: 'takes' } as const]), ...(tested ? [] : [{ about: tank.id, of: 'tested' } as const]),
            ...(whole.length > 0 ? [] : lines.length > 0 ? lines.flatMap((one) => one.lacks) : [{ about: tank.id, of: 'line' } as const]),
        ];
        return {
            tank: tank.id, fill: fill.id, ...(line && { vent: line.vent.id }), parts: line?.parts.map(({ id }) => id) ?? [], ...(rate && { rate }), ...(told && { pressure: told.pressure }),
            ...(tested && { allowed: SHARE_OF_TEST * tested.least }), lacks: eachLackOnce(lacks), taken: ['air is taken as 1.2 kg/m³ and 15 mm²/s (handbook value)', 'the mouths of the vent line count 1.5 velocity heads, the bend at its crest as much (textbook values)'],
        };
    }));
}

function through(pipes: readonly Pipe[], rate: Estimate, k: number): Estimate | undefined {
    const [si, least, most] = [rate.si, rate.least, rate.most].map((flow) => ventPressure(pipes, flow, k));
    return si === undefined || least === undefined || most === undefined ? undefined : sound({ si, least, most });
}

/** Its pipes from the tank outwards; the fitting counts as a pipe without length, where its bore is known. */
function ventLine(network: Network, vent: Fitting, parts: readonly Part[]): { readonly pipes: readonly Pipe[]; readonly k: number; readonly lacks: readonly TimeLack[] } {
    const row = rowOf(network, parts.map(({ id }) => id));
    // Every vent line bends over somewhere, whether or not its crest is written.
    const crests = Math.max(1, parts.filter(({ crest }) => crest).length);
    return { pipes: [...(vent.bore && row.pipes.length > 0 ? [{ bore: vent.bore.si, length: 0 }] : []), ...row.pipes], k: MOUTH_K + crests * CREST_K, lacks: [...row.lacks, ...(row.pipes.length === 0 && row.lacks.length === 0 ? [{ about: vent.id, of: 'line' } as const] : [])] };
}
