/** Boats and procedures that the laws are tried on: the gold procedure on Ottilwake with one step changed, and small boats with small procedures. */
import { readFileSync, readdirSync } from 'node:fs';
import { expect } from 'vitest';
import { loadBoat } from '../../src/language/load';
import type { Boat } from '../../src/model/boat';
import type { ServiceStep } from '../../src/model/step';
import { execute, withCautions } from '../../src/procedures/service/execute';
import type { Program } from '../../src/procedures/service/program';

const loaded = new Map<string, Promise<Boat>>();

/** A boat of the examples by the name of its folder, or a text. */
export function boatOf(text: string): Promise<Boat> {
    const found = loaded.get(text) ?? read(text);
    loaded.set(text, found);
    return found;
}

async function read(text: string): Promise<Boat> {
    const folder = new URL(`../../examples/${text}/`, import.meta.url);
    const texts = /\s/.test(text) ? { 'boat.orlop': text } : Object.fromEntries(readdirSync(folder).filter((name) => name.endsWith('.orlop')).map((name) => [name, readFileSync(new URL(name, folder), 'utf8')]));
    const { boat, problems } = await loadBoat(texts);
    expect(problems).toEqual([]);
    return boat;
}

/** Every law that is broken, as `law part, part` with the number of its step from 1, or `end`. */
export function lawsOf(boat: Boat, program: Program): string[] {
    const { broken, atEnd } = execute(boat, program);
    return [...broken.flatMap((laws, i) => laws.map(({ law, parts }) => `${i + 1} ${law}: ${parts.join(', ')}`)), ...atEnd.map(({ law, parts }) => `end ${law}: ${parts.join(', ')}`)];
}

/** Only which. */
export const names = (boat: Boat, program: Program): string[] => [...new Set(lawsOf(boat, program).map((words) => / ([a-z-]+):/.exec(words)![1]!))];

export const steps = (program: Program, change: (steps: ServiceStep[]) => readonly ServiceStep[]): Program => ({ ...program, steps: change([...program.steps]) });

/** Left out: every step that is like this one. */
export const without = (program: Program, like: Partial<ServiceStep>): Program => {
    const after = steps(program, (all) => all.filter((step) => !isLike(step, like)));
    expect(after.steps.length).toBeLessThan(program.steps.length);
    return after;
};

/** The first step like this one changed. */
export const changed = (program: Program, like: Partial<ServiceStep>, to: Partial<ServiceStep>): Program => steps(program, (all) => {
    const at = indexOf(all, like);
    return all.with(at, { ...all[at]!, ...to } as ServiceStep);
});

/** More steps put in before the first that is like this one. */
export const before = (program: Program, like: Partial<ServiceStep>, ...more: ServiceStep[]): Program => steps(program, (all) => all.toSpliced(indexOf(all, like), 0, ...more));

/** The number from 1 of the first step like this one. */
export const number = (program: Program, like: Partial<ServiceStep>): number => indexOf(program.steps, like) + 1;

function indexOf(all: readonly ServiceStep[], like: Partial<ServiceStep>): number {
    const at = all.findIndex((step) => isLike(step, like));
    expect(at).toBeGreaterThanOrEqual(0);
    return at;
}

const isLike = (step: ServiceStep, like: Partial<ServiceStep>): boolean => Object.entries(like).every(([key, value]) => JSON.stringify((step as unknown as Record<string, unknown>)[key]) === JSON.stringify(value));

/** With its cautions. */
export const program = (boat: Boat, written: readonly ServiceStep[], more: Partial<Program> = {}): Program => withCautions(boat, { jobs: [], starts: 'RUN', ends: 'RUN', steps: written, ...more });

/** Pads and a can under a part, the bilge pump off, the key out. */
export const ready = (engine: string, ...parts: string[]): ServiceStep[] => [
    { do: 'stop', part: engine, keyOut: true }, { do: 'switch', thing: 'bilge pump', to: 'off' },
    ...parts.flatMap((part): ServiceStep[] => [{ do: 'place', thing: 'pads', part }, { do: 'place', thing: 'can', part, holds: 5e-3 }]),
];

/** Looked at, the bilge pump on, started, run and stopped. */
export const finish = (engine: string): ServiceStep[] => [
    { do: 'look', piece: 'all joints' }, { do: 'start', engine, tries: 1, seconds: 10 }, { do: 'run', part: engine, seconds: 300 }, { do: 'stop', part: engine }, { do: 'switch', thing: 'bilge pump', to: 'auto' },
];
