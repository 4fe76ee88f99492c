/** After the tank ran dry: fuel in, and a bleed of all that lies between the tank and the engine. */
import type { Boat, Consumer, Id } from '../../../model/boat';
import type { Recipe } from './recipe';
import { FLUSH } from '../../../analysis/air/strokes';
import { grossOf } from '../../../analysis/tanks/liquid';
import { FULL, leastToWet, mostToWet } from '../../../analysis/tanks/pickups';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { burnersOf } from '../../../analysis/time/burners';
import { fittingOf } from '../../../analysis/topology/joints';
import { partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { volumeOf } from '../../../analysis/volumes';
import { planBleed } from '../../bleed';
import { blank, planned } from './operation';

const AROUND = 60 * 60;

export const runDry: Recipe = {
    verb: 'run dry',
    rows: (boat) => enginesOf(boat).map(({ id }) => ({ verb: 'bleed', part: id, piece: 'after running dry' })),
    fits: ({ boat }, { verb, part, piece }) => verb === 'bleed' && piece === 'after running dry' && boat.consumers.some(({ id }) => id === part),
    make: ({ boat, network, request, starts, ends }, { part }) => {
        const engine = part!;
        const plan = planBleed(boat, { engine, opened: [], ranDry: true, starts: starts.id, ends: ends.id });
        if ('refused' in plan) return blank(plan.refused, plan.missing);
        const linedUp = running(network, ends.positions);
        const tanks = tanksBefore(linedUp, `${engine}:in`);
        const before = partsBefore(linedUp, `${engine}:in`);
        const needs = tanks.map((id) => ({ tank: id, fuel: toFill(boat, id, [...before], [...plan.air.keys()]) }));
        const fuel = needs.some(({ fuel: needed }) => needed === undefined) ? undefined : needs.reduce((sum, { fuel: needed }) => sum + needed!, 0);
        return {
            consumers: [engine, ...plan.tainted], takes: { seconds: AROUND, people: 1 }, needs: { ...(fuel !== undefined && { fuel }) },
            whole: [
                planned('prepare', { do: 'stop', part: engine, keyOut: true }, { say: 'stop-cranking', with: { engine } }),
                ...needs.map(({ tank, fuel: needed }) => planned('prepare', { do: 'look', part: tank, piece: 'level' }, { say: 'fill-first', with: { tank, ...(needed !== undefined && { volume: needed }), ...fullOf(boat, tank) } }, { say: 'why-it-ran-dry', with: { tank } })),
                planned('prepare', { do: 'switch', thing: 'bilge pump', to: 'off' }),
            ],
        };
    },
};
