/** `orlop pages`: what the pages that were issued into a folder are worth on the boat as she is, and where something is mentioned in them. */
import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Command } from 'commander';
import type { Boat } from '../../model/boat';
import type { Document } from '../../documents/place';
import { REGISTER, generationsOf, isUnreadable, issue, ofOther, readRegister, standingOf, type Register, type ToIssue } from '../../documents/procedures/issued';
import { remade } from '../../documents/procedures/remade';
import { generationsData, generationsText, mentionsData, mentionsIn, mentionsText, standingData, standingText } from '../../documents/procedures/standing';
import { Told } from '../files';
import { EXIT, Slips, hasErrors, load, show, tellSlips, type Output } from '../shell';

interface Options extends Output {
    readonly mention?: string;
    readonly since?: string;
}

export function addPages(program: Command): void {
    program.command('pages').description('tell which issued pages the boat has made false, and which mention a thing or a figure')
        .argument('<boat>', 'the boat\'s folder')
        .argument('<folder>', 'the folder into which the pages were written')
        .option('--mention <what>', 'only where this is mentioned: a tag, a figure like "450 mL", or a fact like "F1 lid"')
        .option('--since <folder>', 'only how these pages differ from those issued into another folder')
        .option('--json', 'print for machines')
        .option('--as <view>', 'the boat as drawn, as found, as it is, or after a refit: drawn, found, is, or the refit\'s name')
        .action(async (path: string, folder: string, options: Options) => {
            if (options.mention !== undefined && options.since !== undefined) throw new Told('Say --mention or --since, not both.');
            const { loaded: { boat }, report } = await load(path, options);
            tellSlips(report);
            if (hasErrors(report)) throw new Slips();
            const register = registerIn(folder, boat);
            if (options.mention !== undefined) {
                const mentions = mentionsIn(register, options.mention);
                show(options, mentionsText(options.mention, mentions), mentionsData(boat, options.mention, mentions));
                process.exitCode = EXIT.clean;
            } else if (options.since !== undefined) {
                const generations = generationsOf(registerIn(options.since, boat), register);
                show(options, generationsText(generations), generationsData(boat, generations));
                process.exitCode = EXIT.clean;
            } else {
                const standings = standingOf(register, boat, (page) => remade(boat, page));
                show(options, standingText(boat, standings), standingData(boat, standings));
                process.exitCode = standings.some(({ status }) => status === 'false' || status === 'gone') ? EXIT.findings : EXIT.clean;
            }
        });
}

/** The register of a folder with these pages issued into it; nothing where nothing is written. */
export function registered(folder: string | undefined, boat: Boat, pages: readonly ToIssue[], day: string | undefined): readonly Document[] {
    if (folder === undefined) return [];
    const made = issue(boat, pages, registerText(folder), day);
    if (isUnreadable(made)) throw new Told(made.unreadable);
    return made;
}

/** The text of the register in a folder; none when no page was issued there. */
function registerText(folder: string): string | undefined {
    const file = join(resolve(folder), REGISTER);
    try { return existsSync(file) ? readFileSync(file, 'utf8') : undefined; } catch (error) { throw new Told(`${file} could not be read: ${(error as Error).message}.`); }
}

function registerIn(folder: string, boat: Boat): Register {
    const text = registerText(folder);
    if (text === undefined) throw new Told(`No page was issued into ${folder}: it has no ${REGISTER}. \`orlop procedure\` with --write issues pages there.`);
    const register = readRegister(text);
    const stranger = isUnreadable(register) ? register : ofOther(boat, register);
    if (stranger) throw new Told(stranger.unreadable);
    return register as Register;
}
