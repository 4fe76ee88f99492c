/**
 * Of two filters side by side the element of one is renewed under way: the changeover is turned to the other, the engine runs on. Refused where, so
 * turned, a tank or the suction of a running engine still comes to the idle side, or where it may not be filled by hand: nothing bleeds it while the
 * engine runs on the other (trade practice: filled to the brim, topped up, turned back to only at low speed with room to stop).
 */
import type { Boat, Id, LineUp, Part } from '../../../model/boat';
import { knots } from '../../../analysis/flow/demand';
import { openingNamed } from '../../../analysis/opening/openings';
import { plumbing } from '../../../analysis/opening/plumbing';
import { waysTo } from '../../../analysis/opening/ways';
import { burnersOf, runsIn } from '../../../analysis/time/burners';
import { handPositions, lineUpsOf, normalLineUp, turned, type ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { reach, type Network, type Positions } from '../../../analysis/topology/network';
import { partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { returnIsBlocked } from '../../../analysis/topology/isolation';
import { listed } from '../../../model/words';
import { mayPrefill } from '../../executor';
import type { PlannedServiceStep, Remark } from '../plan';
import type { Visit } from '../visit';
import { canFor, comesOut, proof } from '../drains';
import { fuelFor } from '../needs';
import { bodySeals, drainSeals, needed } from './pieces';
import type { Recipe } from './recipe';
import { planned, told } from '../step-of';
import { blank, unplaced } from './operation';

const WORDS = /^to (.+) under way$/;
/** s for an element under way, and s that the engine is watched after the turn: no source. */
const EACH = 30 * 60;
const WATCH = 2 * 60;
/** s that it is listened to with the idle side open to air, and s until what was poured in has soaked the element: no source. */
const [LISTEN, SETTLES] = [2 * 60, 3 * 60];

/** To let it cool is what the table asks, and what cannot be met here (trade practice: say so). */
const HOT = 'Fuel beside a hot engine that runs. It burns. The engine cannot cool for this: shield its hot parts, keep an extinguisher in the hand, and stop it if fuel sprays or runs.';

export const duplex: Recipe = {
    verb: 'work',
    rows: (boat) => boat.parts.filter(({ kind }) => kind === 'changeover').flatMap((part) => oneSided(part).filter((name) => name !== normalLineUp(boat, lineUpsOf(boat))?.positions.get(part.id)).map((name) => ({ verb: 'work', part: part.id, piece: `to ${name} under way` }))),
    fits: (_visit, { verb, piece }) => verb === 'work' && WORDS.test(piece),
    make: (visit, { part, piece }) => {
        const { boat, network, request, starts } = visit;
        const to = WORDS.exec(piece)![1]!;
        const valve = boat.parts.find(({ id, kind }) => id === part && kind === 'changeover');
        if (!valve?.positions.some(({ name }) => name === to)) return blank(`${part ?? 'It'} is no changeover with a position ${to}.`);
        const missing = unplaced(boat, starts);
        if (missing.length > 0) return blank('A valve is placed by nothing that is written.', missing);
        const was = starts.positions.get(valve.id)!;
        if (was === to) return blank(`${valve.id} stands at ${to} already in ${starts.id}.`);
        if (!handPositions(valve).includes(to)) return blank(`No hand turns ${valve.id}.`);
        const positions = turned(boat, starts.positions, valve.id, to);
        const legs = legsOf(visit, valve, starts.positions, positions);
        if (legs.idle.length === 0) return blank(`Turned to ${to}, ${valve.id} takes no filter off line: ${listed(legs.before)} stay${legs.before.length === 1 ? 's' : ''} on it.`);
        const resting = legs.engines.filter((id) => network.consumers.get(id)!.kind !== 'engine');
        if (resting.length > 0) return blank(`${listed(resting)} can be stopped while ${listed(legs.idle)} ${legs.idle.length > 1 ? 'are' : 'is'} renewed, so no hand need go near what runs: ask for ${listed(legs.idle.map((id) => `\`renew ${id} element\``))}.`);
        if (legs.engines.length === 0) return blank(`No engine that runs in ${starts.id} draws through ${valve.id}.`);
        const starved = legs.engines.filter((id) => tanksBefore(running(network, positions), `${id}:in`).length === 0 || returnIsBlocked(running(network, positions), id));
        if (starved.length > 0) return blank(`Turned to ${to}, ${valve.id} leaves ${listed(starved)} without fuel or without a return.`);
        const live = legs.idle.filter((id) => comesTo(network, positions, id) !== undefined);
        if (live.length > 0) return blank(`With ${valve.id} at ${to}, ${live.map((id) => `${id} is still joined to ${comesTo(network, positions, id)!}`).join(', and ')}: opened while the engine runs it floods, or gives it air. Stop the engine, or have the leg shut on both sides.`);
        const unfit = legs.idle.filter((id) => !mayPrefill(benchFor(visit, legs.engines[0]!), id));
        if (unfit.length > 0) return blank(`${listed(unfit)} may not be filled by hand, and nothing bleeds ${unfit.length > 1 ? 'them' : 'it'} while the engine runs on the other side: turned to dry, it stops the engine. Renew ${unfit.length > 1 ? 'them' : 'it'} with the engine stopped.`);
        const bare = legs.idle.filter((id) => !boat.parts.find((other) => other.id === id)!.lid);
        if (bare.length > 0) return blank(`${listed(bare)} ${bare.length > 1 ? 'have' : 'has'} no lid: with the body off nothing can be closed in a hurry, and no one can fill it in its place. Renew ${bare.length > 1 ? 'them' : 'it'} with the engine stopped.`);
        const undeclared = withLineUp(visit, starts, valve.id, to, positions);
        const filters = legs.idle.map((id) => boat.parts.find((other) => other.id === id)!);
        const job = filters.map(({ id }) => ({ verb: 'renew', part: id, piece: 'element' }));
        const fuel = fuelFor(visit, legs.idle);
        const vents = boat.parts.filter(({ id }) => legs.active.includes(id)).flatMap((filter) => filter.vents.map(({ id }) => id));
        const runs = legs.engines;
        return {
            title: `Turn ${valve.id} to ${to} under way, and renew ${listed(legs.idle.map((id) => `${id} element`))}`,
            preface: [{ say: 'ends unbled', with: { valve: valve.id, was, position: to, parts: legs.idle, engines: runs } }],
            underWay: true, ends: undeclared.lineUp, on: undeclared.boat, consumers: [], takes: { seconds: (EACH + LISTEN + SETTLES) * filters.length + WATCH, people: 2 },
            needs: {
                parts: filters.flatMap(({ id }) => needed(id, ['element', ...bodySeals(visit, id), ...(openingNamed(boat, id, 'drain') ? drainSeals(visit, id) : [])])), ...(fuel !== undefined && { fuel }),
                tools: ['tag', 'marker', 'watch', 'shield for the hot parts', 'metal can with a lid for the old element and rags'],
            },
            whole: [
                told('prepare', { do: 'look', piece: 'posts' }, { tell: 'two people', with: { engines: runs, part: legs.idle[0]! } }),
                ...legs.active.map((id) => planned('prepare', { do: 'look', part: id, piece: 'bowl', words: 'full, clear' }, { say: 'standby is full', with: { filters: [id], vents } })),
                ...runs.map((id) => planned('prepare', { do: 'run', part: id, ...idleOf(boat, id) }, { say: 'sea room', with: { engines: [id] } })),
                planned('isolate', { do: 'set', part: valve.id, position: to }, { say: 'turn slowly', with: { valve: valve.id, passes: passing(valve, was, to) } }, { say: 'turn back if', with: { valve: valve.id, position: was, engines: runs } }),
                planned('isolate', { do: 'wait', seconds: WATCH }, { say: 'not the other side', with: { opens: legs.idle, runs: legs.active } }),
                told('isolate', { do: 'look', part: valve.id, piece: 'tag' }, { tell: 'tag', with: { valve: valve.id, says: 'open filter: do not turn', about: legs.idle[0]! } }),
                planned('isolate', { do: 'caution', topic: 'fire', signal: 'WARNING', text: HOT }),
                planned('isolate', { do: 'switch', thing: 'bilge pump', to: 'off' }),
                ...filters.flatMap((filter) => renewing(visit, filter, { valve: valve.id, was, engines: runs, positions })),
                told('finish', { do: 'look', part: valve.id, piece: 'tag' }, { tell: 'tag', with: { valve: valve.id, says: 'not bled: do not turn', about: legs.idle[0]! } }),
                planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' }),
                told('finish', { do: 'look', piece: 'tools' }, { tell: 'count all', with: { things: ['tools', 'old seals', 'pads', 'rags', 'cans'] } }),
                planned('finish', { do: 'log', jobs: [...request.jobs, ...job] }),
            ],
            acceptance: [{ say: 'idle side full', with: { parts: legs.idle, runs: legs.active, engines: runs } }],
            log: legs.idle.map((id): Remark => ({ say: 'log water', with: { part: id } })),
            after: filters.map(({ id, vents: own }): Remark => ({ say: 'bleed before use', with: { valve: valve.id, position: was, part: id, vents: own.map((vent) => vent.id) } })),
            defaults: undeclared.declared ? [] : [`it ends as ${starts.id} with ${valve.id} at ${to}: no line-up says so, write \`line-up ${undeclared.lineUp} run from ${starts.id} { ${valve.id} ${to} }\``],
        };
    },
};

/** Positions that join the fewest ports: those through one leg alone. */
function oneSided({ positions }: Part): readonly string[] {
    const joined = positions.map(({ joins }) => joins.reduce((sum, group) => sum + group.length, 0));
    const least = Math.min(...joined.filter((count) => count > 0));
    return positions.filter((_, i) => joined[i] === least).map(({ name }) => name);
}

interface Legs {
    /** Filters before the engines at first, those that the turn takes off line, and those that it puts on. */
    readonly before: readonly Id[];
    readonly idle: readonly Id[];
    readonly active: readonly Id[];
    readonly engines: readonly Id[];
}

function legsOf({ boat, network, starts }: Visit, valve: Part, from: Positions, to: Positions): Legs {
    const [one, other] = [running(network, from), running(network, to)];
    const engines = burnersOf(network).filter(({ id, kind }) => (kind === 'engine' || kind === 'generator') && runsIn(starts, id) && partsBefore(one, `${id}:in`).has(valve.id)).map(({ id }) => id);
    const filters = (linedUp: typeof one): Id[] => boat.parts.filter(({ id, kind }) => kind === 'filter' && engines.some((engine) => partsBefore(linedUp, `${engine}:in`).has(id))).map(({ id }) => id);
    const [before, after] = [filters(one), filters(other)];
    return { before, idle: before.filter((id) => !after.includes(id)), active: after.filter((id) => !before.includes(id)), engines };
}

/** What the opened filter would be joined to: a tank, with checks that leak, or a consumer that draws from it. */
function comesTo(network: Network, positions: Positions, filter: Id): Id | undefined {
    const worn = plumbing(network, positions, 'leaky');
    const [way] = waysTo(worn, filter);
    if (way) return way.tank;
    const own = new Set(network.through.get(filter));
    const met = reach(worn.linedUp, worn.linedUp.ways, [network.index.get(`${filter}:in`)!, network.index.get(`${filter}:out`)!], own);
    return [...network.consumers.keys()].find((id) => met.has(network.index.get(`${id}:in`)!));
}

const benchFor = ({ pumping, boat }: Visit, consumer: Id): Parameters<typeof mayPrefill>[0] => ({ pumping, consumer, opened: new Set(), level: boat.vessel.envelope.level?.low });

/** The line-up in which it ends; where none is declared, the boat with one more. */
function withLineUp({ boat, lineUps }: Visit, starts: ResolvedLineUp, valve: Id, to: string, positions: Positions): { boat: Boat; lineUp: Id; declared: boolean } {
    const same = lineUps.find(({ use, positions: other }) => use === 'run' && [...positions].every(([id, position]) => other.get(id) === position));
    if (same) return { boat, lineUp: same.id, declared: true };
    const taken = new Set(lineUps.map(({ id }) => id));
    const wanted = `${starts.id}-${valve}-${to}`;
    let name = wanted;
    for (let n = 2; taken.has(name); n++) name = `${wanted}-${n}`;
    const added: LineUp = { id: name, use: 'run', normal: false, base: starts.id, settings: [{ part: valve, position: to }] };
    return { boat: { ...boat, lineUps: [...boat.lineUps, added] }, lineUp: name, declared: false };
}

/** Its lowest stated speed; a generator runs at its own. */
function idleOf({ consumers }: Boat, id: Id): { speed?: number } {
    const consumer = consumers.find((other) => other.id === id)!;
    const [idle] = [...knots(consumer.burns), ...knots(consumer.draws)].sort((a, b) => a.speed - b.speed);
    return consumer.kind === 'engine' && idle ? { speed: idle.speed } : {};
}

const passing = ({ turning }: Part, from: string, to: string): string | undefined => turning.find((turn) => (turn.from === undefined || turn.from === from) && (turn.to === undefined || turn.to === to))?.passes;

interface Turned {
    readonly valve: Id;
    /** The position from which it was turned, and how the valves stand since. */
    readonly was: string;
    readonly positions: Positions;
    readonly engines: readonly Id[];
}

/** The element of the idle side: opened a little first, which proves the changeover, drained, renewed, filled to the brim and closed. */
function renewing(visit: Visit, filter: Part, { valve, was, positions, engines }: Turned): PlannedServiceStep[] {
    const { boat } = visit;
    const part = filter.id;
    const drain = openingNamed(boat, part, 'drain');
    const first = drain ? 'drain' : 'lid';
    const [ofDrain, ofLid] = [drainSeals(visit, part), bodySeals(visit, part)];
    const holds = canFor(comesOut(visit, [...(drain ? [{ part, opening: 'drain' }] : []), { part, opening: 'lid' }], positions));
    const openings = [...(drain ? ['drain'] : []), 'lid'];
    const neverBack: Remark = { say: 'never back', with: { valve, position: was, part, engines, openings } };
    const flows = proof(visit, { part, opening: first }, { settings: [{ part: valve, position: positions.get(valve)! }] });
    return [
        planned('open', { do: 'place', thing: 'pads', part, count: 4 }), told('open', { do: 'place', thing: 'can', part, holds }, { tell: 'drip can', with: { part, holds } }),
        planned('open', { do: 'hold', valves: [valve], part, opening: first, within: 10 }, neverBack, { say: 'empties first', with: { part, volume: filter.holds?.si } }, ...flows.remarks, { say: 'if it runs on', with: { valves: [valve], part, opening: first } }),
        told('open', { do: 'wait', seconds: LISTEN }, { tell: 'listen', with: { seconds: LISTEN, engines, part, valve } }),
        ...(drain ? [planned('open', { do: 'open', part, opening: 'lid' })] : []),
        planned('renew', { do: 'remove', part, pieces: ['element', ...ofLid] }, ...(ofLid.length > 0 ? [{ say: 'count old seals', with: { part, seals: ofLid } } as const] : [])),
        planned('renew', { do: 'look', part, piece: filter.separatesWater ? 'bowl' : 'element', words: 'dark, slime, grit, water' }, { say: 'note water', with: { part } }),
        ...(drain ? [...(ofDrain.length > 0 ? [planned('renew', { do: 'remove', part, pieces: ofDrain }), planned('renew', { do: 'fit', part, pieces: ofDrain })] : []), planned('renew', { do: 'close', part, opening: 'drain' })] : []),
        planned('renew', { do: 'fit', part, pieces: ['element', ...ofLid] }, ...(ofLid.length > 0 ? [{ say: 'oil seals', with: { part, seals: ofLid } } as const] : [])),
        planned('close', { do: 'prefill', part }, { say: 'to the brim', with: { part } }),
        told('close', { do: 'wait', seconds: SETTLES }, { tell: 'top up', with: { part, seconds: SETTLES } }),
        planned('close', { do: 'close', part, opening: 'lid' }, { say: 'tighten', with: { part } }),
        planned('verify', { do: 'look', part, piece: 'joints', words: 'dry card' }, { say: 'dry card' }),
    ];
}
