/** What head a link takes at a flow: one rising curve for each, since then a network has one answer. */
import type { Circuit, CurvePoint, FlowLink } from './circuit';
import { GRAVITY, LAMINAR, areaOf, headLost, type Pipe } from './pipe';

/**
 * m for each m³/s, added to every link: a purely turbulent element at rest would have no slope, and nothing could be solved. It makes
 * 0.1 mm of head at 10 L/s; fuel lines have 100 to 10⁶.
 */
const LEAST = 0.01;

/** m for each m³/s, backwards through a check: 1 m leaks 4e-6 L/h. It is told as none. */
const SHUT = 1e12;

/** m/s in the narrowest pipe, to begin with. */
const FIRST_SPEED = 0.3;

/** A head of a link as data: (linear + square Q) Q as long as all of it is laminar, else what the pipes take besides; over that the seat of a check and the curve of a pump. */
export interface Law {
    /** Where nothing passes backwards: the head from which on something passes forwards, m. */
    readonly opens: number | undefined;
    /** A flow to begin with, m³/s. */
    readonly first: number;
    /** m for each m³/s, and for its square. With the pipes while laminar, and without them. */
    readonly linear: number;
    readonly others: number;
    readonly square: number;
    /** m³/s: up to here all pipes are laminar. */
    readonly laminar: number;
    readonly pipes: readonly Pipe[];
    readonly viscosity: number;
    readonly curve: readonly CurvePoint[] | undefined;
}

export function lawOf({ pipes = NO_PIPES, k = 0, element, check, pump }: FlowLink, { density, viscosity }: Circuit['fluid']): Law {
    const weight = density * GRAVITY;
    const curve = pump && 'curve' in pump ? pump.curve : undefined;
    let [others, square, first, laminar, widest] = [LEAST, 0, Infinity, Infinity, 0];
    if (element) {
        others += element.drop * (1 - element.turbulent) / element.at / weight;
        square += element.drop * element.turbulent / element.at ** 2 / weight;
        first = element.at;
    }
    for (const { bore } of pipes) {
        first = Math.min(first, FIRST_SPEED * areaOf(bore));
        laminar = Math.min(laminar, LAMINAR * viscosity * areaOf(bore) / bore);
        widest = Math.max(widest, bore);
    }
    if (curve) first = Math.min(first, curve.at(-1)!.flow / 2);
    if (widest > 0) square += k / areaOf(widest) ** 2 / (2 * GRAVITY);
    // Where all of it is laminar the pipes are a straight line, as is most of what fuel lines do.
    const linear = others + (pipes.length === 0 ? 0 : headLost(pipes, laminar / 2, { viscosity }) / (laminar / 2));
    const opens = check || curve ? (check?.opens ?? 0) / weight - (curve?.[0]?.head ?? 0) : undefined;
    return { opens, first, linear, others, square, laminar, pipes, viscosity, curve };
}

const NO_PIPES: readonly Pipe[] = [];

/** The head that each law takes at its flow, m, from `from` to `to`; and its slope towards greater flow, m for each m³/s, always above zero. */
export interface Taken {
    readonly heads: Float64Array;
    readonly slopes: Float64Array;
}

export const roomFor = (count: number): Taken => ({ heads: new Float64Array(count), slopes: new Float64Array(count) });

/** Written into `room`, which is given back. Of those that are `out` nothing is asked: they take no head, and pass nothing whatever stands against them. */
export function takenBy(laws: readonly Law[], flows: Float64Array, room: Taken, out?: Uint8Array): Taken {
    const { heads, slopes } = room;
    for (let i = 0; i < laws.length; i++) {
        if (out?.[i] === 1) { heads[i] = 0; slopes[i] = Infinity; continue; }
        const { opens, linear, others, square, laminar, pipes, viscosity, curve } = laws[i]!;
        const flow = flows[i]!;
        if (opens !== undefined && flow < 0) { heads[i] = opens + SHUT * flow; slopes[i] = SHUT; continue; }
        const size = Math.abs(flow);
        let head: number;
        let slope: number;
        if (size <= laminar) { head = (linear + square * size) * size; slope = linear + 2 * square * size; } else {
            const friction = headLost(pipes, size, { viscosity });
            // A difference, since the friction factor's own derivative would be a second copy of it.
            const rise = (headLost(pipes, size * (1 + STEP), { viscosity }) - friction) / (size * STEP);
            head = friction + (others + square * size) * size;
            slope = Math.max(0, rise) + others + 2 * square * size;
        }
        if (curve) {
            const point = onCurve(curve, flow);
            head += curve[0]!.head - point.head;
            slope += point.fall;
        }
        heads[i] = (flow < 0 ? -head : head) + (opens ?? 0);
        slopes[i] = slope;
    }
    return room;
}

/** Of a flow, for its slope. */
const STEP = 1e-6;

function onCurve(curve: readonly CurvePoint[], flow: number): { head: number; fall: number } {
    let i = 1;
    while (i < curve.length - 1 && curve[i]!.flow <= flow) i++;
    const [before, after] = [curve[i - 1]!, curve[i]!];
    const fall = (before.head - after.head) / (after.flow - before.flow);
    return { head: before.head - fall * (flow - before.flow), fall };
}
