/**
 * An engine is fed from a can of clean fuel in an emergency. The line is parted at the inlet of its lift pump, or of its last filter, with the tank shut off; the can
 * stands over all that it feeds, so that it needs no pump; the return comes back to the can, or it would be empty at the engine's gross flow. That it
 * bleeds and runs so is proven on the boat with the can in her.
 */
import type { Id } from '../../../model/boat';
import { placeMissing } from '../../../analysis/missing';
import { demandAt, knots } from '../../../analysis/flow/demand';
import { fluidOf } from '../../../analysis/flow/fluid';
import { GRAVITY } from '../../../analysis/flow/pipe';
import { networkOf } from '../../../analysis/topology/network';
import { tanksBefore, running } from '../../../analysis/topology/paths';
import { segmentOf } from '../../../analysis/air/vents';
import { kPa, listed } from '../../../model/words';
import { planBleed } from '../../bleed';
import { execute } from '../execute';
import { isolationOf } from '../cut-off';
import type { PlannedServiceStep, Remark } from '../plan';
import { canFor, comesOut } from '../drains';
import { visitOf } from '../visit';
import type { Opened, Recipe } from './recipe';
import { planned, told } from '../step-of';
import { cautionAt, withCautions } from '../warnings';
import { afterBleeding, blank, bleeding, caughtAt, idling, named } from './operation';
import { withCan } from './with-can';

const WORDS = 'from a can';
/** s besides the running: no source. */
const AROUND = 45 * 60;
const LITRE = 1e-3;
/** It is waited for a cool engine where the sea leaves time for it (trade practice: say so where it cannot be met). */
const HOT = 'Wait until a hand can rest on the engine. If there is no time for that, keep every drop off its hot parts, lay no rag on them, and keep the extinguisher in the hand. No flame, no smoking, heaters off, air moving.';
/** The can is some 20 L, full; m over its bottom. */
const FULL_CAN = 0.35;

export const jug: Recipe = {
    verb: 'bleed',
    rows: (boat) => boat.consumers.filter(({ kind }) => kind === 'engine' || kind === 'generator').map(({ id }) => ({ verb: 'bleed', part: id, piece: WORDS })),
    fits: ({ boat }, { verb, part, piece }) => verb === 'bleed' && piece === WORDS && boat.consumers.some(({ id }) => id === part),
    make: (visit, { part }) => {
        const { boat, network, request, starts, ends } = visit;
        const engine = network.consumers.get(part!)!;
        if (engine.injection?.pump === 'common-rail') return blank(`${engine.id} has a rail: its pump wants fuel at the pressure and fineness that its maker says, and no joint of it is undone. Ask the maker for a way home.`);
        if (tanksBefore(running(network, ends.positions), `${engine.id}:in`).length === 0) return blank(`In line-up ${ends.id} no tank feeds ${engine.id}.`);
        const first = withCan(boat, engine, ends, []);
        if (first === 'no place') return blank(`No lift pump and no filter lies on every way to ${engine.id}: there is no one place where a can could feed it.`);
        if (first === 'no filter') return blank(`Behind the lift pump of ${engine.id} no filter follows: what is in the can would go to its injectors as it is.`);
        if ('lacks' in first) return blank('How high the can must stand cannot be said.', first.lacks.map((id) => (id === engine.id ? { about: id, fact: `the height of the inlet of ${id}`, how: 'measure it from the datum with a water level, and write `inlet at 820 mm`' } : placeMissing(named(boat, id), 'ports'))));
        const opens = [{ part: first.fed, opening: openingAt(visit.boat, first.fed) }, ...(first.back === undefined ? [] : [{ part: engine.id, opening: 'joint' }])];
        const cut = isolationOf(visit, opens);
        if ('blank' in cut) return cut;
        const shut = cut.settings.filter(({ position }) => position === 'shut').map((setting) => setting.part);
        if (shut.length < cut.settings.length) return blank(`To part the line at ${first.fed} a selector would have to be turned, and no shutoff does it: fit one at the tank.`);
        const hung = withCan(boat, engine, ends, shut);
        if (typeof hung === 'string' || 'lacks' in hung) return blank('How high the can must stand cannot be said.');
        const head = engine.limits.head;
        const pressure = fluidOf(boat.vessel, 'diesel').heaviest * GRAVITY * (hung.bottom + FULL_CAN - engine.inlet!.up!.si);
        if (head && pressure > head.si) return blank(`A full can at the height at which it needs no pump presses ${kPa(pressure)} on the inlet of ${engine.id}; its maker allows ${kPa(head.si)}.`);
        const plan = planBleed(hung.boat, { engine: engine.id, opened: [hung.hose, hung.fed, ...(hung.back === undefined ? [] : [engine.id])], from: hung.can, starts: hung.ready, ends: hung.runs });
        if ('refused' in plan) return blank(plan.refused, plan.missing);

        const aboard = visitOf(hung.boat, { jobs: request.jobs, starts: hung.ready, ends: hung.runs });
        if ('blank' in aboard) return aboard;
        const canUnder = (one: Opened): number => Math.max(canFor(comesOut(visit, [one], cut.positions)), canFor(comesOut(aboard, [one], aboard.starts.positions)));
        const lines = [hung.from, ...(hung.back === undefined ? [] : [hung.back])];
        // The fuel that comes is fuel on a hot engine: the table's `engine cool` cannot always be waited for under way.
        const warned: readonly PlannedServiceStep[] = [
            planned('prepare', { do: 'caution', topic: 'fire', signal: 'WARNING', text: HOT }), planned('prepare', { do: 'caution', topic: 'skin' }), planned('prepare', { do: 'caution', topic: 'spill' }),
        ];
        const preparing: readonly PlannedServiceStep[] = [
            planned('prepare', { do: 'stop', part: engine.id, keyOut: true }, { say: 'lie safe', with: { engine: engine.id } }),
            planned('prepare', { do: 'switch', thing: 'bilge pump', to: 'off' }),
            planned('prepare', { do: 'switch', thing: 'battery switch', to: 'off' }, { say: 'battery off until start' }),
            ...cut.settings.map(({ part: valve, position }) => planned('isolate', { do: 'set', part: valve, position }, { say: 'cuts off', with: { valve, parts: opens.map((one) => one.part), tanks: tanksBefore(running(network, ends.positions), `${engine.id}:in`) } })),
            ...cut.settings.map(({ part: valve }) => told('isolate', { do: 'look', part: valve, piece: 'tag' }, { tell: 'tag', with: { valve, says: 'shut: engine on a can', about: engine.id } })),
        ];
        const catching: readonly PlannedServiceStep[] = opens.flatMap((one) => { const holds = canUnder(one); return [planned('work', { do: 'place', thing: 'pads', part: one.part, count: 4 }), told('work', { do: 'place', thing: 'can', part: one.part, holds }, { tell: 'drip can', with: { part: one.part, holds } })]; });
        // On the boat as she is: what is parted must be dry before the can stands in its place.
        const trial = withCautions(boat, { jobs: [], starts: starts.id, ends: ends.id, steps: [...preparing, ...catching, ...opens.map((one) => planned('open', { do: 'open', part: one.part, opening: one.opening }))].map(({ step }) => step) });
        const tried = execute(boat, trial);
        const flooded = tried.broken.flat().filter(({ law }) => law === 'could-flood' || law === 'cannot-tell' || law === 'rail-union');
        if (flooded.length > 0) return blank(`With ${shut.join(', ')} shut fuel could still come where the line of ${engine.id} is parted.`, flooded.flatMap(({ missing }) => missing ?? []));
        // Before the can hangs there it is the tanks of the boat that can come: what the table says of her as she is.
        const flood = ({ part: at }: Opened): PlannedServiceStep => {
            const own = trial.steps.findIndex((step) => step.do === 'caution' && step.topic === 'flood' && step.part === at);
            const text = own < 0 ? `With ${listed(shut)} shut no tank comes to ${at}. Keep the tap of the feed can shut until its hose is on.` : cautionAt(boat, trial, own, tried.states)!.avoid;
            return planned('work', { do: 'caution', topic: 'flood', part: at, signal: 'WARNING', text });
        };
        const parting = (one: Opened, from: string, side: 'supply' | 'return'): PlannedServiceStep[] => [
            flood(one), told('work', { do: 'open', part: one.part, opening: one.opening }, { tell: 'part and plug', with: { part: one.part, from, side } }),
            told('work', { do: 'close', part: one.part, opening: one.opening }, { tell: 'hose on', with: { part: one.part, side, tap: hung.tap } }),
        ];
        // She is under way: what was fed by the tank goes on, fed by the can.
        const runsOn = engine.kind === 'engine';
        const [supply, back] = opens;
        return {
            on: hung.boat, title: `Feed ${engine.id} from a can`, preface: [{ say: 'until home', with: { engine: engine.id } }],
            ends: hung.runs, underWay: runsOn, consumers: [engine.id], takes: { seconds: AROUND, people: 1 },
            needs: { tools: [
                'feed can of some 20 L with clean fuel, with a tap at its bottom or a hose that can be clamped', 'funnel with a strainer', 'hose with tails that fit', ...(back ? ['return hose that reaches the top of the feed can'] : []),
                `spanners for the unions at ${listed(opens.map((one) => one.part))}`, 'plugs for the ends of the lines', 'lashing', 'tag', 'marker', 'watch', 'metal can with a lid for rags',
            ] },
            whole: [
                ...preparing, ...warned,
                told('work', { do: 'look', part: hung.can, piece: 'filling' }, { tell: 'fill the can', with: { tap: hung.tap } }),
                told('work', { do: 'look', part: hung.can, piece: 'lashing' }, { tell: 'lash the can', with: { part: hung.fed, over: hung.over } }, { say: 'can stands', with: { part: hung.fed, up: hung.bottom } }),
                ...catching,
                ...parting(supply!, hung.from, 'supply'),
                ...(back ? parting(back, hung.back!, 'return') : []),
                told('work', { do: 'look', part: hung.can, piece: 'cap' }, { tell: 'loosen the cap', with: { can: hung.can } }),
                ...caughtAt({ network: networkOf(hung.boat) }, plan.steps, opens.map((one) => one.part)),
                ...bleeding(plan.steps).flatMap((one) => {
                    const at = one.step.do === 'bleed' ? segmentOf(networkOf(hung.boat), one.step.vent) : undefined;
                    // Its line was parted, and the caution for that does not stand for fuel of the can.
                    return at !== undefined && opens.some(({ part: parted }) => parted === at) ? [planned('bleed', { do: 'caution', topic: 'flood', part: at, signal: 'WARNING', text: `The feed can runs out by its own height. Close the bleed point, or shut ${hung.tap}, to stop it.` }), one] : [one];
                }),
                ...afterBleeding(visit, engine.id, { remarks: [lasting(visit.boat, engine.id), { say: 'keep it filled', with: { can: hung.can } }], runsOn }),
                told('finish', { do: 'look', piece: 'tools' }, { tell: 'count all', with: { things: ['tools', 'pads', 'rags', 'drip cans'] } }),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            after: [{ say: 'back to the tank', with: { engine: engine.id, lineUp: ends.id, opened: opens.map((one) => one.part), plugged: lines, tap: hung.tap, valves: shut } }],
            defaults: [...plan.defaults, 'the can holds some 20 L, its hose is 1.5 m of 8 mm bore (no source; any that is at hand will do)'],
        };
    },
};

/** A pump has a joint; a filter is parted at its ports. */
const openingAt = ({ parts }: { readonly parts: readonly { readonly id: Id; readonly kind: string }[] }, id: Id): string => (parts.find((part) => part.id === id)?.kind === 'filter' ? 'ports' : 'joint');

/** How long a litre lasts at the speed at which it is run, by what it burns: what it returns comes back. */
function lasting({ consumers }: { readonly consumers: Parameters<typeof planBleed>[0]['consumers'] }, engine: Id): Remark {
    const consumer = consumers.find(({ id }) => id === engine)!;
    const speed = idling(consumer).speed ?? knots(consumer.burns)[0]?.speed;
    const burns = speed === undefined ? undefined : demandAt(consumer, speed)?.burns;
    return { say: 'a litre lasts', with: { engine, speed, seconds: burns && burns.most > 0 ? LITRE / burns.most : undefined } };
}
