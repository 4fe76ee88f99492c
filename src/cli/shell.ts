/** What every command of the terminal program shares: reading the boat, printing and writing, the options, the exit codes. */
import { relative } from 'node:path';
import type { Command } from 'commander';
import { URI } from 'langium';
import { Temporal } from 'temporal-polyfill';
import type { View } from '../model/boat';
import { judge } from '../checks/judge';
import { printable, printableJson } from '../documents/procedures/safe';
import type { Report } from '../documents/findings/report';
import type { Document } from '../documents/place';
import { NotUnderstood } from '../language/ask/question';
import { loadBoat, type Loaded } from '../language/load';
import { reportOf } from '../language/report';
import { Told, readBoat, writeDocuments } from './files';

/** Exit codes, as the README tells them. */
export const EXIT = { clean: 0, findings: 1, text: 2, refused: 3, usage: 64 } as const;

export interface Output {
    readonly json?: boolean;
    readonly write?: string;
    readonly as?: string;
}

export async function load(path: string, { as, today }: { as?: string | undefined; today?: string }): Promise<{ loaded: Loaded; report: Report; texts: (uri: string) => string }> {
    const { folder, texts, shared } = readBoat(path);
    const loaded = await loadBoat(texts, { shared, view: viewOf(as) });
    const refits = loaded.boat.overlays.filter(({ kind }) => kind === 'refit').map(({ id }) => id);
    if (typeof loaded.boat.view === 'object' && !refits.includes(loaded.boat.view.after)) {
        throw new Told(`There is no refit called ${loaded.boat.view.after}. The boat can be read as ${['drawn', 'found', 'is', ...refits].join(', ')}.`);
    }
    const pathOf = (uri: string): string => URI.parse(uri).fsPath;
    const textOf = (uri: string): string => texts[pathOf(uri)] ?? shared[pathOf(uri)] ?? '';
    return { loaded, report: reportOf(loaded, textOf, (uri) => relative(folder, pathOf(uri)), judge(loaded.boat, today)), texts: textOf };
}

/** `--as drawn`, `--as found`, `--as is`, or the name of a refit. */
function viewOf(as: string | undefined): View {
    return as === undefined || as === 'is' ? 'as is' : as === 'drawn' || as === 'found' ? as : { after: as };
}

/** Names and words are the owner's: nothing in them may act on the terminal. */
export const print = (text: string): void => { process.stdout.write(printable(text)); };
export const printJson = (data: unknown): void => { process.stdout.write(`${printableJson(JSON.stringify(data, undefined, 2))}\n`); };
/** To a person, beside what is printed. */
export const tell = (text: string): void => { process.stderr.write(printable(text)); };

export function show(output: Output, text: string, data: unknown, ...pages: readonly Document[]): void {
    if (output.json) printJson(data); else print(text);
    if (output.write === undefined) return;
    tellWritten(writeDocuments(output.write, pages));
}

export function tellWritten(paths: readonly string[]): void {
    for (const path of paths) tell(`written: ${relative(process.cwd(), path)}\n`);
}

export const hasErrors = (report: Report): boolean => report.slips.some((slip) => slip.severity === 'error');
export const names = (value: string): string[] => value.split(',').map((name) => name.trim()).filter((name) => name !== '');

/** What was not understood is told like any other slip of the hand. */
export function understood<T>(read: () => T): T {
    try { return read(); } catch (error) { if (error instanceof NotUnderstood) throw new Told(error.message); throw error; }
}

/** Nothing that someone may act on is made from a text that was not understood in full. */
export class Slips extends Error {}

/** Slips in the text go to standard error before anything that was made from what could be read. */
export function tellSlips(report: Report): void {
    for (const { place, message } of report.slips) tell(`${place.file}:${place.line}:${place.column}: ${message}\n`);
}

export const shared = (command: Command): Command => command
    .argument('<boat>', 'the boat\'s folder')
    .option('--json', 'print for machines')
    .option('--write <folder>', 'also write the page into this folder')
    .option('--as <view>', 'the boat as drawn, as found, as it is, or after a refit: drawn, found, is, or the refit\'s name');

export const dated = (command: Command): Command => command.option('--on <date>', 'as of this day instead of today');

/** The day that was asked for, or today. */
export function dayOf(on: string | undefined): string {
    const day = on ?? Temporal.Now.plainDateISO().toString();
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || !isDay(day)) throw new Told(`${day} is not a day. Write it like 2026-03-01.`);
    return day;
}

function isDay(text: string): boolean {
    try { return Temporal.PlainDate.from(text).toString() === text; } catch { return false; }
}
