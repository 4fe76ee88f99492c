/** Where a line would let a tank run out if it failed: at its points below the surface, as far as no check holds the liquid back. */
import type { Boat, Id } from '../../model/boat';
import { placesOf } from '../air/heights';
import { networkOf, type Network, type Positions } from '../topology/network';
import { fullest } from './condition';
import type { Lack } from './lack';
import type { Opening } from './openings';
import { plumbing } from './plumbing';
import { weigh, type Weighed } from './worst';

/**
 * What comes by one fitting of a tank out of some parts, each at its worst point, checks tight and what consumers let back counted as
 * nothing where they do not say so: what then runs out does so for certain.
 */
export function runsOut(boat: Boat, fitting: Id, parts: Iterable<Id>, settings: readonly Positions[]): Weighed {
    const network = networkOf(boat);
    const plumbings = settings.map((positions) => plumbing(network, positions, 'tight', 'blocks'));
    const found = [...parts].map((part) => {
        const { openings, lacks } = breaksOf(network, part);
        const weighed = weigh(plumbings, openings, fullest(boat), fitting);
        return weighed.reached ? { ...weighed, lacks: [...weighed.lacks, ...lacks] } : weighed;
    });
    const worst = found.flatMap((weighed) => weighed.worst ?? []).reduce<Weighed['worst']>((most, other) => (most && most.from.head >= other.from.head ? most : other), undefined);
    return { reached: found.some(({ reached }) => reached), tanks: [...new Set(found.flatMap(({ tanks }) => tanks))], lacks: found.flatMap(({ lacks }) => lacks), ...(worst && { worst }) };
}

/** In the whole boat, where the other fittings tell how high ends are: the points of a part at which it is judged: its ends, its lowest and highest point and its drain. */
function breaksOf(network: Network, id: Id): { readonly openings: readonly Opening[]; readonly lacks: readonly Lack[] } {
    const part = network.parts.get(id);
    const known = placesOf(network, id);
    const places = [...(known ?? [part?.low]), part?.drain].filter((place) => place?.up !== undefined);
    const opening = (place: Opening['place']): Opening => ({ part: id, name: 'joint', place, drainsPart: true });
    // Without any height it is still asked whether liquid comes to it at all; with one of several, the others are lacking.
    return places.length > 0 ? { openings: places.map(opening), lacks: known ? [] : [{ about: id, of: 'height' }] } : { openings: [opening(undefined)], lacks: [] };
}
