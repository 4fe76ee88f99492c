/**
 * SVG as text. Every drawing is black on white as it is written; classes let a page give the inks of its own theme. Nothing in it needs a
 * style sheet, a script or a font that is not there.
 */
import { escapeXml } from '../procedures/safe';

/** The one coloured ink of a sheet: what the sheet is about. It is 8.1 to 1 on white (WCAG 2.2, relative luminance). */
export const ACCENT = '#96243f';

/** Presentation by class; a page may overrule each by its own style sheet. */
const INKS = {
    /** An outline. */
    outline: `fill="#fff" stroke="#000" stroke-width="1"`,
    /** A line without an inside. */
    line: `fill="none" stroke="#000" stroke-width="1.4"`,
    thin: `fill="none" stroke="#000" stroke-width="0.7"`,
    /** All black: a shut valve, an arrow. */
    solid: `fill="#000" stroke="#000" stroke-width="1"`,
    accent: `fill="none" stroke="${ACCENT}" stroke-width="2.4"`,
    'accent-solid': `fill="${ACCENT}" stroke="${ACCENT}" stroke-width="1"`,
    /** Behind words that stand on a line. */
    paper: `fill="#fff" stroke="none"`,
    words: `fill="#000" stroke="none"`,
    'accent-words': `fill="${ACCENT}" stroke="none"`,
} as const;
export type Ink = keyof typeof INKS;

/** `weight` is that of the line, where it is not the ink's own. */
export const inked = (ink: Ink, weight?: number): string => `class="${ink}" ${weight === undefined ? INKS[ink] : INKS[ink].replace(/ stroke-width="[^"]*"/, ` stroke-width="${weight}"`)}`;

/** A length on the sheet, to a tenth. */
export const n = (value: number): string => { const text = value.toFixed(1).replace(/\.0$/, ''); return text === '-0' ? '0' : text; };

export type Point = readonly [x: number, y: number];
export const points = (list: readonly Point[]): string => list.map(([x, y]) => `${n(x)},${n(y)}`).join(' ');

export const FONT = 'Arial, Helvetica, \'Liberation Sans\', sans-serif';

export interface Words {
    readonly x: number;
    /** The baseline. */
    readonly y: number;
    readonly size?: number;
    readonly anchor?: 'start' | 'middle' | 'end';
    readonly bold?: boolean;
    readonly ink?: 'words' | 'accent-words';
    /** Further attributes, escaped already. */
    readonly also?: string;
}

export const SIZE = 11;

/** One line of words. */
export function words(text: string, { x, y, size = SIZE, anchor = 'start', bold, ink = 'words', also }: Words): string {
    return `<text ${inked(ink)} x="${n(x)}" y="${n(y)}" font-size="${n(size)}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}${bold ? ' font-weight="700"' : ''}${also ? ` ${also}` : ''}>${escapeXml(text)}</text>`;
}

/** How wide words stand at most, whichever plain sans they are set in; wide scripts take their whole square. */
export function widthOf(text: string, size = SIZE, bold = false): number {
    let ems = 0;
    for (const sign of text) {
        const code = sign.codePointAt(0)!;
        ems += code > 0x2e7f ? 1.05 : /[iljtfrI.,:;'|!()\[\] -]/.test(sign) ? 0.37 : /[mwMW%@—]/.test(sign) ? 0.97 : /[A-ZÀ-Þ&]/.test(sign) ? 0.74 : code > 0x24f && !/\p{M}/u.test(sign) ? 0.85 : /\p{M}/u.test(sign) ? 0 : 0.59;
    }
    return ems * size * (bold ? 1.06 : 1);
}

export interface Svg {
    readonly width: number;
    readonly height: number;
    /** Said by a screen reader for the whole; the text alternative stands beside it. */
    readonly title: string;
    readonly body: string;
}

/** The whole file. */
export const svg = ({ width, height, title, body }: Svg): string =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}" height="${n(height)}" viewBox="0 0 ${n(width)} ${n(height)}" role="img" font-family="${FONT}">\n`
    + `<title>${escapeXml(title)}</title>\n<rect ${inked('paper')} width="${n(width)}" height="${n(height)}"/>\n${body}</svg>\n`;

/**
 * What belongs to one thing of the boat: `data-id` is its id, and every drawing has exactly one such group for each thing that it shows.
 * Words that are its tag have `data-tag` with its id.
 */
export const thing = (id: string, kind: string, says: string, body: string): string =>
    `<g data-id="${escapeXml(id)}" data-kind="${escapeXml(kind)}"><title>${escapeXml(says)}</title>${body}</g>\n`;
