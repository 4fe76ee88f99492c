/** Division: SUCTION-BUDGET judges what a pump draws against while it runs; here nothing runs, and the tank stands over the part. */
import type { Consumer, Id, Part } from '../../model/boat';
import type { Measure } from '../../model/measure';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import type { Estimate } from '../../analysis/estimate';
import { placeOf } from '../../analysis/flow/plumbed';
import { flowIn, type Asked } from '../../analysis/flow/states';
import { inletOf } from '../../analysis/flow/suction';
import { attitudesOf, fullest, highLevel, surfaceIn } from '../../analysis/opening/condition';
import { heightOf } from '../../analysis/tanks/attitude';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { attitudeWords, figure, kPa } from '../../model/words';
import { burnsFuel, nothing, type Check, type View } from '../check';
import { bare, marginOf } from '../margin';
import { distinct, heelMissing, limitMissing, sizeMissing, steadyMissing } from '../../analysis/missing';

export const posHeadLimit: Check = {
    code: 'POS-HEAD-LIMIT', severity: 'minor', slow: true,
    statement: 'At rest, with tanks as full as they are used, at every heel and trim of the envelope, the pressure at a consumer\'s first pump stays within the maker\'s limit, and that at each filter, pump and primer within what it stands, where that is stated.',
    prevents: 'Seals that weep, and a pump that lets fuel through into the sump.',
    facts: 'pressure that the maker allows at the inlet at rest; what parts stand; heights and places; tanks; checks; envelope; line-ups',
    source: 'makers of engines and parts (from secondary sources)',
    judge: (view) => {
        const parts = view.boat.parts.filter((part) => part.stands !== undefined).map((part) => judgePart(view, part));
        const consumers = view.boat.consumers.filter((consumer) => burnsFuel(view, consumer)).map((consumer) => judgeConsumer(view, consumer));
        return parts.length + consumers.length === 0 ? [nothing('nothing on board burns fuel, and no part says what it stands')] : [...consumers, ...parts];
    },
};

interface Head {
    readonly asked: Asked;
    /** Pa. */
    readonly total: Estimate;
}

function judgeConsumer(view: View, consumer: Consumer): Verdict {
    const about = consumer.id;
    const runs = view.runs.flatMap((lineUp) => { const inlet = inletOf(view.network, lineUp, about); return inlet ? [{ lineUp, inlet }] : []; });
    const limit = consumer.limits.head;
    if (runs.length === 0) return { outcome: 'not applicable', about, why: 'no tank feeds it in a line-up for running' };
    if (!limit) return runs.some(({ lineUp, inlet }) => standsUnder(view, lineUp, inlet.point)) ? { outcome: 'cannot tell', about, missing: [limitMissing(consumer, 'head')] } : { outcome: 'not applicable', about, why: 'no limit is stated, and as far as is known no tank stands above its pump' };
    const places = runs.map(({ lineUp, inlet }) => ({ lineUp, point: inlet.point, part: inlet.pump ?? about }));
    return judge(view, { about, name: `the inlet of ${about}`, allows: `${about} allows`, limit, fact: 'limits head', places });
}

function judgePart(view: View, part: Part): Verdict {
    const places = view.lineUps.filter((lineUp) => tanksBefore(view.running(lineUp), `${part.id}:in`).length > 0).map((lineUp) => ({ lineUp, point: `${part.id}:in`, part: part.id }));
    if (places.length === 0) return { outcome: 'not applicable', about: part.id, why: 'no tank stands on it in any line-up' };
    return judge(view, { about: part.id, name: part.name, allows: 'it stands', limit: part.stands!, fact: 'stands', places });
}

interface Question {
    readonly about: Id;
    readonly name: string;
    readonly allows: string;
    readonly limit: Measure;
    readonly fact: 'limits head' | 'stands';
    readonly places: readonly { readonly lineUp: ResolvedLineUp; readonly point: string; readonly part: Id }[];
}

function judge(view: View, { about, name, allows, limit, fact, places }: Question): Verdict {
    const { boat, network } = view;
    let worst: Head | undefined;
    const missing: MissingFact[] = [];
    for (const { lineUp, point, part } of places) for (const attitude of attitudesOf(boat)) {
        const asked: Asked = { lineUp, attitude, level: 'full', speed: 'stopped' };
        const [likely, high, low] = (['likely', 'least', 'most'] as const).map((guess) => flowIn(network, { ...asked, guess }).gaugeAt(point));
        if (likely === undefined) { missing.push(...lacksAt(view, lineUp, point, part)); continue; }
        // A check that opens at less holds back less.
        if (!worst || likely > worst.total.si + SAME) worst = { asked, total: { si: likely, least: Math.min(likely, low ?? likely), most: Math.max(likely, high ?? likely) } };
    }
    const rests: Ground[] = [{ about, fact }, ...['envelope heel', 'envelope trim', 'envelope level'].map((word) => ({ about: 'vessel', fact: word }))];
    const margin = worst ? marginOf(worst.total, limit) : 'within';
    if (worst && margin !== 'within') {
        const { asked: { attitude, lineUp }, total } = worst;
        return {
            outcome: 'fail', about, fact, rests, ...(margin === 'thin' && { severity: 'advice' }),
            message: `At rest ${kPa(total.si)} stands at ${name} (${attitudeWords(attitude)}, tanks at ${figure(highLevel(boat) * 100)} %, in ${lineUp.id})${margin === 'thin' ? `, and up to ${bare(total.most)} kPa if checks open at less` : ''}; ${allows} ${kPa(limit.si)}.`,
            reason: 'Its seals weep while she lies unattended.', advice: `Shut the valve at the tank when she is left, or put a check valve before ${about} that opens at what is too much.`,
        };
    }
    const { heel, trim } = boat.vessel.envelope;
    const all = distinct([...(heel && trim ? [] : [heelMissing]), ...missing]);
    return all.length > 0 ? { outcome: 'cannot tell', about, missing: all } : { outcome: 'pass', about, rests };
}

/** Pa, and m: less is the same. */
const [SAME, LEVEL] = [1e-3, 1e-4];

/** Whether a tank that feeds it stands higher, as full as it is used, at some attitude. */
function standsUnder({ boat, network, running }: View, lineUp: ResolvedLineUp, point: string): boolean {
    const tanks = boat.tanks.filter(({ id }) => tanksBefore(running(lineUp), point).includes(id));
    return fullest(boat).some((condition) => {
        const height = heightOf(placeOf(network, point), condition.attitude);
        return height !== undefined && tanks.some((tank) => (surfaceIn(condition, tank) ?? -Infinity) > height + LEVEL);
    });
}

function lacksAt(view: View, lineUp: ResolvedLineUp, point: string, part: Id): MissingFact[] {
    const { boat } = view;
    const before = partsBefore(view.running(lineUp), point);
    const shapes = boat.tanks.filter((tank) => !tank.box && !tank.sections && tank.fittings.some(({ id }) => before.has(id)));
    return shapes.length > 0 ? shapes.map(({ id }) => sizeMissing(id)) : [steadyMissing(boat, { about: part, of: 'place' })];
}
