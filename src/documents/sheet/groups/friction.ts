/** What each pipe takes from the flow by friction: on the way to each consumer's first pump, and of each return. */
import type { Consumer, Id } from '../../../model/boat';
import type { Estimate } from '../../../analysis/estimate';
import { exactly } from '../../../analysis/estimate';
import { FITTING } from '../../../analysis/flow/plumbed';
import { areaOf, DRAWN, frictionFactor, LAMINAR, reynolds, TURBULENT } from '../../../analysis/flow/pipe';
import type { Asked } from '../../../analysis/flow/states';
import type { Passed, Steady } from '../../../analysis/flow/steady';
import { fittingOf } from '../../../analysis/topology/joints';
import { nameOf, type View } from '../../../checks/check';
import { fromSI } from '../../../model/units';
import { figure } from '../../../model/words';
import { flowsOf, lossOf, partOf } from '../flows';
import { carried, input, type Input, type Step, type Working } from '../working';
import { drawsWorking, returnsWorking, speedWords, type Speed } from './demands';
import { densityWorking, viscosityWorking } from './fuel';

export function frictionWorkings(view: View): Working[] {
    const { drawing, returning } = flowsOf(view);
    return [
        ...drawing.flatMap(({ worst, inlet }) => worst?.suction.way.flatMap(({ passed }) => frictionOf(view, passed, { steady: worst.suction.steady, asked: worst.suction.asked, point: inlet.point }) ?? []) ?? []),
        ...returning.flatMap(({ consumer, worst }) => worst?.found.way.flatMap((passed) => frictionOf(view, passed, { steady: worst.found.steady, asked: worst.found.asked, point: `${consumer.id}:out` }) ?? []) ?? []),
    ];
}

/** The state in which a part is asked about, and a point of the same liquid. */
export interface State {
    readonly steady: Steady;
    readonly asked: Asked;
    readonly point: string;
}

/**
 * The friction of a pipe at what flows in it; undefined for what is no pipe. One computation for each pipe and each flow: the first that is asked for is
 * `friction S1`, others name their line-up or their speed.
 */
export function frictionOf(view: View, passed: Passed, state: State): Working | undefined {
    const part = partOf(view, passed);
    const pipe = passed.link.pipes?.[0];
    if (part === undefined || !pipe || !passed.flow) return undefined;
    const known = computed.get(view) ?? [];
    computed.set(view, known);
    const flow = Math.abs(passed.flow);
    const speed = speedOf(state.asked);
    const same = known.find((one) => one.part === part && isSameFlow(one.flow, flow));
    if (same) return same.working;
    const others = known.filter((one) => one.part === part);
    const named = others.length === 0 && speed === 'full' ? '' : `, ${[state.asked.lineUp.id, ...(speed === 'full' ? [] : [speedWords(speed)])].join(' ')}`;
    const taken = others.filter(({ working }) => working.id.split(', flow')[0] === `friction ${part}${named}`).length;
    const working = frictionWorking(view, part, { flow, bore: pipe.bore, length: pipe.length }, {
        id: `friction ${part}${named}${taken > 0 ? `, flow ${taken + 1}` : ''}`, where: `${speedWords(speed)}, coldest fuel, line-up ${state.asked.lineUp.id}`,
        flow: flowInput(view, part, flow, state), value: lossOf(view, state.asked, passed, state.point),
    });
    known.push({ part, flow, working });
    return working;
}

/** The frictions of a pipe that are computed and laminar: these grow with the flow. */
export function laminarOf(view: View, part: Id): readonly Computed[] {
    return (computed.get(view) ?? []).filter((one) => one.part === part && one.working.steps.some(({ symbol, value }) => symbol === 'Re' && value <= LAMINAR));
}

export interface Computed {
    readonly part: Id;
    /** m³/s. */
    readonly flow: number;
    readonly working: Working;
}

const computed = new WeakMap<View, Computed[]>();

/** Two flows that only arithmetic has made different. */
export const isSameFlow = (one: number, other: number): boolean => Math.abs(one / other - 1) < 1e-6;

/** The speed that was asked for, of what runs. */
export const speedOf = ({ speed }: Asked): Speed => (speed === 'stopped' ? 'full' : speed);

/** What flows in a part: what one consumer draws or gives back, or what the network solution says. */
function flowInput(view: View, part: Id, flow: number, { steady, asked }: State): Input {
    const speed = speedOf(asked);
    const own = (of: number): boolean => isSameFlow(of, flow);
    const onWay = (consumer: Consumer, point: 'in' | 'out'): boolean => (point === 'in' ? steady.wayTo(`${consumer.id}:in`) : steady.wayFrom(`${consumer.id}:out`)).some((passed) => partOf(view, passed) === part);
    for (const consumer of view.boat.consumers) {
        const demand = steady.state.demands.get(consumer.id);
        if (!demand) continue;
        if (own(demand.drawn) && onWay(consumer, 'in')) return carried('Q', `what ${consumer.id} draws`, drawsWorking(consumer, speed))[0] ?? given(part, flow);
        if (own(demand.returned) && onWay(consumer, 'out')) return carried('Q', `what ${consumer.id} gives back`, returnsWorking(consumer, speed))[0] ?? given(part, flow);
    }
    return given(part, flow);
}

const given = (part: Id, flow: number): Input => ({ symbol: 'Q', what: `what flows in ${part}`, value: exactly(flow), unit: 'L/h', from: { cited: 'the network solution: see the balance of flows' } });

interface Given {
    readonly id: string;
    readonly where: string;
    readonly flow: Input;
    readonly value: Estimate;
}

const FITTINGS = `tails, elbows and valves at the ends of a pipe: nothing as is likely, at most as much as ${FITTING.most} bores of length at each end, common practice`;

/** `bore` in place of its own where a larger one is weighed. */
export function frictionWorking(view: View, part: Id, { flow, bore, length }: { readonly flow: number; readonly bore: number; readonly length: number }, given: Given, larger?: Input): Working {
    const density = densityWorking(view);
    const viscosity = viscosityWorking(view);
    const nu = viscosity.result!.value.si;
    const v = flow / areaOf(bore);
    const re = reynolds(v, bore, nu);
    const f = frictionFactor(re, DRAWN / bore);
    const { inputs, steps } = sizesOf(view, part, length);
    const { steps: factor, source, rough } = factorSteps(re, bore, f);
    return {
        id: given.id, about: part, what: `What the friction in ${nameOf(view.boat, part)} takes`, formula: 'Δp = f × (L / D) × ρ × v² / 2', source: `Darcy and Weisbach; ${source}`, where: given.where,
        inputs: [given.flow, larger ?? inputs[0]!, ...inputs.slice(1), ...likely(carried('ρ', 'density of the fuel', density)), ...likely(carried('ν', 'its viscosity', viscosity)), ...(rough ? [input('k', 'roughness of the pipe', DRAWN, 'mm', { cited: 'drawn tubing, by the textbooks; hoses are counted as smooth' })] : [])],
        steps: [
            ...steps, { symbol: 'v', what: 'speed', formula: 'v = 4 × Q / (π × D²)', value: v, unit: 'm/s' },
            { symbol: 'Re', what: `Reynolds number: ${re <= LAMINAR ? 'laminar' : re >= TURBULENT ? 'turbulent' : 'between laminar and turbulent'}`, formula: 'Re = v × D / ν', value: re, unit: '1' }, ...factor,
        ],
        result: { symbol: 'Δp', value: given.value, unit: 'kPa' }, notes: [], missing: [], taken: FITTINGS,
    };
}

/** How far off a property of the fuel may be stands where it is computed. */
const likely = (inputs: readonly Input[]): Input[] => inputs.map((one) => ({ ...one, value: exactly(one.value.si) }));

/** Bore and length of a pipe, or of the tube of a fitting by its two ends. */
function sizesOf({ boat, network }: View, id: Id, length: number): { readonly inputs: Input[]; readonly steps: Step[] } {
    const part = network.parts.get(id);
    const fitting = fittingOf(boat, id);
    const bore = part?.bore ?? fitting?.bore;
    const inputs = [input('D', 'bore', bore ?? 0, 'mm', { about: id, fact: 'bore' })];
    if (part?.length) return { inputs: [...inputs, input('L', 'length', part.length, 'm', { about: id, fact: 'length' })], steps: [] };
    return {
        inputs: [...inputs, input('z₁', 'top, above the datum', fitting?.top?.up ?? 0, 'mm', { about: id, fact: 'top' }), input('z', 'mouth, above the datum', fitting?.mouth?.up ?? 0, 'mm', { about: id, fact: 'mouth' })],
        steps: [{ symbol: 'L', what: 'length of the tube', formula: 'L = |z₁ − z|', value: length, unit: 'm' }],
    };
}

function factorSteps(re: number, bore: number, f: number): { readonly steps: Step[]; readonly source: string; readonly rough: boolean } {
    const step = (symbol: string, formula: string, value: number, what = 'of the cubic'): Step => ({ symbol, what, formula: `${symbol} = ${formula}`, value, unit: '1' });
    const what = 'friction factor';
    if (re <= LAMINAR) return { source: `64 / Re while it is laminar, up to Re ${LAMINAR}`, rough: false, steps: [step('f', '64 / Re', f, what)] };
    if (re >= TURBULENT) return { source: `Swamee and Jain while it is turbulent, from Re ${TURBULENT} on`, rough: true, steps: [step('f', '0.25 / (log(k / (3.7 × D) + 5.74 / Re^0.9))²', f, what)] };
    const y = DRAWN / bore / 3.7 + 5.74 / TURBULENT ** 0.9;
    const z = -2 * Math.log10(y);
    const a = z ** -2;
    const b = a * (2 - 0.00514215 / (y * z));
    const r = re / LAMINAR;
    return {
        source: `Dunlop's cubic between Re ${LAMINAR} and ${TURBULENT}, where no flow is certain`, rough: true,
        steps: [
            step('Y', 'k / (3.7 × D) + 5.74 / 4000^0.9', y), step('X', '−2 × log(Y)', z), step('A', '1 / X²', a), step('B', 'A × (2 − 0.00514215 / (Y × X))', b), step('r', 'Re / 2000', r),
            step('f', '7 × A − B + r × (0.128 − 17 × A + 2.5 × B + r × (−0.128 + 13 × A − 2 × B + r × (0.032 − 3 × A + 0.5 × B)))', f, what),
        ],
    };
}

export const millimetres = (si: number): string => figure(fromSI(si, 'mm'), 4);
