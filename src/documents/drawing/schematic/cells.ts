/** What is printed with each part of a line: its tag, and the figures that a schematic bears. */
import type { Boat, Part } from '../../../model/boat';
import { isPipe } from '../../../analysis/topology/network';
import { figure, mm } from '../../figures';
import { fromSI } from '../../../model/units';
import { SIZE, widthOf } from '../svg';

/** Room above and below the line of a row; the words of marks stand in it too. */
export const ABOVE = 76;
export const BELOW = 60;
export const ROW = ABOVE + BELOW;

export const SMALL = 10;
const LEAST = 84;
const GAP = 16;

/** Bores are sizes of the trade, not all of them whole millimetres. */
const bore = (si: number): string => `${figure(fromSI(si, 'mm'))} mm`;

/** Lines under the tag. */
export function figuresOf(part: Part): string[] {
    const lines: string[] = [];
    if (isPipe(part)) {
        if (part.bore) lines.push(bore(part.bore.si));
        // Air stays there.
        if (part.crest?.up) lines.push(`crest ${mm(part.crest.up.si)}`);
        return lines;
    }
    if (part.kind === 'shutoff' && (part.lockedOpen || part.normally)) lines.push(part.lockedOpen ? 'LO' : part.normally === 'open' ? 'NO' : 'NC');
    if (part.kind === 'check' && part.cracks) lines.push(`${figure(fromSI(part.cracks.si, 'kPa'))} kPa`);
    if (part.passes) lines.push(`${figure(fromSI(part.passes.si, 'um'))} \u00b5m`);
    if (part.bore) lines.push(bore(part.bore.si));
    // What the hand finds on it.
    if (part.label !== undefined) lines.push(`"${part.label}"`);
    return lines;
}

/** Wide enough for its words; never narrower than others, so that rows can be read down the sheet too. */
export function cellWidth(part: Part): number {
    const vents = part.vents.reduce((sum, { tag }) => sum + widthOf(tag, SMALL) + 14, 0);
    const least = Math.max(part.tag === undefined ? 0 : widthOf(part.tag, SIZE, true), ...figuresOf(part).map((line) => widthOf(line, SMALL)), 2 * vents);
    return Math.max(LEAST, Math.ceil((least + GAP) / 4) * 4);
}

/** Where a line passes from one space of the boat into another: an upright between two cells with the names of both. */
export const BOUNDARY = 28;

export interface Boundary { readonly from: string; readonly to: string }

/**
 * The boundary before each part of a row, where the spaces of the last part that has one and of this differ. A part without a space says
 * nothing: the boundary stands at the first part that is known to be beyond it.
 */
export function boundaries(boat: Boat, first: string | undefined, parts: readonly Part[], last: string | undefined): readonly (Boundary | undefined)[] {
    if (boat.vessel.spaces.length === 0) return parts.map(() => undefined);
    let known = first;
    const found: (Boundary | undefined)[] = [...parts, undefined].map((part) => {
        const here = part ? part.space : last;
        const crossed = here !== undefined && known !== undefined && here !== known ? { from: known, to: here } : undefined;
        known = here ?? known;
        return crossed;
    });
    return found;
}
