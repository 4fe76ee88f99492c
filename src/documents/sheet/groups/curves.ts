/** What a consumer draws or burns at a speed, as inputs of the computations that rest on it. */
import type { Consumer, Id } from '../../../model/boat';
import { demandAt, fullSpeed } from '../../../analysis/flow/demand';
import { estimateOf, type Estimate } from '../../../analysis/estimate';
import { fromSI } from '../../../model/units';
import { figure } from '../../../model/words';
import { input, type From, type Input, type Working } from '../working';

export type Curve = 'burns' | 'draws';

/** A speed of an engine, rev/s, and what says so. */
export interface At {
    readonly speed: number;
    readonly from: From;
}

export interface Read {
    /** Nothing where it is not known at that speed. */
    readonly inputs: readonly Input[];
    /** The computations that they are the results of. */
    readonly before: readonly Working[];
}

export const rpm = (speed: number): string => `${figure(fromSI(speed, 'rpm'), 5)} rpm`;

/** The fastest speed of its curves. */
export function fullOf(consumer: Consumer): At | undefined {
    const speed = fullSpeed(consumer);
    const fact = consumer.draws.some(({ at }) => speed !== undefined && at.si === speed) ? 'draws' : 'burns';
    return speed === undefined ? undefined : { speed, from: { about: consumer.id, fact, words: `the fastest speed of its curves, ${rpm(speed)}` } };
}

const SAME = 1e-9;
const alike = (a: Estimate, b: Estimate): boolean => [a.si - b.si, a.least - b.least, a.most - b.most].every((off) => Math.abs(off) <= SAME * Math.max(a.most, b.most));

/** `what` it is for, in the words of the input. */
export function read(consumer: Consumer, which: Curve, { speed, from }: At, symbol: string): Read {
    const value = demandAt(consumer, speed)?.[which];
    if (!value) return { inputs: [], before: [] };
    const { id } = consumer;
    const what = `what ${id} ${which} at ${rpm(speed)}`;
    const points = consumer[which].filter(({ at }) => at.si > 0).sort((a, b) => a.at.si - b.at.si);
    const stated = points.find(({ at, value: own }) => Math.abs(at.si - speed) <= SAME * speed && alike(estimateOf(own), value));
    if (stated) return { inputs: [input(symbol, what, stated.value, 'L/h', { about: id, fact: which })], before: [] };
    const [below, above] = [points.findLast(({ at }) => at.si < speed), points.find(({ at }) => at.si > speed)];
    const working = below && above ? between(id, which, { speed, from }, below, above, value) : which === 'draws' && (below ?? above) ? carriedOn(id, { speed, from }, (below ?? above)!, value) : undefined;
    // Of two figures for one speed, or where less is said to be drawn than is burnt, no proportion redoes it.
    if (!working) return { inputs: [{ symbol, what, value, unit: 'L/h', from: { about: id, fact: which, words: `${which}, between what is written` } }], before: [] };
    return { inputs: [{ symbol, what, value, unit: 'L/h', from: { step: working.id } }], before: [working] };
}

type Point = Consumer['burns'][number];

function between(id: Id, which: Curve, { speed, from }: At, below: Point, above: Point, value: Estimate): Working | undefined {
    const [q1, q2, n1, n2] = [below.value.si, above.value.si, below.at.si, above.at.si];
    if (Math.abs(q1 + (q2 - q1) * (speed - n1) / (n2 - n1) - value.si) > SAME * value.si) return undefined;
    return {
        id: `${which} ${id}, ${rpm(speed)}`, about: id, what: `What ${id} ${which} at ${rpm(speed)}`, formula: 'Q = Q₁ + (Q₂ − Q₁) × (n − n₁) / (n₂ − n₁)', source: 'a straight line between the two figures beside it',
        inputs: [
            input('Q₁', `what it ${which} slower`, below.value, 'L/h', { about: id, fact: which }), input('n₁', 'at', below.at, 'rpm', { about: id, fact: which }),
            input('Q₂', `what it ${which} faster`, above.value, 'L/h', { about: id, fact: which }), input('n₂', 'at', above.at, 'rpm', { about: id, fact: which }), input('n', 'its speed', speed, 'rpm', from),
        ],
        steps: [], result: { symbol: 'Q', value, unit: 'L/h' }, notes: [], missing: [],
    };
}

function carriedOn(id: Id, { speed, from }: At, { value: drawn, at }: Point, value: Estimate): Working | undefined {
    if (Math.abs(drawn.si * speed / at.si - value.si) > SAME * value.si) return undefined;
    return {
        id: `draws ${id}, ${rpm(speed)}`, about: id, what: `What ${id} draws at ${rpm(speed)}`, formula: 'Q = Q₁ × n / n₁', source: 'in proportion to the speed, as a feed pump moves',
        inputs: [input('Q₁', 'what it draws at the nearest speed that is written', drawn, 'L/h', { about: id, fact: 'draws' }), input('n₁', 'at', at, 'rpm', { about: id, fact: 'draws' }), input('n', 'its speed', speed, 'rpm', from)],
        steps: [], result: { symbol: 'Q', value, unit: 'L/h' }, notes: ['Nobody wrote what it draws so far from there: it lies between what is written and this.'], missing: [],
    };
}
