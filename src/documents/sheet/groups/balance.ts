/**
 * Where flow divides or meets, what flows in each part is found by trial and no formula gives it. It is proven here: what comes to each junction leaves it, and each way between
 * two of them takes the same.
 */
import type { Id } from '../../../model/boat';
import { exactly } from '../../../analysis/estimate';
import { GRAVITY } from '../../../analysis/flow/pipe';
import type { Passed } from '../../../analysis/flow/steady';
import type { Suction } from '../../../analysis/flow/suction';
import { nameOf, type View } from '../../../checks/check';
import { fromSI } from '../../../model/units';
import { attitudeWords, figure, listed } from '../../../model/words';
import { flowsOf, partOf } from '../flows';
import { byName, carried, type Input, type Step, type Working } from '../working';
import type { State } from './friction';
import { densityWorking } from './fuel';
import { lossesOn } from './losses';
import { sub } from './tanks';

export function balanceWorkings(view: View): Working[] {
    const seen = new Set<string>();
    return flowsOf(view).drawing.flatMap(({ worst, lineUp, inlet }) => {
        if (!worst) return [];
        const { suction } = worst;
        const group = suction.steady.groupAt(inlet.point);
        const fed = [...suction.steady.state.demands.keys()].filter((id) => suction.steady.groupAt(`${id}:in`) === group).sort(byName);
        const id = `balance ${lineUp.id}, ${listed(fed)}`;
        if (!group || seen.has(id)) return [];
        seen.add(id);
        return balance(view, suction, id, { steady: suction.steady, asked: suction.asked, point: inlet.point });
    });
}

interface Meeting {
    readonly node: string;
    readonly into: Passed[];
    readonly out: Passed[];
}

/** Of the greatest flow: less is none. */
const NONE = 1e-9;
/** Pa: ways that take less are not compared, since open valves take as much. */
const LEAST = 50;

/** Ends of links as the places between which something is lost: what an open valve joins is one place. */
interface Ends {
    readonly start: (passed: Passed) => string;
    readonly end: (passed: Passed) => string;
}

function endsOf(view: View, passed: readonly Passed[]): Ends {
    const joined = new Map<string, string>();
    const place = (node: string): string => { const to = joined.get(node); return to === undefined ? node : place(to); };
    for (const one of passed) if (isOpen(view, one)) { const [a, b] = [place(one.link.from), place(one.link.to)].sort(byName) as [string, string]; if (a !== b) joined.set(b, a); }
    return { start: ({ flow, link }) => place(flow! > 0 ? link.from : link.to), end: ({ flow, link }) => place(flow! > 0 ? link.to : link.from) };
}

/** A tee, or an open valve: counted as taking next to nothing. */
const isOpen = (view: View, one: Passed): boolean => !one.link.pipes && !one.link.check && !one.link.pump && view.network.parts.has(partOf(view, one) ?? '') && view.network.parts.get(partOf(view, one)!)!.kind !== 'filter';
const size = ({ flow }: Passed): number => Math.abs(flow!);

function balance(view: View, { steady, inlet }: Suction, id: string, state: State): Working[] {
    const group = steady.groupAt(inlet.point)!;
    const passed = [...group.solution.links.keys()].flatMap((key) => steady.linkAt(Number(key)) ?? []).filter(({ flow }) => flow !== undefined);
    const most = Math.max(0, ...passed.map(size));
    const { start, end } = endsOf(view, passed);
    const flowing = passed.filter((one) => size(one) > NONE * most && start(one) !== end(one));
    const meetings = new Map<string, Meeting>();
    const at = (node: string): Meeting => { const found = meetings.get(node) ?? { node, into: [], out: [] }; meetings.set(node, found); return found; };
    for (const one of flowing) { at(end(one)).into.push(one); at(start(one)).out.push(one); }
    const junctions = [...meetings.values()].filter(({ into, out }) => into.length > 1 || out.length > 1).sort((a, b) => byName(a.node, b.node));
    if (junctions.length === 0) return [];

    const inputs: Input[] = [];
    const steps: Step[] = [];
    const ratios: { readonly formula: string; readonly value: number }[] = [];
    const symbols = new Map<string, string>();
    const from = { cited: 'the network solution' };
    const quantity = (key: string, what: string, value: number): string => {
        const known = symbols.get(key) ?? `Q${sub(symbols.size + 1)}`;
        if (!symbols.has(key)) { symbols.set(key, known); inputs.push({ symbol: known, what, value: exactly(value), unit: 'L/h', from }); }
        return known;
    };
    const through = (one: Passed): string => nameOf(view.boat, partOf(view, one)!);
    const flowOf = (one: Passed): string => quantity(String(one.passage), `what flows in ${through(one)}`, size(one));
    junctions.forEach(({ node, into, out }, i) => {
        const own = [...steady.state.demands].map(([consumer, demand]) => ({ consumer, drawn: nodeAt(state, { start, end }, `${consumer}:in`) === node ? demand.drawn : 0, returned: nodeAt(state, { start, end }, `${consumer}:out`) === node ? demand.returned : 0 }));
        const sides = ([['I', into, 'returned', 'comes to'], ['O', out, 'drawn', 'leaves']] as const).map(([letter, side, which, verb]) => {
            const terms = [...side.map((one) => [flowOf(one), size(one)] as const), ...own.flatMap(({ consumer, ...demand }) => (demand[which] > 0 ? [[quantity(`${consumer} ${which}`, which === 'drawn' ? `what ${consumer} draws there` : `what ${consumer} gives back there`, demand[which]), demand[which]] as const] : []))];
            const value = terms.reduce((sum, [, flow]) => sum + flow, 0);
            const symbol = `${letter}${sub(i + 1)}`;
            steps.push({ symbol, what: `what ${verb} the junction of ${listed([...new Set([...into, ...out].map(through))])}`, formula: `${symbol} = ${terms.map(([name]) => name).join(' + ') || '0'}`, value, unit: 'L/h' });
            return value;
        }) as [number, number];
        ratios.push({ formula: `|I${sub(i + 1)} − O${sub(i + 1)}| / I${sub(i + 1)}`, value: Math.abs(sides[0] - sides[1]) / sides[0] });
    });
    const legs: Working[] = [];
    for (const { into } of junctions) for (const other of into.slice(1)) {
        const ways = shortened(start, up(start, meetings, into[0]!), up(start, meetings, other));
        const losses = ways.map((way) => legWorking(view, way, state, id)) as [Leg, Leg];
        const heads = ways.map(([first]) => group.solution.nodes.get(first!.flow! > 0 ? first!.link.from : first!.link.to)?.head);
        const greater = Math.max(...losses.map(({ loss }) => loss));
        const isLoop = start(ways[0][0]!) === start(ways[1][0]!);
        if (greater < LEAST || (!isLoop && heads.includes(undefined))) continue;
        const n = sub(ratios.length - junctions.length + 1);
        legs.push(...losses.flatMap(({ workings }) => workings));
        inputs.push(...carried(`A${n}`, 'one way takes', losses[0].workings.at(-1)!), ...carried(`B${n}`, 'the way beside it takes', losses[1].workings.at(-1)!));
        const over = `max(A${n}, B${n})`;
        if (isLoop) { ratios.push({ formula: `|A${n} − B${n}| / ${over}`, value: Math.abs(losses[0].loss - losses[1].loss) / greater }); continue; }
        // From two tanks: what one stands over the other counts too.
        const density = densityWorking(view);
        const weight = density.result!.value.si * GRAVITY;
        if (!inputs.some(({ symbol }) => symbol === 'ρ')) inputs.push(...carried('ρ', 'density of the fuel', density));
        const [one, two] = heads as [number, number];
        [['H', ways[0], one] as const, ['K', ways[1], two] as const].forEach(([letter, way, head]) => inputs.push({ symbol: `${letter}${n}`, what: `surface, or mouth that is just wet, at ${partOf(view, way[0]!)!}, as she lies`, value: exactly(head), unit: 'mm', from }));
        ratios.push({ formula: `|A${n} − B${n} − ρ × ${GRAVITY} × (H${n} − K${n})| / ${over}`, value: Math.abs(losses[0].loss - losses[1].loss - weight * (one - two)) / greater });
    }
    const { ledger, worstHead } = group.solution;
    return [...legs, {
        id, about: inlet.pump ?? inlet.point.split(':')[0]!, what: 'By how much the flows that were found by trial miss, at the worst junction or between two ways: what comes must leave, and ways between the same two places must take the same',
        where: `${attitudeWords(state.asked.attitude)}, lowest level, coldest fuel, at full speed, line-up ${state.asked.lineUp.id}`, formula: ratios.length === 1 ? `r = ${ratios[0]!.formula}` : `r = max(${ratios.map(({ formula }) => formula).join(', ')})`,
        source: 'continuity, and one head at each junction', inputs, steps, result: { symbol: 'r', value: exactly(Math.max(...ratios.map(({ value }) => value))), unit: '%', remains: true }, missing: [],
        notes: [`In the network solution the worst junction misses by ${figure(fromSI(ledger.worst, 'L/h'), 2)} L/h, and the worst part by ${figure(fromSI(worstHead ?? 0, 'mm'), 2)} mm of head.`],
    }];
}

/** The node of a point: where the last of its way ends. */
function nodeAt({ steady }: State, { start, end }: Ends, point: string): string | undefined {
    const [to, from] = [steady.wayTo(point).at(-1), steady.wayFrom(point)[0]];
    return to ? end(to) : from ? start(from) : undefined;
}

/** Upstream by the greatest flow, what is nearest first. */
function up(start: Ends['start'], meetings: ReadonlyMap<string, Meeting>, first: Passed): Passed[] {
    const way: Passed[] = [];
    const seen = new Set<string>();
    for (let next: Passed | undefined = first; next && !seen.has(start(next));) {
        way.push(next);
        seen.add(start(next));
        next = [...(meetings.get(start(next))?.into ?? [])].sort((a, b) => size(b) - size(a))[0];
    }
    return way;
}

/** Both ways from where they part on, or from their tanks, downstream. */
function shortened(start: Ends['start'], one: readonly Passed[], other: readonly Passed[]): readonly [Passed[], Passed[]] {
    const to = one.findIndex((a) => other.some((b) => start(a) === start(b)));
    if (to < 0) return [[...one].reverse(), [...other].reverse()];
    const common = start(one[to]!);
    return [one.slice(0, to + 1).reverse(), other.slice(0, other.findIndex((b) => start(b) === common) + 1).reverse()];
}

interface Leg {
    readonly loss: number;
    readonly workings: readonly Working[];
}

function legWorking(view: View, way: readonly Passed[], state: State, id: string): Leg {
    const losses = lossesOn(view, way, state, 'dirty');
    const parts = [...new Set(way.map((one): Id => partOf(view, one)!))];
    const value = new Map([...losses.inputs.map(({ symbol, value: { si } }) => [symbol, si] as const), ...losses.steps.map(({ symbol, value: si }) => [symbol, si] as const)]);
    const loss = losses.terms.reduce((sum, term) => sum + (term.startsWith('2 × ') ? 2 * value.get(term.slice(4))! : value.get(term)!), 0);
    return { loss, workings: [...losses.frictions, {
        id: `way ${listed(parts.map((part) => nameOf(view.boat, part)))}, ${id.replace('balance ', '')}`, about: parts[0] ?? 'vessel', what: `What the way through ${listed(parts.map((part) => nameOf(view.boat, part)))} takes`, formula: `p = ${losses.terms.join(' + ') || '0'}`,
        source: 'sum of pipes, elements and checks', inputs: losses.inputs, steps: losses.steps, result: { symbol: 'p', value: exactly(loss), unit: 'kPa' }, notes: [], missing: [],
    }] };
}
