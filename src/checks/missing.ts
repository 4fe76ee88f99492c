/** Facts that more than one rule may miss, named alike everywhere, so that one measurement settles all of them. */
import type { Boat, Consumer, Id, Part, Tank } from '../model/boat';
import type { Place } from '../model/measure';
import type { Lack } from '../analysis/opening/lack';
import type { MissingFact } from '../model/finding';

const LEVEL = 'measure it from the datum with a water level';

export const positionMissing = (valve: Id, lineUp: Id): MissingFact => ({ about: valve, fact: `the position of ${valve} in line-up ${lineUp}`, how: 'write it into the line-up' });
export const heightMissing = (vent: Id): MissingFact => ({ about: vent, fact: `the height of ${vent}`, how: LEVEL });
/** The height of a place on a part: its lid, its drain, its ports. */
export const placeMissing = (part: Pick<Part, 'id' | 'name'>, place: string): MissingFact => ({ about: part.id, fact: `the height of the ${place} of ${part.name}`, how: LEVEL });
export const heightsMissing = (id: Id, name: string): MissingFact => ({ about: id, fact: `the heights of ${name}`, how: 'measure its highest point and its ends from the datum with a water level' });
export const sizeMissing = (tank: Id): MissingFact => ({ about: tank, fact: `the size and height of ${tank}`, how: 'measure it, and write `box 800 x 600 x 420 mm` and `low aft inner corner at 200 mm`' });
export const lengthMissing = (pipe: Part, between: string): MissingFact => ({ about: pipe.id, fact: `the length of ${pipe.name}`, how: `measure the pipe between ${between}` });
export const drawsMissing = (consumer: Consumer): MissingFact => ({ about: consumer.id, fact: `the gross flow of ${consumer.id}`, how: 'take it from the maker\'s data (what is burnt and what returns), up to full speed, and write `draws 15 L/h at 2400 rpm`' });
export const finalMissing = (last: Id, consumer: Id): MissingFact => ({ about: last, fact: `which filter is the final one of ${consumer}`, how: 'look on the engine, and write `final` on the last filter' });
export const waterMissing = (filter: Part): MissingFact => ({ about: filter.id, fact: `what ${filter.name} does with water`, how: 'look for a bowl with a drain; if it has one, write `separates water` and where the drain is' });
export const injectionMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `how ${consumer} injects`, how: 'read the engine plate or the maker\'s book, and write for example `injection in-line mechanical`' });
export const mouthMissing = (fitting: Id): MissingFact => ({ about: fitting, fact: `the height of the mouth of ${fitting}`, how: 'measure how far the pipe reaches into the tank, and write `mouth at 25 mm off bottom`' });
export const backflowMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `what ${consumer} lets flow back from its return`, how: 'ask the maker whether the overflow of its pump has a check, and write `backflow blocks` or `backflow passes`' });
export const positionsMissing = (valve: Id): MissingFact => ({ about: valve, fact: `what the positions of ${valve} join`, how: 'turn it and see, and write a line like `position PORT joins port, out` for each' });

const whereMissing = (about: Id, name: string): MissingFact => ({ about, fact: `where ${name} stands along and across the boat`, how: 'measure it from the transom and from the centreline, and write it like `at 660 mm up, 3300 mm fwd, 300 mm port`' });
const runMissing = (pipe: Part): MissingFact => ({ about: pipe.id, fact: `where the ends and the lowest point of ${pipe.name} stand along and across the boat`, how: 'measure them from the transom and from the centreline, and write them like `low at 560 mm up, 3300 mm fwd, 300 mm port`' });

export const heelMissing: MissingFact = { about: 'vessel', fact: 'the heel and trim that she must work in', how: 'decide them, and write `envelope heel 25 deg   trim 3 deg`' };
export const crackMissing = (part: Part): MissingFact => ({ about: part.id, fact: `the pressure at which ${part.name} opens`, how: 'take it from the maker\'s data, or measure the height of fuel that it holds, and write `cracks 3 kPa`' });

/** What must be known before it can be said whether liquid of the tank can stand above the place; empty when all of it is. */
export function missingForHead(boat: Boat, tank: Tank, place: Place | undefined, height: MissingFact): MissingFact[] {
    const { heel, trim } = boat.vessel.envelope;
    const found: MissingFact[] = [];
    if (!place?.up) found.push(height);
    if (!tank.box?.corner.up) found.push(sizeMissing(tank.id));
    if (heel === undefined || trim === undefined) found.push(heelMissing);
    const leans = (heel?.high ?? heel?.si ?? 0) > 0;
    const trims = (trim?.high ?? trim?.si ?? 0) > 0;
    const lacks = (at: Place | undefined): boolean => at?.up !== undefined && ((leans && !at.stbd) || (trims && !at.fwd));
    if (lacks(place)) found.push(whereMissing(height.about, height.about));
    if (lacks(tank.box?.corner)) found.push(whereMissing(tank.id, tank.id));
    return found;
}

/** Each fact once. */
export const distinct = (missing: readonly MissingFact[]): MissingFact[] => missing.filter(({ about, fact }, i) => missing.findIndex((other) => other.about === about && other.fact === fact) === i);

/** In words what an analysis of openings lacked. */
export function missingOf(boat: Boat, { about, opening, of }: Lack): MissingFact {
    const part = boat.parts.find(({ id }) => id === about);
    const vent = opening === undefined ? undefined : [...boat.parts, ...boat.consumers].flatMap(({ vents }) => vents).find(({ tag }) => tag === opening);
    const isPipe = part?.kind === 'hose' || part?.kind === 'tube';
    switch (of) {
        case 'height': return isPipe ? heightsMissing(about, part.name) : vent ? heightMissing(vent.id) : part ? placeMissing(part, opening === undefined || opening === 'joint' ? 'ports' : opening) : { about, fact: `the height of the inlet of ${about}`, how: LEVEL };
        case 'place': return isPipe ? runMissing(part) : whereMissing(vent?.id ?? about, vent?.id ?? about);
        case 'tank place': return whereMissing(about, about);
        case 'shape': return sizeMissing(about);
        case 'level': return { about, fact: `how much is in ${about}`, how: `sound it, and say \`${about} at 100 L\`` };
        case 'mouth': return mouthMissing(about);
        case 'backflow': return backflowMissing(about);
        case 'envelope': return heelMissing;
    }
}
