/**
 * A stage is what must be filled from one bleed point to the next when all of it is air, after running dry. The best that can fill it counts: a
 * tank by its height or an electric pump asks for no strokes, a hand primer comes next, and a lever counts only where there is nothing else.
 * Division: where nothing fills it at all, that is BLEED-DRIVE. A volume is asked for only when the stroke is known.
 */
import type { Consumer, Id, Part, Vent } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import type { Driver } from '../../model/step';
import type { Flow } from '../../analysis/air/pumping';
import { EFFICIENCY, FLUSH, strokesToFlush } from '../../analysis/air/strokes';
import { headEnough, ventsOf } from '../../analysis/air/vents';
import { uprightSurface } from '../../analysis/tanks/surface';
import { fittingOf } from '../../analysis/topology/joints';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { volumeOf } from '../../analysis/volumes';
import { litres } from '../../model/words';
import { bleedSettings, fills, pumpingOf, servedBy } from '../bleeding';
import { nameOf, nothing, type Check, type View } from '../check';
import { boreMissing, distinct, holdsMissing, lengthMissing, mouthMissing, strokeMissing } from '../../analysis/missing';

export const primerStrokes: Check = {
    code: 'PRIMER-STROKES', severity: 'advice', slow: true,
    statement: 'From one bleed point to the next, after running dry, it takes no more than about 100 strokes of the best pump that is worked by hand.',
    prevents: 'A skipper who gives up, or takes a long stroke count for a leak.',
    facts: 'strokes of primers and levers; bores and lengths of pipes, what filters and pumps hold; the network',
    source: 'common practice',
    judge: (view) => {
        const vents = [...view.boat.parts, ...view.boat.consumers].flatMap((owner) => owner.vents);
        return vents.length === 0 ? [nothing('no bleed point is written')] : vents.map((vent) => judge(view, vent));
    },
};

const MOST = 100;

interface Stage {
    readonly lineUp: ResolvedLineUp;
    readonly pump: Part;
    readonly parts: readonly Id[];
    /** The last part before it that has a bleed point of its own, or the tank's fitting. */
    readonly from?: Id;
    /** m³, of what is known. */
    readonly volume: number;
    readonly strokes?: number;
    readonly missing: readonly MissingFact[];
}

function judge(view: View, vent: Vent): Verdict {
    const about = vent.id;
    const consumers = servedBy(view, vent);
    const stages = view.runs.flatMap((lineUp) => stageIn(view, lineUp, vent, consumers) ?? []);
    if (stages.length === 0) return { outcome: 'not applicable', about, why: 'no strokes of a hand fill it, or none that have to' };
    const rests: Ground[] = [...new Map(stages.map(({ pump }) => [pump.id, { about: pump.id, fact: pump.kind === 'lift pump' ? 'lever' : 'stroke' }])).values()];
    const worst = stages.filter(({ strokes }) => strokes !== undefined).sort((a, b) => b.strokes! - a.strokes!)[0];
    if (worst && worst.strokes! > MOST) return fails(view, vent, worst, stages.length < view.runs.length || stages.some(({ strokes }) => strokes !== worst.strokes), rests);
    const missing = distinct(stages.flatMap((stage) => stage.missing));
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests };
}

function fails(view: View, vent: Vent, { pump, lineUp, volume, strokes, from, missing }: Stage, differs: boolean, rests: readonly Ground[]): Verdict {
    const isLever = pump.kind === 'lift pump';
    const stroke = Math.ceil((FLUSH * volume * 1e6) / (EFFICIENCY * MOST) - 1e-9);
    return {
        outcome: 'fail', about: vent.id, rests,
        message: `After running dry it takes ${missing.length > 0 ? 'more than ' : 'about '}${strokes} full strokes of ${isLever ? 'the lever of ' : ''}${pump.name} to fill ${litres(volume)} from ${from === undefined ? 'the tank' : nameOf(view.boat, from)} to ${vent.id}${differs ? `, in ${lineUp.id}` : ''}.`,
        reason: 'More than about 100 are seldom done, and nobody then knows whether a leak or the patience was at fault.',
        advice: isLever ? `Fit a hand primer that moves at least ${stroke} mL a stroke between the tank and ${nameOf(view.boat, vent.part)}; or an electric one.` : `Fit a primer in place of ${pump.name} that moves at least ${stroke} mL a stroke; or an electric one.`,
        see: [{ id: pump.id, why: 'the best that fills it by hand' }],
    };
}

/** What it takes of the best hand pump in a line-up; undefined where none is needed, or none does. */
function stageIn(view: View, lineUp: ResolvedLineUp, vent: Vent, consumers: readonly Consumer[]): Stage | undefined {
    const pumping = pumpingOf(view);
    const settings = bleedSettings(view, lineUp);
    const flows = (driver: Driver): Flow[] => settings.flatMap((positions) => consumers.flatMap((consumer) => {
        const flow = pumping.flow(vent.id, driver, consumer.id, positions);
        return 'law' in flow ? [] : [flow];
    }));
    if (view.boat.parts.some((part) => part.kind.startsWith('electric') && flows({ by: 'electric', part: part.id }).length > 0) || byGravity(view, vent, consumers)) return undefined;
    for (const [kind, by] of [['hand primer', 'hand'], ['lift pump', 'lever']] as const) {
        const stages = view.boat.parts.filter((part) => part.kind === kind).flatMap((pump) => flows({ by, part: pump.id }).map((flow) => stageOf(view, lineUp, vent, pump, flow)));
        const [best] = stages.sort((a, b) => (a.strokes ?? Infinity) - (b.strokes ?? Infinity));
        if (best) return best;
    }
    return undefined;
}

function byGravity(view: View, vent: Vent, consumers: readonly Consumer[]): boolean {
    const [level, up] = [view.boat.vessel.envelope.level?.low, vent.at?.up?.si];
    return level !== undefined && up !== undefined && view.boat.tanks.some((tank) => {
        const surface = uprightSurface(tank, level);
        return surface !== undefined && headEnough(surface, up) && fills(view, pumpingOf(view), vent, tank.id, consumers, surface) === 'yes';
    });
}

function stageOf(view: View, lineUp: ResolvedLineUp, vent: Vent, pump: Part, { sure, legs }: Flow): Stage {
    const { boat, network } = view;
    const last = sure.findLastIndex((id) => ventsOf(network, id).length > 0);
    // A later bleed point of the same part: what stood before that part has come by then.
    const isLater = ventsOf(network, vent.part).indexOf(vent.id) > 0;
    const parts = [...(isLater ? [] : [...sure.slice(last + 1), ...legs.filter((id) => ventsOf(network, id).length === 0)]), vent.part];
    const from = isLater ? vent.part : sure[last];
    const volumes = parts.map((id) => volumeOf(boat, id));
    const volume = volumes.reduce<number>((sum, own) => sum + (own ?? 0), 0);
    const common = { lineUp, pump, parts, volume, ...(from !== undefined && { from }) };
    if (!pump.stroke) return { ...common, missing: [strokeMissing(pump)] };
    return { ...common, strokes: strokesToFlush(volume, pump.stroke.si), missing: parts.flatMap((id, i) => (volumes[i] === undefined ? volumeMissing(view, id) : [])) };
}

function volumeMissing({ boat, network }: View, id: Id): MissingFact[] {
    const part = network.parts.get(id);
    if (part?.kind === 'hose' || part?.kind === 'tube') return [...(part.bore ? [] : [boreMissing(part)]), ...(part.length ? [] : [lengthMissing(part, 'its two ends')])];
    const fitting = fittingOf(boat, id);
    if (!fitting) return [holdsMissing({ id, name: nameOf(boat, id) })];
    return [...(fitting.bore ? [] : [boreMissing({ id, name: id })]), ...(fitting.mouth?.up ? [] : [mouthMissing(id)]), ...(fitting.top?.up ? [] : [{ about: id, fact: `the height of the top of ${id}`, how: 'measure it from the datum with a water level' }])];
}
