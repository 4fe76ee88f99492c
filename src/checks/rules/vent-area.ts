/**
 * Two questions of one vent: the area that the regulation asks, and what the air takes while the tank is filled as fast as it says. A vent that is too small by
 * the first is told so; the second is asked of the others, and only where both the rate and the test pressure are stated.
 */
import type { Boat, Fitting, Tank } from '../../model/boat';
import type { Failure, Ground, MissingFact, Verdict } from '../../model/finding';
import { SHARE_OF_TEST, fillingsOf, type Filling } from '../../analysis/time/filling';
import { fromSI } from '../../model/units';
import { kPa } from '../../model/words';
import { nameOf, type Check, type View } from '../check';
import { fillEndsMissing } from '../../analysis/missing';

const INCH = 25.4;
const circle = (bore: number): number => (Math.PI / 4) * bore ** 2;
/**
 * Least vent areas, mm². The regulation names a tube in inches and the same tube in rounded millimetres, and the two
 * differ: 5/8 in x 0.035 in is 156.08 mm², "16 mm x 0.9 mm" 158.37; 3/4 in x 0.035 in is 234.30, "19 mm x 0.9 mm" 232.35.
 */
export const LEAST_AREA = {
    'at the top': [circle((0.625 - 2 * 0.035) * INCH), circle(16 - 2 * 0.9)],
    'into the tank': [circle((0.75 - 2 * 0.035) * INCH), circle(19 - 2 * 0.9)],
} as const;

export const ventArea: Check = {
    code: 'VENT-AREA', severity: 'major',
    statement: 'The bore of each fuel tank\'s vent has at least the area that 46 CFR 182.450(c) asks for its kind of filling; and where it is stated how fast the tank is filled and at what pressure it was tested, the air that leaves by the vent meanwhile takes at most 80 % of that pressure.',
    prevents: 'Fuel blows back when filling; the tank is strained.',
    facts: 'bore of the vent line and fitting; where the fill pipe ends; bore of the fill when filled under pressure; how fast the fill takes fuel, test pressure of the tank, length of the vent line',
    source: '46 CFR 182.450(c) (2015 edition read); binds small passenger vessels, used here as guidance; the 80 % are from 33 CFR 183.520 by analogy, which is law for petrol',
    judge: (view) => {
        const fillings = fillingsOf(view.boat);
        return view.boat.tanks.map((tank) => {
            const verdict = judge(view, tank);
            return verdict.outcome === 'fail' || verdict.outcome === 'not applicable' ? verdict : strained(view.boat, tank, fillings.filter((filling) => filling.tank === tank.id)) ?? verdict;
        });
    },
};

function judge(view: View, tank: Tank): Verdict {
    if ((tank.carries ?? 'diesel') !== 'diesel') return { outcome: 'not applicable', about: tank.id, why: 'it carries no fuel' };
    const vent = tank.fittings.find((fitting) => fitting.kind === 'vent');
    if (!vent) return { outcome: 'not applicable', about: tank.id, why: 'it has no vent (see VENT-EXISTS)' };
    const pipes = boresOf(view, vent);
    if (pipes.missing.length > 0) return { outcome: 'cannot tell', about: tank.id, missing: pipes.missing };
    const fill = tank.fittings.find((fitting) => fitting.kind === 'fill');
    if (!fill) return { outcome: 'not applicable', about: tank.id, why: 'no fill is written, so nothing can be said of filling it' };
    const area = circle(pipes.least * 1e3);
    if (fill.fillEnds === 'under pressure') return underPressure(view, tank, fill, area, [...pipes.rests, { about: fill.id, fact: 'under pressure' }]);
    const [top, into] = [LEAST_AREA['at the top'], LEAST_AREA['into the tank']];
    const asked = fill.fillEnds === undefined ? [...top, ...into] : LEAST_AREA[fill.fillEnds];
    const [least, most] = [Math.min(...asked), Math.max(...asked)];
    const rests: Ground[] = [...pipes.rests, ...(fill.fillEnds === undefined ? [] : [{ about: fill.id, fact: 'ends' }])];
    if (area >= most) return { outcome: 'pass', about: tank.id, rests };
    if (area < least) return tooSmall(tank, vent, pipes.least, area, fill.fillEnds === 'into the tank' ? into : top, fill.fillEnds, rests);
    if (fill.fillEnds === undefined) return { outcome: 'cannot tell', about: tank.id, missing: [fillEndsMissing(fill.id, tank.id)] };
    return {
        outcome: 'cannot tell', about: tank.id, missing: [{
            about: vent.id, fact: `which reading of 46 CFR 182.450(c) applies to ${tank.id}`,
            how: `its vent has ${round(area)} mm²; the inch tube of the rule has ${round(asked[0])} mm² and its rounded metric words ${round(asked[1])} mm²`,
        }],
    };
}

/** What fails by the pressure in the tank while it is filled. */
function strained(boat: Boat, tank: Tank, fillings: readonly Filling[]): Failure | undefined {
    const worst = fillings.reduce<Filling | undefined>((most, filling) => ((filling.pressure?.si ?? 0) > (most?.pressure?.si ?? 0) ? filling : most), undefined);
    if (!worst?.pressure || worst.allowed === undefined || worst.pressure.most <= worst.allowed) return undefined;
    const { pressure, allowed, rate, vent, parts, fill } = worst;
    const thin = pressure.si <= allowed;
    return {
        outcome: 'fail', about: vent!, ...(thin && { severity: 'advice' }), rests: [{ about: fill, fact: 'takes' }, { about: tank.id, fact: 'tested' }, ...parts.flatMap((id) => [{ about: id, fact: 'bore' }, { about: id, fact: 'length' }])],
        message: `Filled at ${round(fromSI(rate!.si, 'L/min'))} L/min, ${tank.id} stands under ${kPa(pressure.si)}${thin ? `, perhaps ${kPa(pressure.most)}` : ''}: so much the air takes to leave by ${vent}. ${SHARE_OF_TEST * 100} % of its test pressure are ${kPa(allowed)}.`,
        reason: 'The tank bulges and its seams open; fuel blows back out of the fill.',
        advice: `Fit a wider or shorter vent line than ${parts.map((id) => nameOf(boat, id)).join(', ')}, or fill slower.`, see: [{ id: fill, why: 'how fast it is filled' }],
    };
}

export function boresOf(view: View, vent: Fitting): { least: number; missing: MissingFact[]; rests: Ground[] } {
    const course = view.boat.courses.find((other) => other.service === 'vent' && [other.from, other.to].some((end) => end.part === vent.tank && end.port === vent.port));
    const pipes = (course?.parts ?? []).map((id) => view.network.parts.get(id)!).filter((part) => part.kind === 'hose' || part.kind === 'tube');
    const missing = pipes.filter((pipe) => !pipe.bore).map((pipe) => ({ about: pipe.id, fact: `the bore of ${pipe.name}`, how: 'measure the inside of the vent hose, or read its marking' }));
    if (pipes.length === 0 && !vent.bore) missing.push({ about: vent.id, fact: `the bore of the vent of ${vent.tank}`, how: 'measure the inside of the vent hose, or read its marking' });
    const bores = [...pipes.map((pipe) => pipe.bore), vent.bore].filter((bore) => bore !== undefined);
    return { least: Math.min(...bores.map((bore) => bore.low ?? bore.si)), missing, rests: [...pipes, vent].filter((pipe) => pipe.bore).map(({ id }) => ({ about: id, fact: 'bore' })) };
}

function underPressure(view: View, tank: Tank, fill: Fitting, area: number, rests: readonly Ground[]): Verdict {
    const course = view.boat.courses.find((other) => other.service === 'fill' && other.to.part === tank.id && other.to.port === fill.port);
    const bores = [...(course?.parts ?? []).map((id) => view.network.parts.get(id)!.bore?.si), fill.bore?.si].filter((bore) => bore !== undefined);
    if (bores.length === 0) return { outcome: 'cannot tell', about: tank.id, missing: [{ about: fill.id, fact: `the bore of the fill of ${tank.id}`, how: 'measure the inside of the fill hose' }] };
    const asked = circle(Math.min(...bores) * 1e3);
    return area >= asked ? { outcome: 'pass', about: tank.id, rests } : tooSmall(tank, tank.fittings.find((fitting) => fitting.kind === 'vent')!, Math.sqrt((4 * area) / Math.PI) / 1e3, area, [asked], 'under pressure', rests);
}

function tooSmall(tank: Tank, vent: Fitting, bore: number, area: number, asked: readonly number[], ends: Fitting['fillEnds'], rests: readonly Ground[]): Failure {
    const need = Math.max(...asked);
    const why = ends === 'under pressure' ? 'for a tank filled under pressure' : ends === 'into the tank' ? 'for a fill pipe that reaches into the tank'
        : ends === undefined ? 'even for a fill pipe that ends at the tank top, and more for one that reaches into it' : 'for a fill pipe that ends at the tank top';
    return {
        outcome: 'fail', about: vent.id, rests, message: `The vent of ${tank.id} has a bore of ${round(bore * 1e3)} mm, ${round(area)} mm²; 46 CFR 182.450(c) asks ${round(need)} mm² ${why}.`,
        reason: 'Air cannot leave as fast as fuel comes: fuel blows back, or the tank is strained.',
        advice: `Fit a vent line and fittings of at least ${round(Math.ceil(Math.sqrt((4 * need) / Math.PI) * 10) / 10)} mm bore.`,
    };
}

const round = (value: number): number => Number(value.toFixed(1));
