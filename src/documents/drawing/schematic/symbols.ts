/**
 * Signs of parts in the plain form of ISO 14617 and ISO 10628-2, as common practice has them (the texts of the standards were not read; every
 * sheet has a legend). Each is drawn about the point where the line passes, for flow to the right.
 */
import type { Part } from '../../../model/boat';
import { inked, n, points, type Ink, type Point } from '../svg';

/** Half the length that a sign takes of its line, and half its height. */
export const HALF = 14;
export const TALL = 14;

const polygon = (ink: Ink, ...corners: Point[]): string => `<polygon ${inked(ink)} points="${points(corners)}"/>`;
const path = (ink: Ink, d: string, also = ''): string => `<path ${inked(ink)}${also} d="${d}"/>`;
const circle = (ink: Ink, x: number, y: number, r: number): string => `<circle ${inked(ink)} cx="${n(x)}" cy="${n(y)}" r="${n(r)}"/>`;

/** One way of a valve: a triangle whose tip is at the middle. Black is shut. */
export const way = ([dx, dy]: Point, shut: boolean, reach = HALF): string =>
    polygon(shut ? 'solid' : 'outline', [0, 0], [dx * reach - dy * 9, dy * reach + dx * 9], [dx * reach + dy * 9, dy * reach - dx * 9]);

const shutoff = (shut: boolean): string => way([-1, 0], shut) + way([1, 0], shut);
const check = (): string => polygon('outline', [-HALF, -9], [-HALF, 9], [HALF - 4, 0]) + path('line', `M${HALF - 4} -10V10`);
const pump = (): string => circle('outline', 0, 0, HALF) + polygon('solid', [-6, -9], [-6, 9], [HALF - 1, 0]);
const handle = path('line', `M0 -${HALF}V-22M-8 -22H8`);
const motor = circle('outline', 0, -HALF - 8, 7.5) + `<text ${inked('words')} x="0" y="${-HALF - 4.6}" font-size="9" text-anchor="middle">M</text>`;
const drive = path('line', `M-6 -22L0 -${HALF}L6 -22`);
const filter = polygon('outline', [-HALF, 0], [0, -HALF], [HALF, 0], [0, HALF]) + path('thin', `M0 -${HALF}V${HALF}`, ' stroke-dasharray="3 2"');
const strainer = `<rect ${inked('outline')} x="${-HALF}" y="-10" width="${2 * HALF}" height="20"/>` + path('thin', `M0 -10V10`, ' stroke-dasharray="3 2"');
const water = path('line', `M-5 ${HALF - 5}H5`) + path('line', `M-3 ${HALF - 2}H3`);
const gauge = (letters: string): string => path('thin', 'M0 0V-6') + circle('outline', 0, -16, 10) + `<text ${inked('words')} x="0" y="-12.6" font-size="9" text-anchor="middle">${letters}</text>`;
const radiator = `<rect ${inked('outline')} x="${-HALF}" y="-11" width="${2 * HALF}" height="22"/>` + path('thin', `M${-HALF} 0L-8 -8L-2 8L4 -8L8 4L${HALF} 0`);
const solenoid = path('thin', 'M0 0V-12') + `<rect ${inked('outline')} x="-6" y="-22" width="12" height="10"/>` + `<text ${inked('words')} x="0" y="-14" font-size="8" text-anchor="middle">S</text>`;

/** The sign of a part in a line, how it is called in the legend, and whether the line goes on beneath it. */
export interface Sign {
    readonly name: string;
    readonly body: string;
    /** How high it stands above the line. */
    readonly above: number;
    readonly through?: true;
}

export function signOf(part: Part, shut: boolean): Sign {
    switch (part.kind) {
        case 'shutoff': return part.solenoid ? { name: shut ? 'solenoid valve, shut' : 'solenoid valve, open', body: shutoff(shut) + solenoid, above: 22 } : { name: shut ? 'shutoff, shut' : 'shutoff, open', body: shutoff(shut), above: 9 };
        case 'check': return { name: 'check valve: passes towards the bar', body: check(), above: 10 };
        case 'filter': return part.separatesWater ? { name: 'filter that separates water', body: filter + water, above: HALF } : { name: 'filter', body: filter, above: HALF };
        case 'strainer': return { name: 'strainer', body: strainer, above: 10 };
        case 'gauge': return { name: part.reads === 'vacuum' ? 'gauge, reads suction' : 'gauge', body: gauge('PI'), above: 26, through: true };
        case 'radiator': return { name: 'radiator', body: radiator, above: 11 };
        case 'hand primer': return { name: 'pump worked by hand', body: pump() + handle, above: 22 };
        case 'electric primer': case 'electric pump': return { name: 'electric pump', body: pump() + motor, above: 30 };
        case 'lift pump': return { name: 'lift pump, driven by the engine', body: pump() + drive, above: 22 };
        default: return { name: 'part', body: strainer, above: 10 };
    }
}

/** A bleed point: a stub with a screw, drawn up from where it stands. */
export const bleedPoint = (): string => path('thin', 'M0 0V-12') + path('line', 'M-4.5 -12H4.5');
/** A drain: a stub down, with a cock or, when it is plugged, with a cap. */
export const drain = (plugged: boolean): string => path('thin', 'M0 0V6') + (plugged ? `<rect ${inked('solid')} x="-3.5" y="6" width="7" height="4"/>` : polygon('outline', [-4.5, 6], [4.5, 6], [0, 12]));

/** An arrow head on a line, at its tip. */
export const arrow = (right: boolean): string => polygon('solid', [0, 0], [right ? -9 : 9, -3.8], [right ? -9 : 9, 3.8]);

/** Where a line leaves the boat, drawn to the left of the point where it ends. */
export function outside(kind: 'air' | 'deck' | 'sea' | 'loose'): { readonly name: string; readonly body: string } {
    if (kind === 'air') return { name: 'open to the air', body: path('line', 'M0 0H-10V-10A6 6 0 0 0 -22 -10V-3') };
    if (kind === 'deck') return { name: 'deck plate', body: path('line', 'M0 0H-14') + path('line', 'M-14 -9V9') + polygon('outline', [-14, -6], [-14, 6], [-21, 9], [-21, -9]) };
    if (kind === 'sea') return { name: 'sea', body: path('line', 'M0 0H-14') + path('line', 'M-14 -8Q-18 -4 -14 0T-14 8M-19 -8Q-23 -4 -19 0T-19 8') };
    return { name: 'end that is joined to nothing', body: path('line', 'M0 -5V5') };
}
