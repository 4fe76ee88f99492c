/** What stands at the first pump of each consumer, and at each part that says what it stands, at rest with tanks as full as they are used. */
import type { Id, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Measure } from '../../../model/measure';
import { estimateOf, type Estimate } from '../../../analysis/estimate';
import { CHECK, PRIMER } from '../../../analysis/flow/plumbed';
import { GRAVITY } from '../../../analysis/flow/pipe';
import { flowIn, type Asked } from '../../../analysis/flow/states';
import { inletOf } from '../../../analysis/flow/suction';
import { attitudesOf } from '../../../analysis/opening/condition';
import { grossOf } from '../../../analysis/tanks/liquid';
import { heightOf } from '../../../analysis/tanks/attitude';
import { partsOnEveryWayTo } from '../../../analysis/topology/every-way';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import { tanksBefore } from '../../../analysis/topology/paths';
import { burnsFuel, nameOf, type View } from '../../../checks/check';
import { distinct, sizeMissing, steadyMissing, whereMissing } from '../../../analysis/missing';
import { fromSI } from '../../../model/units';
import { attitudeWords } from '../../../model/words';
import { inletFact, worseBy } from '../flows';
import { signed } from '../numbers';
import { byName, carried, type Input, type Working } from '../working';
import { leanInputs, leanedHeight, placeInputs } from './box';
import { densityWorking } from './fuel';
import { G } from './losses';
import { surfaceWorking } from './surfaces';
import { levelWorking, sub } from './tanks';

interface Point {
    readonly id: Id;
    readonly about: Id;
    readonly point: string;
    /** What stands there by name: a pump, or the consumer itself. */
    readonly part: Id;
    readonly lineUps: readonly ResolvedLineUp[];
    readonly limit?: Measure;
    readonly fact: 'limits head' | 'stands';
}

export const restWorkings = (view: View): Working[] => pointsOf(view).flatMap((point) => restWorking(view, point));

function pointsOf(view: View): Point[] {
    const { boat, network } = view;
    const runs = [...view.runs].sort((a, b) => byName(a.id, b.id));
    const pumps = boat.consumers.filter((consumer) => burnsFuel(view, consumer)).sort((a, b) => byName(a.id, b.id)).flatMap((consumer): Point[] => {
        const inlets = runs.flatMap((lineUp) => { const inlet = inletOf(network, lineUp, consumer.id); return inlet ? [{ lineUp, inlet }] : []; });
        const { head } = consumer.limits;
        // Another line-up may have another pump.
        return [...new Set(inlets.map(({ inlet }) => inlet.point))].map((point, i): Point => {
            const part = inlets.find(({ inlet }) => inlet.point === point)!.inlet.pump ?? consumer.id;
            return { id: `at rest ${consumer.id}${i === 0 ? '' : `, ${part}`}`, about: consumer.id, point, part, lineUps: inlets.filter(({ inlet }) => inlet.point === point).map(({ lineUp }) => lineUp), fact: 'limits head', ...(head && { limit: head }) };
        });
    });
    const parts = boat.parts.filter(({ stands }) => stands !== undefined).sort((a, b) => byName(a.id, b.id)).flatMap((part): Point[] => {
        const lineUps = [...view.lineUps].sort((a, b) => byName(a.id, b.id)).filter((lineUp) => tanksBefore(view.running(lineUp), `${part.id}:in`).some((tank) => (boat.tanks.find(({ id }) => id === tank)?.carries ?? 'diesel') === 'diesel'));
        return lineUps.length > 0 ? [{ id: `at rest ${part.id}`, about: part.id, point: `${part.id}:in`, part: part.id, lineUps, limit: part.stands!, fact: 'stands' }] : [];
    });
    return [...pumps, ...parts];
}

/** Pa: of two as much the first is named. */
const SAME = 1e-3;

function restWorking(view: View, { id, about, point, part, lineUps, limit, fact }: Point): Working[] {
    const { boat, network } = view;
    let worst: { readonly asked: Asked; readonly total: Estimate } | undefined;
    const missing: MissingFact[] = [];
    // Its own place, not that of what it is joined to.
    const known = network.parts.get(part)?.at ?? network.consumers.get(part)?.inlet;
    for (const lineUp of lineUps) for (const attitude of attitudesOf(boat)) {
        if (known?.up && heightOf(known, attitude) === undefined) missing.push(whereMissing(part, nameOf(boat, part)));
        const asked: Asked = { lineUp, attitude, level: 'full', speed: 'stopped' };
        const [si, ...ends] = (['likely', 'least', 'most'] as const).map((guess) => flowIn(network, { ...asked, guess }).gaugeAt(point));
        const told = ends.filter((value): value is number => value !== undefined);
        if (known?.up && si !== undefined && (!worst || si > worst.total.si + SAME)) worst = { asked, total: { si, least: Math.min(si, ...told), most: Math.max(si, ...told) } };
    }
    const shared = { id, about, source: 'weight of the liquid above it', rule: 'POS-HEAD-LIMIT', ...(limit && { limit: { value: estimateOf(limit), unit: 'kPa', sense: 'at most', from: { about, fact } } as const }) };
    // A pump over every surface has nothing to stand, and where no limit is written nobody asks.
    if (!limit && (!worst || worst.total.most <= 0)) return [];
    const tanksOf = (lineUp: ResolvedLineUp): Tank[] => boat.tanks.filter((tank) => tanksBefore(view.running(lineUp), point).includes(tank.id));
    if (!worst) {
        const shapeless = lineUps.flatMap(tanksOf).filter((tank) => grossOf(tank) === undefined).map((tank) => sizeMissing(tank.id));
        const lacks = distinct([...shapeless, ...(known?.up ? missing : [steadyMissing(boat, { about: part, of: 'place' })])]);
        return [{ ...shared, what: `What stands at ${nameOf(boat, part)} at rest`, formula: 'p = ρ × g × (S − o)', inputs: [], steps: [], notes: lacks.length > 0 ? [] : ['Nothing that is open joins it to a tank at rest.'], missing: lacks }];
    }
    const { asked: { attitude, lineUp }, total } = worst;
    const place = known!;
    const height = heightOf(place, attitude)!;
    const checks = [...partsOnEveryWayTo(view.running(lineUp), point)].map((each) => network.parts.get(each)).filter((each) => each?.kind === 'check' || each?.kind === 'hand primer').map((each, i): Input & { readonly term: string } => {
        const isPrimer = each!.kind === 'hand primer';
        const symbol = `C${sub(i + 1)}`;
        return { symbol, what: `${isPrimer ? 'each of the two checks of ' : ''}${nameOf(boat, each!.id)} opens at`, value: each!.cracks ? estimateOf(each!.cracks) : isPrimer ? PRIMER : CHECK, unit: 'kPa', from: each!.cracks ? { about: each!.id, fact: 'cracks' } : { taken: isPrimer ? PRIMER.taken : CHECK.taken }, term: isPrimer ? `2 × ${symbol}` : symbol };
    });
    const held = checks.reduce((sum, { value, term }) => sum + value.si * (term.startsWith('2') ? 2 : 1), 0);
    const density = densityWorking(view);
    const weight = density.result!.value.si * GRAVITY;
    const tanks = tanksOf(lineUp).map((tank) => ({ tank, surface: surfaceWorking(view, tank, attitude, 'fullest') }));
    const off = ({ surface }: (typeof tanks)[number]): number => Math.abs((surface.result === undefined ? Infinity : (surface.result.value.si - height) * weight - held) - total.si);
    const source: { readonly tank: Tank; readonly surface: Working } | undefined = [...tanks].sort((a, b) => off(a) - off(b))[0];
    if (!source?.surface.result) return [];
    const isPlain = off(source) <= Math.max(5, 0.005 * Math.abs(total.si));
    const own = isPlain ? total : { si: (source.surface.result.value.si - height) * weight - held, least: (source.surface.result.value.si - height) * weight - held, most: (source.surface.result.value.si - height) * weight };
    const inputs = checks.map(({ term: _, ...one }): Input => one);
    return [levelWorking(view, source.tank, 'fullest'), source.surface, {
        ...shared, what: `What stands at ${nameOf(boat, part)} at rest, by the height of ${source.tank.id} over it`, formula: `p = ρ × g × (S − o)${checks.map(({ term }) => ` − ${term}`).join('')}`,
        inputs: [
            ...carried('ρ', 'density of the fuel', density), G, ...carried('S', `surface of ${source.tank.id}`, source.surface),
            ...placeInputs(nameOf(boat, part), place, attitude, () => ({ about: part, fact: network.parts.has(part) ? (network.parts.get(part)!.kind === 'filter' ? 'ports' : 'at') : inletFact(network.consumers.get(part)!) })), ...leanInputs(attitude), ...inputs,
        ],
        steps: [{ symbol: 'o', what: 'its height as she lies', formula: `o = ${leanedHeight(attitude, 'x', 'y', 'z')}`, value: height, unit: 'mm' }],
        result: { symbol: 'p', value: own, unit: 'kPa', remains: true }, where: `${attitudeWords(attitude)}, highest level, coldest fuel, line-up ${lineUp.id}`, missing: distinct(missing),
        notes: [
            ...(total.most <= 0 ? ['Below nought: it stands over every surface, and nothing presses on it.'] : checks.length > 0 ? [`A check holds back what it opens at only while it is tight: with none that holds, ${signed(fromSI(own.si + held, 'kPa').toFixed(2))} kPa stand there.`] : []),
            ...worseBy(distinct(missing)), ...(isPlain ? [] : [`Tanks that stand at different heights are joined, and liquid runs between them: the network solution has ${signed(fromSI(total.si, 'kPa').toFixed(2))} kPa.`]),
        ],
    }];
}
