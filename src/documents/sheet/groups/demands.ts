/** What each consumer draws, burns and gives back: at full speed, and at others that a computation asks for. */
import type { Consumer } from '../../../model/boat';
import type { CurvePoint } from '../../../model/measure';
import { demandAt, fullSpeed, knots } from '../../../analysis/flow/demand';
import { exactly } from '../../../analysis/estimate';
import { burnsFuel, type View } from '../../../checks/check';
import { burnsMissing, drawsMissing } from '../../../analysis/missing';
import { fromSI } from '../../../model/units';
import { carried, type From, type Input, type Working } from '../working';

export type Speed = number | 'full';

export const demandWorkings = (view: View): Working[] => view.boat.consumers.filter((consumer) => burnsFuel(view, consumer)).flatMap((consumer) => demandsAt(consumer, 'full').filter(({ id }) => id !== `returns ${consumer.id}` || view.boat.joints.some(({ from }) => from === `${consumer.id}:out`)));
export const demandsAt = (consumer: Consumer, speed: Speed): Working[] => [burnsWorking(consumer, speed), drawsWorking(consumer, speed), returnsWorking(consumer, speed)];

export const speedWords = (speed: Speed): string => (speed === 'full' ? 'at full speed' : `at ${Math.round(fromSI(speed, 'rpm'))} rpm`);
/** What is computed at another speed than full says so in its id. */
export const speedSuffix = (speed: Speed): string => (speed === 'full' ? '' : `, ${speedWords(speed)}`);

/** Speeds as near as this are one, as the curves have it. */
const SAME = 1e-9;

interface OnCurve {
    readonly formula: string;
    readonly inputs: readonly Input[];
    readonly source: string;
    readonly value: number;
}

/** How a curve gives the flow at a speed: a stated point, between two of them, or in proportion from the nearest. */
function onCurve(consumer: Consumer, fact: 'draws' | 'burns', symbol: string, asked: Speed): OnCurve | undefined {
    const curve: readonly CurvePoint[] = consumer[fact];
    const points = knots(curve);
    const speed = asked === 'full' ? fullSpeed(consumer) : asked;
    if (speed === undefined || points.length === 0) return undefined;
    const from: From = { about: consumer.id, fact };
    const point = (i: number, knot: (typeof points)[number]): Input[] => [
        { symbol: `${symbol}${'₁₂'[i]!}`, what: `${fact === 'draws' ? 'drawn' : 'burnt'} at the speed n${'₁₂'[i]!}`, value: knot.value, unit: 'L/h', from }, { symbol: `n${'₁₂'[i]!}`, what: 'that speed', value: exactly(knot.speed), unit: 'rpm', from },
    ];
    const n: Input = { symbol: 'n', what: asked === 'full' ? 'full speed, the fastest of its curves' : 'speed', value: exactly(speed), unit: 'rpm', from: asked === 'full' ? { about: consumer.id, fact: Math.max(0, ...points.map((knot) => knot.speed)) >= speed * (1 - SAME) ? fact : fact === 'draws' ? 'burns' : 'draws' } : { cited: 'the speed that is asked for' } };
    const exact = points.find((knot) => Math.abs(knot.speed - speed) <= SAME * speed);
    if (exact) return { formula: `${symbol}₁`, value: exact.value.si, inputs: point(0, exact), source: curve.filter(({ at }) => Math.abs(at.si - speed) <= SAME * speed).length > 1 ? 'the middle of the figures stated for this speed' : 'as stated' };
    const next = points.findIndex((knot) => knot.speed > speed);
    const [before, after] = [points[next - 1], points[next]];
    if (next > 0) return { value: before!.value.si + (after!.value.si - before!.value.si) * (speed - before!.speed) / (after!.speed - before!.speed), formula: `${symbol}₁ + (${symbol}₂ − ${symbol}₁) × (n − n₁) / (n₂ − n₁)`, inputs: [...point(0, points[next - 1]!), ...point(1, points[next]!), n], source: 'straight between two stated points' };
    const end = next < 0 ? points.at(-1)! : points[0]!;
    return { value: end.value.si * speed / end.speed, formula: `${symbol}₁ × n / n₁`, inputs: [...point(0, end), n], source: 'a feed pump moves in proportion to its speed: common practice' };
}

function burnsWorking(consumer: Consumer, speed: Speed): Working {
    const { id } = consumer;
    const base = { id: `burns ${id}${speedSuffix(speed)}`, about: id, what: `What ${id} burns ${speedWords(speed)}`, steps: [], notes: [] };
    const [burns, by] = [demandAt(consumer, speed)?.burns, onCurve(consumer, 'burns', 'B', speed)];
    if (!burns || !by) return { ...base, formula: 'B = the curve at this speed', source: 'as stated', inputs: [], missing: [burnsMissing(consumer, speed === 'full' ? 'full speed' : speedWords(speed).replace('at ', ''))] };
    return { ...base, formula: `B = ${by.formula}`, source: by.source, inputs: by.inputs, result: { symbol: 'B', value: burns, unit: 'L/h' }, missing: [] };
}

export function drawsWorking(consumer: Consumer, speed: Speed): Working {
    const { id } = consumer;
    const base = { id: `draws ${id}${speedSuffix(speed)}`, about: id, what: `What ${id} draws ${speedWords(speed)}`, steps: [] };
    const [draws, by] = [demandAt(consumer, speed)?.draws, onCurve(consumer, 'draws', 'Q', speed)];
    if (!draws || !by) return { ...base, formula: 'Q = the curve at this speed', source: 'as stated', inputs: [], notes: [], missing: [drawsMissing(consumer)] };
    // It draws no less than it burns.
    const floor = by.value < draws.si * (1 - SAME) ? carried('B', `what ${id} burns then`, burnsWorking(consumer, speed)) : [];
    return {
        ...base, formula: floor.length > 0 ? `Q = max(${by.formula}, B)` : `Q = ${by.formula}`, source: by.source, inputs: [...by.inputs, ...floor], result: { symbol: 'Q', value: draws, unit: 'L/h' }, missing: [],
        notes: by.formula.endsWith('n / n₁') && draws.least < draws.most ? ['Between what the stated point gives and what the proportion gives.'] : [],
    };
}

export function returnsWorking(consumer: Consumer, speed: Speed): Working {
    const { id } = consumer;
    const [draws, burns] = [drawsWorking(consumer, speed), burnsWorking(consumer, speed)];
    const demand = demandAt(consumer, speed);
    const value = demand?.returns ?? (burns.result ? undefined : demand?.draws);
    const inputs = [...carried('Q', 'what it draws', draws), ...carried('B', 'what it burns', burns)];
    return {
        id: `returns ${id}${speedSuffix(speed)}`, about: id, what: `What ${id} gives back ${speedWords(speed)}`, formula: burns.result ? 'R = Q − B' : 'R = Q', source: 'what is not burnt comes back', inputs, steps: [],
        ...(value && { result: { symbol: 'R', value, unit: 'L/h' } }), notes: burns.result || !draws.result ? [] : ['What it burns is not told at this speed: all that is drawn is counted.'], missing: draws.missing,
    };
}
