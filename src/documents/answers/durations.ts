/** Times in words: how long something lasts, and when something comes about. */
import type { Estimate } from '../../analysis/estimate';
import type { When } from '../../analysis/time/lack';
import { figure } from '../../model/words';
import { round } from './open';

const HOUR = 3600;
/** s: below this minutes are told. */
const SHORT = 2 * HOUR;

export const durationWords = (seconds: number): string => (seconds < SHORT ? `${figure(seconds / 60)} min` : `${figure(seconds / HOUR)} h`);

/** `67.3 h (58.1 to 80)` */
export const lastsWords = ({ si, least, most }: Estimate): string => `${durationWords(si)}${durationWords(least) === durationWords(most) ? '' : ` (${durationWords(least)} to ${durationWords(most)})`}`;

/** It may never come where no latest is told. */
export function whenWords({ soonest, si, latest }: When): string {
    if (si === undefined) return `after ${durationWords(soonest)} at the soonest, if at all`;
    if (si === 0) return 'at once';
    return `after ${durationWords(si)}${durationWords(soonest) === durationWords(si) ? '' : `, ${durationWords(soonest)} at the soonest`}${latest === undefined ? ', if at all' : ''}`;
}

const hours = (seconds: number): number => round(seconds / HOUR);
export const lastsData = ({ si, least, most }: Estimate): unknown => ({ hours: hours(si), leastHours: hours(least), mostHours: hours(most) });
export const whenData = ({ soonest, si, latest }: When): unknown => ({ soonestHours: hours(soonest), ...(si !== undefined && { hours: hours(si) }), ...(latest !== undefined && { latestHours: hours(latest) }) });
