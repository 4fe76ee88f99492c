/** What drains where, and how to stop it: at the top of the page. */
import type { Boat, Id } from '../../model/boat';
import type { Thresholds } from '../../analysis/opening/thresholds';
import { highLevel } from '../../analysis/opening/condition';
import { grossOf } from '../../analysis/tanks/liquid';
import type { DrainsWhere, ProcedurePlan } from '../../procedures/service/plan';
import { attitudeWords, capital, leanLimit, listed } from '../../model/words';
import { canWords, nameOf, openingPhrase, partOf } from './naming';

export function drainLines(boat: Boat, { drainsWhere, request: { today }, fluid }: ProcedurePlan): string[] {
    const shut = (stops: readonly Id[]): string => `${listed(stops.map((id) => nameOf(boat, id)))} ${stops.length > 1 ? 'are' : 'is'} ${areShutoffs(boat, stops) ? 'shut' : 'set'}`;
    const lies = today ? attitudeWords(today.attitude) : 'upright';
    const lines = drainsWhere.flatMap((where) => {
        const what = capital(openingPhrase(boat, where.part, where.opening));
        const before = where.stops.length > 0 ? `${what}, before ${shut(where.stops)}` : `${what}, with the valves as they stand`;
        const floods = where.thresholds.map((limits) => floodWords(boat, limits, where.atHalf?.find(({ tank }) => tank === limits.tank), lies, today?.volumes)).filter((words) => words !== '');
        const back = where.byReturn.map((limits) => [limits.tank, leanWords(limits)] as const).filter(([, words]) => words !== '');
        return [
            ...(floods.length > 0 ? [`${before}: ${floods.join(' ')}`] : []),
            ...(where.today === undefined ? [] : [`${what}, today: ${TODAY[where.today]}`]),
            ...back.map(([tank, words]) => `${what}, by the return: ${fluid} of ${tank} still comes back ${words}. No valve of the supply stops that.`),
        ];
    });
    return [...lines, ...stopLines(boat, drainsWhere)];
}

function stopLines(boat: Boat, drainsWhere: readonly DrainsWhere[]): string[] {
    const by = new Map<string, DrainsWhere[]>();
    for (const where of drainsWhere) if (where.stops.length > 0) by.set(where.stops.join(), [...(by.get(where.stops.join()) ?? []), where]);
    return [...by.values()].map((all) => `To stop what comes by the supply to ${listed(all.map(({ part, opening }) => openingPhrase(boat, part, opening)))}: ${setWords(boat, all[0]!.stops)}.`);
}

const areShutoffs = (boat: Boat, valves: readonly Id[]): boolean => valves.every((id) => partOf(boat, id)?.kind === 'shutoff');
/** A valve with more than two positions is set to one that the table tells. */
const setWords = (boat: Boat, valves: readonly Id[]): string => { const all = listed(valves.map((id) => nameOf(boat, id))); return areShutoffs(boat, valves) ? `shut ${all}` : `set ${all} as in the valve table, under Work`; };

const TODAY = {
    floods: 'it would flood.', level: 'the tank stands level with it. Be ready for either.', 'falls back': 'nothing runs out, and the column falls back.', stays: 'nothing runs out.',
    'shut off': 'no tank can reach it.', 'cannot tell': 'what it does cannot be told.',
} as const;

/** From which level; and where it does not flood upright anyway, from which lean at the level of today, or else when as full as ever used and when half full. */
function floodWords(boat: Boat, limits: Thresholds, half: Thresholds | undefined, lies: string, volumes: ReadonlyMap<Id, number> | undefined): string {
    const { tank, volume } = limits;
    const gross = grossOf(boat.tanks.find(({ id }) => id === tank)!);
    const today = volumes?.get(tank);
    const never = [limits, ...(half ? [half] : [])].every(({ port, stbd }) => port === 'never' && stbd === 'never');
    if (volume === 'never' && never) return `${tank} never floods it.`;
    const level = volume === undefined ? [] : [volume === 'never' ? `${lies} ${tank} never floods it` : volume <= 0 ? `${lies} ${tank} floods it at any level` : `${lies} ${tank} floods it with more than ${canWords(volume, 'down')}`];
    const levels: [string, Thresholds][] = today !== undefined ? [[`with ${canWords(today)} in it`, limits]]
        : gross === undefined ? [['', limits]] : [[`full (${inBrackets(gross * highLevel(boat))})`, limits], ...(half ? [[`half full (${inBrackets(gross / 2)})`, half] as [string, Thresholds]] : [])];
    const leans = levels.flatMap(([has, at]) => {
        const words = leanWords(at);
        // That it floods upright is told by the level.
        return words === '' || (words === UPRIGHT_TOO && volume !== undefined) ? [] : [`${has === '' ? '' : `${has}, `}${words}`];
    });
    return leans.length === 0 ? level.map((words) => `${words}.`).join('') : `${[...level, `${level.length === 0 ? `${tank} floods it ` : ''}${leans.join('; ')}`].join('; ')}.`;
}

/** 192 L, 51 US gal */
const inBrackets = (volume: number): string => canWords(volume).replace(' (', ', ').replace(')', '');
const UPRIGHT_TOO = 'even upright';

/** beyond 3.5° to port and 40° to starboard; empty when it never does or nothing is known. */
function leanWords({ port, stbd }: Thresholds): string {
    if (port === 0 || stbd === 0) return UPRIGHT_TOO;
    const beyond = ([[port, 'port'], [stbd, 'starboard']] as const).flatMap(([angle, side]) => (typeof angle === 'number' ? [`${leanLimit(angle)} to ${side}`] : []));
    return beyond.length === 0 ? '' : `beyond ${listed(beyond, 'or')}`;
}
