/**
 * The service oracle: runs a procedure on a plain boat by the laws of service procedures alone, and says at which step which law
 * breaks. It goes on after a break, as if the step had been done. Where the laws leave a choice it takes the careful one.
 * PROC-WAY-BACK is left to the executor, which alone looks for steps.
 */
import type { PlainBoat } from './boat';
import { Bleeding, type Air } from './bleeding';
import { Levels, comesTo, drainedBy, openingsOf, type Opening } from './flood';
import { consumersOf, fluidOf, isOpen, netOf, passes, walk, type Net, type Setting } from './network';
import type { PlainJob, PlainProgram, PlainStep } from './steps';

export type PlainLaw = 'PROC-ISOLATED' | 'PROC-SUCTION' | 'PROC-RETURN' | 'PROC-OPEN-CLOSE' | 'PROC-SEALS' | 'PROC-PREFILL' | 'RAW-SEACOCK-CRANK'
    | 'PROC-RAIL' | 'PROC-CATCH' | 'PROC-WARN' | 'PROC-PARTS' | 'PROC-HANDS' | 'PROC-RESTORES' | 'PROC-AIR' | 'PROC-DONE' | 'PROC-TANK';

export interface Fault { readonly law: PlainLaw; readonly why: string }

export interface Run {
    /** One entry a step. */
    readonly faults: readonly (readonly Fault[])[];
    readonly atEnd: readonly Fault[];
}

/** Cranking seconds that a wet exhaust takes when nobody knows better: the lower end of the trade's rule of thumb. */
const COMMON_BUDGET = 30;
/** A tank is filled to so much of it. */
const FULL = 0.95;

export class Boatyard {
    readonly net: Net;
    readonly levels: Levels;
    readonly bleeding: Bleeding;
    private readonly comesKnown = new Map<string, ReturnType<typeof comesTo>>();
    private readonly linesKnown = new Map<string, readonly string[]>();
    private readonly fluidKnown = new Map<string, 'fuel' | 'water'>();

    constructor(readonly boat: PlainBoat) {
        this.net = netOf(boat);
        this.levels = new Levels(this.net);
        this.bleeding = new Bleeding(this.net, this.levels);
    }
    comes(setting: Setting, part: string, opening: Opening): ReturnType<typeof comesTo> {
        const key = JSON.stringify([setting, part, opening.name]);
        let comes = this.comesKnown.get(key);
        if (!comes) { comes = comesTo(this.net, this.levels, setting, part, opening.at); this.comesKnown.set(key, comes); }
        return comes;
    }
    /** Engines and other consumers on whose lines it is. */
    lines(part: string): readonly string[] {
        if (!this.linesKnown.has(part)) this.linesKnown.set(part, consumersOf(this.net, part));
        return this.linesKnown.get(part)!;
    }
    fluid(part: string): 'fuel' | 'water' {
        if (!this.fluidKnown.has(part)) this.fluidKnown.set(part, fluidOf(this.net, part));
        return this.fluidKnown.get(part)!;
    }
}

/** A valve turned, and what turns with it. */
export function turnedTo(boat: PlainBoat, setting: Setting, part: string, position: string): Setting {
    const gang = boat.parts.filter((one) => one.name !== part && (one.gang === part || boat.parts.find((own) => own.name === part)?.gang === one.name));
    return { ...setting, [part]: position, ...Object.fromEntries(gang.map((one) => [one.name, position])) };
}

/** The seals of an opening: of a drain those whose names begin so, of a bleed point likewise, of a lid or body all others. */
export function sealsOf(seals: readonly string[], kind: Opening['kind']): string[] {
    const drain = (seal: string): boolean => seal.startsWith('drain');
    const vent = (seal: string): boolean => seal.startsWith('vent') || seal.startsWith('bleed');
    if (kind === 'drain') return seals.filter(drain);
    if (kind === 'vent') return seals.filter(vent);
    return seals.filter((seal) => !drain(seal) && !vent(seal));
}

export function run(yard: Boatyard, program: PlainProgram): Run {
    const { net, boat, bleeding, levels } = yard;
    const begin: Setting = boat.lineUps[program.starts] ?? {};
    let setting = begin;
    let air: Air = { notFuel: new Set(), vented: new Map(), topped: new Set() };
    const open = new Map<string, Opening & { readonly part: string }>();
    const out = new Map<string, Set<string>>();
    const disturbed = new Map<string, Set<string>>();
    const fittedNew = new Map<string, Set<string>>();
    const removed = new Map<string, Set<string>>();
    const wasOpened = new Set<string>();
    /** Taken off without a step that opens its joint: fitting it makes the joint again. */
    const byRemoval = new Set<string>();
    const emptied = new Set<string>();
    const looked = new Set<string>();
    const tested = new Set<string>();
    const turned = new Map<string, number>();
    const running = new Set<string>(program.underWay ? boat.consumers.filter((one) => one.kind !== 'exchanger' && bleeding.feedOf(begin, one.name)).map((one) => one.name) : []);
    const ranBefore = new Set(running);
    const keyIn = new Set(boat.consumers.filter((one) => one.kind === 'engine' || one.kind === 'generator').map((one) => one.name));
    const seacock = new Map<string, string>();
    let bilge = 'auto';
    let battery = 'on';
    const cans = new Map<string, number | undefined>();
    const pads = new Set<string>();
    const cranked = new Map<string, number>();
    const warned = new Set<string>();
    /** Opened, drained or bled since somebody last looked at it. */
    const wet = new Set<string>();
    /** Fired with the seacock shut: the next step must open it. */
    let dry: string | undefined;

    const set = <K>(map: Map<K, Set<string>>, key: K): Set<string> => {
        if (!map.has(key)) map.set(key, new Set());
        return map.get(key)!;
    };
    const exists = (part: string): boolean => net.parts.has(part) || net.consumers.has(part);
    const isEngine = (name: string): boolean => ['engine', 'generator'].includes(net.consumers.get(name)?.kind ?? '');

    const doStep = (step: PlainStep): Fault[] => {
        const faults: Fault[] = [];
        const fault = (law: PlainLaw, why: string): void => { if (!faults.some((one) => one.law === law && one.why === why)) faults.push({ law, why }); };
        const need = (topic: string, why: string): void => { if (!warned.has(topic)) fault('PROC-WARN', `no caution of ${topic} before ${why}`); };
        const opening = (part: string, name: string): Opening | undefined => {
            if (!exists(part)) { fault('PROC-PARTS', `there is no ${part}`); return undefined; }
            const found = openingsOf(net, part).find((one) => one.name === name);
            if (!found) fault('PROC-PARTS', `${part} has no ${name}`);
            return found;
        };
        /** Cut off from the engine by the valves, on the idle side of a changeover, with the caution for it. */
        const idleSide = (part: string, engine: string): boolean => {
            if (!warned.has('underway')) return false;
            const through = ({ way }: { way: Parameters<typeof isOpen>[0] }): boolean => isOpen(way, setting) && way.kind !== 'consumer';
            const ports = net.ports.get(part) ?? [];
            const met = walk(net, 'out', ports, (move) => move.way.part !== part && through(move)).points;
            return !net.ports.get(engine)!.some((at) => met.has(at));
        };
        /** An electric pump may want the key: then it may be in, but nothing runs. */
        const hands = (part: string, electric = false): void => {
            for (const engine of yard.lines(part)) {
                if (running.has(engine) && !idleSide(part, engine)) fault('PROC-HANDS', `${engine} runs`);
                if (!electric && keyIn.has(engine) && isEngine(engine) && !idleSide(part, engine)) fault('PROC-HANDS', `the key of ${engine} is in`);
            }
        };
        const catchUnder = (part: string, needsCan: boolean, litres?: number): void => {
            if (!pads.has(part)) fault('PROC-CATCH', `no pads under ${part}`);
            if (needsCan && !cans.has(part)) fault('PROC-CATCH', `no can under ${part}`);
            const holds = cans.get(part);
            if (needsCan && cans.has(part) && litres !== undefined && holds !== undefined && holds < 2 * litres * 0.999) fault('PROC-CATCH', `the can under ${part} is too small`);
            if (bilge !== 'off') fault('PROC-CATCH', 'the bilge pump is not off');
        };
        const warnOpening = (part: string, what: Opening, bleedStep: boolean): void => {
            const fuel = yard.fluid(part) === 'fuel';
            for (const topic of fuel ? ['fire', 'skin', 'spill'] : ['scald']) need(topic, `opening ${part}`);
            const floods = (comes: ReturnType<typeof comesTo>): boolean => comes.supply || comes.return || comes.leaning;
            if (floods(yard.comes(setting, part, what)) || (!bleedStep && floods(yard.comes(begin, part, what)))) need(`flood ${part}`, `opening ${part} ${what.name}`);
            for (const engine of yard.lines(part)) if (net.consumers.get(engine)!.rail) need('rail', `opening ${part}`);
        };
        const openUp = (part: string, what: Opening): void => {
            hands(part);
            warnOpening(part, what, false);
            if (net.consumers.get(part)?.rail && what.kind === 'joint') fault('PROC-RAIL', `${part} is a rail engine`);
            const comes = yard.comes(setting, part, what);
            if (comes.supply) fault('PROC-ISOLATED', `liquid could come along a supply to ${part} ${what.name}`);
            if (comes.return) fault('PROC-ISOLATED', `liquid could come back by a return to ${part} ${what.name}`);
            const drained = drainedBy(net, levels, setting, part, what);
            catchUnder(part, what.kind !== 'vent', drained.litres);
            spoil(drained.air);
            emptied.add(part);
            for (const seal of sealsOf(net.parts.get(part)?.seals ?? [], what.kind)) set(disturbed, part).add(seal);
            open.set(`${part} ${what.name}`, { ...what, part });
            wasOpened.add(`${part} ${what.name}`);
            wet.add(part);
        };
        const spoil = (parts: Iterable<string>): void => {
            const notFuel = new Set(air.notFuel);
            const vented = new Map(air.vented);
            const topped = new Set(air.topped);
            for (const part of parts) if (bleeding.holding.has(part)) { notFuel.add(part); vented.delete(part); topped.delete(part); }
            air = { notFuel, vented, topped };
        };
        const nothingOpenFor = (parts: ReadonlySet<string>, why: string): void => {
            for (const one of open.values()) if (parts.has(one.part)) fault('PROC-OPEN-CLOSE', `${one.part} ${one.name} is open while ${why}`);
        };
        const returnsOpen = (why: string): void => {
            for (const consumer of running) if (net.consumers.has(consumer) && !bleeding.returnOpen(setting, consumer)) fault('PROC-RETURN', `the return of ${consumer} is shut ${why}`);
        };
        const pump = (vent: string, driver: string): void => {
            const where = bleeding.partOfVent(vent);
            if (!where) { fault('PROC-PARTS', `there is no ${vent}`); return; }
            if (!exists(driver) && !boat.tanks.some((tank) => tank.name === driver)) { fault('PROC-PARTS', `there is no ${driver}`); return; }
            const what = openingsOf(net, where.part).find((one) => one.name === vent)!;
            hands(where.part, net.parts.get(driver)?.kind === 'electric pump');
            warnOpening(where.part, what, true);
            catchUnder(where.part, false);
            wet.add(where.part);
            if (net.parts.get(driver)?.kind === 'electric pump' && battery !== 'on') fault('PROC-PARTS', `${driver} does not run`);
            if (net.parts.get(driver)?.kind === 'lever pump') { hands(driver); need('starter', `the lever of ${driver}`); }
            const flow = bleeding.flow(setting, where.part, driver);
            nothingOpenFor(new Set([...flow.pressed, ...flow.drawn, driver]), `${driver} is worked`);
        };

        /** Key in, stop in, battery on: a caution keeps the battery switch off until the step that says start. */
        const startUp = (engine: string, seconds: number): void => {
            const consumer = net.consumers.get(engine);
            if (!consumer) { fault('PROC-PARTS', `there is no ${engine}`); return; }
            for (const one of open.values()) if (yard.lines(one.part).includes(engine)) fault('PROC-OPEN-CLOSE', `${one.part} ${one.name} is open at the start of ${engine}`);
            for (const [part, gone] of out) if (gone.size > 0 && yard.lines(part).includes(engine)) fault('PROC-OPEN-CLOSE', `${[...gone].join(', ')} of ${part} is out at the start of ${engine}`);
            if (isEngine(engine)) need('starter', `starting ${engine}`);
            if (!bleeding.returnOpen(setting, engine)) fault('PROC-RETURN', `the return of ${engine} is shut`);
            const feed = bleeding.feedOf(setting, engine);
            if (!feed) fault('PROC-SUCTION', `${engine} is not fed`);
            const bubbles = [...(feed ?? [])].filter((name) => air.notFuel.has(name));
            if (bubbles.length > 0 && !consumer.selfBleeding) fault('PROC-AIR', `air before ${engine}: ${bubbles.join(', ')}`);
            if (consumer.selfBleeding) air = { ...air, notFuel: new Set([...air.notFuel].filter((name) => !bubbles.includes(name))) };
            if (consumer.exhaust?.wet) {
                need('exhaust', `starting ${engine}`);
                const total = (cranked.get(engine) ?? 0) + seconds;
                cranked.set(engine, total);
                if (seacock.get(engine) === 'shut') dry = engine;
                else if (total > (consumer.exhaust.floods !== undefined ? consumer.exhaust.floods / 2 : COMMON_BUDGET)) fault('RAW-SEACOCK-CRANK', `${engine} is cranked ${total} s`);
            } else if (seacock.get(engine) === 'shut') dry = engine;
            running.add(engine);
            if (isEngine(engine)) { keyIn.add(engine); battery = 'on'; }
        };

        if (dry !== undefined && !(step.do === 'switch' && step.thing === 'seacock' && step.of === dry && step.to === 'open')) fault('RAW-SEACOCK-CRANK', `${dry} was cranked with its seacock shut and the next step does not open it`);
        dry = undefined;

        switch (step.do) {
            case 'set': {
                const part = net.parts.get(step.part);
                if (!part?.positions) { fault('PROC-PARTS', `there is no valve ${step.part}`); break; }
                if (!(step.position in part.positions)) { fault('PROC-PARTS', `${step.part} has no position ${step.position}`); break; }
                const before = setting;
                setting = turnedTo(boat, setting, step.part, step.position);
                for (const valve of Object.keys(setting)) if (setting[valve] !== before[valve]) turned.set(valve, (turned.get(valve) ?? 0) + 1);
                for (const one of open.values()) {
                    const comes = yard.comes(setting, one.part, one);
                    if (comes.supply || comes.return) fault('PROC-ISOLATED', `with ${step.part} turned, liquid could come to ${one.part} ${one.name}`);
                    if (comes.leaning) need(`flood ${one.part}`, `turning ${step.part}`);
                    spoil(drainedBy(net, levels, setting, one.part, one).air);
                }
                returnsOpen(`by ${step.part}`);
                for (const engine of running) {
                    if (!yard.lines(step.part).includes(engine)) continue;
                    const feed = bleeding.feedOf(setting, engine);
                    if (!feed) fault('PROC-SUCTION', `${engine} runs and is not fed`);
                    if (feed && [...feed].some((name) => air.notFuel.has(name))) fault('PROC-AIR', `${engine} runs and meets air`);
                    if (program.underWay) need('underway', `turning ${step.part} while ${engine} runs`);
                }
                break;
            }
            case 'open': {
                const what = opening(step.part, step.opening);
                if (!what) break;
                if (byRemoval.delete(step.part)) break;
                if (open.has(`${step.part} ${step.opening}`)) { fault('PROC-PARTS', `${step.part} ${step.opening} is open`); break; }
                openUp(step.part, what);
                break;
            }
            case 'close': {
                const what = opening(step.part, step.opening);
                if (!what) break;
                if (!open.delete(`${step.part} ${step.opening}`)) { fault('PROC-PARTS', `${step.part} ${step.opening} is not open`); break; }
                const own = sealsOf(net.parts.get(step.part)?.seals ?? [], what.kind);
                const others = new Set((net.parts.get(step.part)?.seals ?? []).filter((seal) => !own.includes(seal)));
                const gone = [...(out.get(step.part) ?? [])].filter((piece) => !others.has(piece) && (what.kind !== 'drain' && what.kind !== 'vent' || own.includes(piece)));
                if (gone.length > 0) fault('PROC-OPEN-CLOSE', `${step.part} is closed without ${gone.join(', ')}`);
                const old = own.filter((seal) => disturbed.get(step.part)?.has(seal));
                if (old.length > 0) fault('PROC-SEALS', `${step.part} ${step.opening} is closed on its old ${old.join(', ')}`);
                break;
            }
            case 'hold': {
                const what = opening(step.part, step.opening);
                for (const valve of step.valves) {
                    const part = net.parts.get(valve);
                    if (!part?.positions) fault('PROC-PARTS', `there is no valve ${valve}`);
                    else if ('shut' in part.positions && setting[valve] !== 'shut') fault('PROC-PARTS', `${valve} is not shut, and cannot be proved`);
                    else tested.add(valve);
                }
                if (what && !byRemoval.delete(step.part) && !open.has(`${step.part} ${step.opening}`)) openUp(step.part, what);
                break;
            }
            case 'remove': case 'fit': {
                if (!exists(step.part)) { fault('PROC-PARTS', `there is no ${step.part}`); break; }
                const pieces = step.pieces.length > 0 ? step.pieces : [''];
                const gone = set(out, step.part);
                const seals = net.parts.get(step.part)?.seals ?? [];
                for (const piece of pieces) {
                    if (step.do === 'remove') {
                        hands(step.part);
                        if (gone.has(piece)) { fault('PROC-PARTS', `${piece || step.part} is out already`); continue; }
                        if (piece === '') {
                            const joint = openingsOf(net, step.part)[0]!;
                            if (!open.has(`${step.part} ${joint.name}`)) { openUp(step.part, joint); byRemoval.add(step.part); }
                        } else {
                            const kinds = openingsOf(net, step.part).filter((one) => (seals.includes(piece) ? sealsOf(seals, one.kind).includes(piece) : one.kind !== 'drain' && one.kind !== 'vent'));
                            if (!kinds.some((one) => open.has(`${step.part} ${one.name}`))) fault('PROC-PARTS', `${piece} cannot be removed while ${step.part} is closed`);
                        }
                        gone.add(piece);
                        set(removed, step.part).add(piece);
                        if (seals.includes(piece)) set(disturbed, step.part).add(piece);
                    } else {
                        if (!gone.delete(piece)) { fault('PROC-PARTS', `${piece || step.part} is not out`); continue; }
                        if (piece === '' && byRemoval.delete(step.part)) open.delete(`${step.part} ${openingsOf(net, step.part)[0]!.name}`);
                        if (step.again) continue;
                        set(fittedNew, step.part).add(piece);
                        disturbed.get(step.part)?.delete(piece);
                        // A whole new part comes with its own seals.
                        if (piece === '') disturbed.delete(step.part);
                    }
                }
                break;
            }
            case 'look':
                if (step.part === undefined) wet.clear();
                else {
                    if (!exists(step.part) && !boat.tanks.some((tank) => tank.name === step.part)) fault('PROC-PARTS', `there is no ${step.part}`);
                    const stands = [...open.values()].some((one) => one.part === step.part);
                    if (!stands) wet.delete(step.part);
                    // Nobody sees an element through a closed lid.
                    if (stands || step.piece !== 'element') looked.add(`${step.part} ${step.piece}`);
                }
                break;
            case 'clean':
                if (!exists(step.part)) fault('PROC-PARTS', `there is no ${step.part}`);
                else if (![...open.values()].some((one) => one.part === step.part)) fault('PROC-PARTS', `${step.part} is closed and cannot be cleaned`);
                break;
            case 'switch':
                if (step.thing === 'bilge pump') {
                    if (step.to !== 'off' && (open.size > 0 || wet.size > 0)) fault('PROC-CATCH', 'the bilge pump is on before all is closed and looked at');
                    bilge = step.to;
                } else if (step.thing === 'battery switch') battery = step.to;
                else if (!step.of || !net.consumers.has(step.of)) fault('PROC-PARTS', `there is no seacock of ${step.of ?? 'nothing'}`);
                else {
                    seacock.set(step.of, step.to);
                    if (step.to === 'shut' && running.has(step.of)) fault('RAW-SEACOCK-CRANK', `${step.of} runs with its seacock shut`);
                }
                break;
            case 'place':
                if (!exists(step.part) && !boat.tanks.some((tank) => tank.name === step.part)) { fault('PROC-PARTS', `there is no ${step.part}`); break; }
                if (step.thing === 'can') cans.set(step.part, step.holds); else pads.add(step.part);
                break;
            case 'prefill': {
                const part = net.parts.get(step.part);
                if (!part) { fault('PROC-PARTS', `there is no ${step.part}`); break; }
                const allowed = part.prefill === 'allowed' || (part.prefill === undefined && part.primary === true);
                if (!allowed) fault('PROC-PREFILL', `${step.part} may not be filled by hand`);
                if (!emptied.has(step.part)) fault('PROC-PREFILL', `${step.part} was not opened`);
                if (![...open.values()].some((one) => one.part === step.part && one.kind !== 'vent' && one.kind !== 'drain')) fault('PROC-PREFILL', `${step.part} is closed`);
                const fed = walk(net, 'into', net.ports.get(step.part)!, (move) => move.way.part !== step.part && passes(setting)(move)).points;
                if ([...fed].some((at) => net.mouths.has(at))) fault('PROC-PREFILL', `${step.part} is not cut off from the tanks`);
                if (open.has(`${step.part} drain`)) fault('PROC-PREFILL', `the drain of ${step.part} is open`);
                air = { ...air, notFuel: new Set([...air.notFuel, step.part]), topped: new Set([...air.topped, step.part]) };
                break;
            }
            case 'bleed': {
                pump(step.vent, step.driver);
                if (!bleeding.partOfVent(step.vent)) break;
                const done = bleeding.bleed(air, setting, step.vent, step.driver);
                if (done.fault) fault(done.fault.law === 'return' ? 'PROC-RETURN' : done.fault.law === 'parts' ? 'PROC-PARTS' : 'PROC-SUCTION', done.fault.why);
                air = done.air;
                for (const consumer of running) if (done.flow?.pressed.has(consumer)) fault('PROC-HANDS', `${consumer} runs`);
                tested.add(step.driver);
                break;
            }
            case 'prove': {
                pump(step.vent, step.pump);
                tested.add(step.pump);
                const where = bleeding.partOfVent(step.vent);
                if (!where) break;
                const flow = bleeding.flow(setting, where.part, step.pump);
                if (flow.fault) fault(flow.fault.law === 'return' ? 'PROC-RETURN' : 'PROC-SUCTION', flow.fault.why);
                else if ([...flow.sideSuction].some((name) => air.notFuel.has(name))) fault('PROC-SUCTION', `${step.pump} would draw air`);
                else if (flow.sure.some((name) => name !== where.part && air.notFuel.has(name))) spoil([where.part]);
                break;
            }
            case 'start':
                if (running.has(step.engine)) fault('PROC-PARTS', `${step.engine} runs already`);
                startUp(step.engine, step.tries * step.seconds);
                break;
            case 'stop':
                if (!exists(step.what)) { fault('PROC-PARTS', `there is no ${step.what}`); break; }
                running.delete(step.what);
                if (step.keyOut) keyIn.delete(step.what);
                break;
            case 'run': {
                if (!exists(step.what)) { fault('PROC-PARTS', `there is no ${step.what}`); break; }
                tested.add(step.what);
                const part = net.parts.get(step.what);
                if (net.consumers.has(step.what)) {
                    // One that does not run yet is started for it, with one attempt.
                    if (!running.has(step.what)) startUp(step.what, 10);
                    dry = undefined;
                    if (seacock.get(step.what) === 'shut') fault('RAW-SEACOCK-CRANK', `${step.what} runs with its seacock shut`);
                    cranked.delete(step.what);
                } else if (part) {
                    if (part.kind !== 'electric pump' || battery !== 'on') fault('PROC-PARTS', `${step.what} does not run`);
                    const way = net.ways.find((one) => one.part === step.what);
                    if (way) {
                        const may = (move: Parameters<ReturnType<typeof passes>>[0]): boolean => move.way.part !== step.what && passes(setting)(move);
                        const pressed = walk(net, 'out', [way.to], may);
                        const drawn = walk(net, 'into', [way.from], may);
                        if (![...drawn.points].some((at) => net.mouths.has(at))) fault('PROC-SUCTION', `${step.what} draws from no tank`);
                        nothingOpenFor(new Set([...pressed.parts, ...drawn.parts, step.what]), `${step.what} runs`);
                        for (const consumer of boat.consumers) if (pressed.parts.has(consumer.name) && !bleeding.returnOpen(setting, consumer.name)) fault('PROC-RETURN', `the return of ${consumer.name} is shut`);
                    }
                    if (step.until) {
                        need('overfill', `filling ${step.until.tank}`);
                        const tank = boat.tanks.find((one) => one.name === step.until!.tank);
                        const box = tank?.box;
                        const gross = box ? (box.fwd[1] - box.fwd[0]) * (box.stbd[1] - box.stbd[0]) * (box.up[1] - box.up[0]) * 1000 : undefined;
                        if (!tank) fault('PROC-PARTS', `there is no ${step.until.tank}`);
                        else if (gross === undefined || step.until.holds > FULL * gross) fault('PROC-TANK', `${step.until.tank} would be filled past 95 %`);
                    }
                    if (!step.ends) running.add(step.what);
                }
                break;
            }
            case 'read':
                tested.add(step.gauge);
                if (!exists(step.gauge)) fault('PROC-PARTS', `there is no ${step.gauge}`);
                else if (step.running && !yard.lines(step.gauge).some((engine) => running.has(engine))) fault('PROC-PARTS', `nothing runs on ${step.gauge}`);
                break;
            case 'caution':
                warned.add(step.part === undefined ? step.topic : `${step.topic} ${step.part}`);
                break;
            case 'log':
                if (net.boat.tanks.some((tank) => tank.fluid === 'fuel') && [...removed.values()].some((pieces) => pieces.has('element'))) need('waste', 'what came out is put away');
                break;
            case 'ran dry':
                spoil(bleeding.feedOf(setting, step.engine) ?? []);
                break;
            case 'words': break;
        }
        return faults;
    };

    const faults = program.steps.map(doStep);
    const atEnd: Fault[] = [];
    const end = (law: PlainLaw, why: string): void => { atEnd.push({ law, why }); };
    if (dry !== undefined) end('RAW-SEACOCK-CRANK', `the seacock of ${dry} stays shut`);
    for (const one of open.values()) end('PROC-OPEN-CLOSE', `${one.part} ${one.name} is left open`);
    for (const [part, gone] of out) if (gone.size > 0) end('PROC-OPEN-CLOSE', `${[...gone].map((piece) => piece || 'all').join(', ')} of ${part} is left out`);
    const wanted: Setting = boat.lineUps[program.ends] ?? {};
    for (const [valve, position] of Object.entries(wanted)) if (setting[valve] !== position) end('PROC-RESTORES', `${valve} is ${setting[valve] ?? 'nowhere'}, not ${position}`);
    if (bilge !== 'auto') end('PROC-RESTORES', 'the bilge pump is not on auto');
    // Laid up, keys are out, the battery off and seacocks shut as somebody likes.
    const afloat = !boat.laidUp.includes(program.ends);
    if (afloat && battery !== 'on') end('PROC-RESTORES', 'the battery switch is off');
    for (const [engine, position] of seacock) if (afloat && position !== 'open') end('PROC-RESTORES', `the seacock of ${engine} is shut`);
    for (const consumer of boat.consumers) if (afloat && isEngine(consumer.name) && !keyIn.has(consumer.name)) end('PROC-RESTORES', `the key of ${consumer.name} is out`);
    for (const name of running) if (!ranBefore.has(name)) end('PROC-RESTORES', `${name} runs`);
    for (const consumer of boat.consumers) {
        const bubbles = [...(bleeding.feedOf(wanted, consumer.name) ?? [])].filter((name) => air.notFuel.has(name));
        if (bubbles.length > 0 && !consumer.selfBleeding) end('PROC-AIR', `air before ${consumer.name}: ${bubbles.join(', ')}`);
    }
    const has = (map: ReadonlyMap<string, ReadonlySet<string>>, { part, piece }: PlainJob): boolean => map.get(part!)?.has(piece) ?? false;
    const done = (job: PlainJob): boolean => {
        if (job.part === undefined) return true;
        switch (job.verb) {
            case 'renew': return has(removed, job) && has(fittedNew, job);
            case 'look': return looked.has(`${job.part} ${job.piece}`);
            case 'drain': return wasOpened.has(`${job.part} drain`);
            case 'test': return tested.has(job.part);
            // Away and back; once where it is said to which position.
            case 'work': return (turned.get(job.part) ?? 0) >= (job.piece === '' ? 2 : 1);
            default: return true;
        }
    };
    for (const job of program.jobs) if (!done(job)) end('PROC-DONE', `${job.verb} ${job.part ?? ''} ${job.piece} is not done`);
    return { faults, atEnd };
}

export const faultsOf = (made: Run): Fault[] => [...made.faults.flat(), ...made.atEnd];
