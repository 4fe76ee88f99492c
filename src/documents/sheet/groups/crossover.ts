/** Two tanks that an open pipe joins, one filled and one at its lowest level: what runs over at first, and how long until they stand level. */
import type { Id, Tank } from '../../../model/boat';
import type { Place } from '../../../model/measure';
import { exactly } from '../../../analysis/estimate';
import { MOUTHS } from '../../../analysis/air/gravity';
import { fluidOf } from '../../../analysis/flow/fluid';
import { areaOf, GRAVITY, headLost, reynolds } from '../../../analysis/flow/pipe';
import { lowLevel } from '../../../analysis/opening/condition';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { grossOf, surfaceAt } from '../../../analysis/tanks/liquid';
import { FULL } from '../../../analysis/tanks/pickups';
import { crossovers, LEVEL, levelling, type Crossover, type Levelling } from '../../../analysis/time/crossover';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { View } from '../../../checks/check';
import { distinct, levelMissing, sizeMissing } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { figure, litres } from '../../../model/words';
import { byName, carried, input, type Input, type Step, type Working } from '../working';
import { frictionSteps, roughness, rowInputs, type Row } from './rows';

/** Each way between two tanks once, in the first line-up that opens it. */
export function crossoverWorkings(view: View): Working[] {
    const seen = new Set<string>();
    return [...view.lineUps].sort((a, b) => byName(a.id, b.id)).flatMap((lineUp) => crossovers(view.network, lineUp.positions).flatMap((crossover) => {
        const key = `${crossover.tanks.map(({ id }) => id).join(' ')} ${[...crossover.parts].sort().join(' ')}`;
        if (seen.has(key) || crossover.tanks.some(({ carries = 'diesel' }) => carries !== 'diesel')) return [];
        seen.add(key);
        return pairWorkings(view, lineUp, crossover);
    }));
}

function pairWorkings(view: View, lineUp: ResolvedLineUp, { tanks, mouths, pipes, parts, lacks }: Crossover): Working[] {
    const { boat } = view;
    const surfaces = tanks.map((tank) => surfaceAt(tank, FULL * (grossOf(tank) ?? NaN), UPRIGHT));
    // The one whose surface stands higher when both are filled gives.
    const gives = (surfaces[1] ?? -Infinity) > (surfaces[0] ?? -Infinity) + 1e-9 ? 1 : 0;
    const [from, to] = [tanks[gives]!, tanks[1 - gives]!];
    const [mouthFrom, mouthTo] = [mouths[gives], mouths[1 - gives]];
    const about = from.id;
    const shared = { about, where: `line-up ${lineUp.id}, upright, ${from.id} filled, ${to.id} at its lowest level, the coldest fuel` };
    const ids = { flow: `first flow ${from.id} to ${to.id}, ${lineUp.id}`, time: `levelling ${from.id} to ${to.id}, ${lineUp.id}` };
    const what = `What runs from ${from.id} to ${to.id} at first`;
    const low = lowLevel(boat);
    const missing = distinct([...tanks.filter((tank) => surfaceAt(tank, FULL * (grossOf(tank) ?? NaN), UPRIGHT) === undefined).map(({ id }) => sizeMissing(id)), ...lacks.map((lack) => missingInTime(boat, lack)), ...(boat.vessel.envelope.level ? [] : [levelMissing])]);
    if (missing.length > 0) return [{ ...shared, id: ids.flow, what, formula: 'Q by the head h', source: 'Darcy and Weisbach', inputs: [], steps: [], notes: [], missing }];
    const fluid = fluidOf(boat.vessel);
    const side = (tank: Tank, share: number, mouth: Place | undefined): Parameters<typeof levelling>[0] => ({ tank, volume: share * grossOf(tank)!, ...(mouth && { mouth }) });
    const found = levelling(side(from, FULL, mouthFrom), side(to, low, mouthTo), pipes, fluid);
    if (!found || found.from !== from.id || found.first <= 0) return [];
    const row = rowInputs(view, parts);
    const [high, lower] = [surfaceInputs(from, FULL, '₁'), surfaceInputs(to, low, '₂')];
    const pours = mouthTo?.up && mouthTo.up.si > lower.surface ? mouthTo.up : undefined;
    const head = high.surface - Math.max(lower.surface, pours?.si ?? -Infinity);
    const level: Input[] = [...high.inputs, ...lower.inputs, ...(pours ? [input('m', `mouth of the pipe in ${to.id}, which stands above the surface there`, pours, 'mm', { about: to.fittings.find(({ mouth }) => mouth === mouthTo)?.id ?? to.id, fact: 'mouth' })] : [])];
    const heads: Step[] = [...high.steps, ...lower.steps, { symbol: 'h', what: 'head between them', formula: `h = S₁ − ${pours ? 'm' : 'S₂'}`, value: head, unit: 'mm' }];
    const constants: Input[] = [
        { ...input('ν', 'viscosity of the fuel', fluid.viscosity, 'mm2/s', { cited: 'by what is said of the fuel, or its grade' }), from: fluid.taken.length > 0 ? { taken: fluid.taken.join('; ') } : { about: 'vessel', fact: 'fuel viscosity' } },
        input('K', 'velocity heads of the mouths', MOUTHS, '1', { cited: 'textbook value' }), input('g', 'acceleration of free fall', GRAVITY, '1', { cited: '9.80665 m/s², the standard value' }),
    ];
    const widest = [...row.pipes].sort((a, b) => b.bore - a.bore)[0]!;
    const worked = frictionSteps(row, found.first, fluid.viscosity, widest.number);
    const result = { symbol: 'Q', value: exactly(found.first), unit: 'L/min' };
    const rest = { ...shared, inputs: [...level, ...row.inputs, ...constants], missing: [] };
    const narrow = [...row.pipes].filter(({ length }) => length > 0).sort((a, b) => a.bore - b.bore)[0];
    const re = narrow ? figure(reynolds(found.first / areaOf(narrow.bore), narrow.bore, fluid.viscosity)) : '';
    const laminar = worked.laminar ? laminarSteps(row, fluid.viscosity, widest) : undefined;
    const flow: Working = laminar ? {
        ...rest, id: ids.flow, what, formula: 'Q = 2 × h / (a + √(a² + 4 × c × h))', source: 'Hagen and Poiseuille, with the loss at the mouths: h = a × Q + c × Q²', steps: [...heads, ...laminar.steps], result, notes: [`Laminar throughout: Re ${re} at most, of 2000. Filters and fittings make it less.`],
    } : {
        ...rest, id: ids.flow, what, formula: 'Q₀ = Q', source: 'Darcy and Weisbach', inputs: [...rest.inputs, ...(worked.rough ? [roughness()] : [])], result: { ...result, symbol: 'Q₀' },
        steps: [...heads, { symbol: 'Q', what: 'what runs at that head', formula: 'by trial, until C below comes to h', value: found.first, unit: 'L/min' }, ...worked.steps, { symbol: 'C', what: 'the head that it takes, to prove it', formula: `C = (${worked.friction} + K × v${widest.number}²) / (2 × g)`, value: headLost(pipes, found.first, fluid, MOUTHS), unit: 'mm' }],
        notes: [...worked.notes, 'Filters and fittings make it less.'],
    };
    return [flow, timeWorking(ids.time, shared, { from, to }, found, flow, { row, constants, laminar, boxes: pours === undefined })];
}

/** A box stands at p × H over its corner; of other shapes the mesh tells it. */
function surfaceInputs(tank: Tank, share: number, number: string): { readonly inputs: Input[]; readonly steps: Step[]; readonly surface: number } {
    const surface = surfaceAt(tank, share * grossOf(tank)!, UPRIGHT)!;
    const symbol = `S${number}`;
    const { id, box } = tank;
    const from: Input['from'] = share === FULL ? { taken: `${FULL * 100} %, trade practice` } : { about: 'vessel', fact: 'envelope level' };
    const what = `share to which ${id} is filled`;
    if (!box?.corner.up) return { surface, steps: [], inputs: [input(symbol, `surface of ${id}`, surface, 'mm', { about: id, fact: 'section', words: `its surface at ${figure(share * 100)} %, by the mesh of its shape` })] };
    return {
        surface, inputs: [input(`p${number}`, what, share, '%', from), input(`H${number}`, `inside height of ${id}`, box.height, 'mm', { about: id, fact: 'box' }), input(`z${number}`, `low aft inner corner of ${id}, above the datum`, box.corner.up, 'mm', { about: id, fact: 'low aft inner corner' })],
        steps: [{ symbol, what: `surface of ${id}`, formula: `${symbol} = z${number} + p${number} × H${number}`, value: surface, unit: 'mm' }],
    };
}

interface Laminar {
    readonly steps: readonly Step[];
    /** s/m² and s²/m⁵. */
    readonly a: number;
    readonly c: number;
}

function laminarSteps({ pipes }: Row, viscosity: number, widest: Row['pipes'][number]): Laminar {
    const used = pipes.filter(({ length }) => length > 0);
    const a = 128 * viscosity * used.reduce((sum, { bore, length }) => sum + length / bore ** 4, 0) / (Math.PI * GRAVITY);
    const c = 8 * MOUTHS / (Math.PI ** 2 * GRAVITY * widest.bore ** 4);
    const { number: i } = widest;
    const sum = used.map(({ number }) => `L${number} / (D${number}² × D${number}²)`).join(' + ') || '0';
    return {
        a, c, steps: [
            { symbol: 'a', what: 'head by flow, of the pipes', formula: `a = 128 × ν × ${used.length > 1 ? `(${sum})` : sum} / (π × g)`, value: a, unit: '1' },
            { symbol: 'c', what: 'head by the square of the flow, of the mouths', formula: `c = 8 × K / (π² × g × D${i}² × D${i}²)`, value: c, unit: '1' },
        ],
    };
}

interface With {
    readonly row: Row;
    readonly constants: readonly Input[];
    readonly laminar: Laminar | undefined;
    /** The closed form holds for the mouths: both stay under. */
    readonly boxes: boolean;
}

const ENDS: Readonly<Record<Levelling['ends'], (from: Id, to: Id) => string>> = {
    level: () => `both stand level, to ${LEVEL * 1000} mm`, 'mouth dry': (from) => `the pipe draws air in ${from}`, 'other full': (_, to) => `${to} is full and runs over`,
};

function timeWorking(id: string, shared: { about: Id; where: string }, { from, to }: { from: Tank; to: Tank }, found: Levelling, flow: Working, { row, constants, laminar, boxes }: With): Working {
    const what = `How long it runs until ${ENDS[found.ends](from.id, to.id)}`;
    const result = { symbol: 't', value: exactly(found.seconds), unit: found.seconds < 3600 ? 'min' : 'h' };
    const notes = [`${litres(found.moved)} run over. It is added up step by step, the levels and the flow followed all the way.`];
    const base = { ...shared, id, what, result, missing: [] };
    const [one, other] = [from.box, to.box];
    if (!laminar || !boxes || !one || !other || found.ends !== 'level') return { ...base, formula: 'dV / dt = Q, added up until then', source: 'Q by the head that is left', inputs: carried('Q', 'what runs at first', flow), steps: [], bySteps: true, notes };
    const sides = [['₁', from, one], ['₂', to, other]] as const;
    const area = 1 / sides.reduce((sum, [, , { length, breadth }]) => sum + 1 / (length * breadth), 0);
    const { a, c } = laminar;
    return {
        ...base, formula: 't = A × (a × ln(Q / q) + 2 × c × (Q − q))', source: 'the closed form for boxes while the flow is laminar',
        inputs: [
            ...carried('Q', 'what runs at first', flow), input('e', 'head at which they count as level', LEVEL, 'mm', { cited: 'our own figure: laminar flow never ends' }),
            ...sides.flatMap(([i, { id: tank }, { length, breadth }]) => [input(`B${i}`, `inside breadth of ${tank}`, breadth, 'mm', { about: tank, fact: 'box' }), input(`M${i}`, `inside length of ${tank}`, length, 'mm', { about: tank, fact: 'box' })]), ...row.inputs, ...constants,
        ],
        steps: [
            ...laminar.steps, { symbol: 'A', what: 'by how much they fall and rise', formula: 'A = 1 / (1 / (B₁ × M₁) + 1 / (B₂ × M₂))', value: area, unit: 'm2' },
            { symbol: 'q', what: 'what runs at the end', formula: 'q = 2 × e / (a + √(a² + 4 × c × e))', value: (2 * LEVEL) / (a + Math.sqrt(a ** 2 + 4 * c * LEVEL)), unit: 'L/min' },
        ],
        notes: [...notes, 'The closed form, which holds here, is the check.'],
    };
}
