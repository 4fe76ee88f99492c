/** Filters: what flows through each against what it is rated for, how long its element lasts, and what is left in the fuel behind them. */
import type { Consumer, Part } from '../../../model/boat';
import { estimateOf, exactly, over, sum, type Estimate } from '../../../analysis/estimate';
import { behindFilters, codeWords, countsOf, readCode, SIZES } from '../../../analysis/filtration/cleanliness';
import { DIRT, lifeOf, RETENTION } from '../../../analysis/filtration/life';
import { elementOf, testedBefore } from '../../../analysis/filtration/on-board';
import { BASE } from '../../../analysis/flow/density';
import { grossFlow } from '../../../analysis/flow/demand';
import { fluidAt } from '../../../analysis/flow/fluid';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { partsBefore } from '../../../analysis/topology/paths';
import { burnsFuel, type View } from '../../../checks/check';
import { distinct, drawsMissing, ratedMissing } from '../../../analysis/missing';
import { drawnThrough } from '../../../checks/rules/filter-flow';
import { TIMES } from '../../../checks/rules/filter-oversize';
import { fromSI } from '../../../model/units';
import { capital, figure, listed } from '../../../model/words';
import { byName, input, type Input, type Working } from '../working';
import { fullOf, read, type At } from './curves';
import { sub } from './tanks';

export const filterWorkings = (view: View): Working[] => [
    ...view.boat.parts.filter(({ kind }) => kind === 'filter').flatMap((filter) => [...flowWorkings(view, filter), ...lifeWorkings(view, filter)]),
    ...view.boat.consumers.filter((consumer) => burnsFuel(view, consumer)).flatMap((consumer) => cleanWorkings(view, consumer)),
];

function flowWorkings(view: View, filter: Part): Working[] {
    const { id, name, rated, separatesWater } = filter;
    const { all, alone } = drawnThrough(view, filter);
    if (all.length === 0) return [];
    // Of filters side by side one may yet have to carry all of it.
    const least = (group: readonly Consumer[]): number => group.reduce((total, consumer) => total + grossFlow(consumer).least, 0);
    const group = [...(alone.length > 0 ? alone : [all])].sort((a, b) => least(b) - least(a))[0]!;
    const several = group.length > 1;
    const inputs = group.flatMap((consumer, i): Input[] => {
        const { least: si, most } = grossFlow(consumer);
        const drawn = consumer.draws.some(({ value }) => (value.high ?? value.si) === si);
        return si > 0 ? [{ symbol: `Q${several ? sub(i + 1) : ''}`, what: `what ${consumer.id} draws at most`, value: { si, least: si, most: most ?? si }, unit: 'L/h', from: { about: consumer.id, fact: drawn ? 'draws' : 'burns' } }] : [];
    });
    const missing = distinct([...group.filter((consumer) => grossFlow(consumer).most === undefined).map(drawsMissing), ...(rated ? [] : [ratedMissing(filter)])]);
    const known = group.every((consumer) => grossFlow(consumer).most !== undefined);
    const symbols = inputs.map(({ symbol }) => symbol).join(' + ');
    const value = sum(inputs.map((one) => one.value));
    const beyond = inputs.filter((one) => one.value.least < one.value.most).length > 0 ? ['At full speed more may be drawn than is written for less: up to in proportion to the speed.'] : [];
    const side = alone.length === 0 ? ['It stands beside another filter: it is told as if it had to carry all.'] : [];
    const flow: Working = {
        id: `flow ${id}`, about: id, what: `The greatest gross flow through ${name}`, formula: `G = ${symbols || 'Q'}`, source: 'what is drawn, not what is burnt', inputs, steps: [], rule: 'FILTER-FLOW', missing, notes: [...beyond, ...side],
        ...(known && { result: { symbol: 'G', value, unit: 'L/h' } }), ...(rated && { limit: { value: exactly(rated.low ?? rated.si), unit: 'L/h', sense: 'at most' as const, from: { about: id, fact: 'rated' } } }),
    };
    const share = rated && known ? over(estimateOf(rated), value) : undefined;
    if (!separatesWater || !rated || !share) return [flow];
    return [flow, {
        id: `oversize ${id}`, about: id, what: `How many times the greatest gross flow ${name} is rated for`, formula: 'O = r / G', source: 'definition', steps: [], result: { symbol: 'O', value: share, unit: '1' }, rule: 'FILTER-OVERSIZE', notes: [], missing: [],
        inputs: [input('r', 'what it is rated for', rated, 'L/h', { about: id, fact: 'rated' }), { symbol: 'G', what: 'the greatest gross flow', value, unit: 'L/h', from: { step: flow.id } }],
        limit: { value: exactly(TIMES), unit: '1', sense: 'at most', from: { cited: 'an opinion in the trade, of filters that throw the water out by the speed of the fuel' } },
    }];
}

/** Engines at the fastest speed that is written for the vessel, all else at full. */
function cruising({ boat }: View, consumer: Consumer): At | undefined {
    const speed = [...boat.vessel.speeds].sort((a, b) => b.at.si - a.at.si)[0]?.at.si;
    return consumer.kind === 'engine' && speed !== undefined && speed > 0 ? { speed, from: { about: 'vessel', fact: 'speed' } } : fullOf(consumer);
}

const firstRun = (view: View, served: (lineUp: ResolvedLineUp) => boolean): ResolvedLineUp | undefined => [...view.runs].sort((a, b) => byName(a.id, b.id)).find(served);

function lifeWorkings(view: View, filter: Part): Working[] {
    const { boat } = view;
    const { id, name, dirt: capacity, beta } = filter;
    const through = (lineUp: ResolvedLineUp): Consumer[] => boat.consumers.filter((consumer) => burnsFuel(view, consumer) && !lineUp.stopped.includes(consumer.id) && partsBefore(view.running(lineUp), `${consumer.id}:in`).has(id));
    const lineUp = firstRun(view, (run) => through(run).length > 0);
    const element = lineUp && elementOf(boat, id, lineUp);
    if (!lineUp || !element || !capacity) return [];
    const consumers = through(lineUp);
    const curve = (which: 'draws' | 'burns', symbol: string): ReturnType<typeof read>[] => consumers.map((consumer, i) => { const at = cruising(view, consumer); return at ? read(consumer, which, at, `${symbol}${consumers.length > 1 ? sub(i + 1) : ''}`) : { inputs: [], before: [] }; });
    const [draws, burns] = [curve('draws', 'Q'), curve('burns', 'b')];
    const total = (all: readonly ReturnType<typeof read>[]): Estimate | undefined => (all.every(({ inputs }) => inputs.length > 0) ? sum(all.flatMap(({ inputs }) => inputs.map(({ value }) => value))) : undefined);
    const measured = (value: Estimate): { si: number; low: number; high: number } => ({ si: value.si, low: value.least, high: value.most });
    const [drawn, burnt] = [total(draws), total(burns)];
    const fluid = fluidAt(boat.vessel, 'diesel', BASE);
    const dirt = boat.vessel.fuel.dirt;
    const density: Estimate = { si: fluid.density, least: fluid.lightest, most: fluid.heaviest };
    const life = drawn && lifeOf(element, { drawn: measured(drawn), ...(burnt && { burnt: measured(burnt) }), ...(dirt && { dirt }), density: measured(density) });
    const shared = { about: id, source: 'the dirt that its maker says it holds, by that in the fuel', where: `line-up ${lineUp.id}, ${listed(consumers.map((consumer) => consumer.id))} at the speed below` };
    const [short, long] = ['What comes back is taken as dirty again as the tank. Dirt that lies in the tank comes on top.', 'What comes back is taken as clean, so that only what is burnt brings new dirt. Dirt that lies in the tank comes on top.'];
    if (!life) return [{ ...shared, id: `life ${id}, returned dirty`, what: `How long the element of ${name} lasts`, formula: 't = C / (d × ρ × e) / Q', inputs: [], steps: [], notes: drawn ? ['The figures that are written give no life.'] : [], missing: drawn ? [] : distinct(consumers.filter((_, i) => draws[i]!.inputs.length === 0).map(drawsMissing)) }];
    const common: Input[] = [
        input('C', 'dirt that it holds', capacity, 'g', { about: id, fact: 'dirt' }),
        dirt ? input('d', 'dirt in the fuel', dirt, 'mg/kg', { about: 'vessel', fact: 'fuel dirt' }) : { symbol: 'd', what: 'dirt in the fuel', value: estimateOf(DIRT), unit: 'mg/kg', from: { taken: 'the most that EN 590 allows; clean fuel carries 10 or less, and dirt that lies in the tank comes on top' } },
        { symbol: 'ρ', what: 'density of the fuel at 15 °C', value: density, unit: 'kg/m3', from: boat.vessel.fuel.density ? { about: 'vessel', fact: 'fuel density' } : { taken: fluid.taken[0] ?? 'by its grade' } },
        ...(beta ? [input('β', 'particles that come for one that goes through', beta.si, '1', { about: id, fact: 'beta' })] : [{ symbol: 'e', what: 'share of the dirt that it holds back', value: RETENTION, unit: '%', from: { taken: '95 % by mass (80 to 100 %; no source)' } }]),
    ];
    const steps: Working['steps'] = [
        ...(beta ? [{ symbol: 'e', what: 'share of the dirt that it holds back, as of the particles of its beta', formula: 'e = (β − 1) / β', value: (beta.si - 1) / beta.si, unit: '%' }] : []),
        { symbol: 'V', what: 'fuel that fills it with dirt', formula: 'V = C / (d × ρ × e)', value: life.volume.si, unit: 'm3' },
    ];
    const by = (all: readonly ReturnType<typeof read>[]): string => { const symbols = all.flatMap(({ inputs }) => inputs.map(({ symbol }) => symbol)); return symbols.length > 1 ? `(${symbols.join(' + ')})` : symbols[0]!; };
    const notes = [...(element.follows ? ['What the filters before it hold is not taken off, so it lasts longer than this.'] : []), ...(beta ? ['A beta is measured with test dust: what is finer than it passes is not held, and makes it last longer.'] : [])];
    return [
        ...draws.flatMap(({ before }) => before), { ...shared, id: `life ${id}, returned dirty`, what: `How long the element of ${name} lasts, the shorter bound`, formula: `t = V / ${by(draws)}`, inputs: [...common, ...draws.flatMap(({ inputs }) => inputs)], steps, result: { symbol: 't', value: life.shortest, unit: 'h' }, notes: [short, ...notes], missing: [] },
        ...(life.longest ? [...burns.flatMap(({ before }) => before), { ...shared, id: `life ${id}, returned clean`, what: `How long the element of ${name} lasts, the longer bound`, formula: `t = V / ${by(burns)}`, inputs: [...common, ...burns.flatMap(({ inputs }) => inputs)], steps, result: { symbol: 't', value: life.longest, unit: 'h' }, notes: [long, ...notes], missing: [] }] : []),
    ];
}

/** Where the cleanliness of the fuel is written, and a filter says what it holds of a size. */
function cleanWorkings(view: View, consumer: Consumer): Working[] {
    const { boat } = view;
    const { cleanliness } = boat.vessel.fuel;
    const code = cleanliness === undefined ? undefined : readCode(cleanliness);
    const lineUp = firstRun(view, ({ stopped }) => !stopped.includes(consumer.id));
    if (!code || !lineUp) return [];
    const filters = testedBefore(boat, consumer.id, lineUp);
    const behind = behindFilters(code, filters);
    const micron = (size: number): string => `${figure(fromSI(size, 'um'))} µm`;
    const silent = behind.filter(({ by }) => by.length === 0).map(({ size }) => micron(size));
    const shared = { about: consumer.id, source: 'beta as its maker tests it; the table of ISO 4406 as makers print it', where: `line-up ${lineUp.id}, fuel of ${codeWords(code)}` };
    const notes = [...(silent.length > 0 ? [`Of particles from ${listed(silent)} on no filter that all of its fuel passes says anything: nothing is told of them.`] : []), 'It is the best case: on board flow and dust are not those of the test.'];
    const told = behind.flatMap(({ size, by, upTo, number }, i): Working[] => {
        const before = code[i] && countsOf(code[i])?.upTo;
        if (upTo === undefined || before === undefined || !number) return [];
        return [{
            ...shared, id: `behind the filters of ${consumer.id}, ${micron(SIZES[i]!)}`, what: `Particles of ${micron(size)} and more in a millilitre behind the filters of ${consumer.id}, at most`, formula: `n = N / ${by.length > 1 ? `(${by.map((_, k) => `β${sub(k + 1)}`).join(' × ')})` : 'β₁'}`, steps: [], result: { symbol: 'n', value: exactly(upTo), unit: '1' }, missing: [],
            inputs: [input('N', `as many at most in the fuel, scale number ${code[i]!.number}`, before, '1', { about: 'vessel', fact: 'fuel cleanliness' }), ...by.map((at, k) => input(`β${sub(k + 1)}`, `particles that come to ${filters[at]!.id} for one that goes through`, filters[at]!.beta, '1', { about: filters[at]!.id, fact: 'beta' }))],
            notes: [`Scale number ${number.sign ?? ''}${number.number}.`, ...notes],
        }];
    });
    if (told.length > 0 || filters.length === 0) return told;
    return [{ ...shared, id: `behind the filters of ${consumer.id}`, what: `Particles behind the filters of ${consumer.id}`, formula: 'n = N / β', inputs: [], steps: [], notes: notes.map(capital), missing: [] }];
}
