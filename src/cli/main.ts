/** The terminal program: `orlop check`, `orlop ask`, `orlop bleed`, `orlop due`, `orlop sheet`, `orlop reference`. */
import { relative } from 'node:path';
import { Command, CommanderError } from 'commander';
import { URI } from 'langium';
import { Temporal } from 'temporal-polyfill';
import type { View } from '../model/boat';
import { answerData, answerPage, answerText } from '../documents/answers/answer';
import { answer } from '../documents/answers/answers';
import { ANSWER_SCHEMA } from '../documents/answers/schema';
import { duePlan } from '../analysis/upkeep/due';
import { refusalText, sheetData, sheetPage, sheetText } from '../documents/bleed/sheet';
import { reportData, reportPage, reportText, worst, type Report } from '../documents/findings/report';
import type { Document } from '../documents/place';
import { sheetForms } from '../documents/sheet/forms';
import { CALCULATIONS_SCHEMA } from '../documents/sheet/schema';
import { calculationSheet } from '../documents/sheet/sheet';
import { dueData, duePage, dueText } from '../documents/upkeep/due-list';
import { NotUnderstood, readQuestion } from '../language/ask/question';
import { quoter } from '../language/ask/quoter';
import { loadBoat, type Loaded } from '../language/load';
import { PAGE_NAMES, referencePages } from '../language/reference/pages';
import { reportOf } from '../language/report';
import { planBleed } from '../procedures/bleed';
import { Told, readBoat, writeDocuments } from './files';
import { judge } from '../checks/judge';

/** Exit codes, as the README tells them. */
const EXIT = { clean: 0, findings: 1, text: 2, refused: 3, usage: 64 } as const;

interface Output {
    readonly json?: boolean;
    readonly write?: string;
    readonly as?: string;
}

async function load(path: string, { as, today }: { as?: string | undefined; today?: string }): Promise<{ loaded: Loaded; report: Report; texts: (uri: string) => string }> {
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

function show(output: Output, text: string, data: unknown, ...pages: readonly Document[]): void {
    process.stdout.write(output.json ? `${JSON.stringify(data, undefined, 2)}\n` : text);
    if (output.write === undefined) return;
    tellWritten(writeDocuments(output.write, pages));
}

function tellWritten(paths: readonly string[]): void {
    for (const path of paths) process.stderr.write(`written: ${relative(process.cwd(), path)}\n`);
}

const hasErrors = (report: Report): boolean => report.slips.some((slip) => slip.severity === 'error');
const names = (value: string): string[] => value.split(',').map((name) => name.trim()).filter((name) => name !== '');

/** Nothing that someone may act on is made from a text that was not understood in full. */
class Slips extends Error {}

/** Slips in the text go to standard error before anything that was made from what could be read. */
function tellSlips(report: Report): void {
    for (const { place, message } of report.slips) process.stderr.write(`${place.file}:${place.line}:${place.column}: ${message}\n`);
}

const program = new Command('orlop').description('Checks a vessel\'s fuel system, and writes its bleed sequences and what is due.').exitOverride().showHelpAfterError(false);
const shared = (command: Command): Command => command
    .argument('<boat>', 'the boat\'s folder')
    .option('--json', 'print for machines')
    .option('--write <folder>', 'also write the page into this folder')
    .option('--as <view>', 'the boat as drawn, as found, as it is, or after a refit: drawn, found, is, or the refit\'s name');

const dated = (command: Command): Command => command.option('--on <date>', 'as of this day instead of today');

dated(shared(program.command('check'))).description('judge the boat by every rule').action(async (path: string, output: Output & { on?: string }) => {
    const { report } = await load(path, { as: output.as, today: dayOf(output.on) });
    show(output, reportText(report), reportData(report), { path: 'findings.md', text: reportPage(report) });
    const severity = worst(report);
    process.exitCode = hasErrors(report) ? EXIT.text : severity === 'critical' || severity === 'major' ? EXIT.findings : EXIT.clean;
});

interface BleedOptions extends Output {
    readonly opened?: string[];
    readonly ranDry?: boolean;
    readonly prefilled?: string[];
    readonly from?: string;
    readonly starts?: string;
    readonly ends?: string;
}

shared(program.command('bleed')).description('write the bleed sequence of an engine')
    .argument('[engine]', 'the engine or other consumer; may be left out when there is only one')
    .option('--opened <parts>', 'the parts that were opened, parted by commas', names)
    .option('--prefilled <parts>', 'those of them that were filled by hand before closing', names)
    .option('--ran-dry', 'the tank ran dry')
    .option('--from <tank>', 'the tank to bleed from')
    .option('--starts <line-up>', 'the line-up that the sequence starts in')
    .option('--ends <line-up>', 'the line-up that it ends in')
    .action(async (path: string, engine: string | undefined, options: BleedOptions) => {
        const { loaded, report } = await load(path, options);
        tellSlips(report);
        if (hasErrors(report)) throw new Slips();
        const only = loaded.boat.consumers.length === 1 ? loaded.boat.consumers[0]!.id : undefined;
        const chosen = engine ?? only;
        if (chosen === undefined) throw new Told(`Which engine? Name one of ${loaded.boat.consumers.map((consumer) => consumer.id).join(', ') || 'none: the boat has no engine'}.`);
        if (!options.ranDry && (options.opened?.length ?? 0) === 0) throw new Told('What was opened? Say --opened F1 or --ran-dry.');
        const { ranDry, from, starts, ends } = options;
        const plan = planBleed(loaded.boat, {
            engine: chosen, opened: options.opened ?? [], prefilled: options.prefilled ?? [],
            ...(ranDry && { ranDry }), ...(from !== undefined && { from }), ...(starts !== undefined && { starts }), ...(ends !== undefined && { ends }),
        });
        if ('refused' in plan) {
            process.stdout.write(options.json ? `${JSON.stringify(plan, undefined, 2)}\n` : refusalText(plan));
            process.exitCode = EXIT.refused;
            return;
        }
        show(options, sheetText(loaded.boat, plan), sheetData(loaded.boat, plan), { path: `bleed-${chosen}.md`, text: sheetPage(loaded.boat, plan) });
        process.exitCode = EXIT.clean;
    });

dated(shared(program.command('due'))).description('print what is due, in order of date')
    .action(async (path: string, options: Output & { on?: string }) => {
        const today = dayOf(options.on);
        const { loaded, report } = await load(path, options);
        tellSlips(report);
        if (hasErrors(report)) throw new Slips();
        const plan = duePlan(loaded.boat, today);
        show(options, dueText(report.boat, plan, today), dueData(report.boat, plan, today), { path: 'due.md', text: duePage(report.boat, plan, today) });
        process.exitCode = EXIT.clean;
    });

shared(program.command('ask')).description('answer a question about the boat, such as: open F1 lid at 50 % heel 10 port')
    .argument('[question...]', 'the question; without one, what can be asked')
    .action(async (path: string, words: readonly string[], options: Output) => {
        const { loaded, report, texts } = await load(path, options);
        tellSlips(report);
        if (hasErrors(report)) throw new Slips();
        const { question, circumstances } = understood(() => readQuestion(words.join(' '), loaded.boat));
        const found = answer(loaded.boat, question, circumstances)!;
        const quoted = quoter(loaded, texts);
        show(options, answerText(loaded.boat, found, quoted), answerData(loaded.boat, found, quoted), { path: `${words.join('-').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '')}.md`, text: answerPage(loaded.boat, found, quoted) });
        process.exitCode = EXIT.clean;
    });

shared(program.command('sheet')).description('print the calculation sheet: every computation with its inputs, formula, limit and margin')
    .option('--csv', 'print for a spreadsheet')
    .action(async (path: string, options: Output & { csv?: boolean }) => {
        if (options.csv && options.json) throw new Told('Say --csv or --json, not both.');
        const { loaded, report, texts } = await load(path, options);
        tellSlips(report);
        if (hasErrors(report)) throw new Slips();
        const { text, csv, data, pages } = sheetForms(calculationSheet(loaded.boat), quoter(loaded, texts));
        show(options, options.csv ? csv : text, data, ...pages);
        process.exitCode = EXIT.clean;
    });

program.command('reference').description('print the guide and the pages of the language, the units and the rules')
    .argument('[page]', `one page alone: ${PAGE_NAMES.join(', ')}`)
    .option('--write <folder>', 'write them into this folder instead')
    .action(async (page: string | undefined, { write }: { write?: string }) => {
        const pages = await referencePages(page);
        if (pages.length === 0) throw new Told(`There is no page called ${page}. The pages are ${PAGE_NAMES.join(', ')}.`);
        if (write === undefined) process.stdout.write(pages.map(({ text }) => text).join('\n'));
        else tellWritten(writeDocuments(write, pages));
        process.exitCode = EXIT.clean;
    });

/** What was not understood in a question is told like any other slip of the hand. */
function understood<T>(read: () => T): T {
    try { return read(); } catch (error) { if (error instanceof NotUnderstood) throw new Told(error.message); throw error; }
}

const SCHEMAS: Readonly<Record<string, object>> = { ask: ANSWER_SCHEMA, sheet: CALCULATIONS_SCHEMA };

program.command('schema').description('print the JSON Schema of what `ask --json` or `sheet --json` prints')
    .argument('[command]', Object.keys(SCHEMAS).join(' or '), 'ask')
    .action((command: string) => {
        const schema = Object.hasOwn(SCHEMAS, command) ? SCHEMAS[command] : undefined;
        if (!schema) throw new Told(`There is no schema for ${command}. There is one for ${Object.keys(SCHEMAS).join(' and for ')}.`);
        process.stdout.write(`${JSON.stringify(schema, undefined, 2)}\n`);
        process.exitCode = EXIT.clean;
    });

/** The day that was asked for, or today. */
function dayOf(on: string | undefined): string {
    const day = on ?? Temporal.Now.plainDateISO().toString();
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || !isDay(day)) throw new Told(`${day} is not a day. Write it like 2026-03-01.`);
    return day;
}

function isDay(text: string): boolean {
    try { return Temporal.PlainDate.from(text).toString() === text; } catch { return false; }
}

program.parseAsync().catch((error: unknown) => {
    if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? EXIT.clean : EXIT.usage;
    else if (error instanceof Slips) { process.stderr.write('The text is not understood in full, so nothing was made from it. Mend the lines above first.\n'); process.exitCode = EXIT.text; } else if (error instanceof Told) { process.stderr.write(`${error.message}\n`); process.exitCode = EXIT.usage; } else throw error;
});
