/**
 * Division: FOOT-CHECK speaks of an engine that is known to lose its prime although something holds the column; ISOLATE-FILTER-OUT of what drains back to a filter from
 * beyond it while it is open. A pump with valves of its own holds as a check does. Both are taken as tight: whether one is worn is
 * found out only by waiting, and then it is FOOT-CHECK that asks for another.
 */
import type { Id, Part } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import { emptiest, surfaceIn, type Condition } from '../../analysis/opening/condition';
import { lackOf, type Lack } from '../../analysis/opening/lack';
import { LEVEL } from '../../analysis/opening/open';
import { openingsOf, type Opening } from '../../analysis/opening/openings';
import { supplyOnly } from '../../analysis/opening/side';
import { heightOf } from '../../analysis/tanks/attitude';
import { lineUpNetwork, networkOf, reach } from '../../analysis/topology/network';
import { tanksBefore } from '../../analysis/topology/paths';
import { listed, mm } from '../../model/words';
import { isFuelTank } from '../at-fitting';
import { freeTag, type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { distinct, heelMissing, missingOf, positionMissing, shapeGrounds, sizeMissing } from '../../analysis/missing';
import { openingName } from '../opened';

export const drainback: Check = {
    code: 'DRAINBACK', severity: 'minor', slow: true,
    statement: 'In a line-up for running, with the engine stopped, a check valve or a pump with valves of its own holds the column before each filter or strainer that can stand above the level of its tank.',
    prevents: 'The first seal that weeps lets the column fall; the engine starts hard the next day, and stops with air.',
    facts: 'heights and places of lids or ports; shape and place of tanks; envelope; checks and pumps; line-ups for running',
    source: 'common practice',
    judge,
};

interface Falls {
    readonly part: Part;
    readonly opening: Opening;
    readonly tank: Id;
    readonly lineUp: Id;
    readonly condition: Condition;
    /** How high it stands above the surface, m. */
    readonly lift: number;
}

function judge(view: View): Verdict[] {
    const verdicts: Verdict[] = [];
    const told: Falls[] = [];
    for (const part of view.boat.parts) {
        const service = view.boat.courses.find(({ parts }) => parts.includes(part.id))?.service;
        if ((part.kind !== 'filter' && part.kind !== 'strainer') || service !== 'supply') continue;
        const about = part.id;
        if (!tanksBefore(view.allOpen, `${about}:in`).some((tank) => isFuelTank(view, tank))) { verdicts.push({ outcome: 'not applicable', about, why: 'no fuel tank feeds it' }); continue; }
        const { falls, missing } = fallsOf(view, part);
        if (falls) told.push(falls);
        else verdicts.push(missing.length > 0 ? { outcome: 'cannot tell', about, missing: distinct(missing) } : { outcome: 'pass', about });
    }
    // Filters one after the other on the same column are mended by one check.
    const tanks = [...new Set(told.map(({ tank }) => tank))];
    return [...verdicts, ...tanks.map((tank) => fails(view, told.filter((falls) => falls.tank === tank)))];
}

function fallsOf(view: View, part: Part): { readonly falls?: Falls; readonly missing: readonly MissingFact[] } {
    const { boat } = view;
    const network = networkOf(supplyOnly(boat));
    const opening = openingsOf(boat).get(part.id)![0]!;
    const start = network.index.get(part.reversed ? `${part.id}:out` : `${part.id}:in`)!;
    const missing: MissingFact[] = [];
    let falls: Falls | undefined;
    for (const lineUp of view.runs) {
        const linedUp = lineUpNetwork(network, lineUp.positions);
        const down = reach(linedUp, linedUp.ways, [start], new Set(network.through.get(part.id)));
        const tanks = boat.tanks.filter(({ id }) => down.has(network.tanks.get(id)!) && isFuelTank(view, id));
        if (tanks.length === 0) { missing.push(...lineUp.unplaced.filter((valve) => network.through.get(valve)?.some((i) => down.has(network.passages[i]!.from) || down.has(network.passages[i]!.to))).map((valve) => positionMissing(valve, lineUp.id))); continue; }
        const { heel, trim } = boat.vessel.envelope;
        if (heel === undefined || trim === undefined) missing.push(heelMissing);
        for (const tank of tanks) for (const condition of emptiest(boat)) {
            const [surface, height] = [surfaceIn(condition, tank), heightOf(opening.place, condition.attitude)];
            if (surface === undefined || height === undefined) {
                const lack: Lack | undefined = lackOf(part.id, opening.place, condition.attitude, 'height', opening.name);
                missing.push(...(lack ? [missingOf(boat, lack)] : []), ...(surface === undefined ? [sizeMissing(tank.id)] : []));
            } else if (height - surface > LEVEL && (!falls || height - surface > falls.lift + 1e-3)) falls = { part, opening, tank: tank.id, lineUp: lineUp.id, condition, lift: height - surface };
        }
    }
    return { missing, ...(falls && { falls }) };
}

function fails({ boat }: View, told: readonly Falls[]): Verdict {
    const { part, opening, tank, lineUp, condition, lift } = told.reduce((most, other) => (other.lift > most.lift ? other : most));
    const names = listed(told.map((one) => one.part.name));
    const about = told[0]!.part;
    return {
        outcome: 'fail', about: about.id, members: told.map((one) => one.part.id), rests: [{ about: part.id, fact: opening.name }, { about: part.id, fact: 'ports' }, ...shapeGrounds(boat, tank)],
        message: `Nothing holds the column between ${tank} and ${names}: ${openingName(part.name, opening)} can stand ${mm(lift)} above the surface (${cornerWords(boat, condition, tank, lineUp)}).`,
        reason: 'With the engine stopped the first seal that weeps lets it fall back to the tank, and air stands in the line.',
        advice: `Put a check valve with a light spring before ${about.name}, its arrow to the engine.`,
        ...(told.length === 1 && { fix: { title: `Put a check valve before ${about.name}`, line: `check ${freeTag(boat, 'CV')}`, where: { before: about.id } } }),
        see: [{ id: tank, why: 'where it falls to' }, ...told.slice(1).map((one) => ({ id: one.part.id, why: 'on the same column' }))],
    };
}
