/** What the hands that draw a schematic share: the sheet they draw, and what stands over it in words. */
import type { Boat, Id, Service, Vent } from '../../../model/boat';
import type { Positions } from '../../../analysis/topology/network';
import { nameOf } from '../../../checks/check';
import { escapeXml } from '../../procedures/safe';
import { weightOf, type Weight } from '../line-styles';
import { roomFor, said, shapes, underlay, type Box } from '../marks';
import type { Mark } from '../markup';
import { n, thing, widthOf, words, type Point } from '../svg';
import { wrapTo } from '../wrap';
import { SMALL } from './cells';
import { arrow, bleedPoint } from './symbols';

/** What is drawn by many hands: where valves stand, what is marked, and what the legend has to explain. */
export interface Drawing {
    readonly boat: Boat;
    readonly positions: Positions;
    readonly marks: ReadonlyMap<Id, readonly Mark[]>;
    readonly services: Set<Service>;
    /** Samples of signs by their name, 40 wide. */
    readonly signs: Map<string, { readonly sample: string; readonly height?: number }>;
    /** What marks say that had no room beside its thing, in sentences for the notes. */
    readonly cut: string[];
}

/** A sign that is on the sheet comes into its legend. */
export function explain({ signs }: Drawing, name: string, sample: string, height?: number): void {
    signs.set(name, { sample, ...(height !== undefined && { height }) });
}

export const marksOf = ({ marks }: Drawing, id: Id): readonly Mark[] => marks.get(id) ?? [];

export const weight = (drawing: Drawing, id: Id): Weight | undefined => weightOf(marksOf(drawing, id));

/** Marks of one look at one thing say what they say in one line. */
export function gathered(marks: readonly Mark[]): Mark[] {
    const looks = [...new Set(marks.map(({ as }) => as))];
    return looks.map((as) => {
        const own = marks.filter((mark) => mark.as === as);
        const said = own.flatMap((mark) => mark.words ?? []);
        return { about: own[0]!.about, as, ...(said.length > 0 && { words: said.join(', ') }) };
    });
}

/** For a blank at which no line is broken: both systems of one figure stay together. */
const JOINED = '\u0001';

/**
 * Words of marks broken to a width, in no more lines than there is room for: what is left out is told in the notes. A look
 * that rings a number stays on its line.
 */
export function fitted({ boat, cut }: Drawing, marks: readonly Mark[], width: number, lines: number): Mark[] {
    const all = marks.flatMap((mark): Mark[] => mark.words === undefined || mark.as === 'number' || mark.as === 'finding' ? [mark] : wrapTo(mark.words.replace(/\([^)]*\)/g, (inner) => inner.replaceAll(' ', JOINED)), width, SMALL).map((line) => ({ ...mark, words: line.replaceAll(JOINED, ' ') })));
    const worded = all.filter(({ words: own }) => own !== undefined);
    const last = worded[lines - 1];
    if (worded.length > lines) cut.push(`${nameOf(boat, marks[0]!.about)}: ${marks.flatMap((mark) => mark.words ?? []).join('; ')}.`);
    return worded.length <= lines ? all : all.filter((mark) => mark.words === undefined || worded.indexOf(mark) < lines).map((mark) => (mark === last && mark.as !== 'number' && mark.as !== 'finding' ? { ...mark, words: `${mark.words}…` } : mark));
}

export const tagged = (id: Id): string => `data-tag="${escapeXml(id)}"`;
export const d = (line: readonly Point[]): string => line.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${n(x)} ${n(y)}`).join('');
export const arrowAt = ([x, y]: Point, right: boolean): string => `<g transform="translate(${n(x)} ${n(y)})">${arrow(right)}</g>`;

/** Bleed points side by side over a sign, each with its tag to the right. The stub is long enough for a ring round the sign to pass below the tag. */
export function bleeds(drawing: Drawing, vents: readonly Vent[], middle: number, y: number, under: string[]): string {
    let x = middle;
    return vents.map((vent) => {
        explain(drawing, 'bleed point', `<g transform="translate(20 7)">${bleedPoint()}</g>`);
        const marks = marksOf(drawing, vent.id);
        const box: Box = { x: x - 4, y: y - 14, width: 8, height: 14 };
        under.push(underlay(box, marks));
        // Its number and what is said of it stand on one line.
        const [numbers, others] = [marks.filter(({ as }) => as === 'number' || as === 'finding'), marks.filter(({ as }) => as !== 'number' && as !== 'finding')];
        const line = { x: x - 5, y: y - 29 };
        const beside = numbers.length === 0 ? 0 : roomFor(numbers).width + 4;
        const drawn = thing(vent.id, 'bleed point', `${vent.tag}${vent.title === undefined ? '' : `, ${vent.title}`}: bleed point`,
            `<g transform="translate(${n(x)} ${n(y)})">${bleedPoint()}</g>${words(vent.tag, { x: x + 8, y: y - 9, size: SMALL, also: tagged(vent.id) })}${shapes(box, marks, 'top')}${said(numbers, line)}${said(fitted(drawing, others, 96, 1), { ...line, x: line.x + beside })}`);
        x += widthOf(vent.tag, SMALL) + 18;
        return drawn;
    }).join('');
}
