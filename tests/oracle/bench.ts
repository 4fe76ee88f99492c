/**
 * The bench: a second, separately written simulator of bleeding, against which the generator is tried.
 * It shares no code with src and works from the plain boats below, not from text. Where the model leaves a choice it
 * takes the careful one: what could hold air is taken to hold air.
 */

export type Item =
    | { readonly kind: 'hose' | 'tube' | 'check' | 'gauge' | 'tee' | 'hand primer' | 'lift pump'; readonly name: string }
    | { readonly kind: 'electric primer' | 'electric pump'; readonly name: string; readonly whenOff?: 'passes' | 'blocks' }
    | { readonly kind: 'shutoff'; readonly name: string; readonly normally?: 'open' | 'shut' }
    | BenchFilter
    | { readonly kind: 'split'; readonly legs: readonly { readonly name: string; readonly items: readonly Item[] }[] };

export interface BenchFilter {
    readonly kind: 'filter';
    readonly name: string;
    readonly role?: 'primary' | 'final';
    readonly vents: readonly string[];
    readonly prefill?: 'allowed' | 'not on the clean side' | 'forbidden';
}

/** Ends are `T1.P1` at a tank, `SV1.A` at a selector, and the bare name of an engine or a tee. */
export interface BenchCourse {
    readonly service: 'supply' | 'return';
    readonly name: string;
    readonly from: string;
    readonly to: string;
    readonly items: readonly Item[];
}

export interface BenchBoat {
    readonly tanks: readonly { readonly name: string; readonly pickups: readonly string[]; readonly drops: readonly string[] }[];
    readonly engines: readonly { readonly name: string; readonly kind: 'engine' | 'generator'; readonly vents: readonly string[] }[];
    readonly selectors: readonly {
        readonly name: string;
        readonly ports: readonly string[];
        /** Position and the groups of ports that it joins. */
        readonly positions: Readonly<Record<string, readonly (readonly string[])[]>>;
    }[];
    readonly courses: readonly BenchCourse[];
    /** The first one is normal and states every valve; the others say what differs from it. */
    readonly lineUps: readonly { readonly name: string; readonly use: 'run' | 'service'; readonly settings: Readonly<Record<string, string>> }[];
}

export interface Request {
    readonly engine: string;
    readonly opened: readonly string[];
    readonly ranDry: boolean;
    readonly starts: string;
    readonly ends: string;
}

export type BenchStep =
    | { readonly do: 'set'; readonly part: string; readonly position: string }
    | { readonly do: 'prefill'; readonly part: string }
    | { readonly do: 'bleed'; readonly vent: string; readonly driver: string };

/** A state is five numbers, so that a search can hold a hundred thousand of them. */
export interface State {
    /** The positions of all valves, in mixed radix. */
    readonly setting: number;
    /** One bit a segment: set when it is not known to be fuel. Air and unknown obey the same laws. */
    readonly notFuel: number;
    /** Two bits a segment with vents: how many of them, in order, have been bled since it last became not fuel. */
    readonly vented: number;
    /** One bit a segment: filled by hand and not cleared yet. */
    readonly topped: number;
    readonly begun: boolean;
}

export interface Broken { readonly law: 'L1' | 'L2' | 'L3' | 'L4' | 'L5' | 'L6' | 'prefill' | 'set'; readonly why: string }
export interface Next { readonly state: State; readonly contaminates: boolean }

export interface Bench {
    readonly initial: State;
    readonly steps: readonly BenchStep[];
    readonly valves: readonly string[];
    readonly vents: readonly string[];
    readonly segments: readonly string[];
    /** Whether a tank reaches the engine at all in the END line-up. */
    readonly runs: boolean;
    apply(state: State, step: BenchStep): Next | Broken;
    goalReached(state: State): boolean;
    valvesAsInEnd(state: State): boolean;
    /** What is not known to be fuel, by name. */
    notFuel(state: State): readonly string[];
    /** The same for every future and no more, so that a search meets fewer states. */
    key(state: State): string;
}

// ---- the network: points, and passages between two of them

interface Passage {
    readonly name: string;
    readonly a: number;
    readonly b: number;
    readonly way: 'both' | 'forward' | 'none';
    /** Number of its segment; -1 when it holds nothing. */
    readonly segment: number;
    /** The valve that it belongs to, and those of its positions in which it passes. */
    readonly valve?: { readonly index: number; readonly passesIn: readonly number[] };
}

interface Arc { readonly from: number; readonly to: number; readonly by: Passage }
interface Net { readonly out: readonly Arc[][]; readonly into: readonly Arc[][] }
interface Valve { readonly name: string; readonly positions: readonly string[]; readonly weight: number }

const DRIVERS = ['hand primer', 'lift pump', 'electric primer', 'electric pump'];
const bit = (segment: number): number => (segment < 0 ? 0 : 1 << segment);

/** How one pump, worked at one vent, moves what is in the network. */
interface Flow {
    readonly broken?: Broken;
    /** Segments that every route passes, in the order of the flow. */
    readonly sure: readonly number[];
    readonly sideSuction: number;
    readonly parallel: number;
    readonly onRoutes: number;
    readonly sideBranches: number;
}

export function rig(boat: BenchBoat, request: Request): Bench {
    const points = new Map<string, number>();
    const point = (name: string): number => {
        if (!points.has(name)) points.set(name, points.size);
        return points.get(name)!;
    };
    const tanks = new Set(boat.tanks.map((tank) => point(tank.name)));
    const passages: Passage[] = [];
    const named = new Map<string, Passage>();
    const segments: string[] = [];
    const valves: Valve[] = [];
    const traps = new Map<string, readonly string[]>();
    const filters = new Map<string, BenchFilter>();
    const drivers: string[] = [];

    const pass = (name: string, from: string, to: string, way: Passage['way'], holds: boolean, valve?: Passage['valve']): void => {
        const passage: Passage = { name, a: point(from), b: point(to), way, segment: holds ? segments.push(name) - 1 : -1, ...(valve && { valve }) };
        passages.push(passage);
        named.set(name, passage);
    };
    const addValve = (name: string, positions: readonly string[]): number => {
        const last = valves.at(-1);
        return valves.push({ name, positions, weight: last ? last.weight * last.positions.length : 1 }) - 1;
    };
    const lay = (items: readonly Item[], from: string, to: string): void => {
        if (items.length === 0) pass(`${from}-${to}`, from, to, 'both', false);
        let here = from;
        items.forEach((item, i) => {
            const last = i === items.length - 1;
            if (item.kind === 'tee') {
                // A tee is a point, not a passage: what stood open so far ends in it, and the next part begins there.
                if (here !== item.name) pass(`${here}-${item.name}`, here, item.name, 'both', false);
                here = item.name;
                if (last) pass(`${here}-${to}`, here, to, 'both', false);
                return;
            }
            const next = last ? to : `after ${item.kind === 'split' ? `split at ${here}` : item.name}`;
            switch (item.kind) {
                case 'split': for (const leg of item.legs) lay(leg.items, here, next); break;
                case 'hose': case 'tube': pass(item.name, here, next, 'both', true); break;
                case 'filter':
                    pass(item.name, here, next, 'both', true);
                    filters.set(item.name, item);
                    if (item.vents.length > 0) traps.set(item.name, item.vents);
                    break;
                case 'gauge': pass(item.name, here, next, 'both', false); break;
                case 'check': pass(item.name, here, next, 'forward', false); break;
                case 'shutoff': pass(item.name, here, next, 'both', false, { index: addValve(item.name, ['open', 'shut']), passesIn: [0] }); break;
                case 'hand primer': case 'lift pump': pass(item.name, here, next, 'forward', true); break;
                case 'electric primer': case 'electric pump': pass(item.name, here, next, item.whenOff === 'passes' ? 'forward' : 'none', true); break;
            }
            if (DRIVERS.includes(item.kind) && 'name' in item) drivers.push(item.name);
            here = next;
        });
    };

    const end = (written: string, of: 'from' | 'to'): string => {
        const [name, port] = written.split('.') as [string, string?];
        if (boat.engines.some((engine) => engine.name === name)) return `${name}:${of === 'to' ? 'in' : 'out'}`;
        return port === undefined ? name : written;
    };
    for (const tank of boat.tanks) {
        for (const tube of tank.pickups) pass(`${tank.name}.${tube}`, tank.name, `${tank.name}.${tube}`, 'both', true);
        for (const tube of tank.drops) pass(`${tank.name}.${tube}`, tank.name, `${tank.name}.${tube}`, 'both', false);
    }
    for (const engine of boat.engines) {
        pass(engine.name, `${engine.name}:in`, `${engine.name}:out`, 'forward', true);
        if (engine.vents.length > 0) traps.set(engine.name, engine.vents);
    }
    for (const selector of boat.selectors) {
        const positions = Object.keys(selector.positions);
        const index = addValve(selector.name, positions);
        selector.ports.forEach((one, i) => selector.ports.slice(i + 1).forEach((other) => {
            const passesIn = positions.flatMap((position, p) =>
                selector.positions[position]!.some((group) => group.includes(one) && group.includes(other)) ? [p] : []);
            if (passesIn.length > 0) pass(`${selector.name}.${one}-${other}`, `${selector.name}.${one}`, `${selector.name}.${other}`, 'both', false, { index, passesIn });
        }));
    }
    for (const course of boat.courses) lay(course.items, end(course.from, 'from'), end(course.to, 'to'));
    if (segments.length > 31) throw new Error('The bench holds 31 segments at most.');

    const segmentOf = (name: string): number => named.get(name)!.segment;
    const vents = [...traps].flatMap(([part, own]) => own.map((vent, order) => ({ vent, part, order })));
    const trapParts = [...traps.keys()];
    const trapMask = trapParts.reduce((mask, part) => mask | bit(segmentOf(part)), 0);
    if (trapParts.length > 15) throw new Error('The bench counts the vents of 15 parts at most.');
    const shift = new Map(trapParts.map((part, i) => [segmentOf(part), 2 * i]));
    const bledSoFar = (vented: number, segment: number): number => (vented >>> shift.get(segment)!) & 3;
    const forget = (vented: number, parts: number): number => {
        for (const [segment, by] of shift) if (parts & bit(segment)) vented &= ~(3 << by);
        return vented;
    };

    // ---- settings

    const settingOf = (lineUp: string): number => {
        const positions = { ...boat.lineUps[0]!.settings, ...boat.lineUps.find((one) => one.name === lineUp)!.settings };
        return valves.reduce((sum, valve) => sum + valve.positions.indexOf(positions[valve.name]!) * valve.weight, 0);
    };
    const positionOf = (setting: number, index: number): number => {
        const valve = valves[index]!;
        return Math.floor(setting / valve.weight) % valve.positions.length;
    };
    const settings = valves.reduce((count, valve) => count * valve.positions.length, 1);

    const nets = new Map<number, Net>();
    const netIn = (setting: number): Net => {
        const known = nets.get(setting);
        if (known) return known;
        const net = makeNet(setting, false);
        nets.set(setting, net);
        return net;
    };
    /** What an engine draws through when it runs: its electric pumps run with it. */
    const makeNet = (setting: number, pumpsRun: boolean): Net => {
        const net: Net = { out: Array.from(points, () => []), into: Array.from(points, () => []) };
        const arc = (from: number, to: number, by: Passage): void => {
            net.out[from]!.push({ from, to, by });
            net.into[to]!.push({ from, to, by });
        };
        for (const passage of passages) {
            if (passage.way === 'none' && !pumpsRun) continue;
            if (passage.valve && !passage.valve.passesIn.includes(positionOf(setting, passage.valve.index))) continue;
            arc(passage.a, passage.b, passage);
            if (passage.way === 'both') arc(passage.b, passage.a, passage);
        }
        return net;
    };

    // ---- walks

    /** All that liquid could reach from `start`, or that could come to it. A walk ends at a tank. */
    const walk = (net: Net, direction: 'out' | 'into', start: number, without: readonly Passage[] = []): { points: Set<number>; segments: number } => {
        const seen = new Set([start]);
        const queue = [start];
        let mask = 0;
        for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
            if (tanks.has(here)) continue;
            for (const arc of net[direction][here]!) {
                if (without.includes(arc.by)) continue;
                mask |= bit(arc.by.segment);
                const next = direction === 'out' ? arc.to : arc.from;
                if (!seen.has(next)) { seen.add(next); queue.push(next); }
            }
        }
        return { points: seen, segments: mask };
    };
    const meetsTank = (reached: ReadonlySet<number>): boolean => [...tanks].some((tank) => reached.has(tank));

    /** Every way from one of `starts` until `arrives`, no point twice and no tank between, as the segments passed in order. */
    const ways = (net: Net, starts: Iterable<number>, arrives: (at: number, next?: Arc) => boolean, without: Passage): number[][] => {
        const found: number[][] = [];
        const on = new Set<number>();
        const go = (here: number, passed: readonly number[]): void => {
            if (arrives(here)) { found.push([...passed]); return; }
            on.add(here);
            for (const arc of net.out[here]!) {
                if (arc.by === without) continue;
                if (arrives(here, arc)) { found.push([...passed]); continue; }
                if (on.has(arc.to) || tanks.has(arc.to)) continue;
                go(arc.to, arc.by.segment < 0 ? passed : [...passed, arc.by.segment]);
            }
            on.delete(here);
        };
        for (const start of starts) go(start, []);
        return found;
    };
    const maskOf = (way: readonly number[]): number => way.reduce((mask, segment) => mask | bit(segment), 0);
    const onEvery = (all: readonly number[][]): number => all.reduce((mask, way) => mask & maskOf(way), all.length > 0 ? -1 : 0);
    const onAny = (all: readonly number[][]): number => all.reduce((mask, way) => mask | maskOf(way), 0);

    const engine = named.get(request.engine)!;
    const engines = boat.engines.map(({ name }) => named.get(name)!);
    const returnStandsOpen = (net: Net, one: Passage): boolean => meetsTank(walk(net, 'out', one.b).points);

    /** L1 to L3: what the network alone forbids. */
    const forbidden = (net: Net, part: Passage, driver: Passage): Broken | undefined => {
        const suction = walk(net, 'into', driver.a, [driver]);
        const pressure = walk(net, 'out', driver.b, [driver]);
        if (!(pressure.segments & bit(part.segment))) return { law: 'L1', why: `${driver.name} does not press on ${part.name}.` };
        if ((suction.segments & bit(part.segment)) || suction.points.has(part.a) || suction.points.has(part.b)) {
            return { law: 'L1', why: `${part.name} is on the suction side of ${driver.name}.` };
        }
        if (!meetsTank(suction.points)) return { law: 'L2', why: `${driver.name} draws from no tank.` };
        const blocked = engines.find((one) => (one === engine || pressure.points.has(one.a)) && !returnStandsOpen(net, one));
        if (blocked) return { law: 'L3', why: `The return of ${blocked.name} is blocked.` };
        return undefined;
    };

    const flows = new Map<string, Flow>();
    const flowOf = (setting: number, part: Passage, driver: Passage): Flow => {
        const key = `${setting} ${part.name} ${driver.name}`;
        const known = flows.get(key);
        if (known) return known;
        const flow = trace(netIn(setting), part, driver);
        flows.set(key, flow);
        return flow;
    };
    const trace = (net: Net, part: Passage, driver: Passage): Flow => {
        const broken = forbidden(net, part, driver);
        if (broken) return { broken, sure: [], sideSuction: 0, parallel: 0, onRoutes: 0, sideBranches: 0 };
        const drawn = ways(net, tanks, (at) => at === driver.a, driver);
        const pressed = ways(net, [driver.b], (_, next) => next?.by === part, driver);
        // The two halves of a route are chosen apart, so a segment is on every route when it is on every one of either half.
        const sure = onEvery(drawn) | onEvery(pressed) | bit(driver.segment);
        const onRoutes = onAny(drawn) | onAny(pressed) | bit(driver.segment) | bit(part.segment);
        const along = new Set([...drawn[0]!, driver.segment, ...pressed[0]!].filter((segment) => sure & bit(segment)));

        const stops = [driver, part];
        const beside = walk(net, 'out', driver.b, stops).segments & ~onRoutes;
        const sideBranches = passages.reduce((mask, passage) => {
            if (!(beside & bit(passage.segment))) return mask;
            const leavesAt = passage.way === 'both' ? [passage.a, passage.b] : [passage.b];
            return leavesAt.some((at) => meetsTank(walk(net, 'out', at, stops).points)) ? mask | bit(passage.segment) : mask;
        }, 0);
        return {
            sure: [...along],
            sideSuction: walk(net, 'into', driver.a, [driver]).segments & ~sure,
            parallel: walk(net, 'out', driver.b, [driver]).segments & onRoutes & ~sure & ~bit(part.segment),
            onRoutes,
            sideBranches,
        };
    };

    // ---- the line-up to end in

    const endSetting = settingOf(request.ends);
    const toEngine = ways(makeNet(endSetting, true), tanks, (at) => at === engine.a, engine);
    const wanted = onAny(toEngine) | bit(engine.segment);

    // ---- how it begins

    const begin = (): number => {
        if (request.ranDry) return wanted;
        const net = netIn(settingOf(request.starts));
        return request.opened.reduce((mask, name) => {
            const part = named.get(name)!;
            // An opened part holds nothing back: air enters at both its ends, whichever way it passes liquid when whole.
            for (const at of [part.a, part.b]) mask |= walk(net, 'into', at).segments | walk(net, 'out', at).segments;
            return mask | bit(part.segment);
        }, 0);
    };

    // ---- steps

    const set = (state: State, part: string, position: string): Next | Broken => {
        const index = valves.findIndex((valve) => valve.name === part);
        const to = valves[index]?.positions.indexOf(position) ?? -1;
        if (to < 0) return { law: 'set', why: `${part} has no position ${position}.` };
        const setting = state.setting + (to - positionOf(state.setting, index)) * valves[index]!.weight;
        return { state: { ...state, setting }, contaminates: false };
    };

    const bleedable = new Map<string, boolean>();
    const canBeBled = (name: string): boolean => {
        const known = bleedable.get(name);
        if (known !== undefined) return known;
        let can = false;
        for (let setting = 0; setting < settings && !can; setting++) {
            can = drivers.some((driver) => !forbidden(netIn(setting), named.get(name)!, named.get(driver)!));
        }
        bleedable.set(name, can);
        return can;
    };
    const mayEverBePrefilled = (filter: BenchFilter): boolean => request.opened.includes(filter.name) && filter.vents.length > 0
        && (filter.prefill === 'allowed' || (filter.prefill === undefined && filter.role === 'primary')) && !canBeBled(filter.name);

    const prefill = (state: State, name: string): Next | Broken => {
        const filter = filters.get(name);
        const no = (why: string): Broken => ({ law: 'prefill', why });
        if (state.begun) return no('A part is filled by hand before the first bleed only.');
        if (!filter || !mayEverBePrefilled(filter)) return no(`${name} may not be filled by hand, or need not be.`);
        const part = named.get(name)!;
        const net = netIn(state.setting);
        if ([part.a, part.b].some((at) => meetsTank(walk(net, 'into', at).points))) return no(`${name} is not cut off from the tanks.`);
        const own = bit(part.segment);
        return { state: { ...state, notFuel: state.notFuel | own, topped: state.topped | own }, contaminates: false };
    };

    const bleed = (state: State, ventName: string, driverName: string): Next | Broken => {
        const vent = vents.find((one) => one.vent === ventName)!;
        const part = named.get(vent.part)!;
        const flow = flowOf(state.setting, part, named.get(driverName)!);
        if (flow.broken) return flow.broken;
        if (flow.sideSuction & state.notFuel) return { law: 'L5', why: `${driverName} would draw the air beside its suction line.` };

        let { notFuel, vented, topped } = state;
        const own = bit(part.segment);
        const spoil = (which: number): void => { notFuel |= which; vented = forget(vented, which); };
        let moved = false;
        let held = false;
        for (const segment of flow.sure) {
            const here = bit(segment);
            if (here === own) continue;
            const trap = (trapMask & here) !== 0 && !(topped & here);
            if (notFuel & here) {
                if (trap) held = true;
                else {
                    moved = true;
                    notFuel &= ~here;
                    topped &= ~here;
                }
            } else if (trap && moved) {
                spoil(here);
                held = true;
            }
        }
        const legs = flow.parallel & state.notFuel;
        if (legs) { spoil(legs); held = true; }
        if (held) return { law: 'L6', why: `Air further up keeps the stream at ${ventName} from running solid.` };
        // Air that comes to a part with several vents may rise to any of them.
        if (moved && !(notFuel & own) && traps.get(vent.part)!.length > 1) spoil(own);
        if (vent.order > bledSoFar(vented, part.segment)) return { law: 'L4', why: `An earlier vent of ${part.name} is bled before ${ventName}.` };
        const count = Math.max(bledSoFar(vented, part.segment), vent.order + 1);
        vented = forget(vented, own) | (count << shift.get(part.segment)!);
        if (count === traps.get(vent.part)!.length) { notFuel &= ~own; topped &= ~own; }
        const hurt = flow.onRoutes & state.notFuel ? flow.sideBranches & ~notFuel : 0;
        if (hurt) spoil(hurt);
        return { state: { ...state, notFuel, vented, topped, begun: true }, contaminates: hurt !== 0 };
    };

    const steps: BenchStep[] = [
        ...valves.flatMap((valve) => valve.positions.map((position): BenchStep => ({ do: 'set', part: valve.name, position }))),
        ...vents.flatMap(({ vent }) => drivers.map((driver): BenchStep => ({ do: 'bleed', vent, driver }))),
        ...[...filters.values()].filter(mayEverBePrefilled).map((filter): BenchStep => ({ do: 'prefill', part: filter.name })),
    ];
    const prefills = steps.some((step) => step.do === 'prefill');

    return {
        initial: { setting: settingOf(request.starts), notFuel: begin(), vented: 0, topped: 0, begun: false },
        steps,
        valves: valves.map((valve) => valve.name),
        vents: vents.map(({ vent }) => vent),
        segments,
        runs: toEngine.length > 0,
        apply: (state, step) => step.do === 'set' ? set(state, step.part, step.position)
            : step.do === 'prefill' ? prefill(state, step.part) : bleed(state, step.vent, step.driver),
        goalReached: (state) => state.setting === endSetting && (state.notFuel & wanted) === 0,
        valvesAsInEnd: (state) => state.setting === endSetting,
        notFuel: (state) => segments.filter((_, segment) => state.notFuel & bit(segment)),
        // On a segment of fuel every vent does the same, so which of them were bled is no difference.
        key: (state) => `${state.setting} ${state.notFuel} ${forget(state.vented, ~state.notFuel)} ${state.topped} ${prefills && state.begun}`,
    };
}

export interface Found { readonly cost: number; readonly steps: readonly BenchStep[]; }

/** Thrown when the states are too many to say anything. */
export class TooMany extends Error {}

/** The shortest sequence there is, by trying all of them breadth first; undefined when there is none. */
export function shortest(boat: BenchBoat, request: Request, { contamination, states = 200_000 }: { contamination: boolean; states?: number }): Found | undefined {
    const bench = rig(boat, request);
    interface Node { readonly state: State; readonly before?: Node; readonly step?: BenchStep; readonly cost: number }
    const queue: Node[] = [{ state: bench.initial, cost: 0 }];
    const seen = new Set([bench.key(bench.initial)]);
    for (let head = 0; head < queue.length; head++) {
        const node = queue[head]!;
        if (bench.goalReached(node.state)) {
            const steps: BenchStep[] = [];
            for (let at: Node | undefined = node; at?.step; at = at.before) steps.unshift(at.step);
            return { cost: node.cost, steps };
        }
        for (const step of bench.steps) {
            const next = bench.apply(node.state, step);
            if (!('state' in next) || (next.contaminates && !contamination)) continue;
            const key = bench.key(next.state);
            if (seen.has(key)) continue;
            seen.add(key);
            if (seen.size > states) throw new TooMany(`More than ${states} states.`);
            queue.push({ state: next.state, before: node, step, cost: node.cost + 1 });
        }
    }
    return undefined;
}

export const told = (step: BenchStep): string => step.do === 'set' ? `${step.position} ${step.part}`
    : step.do === 'prefill' ? `prefill ${step.part}` : `bleed ${step.vent} with ${step.driver}`;
