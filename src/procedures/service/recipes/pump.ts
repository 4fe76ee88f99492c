/** Hand primers, lift pumps and electric pumps: tested at a vent, looked at, renewed. */
import type { Job, Part } from '../../../model/boat';
import type { ServiceStep } from '../../../model/step';
import { connectedTo } from '../../../analysis/topology/paths';
import { ventsOf } from '../../../analysis/air/vents';
import { driverOf, oneTurned } from '../drivers';
import type { Blank } from '../plan';
import { planned } from '../step-of';
import type { Visit } from '../visit';
import { looked } from './looking';
import { blank, isFor, partOf } from './pieces';
import type { Recipe, Work } from './recipe';
import { renewWhole } from './whole-part';

const KINDS: readonly Part['kind'][] = ['hand primer', 'lift pump', 'electric primer', 'electric pump'];
const TAKES = 600;
const STROKES = 10;

/** At the first vent that it can push fuel to, as the valves stand in the end, or with one of them turned. */
function tested(visit: Visit, _job: Job, pump: Part): Work | Blank {
    const { network, pumping, ends } = visit;
    const driver = driverOf(pump)!;
    const near = [...network.consumers.keys()].filter((consumer) => connectedTo(network, consumer).has(pump.id));
    for (const [changed, positions] of oneTurned(visit, ends.positions, near)) for (const consumer of near) {
        const connected = connectedTo(network, consumer);
        for (const owner of [...network.parts.keys(), consumer]) {
            const [vent] = connected.has(owner) || owner === consumer ? ventsOf(network, owner) : [];
            if (vent === undefined || 'law' in pumping.flow(vent, driver, consumer, positions)) continue;
            const work: ServiceStep = driver.by === 'lever' ? { do: 'prove', part: pump.id, vent, strokes: STROKES } : { do: 'bleed', vent, driver };
            const back: ServiceStep[] = changed === undefined ? [] : [{ do: 'set', part: changed, position: ends.positions.get(changed)! }];
            return {
                opens: [], touches: [pump.id, owner], steps: [], parts: [], seconds: TAKES,
                afterwards: [
                    ...(changed === undefined ? [] : [planned('work', { do: 'set', part: changed, position: positions.get(changed)! })]),
                    planned('work', work, { say: 'delivers', with: { pump: pump.id, vent } }), ...back.map((step) => planned('work', step)),
                ],
            };
        }
    }
    return blank(`${pump.name} pushes fuel to no bleed point at which it could be seen to deliver.`);
}

export const PUMP: readonly Recipe[] = [
    { verb: 'renew', fits: isFor(['renew'], KINDS), make: (visit, job) => renewWhole(visit, partOf(visit, job)!, { remarks: [{ say: 'arrow downstream', with: { part: job.part! } }] }) },
    { verb: 'refit', fits: isFor(['refit'], KINDS), make: (visit, job) => blank(`Of what is inside ${partOf(visit, job)!.name} nothing is written. Renew it whole, or by its maker's book.`) },
    { verb: 'look', fits: isFor(['look'], KINDS), make: (visit, job) => looked(job, partOf(visit, job)!.kind === 'lift pump' ? ['weeps', 'fuel at the tell-tale hole', 'oil that rises or smells of fuel'] : ['weeps', 'chafed wires', 'rust']) },
    { verb: 'drain', fits: isFor(['drain'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing to drain it by.`) },
    { verb: 'clean', fits: isFor(['clean'], KINDS), make: (visit, job) => blank(`Of a strainer inside ${partOf(visit, job)!.name} nothing is written. If it has one, its maker's book tells how it is cleaned.`) },
    { verb: 'test', fits: isFor(['test'], KINDS), make: (visit, job) => tested(visit, job, partOf(visit, job)!) },
];
