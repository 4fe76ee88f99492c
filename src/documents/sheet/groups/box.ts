/**
 * A box under a level plane, as formulas that a person can redo. Seen along the leaned vertical, the edges of the box rise by a × L, b × B and c × H from its lowest
 * corner. Up to a depth d over that corner the plane cuts a pyramid off (a wedge where two edges rise, with heel or trim alone), less the
 * smaller ones that would stand outside the box, beyond each corner that the plane has passed: exact at any heel and trim below 90°.
 */
import type { Box, Id, Tank } from '../../../model/boat';
import { exactly } from '../../../analysis/estimate';
import { dot, vertical, type Attitude } from '../../../analysis/tanks/attitude';
import type { Place } from '../../../model/measure';
import { input, type From, type Input, type Step } from '../working';

/** What rises from the lowest corner along one edge. */
interface Edge {
    /** The symbol of its slope, the sine of its angle to the plane. */
    readonly slope: string;
    readonly size: string;
    readonly rise: number;
}

export interface LeanedBox {
    readonly inputs: readonly Input[];
    /** To the leaned height q of the lowest corner, and the slopes. */
    readonly steps: readonly Step[];
    readonly edges: readonly Edge[];
    /** The sizes along which it stands level. */
    readonly level: readonly string[];
    /** q, m. */
    readonly low: number;
    readonly slopes: Readonly<Record<string, number>>;
}

const RIGHT_ANGLE = Math.PI / 2;

export const sizes = (tank: Id, { length, breadth, height }: Box, which = 'LBH'): Input[] =>
    ([['L', 'inside length', length], ['B', 'inside breadth', breadth], ['H', 'inside height', height]] as const).filter(([symbol]) => which.includes(symbol))
        .map(([symbol, what, value]) => input(symbol, what, value, 'mm', { about: tank, fact: 'box' }));

/** Heel and trim as inputs, where she has them. */
export const leanInputs = ({ heel, trim }: Attitude): Input[] => [
    ...(heel === 0 ? [] : [{ symbol: 'φ', what: 'heel, positive with starboard down', value: exactly(heel), unit: 'deg', from: { about: 'vessel', fact: 'envelope heel' } }]),
    ...(trim === 0 ? [] : [{ symbol: 'θ', what: 'trim, positive with bow up', value: exactly(trim), unit: 'deg', from: { about: 'vessel', fact: 'envelope trim' } }]),
];

/** The leaned height of a point: z cos φ cos θ - y sin φ cos θ + x sin θ, of which only what counts is written. */
export function leanedHeight({ heel, trim }: Attitude, x: string, y: string, z: string): string {
    const cosTrim = trim === 0 ? '' : ' × cos θ';
    const up = `${z}${heel === 0 ? '' : ' × cos φ'}${cosTrim}`;
    return `${up}${heel === 0 ? '' : ` − ${y} × sin φ${cosTrim}`}${trim === 0 ? '' : ` + ${x} × sin θ`}`;
}

/** The place of a point as inputs, as far as it counts at an attitude. */
export function placeInputs(what: string, place: Place, { heel, trim }: Attitude, from: (axis: keyof Place) => From, symbols = { fwd: 'x', stbd: 'y', up: 'z' }): Input[] {
    return [
        ...(trim !== 0 && place.fwd ? [input(symbols.fwd, `${what}, forward of the transom`, place.fwd, 'mm', from('fwd'))] : []),
        ...(heel !== 0 && place.stbd ? [input(symbols.stbd, `${what}, to starboard of the centreline`, place.stbd, 'mm', from('stbd'))] : []),
        ...(place.up ? [input(symbols.up, `${what}, above the datum`, place.up, 'mm', from('up'))] : []),
    ];
}

/** Undefined when the place of the box is not known that far, or she lies on her side. */
export function leanedBox({ id, box }: Tank, attitude: Attitude): LeanedBox | undefined {
    const { heel, trim } = attitude;
    const bottom = box?.corner.up;
    if (!box || !bottom || (heel !== 0 && !box.corner.stbd) || (trim !== 0 && !box.corner.fwd) || Math.abs(heel) >= RIGHT_ANGLE || Math.abs(trim) >= RIGHT_ANGLE) return undefined;
    const { length, breadth, height, corner, outboard } = box;
    const steps: Step[] = [];
    let [x, y] = ['x₀', 'y₀'];
    let [fwd, stbd] = [corner.fwd?.si ?? 0, corner.stbd?.si ?? 0];
    if (trim < 0) {
        [x, fwd] = ['x₁', fwd + length];
        steps.push({ symbol: x, what: 'the forward end, which is the lower', formula: 'x₁ = x₀ + L', value: fwd, unit: 'mm' });
    }
    if (heel * outboard > 0) {
        [y, stbd] = ['y₁', stbd + outboard * breadth];
        steps.push({ symbol: y, what: 'the outer side, which is the lower', formula: `y₁ = y₀ ${outboard > 0 ? '+' : '−'} B`, value: stbd, unit: 'mm' });
    }
    const up = vertical(attitude);
    const low = dot(up, [fwd, stbd, bottom.si]);
    steps.push({ symbol: 'q', what: 'height of the lowest corner as she lies', formula: `q = ${leanedHeight(attitude, x, y, 'z₀')}`, value: low, unit: 'mm' });
    const slopes = { a: Math.abs(up[0]), b: Math.abs(up[1]), c: Math.abs(up[2]) };
    const [cosTrim, heeled, trimmed] = [trim === 0 ? '' : ' × cos θ', heel !== 0, trim !== 0];
    if (trimmed) steps.push({ symbol: 'a', what: 'rise along the length', formula: 'a = |sin θ|', value: slopes.a, unit: '1' });
    if (heeled) steps.push({ symbol: 'b', what: 'rise across the breadth', formula: `b = |sin φ|${cosTrim}`, value: slopes.b, unit: '1' });
    if (heeled || trimmed) steps.push({ symbol: 'c', what: 'rise up the height', formula: `c = ${heeled ? 'cos φ' : ''}${heeled ? cosTrim : 'cos θ'}`, value: slopes.c, unit: '1' });
    const edges: Edge[] = [
        ...(trimmed ? [{ slope: 'a', size: 'L', rise: slopes.a * length }] : []),
        ...(heeled ? [{ slope: 'b', size: 'B', rise: slopes.b * breadth }] : []),
        { slope: heeled || trimmed ? 'c' : '', size: 'H', rise: slopes.c * height },
    ];
    return {
        inputs: [...sizes(id, box), ...placeInputs('low aft inner corner', corner, attitude, () => ({ about: id, fact: 'low aft inner corner' }), { fwd: 'x₀', stbd: 'y₀', up: 'z₀' }), ...leanInputs(attitude)],
        steps, edges, level: ['L', 'B'].filter((size) => !edges.some((edge) => edge.size === size)), low, slopes,
    };
}

const POWER = ['', '', '²', '³'];
const PRODUCT = ['', '', '2 × ', '6 × '];

/** What stands below a depth d over the lowest corner, m³: the expression in d, and which case it is. */
export function boxBelow({ edges, level }: LeanedBox, depth: number): { readonly formula: string; readonly note: string } {
    const all = edges.reduce((sum, { rise }) => sum + rise, 0);
    if (depth <= 0) return { formula: '0', note: 'It stands below the lowest corner.' };
    if (depth >= all) return { formula: 'L × B × H', note: 'It stands above the highest corner.' };
    const power = edges.length;
    if (power === 1) return { formula: `${level.join(' × ')} × d`, note: 'Upright: the surface is as large as the floor.' };
    const terms = subsets(edges).filter((set) => set.reduce((sum, { rise }) => sum + rise, 0) < depth)
        .map((set) => `${set.length % 2 === 1 ? '−' : '+'} ${set.length === 0 ? 'd' : `(d${set.map(({ slope, size }) => ` − ${slope} × ${size}`).join('')})`}${POWER[power]}`);
    const sum = terms.join(' ').replace(/^\+ /, '');
    const formula = `${level.map((size) => `${size} × `).join('')}${terms.length > 1 ? `(${sum})` : sum} / (${PRODUCT[power]}${edges.map(({ slope }) => slope).join(' × ')})`;
    const reach = edges.map(({ slope, size }) => `${slope} × ${size}`).join(', ');
    return { formula, note: terms.length === 1 ? `A ${power === 2 ? 'wedge' : 'pyramid'}: so while d is at most each of ${reach}.` : `The surface has passed ${terms.length - 1 === 1 ? 'another corner' : `${terms.length - 1} more corners`}: a term stands for each of ${reach}, and each sum of them, that is less than d.` };
}

/** The depth d over the lowest corner at which a volume V stands, as steps; the formula without trial where there is one. */
export function depthSteps(leaned: LeanedBox, box: Box, volume: number, depth: number): { readonly steps: readonly Step[]; readonly note: string } {
    const { edges, level, slopes } = leaned;
    const what = 'depth over the lowest corner';
    const step = (formula: string): Step => ({ symbol: 'd', what, formula, value: depth, unit: 'mm' });
    const power = edges.length;
    const { formula, note } = boxBelow(leaned, depth);
    if (power === 1) return { steps: [step('d = V / (L × B)')], note };
    const tilt = (slopes['a']! * box.length + slopes['b']! * box.breadth) / 2;
    const mean = volume / (box.length * box.breadth);
    if (tilt <= slopes['c']! * Math.min(mean, box.height - mean)) {
        const rises = edges.filter(({ size }) => size !== 'H').map(({ slope, size }) => `${slope} × ${size}`).join(' + ');
        return {
            steps: [{ symbol: 'h', what: 'depth at the middle of the tank, as upright', formula: 'h = V / (L × B)', value: mean, unit: 'mm' }, step(`d = c × h + (${rises}) / 2`)],
            note: `The surface cuts neither floor nor lid: so while (${rises}) / 2 is at most c × h and c × (H − h).`,
        };
    }
    if (!formula.includes('(d') && depth > 0) {
        const product = `${PRODUCT[power]}${edges.map(({ slope }) => slope).join(' × ')} × V`;
        return { steps: [step(power === 2 ? `d = √(${product} / ${level[0]})` : `d = ∛(${product})`)], note };
    }
    return {
        steps: [step('by trial, until C below comes to V'), { symbol: 'C', what: 'what stands below that depth, to prove it', formula: `C = ${formula}`, value: volume, unit: 'L' }], note,
    };
}

const subsets = <T>(items: readonly T[]): T[][] => items.reduce<T[][]>((sets, item) => [...sets, ...sets.map((set) => [...set, item])], [[]]);
