import type { Fitting, Id, Part, Tank } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { grossOf } from '../../analysis/tanks/liquid';
import { FULL } from '../../analysis/tanks/pickups';
import { onEveryWay } from '../../analysis/topology/every-way';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { reach } from '../../analysis/topology/network';
import { passagesOf } from '../../analysis/topology/paths';
import { figure, litres } from '../../model/words';
import { fromSI } from '../../model/units';
import { nothing, type Check, type View } from '../check';
import { distinct, rateMissing, shapeGrounds, sizeMissing, whereMissing } from '../../analysis/missing';
import { least, most } from '../../analysis/estimate';

export const polishTurnover: Check = {
    code: 'POLISH-TURNOVER', severity: 'advice', slow: true,
    statement: 'A line-up for polishing pumps what the tank holds, full to 95 %, round 3 times within 24 h of pumping, and its suction and its discharge stand at least half of the tank\'s length apart.',
    prevents: 'Dirt that stays in the tank while clean fuel goes round.',
    facts: 'what the pump gives; size of the tank; places of the two fittings; the network',
    source: 'common practice; that the 3 turns are to be done in 24 h is our own figure',
    judge: (view) => {
        const polishing = view.lineUps.filter(({ use }) => use === 'polish');
        return polishing.length === 0 ? [nothing('no line-up is for polishing')] : polishing.flatMap((lineUp) => {
            const loops = loopsIn(view, lineUp);
            return loops.length > 0 ? loops.map((loop) => judge(view, lineUp.id, loop)) : [{ outcome: 'not applicable', about: lineUp.id, why: 'no pump brings fuel back to the tank that it draws from, past all consumers' }];
        });
    },
};

const TURNS = 3;
/** s. */
export const WITHIN = 24 * 3600;

interface Loop {
    readonly tank: Tank;
    readonly suction: Fitting;
    readonly discharge: Fitting;
    /** Pumps on every way round; of several the weakest counts. */
    readonly pumps: readonly Part[];
}

/** From each pickup of a tank for fuel back to each other fitting of it, through a pump and through no consumer. */
function loopsIn(view: View, lineUp: ResolvedLineUp): Loop[] {
    const { boat, network } = view;
    const linedUp = view.running(lineUp);
    const barred = passagesOf(network, boat.consumers.map(({ id }) => id));
    return boat.tanks.filter((tank) => (tank.carries ?? 'diesel') === 'diesel').flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').flatMap((suction): Loop[] => {
        const from = network.index.get(suction.id)!;
        const own = new Set([...barred, ...network.through.get(suction.id)!]);
        const met = reach(linedUp, linedUp.ways, [from], own);
        return tank.fittings.filter((other) => other !== suction && (other.kind === 'drop' || other.kind === 'pickup') && met.has(network.index.get(other.id)!)).flatMap((discharge) => {
            const to = network.index.get(discharge.id)!;
            const pumps = [...new Set(onEveryWay(linedUp, [from], [to], own).flatMap((i) => network.passages[i]!.part ?? []))].flatMap((id) => network.parts.get(id) ?? []).filter(({ kind }) => kind.startsWith('electric'));
            return pumps.length > 0 ? [{ tank, suction, discharge, pumps }] : [];
        });
    }));
}

function judge(view: View, about: Id, { tank, suction, discharge, pumps }: Loop): Verdict {
    const gross = grossOf(tank);
    const [one, other, length] = [along(suction), along(discharge), lengthOf(tank)];
    const apart = one === undefined || other === undefined || length === undefined ? undefined : Math.abs(one - other) / length;
    const rated = pumps.filter(({ rate }) => rate);
    const pump = rated.sort((a, b) => a.rate!.si - b.rate!.si)[0];
    /** s, for the turns. */
    const takes = (rate: number): number => (TURNS * FULL * gross!) / rate;
    const slow = pump !== undefined && gross !== undefined && takes(least(pump.rate!)) > WITHIN * (1 + 1e-9);
    const near = apart !== undefined && apart < 0.5 - 1e-9;
    const rests: Ground[] = [{ about }, ...pumps.map(({ id }) => ({ about: id, fact: 'gives' })), ...shapeGrounds(view.boat, tank.id), ...[suction, discharge].map(({ id, mouth }) => ({ about: id, fact: mouth?.fwd ? 'mouth' : 'top' }))];
    if (slow || near) {
        const needed = (TURNS * FULL * (gross ?? 0)) / WITHIN;
        const exact = !slow || takes(most(pump.rate!)) > WITHIN * (1 + 1e-9);
        return {
            outcome: 'fail', about, rests,
            message: [
                ...(slow ? [`In ${about} ${pump.name} moves ${figure(fromSI(exact ? pump.rate!.si : least(pump.rate!), 'L/h'))} L/h: it takes ${figure(fromSI(takes(exact ? pump.rate!.si : least(pump.rate!)), 'h'))} h to turn the ${litres(FULL * gross)} of ${tank.id} over 3 times${exact ? '' : ', if it moves as little as it may'}.`] : []),
                ...(near ? [`${slow ? 'Its' : `In ${about} the`} suction ${suction.id} and ${slow ? 'its ' : ''}discharge ${discharge.id} stand ${figure(apart * 100, 2)} % of the length of ${tank.id} apart.`] : []),
            ].join(' '),
            reason: near ? 'What comes back is drawn again at once, and the rest of the tank stays as dirty as it is.' : 'Dirt settles faster than it is drawn off. That 24 h are enough is our own figure.',
            advice: [
                ...(slow ? [`Fit a pump that moves at least ${Math.ceil(fromSI(needed, 'L/h') - 1e-6)} L/h, or let it run longer each time.`] : []),
                ...(near ? [`Lead ${discharge.id} to the other end of ${tank.id}.`] : []),
            ].join(' '),
            see: [...(slow ? [{ id: pump.id, why: 'moves it' }] : []), ...(near ? [{ id: discharge.id, why: 'comes back here' }] : [])],
        };
    }
    const missing: MissingFact[] = [
        ...pumps.filter(({ rate }) => !rate).map(rateMissing), ...(gross === undefined ? [sizeMissing(tank.id)] : []),
        ...[{ fitting: suction, at: one }, { fitting: discharge, at: other }].filter(({ at }) => at === undefined).map(({ fitting: { id } }) => whereMissing(id, id)),
    ];
    if (missing.length > 0) return { outcome: 'cannot tell', about, missing: distinct(missing) };
    return { outcome: 'pass', about, rests };
}

/** Where a fitting opens along the tank, m; undefined when it is not known. */
const along = ({ mouth, top }: Fitting): number | undefined => mouth?.fwd?.si ?? top?.fwd?.si;

function lengthOf({ box, sections }: Tank): number | undefined {
    if (box) return box.length;
    const places = (sections ?? []).map(({ fwd }) => fwd);
    const length = places.length > 1 ? Math.max(...places) - Math.min(...places) : 0;
    return length > 0 ? length : undefined;
}
