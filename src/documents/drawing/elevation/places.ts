/** Which heights of a thing are drawn, and what it is called when one of them is not stated. */
import type { Boat, Consumer, Fitting, Id, Part, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Place } from '../../../model/measure';
import { endPlace, pointPlace } from '../../../analysis/air/heights';
import { distinct, heightMissing, heightsMissing, missingOf, mouthMissing, placeMissing, plateMissing, sizeMissing, ventEndMissing, waterlineMissing, whereMissing } from '../../../analysis/missing';
import { fittingOf } from '../../../analysis/topology/joints';
import { isPipe, isOutside, type Network } from '../../../analysis/topology/network';
import { span } from '../../../analysis/tanks/liquid';
import type { Run, Stop } from './runs';
import type { Symbol } from './symbols';
import type { View } from './view';


/** A height of a part beside that of its ports. */
export interface Spot {
    /** The part, or the bleed point that has an id of its own. */
    readonly about: Id;
    readonly name: string;
    readonly symbol: Symbol;
    readonly place: Place | undefined;
    readonly tag?: string;
}

export function spotsOf(of: Part | Consumer): readonly Spot[] {
    return [
        ...('lid' in of && of.lid ? [{ about: of.id, name: 'lid', symbol: 'lid' as const, place: of.lid }] : []),
        ...('drain' in of && of.drain ? [{ about: of.id, name: 'drain', symbol: 'drain' as const, place: of.drain }] : []),
        ...of.vents.map((vent): Spot => ({ about: vent.id, name: vent.tag, symbol: 'bleed point', place: vent.at, tag: vent.tag })),
    ];
}

/** Where the ports of a part stand. A tee or a gauge is as high as what it is screwed to; nothing else takes the height of its neighbours. */
export function portsOf(network: Network, of: Part | Consumer): Place | undefined {
    if (!('ports' in of)) return of.inlet;
    if (of.at?.up || !takesHeight(of)) return of.at;
    return of.kind === 'tee' ? pointPlace(network, of.id) : pointPlace(network, `${of.id}:in`) ?? pointPlace(network, `${of.id}:out`);
}

const takesHeight = ({ kind }: Part | Consumer): boolean => kind === 'tee' || kind === 'gauge';

/** Where the two ends of a pipe stand: what they are joined to, or where they are open. */
export function endsOf(network: Network, pipe: Part): readonly [Place | undefined, Place | undefined] {
    return [endPlace(network, `${pipe.id}:in`) ?? pipe.plate, endPlace(network, `${pipe.id}:out`) ?? pipe.outlet];
}

/** The place of an open end of a course, which is written at its pipe. */
export function outsidePlace(network: Network, { id }: Stop, beside: Stop | undefined): Place | undefined {
    const pipe = beside && network.parts.get(beside.id);
    return pipe && (id.endsWith(':air') ? pipe.outlet : pipe.plate ?? pipe.outlet);
}

/** Facts of height that may be written as not known; the first are those of which a height is asked of every part. */
const [ASKED, OTHERS] = [/^the (at|ports|inlet|outlet|plate|mouth|top|waterline) of /, /^the (lid|drain|crest|low) of /];

/** Whether it was written that a thing has such a point, and that its height is not known. */
export const isUnknown = (boat: Boat, id: Id, fact: 'crest' | 'low'): boolean => boat.unknown.some((other) => other.about === id && other.fact.startsWith(`the ${fact} of `));

interface Sought {
    readonly place: Place | undefined;
    readonly height: MissingFact;
    readonly where: MissingFact;
}

/** What keeps a thing, or a point of it, off the drawing: heights first, and then what the leaning views lack. */
export function lacksOf(views: readonly View[], runs: readonly Run[]): { readonly heights: readonly MissingFact[]; readonly places: readonly MissingFact[] } {
    const { boat, network } = views[0]!.state;
    const heeled = views.some(({ attitude }) => attitude.heel !== 0);
    const sought = [...new Set(runs.flatMap(({ stops }) => stops.map(({ id }) => id)))].flatMap((id): Sought[] => {
        const fitting = fittingOf(boat, id);
        if (fitting) return ofFitting(fitting);
        const part = network.parts.get(id);
        if (part) return isPipe(part) ? ofPipe(network, part) : ofPart(boat, network, part);
        const consumer = network.consumers.get(id);
        return consumer ? ofPart(boat, network, consumer) : [];
    });
    const tanks = boat.tanks.filter((tank) => runs.some(({ stops }) => stops.some(({ id }) => id === tank.id || fittingOf(boat, id)?.tank === tank.id)));
    const missed = new Set(sought.filter(({ place }) => place?.up === undefined).map(({ height }) => height.about));
    const written = boat.unknown.filter(({ about, fact }) => OTHERS.test(fact) || (ASKED.test(fact) && !missed.has(about) && about !== 'vessel')).map((unknown): MissingFact => ({ ...unknown, fact: unknown.fact.replace(/^the /, 'the height of the ') }));
    return {
        heights: distinct([
            ...tanks.filter((tank) => !span(tank, { heel: 0, trim: 0 })).map(({ id }) => sizeMissing(id)),
            ...sought.filter(({ place }) => place?.up === undefined).map(({ height }) => height), ...written,
            ...(boat.vessel.waterline?.up || !boat.vessel.declared ? [] : [waterlineMissing]),
        ]),
        places: heeled ? distinct([
            ...tanks.filter((tank) => noPlace(views, tank)).map(({ id }) => whereMissing(id, id)),
            ...sought.filter(({ place }) => place?.up !== undefined && place.stbd === undefined).map(({ where }) => where),
        ]) : [],
    };
}

const noPlace = (views: readonly View[], tank: Tank): boolean => span(tank, { heel: 0, trim: 0 }) !== undefined && views.some(({ attitude }) => !span(tank, attitude));

function ofFitting({ id, kind, mouth, top }: Fitting): Sought[] {
    const where = whereMissing(id, id);
    return [{ place: top, height: heightMissing(id), where }, ...(kind === 'pickup' || kind === 'drop' || mouth ? [{ place: mouth, height: mouthMissing(id), where }] : [])];
}

function ofPart(boat: Boat, network: Network, of: Part | Consumer): Sought[] {
    const where = missingOf(boat, { about: of.id, of: 'place' });
    const ports = portsOf(network, of);
    // What a tee or a gauge takes from its neighbour is the neighbour's to say.
    const taken = takesHeight(of) && ports !== undefined && !('ports' in of && of.at === ports);
    return [...(taken ? [] : [{ place: ports, height: missingOf(boat, { about: of.id, of: 'height' }), where }]), ...spotsOf(of).map(({ about, name, place, tag }): Sought => ({
        place, height: tag === undefined ? placeMissing(of as Part, name) : heightMissing(about), where: tag === undefined ? where : whereMissing(about, name),
    }))];
}

function ofPipe(network: Network, pipe: Part): Sought[] {
    const where = (name: string): MissingFact => whereMissing(pipe.id, `${name} of ${pipe.name}`);
    const height = heightsMissing(pipe.id, pipe.name);
    const [into, out] = endsOf(network, pipe);
    const ends: (readonly [string, Place | undefined, MissingFact])[] = [];
    const joined = network.boat.joints.flatMap(({ from, to }) => (from === `${pipe.id}:out` ? [to] : to === `${pipe.id}:in` ? [from] : []));
    // An end at a part is that part's to say; an open end is the pipe's own.
    if (joined.some((point) => isOutside(point) && point.endsWith(':air'))) ends.push(['the open end', pipe.outlet, ventEndMissing(pipe.id)]);
    if (joined.some((point) => isOutside(point) && !point.endsWith(':air'))) ends.push(['the deck plate', pipe.plate ?? pipe.outlet, plateMissing(pipe.id)]);
    if (ends.length === 0 && into === undefined && out === undefined && joined.every((point) => { const other = network.parts.get(point.split(':')[0]!); return other !== undefined && (isPipe(other) || other.kind === 'tee'); })) ends.push(['the ends', undefined, height]);
    return [
        ...ends.map(([name, place, missing]) => ({ place, height: missing, where: where(name) })),
        ...(pipe.low ? [{ place: pipe.low, height, where: where('the lowest point') }] : []), ...(pipe.crest ? [{ place: pipe.crest, height, where: where('the crest') }] : []),
    ];
}
