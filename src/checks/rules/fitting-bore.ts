/**
 * The line beside a fitting is the pipe next to it, upstream or downstream, and of two the smaller: where the pipe itself is reduced, a fitting may be
 * as small as the smaller pipe. Of several pipes on one side, as at a tee, the largest is the line. A long thin pipe is no fitting: what it costs is counted
 * with the suction, not here. Judged is what all that comes from a tank goes through, in a line-up for running or with a changeover turned: a small primer in
 * a bypass that is shut starves nobody.
 */
import type { Consumer, Id, Part } from '../../model/boat';
import type { Measure } from '../../model/measure';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { onEveryWay } from '../../analysis/topology/every-way';
import { fittingOf } from '../../analysis/topology/joints';
import type { LinedUp, Network } from '../../analysis/topology/network';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { routes } from '../../analysis/topology/routes';
import { capital, figure, listed } from '../../model/words';
import { fromSI } from '../../model/units';
import { burnsFuel, nameOf, nothing, type Check, type View } from '../check';
import { boreMissing, distinct } from '../../analysis/missing';
import { least, most } from '../../analysis/estimate';
import { settings } from './filter-flow';

export const fittingBore: Check = {
    code: 'FITTING-BORE', severity: 'major', slow: true,
    statement: 'In line-ups for running, no pickup, valve, check, tee, filter, pump or other fitting that all that a consumer draws from a tank goes through has a bore under 80 % of that of the line beside it; where the pipes on its two sides differ, of the smaller. Of fittings without a written bore only pickups are asked about.',
    prevents: 'A small pickup that was forgotten in a large line starves the engine.',
    facts: 'bores of pickups, pipes and fittings; the network; line-ups',
    source: 'common practice',
    judge: (view) => {
        const found = supplies(view);
        const ids = [...new Set(found.flatMap(({ owners }) => [...owners.keys()]))].filter((id) => isPickup(view, id) || (!isPipe(view, id) && view.network.parts.get(id)?.bore !== undefined));
        return ids.length === 0 ? [nothing('no pickup of a tank and no fitting with a bore stands on a supply that is open')] : ids.map((id) => judge(view, id, found.filter(({ owners }) => owners.has(id))));
    },
};

/** Less than this share of the bore of the line is too small. */
const SHARE = 0.8;
/** Bores that differ by less are the same, m. */
const SAME = 1e-9;

const isPipe = ({ network }: View, id: Id): boolean => ['hose', 'tube'].includes(network.parts.get(id)?.kind ?? '');
const isPickup = ({ boat }: View, id: Id): boolean => fittingOf(boat, id)?.kind === 'pickup';

/** How a consumer is fed in one setting of the valves. */
interface Supply {
    readonly consumer: Consumer;
    readonly linedUp: LinedUp;
    /** On some way from a tank. */
    readonly passages: ReadonlySet<number>;
    /** Of what is on every way from some tank, the pairs of points between which the liquid passes it; a tee is one point. */
    readonly owners: ReadonlyMap<Id, readonly (readonly [number, number])[]>;
}

function supplies(view: View): Supply[] {
    const { boat, network, allOpen } = view;
    return boat.consumers.filter((consumer) => burnsFuel(view, consumer)).flatMap((consumer) => {
        const before = partsBefore(allOpen, `${consumer.id}:in`);
        return settings(view, boat.parts.filter(({ id, kind }) => kind === 'changeover' && before.has(id))).map((linedUp) => supplyIn(network, linedUp, consumer));
    });
}

function supplyIn(network: Network, linedUp: LinedUp, consumer: Consumer): Supply {
    const inlet = `${consumer.id}:in`;
    const end = [network.index.get(inlet)!];
    const owners = new Map<Id, (readonly [number, number])[]>();
    for (const i of new Set(tanksBefore(linedUp, inlet).flatMap((tank) => onEveryWay(linedUp, [network.tanks.get(tank)!], end)))) {
        const { part, from, to } = network.passages[i]!;
        if (part !== undefined) owners.set(part, [...owners.get(part) ?? [], [from, to]]);
        else for (const at of [from, to]) { const tee = network.parts.get(network.points[at]!); if (tee?.kind === 'tee') owners.set(tee.id, [[at, at]]); }
    }
    return { consumer, linedUp, passages: routes(linedUp, network.tankPoints, end), owners };
}

/** The smaller of the lines on the two sides of a way through something. */
interface Line {
    readonly consumer: Consumer;
    /** Absent where no side is known. */
    readonly pipe?: Part;
    /** Pipes there that nobody measured: one of them may be the smaller. */
    readonly unmeasured: readonly Part[];
}

function judge(view: View, id: Id, found: readonly Supply[]): Verdict {
    const { boat, network } = view;
    const bore = fittingOf(boat, id)?.bore ?? network.parts.get(id)?.bore;
    const lines = found.flatMap((supply) => supply.owners.get(id)!.flatMap(([from, to]) => lineBeside(supply, id, from, to) ?? []));
    if (lines.length === 0) return { outcome: 'not applicable', about: id, why: 'no pipe stands beside it' };
    const isSmall = (pipe: Part | undefined, at: 'at best' | 'at worst'): boolean => bore === undefined || pipe === undefined
        || (at === 'at best' ? most(bore) < SHARE * least(pipe.bore!) - SAME : least(bore) < SHARE * most(pipe.bore!) - SAME);
    const rests: Ground[] = [{ about: id, fact: 'bore' }, ...[...new Set(lines.flatMap(({ pipe }) => pipe?.id ?? []))].map((about) => ({ about, fact: 'bore' }))];
    if (bore) for (const at of ['at best', 'at worst'] as const) {
        const pipe = lines.filter((line) => line.unmeasured.length === 0 && isSmall(line.pipe, at)).map((line) => line.pipe!).sort((a, b) => b.bore!.si - a.bore!.si)[0];
        if (pipe) return fails(view, { id, bore, pipe, consumers: [...new Set(lines.filter((line) => line.pipe === pipe).map(({ consumer }) => consumer.id))], rests, at });
    }
    const missing: MissingFact[] = [...(bore ? [] : [boreMissing({ id, name: nameOf(boat, id) })]), ...lines.filter(({ pipe }) => isSmall(pipe, 'at worst')).flatMap(({ unmeasured }) => unmeasured.map(boreMissing))];
    return missing.length > 0 ? { outcome: 'cannot tell', about: id, missing: distinct(missing) } : { outcome: 'pass', about: id, rests };
}

/** Undefined where no pipe stands on either side. */
function lineBeside(supply: Supply, id: Id, from: number, to: number): Line | undefined {
    const met = (end: number, directions: readonly ('ways' | 'back')[]): Part[] => directions.flatMap((direction) => pipesFrom(supply, id, end, direction));
    const sides = (from === to ? [met(from, ['back']), met(to, ['ways'])] : [from, to].map((end) => met(end, ['back', 'ways']))).filter((side) => side.length > 0);
    if (sides.length === 0) return undefined;
    // Of a side with a pipe that was not measured the largest is not known.
    const largest = sides.filter((side) => side.every(({ bore }) => bore)).map((side) => side.reduce((large, pipe) => (pipe.bore!.si > large.bore!.si ? pipe : large)));
    const pipe = largest.sort((a, b) => a.bore!.si - b.bore!.si)[0];
    return { consumer: supply.consumer, unmeasured: sides.flat().filter(({ bore }) => !bore), ...(pipe && { pipe }) };
}

/** The pipes that are met first from a point of a supply, read down (`ways`) or up, not through the part itself. */
function pipesFrom({ linedUp, passages }: Supply, own: Id, start: number, direction: 'ways' | 'back'): Part[] {
    const { network } = linedUp;
    const found = new Set<Part>();
    const seen = new Set([start]);
    const queue = [start];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        for (const { to: next, passage } of linedUp[direction][at]!) {
            const { part: id, kind, from, to } = network.passages[passage]!;
            const part = network.parts.get(id ?? '');
            // What passes either way is read as its course runs; a selector has no direction.
            const [up, down] = kind === 'plain' && part?.reversed ? [to, from] : [from, to];
            if (!passages.has(passage) || id === own || seen.has(next) || (kind !== 'valve' && at !== (direction === 'ways' ? up : down))) continue;
            if (part?.kind === 'hose' || part?.kind === 'tube') { found.add(part); continue; }
            if (network.tankPoints.has(next)) continue;
            seen.add(next);
            queue.push(next);
        }
    }
    return [...found];
}

interface Small {
    readonly id: Id;
    readonly bore: Measure;
    readonly pipe: Part;
    readonly consumers: readonly Id[];
    readonly rests: readonly Ground[];
    readonly at: 'at best' | 'at worst';
}

function fails({ boat }: View, { id, bore, pipe, consumers, rests, at }: Small): Verdict {
    const name = nameOf(boat, id);
    const enough = Math.ceil(fromSI(SHARE * pipe.bore!.si, 'mm') * 10 - 1e-6) / 10;
    return {
        outcome: 'fail', about: id, fact: 'bore', rests, ...(at === 'at worst' && { severity: 'advice' }),
        message: at === 'at worst' ? `${capital(name)} may have a bore under 80 % of that of ${pipe.name} beside it: ${bores(bore)} against ${bores(pipe.bore!)}, not both exact.`
            : `${capital(name)} has a bore of ${bores(bore)}, ${figure((bore.si / pipe.bore!.si) * 100, 2)} % of the ${bores(pipe.bore!)} of ${pipe.name} beside it.`,
        reason: `${listed(consumers)} ${consumers.length > 1 ? 'draw' : 'draws'} through it, and what it costs of the suction is lacking when the filters clog.`,
        advice: at === 'at worst' ? `Write the exact bores of ${name} and ${pipe.name}, once they are measured.` : `Fit one of at least ${figure(enough)} mm bore in its place.`,
        see: [{ id: pipe.id, why: 'the line beside it' }],
    };
}

const bores = ({ si, low, high, about }: Measure): string => `${about ? 'about ' : ''}${low !== undefined && high !== undefined ? `${figure(fromSI(low, 'mm'))} to ` : ''}${figure(fromSI(high ?? si, 'mm'))} mm`;
