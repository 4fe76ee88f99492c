/** How she is today, where it was said: what tanks hold, and how she lies. */
import type { Boat } from '../../model/boat';
import { grossOf } from '../../analysis/tanks/liquid';
import type { Condition } from '../../procedures/service/plan';
import type { Circumstances } from '../answers/question';

/** The case of today; or the tanks of which a share cannot be turned into a volume, since their size is not stated. */
export function conditionOf(boat: Boat, { level, levels, heel, trim }: Circumstances): Condition | { readonly unsized: readonly string[] } {
    const said = boat.tanks.flatMap((tank) => { const own = levels.get(tank.id) ?? level; return own === undefined ? [] : [{ tank, own }]; });
    const unsized = said.filter(({ tank, own }) => 'share' in own && grossOf(tank) === undefined).map(({ tank }) => tank.id);
    if (unsized.length > 0) return { unsized };
    return { volumes: new Map(said.map(({ tank, own }) => [tank.id, 'volume' in own ? own.volume : own.share * grossOf(tank)!])), attitude: { heel: heel ?? 0, trim: trim ?? 0 } };
}
