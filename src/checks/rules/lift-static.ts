/** Division: SUCTION-BUDGET adds friction, elements and checks to the height, against another limit. Here nothing flows. */
import type { Consumer, Part } from '../../model/boat';
import type { Measure } from '../../model/measure';
import type { Ground, Verdict } from '../../model/finding';
import { estimateOf } from '../../analysis/estimate';
import { liftsOf } from '../../analysis/flow/suction';
import { capital, mm } from '../../model/words';
import { burnsFuel, nothing, type Check, type View } from '../check';
import { fedIn, heightsNeeded, lowWords, nearer, pumpName, unfed, type Fed } from '../margin';
import { distinct, limitMissing } from '../../analysis/missing';

export const liftStatic: Check = {
    code: 'LIFT-STATIC', severity: 'major', slow: true,
    statement: 'The first pump of each consumer stands no higher above the lowest surface from which it can draw than it lifts, at every heel and trim of the envelope: by the limit of the consumer, or by what an electric pump says that it lifts.',
    prevents: 'An engine that starves with the tank low, on one tack.',
    facts: 'the lift that the maker allows; place of the first pump; mouths of pickups; shape and place of the tank; envelope; line-ups for running',
    source: 'makers of engines and pumps state a greatest lift (from secondary sources)',
    judge: (view) => {
        const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer));
        return consumers.length === 0 ? [nothing('nothing on board burns fuel')] : consumers.map((consumer) => judge(view, consumer));
    },
};

/** What may be lifted, and who says so. */
interface Limit {
    readonly lift: Measure;
    readonly by: { readonly about: string; readonly fact: 'lifts' | 'limits lift' };
}

function judge(view: View, consumer: Consumer): Verdict {
    const { boat, network } = view;
    const about = consumer.id;
    const { fed, missing } = fedIn(view, consumer);
    if (fed.length === 0) return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'not applicable', about, why: unfed(view, consumer) };
    const asked = fed.map((one) => ({ ...one, limit: limitOf(view, consumer, one) }));
    const limited = asked.filter((one): one is typeof one & { limit: Limit } => one.limit !== undefined);
    if (limited.length === 0) {
        if (fed.every(({ inlet }) => inlet.feeds !== undefined)) return { outcome: 'not applicable', about, why: 'its own pump is pushed, and nothing says what the pump before it lifts' };
        if (consumer.limits.inlet || consumer.limits.clean) return { outcome: 'not applicable', about, why: 'no lift is stated; the suction that is allowed has the height in it (see SUCTION-BUDGET)' };
        return { outcome: 'cannot tell', about, missing: [limitMissing(consumer, 'lift')] };
    }
    const lifts = limited.flatMap(({ lineUp, inlet, limit }) => liftsOf(network, lineUp, inlet).map((lift) => ({ ...lift, limit, most: estimateOf(limit.lift).least })));
    const worst = lifts.reduce<(typeof lifts)[number] | undefined>((most, lift) => (most && most.height - most.most >= lift.height - lift.most - SAME ? most : lift), undefined);
    const heights = heightsNeeded(view, consumer, limited);
    const rests: Ground[] = [...limited.map(({ limit }) => limit.by), ...heights.rests];
    if (worst && worst.height > worst.most + SAME) {
        const pump = pumpName(boat, about, worst.inlet);
        return {
            outcome: 'fail', about: worst.limit.by.about, fact: worst.limit.by.fact, rests,
            message: `${capital(pump)} can stand ${mm(worst.height)} above the surface that it draws from (${lowWords(boat, worst)}); ${mm(worst.most)} is what ${worst.limit.by.fact === 'lifts' ? 'it lifts' : `${about} allows`}.`,
            reason: `${about} then starves, though there is fuel in ${worst.tank.id}.`,
            advice: `${nearer(boat, worst.inlet, worst.fitting.id)}, move the pickup to the side that lies low, or keep more in ${worst.tank.id} at sea and write the level into the envelope.`,
            see: [{ id: worst.fitting.id, why: 'where it draws' }, ...(worst.limit.by.about === about ? [] : [{ id: about, why: 'what it feeds' }])],
        };
    }
    const all = distinct([...missing, ...heights.missing]);
    return all.length > 0 ? { outcome: 'cannot tell', about, missing: all } : { outcome: 'pass', about, rests };
}

/** m: to the tenth of a millimetre. */
const SAME = 1e-4;

/** An electric pump goes by its own figure; one that pushes another has only that. */
function limitOf({ network }: View, { id, limits }: Consumer, { inlet }: Fed): Limit | undefined {
    const pump: Part | undefined = network.parts.get(inlet.pump ?? '');
    if (pump?.kind === 'electric pump' && pump.lifts) return { lift: pump.lifts, by: { about: pump.id, fact: 'lifts' } };
    return inlet.feeds === undefined && limits.lift ? { lift: limits.lift, by: { about: id, fact: 'limits lift' } } : undefined;
}
