/** `orlop draw`: the schematic and the elevation of a boat, plain or with something shown over them. */
import type { Command } from 'commander';
import { lineUpsOf } from '../../analysis/topology/line-ups';
import { drawingData } from '../../documents/drawing/data';
import { drawElevation } from '../../documents/drawing/elevation/elevation';
import { markupFor, type Show, type Shown } from '../../documents/drawing/markups/markup';
import { noLineUp } from '../../documents/drawing/markups/state';
import { PLACES_FILE, elsewhereTold } from '../../documents/drawing/places';
import { saidText } from '../../documents/drawing/said';
import type { Picture, Sheet } from '../../documents/drawing/sheet';
import { wrap } from '../../documents/figures';
import { safeName } from '../../documents/procedures/safe';
import { readHeel, readLevel } from '../../language/ask/question';
import { readShow, showsFor } from '../../language/ask/show';
import { laidOut, pictureOf } from '../../layout/schematic';
import { listed } from '../../model/words';
import type { Boat } from '../../model/boat';
import { Told, writeDocuments } from '../files';
import { placesOf, withLayout } from '../layout';
import { EXIT, Slips, dated, dayOf, hasErrors, load, print, printJson, shared, tell, tellSlips, tellWritten, understood, type Output } from '../shell';

interface Options extends Output {
    readonly lineUp?: string;
    readonly level?: string;
    readonly heel?: string;
    readonly show?: string;
    readonly words?: boolean;
    readonly revision?: string;
    readonly date?: string;
    readonly on?: string;
}

const DRAWINGS = { schematic: 'what is joined to what, from the tanks to the engines and back', elevation: 'how high everything stands, with the surfaces of the tanks' } as const;
type Drawing = keyof typeof DRAWINGS;
const KINDS = Object.keys(DRAWINGS) as Drawing[];

export function addDraw(program: Command): void {
    dated(shared(program.command('draw'))).description('draw the schematic or the elevation, as SVG')
        .argument('[drawing]', `${listed(KINDS, 'or')}; without one, what can be drawn and shown`)
        .option('--show <words>', 'what is shown over it, such as "isolate F1" or "pressure at 2400 rpm"')
        .option('--line-up <line-up>', 'the line-up in which the valves are drawn')
        .option('--level <share>', 'what the tanks hold, such as "60 %"')
        .option('--heel <angle>', 'how she leans, such as "15 port"')
        .option('--words', 'print the drawing in words')
        .option('--revision <words>', 'for the title block')
        .option('--date <date>', 'for the title block')
        .action(async (path: string, kind: string | undefined, options: Options) => {
            if (kind !== undefined && !isDrawing(kind)) throw new Told(`${kind} is no drawing. The drawings are ${listed(KINDS)}.`);
            if (options.words && options.json) throw new Told('Say --words or --json, not both.');
            if (kind === undefined && options.write === undefined && (options.words || options.show !== undefined)) throw new Told(`Which drawing? Name ${listed(KINDS, 'or')}, or say --write with a folder for both.`);
            const { loaded: { boat }, report } = await load(path, { as: options.as, today: dayOf(options.on) });
            tellSlips(report);
            if (hasErrors(report)) throw new Slips();
            if (kind === undefined && options.json) printJson(choicesData(boat, report.boat));
            if (kind === undefined && options.write === undefined) {
                if (!options.json) print(choicesText(boat, report.boat));
                process.exitCode = EXIT.clean;
                return;
            }
            const before = options.show?.trim() === 'changes' ? (await load(path, { as: 'drawn' })).loaded.boat : undefined;
            const sheet = sheetOf({ boat, findings: report.findings, ...(before && { before }) }, options);
            if ('refused' in sheet) {
                if (options.json) printJson(sheet); else tell(`${sheet.refused}\n`);
                process.exitCode = EXIT.refused;
                return;
            }
            const pictures = await picturesOf(path, boat, kind === undefined ? KINDS : [kind], sheet);
            for (const { kind: each, picture } of pictures) {
                if (options.words) print(saidText(picture.words));
                else if (options.json && kind !== undefined) printJson(drawingData(report.boat, each, sheet.markup?.title ?? 'the boat as written', picture));
                else if (!options.json && options.write === undefined) print(picture.svg);
            }
            if (options.write !== undefined) tellWritten(writeDocuments(options.write, pictures.map(({ kind: each, picture }) => ({ path: `${fileName(each, options)}.svg`, text: picture.svg }))));
            process.exitCode = EXIT.clean;
        });
}

const isDrawing = (word: string): word is Drawing => Object.hasOwn(DRAWINGS, word);

/** What was asked for, read; or why it cannot be shown. */
function sheetOf(of: Shown, { lineUp, level, heel, show, revision, date }: Options): Sheet | { readonly refused: string } {
    const { boat } = of;
    if (lineUp !== undefined && !lineUpsOf(boat).some(({ id }) => id === lineUp)) throw new Told(noLineUp(boat, lineUp).refused);
    const said = {
        ...(lineUp !== undefined && { lineUp }), ...(level !== undefined && { level: understood(() => readLevel(level, boat)) }), ...(heel !== undefined && { heel: understood(() => readHeel(heel, boat)) }),
    };
    const block = { ...(revision !== undefined && { revision }), ...(date !== undefined && { date: dayOf(date) }) };
    if (show === undefined) return { ...said, ...block };
    const what: Show = understood(() => readShow(show, boat));
    const markup = markupFor(what, { ...of, ...said });
    return 'refused' in markup ? markup : { ...said, markup, ...block };
}

function picturesOf(path: string, boat: Boat, kinds: readonly Drawing[], sheet: Sheet): Promise<{ kind: Drawing; picture: Picture }[]> {
    return withLayout(async (layouter) => {
        const pictures: { kind: Drawing; picture: Picture }[] = [];
        for (const kind of kinds) {
            if (kind === 'elevation') { pictures.push({ kind, picture: drawElevation(boat, sheet) }); continue; }
            const out = await laidOut(boat, layouter, placesOf(path));
            if (out.strangers.length > 0) tell(`${PLACES_FILE}: ${listed(out.strangers)} ${out.strangers.length === 1 ? 'is' : 'are'} not on the schematic. Take ${out.strangers.length === 1 ? 'that line' : 'those lines'} out, or write the name as it is now.\n`);
            for (const sentence of elsewhereTold(out.elsewhere)) tell(`${sentence}\n`);
            pictures.push({ kind, picture: pictureOf(out, sheet) });
        }
        return pictures;
    });
}

/** What is shown is in the name, so that one drawing is not written over another. */
const fileName = (kind: Drawing, { show, lineUp, level, heel, as }: Options): string =>
    safeName([kind, show, lineUp && `in ${lineUp}`, level && `at ${level}`, heel && `heel ${heel}`, as && `as ${as}`].filter((word) => word).join(' '));

function choicesText(boat: Boat, name: string): string {
    const table = (rows: readonly (readonly [string, string])[]): string[] => {
        const width = Math.min(30, Math.max(...rows.map(([first]) => first.length)));
        return rows.map(([first, words]) => (first.length > width ? `  ${first}\n${wrap(words, 80, ' '.repeat(width + 5))}` : wrap(words, 80, ' '.repeat(width + 5), `  ${first.padEnd(width)}   `)));
    };
    const lineUps = lineUpsOf(boat).map(({ id }) => id);
    return [
        `${name}: what can be drawn`, '', ...table(KINDS.map((kind) => [kind, DRAWINGS[kind]])), '',
        'Shown over it with --show "...":', '', ...table(showsFor(boat).map(({ show, title }) => [show, title])), '',
        ...(lineUps.length === 0 ? [] : [wrap(`Valves stand as in the normal line-up, or with --line-up in ${listed(lineUps, 'or')}.`, 80)]),
        wrap('--level "60 %" and --heel "15 port" say how she is; --words prints the drawing in words.', 80), '',
    ].join('\n');
}

const choicesData = (boat: Boat, name: string): unknown => ({ boat: name, drawings: KINDS, shows: showsFor(boat), lineUps: lineUpsOf(boat).map(({ id }) => id) });
