/** What an opening does at the levels and leans of the boat before and after isolating, and what comes out into the can. */
import type { Id } from '../../model/boat';
import type { BleedStep } from '../../model/step';
import { rateOf } from '../../analysis/air/strokes';
import { ventsOf } from '../../analysis/air/vents';
import { atLevel, type Condition } from '../../analysis/opening/condition';
import { open } from '../../analysis/opening/open';
import { openingNamed, type Opening } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { returnsOnly, supplyOnly } from '../../analysis/opening/side';
import { thresholds, type Thresholds } from '../../analysis/opening/thresholds';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { networkOf, type Positions } from '../../analysis/topology/network';
import { volumeOf } from '../../analysis/volumes';
import { comesBy, upright, type Isolated } from './cut-off';
import { groundOf } from './ground';
import type { DrainsWhere } from './plan';
import type { Opened } from './recipes/recipe';
import type { Remark } from './remarks';
import { keep, type Visit } from './visit';

export function drainsWhere(visit: Visit, { part, opening: name }: Opened, { positions, settings }: Isolated): DrainsWhere | undefined {
    const { boat, starts, request: { today } } = visit;
    const opening = openingNamed(boat, part, name);
    if (!opening) return undefined;
    const find = (): Pick<DrainsWhere, 'thresholds' | 'atHalf' | 'byReturn'> => {
        const [supplies, returns] = [networkOf(supplyOnly(boat)), networkOf(returnsOnly(boat))];
        const at = (condition: Condition): Thresholds[] => thresholds(plumbing(supplies, starts.positions, 'leaky'), opening, condition);
        return { thresholds: at(today ?? upright(visit)), ...(!today && { atHalf: at(half(visit)) }), byReturn: leaning(thresholds(plumbing(returns, positions), opening, today ?? upright(visit))) };
    };
    return {
        part, opening: name, ...(today ? find() : keep(boat, `drains ${part} ${name} ${starts.id} ${visit.pumping.key(positions)}`, find)),
        ...(today && { today: outcomeToday(visit, opening, today) }),
        stops: settings.map((setting) => setting.part),
    };
}

/** A check may be worn: what would flood without it is told as flooding. */
function outcomeToday({ boat, network, starts }: Visit, opening: Opening, today: Condition): DrainsWhere['today'] {
    const bare = open(plumbing(networkOf(supplyOnly(boat)), starts.positions, 'leaky'), opening, today).outcome;
    return bare === 'floods' || bare === 'level' || bare === 'cannot tell' ? bare : open(plumbing(network, starts.positions), opening, today).outcome;
}

/** Every tank half full, upright: the level that figures are commonly told for. */
const half = ({ boat }: Visit): Condition => keep(boat, 'half', () => ({ attitude: UPRIGHT, volumes: atLevel(boat, 0.5) }));

/** Those of which some lean within what is looked at floods the opening. */
const leaning = (found: readonly Thresholds[]): Thresholds[] => found.filter(({ port, stbd }) => typeof port === 'number' || typeof stbd === 'number');

/** What comes by a return when she leans, as a remark at the opening. */
export const byReturn = ({ part, opening, byReturn: found }: DrainsWhere): Remark[] => found.map(({ tank, port, stbd }) => ({
    say: 'by the return', with: { part, opening, tank, ...(typeof port === 'number' && { port }), ...(typeof stbd === 'number' && { stbd }) },
}));

export interface Comes {
    /** What runs into the can with the valves shut, m³, of what is known. */
    readonly volume: number;
    /** Parts whose content is not known. */
    readonly unknown: readonly Id[];
}

/** The content of the part and what hangs above the opening and can run to it. */
export function comesOut(visit: Visit, opened: readonly Opened[], positions: Positions): Comes {
    const { boat, network } = visit;
    const parts = new Set(opened.flatMap(({ part, opening: name }) => {
        const opening = openingNamed(boat, part, name);
        return opening ? groundOf(boat).comesOut(positions, opening) : [];
    }));
    const volumes = [...parts].map((id) => [id, volumeOf(boat, id)] as const);
    const holds = (id: Id): boolean => network.through.get(id)?.some((i) => network.passages[i]!.segment) ?? false;
    return { volume: volumes.reduce((sum, [, volume]) => sum + (volume ?? 0), 0), unknown: volumes.filter(([id, volume]) => volume === undefined && holds(id)).map(([id]) => id) };
}

/** Cans as they are sold, m³. */
const CANS = [0.5, 1, 2, 5, 10, 20, 50, 100, 200].map((litres) => litres * 1e-3);
/** Where not all is known, m³: a can that is easily at hand. */
const CAN_UNKNOWN = 2e-3;

/** At least twice what comes (trade practice), or so many times, in a size that there is. */
export function canFor({ volume, unknown }: Comes, times = 2): number {
    const least = Math.max(times * volume, unknown.length > 0 ? CAN_UNKNOWN : 0);
    return CANS.find((size) => size >= least - 1e-9) ?? Math.ceil(least * 1e2) / 1e2;
}

/** What a bleed may bring into a can before it is stopped to think, m³, foam counted as if it were liquid; undefined where it is not known. */
export function streamAt({ network }: Visit, { driver, expect }: BleedStep): number | undefined {
    const rate = rateOf(network.parts.get(driver.part), driver.by);
    const stroke = network.parts.get(driver.part)?.stroke?.si;
    if (!expect) return undefined;
    return expect.in === 'strokes' ? stroke && (expect.think + MORE) * stroke : driver.by === 'electric' && rate !== undefined ? (expect.think + MORE) * rate : undefined;
}

/** Ten strokes, or a few seconds, to see that no bubble comes. */
const MORE = 10;
/** What a pad takes without a can, m³: common practice. */
const BY_PADS = 1e-4;

/** Through a clear tube into a can: what an electric pump or a tank's height brings, and more than pads take. */
export function runsByTube({ network }: Visit, { driver, expect }: BleedStep): boolean {
    if (driver.by === 'electric' || driver.by === 'gravity') return true;
    const stroke = network.parts.get(driver.part)?.stroke?.si;
    return expect !== undefined && stroke !== undefined && expect.most * stroke > BY_PADS;
}

/** What the stream at an opening tells of the valves before it, by the height of the tanks over it. */
export function proof(visit: Visit, { part, opening: name }: Opened, { settings }: Pick<Isolated, 'settings'>): { readonly does: 'prove' | 'nothing' | 'may'; readonly remarks: readonly Remark[] } {
    const { boat, network, starts } = visit;
    const opening = openingNamed(boat, part, name);
    const valves = settings.map((setting) => setting.part);
    const told = { valves, part, opening: name };
    if (!opening || valves.length === 0) return { does: 'nothing', remarks: [] };
    // A tight check must not be what holds: it is counted here, so that the level told is one at which the stream surely runs.
    const found = keep(boat, `proof ${part} ${name} ${starts.id}`, () => thresholds(plumbing(network, starts.positions), opening, upright(visit))).filter(({ volume }) => volume !== 'never');
    const above = found.flatMap(({ tank, volume }): Remark[] => (typeof volume === 'number' ? [{ say: 'proves above', with: { ...told, tank, volume } }] : []));
    if (above.length > 0) return { does: 'prove', remarks: above };
    if (found.length > 0) return { does: 'may', remarks: [{ say: 'may prove nothing', with: told }] };
    return { does: 'nothing', remarks: comesBy(visit, 'supply', starts.positions, opening).comes === 'nothing' ? [] : [{ say: 'proves nothing', with: told }] };
}

/** What lets air into a part that is drained: its lid or body where the work opens it; else its bleed point, which disturbs no seal. */
export function airBy({ network }: Visit, part: Id, opened: readonly Opened[]): string {
    const body = network.parts.get(part)?.lid ? 'lid' : 'ports';
    return opened.some((one) => one.part === part && one.opening === body) ? body : ventsOf(network, part)[0] ?? body;
}
