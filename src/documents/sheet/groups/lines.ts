/** What the lines hold: each pipe, and the whole way from the tank to each consumer. */
import { isPipe } from '../../../analysis/topology/network';
import type { Consumer, Fitting, Id, Part } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { estimateOf, sum } from '../../../analysis/estimate';
import { inOrder } from '../../../analysis/topology/paths';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { nameOf, pointsWithoutFuel, type View } from '../../../checks/check';
import { boreMissing, distinct, heightsMissing, holdsMissing, lengthMissing } from '../../../analysis/missing';
import { listed } from '../../../model/words';
import { byName, carried, input, within, type Input, type Working } from '../working';
import { sub } from './tanks';

const SOURCE = 'geometry of a cylinder';
/** Of these what they hold counts, and is missed when nobody wrote it. */
const HOLDS: ReadonlySet<Part['kind']> = new Set(['filter', 'strainer', 'radiator', 'hand primer', 'electric primer', 'lift pump', 'electric pump']);

export function lineWorkings(view: View): Working[] {
    const other = pointsWithoutFuel(view);
    const carriesFuel = (id: Id): boolean => !other.has(view.network.index.get(`${id}:in`)!);
    const services = new Map(view.boat.courses.map(({ id, service }) => [id, service]));
    const liquid = (part: Part): boolean => { const service = part.course === undefined ? undefined : services.get(part.course); return service !== 'vent' && service !== 'fill'; };
    const dips = view.boat.tanks.filter(({ carries = 'diesel' }) => carries === 'diesel').flatMap(({ fittings }) => fittings.filter(({ kind }) => kind === 'pickup'));
    const pipes = view.boat.parts.filter((part) => isPipe(part) && carriesFuel(part.id) && liquid(part));
    const wholes = view.boat.consumers.filter(({ id }) => carriesFuel(id)).sort((a, b) => byName(a.id, b.id)).flatMap((consumer) => wholeWorkings(view, consumer));
    return [...[...dips.map(dipWorking), ...pipes.map((pipe) => pipeWorking(pipe))].sort((a, b) => byName(a.id, b.id)), ...wholes];
}

export function pipeWorking(pipe: Part): Working {
    const { id, name, bore, length } = pipe;
    const value = bore && length && within([estimateOf(bore), estimateOf(length)], (d, l) => (Math.PI * d! ** 2 * l!) / 4);
    return {
        id: `volume ${id}`, about: id, what: `What ${name} holds`, formula: 'V = π × D² × L / 4', source: SOURCE,
        inputs: [...(bore ? [input('D', 'bore', bore, 'mm', { about: id, fact: 'bore' })] : []), ...(length ? [input('L', 'length', length, 'm', { about: id, fact: 'length' })] : [])],
        steps: [], ...(value && { result: { symbol: 'V', value, unit: 'mL' } }), notes: [], missing: [...(bore ? [] : [boreMissing(pipe)]), ...(length ? [] : [lengthMissing(pipe, 'its two ends')])],
    };
}

/** The tube of a pickup, from its mouth to where it leaves the tank. */
export function dipWorking({ id, bore, mouth, top }: Fitting): Working {
    const [low, high] = [mouth?.up, top?.up];
    const value = bore && low && high && within([estimateOf(bore), estimateOf(low), estimateOf(high)], (d, z, z1) => (Math.PI * d! ** 2 * Math.max(0, z1! - z!)) / 4);
    const length = low && high && Math.max(0, high.si - low.si);
    return {
        id: `volume ${id}`, about: id, what: `What the tube of ${id} holds`, formula: 'V = π × D² × L / 4', source: SOURCE,
        inputs: [
            ...(bore ? [input('D', 'bore', bore, 'mm', { about: id, fact: 'bore' })] : []), ...(high ? [input('z₁', 'top, above the datum', high, 'mm', { about: id, fact: 'top' })] : []),
            ...(low ? [input('z', 'mouth, above the datum', low, 'mm', { about: id, fact: 'mouth' })] : []),
        ],
        steps: length === undefined ? [] : [{ symbol: 'L', what: 'length of the tube, taken as straight and upright', formula: 'L = max(0, z₁ − z)', value: length, unit: 'm' }],
        ...(value && { result: { symbol: 'V', value, unit: 'mL' } }), notes: [],
        missing: [...(bore ? [] : [boreMissing({ id, name: id })]), ...(low && high ? [] : [heightsMissing(id, id)])],
    };
}

/** One for each way that the liquid takes in some line-up for running. */
function wholeWorkings(view: View, consumer: Consumer): Working[] {
    const ways = new Map<string, { readonly ids: readonly Id[]; readonly lineUps: ResolvedLineUp[] }>();
    for (const lineUp of [...view.runs].sort((a, b) => byName(a.id, b.id))) {
        if (lineUp.stopped.includes(consumer.id)) continue;
        const ids = inOrder(view.running(lineUp), consumer.id, 'to');
        const key = [...ids].sort().join(' ');
        if (ids.length === 0) continue;
        const known = ways.get(key);
        if (known) known.lineUps.push(lineUp); else ways.set(key, { ids, lineUps: [lineUp] });
    }
    return [...ways.values()].map(({ ids, lineUps }) => wholeWorking(view, consumer, ids, lineUps.map(({ id }) => id)));
}

function wholeWorking(view: View, consumer: Consumer, ids: readonly Id[], lineUps: readonly Id[]): Working {
    const { boat, network } = view;
    const fittings = new Map(boat.tanks.flatMap((tank) => tank.fittings).map((fitting) => [fitting.id, fitting]));
    const inputs: Input[] = [];
    const missing: MissingFact[] = [];
    const left: string[] = [];
    const next = (): string => `V${sub(inputs.length + 1)}`;
    const add = (working: Working, what: string): void => { inputs.push(...carried(next(), what, working)); missing.push(...working.missing); };
    for (const id of [...ids, consumer.id]) {
        const [part, fitting] = [network.parts.get(id), fittings.get(id)];
        const name = nameOf(boat, id);
        const holds = part?.holds ?? (id === consumer.id ? consumer.holds : undefined);
        if (fitting) { if (fitting.kind === 'pickup') add(dipWorking(fitting), name); } else if (part && isPipe(part)) add(pipeWorking(part), name);
        else if (holds) inputs.push(input(next(), name, holds, 'mL', { about: id, fact: consumer.id === id && consumer.injection ? 'injection holds' : 'holds' }));
        else if (id === consumer.id || (part && HOLDS.has(part.kind))) missing.push(holdsMissing({ id, name }));
        else if (part && part.kind !== 'tee') left.push(name);
    }
    const whole = missing.length === 0 && inputs.length > 0;
    return {
        id: `volume ${consumer.id} supply, ${lineUps.join(', ')}`, about: consumer.id, what: `What the way from the tank to ${consumer.id} holds, with ${consumer.id} itself`,
        formula: `V = ${inputs.map(({ symbol }) => symbol).join(' + ') || 'the sum of what each part holds'}`, source: 'sum', inputs, steps: [], where: `line-up ${listed(lineUps)}`,
        ...(whole && { result: { symbol: 'V', value: sum(inputs.map(({ value }) => value)), unit: 'mL' } }),
        notes: left.length > 0 ? [`What ${listed(left)} ${left.length > 1 ? 'hold' : 'holds'} is not said, and left out.`] : [], missing: distinct(missing),
    };
}
