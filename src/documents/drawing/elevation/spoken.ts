/** The elevation in words, downstream, with the heights of each view. */
import { isPipe } from '../../../analysis/topology/network';
import type { Consumer, Fitting, Id, Part, Tank } from '../../../model/boat';
import type { Place } from '../../../model/measure';
import { fittingOf } from '../../../analysis/topology/joints';
import { litres } from '../../../model/words';
import type { Markup } from '../markup';
import type { Said } from '../sheet';
import { REVERSED } from '../words';
import { notStated, tagOf } from './column';
import { endsOf, isUnknown, outsidePlace, portsOf, spotsOf } from './places';
import type { Run } from './runs';
import { nameOf } from './strip';
import { heightIn, levelName, mm, openedWords, tankIn, waterlineIn, type View } from './view';

export function spokenOf(title: string, views: readonly View[], runs: readonly Run[], remarks: readonly string[], markup: Markup | undefined): Said[] {
    const { boat } = views[0]!.state;
    const marks = (id: Id): string => (markup?.marks ?? []).filter(({ about, words, as }) => about === id && (words !== undefined || as !== 'number')).map(({ as, words }) => `; ${words ?? as}`).join('');
    return [
        { text: title, depth: 0 },
        ...views.flatMap((view): Said[] => {
            const water = waterlineIn(view);
            return [
                { text: `${view.title}, tanks ${levelName(view.state.level)}`, depth: 0 },
                ...(water === undefined ? [] : [{ text: `Waterline at ${mm(water)} mm`, depth: 1 }]),
                ...boat.tanks.map((tank): Said => ({ text: `${tank.id}: ${tankWords(view, tank)}${marks(tank.id)}`, about: tank.id, depth: 1 })),
                ...runs.flatMap((run): Said[] => [
                    { text: run.loose ? 'Joined to nothing' : `${run.course!.id}, ${run.service}`, ...(run.course && { about: run.course.id }), depth: 1 },
                    ...run.stops.map(({ id }, i): Said => ({ text: `${stopWords(view, run, i)}${marks(id)}`, ...(!id.includes(':') && { about: id }), depth: 2 })),
                ]),
            ];
        }),
        ...remarks.map((text): Said => ({ text, depth: 0 })),
    ];
}

const at = (view: View, place: Place | undefined): string => { const height = heightIn(view, place); return height === undefined ? `(${notStated(place)})` : `${mm(height)} mm`; };

/** Whatever is not stated for this view is said so. */
export function tankWords(view: View, tank: Tank): string {
    const found = tankIn(view, tank);
    if (!found) return 'size or place not stated';
    const volume = view.condition.volumes.get(tank.id);
    return `from ${mm(found.low)} to ${mm(found.high)} mm; ${levelName(view.state.level)}${volume === undefined ? '' : ` (${litres(volume)})`} its surface is at ${mm(found.shown)} mm`;
}

export function stopWords(view: View, { stops }: Run, i: number): string {
    const { boat, network } = view.state;
    const stop = stops[i]!;
    const fitting = fittingOf(boat, stop.id);
    if (fitting) return fittingWords(view, fitting);
    const part = network.parts.get(stop.id);
    if (part && isPipe(part)) return pipeWords(view, part);
    const own = part ?? network.consumers.get(stop.id);
    if (own) return partWords(view, own);
    const tank = boat.tanks.find(({ id }) => id === stop.id);
    return tank ? `${tank.id}: ${tankWords(view, tank)}` : `${nameOf(view, stop.id)}: ${at(view, outsidePlace(network, stop, stops[i - 1] ?? stops[i + 1]))}`;
}

const fittingWords = (view: View, { id, kind, top, mouth }: Fitting): string => `${id}, ${kind}: ${at(view, top)}${kind === 'pickup' || kind === 'drop' || mouth ? `, mouth ${at(view, mouth)}` : ''}`;

export function partWords(view: View, of: Part | Consumer): string {
    const { network, positions } = view.state;
    const part = network.parts.get(of.id);
    const position = positions.get(of.id);
    const spots = spotsOf(of).map(({ name, place }) => `, ${name} ${at(view, place)}`).join('');
    const opened = of.kind === 'tee' ? [] : openedWords(view, of.id);
    return `${part ? part.tag ?? part.name : of.id}, ${of.kind}${part?.reversed ? `, ${REVERSED}` : ''}${position === undefined ? '' : `, ${part?.kind === 'shutoff' ? position : `at ${position}`}`}: ${at(view, portsOf(network, of))}${spots}${opened.length === 0 ? '' : `; opened: ${opened.join(', ')}`}`;
}

export function pipeWords(view: View, pipe: Part): string {
    const [into, out] = endsOf(view.state.network, pipe);
    const between = ([['lowest at', pipe.low, 'low'], ['crest at', pipe.crest, 'crest']] as const).flatMap(([name, place, fact]) => (place || isUnknown(view.state.boat, pipe.id, fact) ? [`, ${name} ${at(view, place)}`] : [])).join('');
    return `${pipe.tag ?? pipe.name}, ${tagOf(pipe) === pipe.kind ? 'pipe' : pipe.kind}: from ${at(view, into)} to ${at(view, out)}${between}`;
}
