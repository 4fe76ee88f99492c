/** Single slips in a procedure: each is the procedure with one thing done wrong. */
import type { Boat } from '../../../src/model/boat';
import type { BleedStep, ServiceStep } from '../../../src/model/step';

export const SLIPS = [
    'step dropped', 'neighbours swapped', 'other tag', 'old seal', 'left open', 'warned too late', 'wrong driver', 'valve left', 'other position', 'nothing to catch', 'can too small', 'key left in',
] as const;
export type Slip = (typeof SLIPS)[number];

export interface Mutant { readonly slip: Slip; readonly what: string; readonly steps: readonly ServiceStep[] }

/** Others of its kind: what a hurried hand could take it for. */
function alike(boat: Boat, id: string): string[] {
    const part = boat.parts.find((one) => one.id === id);
    if (part) return boat.parts.filter((one) => one.id !== id && one.kind === part.kind && one.tag !== undefined).map((one) => one.id);
    const consumer = boat.consumers.find((one) => one.id === id);
    if (consumer) return boat.consumers.filter((one) => one.id !== id && one.kind === consumer.kind).map((one) => one.id);
    const vents = [...boat.parts, ...boat.consumers].flatMap((one) => one.vents.map((vent) => vent.id));
    return vents.includes(id) ? vents.filter((one) => one !== id) : [];
}

/** The same step with one name in it replaced by another of its kind. */
function renamed(boat: Boat, step: ServiceStep): ServiceStep[] {
    const fields = ['part', 'vent', 'engine', 'gauge', 'of'] as const;
    return fields.flatMap((field) => {
        const value = (step as unknown as Record<string, unknown>)[field];
        return typeof value === 'string' && step.do !== 'caution' && step.do !== 'log' ? alike(boat, value).map((other) => ({ ...step, [field]: other }) as ServiceStep) : [];
    });
}

function drivers(boat: Boat, step: BleedStep): BleedStep[] {
    const by = { 'hand primer': 'hand', 'lift pump': 'lever', 'electric primer': 'electric', 'electric pump': 'electric' } as const;
    return [
        ...boat.parts.flatMap((part) => (part.kind in by && part.id !== step.driver.part ? [{ by: by[part.kind as keyof typeof by], part: part.id }] : [])),
        ...boat.tanks.filter((tank) => tank.id !== step.driver.part).map((tank) => ({ by: 'gravity' as const, part: tank.id })),
    ].map((driver) => ({ ...step, driver }));
}

export function mutantsOf(boat: Boat, steps: readonly ServiceStep[]): Mutant[] {
    const made: Mutant[] = [];
    const put = (slip: Slip, i: number, ...instead: ServiceStep[]): void => {
        made.push({ slip, what: `${slip} at ${i + 1}: ${JSON.stringify(steps[i])}${instead.length > 0 ? ` -> ${JSON.stringify(instead)}` : ''}`, steps: steps.toSpliced(i, 1, ...instead) });
    };
    steps.forEach((step, i) => {
        const next = steps[i + 1];
        put(step.do === 'close' ? 'left open' : step.do === 'place' ? 'nothing to catch' : 'step dropped', i);
        if (next && step.do !== 'caution') made.push({ slip: 'neighbours swapped', what: `swapped ${i + 1}: ${JSON.stringify(step)} with ${JSON.stringify(next)}`, steps: steps.toSpliced(i, 2, next, step) });
        for (const other of renamed(boat, step)) put('other tag', i, other);
        if (step.do === 'fit' && !step.again) {
            const seals = boat.parts.find((part) => part.id === step.part)?.seals ?? [];
            for (const seal of step.pieces.filter((piece) => seals.includes(piece))) {
                const rest = step.pieces.filter((piece) => piece !== seal);
                const kept: ServiceStep[] = rest.length > 0 ? [{ ...step, pieces: rest }] : [];
                put('old seal', i, ...kept);
                put('old seal', i, ...kept, { ...step, pieces: [seal], again: true });
            }
        }
        if (step.do === 'caution') made.push({ slip: 'warned too late', what: `late: ${JSON.stringify(step)}`, steps: [...steps.toSpliced(i, 1), step] });
        if (step.do === 'bleed') for (const other of drivers(boat, step)) put('wrong driver', i, other);
        if (step.do === 'set') {
            const part = boat.parts.find((one) => one.id === step.part);
            const positions = part?.kind === 'shutoff' ? ['open', 'shut'] : part?.positions.map((one) => one.name) ?? [];
            const others = positions.filter((position) => position !== step.position);
            for (const position of others) put('other position', i, { ...step, position });
            for (const position of others) made.push({ slip: 'valve left', what: `left: ${step.part} ${position}`, steps: [...steps, { do: 'set', part: step.part, position }] });
        }
        if (step.do === 'place' && step.thing === 'can' && step.holds !== undefined) put('can too small', i, { ...step, holds: step.holds / 100 });
        if (step.do === 'stop' && step.keyOut) put('key left in', i, { do: 'stop', part: step.part });
    });
    return made;
}
