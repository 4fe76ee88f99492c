/** How far off a stated figure may be: a range says it itself, `about` is taken as 10 % either way (common practice), any other is what it says. */
import type { Measure } from '../model/measure';

const ABOUT = 0.1;

export const least = ({ si, low, about }: Measure): number => low ?? (about ? si * (1 - ABOUT) : si);
export const most = ({ si, high, about }: Measure): number => high ?? (about ? si * (1 + ABOUT) : si);
