import type { Vent } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import type { Driver } from '../../model/step';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { uprightSurface } from '../../analysis/tanks/surface';
import { partsBefore } from '../../analysis/topology/paths';
import { headEnough } from '../../analysis/air/vents';
import type { Pumping } from '../../analysis/air/pumping';
import { isPump, type Positions } from '../../analysis/topology/network';
import { listed } from '../../model/words';
import { bleedSettings, fills, pumpingOf, servedBy } from '../bleeding';
import { nameOf, type Check, type View } from '../check';
import { heightMissing, heightsMissing, levelMissing, shapeFact, sizeMissing } from '../../analysis/missing';

export const bleedDrive: Check = {
    code: 'BLEED-DRIVE', severity: 'major',
    statement: 'In some line-up for running, a shutoff opened or one valve turned from there, each bleed point has a driver upstream that needs no power: a hand primer, the lever of a lift pump, or a tank that stands at least 50 mm above it.',
    prevents: 'A part that cannot be bled, or not with a flat battery.',
    facts: 'bleed points; primers and pumps; for gravity, heights and lowest tank level',
    source: 'logic of the network; 50 mm is common practice',
    judge: (view) => {
        const pumping = pumpingOf(view);
        const owners = [...view.boat.parts, ...view.boat.consumers];
        const settings = view.runs.flatMap((lineUp) => bleedSettings(view, lineUp));
        return owners.flatMap((owner) => owner.vents.map((vent) => judge(view, pumping, settings, vent)));
    },
};

function judge(view: View, pumping: Pumping, settings: readonly Positions[], vent: Vent): Verdict {
    const consumers = servedBy(view, vent);
    if (consumers.length === 0) return { outcome: 'not applicable', about: vent.id, why: 'it stands on no supply from a tank to a consumer' };
    const works = (driver: Driver): boolean => settings.some((positions) => consumers.some((consumer) => !('law' in pumping.flow(vent.id, driver, consumer.id, positions))));
    const supply = new Set(consumers.flatMap((consumer) => [...partsBefore(view.allOpen, `${consumer.id}:in`)]));
    const pumps = view.boat.parts.filter((part) => supply.has(part.id) && isPump(part));
    const hands = pumps.filter((part) => (part.kind === 'hand primer' && works({ by: 'hand', part: part.id })) || (part.kind === 'lift pump' && works({ by: 'lever', part: part.id })));
    if (hands.length > 0) return { outcome: 'pass', about: vent.id, rests: hands.map(({ id }) => ({ about: id })) };
    const missing: MissingFact[] = [];
    for (const tank of view.boat.tanks.filter((other) => works({ by: 'gravity', part: other.id }))) {
        const level = view.boat.vessel.envelope.level?.low;
        const surface = level === undefined ? undefined : uprightSurface(tank, level);
        const height = vent.at?.up?.si;
        if (surface !== undefined && height !== undefined) {
            if (!headEnough(surface, height)) continue;
            const below = fills(view, pumping, vent, tank.id, consumers, surface);
            if (below === 'yes') return { outcome: 'pass', about: vent.id, rests: [{ about: vent.id, fact: 'at' }, { about: tank.id, fact: shapeFact(tank) }] };
            if (below !== 'no') missing.push(...below.unknown.map((id) => heightsMissing(id, nameOf(view.boat, id))));
            continue;
        }
        if (height === undefined) missing.push(heightMissing(vent.id));
        if (!span(tank, UPRIGHT)) missing.push(sizeMissing(tank.id));
        if (level === undefined) missing.push(levelMissing);
    }
    if (missing.length > 0) return { outcome: 'cannot tell', about: vent.id, missing };
    const owner = nameOf(view.boat, vent.part);
    const electric = pumps.filter((part) => part.kind.startsWith('electric') && works({ by: 'electric', part: part.id })).map((part) => part.name);
    return {
        outcome: 'fail', about: vent.id, ...(electric.length > 0 && { severity: 'minor' as const }),
        message: electric.length > 0 ? `${vent.id} on ${owner} can be bled only by ${listed(electric)}, which needs power.` : `Nothing can push fuel to ${vent.id} on ${owner}: no primer or lever stands upstream with an open way, and no tank there is sure to stand above it.`,
        reason: electric.length > 0 ? 'With a flat battery the engine cannot be bled.' : `Opened while a pump downstream is worked, it draws air in.`,
        advice: `Fit a hand primer between the tank and ${owner}.`, see: [{ id: vent.part, why: 'the part that it bleeds' }],
    };
}
