/** Facts that more than one rule may miss, named alike everywhere, so that one measurement settles all of them. */
import type { Boat, Consumer, Fitting, Id, Part, Tank } from '../model/boat';
import type { Place } from '../model/measure';
import type { Lack } from './opening/lack';
import type { Ground, MissingFact } from '../model/finding';
import { corners, UPRIGHT } from './tanks/attitude';
import { span } from './tanks/liquid';
import type { LineLack } from './opening/severed';
import type { Untold } from './flow/suction';

type Named = Pick<Part, 'id' | 'name'>;

const LEVEL = 'measure it from the datum with a water level';

export const positionMissing = (valve: Id, lineUp: Id): MissingFact => ({ about: valve, fact: `the position of ${valve} in line-up ${lineUp}`, how: 'write it into the line-up' });
export const heightMissing = (vent: Id): MissingFact => ({ about: vent, fact: `the height of ${vent}`, how: LEVEL });
/** The height of a place on a part: its lid, its drain, its ports. */
export const placeMissing = (part: Named, place: string): MissingFact => ({ about: part.id, fact: `the height of the ${place} of ${part.name}`, how: LEVEL });
export const heightsMissing = (id: Id, name: string): MissingFact => ({ about: id, fact: `the heights of ${name}`, how: 'measure its highest point and its ends from the datum with a water level' });
export const sizeMissing = (tank: Id): MissingFact => ({ about: tank, fact: `the size and height of ${tank}`, how: 'measure it, and write `box 800 x 600 x 420 mm` and `low aft inner corner at 200 mm`; or two sections or more, if it is no box' });
export const boreMissing = (pipe: Named): MissingFact => ({ about: pipe.id, fact: `the bore of ${pipe.name}`, how: 'read it on the pipe, or measure inside an end, and write `bore 8 mm`' });
export const lengthMissing = (pipe: Named, between: string): MissingFact => ({ about: pipe.id, fact: `the length of ${pipe.name}`, how: `measure the pipe between ${between}` });
export const rateMissing = (pump: Named): MissingFact => ({ about: pump.id, fact: `what ${pump.name} delivers`, how: 'read its plate, and write `gives 60 L/h`' });
export const strokeMissing = (pump: Pick<Part, 'id' | 'name' | 'kind'>): MissingFact => ({ about: pump.id, fact: `what one stroke of ${pump.name} moves`, how: `catch ten full strokes in a measure, and write \`${pump.kind === 'lift pump' ? 'lever 3 mL' : 'stroke 15 mL'}\`` });
export const liftMissing = (pump: Named): MissingFact => ({ about: pump.id, fact: `how high ${pump.name} lifts fuel when dry`, how: 'ask its maker, and write `lifts 900 mm`' });
export const holdsMissing = (part: Named): MissingFact => ({ about: part.id, fact: `what ${part.name} holds`, how: 'read it in the maker\'s data, or fill it from a measure, and write `holds 450 mL`' });
/** One fact for a whole line, so that a boat without heights does not ask for each of them. */
export const linesMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `where the supply line of ${consumer} rises and falls`, how: 'measure the height of each part on it, and of the highest point of each hose that rises above its ends, and write `at 660 mm` and `crest at 760 mm`' });
export const lowPressureMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `where low pressure ends in ${consumer}`, how: 'list its bleed points in the maker\'s order, like `bleed BS3 "gallery"`, or write `self-bleeding`' });
export const whereMissing = (about: Id, name: string): MissingFact => ({ about, fact: `where ${name} stands along and across the boat`, how: 'measure it from the transom and from the centreline, and write it like `at 660 mm up, 3300 mm fwd, 300 mm port`' });
export const drawsMissing = (consumer: Pick<Consumer, 'id'>): MissingFact => ({ about: consumer.id, fact: `the gross flow of ${consumer.id}`, how: 'take it from the maker\'s data (what is burnt and what returns), up to full speed, and write `draws 15 L/h at 2400 rpm`' });
export const ratedMissing = (filter: Named): MissingFact => ({ about: filter.id, fact: `the rated flow of ${filter.name}`, how: 'read it on the filter or in its maker\'s data, and write `rated 60 L/h`' });
export const burnsMissing = (consumer: Pick<Consumer, 'id'>, at: string): MissingFact => ({ about: consumer.id, fact: `what ${consumer.id} burns at ${at}`, how: `take it from the maker's data or from what was filled in after so many hours, and write \`burns 2.4 L/h at ${at}\`` });
export const pushesMissing = (pump: Named): MissingFact => ({ about: pump.id, fact: `the greatest pressure that ${pump.name} makes`, how: 'take it from the maker\'s data, or read a gauge behind it with the line shut, and write `pushes 35 kPa`' });
export const standsMissing = (part: Named): MissingFact => ({ about: part.id, fact: `the greatest pressure that ${part.name} stands`, how: 'read it on the part or in its maker\'s data, and write `stands 70 kPa`' });
export const finalMissing = (last: Id, consumer: Id): MissingFact => ({ about: last, fact: `which filter is the final one of ${consumer}`, how: 'look on the engine, and write `final` on the last filter' });
export const waterMissing = (filter: Part): MissingFact => ({ about: filter.id, fact: `what ${filter.name} does with water`, how: 'look for a bowl with a drain; if it has one, write `separates water` and where the drain is' });
export const plugMissing = (filter: Part): MissingFact => ({ about: filter.id, fact: `whether the drain of ${filter.name} has a cap or plug`, how: 'look under its bowl; if it has one, write `plugged`, else where the drain is, like `drain at 480 mm`' });
export const injectionMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `how ${consumer} injects`, how: 'read the engine plate or the maker\'s book, and write for example `injection in-line mechanical`' });
export const mouthMissing = (fitting: Id): MissingFact => ({ about: fitting, fact: `the height of the mouth of ${fitting}`, how: 'measure how far the pipe reaches into the tank, and write `mouth at 25 mm off bottom`' });
export const backflowMissing = (consumer: Id): MissingFact => ({ about: consumer, fact: `what ${consumer} lets flow back from its return`, how: 'ask the maker whether the overflow of its pump has a check, and write `backflow blocks` or `backflow passes`' });
export const whenOffMissing = (pump: Named): MissingFact => ({ about: pump.id, fact: `what ${pump.name} does when it is off`, how: 'ask the maker, or blow through it, and write `when off passes` or `when off blocks`' });
export const positionsMissing = (valve: Id): MissingFact => ({ about: valve, fact: `what the positions of ${valve} join`, how: 'turn it and see, and write a line like `position PORT joins port, out` for each' });

const runMissing = (pipe: Part): MissingFact => ({ about: pipe.id, fact: `where the ends and the lowest point of ${pipe.name} stand along and across the boat`, how: 'measure them from the transom and from the centreline, and write them like `low at 560 mm up, 3300 mm fwd, 300 mm port`' });
export const crackMissing = (part: Part): MissingFact => ({ about: part.id, fact: `the pressure at which ${part.name} opens`, how: 'take it from the maker\'s data, or measure the height of fuel that it holds, and write `cracks 3 kPa`' });

export const heelMissing: MissingFact = { about: 'vessel', fact: 'the heel and trim that she must work in', how: 'decide them, and write `envelope heel 25 deg   trim 3 deg`' };
export const levelMissing: MissingFact = { about: 'vessel', fact: 'the lowest tank level', how: 'decide how far a tank may be run down, and write `envelope level 20 to 95 %`' };
export const highLevelMissing: MissingFact = { about: 'vessel', fact: 'the highest tank level', how: 'decide how far a tank is filled, and write `envelope level 20 to 95 %`' };
export const waterlineMissing: MissingFact = { about: 'vessel', fact: 'the height of the waterline', how: 'measure it from the datum while she floats upright, and write `waterline at 520 mm`' };
/** The open end of a vent: its height, and how far it stands off the centreline. */
export const ventEndMissing = (vent: Id): MissingFact => ({ about: vent, fact: `where the line of ${vent} ends`, how: 'measure its open end from the datum and from the centreline, and write it on the last hose of its vent course like `outlet at 1500 mm up, 1500 mm stbd`' });
export const plateMissing = (fill: Id): MissingFact => ({ about: fill, fact: `the height of the deck plate of ${fill}`, how: 'measure it from the datum, and write it on the hose of its fill course like `plate at 1420 mm`' });

export const fillEndsMissing = (fill: Id, tank: Id): MissingFact => ({ about: fill, fact: `where the fill pipe of ${tank} ends`, how: 'look down the fill or through the inspection opening, and write `ends at the top` or `ends into the tank` at the fill' });

/** The limits that a maker gives, as a person finds all of them on one page of the book. */
const LIMITS = { inlet: ['the greatest suction at the inlet', 'limits inlet 20 kPa'], lift: ['the greatest lift', 'limits lift 900 mm'], return: ['the greatest back-pressure in the return', 'limits return 10 kPa'], head: ['the greatest pressure at the inlet at rest', 'limits head 20 kPa'] } as const;

/** Where none is stated one fact stands for all, so that a boat without figures does not ask for each of them. */
export function limitMissing({ id, limits }: Pick<Consumer, 'id' | 'limits'>, which: keyof typeof LIMITS): MissingFact {
    const [what, written] = LIMITS[which];
    if (Object.values(limits).some((limit) => limit !== undefined)) return { about: id, fact: `${what} of ${id}`, how: `take it from the maker's book, and write \`${written}\`` };
    return { about: id, fact: `the maker's limits of ${id}: suction, lift, and back-pressure in the return`, how: 'take them from the maker\'s book, and write them like `limits inlet 20 kPa   lift 900 mm   return 10 kPa`' };
}

const tankFitting = ({ tanks }: Boat, about: Id): Fitting | undefined => tanks.flatMap(({ fittings }) => fittings).find(({ id }) => id === about);

/** What is missing to say what flows through a part, or at which pressure. */
export function steadyMissing(boat: Boat, { about, of }: Untold['lacks'][number]): MissingFact {
    const part = boat.parts.find(({ id }) => id === about);
    const named = { id: about, name: part?.name ?? about };
    switch (of) {
        case 'bore': return boreMissing(named);
        case 'length': return lengthMissing(named, 'its two ends');
        case 'mouth': return tankFitting(boat, about)?.mouth?.up ? whereMissing(about, about) : mouthMissing(about);
        case 'surface': return sizeMissing(about);
        case 'when off': return whenOffMissing(named);
        case 'draws': return drawsMissing(named);
        case 'place': return (part?.at ?? boat.consumers.find(({ id }) => id === about)?.inlet)?.up ? whereMissing(about, named.name) : part ? placeMissing(part, 'ports') : { about, fact: `the height of the inlet of ${about}`, how: LEVEL };
    }
}

/** What is missing to say what a consumer has to draw against, or its return to push against. */
export function flowMissing(boat: Boat, { id }: Consumer, { lacks, status, lineUp }: Untold): MissingFact[] {
    if (status !== undefined) return [{ about: id, fact: `how all that ${id} draws and returns gets through in ${lineUp ?? 'every line-up'}: as it is written it cannot`, how: 'look which pump, check or valve on its lines stops it, and write it as it is' }];
    return lacks.map((lack) => steadyMissing(boat, lack));
}

/** What is missing to say how much comes out of a severed line. */
export function lineMissing(boat: Boat, { about, of }: LineLack): MissingFact {
    const part = boat.parts.find(({ id }) => id === about);
    const name = part?.name ?? about;
    switch (of) {
        case 'bore': return boreMissing({ id: about, name });
        case 'length': return lengthMissing({ id: about, name }, 'its two ends');
        case 'heights': return heightsMissing(about, name);
        case 'place': return whereMissing(about, `${name} with its ends`);
        case 'shape': return sizeMissing(about);
        case 'tank place': return whereMissing(about, name);
        case 'draws': return drawsMissing({ id: about });
        case 'rate': return rateMissing({ id: about, name });
    }
}

/** The facts that state the shape of a tank and where it stands. */
export const shapeGrounds = ({ tanks }: Boat, about: Id): Ground[] => (tanks.find(({ id }) => id === about)?.sections ? ['section'] : ['box', 'low aft inner corner']).map((fact) => ({ about, fact }));

/** The words of the fact that states the shape of a tank. */
export const shapeFact = (tank: Tank): 'box' | 'section' => (tank.sections ? 'section' : 'box');

/** What must be known before it can be said whether liquid of the tank can stand above the place; empty when all of it is. */
export function missingForHead(boat: Boat, tank: Tank, place: Place | undefined, height: MissingFact): MissingFact[] {
    const { heel, trim } = boat.vessel.envelope;
    const found: MissingFact[] = [];
    if (!place?.up) found.push(height);
    const upright = span(tank, UPRIGHT);
    if (!upright) found.push(sizeMissing(tank.id));
    if (heel === undefined || trim === undefined) found.push(heelMissing);
    const leans = (heel?.high ?? heel?.si ?? 0) > 0;
    const trims = (trim?.high ?? trim?.si ?? 0) > 0;
    const lacks = (at: Place | undefined): boolean => at?.up !== undefined && ((leans && !at.stbd) || (trims && !at.fwd));
    if (lacks(place)) found.push(whereMissing(height.about, height.about));
    if (upright && corners(boat.vessel.envelope).some((attitude) => !span(tank, attitude))) found.push(whereMissing(tank.id, tank.id));
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
        case 'when off': return whenOffMissing({ id: about, name: part?.name ?? about });
        case 'position': return { about, fact: `the position of ${part?.name ?? about}`, how: 'write it into the line-up' };
        case 'envelope': return heelMissing;
    }
}
