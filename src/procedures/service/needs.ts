/** What is to be in hand: tools from spanner sizes, parts and seals by position, fuel, cans and pads from the steps. */
import type { Id } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { volumeOf } from '../../analysis/volumes';
import { runsByTube } from './drains';
import type { Needs } from './plan';
import type { Work } from './recipes/recipe';
import type { Visit } from './visit';

/** A quarter more to flush, and three tenths over (the arithmetic of the trade): more than half as much again as the parts hold. */
const FLUSH = 1.25;
const OVER = 1.3;
/** Up to the next 100 mL, m³. */
const STEP = 1e-4;

/** Clean fuel for parts that are emptied and filled by hand, m³; undefined where what none of them holds is known. */
export function fuelFor(visit: Visit, emptied: readonly Id[]): number | undefined {
    const volumes = emptied.flatMap((id) => volumeOf(visit.boat, id) ?? []);
    if (volumes.length === 0) return undefined;
    return Math.ceil((volumes.reduce((sum, volume) => sum + volume, 0) * FLUSH * OVER) / STEP - 1e-9) * STEP;
}

/** Where nothing is poured in, what wets the new seals, m³: common practice. */
const WETS_SEALS = STEP;

const ALWAYS = ['card', 'rags', 'gloves', 'goggles', 'class-B extinguisher', 'lamp'];

export function needsOf(visit: Visit, works: readonly Work[], steps: readonly ServiceStep[], emptied: readonly Id[]): Needs {
    const cans = steps.flatMap((step) => (step.do === 'place' && step.thing === 'can' ? [{ under: step.part, ...(step.holds !== undefined && { holds: step.holds }) }] : []));
    const pads = steps.reduce((sum, step) => sum + (step.do === 'place' && step.thing === 'pads' ? step.count ?? 1 : 0), 0);
    const vents = new Set(steps.flatMap((step) => (step.do === 'bleed' || step.do === 'prove' ? [step.vent] : [])));
    const fuel = steps.some((step) => step.do === 'prefill') ? fuelFor(visit, emptied) : works.some(({ parts }) => parts.some(({ piece }) => /ring|washer|gasket|seal/.test(piece))) ? WETS_SEALS : undefined;
    const tools = [...ALWAYS, ...toolsFor(visit, steps, pads, cans.length), ...works.flatMap((work) => work.tools ?? [])];
    return {
        parts: merged(works.flatMap(({ parts }) => parts)), spanners: spannersFor(visit, vents), tools: [...new Set(tools)],
        ...(fuel !== undefined && { fuel }), ...(cans.length > 0 && { can: cans.reduce((sum, { holds = 0 }) => sum + holds, 0), cans }), ...(pads > 0 && { pads }),
    };
}

/** What the steps themselves ask for, each only where a step uses it. */
function toolsFor(visit: Visit, steps: readonly ServiceStep[], pads: number, cans: number): string[] {
    const has = (uses: (step: ServiceStep) => boolean): boolean => steps.some(uses);
    const opens = has(({ do: does }) => does === 'open' || does === 'hold' || does === 'remove');
    const counts = has((step) => step.do === 'hold' || step.do === 'start' || step.do === 'run' || step.do === 'wait' || (step.do === 'bleed' && step.expect?.in !== 'strokes'));
    const drains = has((step) => (step.do === 'open' || step.do === 'hold') && step.opening === 'drain');
    const levers = has((step) => step.do === 'prove' || (step.do === 'bleed' && step.driver.by === 'lever') || (step.do === 'fit' && step.pieces.length === 0 && visit.network.parts.get(step.part)?.kind === 'lift pump'));
    return [
        ...(pads > 0 ? [`${pads} ${pads === 1 ? 'pad' : 'pads'}`] : []), ...(cans > 0 ? [`${cans} drip ${cans === 1 ? 'can' : 'cans'}`] : []),
        ...(opens || has(({ do: does }) => does === 'bleed') ? ['metal can with a lid, for waste'] : []), ...(counts ? ['watch that shows seconds'] : []), ...(drains ? ['measure in mL'] : []),
        ...(has((step) => step.do === 'bleed' && runsByTube(visit, step)) ? ['clear tube that fits the bleed points'] : []), ...(has((step) => step.do === 'prefill') ? ['funnel with a fine filter'] : []),
        ...(levers ? ['tool to turn the crank by hand'] : []), ...(has((step) => step.do === 'clean') ? ['brush'] : []),
        ...(has((step) => (step.do === 'open' || step.do === 'hold') && step.opening === 'ports') ? ['strap wrench'] : []),
        ...(has((step) => (step.do === 'open' || step.do === 'hold') && step.opening === 'lid') ? ['what opens the lid (not stated)'] : []),
        ...(drains ? ['what opens the drain (not stated)'] : []),
    ];
}

/** The same piece of the same part once. */
function merged(parts: Needs['parts']): Needs['parts'] {
    const found = new Map<string, Needs['parts'][number]>();
    for (const one of parts) {
        const key = `${one.part} ${one.piece}`;
        const other = found.get(key);
        // One that is needed for certain outweighs one that only may be.
        if (!other || (other.ready !== undefined && one.ready === undefined)) found.set(key, one);
    }
    return [...found.values()];
}

/** Sizes of the bleed points that are opened, the smallest first. */
function spannersFor({ network }: Visit, vents: ReadonlySet<Id>): Needs['spanners'] {
    const found = new Map<number, Id[]>();
    for (const owner of [...network.parts.values(), ...network.consumers.values()]) for (const { id, spanner } of owner.vents) {
        if (spanner && vents.has(id)) found.set(spanner.si, [...(found.get(spanner.si) ?? []), id]);
    }
    return [...found].sort(([a], [b]) => a - b).map(([size, ids]) => ({ size, for: ids }));
}
