/** The level to which tanks are filled is one fact of the vessel, so this is one finding, whichever tanks it speaks of. */
import type { Boat, Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { BASE, volumeCorrection } from '../../analysis/flow/density';
import { grossOf } from '../../analysis/tanks/liquid';
import { FULL } from '../../analysis/tanks/pickups';
import { fromSI } from '../../model/units';
import { figure, listed, litres } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { highLevelMissing, shapeGrounds } from '../../analysis/missing';

export const expansion: Check = {
    code: 'EXPANSION', severity: 'advice',
    statement: 'Tanks for fuel are filled to 95 % at most: the highest level of the envelope says so.',
    prevents: 'Fuel that comes out of the vent when a tank filled from a cold store grows warm.',
    facts: 'highest level of the envelope; fuel temperature of the envelope; size of the tanks',
    source: 'common practice; how much fuel grows by API MPMS 11.1, for 840 kg/m³ at 15 °C',
    judge: (view) => [judge(view)],
};

/** What it may grow warm by after filling, K, where the envelope does not say from what to what: common practice. */
const WARMER = 20;

/** What a volume grows by from 15 °C, as a share of it. */
export const growth = (kelvin: number, density = 840): number => 1 / (volumeCorrection(density, BASE + kelvin) ?? 1) - 1;

/** What it may grow by, and when, in words: from the coldest of the envelope to the warmest, as the calculation sheet has it. */
function warming({ vessel: { envelope: { fuel } } }: Boat): { readonly by: number; readonly words: string } {
    if (fuel?.low === undefined || fuel.high === undefined) return { by: growth(WARMER), words: `Warmed by ${WARMER} degrees fuel grows` };
    return { by: (1 + growth(fuel.high - BASE)) / (1 + growth(fuel.low - BASE)) - 1, words: `From the coldest fuel of the envelope, ${figure(fromSI(fuel.low, 'degC'))} °C, to the warmest, ${figure(fromSI(fuel.high, 'degC'))} °C, it grows` };
}

function judge({ boat }: View): Verdict {
    const about = 'vessel';
    const tanks = boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel');
    if (tanks.length === 0) return nothing('no tank for fuel is written');
    const { level } = boat.vessel.envelope;
    if (!level) return { outcome: 'cannot tell', about, missing: [highLevelMissing] };
    const high = level.high ?? level.si;
    const rests: Ground[] = [{ about, fact: 'envelope level' }];
    if (high <= FULL + 1e-9) return { outcome: 'pass', about, rests };
    const { by, words } = warming(boat);
    if (boat.vessel.envelope.fuel) rests.push({ about, fact: 'envelope fuel' });
    const sized = tanks.filter((tank) => grossOf(tank) !== undefined);
    return {
        outcome: 'fail', about, fact: 'envelope level', rests: [...rests, ...sized.flatMap((tank) => shapeGrounds(boat, tank.id))], members: tanks.map(({ id }) => id),
        message: `The envelope lets ${listed(tanks.map(({ id }) => id))} be filled to ${figure(high * 100)} %. ${words} by about ${figure(by * 100, 2)} %: ${sized.length > 0 ? listed(sized.map((tank) => grows(tank, high, by))) : `${figure((1 - high) * 100, 2)} % of room is left`}.`,
        reason: 'A tank filled from a cold store warms in the bilge or by its return, heeled at that, and what has no room comes out of the vent.',
        advice: 'Write 95 % as the highest level, like `envelope level 20 to 95 %`, stop filling there, and mark it on the sounding stick.',
    };
}

function grows(tank: Tank, high: number, by: number): string {
    const gross = grossOf(tank)!;
    const [more, room] = [high * gross * by, (1 - high) * gross];
    return more > room + 1e-6 ? `${litres(more - room)} come out of ${tank.id}` : `${litres(more)} more in ${tank.id}, which has room for ${litres(room)}`;
}
