/** The figures of height, heel and level of one thing in a few words, each at the fact that it comes from: for hover and in the text. */
import type { Boat, Id } from '../../model/boat';
import { conditionAt } from '../../analysis/opening/condition';
import { openingsOf } from '../../analysis/opening/openings';
import { plumbing } from '../../analysis/opening/plumbing';
import { TIME, severed } from '../../analysis/opening/severed';
import { MOST, thresholds, type Thresholds } from '../../analysis/opening/thresholds';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { grossOf } from '../../analysis/tanks/liquid';
import { drawing, leastToWet, mostToWet, usable } from '../../analysis/tanks/pickups';
import { immersedAt } from '../../analysis/tanks/vents';
import { lineUpsOf, normalLineUp } from '../../analysis/topology/line-ups';
import { isolate } from '../../analysis/topology/isolating';
import { networkOf } from '../../analysis/topology/network';
import { running } from '../../analysis/topology/paths';
import { attitudeWords, degrees, listed, litres } from '../../model/words';
import { settingWords } from '../answers/answer';

export interface Brief {
    /** By the words of the language. */
    readonly fact: string;
    readonly words: string;
}

/** What is not known is left out: the facts to measure stand elsewhere. */
export function briefsOf(boat: Boat, id: Id): readonly Brief[] {
    const tank = boat.tanks.find((other) => other.id === id);
    if (tank) {
        const [gross, use] = [grossOf(tank), usable(tank, tank.fittings.filter(({ id: pickup }) => drawsFuel(boat, pickup)).map(({ mouth }) => mouth))];
        return gross === undefined ? [] : [{ fact: tank.sections ? 'section' : 'box', words: `${litres(gross)}${use === undefined ? '' : `, ${litres(use)} usable upright`}` }];
    }
    const owner = boat.tanks.find(({ fittings }) => fittings.some((fitting) => fitting.id === id));
    const fitting = owner?.fittings.find((other) => other.id === id);
    if (owner && fitting?.kind === 'pickup') {
        const [upright, worst] = [leastToWet(owner, fitting.mouth, UPRIGHT), mostToWet([owner], fitting.mouth, boat.vessel.envelope)];
        return upright === undefined ? [] : [{ fact: 'mouth', words: `dry below ${litres(upright)} upright${worst === undefined || worst.volume < upright + 1e-6 ? '' : `, ${litres(worst.volume)} ${attitudeWords(worst.attitude)}`}` }];
    }
    const part = boat.parts.find((other) => other.id === id);
    if (!part) return [];
    const under = immersedAt(part.outlet, boat.vessel.waterline);
    return [
        ...(under === undefined ? [] : [{ fact: 'outlet', words: under === 'never' ? 'on the centreline: heel alone does not put it under' : under === 0 ? 'under water upright' : `goes under at ${degrees(under)} to ${under < 0 ? 'port' : 'starboard'}` }]),
        ...(part.kind === 'filter' || part.kind === 'strainer' ? openingBriefs(boat, id) : []),
    ];
}

const drawsFuel = (boat: Boat, pickup: Id): boolean => drawing(running(networkOf(boat), new Map(), 'all open'), pickup).length > 0;

/** From which level and which heel each of its openings floods, worn checks not counted. */
function openingBriefs(boat: Boat, id: Id): Brief[] {
    const lineUp = normalLineUp(boat, lineUpsOf(boat));
    if (!lineUp) return [];
    const leaky = plumbing(networkOf(boat), lineUp.positions, 'leaky');
    return (openingsOf(boat).get(id) ?? []).filter(({ name }) => name === 'lid' || name === 'drain' || name === 'ports').flatMap((opening) => {
        const words = thresholds(leaky, opening, conditionAt(boat)).flatMap(limitWords);
        return words.length === 0 ? [] : [{ fact: opening.name, words: words.join('; ') }];
    });
}

function limitWords({ tank, volume, port, stbd }: Thresholds): string[] {
    if (volume === undefined) return [];
    if (volume !== 'never') return [`opened, ${tank} floods it upright with more than ${litres(volume)}`];
    const heels = [...side(port, 'port'), ...side(stbd, 'starboard')];
    if (heels.length > 0) return [`opened, ${tank} when full floods it beyond ${listed(heels, 'or')}`];
    return port === 'never' && stbd === 'never' ? [`opened, ${tank} floods it at no heel up to ${degrees(MOST)}`] : [`opened, ${tank} never floods it upright`];
}

const side = (heel: number | 'never' | undefined, name: string): string[] => (typeof heel === 'number' ? [`${degrees(heel)} to ${name}`] : []);

/** What cuts a part off in the normal line-up, in one sentence. */
export function cutOffWords(boat: Boat, id: Id): string | undefined {
    const lineUp = normalLineUp(boat, lineUpsOf(boat));
    const network = networkOf(boat);
    if (!lineUp || !network.through.has(id)) return undefined;
    const tanks = [...network.tanks.keys()];
    const [worn, trusted] = (['leaky', 'tight'] as const).map((checks) => isolate(network, lineUp.positions, id, tanks, { checks }));
    const first = worn!.sets[0] ?? trusted!.sets[0];
    if (!first) return worn!.already ? `No tank comes to it in ${lineUp.id}.` : trusted!.already ? 'Only checks, pumps or engines keep the tanks out of it.' : 'No valve cuts it off.';
    const stopped = first.blocks.length > 0 ? `, with ${listed(first.blocks)} stopped, whose return that blocks` : '';
    return `To cut it off from ${lineUp.id}: ${settingWords(first.settings)}${stopped}${worn!.sets.length > 0 ? '' : ' (while checks and pumps hold)'}.`;
}

/** What a hose or tube loses if it is cut through, at most, stopped and running in the normal line-up. */
export function severedWords(boat: Boat, id: Id): string | undefined {
    const lineUp = normalLineUp(boat, lineUpsOf(boat));
    if (!lineUp) return undefined;
    const told = severed(boat, lineUp, 'leaky', id).flatMap(({ state, fastest, lacks }) => (fastest && lacks.length === 0 ? [`${state} ${fastest.rate === 0 ? 'nothing but what it holds' : `${litres(fastest.inTime)} in ${TIME} s`}`] : []));
    return told.length === 0 ? undefined : `Cut through it loses, at most: ${told.join(', ')}.`;
}
