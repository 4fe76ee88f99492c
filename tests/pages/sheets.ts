/** The sheets that drawings.mjs looks at: every boat plain, some with each kind of marks, and boats that nobody would write. Bundled, since the drawing is a part of the program. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { drawElevation } from '../../src/documents/drawing/elevation/elevation';
import { markupFor, type Show } from '../../src/documents/drawing/markups/markup';
import type { Markup } from '../../src/documents/drawing/markup';
import { judge } from '../../src/checks/judge';
import { loadBoat } from '../../src/language/load';
import { layOut } from '../../src/layout/elk';
import { laidOut, pictureOf } from '../../src/layout/schematic';
import type { Boat } from '../../src/model/boat';
import { HAND_CROSSINGS } from '../topologies/hand-layouts';
import { ODD_BOATS } from './odd-boats';

export interface Drawn {
    readonly name: string;
    readonly svg: string;
    readonly kind: 'schematic' | 'elevation';
    /** How many crossings of lines it may have; any number, when that is not known. */
    readonly crossings?: number;
    /** What its tank T1 is called, if that has to be read on it as it is. */
    readonly says?: string;
}

type Texts = Readonly<Record<string, string>>;
const textsIn = (folder: string): Texts => Object.fromEntries(readdirSync(folder).filter((file) => file.endsWith('.orlop')).sort().map((file) => [file, readFileSync(join(folder, file), 'utf8')]));

/** Boats on which everything is marked, one way after the other. */
const MARKED = ['08-duplex-primaries', 'brackenwake', 'marrenwake'];

export async function sheets(repo: string): Promise<Drawn[]> {
    const arrangements = textsIn(join(repo, 'tests/topologies'));
    const boats: [string, Texts][] = [
        ...Object.entries(arrangements).map(([file, text]): [string, Texts] => [file.replace('.orlop', ''), { [file]: text }]),
        ...readdirSync(join(repo, 'examples')).sort().map((name): [string, Texts] => [name, textsIn(join(repo, 'examples', name))]),
    ];
    const drawn: Drawn[] = [];
    for (const [name, texts] of boats) {
        const { boat } = await loadBoat(texts);
        const laid = await laidOut(boat, layOut);
        const crossings = HAND_CROSSINGS[name]!;
        const both = (what: string, markup?: Markup): void => {
            const sheet = markup ? { markup } : {};
            drawn.push({ name: `${name}${what}`, kind: 'schematic', svg: pictureOf(laid, sheet).svg, crossings }, { name: `${name}${what}`, kind: 'elevation', svg: drawElevation(boat, sheet).svg });
        };
        both('');
        if (MARKED.includes(name)) for (const [what, markup] of await markups(boat, texts)) both(`, ${what}`, markup);
    }
    for (const { name, texts, says } of ODD_BOATS) {
        const { boat } = await loadBoat(texts);
        const more = says === undefined ? {} : { says };
        drawn.push({ name, kind: 'schematic', svg: pictureOf(await laidOut(boat, layOut), {}).svg, ...more }, { name, kind: 'elevation', svg: drawElevation(boat, {}).svg });
    }
    return drawn;
}

/** One of each kind, of those that this boat can have; and all looks at once on everything. */
async function markups(boat: Boat, texts: Texts): Promise<[string, Markup][]> {
    const engine = boat.consumers[0]!.id;
    const filter = boat.parts.find(({ kind }) => kind === 'filter')!.id;
    const shows: [string, Show][] = [
        ['line-up', { show: 'line-up' }], ['pressure', { show: 'pressure', speed: 'full' }], ['pressure at rest', { show: 'pressure', speed: 'stopped' }], ['bleeding', { show: 'bleed', engine, opened: [filter] }],
        [`${filter} cut off`, { show: 'isolate', part: filter }], ['findings', { show: 'findings' }], ['changes', { show: 'changes' }],
        ['a step', { show: 'step', step: 3, of: { jobs: [{ verb: 'renew', part: filter, piece: 'element' }] } }],
    ];
    const before = (await loadBoat(texts, { view: 'drawn' })).boat;
    return shows.flatMap(([what, show]): [string, Markup][] => {
        const markup = markupFor(show, { boat, before, findings: judge(boat).findings });
        return 'refused' in markup ? [] : [[what, markup]];
    });
}
