/** The block at the foot left of a sheet that says what its signs mean: of those that are on it. */
import { n, SIZE, widthOf, words } from './svg';
import { wrapTo } from './wrap';

export interface Entry {
    /** Drawn about y = 0 from x = 0, no higher than 10 either way unless a height is said. */
    readonly sample: string;
    readonly width: number;
    readonly height?: number;
    readonly says: string;
}

const [GAP, LINE, ROW, HEAD] = [10, 14, 24, 22] as const;

/** In columns of one width, filled downwards; drawn from its own upper left corner. */
export function legend(entries: readonly Entry[], width: number): { readonly width: number; readonly height: number; readonly body: string } {
    if (entries.length === 0) return { width: 0, height: 0, body: '' };
    const samples = Math.max(...entries.map((entry) => entry.width));
    const wanted = samples + GAP + Math.max(...entries.map(({ says }) => widthOf(says))) + 2 * GAP;
    const column = Math.min(width, wanted);
    const columns = Math.max(1, Math.min(Math.floor(width / column), entries.length));
    const each = Math.ceil(entries.length / columns);
    const told = entries.map(({ says, height: tall = 0 }) => ({ lines: wrapTo(says, Math.max(40, column - samples - 2 * GAP)), row: Math.max(ROW, tall + 6) }));
    let height = 0;
    const body = entries.map(({ sample }, i) => {
        const first = Math.floor(i / each) * each;
        const above = told.slice(first, i).reduce<number>((sum, row) => sum + rowHeight(row), HEAD);
        const x = Math.floor(i / each) * column;
        height = Math.max(height, above + rowHeight(told[i]!));
        const middle = above + told[i]!.row / 2;
        return `<g transform="translate(${n(x)} ${n(middle)})">${sample}</g>` + told[i]!.lines.map((line, k) => words(line, { x: x + samples + GAP, y: middle + 4 + k * LINE })).join('') + '\n';
    }).join('');
    return { width: columns * column, height, body: `<g>${words('Legend', { x: 0, y: SIZE, bold: true })}\n${body}</g>\n` };
}

const rowHeight = ({ lines, row }: { readonly lines: readonly string[]; readonly row: number }): number => row + LINE * Math.max(0, lines.length - 1);
