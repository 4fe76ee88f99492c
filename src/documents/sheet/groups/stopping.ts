/** How long an engine runs on with the valves at the tanks shut, and how long it may be cranked before a wet exhaust floods. */
import type { Consumer, Id } from '../../../model/boat';
import { scaled } from '../../../analysis/estimate';
import { floodTime } from '../../../analysis/time/exhaust';
import { runOn } from '../../../analysis/time/run-on';
import { partsBefore } from '../../../analysis/topology/paths';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { burnsFuel, nameOf, type View } from '../../../checks/check';
import { distinct } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { listed } from '../../../model/words';
import { byName, carried, input, type Input, type Working } from '../working';
import { fullOf, read } from './curves';
import { dipWorking, pipeWorking } from './lines';
import { sub } from './tanks';

export const stoppingWorkings = (view: View): Working[] => view.boat.consumers.filter((consumer) => burnsFuel(view, consumer) && consumer.kind !== 'heater').flatMap((consumer) => [
    ...runWorkings(view, consumer), ...crankWorkings(consumer),
]);

/** In the first line-up for running in which it runs; the shutoffs next to the tanks are shut. */
function runWorkings(view: View, consumer: Consumer): Working[] {
    const { boat } = view;
    const lineUp = [...view.runs].sort((a, b) => byName(a.id, b.id)).find(({ stopped }) => !stopped.includes(consumer.id));
    const shut = lineUp ? atTanks(view, consumer.id, lineUp) : [];
    if (!lineUp || shut.length === 0) return [];
    const { fedBy, parts, by, seconds, held, lacks } = runOn(boat, consumer, lineUp.positions, shut);
    const shared = { id: `run-on ${consumer.id}, ${lineUp.id}`, about: consumer.id, what: `How long ${consumer.id} runs on, at most, with ${listed(shut)} shut`, source: 'volume by flow', where: `line-up ${lineUp.id}, full speed` };
    if (fedBy.length > 0) return [{ ...shared, formula: 't = V / Q', inputs: [], steps: [], notes: [`It runs on: ${listed(fedBy)} ${fedBy.length > 1 ? 'feed' : 'feeds'} it by another way.`], missing: [] }];
    const before: Working[] = [];
    const inputs: Input[] = [];
    for (const id of [...parts].sort(byName)) {
        const symbol = `V${sub(inputs.length + 1)}`;
        const part = view.network.parts.get(id);
        const fitting = boat.tanks.flatMap(({ fittings }) => fittings).find((other) => other.id === id);
        const working = part?.kind === 'hose' || part?.kind === 'tube' ? pipeWorking(part) : fitting ? dipWorking(fitting) : undefined;
        const holds = part?.holds ?? (id === consumer.id ? consumer.holds : undefined);
        if (working) { before.push(working); inputs.push(...carried(symbol, nameOf(boat, id), working)); } else if (holds) inputs.push(input(symbol, nameOf(boat, id), holds, 'mL', { about: id, fact: id === consumer.id && consumer.injection ? 'injection holds' : 'holds' }));
    }
    const at = fullOf(consumer);
    const flow = at ? read(consumer, by, at, 'Q') : { inputs: [], before: [] };
    return [...before, ...flow.before, {
        ...shared, formula: 't = V / Q', inputs: [...inputs, ...flow.inputs], ...(seconds && { result: { symbol: 't', value: seconds, unit: 'min' } }), missing: distinct(lacks.map((lack) => missingInTime(boat, lack))),
        steps: held !== undefined && seconds ? [{ symbol: 'V', what: `all that is held behind ${listed(shut)}`, formula: `V = ${inputs.map(({ symbol }) => symbol).join(' + ')}`, value: held, unit: 'mL' }] : [],
        notes: [by === 'draws' ? 'It sends back what it does not burn, so it uses up all that it draws.' : 'Its return joins its own supply, so it uses up only what it burns.', 'It stops sooner: nothing comes after what is drawn away.'],
    }];
}

/** Of the shutoffs on its supply those with no other before them. */
function atTanks(view: View, consumer: Id, lineUp: ResolvedLineUp): Id[] {
    const linedUp = view.running(lineUp);
    const shutoffs = (point: Id): Id[] => [...partsBefore(linedUp, point)].filter((id) => view.network.parts.get(id)?.kind === 'shutoff');
    return shutoffs(`${consumer}:in`).filter((id) => shutoffs(`${id}:in`).every((other) => other === id)).sort(byName);
}

function crankWorkings(consumer: Consumer): Working[] {
    const { id, exhaust } = consumer;
    if (exhaust?.kind !== 'wet') return [];
    const { mufflerFree, rawWater, cranks } = exhaust;
    const flooded = floodTime(consumer);
    const missing = [
        ...(mufflerFree ? [] : [{ about: id, fact: `how much the muffler of ${id} takes`, how: 'ask its maker for what it holds above the water that rests in it, and write `exhaust wet   muffler free 2.0 L`' }]),
        ...(rawWater ? [] : [{ about: id, fact: `what the raw-water pump of ${id} moves`, how: 'take it from the maker\'s data, and write `raw water 25 L/min at 3600 rpm`' }]),
        ...(cranks ? [] : [{ about: id, fact: `how fast the starter turns ${id}`, how: 'take it from the maker\'s data, and write `cranks 200 rpm`' }]),
    ];
    // Where it only says that it is wet, nobody asks.
    if (missing.length === 3) return [];
    return [{
        id: `cranking ${id}`, about: id, what: `How long ${id} may be cranked before the water is drained from its muffler`, formula: 'B = t / 2', source: 'volume by flow; half of it is used (trade practice)', where: 'in all, while it does not start',
        inputs: [
            ...(mufflerFree ? [input('V', 'free space of the muffler', mufflerFree, 'L', { about: id, fact: 'exhaust muffler free' })] : []),
            ...(rawWater ? [input('Q', 'what the raw-water pump moves', rawWater.value, 'L/min', { about: id, fact: 'exhaust raw water' }), input('n', 'at', rawWater.at, 'rpm', { about: id, fact: 'exhaust raw water' })] : []),
            ...(cranks ? [input('c', 'cranking speed', cranks, 'rpm', { about: id, fact: 'exhaust cranks' })] : []),
        ],
        steps: flooded ? [{ symbol: 't', what: 'until it is full and water comes back to the engine', formula: 't = V / (Q × c / n)', value: flooded.si, unit: 's' }] : [],
        ...(flooded && { result: { symbol: 'B', value: scaled(flooded, 0.5), unit: 's' } }), missing, notes: ['A raw-water pump moves in proportion to its speed.'],
    }];
}
