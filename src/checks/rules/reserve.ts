/** Engines that share tanks are reckoned in every group that they make; which tanks count, and how far down, is told in analysis/time/store.ts. */
import type { Id, Passage } from '../../model/boat';
import type { Failure, Ground, Verdict } from '../../model/finding';
import { exactly } from '../../analysis/estimate';
import { passageFuel, type PassageFuel } from '../../analysis/time/passage';
import { feedsOf, reserveOf } from '../../analysis/time/store';
import { figure, listed, litres } from '../../model/words';
import { fromSI } from '../../model/units';
import { nothing, type Check, type View } from '../check';
import { burnsMissing, distinct, shapeGrounds } from '../../analysis/missing';
import { missingInTime } from '../missing-in-time';

export const reserve: Check = {
    code: 'RESERVE', severity: 'minor', slow: true,
    statement: 'A planned passage leaves the reserve: of what can be used of the tanks of each engine, full to 95 % when she leaves, 20 % where the vessel states no other. Generators and heaters are not counted.',
    prevents: 'Sludge and air from the bottom of the tank, and no fuel, at the end of a passage.',
    facts: 'hours, speed and margin of the passage; what engines burn; shape of tanks and mouths of pickups; the reserve',
    source: 'common practice',
    judge: (view) => (view.boat.passages.length === 0 ? [nothing('no passage is written')] : view.boat.passages.map((passage) => judge(view, passage))),
};

function judge(view: View, passage: Passage): Verdict {
    const { boat } = view;
    const about = passage.id;
    const { engines, astray, groups, lacks } = passageFuel(boat, passage);
    if (engines.every((id) => feedsOf(view.network, id).size === 0)) return { outcome: 'not applicable', about, why: 'no engine runs and draws fuel in the line-up that she is left in' };
    if (lacks.some(({ of }) => of === 'motors')) return { outcome: 'cannot tell', about, missing: [missingInTime(boat, { about, of: 'motors' })] };
    if (lacks.length > 0) return { outcome: 'cannot tell', about, missing: distinct(lacks.map((lack) => (lack.of === 'burns' ? burnsMissing({ id: lack.about }, passage.speed ? `${figure(fromSI(passage.speed.si, 'rpm'), 4)} rpm` : 'the speed of the passage') : missingInTime(boat, lack)))) };
    const stated = boat.vessel.reserve !== undefined;
    const { share } = reserveOf(boat);
    // By common practice some keep back more than 20 %; that is no reason to fail a passage.
    const kept = stated ? share : exactly(share.si);
    const tanks = boat.tanks.filter(({ id }) => groups.some((group) => group.tanks.includes(id)));
    const rests: Ground[] = [...(stated ? [{ about: 'vessel', fact: 'reserve' }] : []), ...engines.map((id) => ({ about: id, fact: 'burns' })), ...tanks.flatMap(({ id, fittings }) => [...shapeGrounds(boat, id), ...fittings.filter(({ kind }) => kind === 'pickup').map((pickup) => ({ about: pickup.id, fact: 'mouth' }))])];
    const short = (of: 'least' | 'most'): Plan | undefined => groups.filter(({ needs, usable }) => needs[of] > (1 - kept[of]) * usable + DROP).sort((a, b) => b.needs.si / b.usable - a.needs.si / a.usable || a.engines.length - b.engines.length)[0];
    const certain = short('least');
    const plan = certain ?? short('most');
    return plan ? fails(passage, plan, astray.filter((id) => plan.engines.includes(id)), kept.si, stated, certain !== undefined, rests) : { outcome: 'pass', about, rests };
}

/** Less than this is nothing, m³. */
const DROP = 1e-6;

type Plan = PassageFuel['groups'][number];

function fails({ id, motors, speed, margin }: Passage, { engines, tanks, usable, needs }: Plan, astray: readonly Id[], kept: number, stated: boolean, certain: boolean, rests: readonly Ground[]): Failure {
    const left = usable - needs.si;
    const hours = (fromSI(motors!.si, 'h') * (1 - kept) * usable) / needs.si;
    return {
        outcome: 'fail', about: id, rests, ...(!certain && { severity: 'advice' }),
        message: `On ${id} ${listed(engines)} ${astray.length > 0 ? 'take' : 'burn'}${engines.length > 1 ? '' : 's'} ${litres(needs.si)} in ${figure(fromSI(motors!.si, 'h'))} h${speed ? ` at ${figure(fromSI(speed.si, 'rpm'), 4)} rpm` : ''}${margin ? `, ${figure(margin.si * 100)} % added` : ', nothing added for weather'}. `
            + `Full to 95 % ${listed(tanks)} ${tanks.length > 1 ? 'give' : 'gives'} ${litres(usable)}: ${left > 0 ? `${figure(Math.floor((left / usable) * 1000) / 10)} % would be left` : 'that is not enough'}, and ${figure(kept * 100)} % ${!stated ? 'are kept back by common practice, since no reserve is written' : 'are to be kept back'}${certain ? '' : '. Not all of these figures are exact'}.`,
        reason: `The last of a tank is sludge and air, and a foul tide takes more hours. Generators and heaters are not counted here.${astray.length > 0 ? ` What ${listed(astray)} ${astray.length > 1 ? 'return' : 'returns'} goes to a tank that does not feed ${astray.length > 1 ? 'them' : 'it'}, and counts as gone.` : ''}`,
        advice: `Take fuel on the way, go slower, or motor ${figure(Math.floor(hours * 10) / 10, 4)} h at most at that speed.`,
        see: [...engines.map((engine) => ({ id: engine, why: 'burns it' })), ...tanks.map((tank) => ({ id: tank, why: 'gives it' }))],
    };
}
