/** The laws of every step in which hands open, draw off or bleed: what must be so around it. */
import type { Id } from '../../../model/boat';
import type { Driver } from '../../../model/step';
import { volumeOf } from '../../../analysis/volumes';
import { missingOf } from '../../../analysis/missing';
import type { Opening } from '../../../analysis/opening/openings';
import type { Positions } from '../../../analysis/topology/network';
import { partsAfter, running } from '../../../analysis/topology/paths';
import type { Ground } from '../ground';
import { comesTo } from '../isolation';
import type { BrokenLaw } from '../laws';
import { kindOf } from '../pieces';
import { breaks } from '../program';
import { BILGE_PUMP, isMotor, openParts, type Stage } from '../stage';
import { openingKey, type ServiceState } from '../state';

/** Before something is opened. */
export function openingLaws(stage: Stage, state: ServiceState, opening: Opening): BrokenLaw[] {
    const { ground } = stage;
    const consumer = ground.network.consumers.get(opening.part);
    return [
        ...isolated(stage, state.positions, opening),
        ...(consumer?.injection?.pump === 'common-rail' && kindOf(opening) === 'body' ? [breaks('rail-union', [consumer.id])] : []),
        ...caught(stage, state, opening.part, opening),
        ...handsOff(stage, state, opening.part),
        ...[...state.running].filter((id) => ground.network.parts.has(id) && ground.touches(state.positions, { by: 'electric', part: id }, opening.part))
            .map((id) => breaks('open-while-pumped', [id, openingKey(opening.part, opening.name)])),
    ];
}

/** That no tank could come to an opening with the valves so. */
export function isolated({ ground, program }: Stage, positions: Positions, opening: Opening): BrokenLaw[] {
    const { tanks, lacks } = comesTo(ground, positions, opening, program.today);
    if (tanks.length > 0) return [breaks('could-flood', [opening.part, opening.name, ...tanks])];
    return lacks.length > 0 ? [breaks('cannot-tell', [opening.part, opening.name], lacks.map((lack) => missingOf(ground.boat, lack)))] : [];
}

/** What stands open that liquid could come to now and could not before. */
export function floodedBy(stage: Stage, before: Positions, after: Positions, state: ServiceState): BrokenLaw[] {
    return [...openParts(state)].flatMap(([part, names]) => names.flatMap((name) => {
        const opening = name === '' ? stage.ground.takenOff(part) : stage.ground.opening(part, name);
        return opening && isolated(stage, before, opening).length === 0 ? isolated(stage, after, opening) : [];
    }));
}

/** Pads, and for all but a bleed point a can; the bilge pump off. */
export function caught({ ground }: Stage, state: ServiceState, part: Id, opening?: Opening): BrokenLaw[] {
    const broken: BrokenLaw[] = [];
    if (!state.pads.has(part)) broken.push(breaks('no-pads', [part]));
    if (opening && kindOf(opening) !== 'vent') {
        const can = state.cans.get(part);
        const comes = volumeComing({ ground }, state, opening);
        if (!can) broken.push(breaks('no-can', [part]));
        else if (comes !== undefined && !((can.holds ?? 0) - can.has >= 2 * comes)) broken.push(breaks('small-can', [part]));
    }
    if (state.set.get(BILGE_PUMP) !== 'off') broken.push(breaks('bilge-pump-on', [part]));
    return broken;
}

/** What comes out of an opening by what the part and the lines above it hold, m³; what ran out before comes no more. Undefined where it is not known. */
export function volumeComing({ ground }: Pick<Stage, 'ground'>, state: ServiceState, opening: Opening): number | undefined {
    const full = ground.comesOut(state.positions, opening).filter((id) => state.gas.get(id) !== 'air');
    const volumes = full.map((id) => ground.keep(`holds ${id}`, () => contentOf(ground, id)));
    return volumes.reduce<number | undefined>((sum, volume) => (sum === undefined || volume === undefined ? undefined : sum + volume), 0);
}

/** m³; a valve, a check, a gauge or a tee has none of its own that counts. */
const contentOf = ({ boat, network }: Ground, id: Id): number | undefined => (network.through.get(id)?.some((i) => network.passages[i]!.segment) ? volumeOf(boat, id) : 0);

/** That no hand is in an engine that runs or could be started; under way the idle side is excepted. `powered`: the key must be on for it. */
export function handsOff({ ground, program }: Stage, state: ServiceState, part: Id, powered = false): BrokenLaw[] {
    return ground.servedBy(part).flatMap(({ id, kind }) => {
        const runs = state.running.has(id);
        if (program.underWay && runs && isIdle(ground, state.positions, id, part)) return [];
        return [...(runs ? [breaks('engine-runs', [id])] : []), ...(isMotor({ kind }) && state.keyIn.has(id) && !powered ? [breaks('key-in', [id])] : [])];
    });
}

/** Whether no liquid of a running consumer passes a part. */
const isIdle = ({ network, pumping }: Ground, positions: Positions, consumer: Id, part: Id): boolean =>
    part !== consumer && !pumping.before(consumer, positions).has(part) && !partsAfter(running(network, positions), `${consumer}:out`).has(part);

/** What stands open, or is off, where a driver pushes liquid or draws it from. */
export function openTo(ground: Ground, state: ServiceState, driver: Driver): string[] {
    return [...openParts(state)].filter(([part]) => ground.touches(state.positions, driver, part)).flatMap(([part, names]) => names.map((name) => openingKey(part, name).trim()));
}

/** Each law once at the same parts. */
export const dedupe = (laws: readonly BrokenLaw[]): BrokenLaw[] => laws.filter((law, i) => laws.findIndex((other) => other.law === law.law && other.parts.join() === law.parts.join()) === i);
