/** The block at the foot right of a sheet that says what it is. */
import { inked, n, SIZE, widthOf, words } from './svg';
import { wrapTo } from './wrap';

const [PAD, LINE, LEAST, MOST] = [8, 15, 150, 300] as const;

/** Names on the left, values beside them, a rule under each row; drawn from its own upper left corner. A row without a value stays blank, to be filled in by hand. */
export function titleBlock(rows: readonly { readonly name: string; readonly value: string }[]): { readonly width: number; readonly height: number; readonly body: string } {
    const names = Math.max(0, ...rows.map(({ name }) => widthOf(name))) + 2 * PAD;
    const values = Math.min(MOST, Math.max(LEAST, ...rows.map(({ value }, i) => widthOf(value, SIZE, i === 0)))) + 2 * PAD;
    const width = names + values;
    let y = 0;
    const drawn = rows.map(({ name, value }, i) => {
        const lines = wrapTo(value, values - 2 * PAD, SIZE, i === 0);
        const top = y;
        y += Math.max(1, lines.length) * LINE + 5;
        return (i === 0 ? '' : `<path ${inked('thin')} d="M0 ${n(top)}H${n(width)}"/>`)
            + words(name, { x: PAD, y: top + LINE }) + lines.map((line, k) => words(line, { x: names + PAD, y: top + LINE * (k + 1), bold: i === 0 })).join('');
    });
    return { width, height: y, body: `<g><rect ${inked('outline')} width="${n(width)}" height="${n(y)}"/>${drawn.join('')}<path ${inked('thin')} d="M${n(names)} 0V${n(y)}"/></g>\n` };
}
