/** A tank at its true height, with the one of its fittings that a run begins or ends at; at the end of a run the mirror image. */
import type { Fitting, Tank } from '../../../model/boat';
import { figure } from '../../../model/words';
import { lineStyle, weightOf } from '../line-styles';
import { shapes, underlay, type Box } from '../marks';
import { inked, n, points } from '../svg';
import { extents, FOOT, notStated, ofLabel, ofPoint, some, type Column, type Fragment, type Told } from './column';
import { drawLabel, joined, label, leader, stackedDown, stackedUp, type Label } from './labels';
import { BRIM, heightIn, mm, tankIn, waterlineIn, type TankHeights } from './view';

const [BOX, TUBE, GAP, PAD] = [64, 46, 12, 8] as const;

interface Scale {
    readonly height: number;
    readonly label: Label;
}

/** What is said beside a tank. What coincides with the shown level is said once. */
function scaleOf(tank: Tank, heights: TankHeights, { view, marksOf, full }: Told): Scale[] {
    const leans = view.attitude.heel !== 0;
    const { level } = view.state;
    const tag = { text: tank.id, id: tank.id };
    const top = label(tag, full ? `${leans ? 'highest' : 'top'} ${mm(heights.high)}` : '', marksOf(tank.id));
    const shown = level === 0.5 ? 'shown, half' : level === BRIM ? `shown, ${figure(BRIM * 100)} %` : 'shown';
    if (!full) return [{ height: heights.high, label: top }, { height: heights.shown, label: label(undefined, `shown ${mm(heights.shown)}`) }];
    return [
        { height: heights.high, label: top },
        ...(level === BRIM ? [] : [{ height: heights.brim, label: label(undefined, `${figure(BRIM * 100)} % ${mm(heights.brim)}`) }]),
        { height: heights.shown, label: label(undefined, `${shown} ${mm(heights.shown)}`) },
        ...(level === 0.5 ? [] : [{ height: heights.half, label: label(undefined, `half ${mm(heights.half)}`) }]),
        ...(heights.least ? [{ height: heights.least.height, label: label(undefined, `lowest used, ${figure(heights.least.level * 100)} % ${mm(heights.least.height)}`) }] : []),
        { height: heights.low, label: label(undefined, `${leans ? 'lowest' : 'bottom'} ${mm(heights.low)}`) },
    ];
}

/** `end`: the run ends at it. Without a fitting it stands by itself. */
export function tankColumn(tank: Tank, fitting: Fitting | undefined, end: boolean, told: Told): Column & { readonly shown?: number; readonly edge: number } {
    const { view, service, marksOf } = told;
    const heights = tankIn(view, tank);
    const scale = heights ? scaleOf(tank, heights, told) : [];
    const [top, mouth] = [heightIn(view, fitting?.top), heightIn(view, fitting?.mouth)];
    const marks = fitting ? marksOf(fitting.id) : [];
    const named = fitting && { text: fitting.port, id: fitting.id };
    const topLabel = top === undefined || !named ? undefined : label(named, `${mm(top)}`, marks);
    const mouthLabel = mouth === undefined ? undefined : label(undefined, `mouth ${mm(mouth)}`);
    const feet = [...(heights ? [] : [label({ text: tank.id, id: tank.id }, 'size or place not stated', marksOf(tank.id), FOOT)]), ...(fitting && top === undefined ? [label(named, notStated(fitting.top), marks, FOOT)] : [])];
    const foot = feet.length === 0 ? undefined : joined(feet);
    const outer = Math.max(0, ...scale.map((one) => one.label.width)) + GAP;
    const inner = Math.max(0, ...some([topLabel, mouthLabel]).map(({ width }) => width)) + GAP + PAD;
    const natural = outer + BOX + inner;
    return {
        id: tank.id, width: Math.max(natural, (foot?.width ?? 0) + 2 * PAD), heights: [...some([top, mouth]), ...(heights ? [heights.low, heights.high] : [])],
        ...(top !== undefined && { into: top, out: top }), ...(foot && { foot }), ...(heights && { shown: heights.shown }), edge: outer + BOX,
        draw: ({ x, width, y, lines }) => {
            const X = (from: number): number => (end ? x + width - from : x + from);
            const fragments: Fragment[] = [];
            const reached: { top: number; bottom: number }[] = [{ top: Infinity, bottom: -Infinity }];
            const tubeX = X(outer + TUBE);
            if (heights) {
                const [high, low] = [y(heights.high), y(heights.low)];
                const left = Math.min(X(outer), X(outer + BOX));
                const box: Box = { x: left, y: high, width: BOX, height: low - high };
                const inside = (height: number, dashes: string): string => `<path ${inked('thin')}${dashes} d="M${n(left)} ${n(y(height))}H${n(left + BOX)}"/>`;
                const water = waterlineIn(view);
                const placed = stackedUp(scale.map((one) => ({ ...one, y: y(one.height) })), Infinity, water === undefined ? [] : [y(water)]);
                const surface = y(heights.shown);
                const sign = left + (end ? BOX - 12 : 12);
                fragments.push({
                    id: tank.id, body: [
                        underlay(box, marksOf(tank.id)), `<rect ${inked('outline')} x="${n(box.x)}" y="${n(box.y)}" width="${n(BOX)}" height="${n(box.height)}"/>`,
                        inside(heights.brim, ' stroke-dasharray="2 3"'), view.state.level === 0.5 ? '' : inside(heights.half, ' stroke-dasharray="6 3"'), heights.least ? inside(heights.least.height, ' stroke-dasharray="2 3"') : '',
                        `<path ${inked('line')} d="M${n(left)} ${n(surface)}H${n(left + BOX)}"/>`, `<polygon ${inked('outline')} points="${points([[sign - 4, surface - 7], [sign + 4, surface - 7], [sign, surface]])}"/>`,
                        ...placed.map((one) => leader([X(outer), one.y], X(outer - GAP + 3), one) + drawLabel(one.label, X(outer - GAP), one.top, end ? 'start' : 'end')), shapes(box, marksOf(tank.id)),
                    ].join(''),
                });
                reached.push(...placed.map(ofLabel), { top: high - 6, bottom: low + 6 });
            }
            if (fitting && top !== undefined) {
                const at = y(top);
                // A fitting without a mouth of its own ends at the top of its tank.
                const down = mouth !== undefined ? y(mouth) : heights && heights.high < top ? y(heights.high) : undefined;
                const crossing = [...lines, at];
                const labelX = X(outer + BOX + GAP);
                const anchor = end ? 'end' : 'start';
                const first = stackedUp(topLabel ? [{ y: at - topLabel.height / 2 - 2, label: topLabel }] : [], at - 2, crossing);
                const mouthAt = mouth === undefined ? undefined : y(mouth);
                const second = !mouthLabel ? [] : mouthAt! > at ? stackedDown([{ y: mouthAt!, label: mouthLabel }], at + 2, crossing) : stackedUp([{ y: mouthAt!, label: mouthLabel }], Math.min(at - 2, ...first.map((one) => one.top)), crossing);
                const ring: Box = { x: tubeX - 5, y: at - 5, width: 10, height: 10 };
                const style = lineStyle(service, weightOf(marks));
                fragments.push({
                    id: fitting.id, body: [
                        underlay(ring, marks), `<path ${style} d="M${down === undefined ? '' : `${n(tubeX)} ${n(down)}V${n(at)}M`}${n(tubeX)} ${n(at)}H${n(X(width))}"/>`, `<circle ${inked('solid')} cx="${n(tubeX)}" cy="${n(at)}" r="2"/>`,
                        mouthAt === undefined ? '' : `<path ${inked('line')} d="M${n(tubeX - 5)} ${n(mouthAt)}H${n(tubeX + 5)}"/>`,
                        ...first.map((one) => drawLabel(one.label, labelX, one.top, anchor)),
                        ...second.map((one) => leader([tubeX + (end ? -5 : 5), mouthAt!], labelX + (end ? 3 : -3), one) + drawLabel(one.label, labelX, one.top, anchor)), shapes(ring, marks),
                    ].join(''),
                });
                reached.push(...first.map(ofLabel), ...second.map(ofLabel), ofPoint(at, 10), ...(mouthAt === undefined ? [] : [ofPoint(mouthAt, 4)]));
            }
            return { fragments, ...extents(...reached) };
        },
    };
}
