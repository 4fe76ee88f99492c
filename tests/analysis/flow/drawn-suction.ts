/**
 * Boats with lines to two engines, drawn by a seed: written as text, and drawn a second time as a circuit by what the text means, with no code of the
 * program. Tanks are half full: however she leans, the surface then goes through the middle of the box. What stops nothing (valves, tees) is not in the circuit.
 */
import type { Circuit, FlowLink, FlowNode } from '../../../src/analysis/flow/circuit';
import { LITRE_AN_HOUR, random } from './drawn-circuits';

export interface DrawnSuction {
    /** Blocks that may be written in any order. */
    readonly blocks: readonly string[];
    readonly lineUp: string;
    readonly circuit: Circuit;
    /** By hose: its ends in the circuit. */
    readonly ends: ReadonlyMap<string, readonly [from: string, to: string]>;
    readonly lean: { readonly heel: number; readonly trim: number };
    readonly fluid: Circuit['fluid'];
}

const [LENGTH, BREADTH, HEIGHT] = [1.0, 0.6, 0.4];

export function drawnSuction(seed: number): DrawnSuction {
    const dice = random(seed * 7919 + 5);
    const between = (low: number, high: number): number => low + dice() * (high - low);
    const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
    const chance = (share: number): boolean => dice() < share;
    const lean = { heel: between(-10, 10) * Math.PI / 180, trim: between(-3, 3) * Math.PI / 180 };
    // z' = z cos φ - y sin φ; z'' = z' cos θ + x sin θ.
    const lifted = (up: number, fwd: number, stbd: number): number => (up * Math.cos(lean.heel) - stbd * Math.sin(lean.heel)) * Math.cos(lean.trim) + fwd * Math.sin(lean.trim);
    const fluid = { density: 840, viscosity: between(2e-6, 7e-6) };
    const [nodes, links]: [FlowNode[], FlowLink[]] = [[], []];
    const ends = new Map<string, readonly [string, string]>();
    const blocks: string[] = [];
    let count = 0;
    const node = (head?: number, drawn?: number): string => { const id = `n${nodes.length}`; nodes.push({ id, up: 0, ...(head !== undefined && { head }), ...(drawn !== undefined && { drawn }) }); return id; };
    /** A hose from a node on, as the text has it; answers the node at its far end. */
    const hose = (from: string, to = node()): { text: string; to: string } => {
        const [name, bore, length] = [`H${++count}`, whole(5, 14), whole(200, 4000)];
        links.push({ id: name, from, to, pipes: [{ bore: bore / 1000, length: length / 1000 }] });
        ends.set(name, [from, to]);
        return { text: `hose ${name} bore ${bore} mm length ${length} mm`, to };
    };
    /** A hose and a pump that stands still beside another way: it lets nothing back. */
    const guarded = (from: string, to = node()): { text: string; to: string } => {
        const found = hose(from, to);
        links.push({ ...links.pop()!, check: { opens: 0 } });
        return { text: `${found.text}\n  lift pump LP${count}`, to };
    };
    const row = (from: string, most: number): { text: string; to: string } => {
        let [at, text] = [from, ''];
        for (let i = whole(1, most); i > 0; i--) {
            if (chance(0.3)) {
                const far = node();
                const legs = ['a', 'b', 'c'].slice(0, chance(0.3) ? 3 : 2).map((leg) => `  leg ${leg} { ${(chance(0.3) ? guarded : hose)(at, far).text} }`);
                text += `  split {\n${legs.join('\n')}\n  }\n`;
                at = far;
            } else { const found = hose(at); text += `  ${found.text}\n`; at = found.to; }
            if (chance(0.3)) text += `  shutoff V${++count} normally open\n`;
        }
        return { text, to: at };
    };
    const tank = (name: string, side: 1 | -1): { pickup: string; drop: string } => {
        const bottom = whole(100, 600) / 1000;
        const [fwd, stbd] = [2.5, side * 0.9];
        const head = lifted(bottom + HEIGHT / 2, 2 + LENGTH / 2, side * (0.6 + BREADTH / 2));
        const top = bottom + HEIGHT + 0.03;
        const place = (up: number): string => `${Math.round(up * 1000)} mm up, ${fwd * 1000} mm fwd, ${Math.abs(stbd) * 1000} mm ${side > 0 ? 'stbd' : 'port'}`;
        const [p, r] = [whole(6, 12), whole(6, 12)];
        blocks.push(`tank ${name} {\n  box ${LENGTH * 1000} x ${BREADTH * 1000} x ${HEIGHT * 1000} mm   low aft inner corner at ${Math.round(bottom * 1000)} mm up, 2000 mm fwd, 600 mm ${side > 0 ? 'stbd' : 'port'}\n`
            + `  pickup P1 bore ${p} mm mouth at ${place(bottom + 0.03)} top at ${place(top)}\n  drop R1 bore ${r} mm mouth at ${place(bottom + 0.03)} top at ${place(top)}\n  vent\n}`);
        const tube = (bore: number): string => { const [hub, port] = [node(head), node()]; links.push({ id: `${name}-${bore}-${links.length}`, from: hub, to: port, pipes: [{ bore: bore / 1000, length: HEIGHT }] }); return port; };
        return { pickup: tube(p), drop: tube(r) };
    };
    const [t1, t2] = [tank('T1', -1), tank('T2', 1)];
    const draws = [whole(20, 160), whole(20, 160)] as const;
    const burns = draws.map((each) => Math.floor(each * between(0.1, 0.6)));
    ['E1', 'E2'].forEach((name, i) => blocks.push(`engine ${name} { burns ${burns[i]!} L/h at 2000 rpm   draws ${draws[i]!} L/h at 2000 rpm   inlet at 900 mm up, 2000 mm fwd, 100 mm stbd }`));

    // By a selector from one tank, or from both at once, each past a check.
    let [common, start, lineUp] = ['', t1.pickup, 'line-up RUN run is normal'];
    if (chance(0.5)) {
        const other = chance(0.5);
        blocks.push('selector SV {\n  ports a, b, out\n  position A joins a, out\n  position B joins b, out\n}');
        const [a, b] = [hose(t1.pickup), hose(t2.pickup)];
        blocks.push(`supply course FromPort from T1.P1 to SV.a { ${a.text} }`, `supply course FromStbd from T2.P1 to SV.b { ${b.text} }`);
        [common, start, lineUp] = ['SV.out', other ? b.to : a.to, `line-up RUN run is normal { SV ${other ? 'B' : 'A'} }`];
    } else if (chance(0.6)) {
        const meet = node();
        const [a, b] = [guarded(t1.pickup, meet), guarded(t2.pickup, meet)];
        [common, start] = ['T1.P1', meet];
        blocks.push(`supply course Other from T2.P1 to J0 {\n  ${b.text}\n}`);
        common += ` to E1 {\n  ${a.text}\n  tee J0`;
    } else common = 'T1.P1';
    if (!common.includes('{')) common += ' to E1 {';
    const trunk = row(start, 2);
    const toOne = row(trunk.to, 2);
    const toTwo = row(trunk.to, 3);
    blocks.push(`supply course Feed from ${common}\n${trunk.text}  tee J1\n${toOne.text}}`, `supply course Second from J1 to E2 {\n${toTwo.text}}`);
    const [backOne, backTwo] = [node(), node()];
    const before = hose(backOne);
    const last = hose(before.to, t1.drop);
    const second = hose(backTwo, before.to);
    blocks.push(`return course Back from E1 to T1.R1 {\n  ${before.text}\n  tee J2\n  ${last.text}\n}`, `return course Join from E2 to J2 { ${second.text} }`);
    const give = (id: string, flow: number): void => { const at = nodes.findIndex((each) => each.id === id); nodes[at] = { ...nodes[at]!, drawn: flow * LITRE_AN_HOUR }; };
    give(toOne.to, draws[0]); give(toTwo.to, draws[1]); give(backOne, burns[0]! - draws[0]); give(backTwo, burns[1]! - draws[1]);
    blocks.push(lineUp);
    return { blocks, lineUp, circuit: { nodes, links, fluid }, ends, lean, fluid };
}
