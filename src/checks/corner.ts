/** Words for the place in the envelope at which something is worst. */
import type { Boat, Id } from '../model/boat';
import type { Condition } from '../analysis/opening/condition';
import type { Attitude } from '../analysis/tanks/attitude';
import { grossOf } from '../analysis/tanks/liquid';
import { fromSI } from '../model/units';

const short = (value: number): string => String(Number(value.toPrecision(3)));

export const degrees = (rad: number): string => `${short(Math.abs(fromSI(rad, 'deg')))}°`;
export const millimetres = (si: number): string => `${Math.round(fromSI(Math.abs(si), 'mm'))} mm`;

/** heeled 10° to port, bow 3° down */
export function attitudeWords({ heel, trim }: Attitude): string {
    const parts = [
        ...(heel === 0 ? [] : [`heeled ${degrees(heel)} to ${heel < 0 ? 'port' : 'starboard'}`]),
        ...(trim === 0 ? [] : [`bow ${degrees(trim)} ${trim < 0 ? 'down' : 'up'}`]),
    ];
    return parts.length === 0 ? 'upright' : parts.join(', ');
}

/** heeled 25° to port, bow 3° down, T1 at 95 %, in RUN */
export function cornerWords(boat: Boat, { attitude, volumes }: Condition, tank: Id, lineUp: Id): string {
    const [volume, gross] = [volumes.get(tank), grossOf(boat.tanks.find(({ id }) => id === tank)!)];
    return `${attitudeWords(attitude)}${volume === undefined || gross === undefined ? '' : `, ${tank} at ${short((volume / gross) * 100)} %`}, in ${lineUp}`;
}
