/** One attitude of the boat, as the elevation draws it: how high a place then stands, where the surfaces are, what comes to an opening. */
import type { Boat, Id, Tank } from '../../../model/boat';
import type { Place } from '../../../model/measure';
import { atLevel, surfaceIn, type Condition } from '../../../analysis/opening/condition';
import { open, type Opened } from '../../../analysis/opening/open';
import { openingsOf, type Opening } from '../../../analysis/opening/openings';
import { plumbing } from '../../../analysis/opening/plumbing';
import { heightOf, UPRIGHT, type Attitude } from '../../../analysis/tanks/attitude';
import { grossOf, span, surfaceAt } from '../../../analysis/tanks/liquid';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { lineUpNetwork, networkOf, reach, type Network, type Positions } from '../../../analysis/topology/network';
import { eitherWay } from '../../../analysis/topology/paths';
import { degrees, figure, listed } from '../../../model/words';
import { drawnLineUp, type Sheet } from '../sheet';

export interface View {
    readonly title: string;
    readonly attitude: Attitude;
    readonly condition: Condition;
    readonly state: State;
    /** What comes when a part is opened, asked for the drawing and for its words. */
    readonly opened: Map<Id, readonly string[]>;
}

/** What holds for all views of a sheet. */
export interface State {
    readonly boat: Boat;
    readonly network: Network;
    readonly lineUp: ResolvedLineUp | undefined;
    readonly positions: Positions;
    /** A share of the gross volume, and whether somebody said it. */
    readonly level: number;
    readonly levelSaid: boolean;
}

export function stateOf(boat: Boat, { lineUp, level, markup }: Sheet): State {
    const drawn = drawnLineUp(boat, lineUp);
    const said = level !== undefined && Number.isFinite(level);
    return {
        boat, network: networkOf(boat), lineUp: drawn, positions: new Map([...drawn?.positions ?? [], ...markup?.positions ?? []]),
        level: said ? Math.min(1, Math.max(0, level)) : 0.5, levelSaid: said,
    };
}

/** One view as she was said to lean; else upright, and leaning to both sides as far as her envelope says. */
export function viewsOf(state: State, { heel }: Sheet): readonly View[] {
    const { envelope } = state.boat.vessel;
    const most = Math.abs(envelope.heel?.high ?? envelope.heel?.si ?? 0);
    const leans = heel !== undefined && Number.isFinite(heel) ? [heel + 0] : most > 0 ? [0, most, -most] : [0];
    const volumes = atLevel(state.boat, state.level);
    return leans.map((lean) => {
        const attitude: Attitude = lean === 0 ? UPRIGHT : { heel: lean, trim: 0 };
        return { title: leanWords(lean), attitude, condition: { attitude, volumes }, state, opened: new Map() };
    });
}

export const leanWords = (heel: number): string => (heel === 0 ? 'Upright' : `${heel > 0 ? 'Starboard' : 'Port'} side down, ${degrees(heel)}`);

export const mm = (si: number): number => Math.round(si * 1e3) + 0;

export const levelName = (level: number): string => (level === 0.5 ? 'half full' : level === 1 ? 'full' : level === 0 ? 'empty' : `${figure(level * 100)} % full`);

export const heightIn = ({ attitude }: View, place: Place | undefined): number | undefined => finite(heightOf(place, attitude));

const finite = (value: number | undefined): number | undefined => (value !== undefined && Number.isFinite(value) ? value : undefined);

/** She turns about her centreline at the waterline, as the heel is reckoned at which a vent goes under (analysis/tanks/vents.ts). */
export const waterlineIn = (view: View): number | undefined => {
    const { waterline } = view.state.boat.vessel;
    return waterline && heightIn(view, { ...waterline, stbd: { si: 0 } });
};

/** Heights of a tank in a view, m: its ends, and the surfaces that are drawn in it. Undefined when its shape or place is not known. */
export interface TankHeights {
    readonly low: number;
    readonly high: number;
    readonly shown: number;
    readonly half: number;
    readonly brim: number;
    /** Of the lowest level that she is used at, when one is stated. */
    readonly least?: { readonly level: number; readonly height: number };
}

/** As full as a tank is ever filled, a share of its gross volume: common practice. */
export const BRIM = 0.95;

export function tankIn(view: View, tank: Tank): TankHeights | undefined {
    const [ends, shown, gross] = [span(tank, view.attitude), surfaceIn(view.condition, tank), grossOf(tank)];
    if (!ends || shown === undefined || gross === undefined) return undefined;
    const at = (level: number): number => surfaceAt(tank, level * gross, view.attitude)!;
    const { level } = view.state.boat.vessel.envelope;
    const least = level?.low ?? level?.si;
    return { ...ends, shown, half: at(0.5), brim: at(BRIM), ...(least !== undefined && least > 0 && { least: { level: least, height: at(least) } }) };
}

type Word = 'floods' | 'can\'t tell' | 'even' | 'falls back' | 'holds' | 'shut off';
const WORDS: Readonly<Record<Opened['outcome'], Word>> = { floods: 'floods', 'cannot tell': 'can\'t tell', level: 'even', 'falls back': 'falls back', stays: 'holds', 'shut off': 'shut off' };
const BY_WEIGHT: readonly Word[] = ['floods', 'can\'t tell', 'even', 'falls back', 'holds', 'shut off'];

/** What comes at worst: with every check holding, or with every check worn. Where there are several tanks, which of them floods it. */
function wordOf({ condition, state: { boat, network, positions } }: View, opening: Opening): string {
    const found = (['tight', 'leaky'] as const).map((checks) => open(plumbing(network, positions, checks), opening, condition));
    const word = BY_WEIGHT.find((one) => found.some(({ outcome }) => WORDS[outcome] === one))!;
    const from = new Set(found.flatMap(({ tanks }) => tanks.filter(({ outcome }) => outcome === 'floods').map(({ tank }) => tank)));
    // The sea is no tank, and nothing here reckons with it; that it comes has to be said.
    if (word !== 'floods' && seaReaches(network, positions, opening)) return 'the sea';
    return word === 'floods' && boat.tanks.length > 1 ? `floods from ${listed([...from])}` : word;
}

/** Whether the sea stands open to an opening, with the valves as they are drawn. */
function seaReaches(network: State['network'], positions: State['positions'], { part }: Opening): boolean {
    const seas = network.points.flatMap((name, i) => (name.endsWith(':sea') ? [i] : []));
    if (seas.length === 0) return false;
    const linedUp = lineUpNetwork(network, positions);
    const met = reach(linedUp, eitherWay(linedUp), seas);
    return (network.through.get(part) ?? []).some((i) => met.has(network.passages[i]!.from) || met.has(network.passages[i]!.to));
}

/** In one word where all openings of a part agree, else one for each. */
export function openedWords(view: View, id: Id): readonly string[] {
    const known = view.opened.get(id);
    if (known) return known;
    const told = (openingsOf(view.state.boat).get(id) ?? []).map((opening) => ({ name: opening.name, word: wordOf(view, opening) }));
    const words = new Set(told.map(({ word }) => word));
    const found = words.size === 1 ? [...words] : told.map(({ name, word }) => `${name} ${word}`);
    view.opened.set(id, found);
    return found;
}

/** Tanks that stand open to any of these points with the valves as they are drawn. */
export function tanksAt({ boat, network, positions }: State, points: readonly string[]): readonly Tank[] {
    const linedUp = lineUpNetwork(network, positions);
    const starts = points.flatMap((point) => network.index.get(point) ?? []);
    const met = reach(linedUp, eitherWay(linedUp), starts, new Set([...network.consumers.keys()].flatMap((id) => network.through.get(id) ?? [])));
    return boat.tanks.filter(({ id }) => met.has(network.tanks.get(id)!));
}
