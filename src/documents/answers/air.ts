/** Air: what no longer holds fuel after parts were opened or the tank ran dry, in a line-up, and where it may stay. */
import type { Boat, Id } from '../../model/boat';
import { afterOpening, afterRunningDry } from '../../analysis/air/opened';
import { lineUpNetwork, networkOf } from '../../analysis/topology/network';
import { partsBefore, running } from '../../analysis/topology/paths';
import { volumeOf } from '../../analysis/volumes';
import { nameOf } from '../../checks/check';
import { listed, litres } from '../../model/words';
import type { Answer } from './answer';
import { round } from './open';
import type { State } from './state';

/** No part: after running dry. */
export function answerAir(boat: Boat, after: readonly Id[], { lineUp }: State): Answer {
    const network = networkOf(boat);
    const dry = after.length === 0;
    const gas = dry
        ? new Map(boat.consumers.flatMap(({ id }) => [...afterRunningDry(running(network, lineUp.positions), id)]))
        : afterOpening(lineUpNetwork(network, lineUp.positions), after);
    const named = (content: 'air' | 'unknown'): Id[] => [...gas].filter(([, held]) => held === content).map(([id]) => id);
    const [air, either] = [named('air'), named('unknown')];
    const crests = [...gas.keys()].filter((id) => network.parts.get(id)?.crest);
    const hit = boat.consumers.filter(({ id }) => [...partsBefore(running(network, lineUp.positions), `${id}:in`)].some((part) => gas.has(part)) || gas.has(id)).map(({ id }) => id);
    const words = (ids: readonly Id[]): string => listed(ids.map((id) => { const volume = volumeOf(boat, id); return `${nameOf(boat, id)}${volume === undefined ? '' : ` (${litres(volume)})`}`; }));
    const known = air.map((id) => volumeOf(boat, id));
    return {
        title: `Air ${dry ? 'after running dry' : `after opening ${listed(after)}`}, in line-up ${lineUp.id}`, defaults: [],
        body: gas.size === 0 ? ['Nothing loses its fuel.'] : [
            ...(air.length > 0 ? [`Full of air: ${words(air)}${known.includes(undefined) || air.length < 2 ? '' : `, ${litres((known as number[]).reduce((sum, volume) => sum + volume, 0))} in all`}.`] : []),
            ...(either.length > 0 ? [`May hold air, by heights, checks and how long it stood open: ${words(either)}.`] : []),
            ...(crests.length > 0 ? [`Air can stay at the crest of ${listed(crests)}.`] : []),
            ...(hit.length > 0 ? [`${listed(hit)} would find it. \`orlop bleed\` writes the sequence that clears it.`] : []),
        ],
        data: { ask: 'air', after, ranDry: dry, lineUp: lineUp.id, air: air.map((id) => heldData(boat, id)), mayHoldAir: either.map((id) => heldData(boat, id)), crests, consumers: hit },
        used: [...gas.keys()].flatMap((about) => [{ about, fact: 'holds' }, { about, fact: 'bore' }, { about, fact: 'length' }, { about, fact: 'at' }, { about, fact: 'ports' }]), missing: [],
    };
}

function heldData(boat: Boat, part: Id): unknown {
    const volume = volumeOf(boat, part);
    return { part, ...(volume !== undefined && { litres: round(volume * 1e3) }) };
}
