/** How lines are told apart without colour: by service, and by what a mark says of them. */
import type { Service } from '../../model/boat';
import type { Mark } from './markup';
import { inked } from './svg';

/** Dashes by service; a supply is continuous. */
const DASHES: Readonly<Record<Service, string | undefined>> = { supply: undefined, return: '12 4', vent: '1.5 3.5', fill: '12 4 2 4', transfer: '12 3 2 3 2 3' };

export type Weight = 'live' | 'dead';

/** Live outweighs dead: a pipe that anything moves in is none that nothing moves in. */
export const weightOf = (marks: readonly Mark[]): Weight | undefined => marks.some(({ as }) => as === 'live') ? 'live' : marks.some(({ as }) => as === 'dead') ? 'dead' : undefined;

/** All attributes of a line of a service, its ink among them. */
export function lineStyle(service: Service, weight?: Weight): string {
    const width = weight === 'live' ? 3.4 : weight === 'dead' ? 0.7 : service === 'fill' ? 2.4 : 1.4;
    const dashes = weight === 'dead' ? '4 4' : DASHES[service];
    return `${inked('line', width)} stroke-linejoin="round"${dashes === undefined ? '' : ` stroke-dasharray="${dashes}"`}`;
}
