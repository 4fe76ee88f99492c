/** Where a filter is open to the air when it is serviced, and whether liquid of a tank can stand above that. */
import type { Boat, Part, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import { canStandAbove } from './surface';

export interface Opening {
    readonly name: 'lid' | 'drain' | 'ports';
    readonly place: Place;
}

/** The lid and the drain; the ports stand in where a filter is known by them alone, as when its whole body is screwed off. */
export function openingsOf(filter: Part): readonly Opening[] {
    const of = (name: Opening['name'], place: Place | undefined): Opening[] => (place ? [{ name, place }] : []);
    return [...of('lid', filter.lid), ...of('drain', filter.drain), ...of('ports', filter.at)];
}

export function couldFlood(boat: Boat, tanks: readonly Tank[], filter: Part): 'yes' | 'no' | 'unknown' {
    const openings = openingsOf(filter);
    const answers = tanks.flatMap((tank) => (openings.length === 0 ? ['unknown' as const] : openings.map(({ place }) => canStandAbove(boat, tank, place))));
    return answers.includes('yes') ? 'yes' : answers.includes('unknown') ? 'unknown' : 'no';
}
