/** The laws of bleeding on a plain boat: what one pump (or the height of a tank), worked at one vent, does to the air in the lines. */
import type { Levels } from './flood';
import { passes, walk, type Move, type Net, type Setting } from './network';
import { UPRIGHT, heightOf } from './surface';

/** What is not known to be fuel; how many vents of a part were bled since; parts that were filled by hand. */
export interface Air { readonly notFuel: ReadonlySet<string>; readonly vented: ReadonlyMap<string, number>; readonly topped: ReadonlySet<string> }

export interface BleedFault { readonly law: 'suction' | 'return' | 'parts'; readonly why: string }

interface Flow {
    readonly fault?: BleedFault;
    /** What every way passes, in the order of the flow. */
    readonly sure: readonly string[];
    readonly sideSuction: ReadonlySet<string>;
    readonly parallel: ReadonlySet<string>;
    readonly onRoutes: ReadonlySet<string>;
    readonly sideBranches: ReadonlySet<string>;
    /** Everything on the pressure side. */
    readonly pressed: ReadonlySet<string>;
    readonly drawn: ReadonlySet<string>;
}
const NOTHING: ReadonlySet<string> = new Set();
const minus = (one: Iterable<string>, ...others: Iterable<string>[]): Set<string> => {
    const left = new Set(one);
    for (const other of others) for (const name of other) left.delete(name);
    return left;
};

export class Bleeding {
    private readonly flows = new Map<string, Flow>();
    readonly holding: ReadonlySet<string>;
    constructor(private readonly net: Net, private readonly levels: Levels) {
        this.holding = new Set(net.ways.filter((way) => way.holds).map((way) => way.part));
    }

    private held(parts: Iterable<string>): Set<string> { return new Set([...parts].filter((part) => this.holding.has(part))); }

    private meetsTank(points: Iterable<string>): boolean { return [...points].some((at) => this.net.mouths.has(at)); }

    /** The return of a consumer leads to a tank; one that has no return line needs none. */
    returnOpen(setting: Setting, consumer: string): boolean {
        const [, out] = this.net.ports.get(consumer)!;
        if (this.net.moves(out!, 'out').every((move) => move.way.part === consumer)) return true;
        return this.meetsTank(walk(this.net, 'out', [out!], (move) => move.way.part !== consumer && passes(setting)(move)).points);
    }

    partOfVent(vent: string): { readonly part: string; readonly order: number; readonly of: number } | undefined {
        for (const owner of [...this.net.boat.parts, ...this.net.boat.consumers]) {
            const order = owner.vents.findIndex((one) => one.name === vent);
            if (order >= 0) return { part: owner.name, order, of: owner.vents.length };
        }
        return undefined;
    }

    /** Every way from one of `starts`, no point twice and no tank between, until it arrives; what it passes, in order. */
    private waysTo(setting: Setting, starts: Iterable<string>, arrives: (at: string, next?: Move) => boolean, without: string): string[][] {
        const found: string[][] = [];
        const on = new Set<string>();
        const may = passes(setting);
        const go = (here: string, passed: readonly string[]): void => {
            if (arrives(here)) { found.push([...passed]); return; }
            on.add(here);
            for (const move of this.net.moves(here, 'out')) {
                if (move.way.part === without || !may(move)) continue;
                if (arrives(here, move)) { found.push([...passed]); continue; }
                if (on.has(move.to) || this.net.mouths.has(move.to)) continue;
                go(move.to, move.way.holds ? [...passed, move.way.part] : passed);
            }
            on.delete(here);
        };
        for (const start of starts) go(start, []);
        return found;
    }

    flow(setting: Setting, part: string, driver: string): Flow {
        const key = JSON.stringify([setting, part, driver]);
        let flow = this.flows.get(key);
        if (!flow) { flow = this.trace(setting, part, driver); this.flows.set(key, flow); }
        return flow;
    }

    private trace(setting: Setting, part: string, driver: string): Flow {
        const none = (fault: BleedFault): Flow => ({ fault, sure: [], sideSuction: NOTHING, parallel: NOTHING, onRoutes: NOTHING, sideBranches: NOTHING, pressed: NOTHING, drawn: NOTHING });
        const may = (move: Move): boolean => move.way.part !== driver && passes(setting)(move);
        const tank = this.net.boat.tanks.find((one) => one.name === driver);
        const pump = this.net.ways.find((way) => way.part === driver && (way.kind === 'pump' || way.kind === 'electric'));
        if (!tank && !pump) return none({ law: 'suction', why: `${driver} moves nothing` });
        const ends = this.net.ports.get(part)!;
        const starts = tank ? [...this.net.mouths].filter(([, mouth]) => mouth.tank === driver && mouth.kind === 'pickup').map(([at]) => at) : [pump!.to];
        const pressure = walk(this.net, 'out', starts, may);
        if (!pressure.parts.has(part)) return none({ law: 'suction', why: `${driver} does not press on ${part}` });
        const suction = tank ? { points: new Set(starts), parts: new Set<string>() } : walk(this.net, 'into', [pump!.from], may);
        if (!tank && (suction.parts.has(part) || ends.some((at) => suction.points.has(at)))) return none({ law: 'suction', why: `${part} is on the suction side of ${driver}` });
        if (!this.meetsTank(suction.points)) return none({ law: 'suction', why: `${driver} draws from no tank` });
        for (const consumer of this.net.boat.consumers) {
            if (pressure.parts.has(consumer.name) && !this.returnOpen(setting, consumer.name)) return none({ law: 'return', why: `the return of ${consumer.name} is shut` });
        }
        const drawn = tank ? [[]] : this.waysTo(setting, this.net.mouths.keys(), (at) => at === pump!.from, driver);
        const pressed = this.waysTo(setting, starts, (_, next) => next?.way.part === part, driver);
        const own = this.held([driver]);
        const every = (all: readonly string[][]): string[] => (all[0] ?? []).filter((name) => all.every((way) => way.includes(name)));
        const sure = [...new Set([...every(drawn), ...own, ...every(pressed)])];
        const onRoutes = new Set([...drawn.flat(), ...pressed.flat(), ...own, part]);
        const beside = minus(this.held(walk(this.net, 'out', starts, (move) => may(move) && move.way.part !== part).parts), onRoutes);
        const sideBranches = new Set([...beside].filter((name) => this.net.ways.some((way) => way.part === name
            && (way.kind === 'open' ? [way.from, way.to] : [way.to]).some((at) => this.meetsTank(walk(this.net, 'out', [at], (move) => may(move) && move.way.part !== part).points)))));
        const allDrawn = this.held(suction.parts);
        const allPressed = this.held(pressure.parts);
        return {
            sure, onRoutes, sideBranches, pressed: pressure.parts, drawn: suction.parts,
            sideSuction: minus(allDrawn, sure),
            parallel: new Set([...allPressed].filter((name) => onRoutes.has(name) && !sure.includes(name) && name !== part)),
        };
    }

    bleed(air: Air, setting: Setting, vent: string, driver: string): { readonly fault?: BleedFault; readonly air: Air; readonly flow?: Flow } {
        const where = this.partOfVent(vent);
        if (!where) return { fault: { law: 'parts', why: `there is no ${vent}` }, air };
        const { part, order, of } = where;
        const flow = this.flow(setting, part, driver);
        if (flow.fault) return { fault: flow.fault, air, flow };
        if (this.net.boat.tanks.some((tank) => tank.name === driver)) {
            const surface = this.levels.surface(driver, 'high', UPRIGHT);
            const height = heightOf(this.net.parts.get(part)?.vents[order]?.at ?? this.net.consumers.get(part)?.vents[order]?.at, UPRIGHT);
            if (surface !== undefined && height !== undefined && surface < height) return { fault: { law: 'suction', why: `${driver} never stands above ${vent}` }, air, flow };
        }
        const beside = [...flow.sideSuction].filter((name) => air.notFuel.has(name));
        if (beside.length > 0) return { fault: { law: 'suction', why: `${driver} would draw the air of ${beside.join(', ')}` }, air, flow };

        const notFuel = new Set(air.notFuel);
        const vented = new Map(air.vented);
        const topped = new Set(air.topped);
        const spoil = (name: string): void => { notFuel.add(name); vented.delete(name); };
        const ventsOf = (name: string): number => (this.net.parts.get(name) ?? this.net.consumers.get(name))?.vents.length ?? 0;
        let moved = false;
        let held: string | undefined;
        for (const name of flow.sure) {
            if (name === part) continue;
            const trap = ventsOf(name) > 0 && !topped.has(name);
            if (notFuel.has(name)) {
                if (trap) held = name;
                else { moved = true; notFuel.delete(name); topped.delete(name); }
            } else if (trap && moved) { spoil(name); held = name; }
        }
        for (const name of flow.parallel) if (notFuel.has(name)) { spoil(name); held = name; }
        const left: Air = { notFuel, vented, topped };
        if (held !== undefined) return { fault: { law: 'suction', why: `air in ${held} keeps the stream at ${vent} from running solid` }, air: left, flow };
        if (moved && !notFuel.has(part) && of > 1) spoil(part);
        const soFar = vented.get(part) ?? 0;
        if (order > soFar) return { fault: { law: 'suction', why: `an earlier bleed point of ${part} comes before ${vent}` }, air: left, flow };
        vented.set(part, Math.max(soFar, order + 1));
        if (vented.get(part) === of) { notFuel.delete(part); topped.delete(part); }
        if ([...flow.onRoutes].some((name) => air.notFuel.has(name))) for (const name of flow.sideBranches) if (!notFuel.has(name)) spoil(name);
        return { air: left, flow };
    }

    /** What a consumer draws through in this setting, itself included where it has bleed points; undefined when no tank feeds it. */
    feedOf(setting: Setting, consumer: string): ReadonlySet<string> | undefined {
        const [inlet] = this.net.ports.get(consumer)!;
        const running = new Set(['every pump']);
        const may = (move: Move): boolean => move.way.part !== consumer && passes(setting, running)(move);
        const back = walk(this.net, 'into', [inlet!], may);
        if (!this.meetsTank(back.points)) return undefined;
        // Only what lies on a way from a tank: not a dead end beside it.
        const fromTanks = walk(this.net, 'out', [...back.points].filter((at) => this.net.mouths.has(at)), may);
        const onWay = back.moves.filter((move) => fromTanks.points.has(move.from) && !this.net.mouths.has(move.to)).map((move) => move.way.part);
        const own = this.net.consumers.get(consumer)!.vents.length > 0 ? [consumer] : [];
        return new Set([...this.held(onWay), ...own]);
    }
}
