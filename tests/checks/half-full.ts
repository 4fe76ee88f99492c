/**
 * SLOOP with her tank half full, so that every surface is known by hand: a plane that halves a box goes through its centre, however it leans. The
 * box is 800 long, 600 broad and 400 high from 2000 mm fwd, 300 mm stbd, 200 mm up: its centre is at 2400 mm fwd, 600 mm stbd, 400 mm up.
 *
 * With heel p (starboard down) and trim t (bow up) a point x fwd, y stbd, z up stands x sin t + (z cos p - y sin p) cos t high. Against a
 * point at 2400 mm fwd, y, z the surface therefore stands ((400 - z) cos p - (600 - y) sin p) cos t higher, whatever the bow does.
 */
import { SLOOP, edit } from './boats';

export const HALF = edit(SLOOP, 'level 10 to 95 %', 'level 50 %');

/** The boat with a line-up for service that shuts these. */
export const service = (text: string, settings = ''): string => `${text}line-up SERVICE service from RUN { ${settings} }\n`;

/** The boat with F1 in a place. */
export const f1 = (text: string, ...facts: readonly string[]): string => edit(text, 'passes 10 um', ['passes 10 um', ...facts.map((fact) => `    ${fact}`)].join('\n'));
export const f2 = (text: string, ...facts: readonly string[]): string => edit(text, 'passes 5 um', ['passes 5 um', ...facts.map((fact) => `    ${fact}`)].join('\n'));
