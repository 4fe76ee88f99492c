/**
 * Laying her up, and taking her into use again. Tanks full or low: two schools, both told. Agreed on: water out, treated fuel run to the injectors,
 * bowls drained, tank valves shut, vents left open, levels written down (trade practice). To preserve the fuel side with oil is the maker's to say (published A2).
 */
import type { Boat, Consumer, Id } from '../../../model/boat';
import { grossOf } from '../../../analysis/tanks/liquid';
import { FULL } from '../../../analysis/tanks/pickups';
import { fullSpeed } from '../../../analysis/flow/demand';
import { openingNamed } from '../../../analysis/opening/openings';
import { burnersOf } from '../../../analysis/time/burners';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { Positions } from '../../../analysis/topology/network';
import { partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { startStep } from '../../bleed';
import { comesBy } from '../cut-off';
import { canFor, comesOut } from '../drains';
import type { Remark } from '../plan';
import type { Visit } from '../visit';
import { drainSeals, needed } from './pieces';
import type { Recipe } from './recipe';
import { planned, told } from '../step-of';
import { FAST_IDLE } from '../verify';
import { blank, settings, unplaced } from './operation';

/** s that an engine runs so that treated fuel comes to its injectors (trade practice). */
const TREATED = 15 * 60;
/** s around it: no source. */
const [LAYING_UP, TAKING_OUT] = [120 * 60, 30 * 60];

export const layUp: Recipe = {
    verb: 'lay up',
    rows: () => [{ verb: 'lay', piece: 'up' }],
    fits: (_visit, { verb, piece }) => verb === 'lay' && piece === 'up',
    make: (visit) => {
        const { boat, network, request, starts } = visit;
        const laid = laidUp(visit);
        if (!laid) return noLineUp;
        const missing = unplaced(boat, starts, laid);
        if (missing.length > 0) return blank('A valve is placed by nothing that is written.', missing);
        const motors = motorsOf(visit, starts);
        const unknown = motors.flatMap(({ id, exhaust }) => (exhaust ? [] : [{ about: id, fact: `whether the exhaust of ${id} is wet or dry`, how: 'look whether water is injected at the elbow, and write `exhaust wet` or `exhaust dry`' }]));
        if (unknown.length > 0) return blank('Engines are started for it, and a fact that this needs is missing.', unknown);
        const tanks = fuelTanks(boat);
        const bowls = bowlsOf(visit, starts, laid.positions);
        const cans = new Map(bowls.map(({ part }) => [part, canFor(comesOut(visit, [{ part, opening: 'drain' }], laid.positions))]));
        const open = burnersOf(network).flatMap(({ id }): Remark[] => { const fed = tanksBefore(running(network, laid.positions), `${id}:in`); return fed.length > 0 ? [{ say: 'still open', with: { consumer: id, tanks: fed, lineUp: laid.id } }] : []; });
        const looked = bowlsOff(visit, bowls);
        return {
            ends: laid.id, consumers: boat.consumers.map(({ id }) => id), takes: { seconds: LAYING_UP + TREATED * motors.length, people: 1 },
            needs: { tools: ['hand pump with a thin pipe for the bottom of the tank', 'clear jar', 'fuel treatment', 'metal can with a lid for water, old fuel and rags'], parts: bowls.flatMap(({ part, seals }) => needed(part, seals)) },
            whole: [
                ...tanks.flatMap((tank) => [
                    told('prepare', { do: 'look', part: tank.id, piece: 'level' }, { tell: 'water out', with: { tank: tank.id } }),
                    told('prepare', { do: 'look', part: tank.id, piece: 'filling' }, { tell: 'treat the fuel', with: { tank: tank.id, full: fullOf(tank) } }),
                    told('prepare', { do: 'look', part: tank.id, piece: 'vent' }, { tell: 'vent open', with: { tank: tank.id } }),
                ]),
                ...motors.flatMap((motor) => [
                    planned('start', startStep(motor)),
                    planned('start', { do: 'run', part: motor.id, ...(motor.kind === 'engine' && { speed: Math.min(FAST_IDLE, fullSpeed(motor) ?? FAST_IDLE) }), seconds: TREATED }, { say: 'treated fuel', with: { engine: motor.id } }),
                    planned('start', { do: 'stop', part: motor.id, keyOut: true }, bowls.length > 0 ? { say: 'cold engine', with: { engine: motor.id } } : undefined),
                ]),
                ...settings(network, starts.positions, laid.positions).map((step, i) => planned('isolate', step, ...(i === 0 ? open : []))),
                ...draining(bowls, looked, cans),
                ...motors.filter(({ exhaust }) => exhaust?.kind === 'wet').map(({ id }) => planned('finish', { do: 'switch', thing: 'seacock', of: id, to: 'shut' })),
                told('finish', { do: 'look', piece: 'tools' }, { tell: 'count all', with: { things: ['tools', 'pads', 'rags', 'cans'] } }),
                ...(motors.length > 0 ? [told('finish', { do: 'look', piece: 'keys' }, { tell: 'leave her', with: { engines: motors.map(({ id }) => id) } })] : []),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            acceptance: [{ say: 'line-up', with: { lineUp: laid.id } }],
            log: [{ say: 'log levels and water', with: { tanks: tanks.map(({ id }) => id) } }],
            after: [...(motors.length > 0 ? [{ say: 'preserving is the maker\'s', with: { engines: motors.map(({ id }) => id) } } as const] : [])],
        };
    },
};

export const recommission: Recipe = {
    verb: 'recommission',
    rows: () => [{ verb: 'recommission', piece: '' }],
    fits: (_visit, { verb, part }) => verb === 'recommission' && part === undefined,
    starts: (boat) => boat.lineUps.find(({ use }) => use === 'laid up')?.id,
    make: (visit) => {
        const { boat } = visit;
        const laid = laidUp(visit);
        if (!laid) return noLineUp;
        if (visit.starts.id !== laid.id) return blank(`She is taken into use from ${laid.id}: ask for the procedure that starts there.`);
        const bowls = bowlsOf(visit, visit.ends, laid.positions);
        const motors = motorsOf(visit, visit.ends).map(({ id }) => id);
        return {
            opens: bowls.map(({ part }) => ({ part, opening: 'drain' })), parts: bowls.flatMap(({ part, seals }) => needed(part, seals)), seconds: TAKING_OUT, tools: ['hand pump with a thin pipe for the bottom of the tank', 'clear jar'],
            steps: [
                ...bowls.map(({ part }) => planned('open', { do: 'look', part, piece: 'bowl', words: 'water, slime' }, { say: 'until clean fuel', with: { part } }, { say: 'note water', with: { part } })),
            ],
            first: fuelTanks(boat).map(({ id }) => told('prepare', { do: 'look', part: id, piece: 'level' }, { tell: 'sample', with: { tank: id, when: 'before' } })),
            afterwards: motors.map((engine) => told('restore', { do: 'switch', thing: 'seacock', of: engine, to: 'open' }, { tell: 'sea water', with: { engine } })),
        };
    },
};

const laidUp = ({ lineUps, request }: Visit): ResolvedLineUp | undefined => lineUps.find(({ id, use }) => use === 'laid up' && (request.ends === undefined || request.ends === id || request.starts === id));
const noLineUp = blank('There is no line-up for laying up. Decide which valves are shut while nobody is on board, and write it like `line-up LAID-UP laid up from RUN { V1 shut }`.');

const fuelTanks = (boat: Boat): Boat['tanks'] => boat.tanks.filter(({ carries }) => (carries ?? 'diesel') === 'diesel');
const fullOf = (tank: Boat['tanks'][number]): number | undefined => { const gross = grossOf(tank); return gross === undefined ? undefined : FULL * gross; };

/** What is started: engines and generators that a tank feeds. */
const motorsOf = ({ network }: Visit, lineUp: ResolvedLineUp): readonly Consumer[] => burnersOf(network).filter(({ id, kind }) => (kind === 'engine' || kind === 'generator') && tanksBefore(running(network, lineUp.positions), `${id}:in`).length > 0);

interface Bowl {
    readonly part: Id;
    /** Of its drain. */
    readonly seals: readonly string[];
}

/** Filters on line that have a drain to which nothing comes while she is laid up. */
function bowlsOf(visit: Visit, { positions }: ResolvedLineUp, laid: Positions): Bowl[] {
    const { boat, network } = visit;
    const on = new Set(burnersOf(network).flatMap(({ id }) => [...partsBefore(running(network, positions), `${id}:in`)]));
    return boat.parts.filter(({ id, kind, drain }) => kind === 'filter' && drain && on.has(id)).flatMap(({ id }) => {
        const opening = openingNamed(boat, id, 'drain')!;
        const dry = (['supply', 'return'] as const).every((side) => comesBy(visit, side, laid, opening).comes === 'nothing');
        return dry ? [{ part: id, seals: drainSeals(visit, id) }] : [];
    });
}

/** Separators that are not drained here. */
const bowlsOff = ({ boat }: Visit, bowls: readonly Bowl[]): Id[] => boat.parts.filter(({ id, kind, separatesWater }) => kind === 'filter' && separatesWater && !bowls.some(({ part }) => part === id)).map(({ id }) => id);

function draining(bowls: readonly Bowl[], looked: readonly Id[], cans: ReadonlyMap<Id, number>): ReturnType<typeof planned>[] {
    return [
        ...(bowls.length > 0 ? [planned('work', { do: 'switch', thing: 'bilge pump', to: 'off' })] : []),
        ...bowls.flatMap(({ part, seals }) => [
            planned('work', { do: 'place', thing: 'pads', part, count: 4 }), planned('work', { do: 'place', thing: 'can', part, holds: cans.get(part)! }),
            planned('work', { do: 'open', part, opening: 'drain' }, { say: 'until clean fuel', with: { part } }),
            planned('work', { do: 'look', part, piece: 'bowl', words: 'water, slime' }, { say: 'note water', with: { part } }),
            ...(seals.length > 0 ? [planned('work', { do: 'remove', part, pieces: seals }), planned('work', { do: 'fit', part, pieces: seals }, { say: 'oil seals', with: { part, seals } })] : []),
            planned('work', { do: 'close', part, opening: 'drain' }),
        ]),
        ...looked.map((part) => planned('work', { do: 'look', part, piece: 'bowl', words: 'water, slime' }, { say: 'only looked at', with: { parts: [part] } })),
        planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }),
        ...(bowls.length > 0 ? [planned('finish', { do: 'switch', thing: 'bilge pump', to: 'auto' }, { say: 'bilge clean first' })] : []),
    ];
}
