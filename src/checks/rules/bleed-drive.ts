import type { Consumer, Id, Vent } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import type { Driver } from '../../model/step';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { uprightSurface } from '../../analysis/tanks/surface';
import { partsBefore, tanksBefore } from '../../analysis/topology/paths';
import { runsBelow } from '../../analysis/air/heights';
import { headEnough } from '../../analysis/air/vents';
import { Pumping } from '../../analysis/air/pumping';
import { ganged } from '../../analysis/topology/line-ups';
import { isPump, isValve, reach, type Positions } from '../../analysis/topology/network';
import { listed } from '../../model/words';
import { nameOf, type Check, type View } from '../check';
import { heightMissing, heightsMissing, levelMissing, shapeFact, sizeMissing } from '../missing';

export const bleedDrive: Check = {
    code: 'BLEED-DRIVE', severity: 'major',
    statement: 'In some line-up for running, a shutoff opened or one valve turned from there, each bleed point has a driver upstream that needs no power: a hand primer, the lever of a lift pump, or a tank that stands at least 50 mm above it.',
    prevents: 'A part that cannot be bled, or not with a flat battery.',
    facts: 'bleed points; primers and pumps; for gravity, heights and lowest tank level',
    source: 'logic of the network; 50 mm is common practice',
    judge: (view) => {
        const pumping = new Pumping(view.network);
        const owners = [...view.boat.parts, ...view.boat.consumers];
        const settings = bleedSettings(view);
        return owners.flatMap((owner) => owner.vents.map((vent) => judge(view, pumping, settings, vent)));
    },
};

/**
 * The line-ups for running; each with every shutoff open that a hand can open, like that of a primer in a bypass; and each with
 * one selector or changeover turned, like that of the filter which is off line.
 */
function bleedSettings({ boat, runs }: View): Positions[] {
    const byHand = new Set(boat.parts.filter((part) => part.kind === 'shutoff' && !part.solenoid).map(({ id }) => id));
    const turned = boat.parts.filter((part) => part.kind !== 'shutoff' && isValve(part) && ganged(boat, part.id)[0] === part.id);
    return [
        ...runs.map(({ positions }) => positions),
        ...runs.flatMap(({ positions }) => {
            const shut = [...positions].filter(([valve, position]) => position === 'shut' && byHand.has(valve));
            return shut.length === 0 ? [] : [new Map([...positions, ...shut.map(([valve]) => [valve, 'open'] as const)])];
        }),
        ...runs.flatMap(({ positions }) => turned.flatMap((part) => part.positions.filter(({ name }) => name !== positions.get(part.id))
            .map(({ name }) => new Map([...positions, ...ganged(boat, part.id).map((other) => [other, name] as const)])))),
    ];
}

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

/** Whether the tank fills an empty line to the vent by its height, in some line-up for running. */
function fills(view: View, pumping: Pumping, vent: Vent, tank: Id, consumers: readonly Consumer[], surface: number): ReturnType<typeof runsBelow> {
    const answers = view.runs.flatMap((lineUp) => consumers.flatMap((consumer) => {
        const flow = pumping.flow(vent.id, { by: 'gravity', part: tank }, consumer.id, lineUp.positions);
        return 'law' in flow ? [] : [runsBelow(view.network, [...flow.sure, ...flow.legs], surface)];
    }));
    return answers.find((answer) => answer === 'yes') ?? answers.find((answer) => answer !== 'no') ?? 'no';
}

/** Consumers between which and some tank the vent's part lies. */
function servedBy({ boat, network, allOpen }: View, vent: Vent): readonly Consumer[] {
    const own = boat.consumers.filter(({ id }) => id === vent.part && tanksBefore(allOpen, `${id}:in`).length > 0);
    const out = network.index.get(`${vent.part}:out`);
    if (out === undefined || tanksBefore(allOpen, `${vent.part}:in`).length === 0) return own;
    const after = reach(allOpen, allOpen.ways, [out]);
    return boat.consumers.filter((consumer) => consumer.id === vent.part ? own.includes(consumer) : after.has(network.index.get(`${consumer.id}:in`)!));
}
