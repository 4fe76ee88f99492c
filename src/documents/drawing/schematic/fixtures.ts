/** What lines end or part at: tanks, engines, tees, valves with several ways, open ends. */
import type { Part } from '../../../model/boat';
import { mm } from '../../figures';
import { escapeXml } from '../../procedures/safe';
import { lineStyle } from '../line-styles';
import { roomFor, said, shapes, underlay, type Box } from '../marks';
import type { Laid } from '../plan';
import { SIZE, inked, n, thing, widthOf, words, type Point } from '../svg';
import { ABOVE, SMALL } from './cells';
import { bleeds, d, explain, fitted, loose, marksOf, tagged, weight, type Drawing } from './drawing';
import { consumerNames, portWord, portsWidth, tankNames, ventsWidth } from './place';
import type { Fixture } from './runs';
import { outside, way } from './symbols';

/** Where its ports stand, and of a tee where its lines part. */
export interface Placed {
    readonly laid: Laid;
    readonly dots: readonly Point[] | undefined;
}

export function drawFixture(drawing: Drawing, fixture: Fixture, box: Box, { laid, dots }: Placed, under: string[]): string {
    switch (fixture.kind) {
        case 'tank': return drawTank(drawing, fixture, box, laid, under);
        case 'consumer': return drawConsumer(drawing, fixture, box, laid, under);
        case 'tee': return drawTee(drawing, fixture, box, dots, under);
        case 'valve': return drawValve(drawing, fixture, box, laid, under);
        case 'end': return drawEnd(drawing, fixture, box);
    }
}

function drawTank(drawing: Drawing, { tank, outlets }: Fixture, box: Box, laid: Laid, under: string[]): string {
    const { id, title, fittings } = tank!;
    const inner: Box = { x: box.x, y: box.y + 6, width: box.width, height: box.height - 12 };
    const marks = marksOf(drawing, id);
    under.push(underlay(inner, marks));
    const shape = `<rect ${inked('outline', 1.6)} x="${n(inner.x)}" y="${n(inner.y)}" width="${n(inner.width)}" height="${n(inner.height)}"/>`;
    explain(drawing, 'tank', `<rect ${inked('outline', 1.6)} x="6" y="-9" width="28" height="18"/>`);
    const named = tankNames(tank!).map((name, i) => words(name, { x: box.x + box.width / 2, y: box.y + 22 + i * 13, size: i === 0 ? SIZE + 1 : SMALL, anchor: 'middle', bold: i === 0, ...(i === 0 && { also: tagged(id) }) })).join('');
    const drawn = thing(id, 'tank', `${id}${title === undefined ? '' : `, ${title}`}: tank`, shape + named + shapes(inner, marks) + said(fitted(drawing, marks, box.width - 16, 3), { x: box.x + 8, y: inner.y - 8 }));
    const inlets = outlets.map(({ point, side }) => {
        const fitting = fittings.find((other) => other.id === point)!;
        const at = laid.ports.get(point)!;
        const inward = side === 'east' ? -1 : 1;
        const edge = side === 'east' ? box.x + box.width : box.x;
        const own = marksOf(drawing, point);
        // Two that face one another share the width of the tank.
        const shares = outlets.some((other) => other.side !== side && marksOf(drawing, other.point).some((mark) => mark.words !== undefined));
        const told = fitted(drawing, own, shares ? box.width / 2 - 24 : box.width - 28, 1);
        const spot: Box = { x: Math.min(edge, edge + inward * 14), y: at.y - 5, width: 14, height: 20 };
        under.push(underlay(spot, own));
        if (fitting.kind === 'pickup' || fitting.kind === 'drop') explain(drawing, 'pipe that reaches into its tank', `<path ${inked('line')} d="M34 -8H20V8"/>`);
        // A pickup and a drop reach down to their mouths; a vent and a fill end at the wall.
        const reaches = fitting.kind === 'pickup' || fitting.kind === 'drop';
        const pipe = `<path ${inked('line')} d="${d(reaches ? [[edge, at.y], [edge + inward * 14, at.y], [edge + inward * 14, at.y + 16]] : [[edge, at.y], [edge + inward * 8, at.y]])}"/>`;
        const tag = point.startsWith(`${id}.`) ? point.slice(id.length + 1) : point;
        const label = words(tag, { x: edge + inward * 20, y: at.y + 4, size: SMALL, anchor: side === 'east' ? 'end' : 'start', bold: true, also: tagged(point) });
        const mouth = reaches && fitting.mouth?.up ? words(`mouth ${mm(fitting.mouth.up.si)}`, { x: edge + inward * 20, y: at.y + 16, size: 9, anchor: side === 'east' ? 'end' : 'start' }) : '';
        return thing(point, fitting.kind, `${point}: ${fitting.kind} of ${id}`, pipe + label + mouth + shapes(spot, own) + said(told, { x: side === 'east' ? edge - 20 - roomFor(told).width : edge + 6, y: at.y - 9 }));
    });
    return drawn + inlets.join('');
}

function drawConsumer(drawing: Drawing, { consumer, outlets }: Fixture, box: Box, laid: Laid, under: string[]): string {
    const { id, title, kind, vents } = consumer!;
    const inner: Box = { x: box.x, y: box.y + 30, width: box.width, height: box.height - 36 };
    const marks = marksOf(drawing, id);
    under.push(underlay(inner, marks));
    explain(drawing, 'engine or what else uses what comes', `<rect ${inked('outline', 1.6)} x="6" y="-9" width="28" height="18"/><path ${inked('line')} d="M0 -4H6M0 4H6"/>`);
    const names = consumerNames(consumer!);
    const named = names.map((name, i) => words(name, { x: box.x + (portsWidth(outlets) + box.width) / 2, y: inner.y + 18 + i * 14, size: i === 0 ? SIZE + 1 : SMALL, anchor: 'middle', bold: i === 0, ...(i === 0 && { also: tagged(id) }) })).join('');
    const ports = outlets.flatMap(({ point }) => {
        const [name, { y }] = [portWord(point), laid.ports.get(point)!];
        return [`<path ${inked('line')} d="M${n(box.x)} ${n(y)}h6"/>`, name === '' ? '' : words(name, { x: box.x + 9, y: y + 16, size: 9 })];
    }).join('');
    // What is said of it stands at its foot, in what room its names and its ports leave.
    const foot = inner.y + inner.height - 8;
    const lowest = Math.max(inner.y + 4 + names.length * 14, ...outlets.flatMap(({ point }) => (portWord(point) === '' ? [] : [laid.ports.get(point)!.y + 16])));
    const told = fitted(drawing, marks, box.width - 20, Math.max(1, Math.min(3, Math.floor((foot - lowest) / 14))));
    const drawn = thing(id, kind, `${id}${title === undefined ? '' : `, ${title}`}: ${kind}`, `<rect ${inked('outline', 1.6)} x="${n(inner.x)}" y="${n(inner.y)}" width="${n(inner.width)}" height="${n(inner.height)}"/>${named}${ports}${shapes(inner, marks)}${said(told, { x: box.x + 12, y: foot + 2 })}`);
    return drawn + bleeds(drawing, vents, box.x + Math.max(12, (box.width - ventsWidth(vents)) / 2), inner.y, under);
}

/** The dot stands where lines part; where several part one after the other there are several, and the first bears the tag. */
function drawTee(drawing: Drawing, { part, id, outlets: [outlet] }: Fixture, { x, y, width, height }: Box, dots: readonly Point[] | undefined, under: string[]): string {
    const places = dots ?? [[x + width / 2, y + height / 2] as const];
    const [cx, cy] = places[0]!;
    const box: Box = { x: cx - 3, y: cy - 3, width: 6, height: 6 };
    const marks = marksOf(drawing, part?.id ?? id);
    under.push(underlay(box, marks));
    explain(drawing, 'lines joined', `<path ${inked('line')} d="M0 0H40M20 0V10"/><circle ${inked('solid')} cx="20" cy="0" r="3"/>`);
    const tag = part?.tag === undefined ? '' : words(part.tag, { x: cx + 6, y: cy - 8, bold: true, also: tagged(part.id) });
    // The library leaves room for it between what comes from the left and what leads on to the right.
    const across = `<path ${lineStyle(outlet?.service ?? 'supply', weight(drawing, part?.id ?? id))} d="M${n(x)} ${n(y + height / 2)}H${n(x + width)}"/>`;
    const drawn = across + places.map(([px, py]) => `<circle ${inked('solid')} cx="${n(px)}" cy="${n(py)}" r="3"/>`).join('');
    return thing(part?.id ?? id, 'tee', part ? `${part.name}: tee` : `lines joined at ${id}`, `${drawn}${tag}${shapes(box, marks)}${said(fitted(drawing, marks, 60, 2), { x: cx + 4, y: cy - (part?.tag === undefined ? 8 : 21) })}`);
}

/** Whether anything passes a port in the position of its valve. */
function passes(part: Part, port: string, position: string | undefined): boolean {
    return part.positions.some(({ name, joins }) => name === position && joins.some((joined) => joined.includes(port) && joined.length > 1));
}

function drawValve(drawing: Drawing, { part: given, outlets, further }: Fixture, box: Box, laid: Laid, under: string[]): string {
    const part = given!;
    const position = drawing.positions.get(part.id);
    const west = outlets.filter(({ side }) => side === 'west');
    const labelled = Math.max(0, ...west.map(({ point }) => widthOf(point.slice(part.id.length + 1), SMALL)), 24);
    const cx = box.x + labelled + 16;
    const ys = outlets.map(({ point }) => laid.ports.get(point)!.y);
    const lone = (['west', 'east'] as const).map((side) => outlets.filter((outlet) => outlet.side === side)).find((own) => own.length === 1);
    const cy = lone ? laid.ports.get(lone[0]!.point)!.y : ys.length === 0 ? box.y + ABOVE : (Math.min(...ys) + Math.max(...ys)) / 2;
    // Its position is printed anyway.
    const marks = marksOf(drawing, part.id).map(({ words: own, ...mark }) => (own === undefined || own === position ? mark : { ...mark, words: own }));
    const spot: Box = { x: cx - 14, y: cy - 14, width: 28, height: 28 };
    if (!further) under.push(underlay(spot, marks));
    const taken = new Set<string>();
    const body = outlets.map(({ point, side, service, next }) => {
        const at = laid.ports.get(point)!;
        const style = service === undefined ? inked('line') : lineStyle(service, next === undefined ? undefined : weight(drawing, next));
        const shut = position !== undefined && !passes(part, point.slice(part.id.length + 1), position);
        const straight: Point = [side === 'west' ? -1 : 1, 0];
        const wanted: Point = Math.abs(at.y - cy) < 1 ? straight : [0, at.y < cy ? -1 : 1];
        const dir = taken.has(String(wanted)) ? straight : wanted;
        taken.add(String(dir));
        const edge = side === 'west' ? box.x : box.x + box.width;
        const tip: Point = [cx + dir[0] * 14, cy + dir[1] * 14];
        const line: Point[] = dir[1] === 0 && Math.abs(at.y - cy) > 1 ? [[edge, at.y], [cx + dir[0] * 20, at.y], [cx + dir[0] * 20, cy], tip] : dir[1] === 0 ? [[edge, at.y], tip] : [[edge, at.y], [cx, at.y], tip];
        // Beside the sign of an end that nothing is joined to.
        const off = service === undefined ? 8 : 3;
        const name = words(point.slice(part.id.length + 1), { x: side === 'west' ? box.x + off : box.x + box.width - off, y: at.y - 5, size: 9, anchor: side === 'west' ? 'start' : 'end' });
        return `<path ${style} d="${d(line)}"/><g transform="translate(${n(cx)} ${n(cy)})">${way(dir, shut)}</g>${name}${service === undefined ? loose(drawing, edge, at.y) : ''}`;
    }).join('');
    explain(drawing, 'valve with several ways; the filled ones are shut', `<g transform="translate(20 -6)">${way([-1, 0], false)}${way([1, 0], false)}${way([0, 1], true)}</g>`, 28);
    const names = further ? [] : [part.tag ?? '', position === undefined ? 'not placed' : position, ...(part.gangedWith === undefined ? [] : [`with ${part.gangedWith}`]), ...(part.label === undefined ? [] : [`"${part.label}"`])];
    const named = names.map((name, i) => words(name, { x: cx + 18, y: cy + 24 + i * 12, size: i === 0 ? SIZE : SMALL, bold: i === 0, ...(i === 0 && part.tag !== undefined && { also: tagged(part.id) }) })).join('');
    // A valve in two pieces is one thing: its second piece says so, and is found by it.
    const says = `${part.name}${part.title === undefined ? '' : `, ${part.title}`}: ${part.kind}${position === undefined ? '' : `, in position ${position}`}`;
    if (further) return `<g data-of="${escapeXml(part.id)}" data-kind="${part.kind}"><title>${escapeXml(says)}</title>${body}${words(`with ${part.tag ?? 'it'}`, { x: cx + 18, y: cy + 24, size: 9 })}</g>\n`;
    return thing(part.id, part.kind, says, body + named + shapes(spot, marks) + said(fitted(drawing, marks, 90, 2), { x: cx + 18, y: cy - 10 }));
}

function drawEnd(drawing: Drawing, { id }: Fixture, box: Box): string {
    const kind = id.slice(id.lastIndexOf(':') + 1) as 'air' | 'deck' | 'sea';
    const { name, body } = outside(kind);
    explain(drawing, name, `<g transform="translate(30 ${kind === 'air' ? 10 : 0})">${body}</g>`);
    return thing(id, 'end', name, `<g transform="translate(${n(box.x + box.width)} ${n(box.y + ABOVE)})">${body}</g>`);
}
