/** Where a procedure is executed, and how its state changes. */
import { UPRIGHT } from '../../analysis/tanks/attitude';
import type { Consumer, Id } from '../../model/boat';
import { startState } from '../state';
import type { Ground } from './ground';
import type { Program } from './program';
import type { ServiceState } from './state';

export interface Stage {
    readonly ground: Ground;
    readonly program: Program;
}

export const having = <T>(set: ReadonlySet<T>, ...more: readonly T[]): ReadonlySet<T> => (more.every((one) => set.has(one)) ? set : new Set([...set, ...more]));
export const without = <T>(set: ReadonlySet<T>, ...less: readonly T[]): ReadonlySet<T> => (less.some((one) => set.has(one)) ? new Set([...set].filter((one) => !less.includes(one))) : set);

/** The same for sets by their part. */
export const havingOf = (map: ReadonlyMap<Id, ReadonlySet<string>>, part: Id, ...more: readonly string[]): ReadonlyMap<Id, ReadonlySet<string>> => new Map(map).set(part, having<string>(map.get(part) ?? new Set(), ...more));
export const withoutOf = (map: ReadonlyMap<Id, ReadonlySet<string>>, part: Id, ...less: readonly string[]): ReadonlyMap<Id, ReadonlySet<string>> => {
    const left = without<string>(map.get(part) ?? new Set(), ...less);
    const after = new Map(map).set(part, left);
    if (left.size === 0) after.delete(part);
    return after;
};

/** What has a key and a starter. */
export const isMotor = ({ kind }: Pick<Consumer, 'kind'>): boolean => kind === 'engine' || kind === 'generator';

export const BILGE_PUMP = 'bilge pump';
export const BATTERY = 'battery switch';
export const seacockOf = (engine: Id): string => `${engine} seacock`;

/** The start line-up, all closed and whole, nothing runs but the engines under way, keys in, every segment fuel. */
export function startOf(stage: Stage): ServiceState {
    const { program: { starts, underWay, today } } = stage;
    return today ? begin(stage) : stage.ground.keep(`start ${underWay === true} ${starts}`, () => begin(stage));
}

function begin({ ground, program }: Stage): ServiceState {
    const { boat } = ground;
    const { positions, stopped } = ground.lineUp(program.starts);
    const motors = boat.consumers.filter(isMotor);
    return {
        ...startState(ground.same(positions), new Map()), open: new Set(), out: new Map(), disturbed: new Map(), fitted: new Map(),
        running: new Set(program.underWay ? motors.filter(({ id, kind }) => kind === 'engine' && !stopped.includes(id)).map(({ id }) => id) : []),
        keyIn: new Set(motors.map(({ id }) => id)),
        set: new Map([[BILGE_PUMP, 'auto'], [BATTERY, 'on'], ...motors.map(({ id }) => [seacockOf(id), 'open'] as const)]),
        cans: new Map(), pads: new Set(), volumes: program.today?.volumes ?? new Map(), attitude: program.today?.attitude ?? UPRIGHT,
        cranked: new Map(), dryImpeller: new Set(), proven: new Set(), water: new Set(boat.parts.filter(({ separatesWater }) => separatesWater).map(({ id }) => id)),
        opened: new Set(), unseen: new Set(), warned: new Set(),
    };
}

/** What stands open or is off, by part. */
export function openParts({ open, out }: ServiceState): ReadonlyMap<Id, readonly string[]> {
    const found = new Map<Id, string[]>();
    for (const key of open) {
        const [part, ...name] = key.split(' ');
        found.set(part!, [...(found.get(part!) ?? []), name.join(' ')]);
    }
    for (const [part, pieces] of out) if (pieces.has('')) found.set(part, [...(found.get(part) ?? []), '']);
    return found;
}
