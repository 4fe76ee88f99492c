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
import { kPa } from '../../../model/words';
import { planBleed } from '../../bleed';
import { execute } from '../execute';
import { isolationOf } from '../cut-off';
import type { PlannedServiceStep, Remark } from '../plan';
import { canFor, comesOut } from '../drains';
import { visitOf } from '../visit';
import type { Opened, Recipe } from './recipe';
import { planned } from '../step-of';
import { afterBleeding, blank, bleeding, named, pads } from './operation';
import { withCan } from './with-can';

const WORDS = 'from a can';
/** s besides the running: no source. */
const AROUND = 45 * 60;
const LITRE = 1e-3;
/** The can is some 20 L, full; m over its bottom. */
const FULL_CAN = 0.35;

export const jug: Recipe = {
    verb: 'feed from a can',
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
        const parting = (at: Id, opening: string, from: string, side: 'supply' | 'return'): PlannedServiceStep[] => [
            planned('work', { do: 'open', part: at, opening }, { say: 'part the line', with: { part: at, from, side } }, { say: 'plug the end', with: { from, side } }),
            planned('work', { do: 'close', part: at, opening }, { say: 'can takes its place', with: { part: at, side } }),
        ];
        const preparing: readonly PlannedServiceStep[] = [
            planned('prepare', { do: 'stop', part: engine.id, keyOut: true }, { say: 'until home', with: { engine: engine.id } }, { say: 'ready the can', with: { engine: engine.id } }),
            planned('prepare', { do: 'switch', thing: 'bilge pump', to: 'off' }),
            ...cut.settings.map(({ part: valve, position }) => planned('isolate', { do: 'set', part: valve, position }, { say: 'cuts off', with: { valve, parts: opens.map((one) => one.part), tanks: tanksBefore(running(network, ends.positions), `${engine.id}:in`) } })),
            ...opens.flatMap((one) => [planned('isolate', { do: 'place', thing: 'pads', part: one.part, count: 4 }), planned('isolate', { do: 'place', thing: 'can', part: one.part, holds: canUnder(one) })]),
        ];
        // On the boat as she is: what is parted must be dry before the can stands in its place.
        const trial = [...preparing, ...opens.map((one) => planned('open', { do: 'open', part: one.part, opening: one.opening }))].map(({ step }) => step);
        const flooded = execute(boat, { jobs: [], starts: starts.id, ends: ends.id, steps: trial }).broken.flat().filter(({ law }) => law === 'could-flood' || law === 'cannot-tell' || law === 'rail-union');
        if (flooded.length > 0) return blank(`With ${shut.join(', ')} shut fuel could still come where the line of ${engine.id} is parted.`, flooded.flatMap(({ missing }) => missing ?? []));
        // She is under way: what was fed by the tank goes on, fed by the can.
        const runsOn = engine.kind === 'engine';
        const vents = plan.steps.flatMap(({ step }) => (step.do === 'bleed' ? [step.vent] : []));
        const [supply, back] = opens;
        return {
            on: hung.boat, ends: hung.runs, underWay: runsOn, consumers: [engine.id], takes: { seconds: AROUND, people: 1 },
            needs: { tools: ['can of clean fuel with a tap, or a hose that can be clamped', 'hose with tails that fit', 'plugs for the ends of the lines', 'lashing'] },
            whole: [
                ...preparing,
                ...parting(supply!.part, supply!.opening, hung.from, 'supply'),
                ...(back ? parting(back.part, back.opening, hung.back!, 'return') : []),
                planned('work', { do: 'look', part: hung.can, piece: 'lashing', words: 'fast, cap loose, away from hot parts' }, { say: 'can stands', with: { part: hung.fed, up: hung.bottom, over: hung.over } }),
                ...pads({ network: networkOf(hung.boat) }, vents.filter((vent) => !opens.some((one) => [...boat.parts, ...boat.consumers].find(({ id }) => id === one.part)?.vents.some(({ id }) => id === vent))), 'bleed'),
                ...bleeding(plan),
                ...afterBleeding(visit, engine.id, { remarks: [lasting(visit.boat, engine.id)], runsOn }),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            after: [{ say: 'back to the tank', with: { engine: engine.id, lineUp: ends.id, opened: opens.map((one) => one.part) } }],
            defaults: [...plan.defaults, 'the can holds some 20 L, its hose is 1.5 m of 8 mm bore (no source; any that is at hand will do)'],
        };
    },
};

/** A pump has a joint; a filter is parted at its ports. */
const openingAt = ({ parts }: { readonly parts: readonly { readonly id: Id; readonly kind: string }[] }, id: Id): string => (parts.find((part) => part.id === id)?.kind === 'filter' ? 'ports' : 'joint');

/** How long a litre lasts at its lowest stated speed, by what it burns: what it returns comes back. */
function lasting({ consumers }: { readonly consumers: Parameters<typeof planBleed>[0]['consumers'] }, engine: Id): Remark {
    const consumer = consumers.find(({ id }) => id === engine)!;
    const [idle] = knots(consumer.burns);
    const burns = idle && demandAt(consumer, idle.speed)?.burns;
    return { say: 'a litre lasts', with: { engine, speed: idle?.speed, seconds: burns && burns.most > 0 ? LITRE / burns.most : undefined } };
}
