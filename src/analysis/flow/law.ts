/** What head a link takes at a flow: one rising curve for each, since then a network has one answer. */
import type { Circuit, CurvePoint, FlowLink } from './circuit';
import { GRAVITY, areaOf, headLost } from './pipe';

/**
 * m for each m³/s, added to every link: a purely turbulent element at rest would have no slope, and nothing could be solved. It makes
 * 0.1 mm of head at 10 L/s; fuel lines have 100 to 10⁶.
 */
const LEAST = 0.01;

/** m for each m³/s, backwards through a check: 1 m leaks 4e-6 L/h. It is told as none. */
const SHUT = 1e12;

/** m/s in the narrowest pipe, to begin with. */
const FIRST_SPEED = 0.3;

export interface Law {
    /** The head taken, m, from `from` to `to`. */
    at(flow: number): number;
    /** Its slope towards greater flow, m for each m³/s. Always above zero. */
    slope(flow: number): number;
    /** Where nothing passes backwards: the head from which on something passes forwards, m. */
    readonly opens: number | undefined;
    /** A flow to begin with, m³/s. */
    readonly first: number;
}

export function lawOf({ pipes = [], k = 0, element, check, pump }: FlowLink, { density, viscosity }: Circuit['fluid']): Law {
    const weight = density * GRAVITY;
    const curve = pump && 'curve' in pump ? pump.curve : undefined;
    const [linear, square] = element ? [element.drop * (1 - element.turbulent) / element.at, element.drop * element.turbulent / element.at ** 2] : [0, 0];
    const hinders = (flow: number): number => headLost(pipes, flow, { viscosity }, k) + (linear + square * flow) * flow / weight + LEAST * flow;
    const opens = check || curve ? (check?.opens ?? 0) / weight - (curve?.[0]?.head ?? 0) : undefined;
    const firsts = [...pipes.map(({ bore }) => FIRST_SPEED * areaOf(bore)), ...(element ? [element.at] : []), ...(curve ? [curve.at(-1)!.flow / 2] : [])];
    return {
        opens,
        first: Math.min(...firsts),
        at: (flow) => {
            if (opens === undefined) return Math.sign(flow) * hinders(Math.abs(flow));
            return flow < 0 ? opens + SHUT * flow : opens + hinders(flow) + (curve ? curve[0]!.head - onCurve(curve, flow).head : 0);
        },
        slope: (flow) => {
            if (opens !== undefined && flow < 0) return SHUT;
            const size = Math.abs(flow);
            // A difference, since the friction factor's own derivative would be a second copy of it.
            const step = 1e-6 * Math.max(size, 1e-9);
            return Math.max(LEAST, (hinders(size + step) - hinders(size)) / step) + (curve ? onCurve(curve, flow).fall : 0);
        },
    };
}

function onCurve(curve: readonly CurvePoint[], flow: number): { head: number; fall: number } {
    let i = 1;
    while (i < curve.length - 1 && curve[i]!.flow <= flow) i++;
    const [before, after] = [curve[i - 1]!, curve[i]!];
    const fall = (before.head - after.head) / (after.flow - before.flow);
    return { head: before.head - fall * (flow - before.flow), fall };
}
