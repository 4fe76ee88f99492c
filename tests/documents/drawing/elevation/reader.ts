/** Reads a drawing as a person with a ruler does: the words and the lines where they stand, and heights by the printed ticks. It knows nothing of the code that drew it. */

export interface Written { readonly text: string; readonly x: number; readonly y: number; readonly size: number; readonly anchor: string; readonly bold: boolean; readonly tag?: string; readonly thing?: string; readonly width: number }
export interface Stroke { readonly from: readonly [number, number]; readonly to: readonly [number, number]; readonly thing?: string }
/** A rectangle, or a circle by the square around it. */
export interface Shape { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number; readonly kind: 'rect' | 'circle'; readonly thing?: string }
export interface Read { readonly shapes: readonly Shape[]; readonly words: readonly Written[]; readonly strokes: readonly Stroke[]; readonly things: ReadonlyMap<string, string>; readonly width: number; readonly height: number }

const plain = (text: string): string => text.replace(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => ({ amp: '&', lt: '<', gt: '>', quot: '"', '#39': '\'' })[name]!);
const attribute = (tag: string, name: string): string | undefined => { const found = new RegExp(`\\s${name}="([^"]*)"`).exec(tag)?.[1]; return found === undefined ? undefined : plain(found); };

/** About half the size for each sign: what a narrow plain sans takes at the least, so that what overlaps by this overlaps in any. */
const narrow = (text: string, size: number): number => [...text].reduce((sum, sign) => sum + (/[iljtfrI.,:;'|!()[\] ]/.test(sign) ? 0.24 : sign.codePointAt(0)! > 0x2e7f ? 0.95 : 0.5), 0) * size;

export function read(svg: string): Read {
    const words: Written[] = [];
    const strokes: Stroke[] = [];
    const shapes: Shape[] = [];
    const things = new Map<string, string>();
    const stack: { thing?: string; dx: number; dy: number }[] = [{ dx: 0, dy: 0 }];
    for (const found of svg.matchAll(/<(\/?)(g|text|path|polyline|rect|circle)\b([^>]*)>([^<]*)/g)) {
        const [, closing, name, tag, text] = found as unknown as [string, string, string, string, string];
        if (name === 'g') {
            if (closing) { stack.pop(); continue; }
            const [dx, dy] = (/translate\(([-\d.]+) ([-\d.]+)\)/.exec(tag) ?? ['', '0', '0']).slice(1).map(Number) as [number, number];
            const top = stack.at(-1)!;
            const id = attribute(tag, 'data-id');
            if (id !== undefined) things.set(id, `${things.get(id) ?? ''}+`);
            stack.push({ dx: top.dx + dx, dy: top.dy + dy, ...((id ?? top.thing) !== undefined && { thing: id ?? top.thing! }) });
            continue;
        }
        if (closing) continue;
        const { dx, dy, thing } = stack.at(-1)!;
        const owner = thing === undefined ? {} : { thing };
        if (name === 'text') {
            const size = Number(attribute(tag, 'font-size'));
            const tagged = attribute(tag, 'data-tag');
            words.push({ text: plain(text), x: Number(attribute(tag, 'x')) + dx, y: Number(attribute(tag, 'y')) + dy, size, anchor: attribute(tag, 'text-anchor') ?? 'start', bold: tag.includes('font-weight'), ...(tagged !== undefined && { tag: tagged }), ...owner, width: narrow(plain(text), size) });
        } else if (name === 'polyline') {
            const list = attribute(tag, 'points')!.split(' ').map((pair) => pair.split(',').map(Number) as [number, number]);
            list.slice(1).forEach(([x, y], i) => strokes.push({ from: [list[i]![0] + dx, list[i]![1] + dy], to: [x + dx, y + dy], ...owner }));
        } else if (name === 'rect') {
            const [x, y, w, h] = ['x', 'y', 'width', 'height'].map((key) => Number(attribute(tag, key) ?? 0)) as [number, number, number, number];
            shapes.push({ kind: 'rect', left: x + dx, right: x + dx + w, top: y + dy, bottom: y + dy + h, ...owner });
        } else if (name === 'circle') {
            const [x, y, r] = ['cx', 'cy', 'r'].map((key) => Number(attribute(tag, key))) as [number, number, number];
            shapes.push({ kind: 'circle', left: x + dx - r, right: x + dx + r, top: y + dy - r, bottom: y + dy + r, ...owner });
        } else if (name === 'path') {
            let [x, y] = [0, 0];
            for (const [, letter, rest] of attribute(tag, 'd')!.matchAll(/([MLHVAZ])([^MLHVAZ]*)/g)) {
                const at = rest!.trim().split(/[ ,]+/).map(Number);
                const [nextX, nextY] = letter === 'H' ? [at[0]!, y] : letter === 'V' ? [x, at[0]!] : letter === 'Z' ? [x, y] : [at.at(-2)!, at.at(-1)!];
                if (letter === 'L' || letter === 'H' || letter === 'V') strokes.push({ from: [x + dx, y + dy], to: [nextX + dx, nextY + dy], ...owner });
                [x, y] = [nextX, nextY];
            }
        }
    }
    const [width, height] = ['width', 'height'].map((name) => Number(new RegExp(`<svg[^>]* ${name}="([\\d.]+)"`).exec(svg)![1])) as [number, number];
    return { words, strokes, shapes, things, width, height };
}

export interface Axis { readonly top: number; readonly bottom: number; readonly heightAt: (y: number) => number; readonly pixel: number }

/** The scales of heights, from the ticks and figures that are printed: groups marked as axes, in their order down the sheet. */
export function axesOf(svg: string): Axis[] {
    return [...svg.matchAll(/<g data-axis="mm">(.*?)<\/g>/gs)].map(([, body]) => {
        const d = /d="M[-\d.]+ ([-\d.]+)V([-\d.]+)/.exec(body!)!;
        // A figure stands with its middle at its tick; the ticks are level strokes of 4.
        const ticks = [...new Set([...body!.matchAll(/M[-\d.]+ ([-\d.]+)H/g)].map((match) => Number(match[1])))];
        const figures = [...body!.matchAll(/<text[^>]* y="([-\d.]+)"[^>]*>(-?\d+)</g)].map((match) => ({ y: Number(match[1]), mm: Number(match[2]) }));
        const pairs = figures.map(({ y, mm }) => ({ mm, y: ticks.reduce((near, tick) => (Math.abs(tick - (y - 3.5)) < Math.abs(near - (y - 3.5)) ? tick : near)) }));
        const [first, last] = [pairs[0]!, pairs.at(-1)!];
        const perPixel = (last.mm - first.mm) / (last.y - first.y);
        return { top: Number(d[1]), bottom: Number(d[2]), heightAt: (y) => first.mm + (y - first.y) * perPixel, pixel: Math.abs(perPixel) };
    });
}

export interface Rect { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }
export const rectOf = ({ x, y, width, size, anchor }: Written): Rect => {
    const left = anchor === 'middle' ? x - width / 2 : anchor === 'end' ? x - width : x;
    return { left, right: left + width, top: y - size * 0.72, bottom: y };
};
export const overlap = (a: Rect, b: Rect): boolean => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Whether a stroke passes through a rectangle (Liang and Barsky's clipping). */
export function crosses({ from: [ax, ay], to: [bx, by] }: Stroke, { left, right, top, bottom }: Rect): boolean {
    let [enter, leave] = [0, 1];
    for (const [delta, low, high] of [[bx - ax, left - ax, right - ax], [by - ay, top - ay, bottom - ay]] as const) {
        if (delta === 0) { if (low > 0 || high < 0) return false; continue; }
        const [one, other] = [low / delta, high / delta];
        enter = Math.max(enter, Math.min(one, other));
        leave = Math.min(leave, Math.max(one, other));
    }
    return enter <= leave;
}
