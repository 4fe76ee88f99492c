/** After the tank ran dry: fuel in, and a bleed of all that lies between the tank and the engine. */
import type { Boat, Id } from '../../../model/boat';
import type { PlannedServiceStep, Remark } from '../plan';
import type { Recipe } from './recipe';
import { FLUSH } from '../../../analysis/air/strokes';
import { grossOf } from '../../../analysis/tanks/liquid';
import { FULL, leastToWet, mostToWet } from '../../../analysis/tanks/pickups';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { burnersOf } from '../../../analysis/time/burners';
import { segmentOf } from '../../../analysis/air/vents';
import { connectedTo, partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { volumeOf } from '../../../analysis/volumes';
import { planBleed, type BleedPlan } from '../../bleed';
import { planned, told } from '../step-of';
import { isMotor } from '../stage';
import { afterBleeding, blank, bleeding, caughtAt } from './operation';

/** s for filling and bleeding, besides the running: no source. */
const AROUND = 60 * 60;
const WORDS = 'after running dry';

export const runDry: Recipe = {
    verb: 'bleed',
    rows: (boat) => boat.consumers.filter(({ kind }) => kind !== 'exchanger').map(({ id }) => ({ verb: 'bleed', part: id, piece: WORDS })),
    fits: ({ boat }, { verb, part, piece }) => verb === 'bleed' && piece === WORDS && boat.consumers.some(({ id }) => id === part),
    make: (visit, { part }) => {
        const { boat, network, request, starts, ends } = visit;
        const engine = part!;
        if (!burnersOf(network).some(({ id }) => id === engine)) return blank(`${engine} burns no fuel.`);
        const plan = planBleed(boat, { engine, opened: [], ranDry: true, starts: starts.id, ends: ends.id });
        if ('refused' in plan) return blank(plan.refused, plan.missing);
        // Who shares its lines is stopped with its key out, and bled with it: it cannot be started before.
        const sharing = plan.tainted.filter((id) => { const own = connectedTo(network, id); return vents(plan).some((vent) => own.has(segmentOf(network, vent)!) || segmentOf(network, vent) === id); });
        const plans = [plan];
        for (const id of sharing) {
            const next = planBleed(boat, { engine: id, opened: [], ranDry: true, starts: ends.id, ends: ends.id });
            if ('refused' in next) return blank(`${id} draws through lines of ${engine}, and cannot be bled after it: ${next.refused}`, next.missing);
            plans.push(next);
        }
        const apart = plan.tainted.filter((id) => !sharing.includes(id));
        const linedUp = running(network, ends.positions);
        const before = partsBefore(linedUp, `${engine}:in`);
        const tanks = tanksBefore(linedUp, `${engine}:in`);
        const filling = tanks.map((tank) => ({ tank, volume: toFill(boat, tank, before, [...plan.air.keys()]), full: fullOf(boat, tank) }));
        const volumes = filling.map(({ volume }) => volume);
        const fuel = volumes.includes(undefined) ? undefined : (volumes as number[]).reduce((sum, volume) => sum + volume, 0);
        const bowls = boat.parts.filter(({ id, kind, separatesWater }) => kind === 'filter' && separatesWater && before.has(id)).map(({ id }) => id);
        const filters = boat.parts.filter(({ id, kind }) => kind === 'filter' && before.has(id)).map(({ id }) => id);
        const dirt: Remark = { say: 'bottom came along', with: { filters } };
        const others: readonly Remark[] = apart.length > 0 ? [{ say: 'bleed these too', with: { consumers: apart, tanks } }] : [];
        const order = inTurn(plans);
        const afterwards = (id: Id): PlannedServiceStep[] => afterBleeding(visit, id).filter(({ step }) => step.do !== 'switch');
        return {
            consumers: [engine, ...plan.tainted], fluid: plan.fluid, takes: { seconds: AROUND, people: 1 }, needs: { ...(fuel !== undefined && { fuel }) },
            preface: [{ say: 'stop cranking', with: { engine } }],
            whole: [
                planned('prepare', { do: 'stop', part: engine, keyOut: true }, { say: 'cold engine', with: { engine } }, ...others),
                ...sharing.map((id) => planned('prepare', { do: 'stop', part: id, ...(isMotor(network.consumers.get(id)!) && { keyOut: true as const }) })),
                ...apart.map((id) => planned('prepare', { do: 'stop', part: id })),
                planned('prepare', { do: 'switch', thing: 'bilge pump', to: 'off' }),
                ...(order.some(({ step }) => step.do === 'start') ? [planned('prepare', { do: 'switch', thing: 'battery switch', to: 'off' }, { say: 'battery off until start' })] : []),
                ...filling.map(({ tank, volume, full }) => told('prepare', { do: 'look', part: tank, piece: 'level' }, { tell: 'fill the tank', with: { tank, volume, full } }, ...(bowls.length === 0 ? [dirt] : []))),
                ...bowls.map((id) => planned('prepare', { do: 'look', part: id, piece: 'bowl', words: 'water, slime' }, dirt)),
                ...caughtAt(visit, order, []),
                ...bleeding(order).flatMap((one) => (one.step.do === 'start' ? [one, ...afterwards(one.step.engine)] : [one])),
                ...plans.filter(({ steps }) => !steps.some(({ step }) => step.do === 'start')).flatMap((one) => afterwards(one.engine)),
                planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' }),
                told('finish', { do: 'look', piece: 'tools' }, { tell: 'count all', with: { things: ['tools', 'pads', 'rags', 'cans'] } }),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            after: others, defaults: plan.defaults,
        };
    },
};

const vents = ({ steps }: BleedPlan): Id[] => steps.flatMap(({ step }) => (step.do === 'bleed' ? [step.vent] : []));

/** One after the other, and only then they are started; what one has bled the next need not bleed again. */
function inTurn(plans: readonly BleedPlan[]): BleedPlan['steps'] {
    const done = new Set<Id>();
    const starts = plans.flatMap(({ steps }) => steps.filter(({ step }) => step.do === 'start'));
    return [...plans.flatMap((plan) => {
        const steps = plan.steps.filter(({ step }) => step.do !== 'start' && !((step.do === 'bleed' || step.do === 'prove') && done.has(step.vent)));
        for (const vent of vents(plan)) done.add(vent);
        return steps;
    }), ...starts];
}

/** So much that the pickups in use stay covered, wherever she leans, when the lines have filled, m³. */
function toFill(boat: Boat, id: Id, before: ReadonlySet<Id>, air: readonly Id[]): number | undefined {
    const tank = boat.tanks.find((other) => other.id === id)!;
    const pickups = tank.fittings.filter((fitting) => before.has(fitting.id));
    const wet = pickups.map(({ mouth }) => mostToWet([tank], mouth, boat.vessel.envelope)?.volume ?? leastToWet(tank, mouth, UPRIGHT));
    const lines = air.map((part) => volumeOf(boat, part));
    if (wet.includes(undefined) || lines.includes(undefined)) return undefined;
    return Math.max(0, ...(wet as number[])) + FLUSH * (lines as number[]).reduce((sum, volume) => sum + volume, 0);
}

const fullOf = (boat: Boat, id: Id): number | undefined => { const gross = grossOf(boat.tanks.find((tank) => tank.id === id)!); return gross === undefined ? undefined : FULL * gross; };
