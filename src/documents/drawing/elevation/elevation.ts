/**
 * The elevation of a boat: its lines unrolled in strips, with a true scale of heights, upright and as far as she leans. No height is
 * drawn that was not stated; what is missing is named below.
 */
import { isPipe } from '../../../analysis/topology/network';
import type { Boat, Id } from '../../../model/boat';
import type { Place } from '../../../model/measure';
import { capital, degrees, listed, litres } from '../../../model/words';
import { heelMissing } from '../../../analysis/missing';
import { legend, type Entry } from '../legend';
import { lineStyle } from '../line-styles';
import { LOOK_WORDS, sampleOf } from '../marks';
import type { Mark } from '../markup';
import { unsaidNotes } from '../markups/line-up';
import { DEFERRAL, lineUpWords, marksById, type Picture, type Sheet } from '../sheet';
import { inked, n, svg, thing, words } from '../svg';
import { titleBlock } from '../title-block';
import { wrapTo } from '../wrap';
import { axis, tickStep } from './axis';
import { BREAK, broken, type Fragment } from './column';
import { lacksOf, portsOf, spotsOf } from './places';
import { drawHeading, drawStrip, footHeight, headHeight, heightsOf, reachOf, stripsOf, type Strip } from './strip';
import { runsOf, type Run } from './runs';
import { stopWords, spokenOf, tankWords } from './spoken';
import { HALF, symbol, symbolOf, SYMBOL_WORDS, type Symbol } from './symbols';
import { heightIn, levelName, mm, stateOf, tankIn, viewsOf, waterlineIn, type State, type View } from './view';

const [WIDTH, EDGE, AXIS, BETWEEN] = [1600, 24, 52, 26] as const;
/** For what is said of the waterline beyond the last strip. */
const BEYOND = 90;
/** The greatest height of a plot. */
const TALLEST = 480;
/** Millimetres on the boat for one on the sheet, which has 96 units to the inch. */
const SCALES = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7.5] as const;

/** As figures that are shown over her were reckoned, where they hold for one level and lean alone. */
function asReckoned({ markup, ...sheet }: Sheet): Sheet {
    if (!markup) return sheet;
    const { reckoned } = markup;
    return { ...sheet, markup, ...(reckoned && { heel: reckoned.heel, ...(reckoned.level !== undefined && { level: reckoned.level }) }) };
}

export function drawElevation(boat: Boat, asked: Sheet): Picture {
    const sheet = asReckoned(asked);
    const state = stateOf(boat, sheet);
    const views = viewsOf(state, sheet);
    const runs = runsOf(boat);
    const marks = sheet.markup?.marks ?? [];
    const byId = marksById(sheet.markup);
    const marksOf = (id: Id): readonly Mark[] => byId.get(id) ?? [];
    const met = new Set<Id>();
    const first = (tank: Id): boolean => { const isNew = !met.has(tank); met.add(tank); return isNew; };
    const room = WIDTH - 2 * EDGE - AXIS - BETWEEN / 2 - BEYOND;
    const rows = packed(runs.flatMap((run) => stripsOf(run, views, marksOf, first, room)), room);
    const scale = scaleFor(views.flatMap((_, v) => rows.map((row) => row.flatMap((strip) => reachOf(strip, v)))));
    const fragments: Fragment[] = [];
    const ground: string[] = [];
    let y: number = EDGE;
    const title = `${boat.title ?? (boat.name === '' ? 'A boat without a name' : boat.name)}: elevation${sheet.markup ? `, ${sheet.markup.title}` : ''}`;
    const width = Math.max(WIDTH, ...rows.map((row) => 2 * EDGE + AXIS + BETWEEN / 2 + rowWidth(row) + BEYOND));
    for (const line of wrapTo(title, width - 2 * EDGE, 16, true)) { y += 20; ground.push(words(line, { x: EDGE, y, size: 16, bold: true })); }
    for (const [v, view] of views.entries()) {
        y += 26;
        ground.push(words(view.title, { x: EDGE, y, size: 13, bold: true }));
        for (const line of wrapTo(viewWords(view), width - 2 * EDGE)) { y += 15; ground.push(words(line, { x: EDGE, y })); }
        for (const row of rows) {
            const drawn = drawRow(row, v, view, y + 16, scale);
            fragments.push(...drawn.fragments);
            ground.push(drawn.ground);
            y = drawn.bottom;
        }
    }
    const lacks = lacksOf(views, runs);
    const remarks = remarksOf(state, sheet, views, rows, lacks);
    y += 18;
    for (const remark of remarks) { for (const line of wrapTo(remark, width - 2 * EDGE)) { y += 15; ground.push(words(line, { x: EDGE, y })); } y += 4; }
    const block = titleBlock(titleRows(state, sheet, views, views.some((_, v) => rows.flat().some((strip) => heightsOf(strip, v).length > 0)) ? scale : undefined));
    const signs = legend(legendOf(views, rows, marks, fragments), Math.max(200, width - 2 * EDGE - block.width - 30));
    y += 20;
    const foot = y + Math.max(block.height, signs.height);
    const body = `<g>${ground.join('\n')}</g>\n${things(views[0]!, runs, fragments)}`
        + `<g transform="translate(${n(EDGE)} ${n(y)})">${signs.body}</g>\n<g transform="translate(${n(width - EDGE - block.width)} ${n(foot - block.height)})">${block.body}</g>\n`;
    return { svg: svg({ width, height: foot + EDGE, title, body }), words: spokenOf(title, views, runs, remarks, sheet.markup) };
}

/** In their order, as many to a row as it has room for. */
function packed(strips: readonly Strip[], room: number): Strip[][] {
    const rows: Strip[][] = [];
    for (const strip of strips) {
        const row = rows.at(-1);
        if (row && rowWidth([...row, strip]) <= room) row.push(strip); else rows.push([strip]);
    }
    return rows;
}

const rowWidth = (row: readonly Strip[]): number => row.reduce((sum, { width }) => sum + width + BETWEEN, -BETWEEN);

export interface Scale {
    /** mm on the boat for one mm on the sheet. */
    readonly to: number;
    /** Units of the sheet for a metre. */
    readonly units: number;
}

/** The largest even scale at which the tallest row stands on the sheet. */
function scaleFor(rows: readonly (readonly number[])[]): Scale {
    const tallest = Math.max(0, ...rows.map((heights) => (heights.length === 0 ? 0 : Math.max(...heights) - Math.min(...heights))));
    for (let power = 1; ; power *= 10) for (const each of SCALES) {
        const to = each * power;
        const units = 1000 * 96 / 25.4 / to;
        if (to >= 5 && tallest * units <= TALLEST) return { to, units };
    }
}

function drawRow(row: readonly Strip[], v: number, view: View, from: number, { units }: Scale): { fragments: Fragment[]; ground: string; bottom: number } {
    const head = Math.max(...row.map(headHeight));
    const starts = row.map((_, i) => EDGE + AXIS + BETWEEN / 2 + row.slice(0, i).reduce((sum, { width }) => sum + width + BETWEEN, 0));
    const trial = row.map((strip, i) => drawStrip(strip, v, { x: starts[i]!, y: (height) => -height * units, foot: 0 }));
    const water = waterlineIn(view);
    const [low, high] = [Math.max(...trial.map(({ bottom }) => bottom)), Math.min(...trial.map(({ top }) => top))];
    const empty = !(low > high);
    const plot = from + head + 8;
    const zero = empty ? plot : plot - high;
    const y = (height: number): number => zero - height * units;
    const bottom = empty ? plot : zero + low;
    const foot = bottom + 10;
    const drawn = row.map((strip, i) => drawStrip(strip, v, { x: starts[i]!, y, foot }));
    const right = starts.at(-1)! + row.at(-1)!.width;
    const sea = water === undefined || empty ? '' : `<path ${inked('thin')} stroke-dasharray="16 5" d="M${n(EDGE + AXIS)} ${n(y(water))}H${n(right)}"/>${words(`waterline ${mm(water)}`, { x: right + 6, y: y(water) + 4, size: 10 })}`;
    const scale = empty ? '' : axis({ x: EDGE + AXIS, top: plot, bottom, zero, units, step: tickStep(units), also: starts.slice(1).map((x) => x - BETWEEN / 2) });
    return {
        fragments: drawn.flatMap(({ fragments }) => fragments), ground: `${sea}${scale}${row.map((strip, i) => drawHeading(strip, starts[i]!, from)).join('')}`,
        bottom: foot + Math.max(...row.map((strip) => footHeight(strip, v))) + 6,
    };
}

/** One group for each thing, with all that is drawn of it: tanks beneath, then pipes, fittings, parts, consumers, and bleed points. */
function things(first: View, runs: readonly Run[], fragments: readonly Fragment[]): string {
    const { boat, network } = first.state;
    const bodies = new Map<Id, string[]>();
    for (const { id, body } of fragments) { const own = bodies.get(id); if (own) own.push(body); else bodies.set(id, [body]); }
    const says = new Map(runs.flatMap((run) => run.stops.map(({ id }, i) => [id, stopWords(first, run, i)] as const)));
    const piped = (kind: string): boolean => kind === 'hose' || kind === 'tube';
    const known: { id: Id; kind: string; says?: string }[] = [
        ...boat.tanks.map((tank) => ({ id: tank.id, kind: 'tank', says: `${tank.id}: ${tankWords(first, tank)}` })), ...boat.parts.filter(({ kind }) => piped(kind)),
        ...boat.tanks.flatMap(({ fittings }) => fittings), ...boat.parts.filter(({ kind }) => !piped(kind)), ...boat.consumers,
        ...[...network.parts.values(), ...boat.consumers].flatMap((of) => spotsOf(of).filter(({ tag }) => tag !== undefined).map(({ about, name }) => ({ id: about, kind: 'bleed point', says: `${name}, bleed point on ${of.id}` }))),
    ];
    const order = new Map(known.map((one) => [one.id, one]));
    const drawn = [...order.keys(), ...[...bodies.keys()].filter((id) => !order.has(id))];
    return drawn.filter((id) => bodies.has(id)).map((id) => thing(id, order.get(id)?.kind ?? 'part', order.get(id)?.says ?? says.get(id) ?? id, bodies.get(id)!.join(''))).join('');
}

const viewWords = (view: View): string => {
    const { boat, level } = view.state;
    const tanks = boat.tanks.flatMap((tank) => { const found = tankIn(view, tank); const volume = view.condition.volumes.get(tank.id); return found && volume !== undefined ? [`${tank.id} ${levelName(level)} with ${litres(volume)}, surface at ${mm(found.shown)} mm`] : []; });
    return `Heights in mm above ${boat.vessel.datum ?? 'the datum, of which it is not said where it is'}. ${tanks.length === 0 ? 'No level can be drawn.' : `${listed(tanks)}.`}`;
};

function remarksOf({ boat, levelSaid, lineUp }: State, { lineUp: asked, heel, markup }: Sheet, views: readonly View[], rows: readonly (readonly Strip[])[], { heights, places }: ReturnType<typeof lacksOf>): string[] {
    const named = (facts: readonly { fact: string }[]): string => facts.map(({ fact }) => fact).join('; ');
    const strips = rows.flat().map(({ run }) => run);
    return [
        ...new Set([...(markup?.notes ?? []), ...(lineUp ? unsaidNotes(lineUp) : [])]),
        ...(heights.length === 0 ? [] : [`Not on the drawing for want of: ${named(heights)}.`]),
        ...(places.length === 0 ? [] : [`Not on a view in which she leans, for want of: ${named(places)}.`]),
        ...(heel === undefined && boat.vessel.envelope.heel === undefined ? [`Drawn upright only, for want of: ${heelMissing.fact}.`] : []),
        ...(levelSaid || boat.tanks.length === 0 ? [] : ['No level was said: tanks are drawn half full.']),
        ...(asked === undefined || asked === lineUp?.id ? [] : [`There is no line-up ${asked}: ${lineUp?.id ?? 'none'} is drawn.`]),
        'Each strip is read from left to right, in the order of flow. Heights are to scale; lengths are not, nor where along a pipe its crest and its lowest point lie.',
        ...(strips.some(({ service }) => service === 'return') ? ['A return is drawn from the height of the inlet of its consumer, since no other is stated.'] : []),
        ...(views.some(({ attitude }) => attitude.heel !== 0) && boat.vessel.waterline?.up ? ['Leaning, she is taken to turn about her centreline at the waterline; a tank is drawn from its lowest to its highest corner.'] : []),
        `Under a part stands what comes when it is opened as she is drawn, at worst, whether checks hold or are worn: floods, falls back, even, holds (nothing moves), shut off (no tank reaches it), the sea (the sea reaches it), or can't tell.`,
        DEFERRAL,
    ];
}

function titleRows({ boat, lineUp, positions, level, levelSaid }: State, { revision, date, markup, heel }: Sheet, views: readonly View[], scale: Scale | undefined): { name: string; value: string }[] {
    return [
        { name: 'Boat', value: boat.title ?? boat.name }, { name: 'Sheet', value: `Elevation${markup ? `: ${markup.title}` : ''}` },
        { name: 'Line-up', value: lineUpWords(boat, markup?.lineUp ?? lineUp?.id, positions) }, { name: 'Level', value: `${capital(levelName(level))}${levelSaid ? '' : ', none was said'}` },
        { name: 'Heel', value: heel === undefined && views.length > 1 ? `upright and ${degrees(views[1]!.attitude.heel)} to either side` : views.map((view) => view.title.toLowerCase()).join('; ') },
        { name: 'Datum', value: boat.vessel.datum ?? 'not stated' }, { name: 'Scale of heights', value: scale ? `1 : ${scale.to} printed at full size` : 'no height is drawn' },
        { name: 'Revision', value: revision ?? '' }, { name: 'Date', value: date ?? '' },
    ];
}

/** What is on this sheet, and nothing else. */
function legendOf(views: readonly View[], rows: readonly (readonly Strip[])[], marks: readonly Mark[], fragments: readonly Fragment[]): Entry[] {
    const { boat, network } = views[0]!.state;
    const drawn = rows.flat().filter((strip) => views.some((_, v) => heightsOf(strip, v).length > 0)).map(({ run }) => run);
    const ids = new Set(drawn.flatMap(({ stops }) => stops.map(({ id }) => id)));
    const stands = (place: Place | undefined): boolean => views.some((view) => heightIn(view, place) !== undefined);
    const shown = [...boat.parts, ...boat.consumers].filter((of) => ids.has(of.id) && !isPipe(of) && stands(portsOf(network, of)));
    const spots = [...boat.parts, ...boat.consumers].filter(({ id }) => ids.has(id)).flatMap(spotsOf).filter(({ place }) => stands(place));
    const ends = [...boat.parts].filter(({ id }) => ids.has(id)).flatMap(({ outlet, plate }): Symbol[] => [...(stands(outlet) ? ['open end' as const] : []), ...(stands(plate) ? ['plate' as const] : [])]);
    const used = new Set<Symbol>([...shown.map(symbolOf), ...spots.map((spot) => spot.symbol), ...ends]);
    const line = (style: string): string => `<path ${style} d="M0 0H44"/>`;
    const entry = (sample: string, says: string): Entry => ({ sample, width: 44, says });
    return [
        ...[...new Set(drawn.filter(({ loose }) => !loose).map(({ service }) => service))].map((service) => entry(line(lineStyle(service)), service)),
        ...(Object.keys(SYMBOL_WORDS) as Symbol[]).filter((kind) => used.has(kind)).map((kind) => entry(symbol(kind, 22, 0), SYMBOL_WORDS[kind])),
        ...(boat.tanks.some((tank) => views.some((view) => tankIn(view, tank))) ? [entry(`${line(inked('thin'))}<polygon ${inked('outline')} points="18,-7 26,-7 22,0"/>`, 'surface of a tank, across what hangs on it')] : []),
        ...(views.some((view) => waterlineIn(view) !== undefined) ? [entry(line(`${inked('thin')} stroke-dasharray="16 5"`), 'waterline')] : []),
        ...(fragments.some(({ body }) => body.includes(BREAK)) ? [entry(`${line(inked('line'))}${broken([44, 0])}`, 'goes on where no height is known')] : []),
        ...[...new Set(marks.map(({ as }) => as))].map((look) => entry(look === 'live' || look === 'dead' ? line(lineStyle('supply', look)) : `<g transform="translate(${n(HALF)} 0)">${sampleOf(look)}</g>`, LOOK_WORDS[look])),
    ];
}
