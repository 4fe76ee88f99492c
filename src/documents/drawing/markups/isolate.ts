/** A part cut off from every tank: the fewest valves for it, what is cut off with it, and what runs out when it is opened. */
import type { Boat, Id } from '../../../model/boat';
import { openingsOf } from '../../../analysis/opening/openings';
import { isCutOff, type Checks } from '../../../analysis/topology/isolating';
import { turned } from '../../../analysis/topology/line-ups';
import { networkOf, type Positions } from '../../../analysis/topology/network';
import { volumeOf } from '../../../analysis/volumes';
import { nameOf } from '../../../checks/check';
import { listed, litres } from '../../../model/words';
import { groundOf } from '../../../procedures/service/ground';
import { answerIsolate, cutOff, heldBy } from '../../answers/isolate';
import type { Mark, Markup } from '../markup';
import { unsaidNotes } from './line-up';
import type { Refused, Shown } from './markup';
import { shownState } from './state';
import { onLines, turnedMarks } from './things';

export function isolateMarkup(of: Shown, part: Id): Markup | Refused {
    const { boat } = of;
    if (!networkOf(boat).through.has(part)) return { refused: `There is no part called ${part} that liquid passes.` };
    const state = shownState(of, 'full');
    if ('refused' in state) return state;
    const { positions: before } = state.lineUp;
    const { worn, trusted, first } = cutOff(boat, part, before);
    const after = (first?.settings ?? []).reduce<Positions>((at, setting) => turned(boat, at, setting.part, setting.position), before);
    const [isSure, isCut] = [worn, trusted].map(({ sets, already: is }) => is || sets.length > 0) as [boolean, boolean];
    const relied = isSure || !isCut ? [] : [...new Set(worn.cannot.flatMap(({ by }) => heldBy(boat, by)))];
    const checks = isSure ? 'leaky' : 'tight';
    const already = new Set(cutOffIn(boat, before, checks));
    const dead = cutOffIn(boat, after, checks).filter((id) => id !== part && !already.has(id));
    const hangs = isCut || isSure ? drained(boat, after, part) : [];
    const valves = turnedMarks(boat, before, after);
    return {
        title: `${part} ${isSure ? 'cut off' : isCut ? 'cut off as far as checks hold' : 'cannot be cut off'}, from ${state.lineUp.id}`, ...(valves.length > 0 && { positions: after }),
        marks: [
            { about: part, as: 'about' }, ...valves,
            ...dead.filter((id) => !valves.some(({ about }) => about === id)).map((about): Mark => ({ about, as: 'dead', ...(hangs.includes(about) && { words: 'drains' }) })),
            ...relied.filter((id) => id !== part).map((about): Mark => ({ about, as: 'about', words: 'must hold' })),
        ],
        notes: [
            ...answerIsolate(boat, part, undefined, state).body.filter((said): said is string => typeof said === 'string'), ...unsaidNotes(state.lineUp),
            ...(dead.length > 0 ? [`Cut off with it: ${listed(dead.map((id) => nameOf(boat, id)))}.`] : []), ...(hangs.length > 0 ? [drainWords(boat, part, hangs)] : []),
        ],
    };
}

/** Parts to which no liquid of a tank can come with the valves so. */
export function cutOffIn(boat: Boat, positions: Positions, checks: Checks): Id[] {
    const network = networkOf(boat);
    const tanks = boat.tanks.map(({ id }) => id);
    return onLines(boat).filter((id) => network.parts.has(id) && isCutOff(network, positions, id, tanks, { checks }));
}

/** What runs out by some opening of the part, with the tanks as full as they are used. */
function drained(boat: Boat, positions: Positions, part: Id): Id[] {
    const out = new Set((openingsOf(boat).get(part) ?? []).flatMap((opening) => groundOf(boat).comesOut(positions, opening)));
    const { through, passages } = networkOf(boat);
    return boat.parts.map(({ id }) => id).filter((id) => out.has(id) && (through.get(id) ?? []).some((i) => passages[i]!.segment));
}

function drainWords(boat: Boat, part: Id, hangs: readonly Id[]): string {
    const volumes = hangs.map((id) => volumeOf(boat, id));
    const known = volumes.every((volume) => volume !== undefined) ? `, ${litres(volumes.reduce((sum, volume) => sum + volume!, 0))} in all` : '';
    return `Opened, what is in ${listed(hangs.map((id) => nameOf(boat, id)))} can run out of ${nameOf(boat, part)}${known}.`;
}
