/** `orlop procedure`: the table of jobs, one procedure as a page, or all of them into a folder. */
import type { Command } from 'commander';
import type { Boat, Job } from '../../model/boat';
import { listed } from '../../model/words';
import { DEFERRAL } from '../../documents/procedures/catalogue';
import { blankData, indexData } from '../../documents/procedures/data';
import { allForms, indexText, pageForms } from '../../documents/procedures/forms';
import { entriesOf, pageFor, wordsOf, writtenFor, type Entry, type Made } from '../../documents/procedures/pages';
import type { ToIssue } from '../../documents/procedures/issued';
import { askedOf } from '../../documents/procedures/remade';
import { pageText } from '../../documents/procedures/text';
import { conditionOf } from '../../documents/procedures/today';
import { lineUpsOf } from '../../analysis/topology/line-ups';
import { wrap } from '../../documents/figures';
import { readJobs } from '../../language/ask/jobs';
import { readToday } from '../../language/ask/question';
import { procedureFor, procedureTable } from '../../procedures/service/generate';
import { jobWords, type Blank, type Condition } from '../../procedures/service/plan';
import { RECIPES } from '../../procedures/service/recipes';
import type { Page } from '../../documents/procedures/tree';
import { pageDrawings } from '../../layout/pages';
import { Told } from '../files';
import { placesOf, withLayout } from '../layout';
import { EXIT, Slips, dayOf, hasErrors, load, shared, print, printJson, show, tell, tellSlips, understood, type Output } from '../shell';
import { registered } from './pages';

interface Options extends Output {
    readonly all?: boolean;
    readonly today?: string;
    readonly starts?: string;
    readonly ends?: string;
    readonly issued?: string;
}

export function addProcedure(program: Command): void {
    shared(program.command('procedure')).description('print a service procedure, such as: renew F1 element, look F2 element')
        .argument('[job...]', 'the job, or several done together, parted by commas; without one, the table of all jobs')
        .option('--all', 'all procedures of the boat, with an index')
        .option('--today <words>', 'how she is today, such as "T1 110 L heel 4 port"')
        .option('--starts <line-up>', 'the line-up that it starts in')
        .option('--ends <line-up>', 'the line-up that it ends in')
        .option('--issued <date>', 'the day that the page bears as the day of its issue')
        .action(async (path: string, words: readonly string[], options: Options) => {
            const { loaded: { boat }, report } = await load(path, options);
            tellSlips(report);
            if (hasErrors(report)) throw new Slips();
            const issued = options.issued === undefined ? undefined : dayOf(options.issued);
            const today = options.today === undefined ? undefined : todayOf(options.today, boat);
            if (words.length > 0 && options.all) throw new Told('Name a job or say --all, not both.');
            const draw = (pages: readonly Page[]): Promise<ReadonlyMap<string, string>> => (options.write === undefined ? Promise.resolve(new Map()) : withLayout((layouter) => pageDrawings(boat, pages, layouter, placesOf(path))));
            if (words.length > 0) await one(boat, words.join(' '), options, today, issued, draw);
            else await many(boat, options, today, issued, draw);
        });
}

function todayOf(words: string, boat: Boat): Condition {
    const said = understood(() => readToday(words, boat));
    if (said.speed !== undefined || said.elements !== undefined || said.lineUp !== undefined) throw new Told('After --today stand levels and how she lies, such as "T1 110 L heel 4 port". The line-up is said with --starts and --ends.');
    const found = conditionOf(boat, said);
    if ('unsized' in found) throw new Told(`The size of ${listed(found.unsized)} is not stated, so a share of it says nothing. Say litres.`);
    return found;
}

const requestOf = (jobs: readonly Job[], { starts, ends }: Options, today: Condition | undefined): Parameters<typeof procedureFor>[1] => ({ jobs, ...(starts !== undefined && { starts }), ...(ends !== undefined && { ends }), ...(today && { today }) });

/** Drawings of pages by their ids; none where nothing is written. */
type Draw = (pages: readonly Page[]) => Promise<ReadonlyMap<string, string>>;

async function one(boat: Boat, words: string, options: Options, today: Condition | undefined, issued: string | undefined, draw: Draw): Promise<void> {
    const known = [...RECIPES.flatMap(({ rows }) => rows?.(boat) ?? []), ...boat.procedures.flatMap(({ jobs }) => jobs), ...boat.intervals.map(({ job }) => job)].map((job) => ({ words: jobWords(job), job }));
    const jobs = understood(() => readJobs(words, boat, known));
    const page = pageFor(boat, { jobs, made: procedureFor(boat, requestOf(jobs, options, today)) }, issued);
    if ('blank' in page) {
        if (options.json) printJson(blankData(wordsOf(jobs), page)); else print(blankText(page));
        process.exitCode = EXIT.refused;
        return;
    }
    if (writtenFor(boat, jobs) && today) tell('This procedure is written by hand in the text; how she is today changes nothing in it.\n');
    const forms = pageForms(page, (await draw([page])).get(page.id));
    show(options, pageText(page), page, ...forms, ...registered(options.write, boat, [{ page, asked: askedOf(requestOf(jobs, options, today)), files: forms.map(({ path }) => path) }], issued));
    process.exitCode = page.faults ? EXIT.findings : EXIT.clean;
}

async function many(boat: Boat, options: Options, today: Condition | undefined, issued: string | undefined, draw: Draw): Promise<void> {
    const lineUps = lineUpsOf(boat).map(({ id }) => id);
    for (const lineUp of [options.starts, options.ends]) if (lineUp !== undefined && !lineUps.includes(lineUp)) throw new Told(`There is no line-up called ${lineUp}. There are ${listed(lineUps)}.`);
    const cells = procedureTable(boat, requestOf([], options, today)).map(({ job, made }): Made => ({ jobs: [job], made }));
    const entries: Entry[] = entriesOf(boat, cells, issued);
    const title = boat.title ?? boat.name;
    if (options.write !== undefined && !options.all) throw new Told('Name a job to write its page, or say --all to write all of them.');
    const drawings = await draw(entries.flatMap(({ page }) => page ?? []));
    const issues = entries.flatMap(({ page, jobs }): ToIssue[] => (page ? [{ page, asked: askedOf(requestOf(jobs, options, today)), files: pageForms(page, drawings.get(page.id)).map(({ path }) => path) }] : []));
    show(options, indexText(title, entries, options.all ? 'each' : 'grouped'), indexData(boat, entries), ...(options.all ? [...allForms(title, entries, drawings), ...registered(options.write, boat, issues, issued)] : []));
    process.exitCode = entries.some(({ page }) => page?.faults) ? EXIT.findings : EXIT.clean;
}

function blankText({ blank, missing }: Blank): string {
    return [wrap(blank, 80), ...(missing.length === 0 ? [] : ['', 'To measure first:', ...missing.map(({ fact, how }) => wrap(`${fact}: ${how}`, 80, '    ', '  - '))]), '', wrap(DEFERRAL, 80), ''].join('\n');
}
