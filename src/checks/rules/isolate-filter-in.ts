/**
 * Division: SHUTOFF-BEFORE-FILTER judges what comes to a filter along its supply, from every tank, by whichever way
 * (crossovers included). This rule judges what comes from the other side: liquid that siphons back through a return
 * which reaches below a surface, and through the engine; and filters that stand in no supply. A valve in a return is no
 * remedy (RETURN-NO-BLOCK), so a check with its arrow to the tank counts here, where it counts for nothing there.
 */
import type { Consumer, Fitting, Id, Part, Tank } from '../../model/boat';
import type { Ground, MissingFact, Verdict } from '../../model/finding';
import { openingsOf } from '../../analysis/tanks/openings';
import { canStandAbove } from '../../analysis/tanks/surface';
import { comingTo } from '../../analysis/topology/isolation';
import { passagesOf, partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { handSettings } from '../../analysis/topology/settings';
import { capital, listed } from '../../model/words';
import { freeTag, serviceOf, type Check, type View } from '../check';
import { backflowMissing, distinct, missingForHead, mouthMissing, placeMissing, waterMissing } from '../../analysis/missing';

export const isolateFilterIn: Check = {
    code: 'ISOLATE-FILTER-IN', severity: 'major',
    statement: 'Something that can be shut, or a check valve, stands between each filter and every liquid beyond its outlet that can stand above its lid or drain at any level, heel and trim: a return that reaches below a surface counts as such a liquid.',
    prevents: 'Opening the filter floods the bilge from the return side, with the tank valve shut.',
    facts: 'heights of lid, drain and of the mouths of returns; tanks; envelope; checks and valves; what the engine lets flow back',
    source: 'common practice',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'filter').map((filter) => judge(view, filter)),
};

/** A fitting of a tank that liquid can come from, and the consumer that it comes back through. */
interface Source {
    readonly fitting: Fitting;
    readonly tank: Tank;
    readonly through?: Consumer;
}

function judge(view: View, filter: Part): Verdict {
    const { boat, network, allOpen } = view;
    const service = serviceOf(boat, filter);
    const supplied = (service === 'supply' || service === 'transfer') && tanksBefore(allOpen, `${filter.id}:in`).length > 0;
    const returning = boat.consumers.filter((consumer) => partsBefore(allOpen, `${consumer.id}:in`).has(filter.id) && boat.joints.some((joint) => joint.from === `${consumer.id}:out`));
    if (supplied && returning.length === 0) return { outcome: 'not applicable', about: filter.id, why: 'nothing leads to it but its supply (see SHUTOFF-BEFORE-FILTER)' };
    const ends = [network.index.get(`${filter.id}:in`)!, network.index.get(`${filter.id}:out`)!];
    let sources: Source[] | undefined;
    // Only what may come into its way is worth turning: all that is reached with nothing shut.
    const widest = comingTo(allOpen, ends, new Map());
    const outlets = boat.consumers.filter(({ id }) => widest.points.has(network.index.get(`${id}:in`)!)).map(({ id }) => network.index.get(`${id}:out`)!);
    const way = new Set([...widest.met, ...comingTo(allOpen, outlets, new Map()).met]);
    for (const setting of handSettings(boat, 'shutoffs shut', way)) {
        const near = comingTo(allOpen, ends, setting);
        const found: Source[] = supplied ? [] : fittingsIn(view, near.met);
        for (const through of boat.consumers) {
            if (through.backflow === 'blocks' || !near.points.has(network.index.get(`${through.id}:in`)!)) continue;
            const far = comingTo(allOpen, [network.index.get(`${through.id}:out`)!], setting, passagesOf(network, [through.id]));
            found.push(...fittingsIn(view, far.met).filter(({ fitting }) => !near.met.has(fitting.id)).map((source) => ({ ...source, through })));
        }
        if (sources === undefined || found.length < sources.length) sources = found;
        if (found.length === 0) break;
    }
    if (!supplied && sources!.length === 0 && tanksBefore(allOpen, `${filter.id}:in`).length === 0) return { outcome: 'not applicable', about: filter.id, why: 'no tank reaches it' };
    return weigh(view, filter, sources!);
}

function fittingsIn({ boat }: View, met: ReadonlySet<Id>): Source[] {
    return boat.tanks.flatMap((tank) => tank.fittings.filter((fitting) => met.has(fitting.id) && (fitting.kind === 'pickup' || fitting.kind === 'drop')).map((fitting) => ({ fitting, tank })));
}

function weigh(view: View, filter: Part, sources: readonly Source[]): Verdict {
    const { boat } = view;
    const about = filter.id;
    const openings = openingsOf(filter);
    const judged = sources.map((source) => {
        const { fitting, tank, through } = source;
        const wet = fitting.kind === 'pickup' ? 'yes' : canStandAbove(boat, tank, fitting.mouth);
        const above = openings.map(({ place }) => canStandAbove(boat, tank, place));
        const unknown: MissingFact[] = [];
        if (!above.includes('yes')) {
            for (const [i, answer] of above.entries()) if (answer === 'unknown') unknown.push(...missingForHead(boat, tank, openings[i]!.place, placeMissing(filter, openings[i]!.name)));
            if (openings.length === 0) unknown.push(...missingForHead(boat, tank, undefined, placeMissing(filter, 'ports')));
            // The drain hangs lower than all that is known.
            else if (!filter.drain && filter.separatesWater) unknown.push(placeMissing(filter, 'drain'));
            else if (!filter.drain && filter.role === 'primary') unknown.push(waterMissing(filter));
        }
        const dry = wet === 'no' || (unknown.length === 0 && !above.includes('yes'));
        const missing = [
            ...(wet === 'unknown' ? missingForHead(boat, tank, fitting.mouth, mouthMissing(fitting.id)) : []), ...unknown,
            ...(through && through.backflow === undefined ? [backflowMissing(through.id)] : []),
        ];
        return { ...source, dry, missing };
    });
    const rests: Ground[] = [...openings.map(({ name }) => ({ about, fact: name })), ...sources.map(({ fitting }) => ({ about: fitting.id, fact: 'mouth' }))];
    const floods = judged.filter(({ dry, missing }) => !dry && missing.length === 0);
    if (floods.length > 0) return fails(view, filter, floods, judged.filter(({ dry }) => !dry).length === 1, rests);
    const missing = judged.filter(({ dry }) => !dry).flatMap((source) => source.missing);
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing: distinct(missing) } : { outcome: 'pass', about, rests };
}

function fails({ boat }: View, filter: Part, floods: readonly Source[], alone: boolean, rests: readonly Ground[]): Verdict {
    const { fitting, through } = floods[0]!;
    const course = boat.courses.find((other) => other.to.part === fitting.tank && other.to.port === fitting.port);
    const last = course?.parts.at(-1);
    const tanks = [...new Set(floods.map(({ tank }) => tank.id))];
    const way = through ? `back through the return and ${through.id}` : 'back through its line';
    return {
        outcome: 'fail', about: filter.id, rests,
        message: `${capital(filter.name)} cannot be shut off from ${listed(floods.map((source) => source.fitting.id))}: liquid in ${listed(tanks)} can stand above it and come ${way}.`,
        reason: 'Opened, it can flood although its supply is shut.',
        advice: `Put a check valve with its arrow to the tank at ${fitting.id}, or end that pipe above the highest level.`,
        ...(alone && course && { fix: { title: `Put a check valve at ${fitting.id}`, line: `check ${freeTag(boat, 'CV')}`, where: last === undefined ? { intoStartOf: course.id } : { after: last } } }),
        see: floods.map((source) => ({ id: source.fitting.id, why: 'reaches below the surface' })),
    };
}
