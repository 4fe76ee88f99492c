/** The terminal program: `orlop check`, `orlop ask`, `orlop bleed`, `orlop due`, `orlop sheet`, `orlop draw`, `orlop procedure`, `orlop pages`, `orlop reference`. */
import { Command, CommanderError } from 'commander';
import { answerData, answerPage, answerText } from '../documents/answers/answer';
import { answer } from '../documents/answers/answers';
import { ANSWER_SCHEMA } from '../documents/answers/schema';
import { DRAWING_SCHEMA } from '../documents/drawing/data';
import { duePlan } from '../analysis/upkeep/due';
import { PAGES_SCHEMA, REGISTER_SCHEMA } from '../documents/procedures/issued-schema';
import { refusalText, sheetData, sheetPage, sheetText } from '../documents/bleed/sheet';
import { reportData, reportPage, reportText, worst } from '../documents/findings/report';
import { sheetForms } from '../documents/sheet/forms';
import { CALCULATIONS_SCHEMA } from '../documents/sheet/schema';
import { calculationSheet } from '../documents/sheet/sheet';
import { dueData, duePage, dueText } from '../documents/upkeep/due-list';
import { readQuestion } from '../language/ask/question';
import { quoter } from '../language/ask/quoter';
import { PAGE_NAMES, referencePages } from '../language/reference/pages';
import { planBleed } from '../procedures/bleed';
import { listed } from '../model/words';
import { addDraw } from './commands/draw';
import { addPages } from './commands/pages';
import { addProcedure } from './commands/procedure';
import { Told, writeDocuments } from './files';
import { EXIT, Slips, dated, dayOf, hasErrors, load, names, print, printJson, shared, show, tell, tellSlips, tellWritten, understood, type Output } from './shell';

const program = new Command('orlop').description('Checks a vessel\'s fuel system, and writes its bleed sequences and what is due.').exitOverride().showHelpAfterError(false);
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
            if (options.json) printJson(plan); else print(refusalText(plan));
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

addDraw(program);
addProcedure(program);
addPages(program);

program.command('reference').description('print the guide and the pages of the language, the units and the rules')
    .argument('[page]', `one page alone: ${PAGE_NAMES.join(', ')}`)
    .option('--write <folder>', 'write them into this folder instead')
    .action(async (page: string | undefined, { write }: { write?: string }) => {
        const pages = await referencePages(page);
        if (pages.length === 0) throw new Told(`There is no page called ${page}. The pages are ${PAGE_NAMES.join(', ')}.`);
        if (write === undefined) print(pages.map(({ text }) => text).join('\n'));
        else tellWritten(writeDocuments(write, pages));
        process.exitCode = EXIT.clean;
    });

const SCHEMAS: Readonly<Record<string, object>> = { ask: ANSWER_SCHEMA, sheet: CALCULATIONS_SCHEMA, draw: DRAWING_SCHEMA, pages: PAGES_SCHEMA, issued: REGISTER_SCHEMA };

program.command('schema').description('print the JSON Schema of what `ask`, `sheet`, `draw` or `pages` prints with --json, or of the register of issued pages')
    .argument('[command]', listed(Object.keys(SCHEMAS), 'or'), 'ask')
    .action((command: string) => {
        const schema = Object.hasOwn(SCHEMAS, command) ? SCHEMAS[command] : undefined;
        if (!schema) throw new Told(`There is no schema for ${command}. There is one for ${listed(Object.keys(SCHEMAS))}.`);
        printJson(schema);
        process.exitCode = EXIT.clean;
    });

program.parseAsync().catch((error: unknown) => {
    if (error instanceof CommanderError) process.exitCode = error.exitCode === 0 ? EXIT.clean : EXIT.usage;
    else if (error instanceof Slips) { tell('The text is not understood in full, so nothing was made from it. Mend the lines above first.\n'); process.exitCode = EXIT.text; } else if (error instanceof Told) { tell(`${error.message}\n`); process.exitCode = EXIT.usage; } else throw error;
});
