/** Words for the place in the envelope at which something is worst. */
import type { Boat, Id } from '../model/boat';
import type { Condition } from '../analysis/opening/condition';
import { grossOf } from '../analysis/tanks/liquid';
import { attitudeWords, figure } from '../model/words';

/** heeled 25° to port, bow 3° down, T1 at 95 %, in RUN */
export function cornerWords(boat: Boat, { attitude, volumes }: Condition, tank: Id, lineUp: Id): string {
    const [volume, gross] = [volumes.get(tank), grossOf(boat.tanks.find(({ id }) => id === tank)!)];
    return `${attitudeWords(attitude)}${volume === undefined || gross === undefined ? '' : `, ${tank} at ${figure((volume / gross) * 100)} %`}, in ${lineUp}`;
}
