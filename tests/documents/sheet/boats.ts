/** Boats and their calculation sheets for the tests. */
import { readFileSync, readdirSync } from 'node:fs';
import { calculationSheet } from '../../../src/documents/sheet/sheet';
import { sheetForms } from '../../../src/documents/sheet/forms';
import { quoter } from '../../../src/language/ask/quoter';
import { loadBoat } from '../../../src/language/load';
import { PLOVERWAKE } from './ploverwake';
import type { Computation } from './redo';

export const EXAMPLES = readdirSync(new URL('../../../examples/', import.meta.url)).sort();

export function exampleTexts(name: string): Record<string, string> {
    const folder = new URL(`../../../examples/${name}/`, import.meta.url);
    return Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).sort().map((file) => [file, readFileSync(new URL(file, folder), 'utf8')]));
}

/** The examples, and the boat for what none of them has. */
export const SHEETS: readonly (readonly [name: string, texts: Record<string, string>])[] = [...EXAMPLES.map((name) => [name, exampleTexts(name)] as const), ['ploverwake', { 'boat.orlop': PLOVERWAKE }]];

export interface Data {
    readonly boat: string;
    readonly computations: readonly (Omit<Computation, 'inputs'> & { readonly number: string; readonly notes: readonly string[]; readonly missing: readonly { readonly fact: string }[]; readonly inputs: readonly (Computation['inputs'][number] & { readonly from: { readonly kind: string; readonly words: string; readonly grade?: string; readonly id?: string } })[] })[];
    readonly taken: readonly string[];
    readonly missing: readonly { readonly fact: string; readonly settles: readonly string[] }[];
}

export async function formsOf(texts: Record<string, string>): Promise<ReturnType<typeof sheetForms> & { readonly data: Data }> {
    const loaded = await loadBoat(texts);
    const errors = loaded.problems.filter(({ severity }) => severity === 'error');
    if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('\n'));
    const textOf = (uri: string): string => texts[uri] ?? texts[uri.split('/').at(-1)!] ?? '';
    return sheetForms(calculationSheet(loaded.boat), quoter(loaded, textOf)) as ReturnType<typeof sheetForms> & { readonly data: Data };
}
