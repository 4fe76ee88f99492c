/** The bleed of a visit: from the valves and the air that the work has left, every consumer that got air, propulsion first, one after the other. */
import type { Consumer, Id } from '../../model/boat';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore } from '../../analysis/topology/paths';
import { listed } from '../../model/words';
import { benchOf, onLine, planFrom, type FoundFrom, type PlannedStep, type Refusal } from '../bleed';
import { airBefore, mayPrefill, run } from '../executor';
import type { BenchState } from '../state';
import { allOpen, type Visit } from './visit';

export interface Bled {
    readonly steps: readonly PlannedStep[];
    readonly state: BenchState;
    /** In the order in which they were bled. */
    readonly consumers: readonly Id[];
    /** Parts that the end line-up leaves off line, each with the line-up in which it was bled; without one it may still hold air. */
    readonly offLine: readonly { readonly part: Id; readonly lineUp?: Id }[];
}

/** Engines, then generators, then what warms; as they stand in the text. */
const RANK: readonly Consumer['kind'][] = ['engine', 'generator', 'heater', 'exchanger'];
export const byRank = (consumers: readonly Consumer[]): readonly Consumer[] => RANK.flatMap((kind) => consumers.filter((consumer) => consumer.kind === kind));

/** Every consumer before which there is air, from this state to the end line-up. */
export function bleedAll(visit: Visit, from: BenchState): Bled | Refusal {
    const { boat, ends } = visit;
    const steps: PlannedStep[] = [];
    const bled: Id[] = [];
    const offLine: { part: Id; lineUp?: Id }[] = [];
    let state = from;
    const to = (consumer: Id, lineUp: ResolvedLineUp): Refusal | undefined => {
        const found = bleedOne(visit, state, consumer, lineUp);
        if ('refused' in found) return found;
        steps.push(...found.steps);
        state = found.state;
        if (!bled.includes(consumer) && found.steps.some(({ step }) => step.do === 'bleed')) bled.push(consumer);
        return undefined;
    };
    const ranked = byRank(boat.consumers).map(({ id }) => id);
    // What may hold air and stands off line at the end is bled on its own leg first: the next hand that turns a valve to it must find fuel.
    for (const part of [...from.gas.keys()]) for (const id of ranked) {
        if (!state.gas.has(part) || ranked.some((other) => visit.pumping.before(other, ends.positions).has(part))) break;
        const { ends: other } = onLine(visit.pumping, part, id, visit.lineUps);
        const lineUp = visit.lineUps.find((one) => one.id === other);
        if (!lineUp) continue;
        const refused = to(id, lineUp);
        if (refused) return refused;
        offLine.push({ part, lineUp: lineUp.id });
    }
    const next = (): Id | undefined => ranked.find((id) => airBefore(benchOf(boat, id), state, id, ends.positions).length > 0);
    // Bleeding one may push air before another: it is its turn again.
    for (let id = next(), tries = 0; id !== undefined; id = next(), tries++) {
        if (tries > 2 * ranked.length) return { refused: `To bleed one of ${listed(ranked)} pushes air before another, and no valve keeps them apart. Fit one in the branch of each.`, missing: [] };
        const refused = to(id, ends);
        if (refused) return refused;
    }
    const feeds = (part: Id): boolean => ranked.some((id) => partsBefore(allOpen(visit), `${id}:in`).has(part));
    const airy = [...from.gas.keys()].filter((part) => state.gas.has(part) && feeds(part) && !ranked.some((id) => visit.pumping.before(id, ends.positions).has(part)));
    return { steps, state, consumers: bled, offLine: [...offLine, ...airy.map((part) => ({ part }))] };
}

function bleedOne(visit: Visit, state: BenchState, consumer: Id, lineUp: ResolvedLineUp): FoundFrom | Refusal {
    const answers = known.get(visit.network) ?? new Map<string, FoundFrom | Refusal>();
    known.set(visit.network, answers);
    const { pumping } = visit;
    const key = JSON.stringify([consumer, pumping.key(state.positions), [...state.gas].sort(), [...state.topped].sort(), [...state.bled].sort(), [...state.tainted].sort(), lineUp.id]);
    let found = answers.get(key);
    if (!found) {
        found = planFrom(benchOf(visit.boat, consumer), state, lineUp);
        // Starting is the visit's business: seacock, budget and what is seen when it runs stand around it.
        if (!('refused' in found)) found = { ...found, steps: found.steps.filter(({ step }) => step.do !== 'start') };
        answers.set(key, found);
    }
    return found;
}

/** A table of a boat asks for the same few again and again. */
const known = new WeakMap<Visit['network'], Map<string, FoundFrom | Refusal>>();

/** Which of the opened parts can and may be filled by hand as the valves stand. */
export function fillable(visit: Visit, state: BenchState, opened: readonly Id[]): Id[] {
    return opened.filter((part) => visit.network.parts.get(part)?.kind === 'filter' && visit.boat.consumers.some(({ id }) => run(benchOf(visit.boat, id, opened), state, { do: 'prefill', part }).broken.length === 0));
}

/** Filters among these that may be filled by hand once they are opened. */
export const toFill = ({ boat, network }: Visit, ids: readonly Id[]): Id[] => ids.filter((id) => network.parts.get(id)?.kind === 'filter' && mayPrefill(benchOf(boat, ''), id));
