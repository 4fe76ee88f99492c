/**
 * Each engine that runs in the line-up she is left in is reckoned by itself against the tanks that it can draw from, and all of them together against all
 * these tanks. Tanks count that some line-up for running draws from, and those that can be moved over to them; all are taken as full to 95 % when she leaves.
 */
import type { Consumer, Fitting, Id, Passage, Tank } from '../../model/boat';
import type { CurvePoint, Measure } from '../../model/measure';
import type { Failure, Ground, MissingFact, Verdict } from '../../model/finding';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { drawing, usable } from '../../analysis/tanks/pickups';
import { normalLineUp } from '../../analysis/topology/line-ups';
import { downstream, passagesOf } from '../../analysis/topology/paths';
import { figure, listed, litres } from '../../model/words';
import { fromSI } from '../../model/units';
import { burnsFuel, nothing, type Check, type View } from '../check';
import { burnsMissing, distinct, mouthMissing, shapeGrounds, sizeMissing } from '../missing';
import { least, most } from '../../analysis/estimate';

export const reserve: Check = {
    code: 'RESERVE', severity: 'minor', slow: true,
    statement: 'A planned passage leaves the reserve: of what can be used of the tanks of each engine, full to 95 % when she leaves, 20 % where the vessel states no other. Generators and heaters are not counted.',
    prevents: 'Sludge and air from the bottom of the tank, and no fuel, at the end of a passage.',
    facts: 'hours, speed and margin of the passage; what engines burn; shape of tanks and mouths of pickups; the reserve',
    source: 'common practice',
    judge: (view) => (view.boat.passages.length === 0 ? [nothing('no passage is written')] : view.boat.passages.map((passage) => judge(view, passage))),
};

/** Where the vessel states none: common practice. */
const USUAL = 0.2;

/** What an engine burns on a passage, m³. */
interface Burnt {
    readonly engine: Consumer;
    readonly least: number;
    readonly most: number;
    readonly stated: number;
}

/** Burn at the passage's speed x hours x (1 + margin), or what is not stated to say so. */
function burntOn(engine: Consumer, { id, motors, speed, margin }: Passage): Burnt | MissingFact {
    const share = 1 + (margin?.si ?? 0);
    const point = speed ? between(engine.burns, speed.si) : engine.burns.length === 1 ? engine.burns[0]!.value : undefined;
    if (!point && !speed && engine.burns.length > 0) return { about: id, fact: `the speed of ${engine.id} on ${id}`, how: 'decide it, and write it behind the hours, like `motors 90 h at 2400 rpm`' };
    if (!point) return burnsMissing(engine, speed ? `${figure(fromSI(speed.si, 'rpm'), 4)} rpm` : 'the speed of the passage');
    const of = (bound: (measure: Measure) => number): number => bound(point) * bound(motors!) * share;
    return { engine, least: of(least), most: of(most), stated: of(({ si }) => si) };
}

/** Between two points of a curve in proportion; undefined beyond its ends, where nobody measured. */
function between(curve: readonly CurvePoint[], at: number): Measure | undefined {
    const points = [...curve].sort((a, b) => a.at.si - b.at.si);
    const same = points.find((point) => Math.abs(point.at.si - at) <= 1e-9 * at);
    if (same) return same.value;
    const [low, high] = [points.findLast((point) => point.at.si < at), points.find((point) => point.at.si > at)];
    if (!low || !high) return undefined;
    const share = (at - low.at.si) / (high.at.si - low.at.si);
    const of = (bound: (measure: Measure) => number): number => bound(low.value) * (1 - share) + bound(high.value) * share;
    return { si: of(({ si }) => si), low: of(least), high: of(most) };
}

/** A tank with the pickups by which fuel leaves it for an engine. */
type Drawn = ReadonlyMap<Tank, readonly Fitting[]>;

/** By every line-up for running, and tanks from which a line leads on to one of these, with all valves open. */
function tanksOf(view: View, engine: Consumer): Drawn {
    const { boat, network, allOpen } = view;
    const pickups = boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel').flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').map((pickup) => ({ tank, pickup })));
    const found = new Map<Tank, Fitting[]>();
    const add = (tank: Tank, pickup: Fitting): void => { const known = found.get(tank); if (!known) found.set(tank, [pickup]); else if (!known.includes(pickup)) known.push(pickup); };
    for (const { tank, pickup } of pickups) if (view.runs.some((lineUp) => drawing(view.running(lineUp), pickup.id).includes(engine))) add(tank, pickup);
    const barred = passagesOf(network, boat.consumers.map(({ id }) => id));
    const leads = pickups.map(({ tank, pickup }) => { const met = downstream(allOpen, network.index.get(pickup.id)!, barred); return { tank, pickup, to: boat.tanks.filter((other) => other !== tank && other.fittings.some(({ id }) => met.has(network.index.get(id)!))) }; });
    for (let size = -1; size !== found.size;) {
        size = found.size;
        const drawn = new Set(found.keys());
        for (const { tank, pickup, to } of leads) if (!drawn.has(tank) && to.some((other) => drawn.has(other))) add(tank, pickup);
    }
    return found;
}

function judge(view: View, passage: Passage): Verdict {
    const { boat } = view;
    const about = passage.id;
    const stopped = normalLineUp(boat, view.lineUps)?.stopped ?? [];
    const engines = boat.consumers.filter((consumer) => consumer.kind === 'engine' && burnsFuel(view, consumer) && !stopped.includes(consumer.id)).map((engine) => ({ engine, tanks: tanksOf(view, engine) })).filter(({ tanks }) => tanks.size > 0);
    if (engines.length === 0) return { outcome: 'not applicable', about, why: 'no engine runs and draws fuel in the line-up that she is left in' };
    if (!passage.motors) return { outcome: 'cannot tell', about, missing: [{ about, fact: `the hours under engine of ${about}`, how: 'plan them, and write `motors 90 h at 2400 rpm`' }] };
    const burnt = engines.map(({ engine }) => burntOn(engine, passage));
    const missing = distinct([...burnt.filter((one): one is MissingFact => 'fact' in one), ...engines.flatMap(({ tanks }) => [...tanks].flatMap(([tank, pickups]) => (span(tank, UPRIGHT) === undefined ? [sizeMissing(tank.id)] : pickups.filter(({ mouth }) => !mouth?.up).map(({ id }) => mouthMissing(id)))))]);
    if (missing.length > 0) return { outcome: 'cannot tell', about, missing };
    // Each by itself, and all together: engines with tanks of their own, and engines that share them.
    const plans = [...engines.map((_, i) => [i]), engines.map((_, i) => i)].map((group) => planOf(group.map((i) => burnt[i] as Burnt), group.map((i) => engines[i]!.tanks)));
    const keep = boat.vessel.reserve;
    const rests: Ground[] = [...(keep ? [{ about: 'vessel', fact: 'reserve' }] : []), ...engines.flatMap(({ engine, tanks }) => [{ about: engine.id, fact: 'burns' }, ...[...tanks].flatMap(([tank, pickups]) => [...shapeGrounds(boat, tank.id), ...pickups.map(({ id }) => ({ about: id, fact: 'mouth' }))])])];
    const short = (of: 'least' | 'most', kept: number): Plan | undefined => plans.filter((plan) => plan[of] > (1 - kept) * plan.usable + DROP).sort((a, b) => b.stated / b.usable - a.stated / a.usable)[0];
    const certain = short('least', keep ? least(keep) : USUAL);
    const plan = certain ?? short('most', keep ? most(keep) : USUAL);
    return plan ? fails(passage, plan, keep?.si, certain !== undefined, rests) : { outcome: 'pass', about, rests };
}

/** Less than this is nothing, m³. */
const DROP = 1e-6;

interface Plan {
    readonly engines: readonly Id[];
    readonly tanks: readonly Id[];
    /** m³, of all of them. */
    readonly usable: number;
    readonly least: number;
    readonly most: number;
    readonly stated: number;
}

function planOf(burnt: readonly Burnt[], stores: readonly Drawn[]): Plan {
    const pickups = new Map<Tank, Set<Fitting>>();
    for (const store of stores) for (const [tank, own] of store) { const known = pickups.get(tank) ?? new Set(); for (const pickup of own) known.add(pickup); pickups.set(tank, known); }
    // Shapes and mouths are known by now.
    const volumes = [...pickups].map(([tank, own]) => usable(tank, [...own].map(({ mouth }) => mouth)) ?? 0);
    const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
    return {
        engines: burnt.map(({ engine }) => engine.id), tanks: [...pickups.keys()].map(({ id }) => id), usable: sum(volumes),
        least: sum(burnt.map((one) => one.least)), most: sum(burnt.map((one) => one.most)), stated: sum(burnt.map((one) => one.stated)),
    };
}

function fails({ id, motors, speed, margin }: Passage, plan: Plan, keep: number | undefined, certain: boolean, rests: readonly Ground[]): Failure {
    const kept = keep ?? USUAL;
    const left = plan.usable - plan.stated;
    const hours = (fromSI(motors!.si, 'h') * (1 - kept) * plan.usable) / plan.stated;
    return {
        outcome: 'fail', about: id, rests, ...(!certain && { severity: 'advice' }),
        message: `On ${id} ${listed(plan.engines)} ${plan.engines.length > 1 ? 'burn' : 'burns'} ${litres(plan.stated)} in ${figure(fromSI(motors!.si, 'h'))} h${speed ? ` at ${figure(fromSI(speed.si, 'rpm'), 4)} rpm` : ''}${margin ? `, ${figure(margin.si * 100)} % added` : ', nothing added for weather'}. `
            + `Full to 95 % ${listed(plan.tanks)} ${plan.tanks.length > 1 ? 'give' : 'gives'} ${litres(plan.usable)}: ${left > 0 ? `${figure(Math.floor((left / plan.usable) * 1000) / 10)} % would be left` : 'that is not enough'}, and ${figure(kept * 100)} % ${keep === undefined ? 'are kept back by common practice, since no reserve is written' : 'are to be kept back'}${certain ? '' : '. Not all of these figures are exact'}.`,
        reason: 'The last of a tank is sludge and air, and a foul tide takes more hours. Generators and heaters are not counted here.',
        advice: `Take fuel on the way, go slower, or motor ${figure(Math.floor(hours * 10) / 10, 4)} h at most at that speed.`,
        see: [...plan.engines.map((engine) => ({ id: engine, why: 'burns it' })), ...plan.tanks.map((tank) => ({ id: tank, why: 'gives it' }))],
    };
}
