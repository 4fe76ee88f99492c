/** Which pressures may be told: a pipe of which bore or length is not stated counts as none, so what lies beyond it as seen from its tank would be told too low. */
import type { Id } from '../../model/boat';
import { fittingOf } from '../topology/joints';
import type { Passed, Steady } from './steady';

/** Pa above the surroundings; undefined too where something on the way from the tank that settles it is not known. */
export function gaugeTold(steady: Steady, point: string): number | undefined {
    const gauge = steady.gaugeAt(point);
    if (gauge === undefined || steady.lacks.length === 0) return gauge;
    const partOf = ({ passage }: Passed): Id => steady.network.passages[passage]!.part!;
    const before = steady.wayTo(point).map(partOf);
    // A return hangs on the tank that it runs to.
    const way = before[0] !== undefined && fittingOf(steady.network.boat, before[0]) ? before : steady.wayFrom(point).map(partOf);
    return steady.lacks.some(({ about, of }) => of !== 'surface' && of !== 'when off' && way.includes(about)) ? undefined : gauge;
}
