/** A tank is pumped round through a filter, in a line-up for polishing: three turns of it at least, five are better (common practice). */
import type { Id } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { rateMissing, sizeMissing } from '../../../analysis/missing';
import type { Recipe } from './recipe';
import type { Remark } from '../plan';
import { grossOf } from '../../../analysis/tanks/liquid';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { FULL, leastToWet, mostToWet } from '../../../analysis/tanks/pickups';
import { barredFor, burnersOf, runsIn } from '../../../analysis/time/burners';
import { movers } from '../../../analysis/time/overflow';
import { TURNOVERS, polishingOf } from '../../../analysis/time/transfer';
import { partsAfter, partsBefore, running, tanksAfter, tanksBefore } from '../../../analysis/topology/paths';
import { listed } from '../../../model/words';
import { planned, told } from '../step-of';
import { blank, named, settings, sounding, unplaced } from './operation';

/** s between two looks at the filter: common practice, from memory. */
const LOOK = 3600;
/** s around it: no source. */
const AROUND = 20 * 60;

export const polish: Recipe = {
    verb: 'polish',
    rows: (boat) => boat.lineUps.filter(({ use }) => use === 'polish').map(({ id }) => ({ verb: 'polish', part: id, piece: '' })),
    fits: (_visit, { verb }) => verb === 'polish',
    make: ({ boat, network, lineUps, request, starts, ends }, { part }) => {
        const lineUp = lineUps.find(({ id, use }) => id === part && use === 'polish');
        if (!lineUp) return blank(`There is no line-up for polishing called ${part ?? ''}.`);
        const missing = unplaced(boat, lineUp, starts, ends);
        if (missing.length > 0) return blank('A valve is placed by nothing that is written.', missing);
        const linedUp = running(network, lineUp.positions);
        const pumps = movers(network, linedUp).map(({ id }) => id);
        const [pump] = pumps;
        if (pump === undefined) return blank(`In ${lineUp.id} no electric pump brings fuel back to the tank that it draws from.`);
        if (pumps.length > 1) return blank(`In ${lineUp.id} ${listed(pumps)} run at once. Write a line-up for each.`);
        const barred = barredFor(network).any;
        const [from, to] = [tanksBefore(linedUp, `${pump}:in`, barred), tanksAfter(linedUp, `${pump}:out`, barred)];
        const [tank] = from;
        // Fuel that may go to another tank fills that one, and nobody watches it.
        if (from.length > 1 || to.length > 1 || tank !== to[0]) return blank(`In ${lineUp.id} ${pump} draws from ${listed(from)} and may deliver into ${listed(to)}: that moves fuel from tank to tank. Shut all but one tank in the line-up.`);
        const [before, after] = [partsBefore(linedUp, `${pump}:in`), partsAfter(linedUp, `${pump}:out`)];
        const filters = boat.parts.filter(({ id, kind }) => kind === 'filter' && (before.has(id) || after.has(id)));
        if (filters.length === 0) return blank(`There is no filter between ${pump} and ${tank}: what is pumped round stays as it is.`);
        const loop = polishingOf(boat, lineUp, request.today?.volumes)[0];
        const unknown: MissingFact[] = (loop?.lacks ?? []).map(({ about, of }) => (of === 'rate' ? rateMissing(named(boat, about)) : sizeMissing(about)));
        if (!loop?.seconds || !loop.turnover || !loop.unfiltered) return blank('How long it takes cannot be said.', unknown);
        const [three, five] = loop.seconds;
        const gauges = boat.parts.filter(({ id, kind }) => kind === 'gauge' && (before.has(id) || after.has(id))).map(({ id }) => id);
        const own = boat.tanks.find(({ id }) => id === tank)!;
        // By one pickup the engine would draw what the pump leaves it: it stands still, or has one of its own.
        const sharing = burnersOf(network).filter(({ id }) => runsIn(lineUp, id) && own.fittings.some((fitting) => before.has(fitting.id) && partsBefore(linedUp, `${id}:in`).has(fitting.id))).map(({ id }) => id);
        const wet = own.fittings.filter(({ id }) => before.has(id)).map(({ mouth }) => mostToWet([own], mouth, boat.vessel.envelope)?.volume ?? leastToWet(own, mouth, UPRIGHT));
        const least = wet.length === 0 || wet.includes(undefined) ? undefined : Math.max(...(wet as number[]));
        const rank = (valve: Id): number => (before.has(valve) ? 1 : after.has(valve) ? 2 : 0);
        const holds = request.today?.volumes.get(tank!) ?? FULL * grossOf(own)!;
        const bowls = filters.filter(({ separatesWater }) => separatesWater).map(({ id }) => id);
        const watch: Remark[] = filters.map(({ id, dirty }) => ({ say: 'watch element', with: { filter: id, every: LOOK, gauges, dirty: dirty?.si } }));
        return {
            consumers: sharing, takes: { seconds: AROUND + three.si, people: 1 },
            needs: { parts: filters.map(({ id }) => ({ part: id, piece: 'element', count: 1 })), tools: ['sounding stick or tape', 'hand pump with a thin pipe for the bottom of the tank', 'clear jar', 'watch'] },
            whole: [
                ...sharing.map((engine) => planned('prepare', { do: 'stop', part: engine }, { say: 'one pickup', with: { engine, pump } })),
                sounding('prepare', tank!, { say: 'covers pickup', with: { tank: tank!, pump, least } }, ...filters.map(({ id }): Remark => ({ say: 'have a spare', with: { filter: id } }))),
                ...bowls.map((id) => planned('prepare', { do: 'look', part: id, piece: 'bowl', words: 'water, slime' })),
                ...settings(network, starts.positions, lineUp.positions, rank).map((step) => planned('work', step)),
                planned('work', { do: 'run', part: pump, seconds: Math.ceil(three.most / 60 - 1e-6) * 60 },
                    { say: 'expect turns', with: { tank: tank!, volume: holds, turn: loop.turnover.si, turns: TURNOVERS[0], likely: three.si, better: TURNOVERS[1], longer: five.si, leaves: loop.unfiltered[0], leavesLess: loop.unfiltered[1] } },
                    ...watch, { say: 'stay on board', with: { pump, tank: tank! } }),
                ...gauges.map((gauge) => planned('work', { do: 'read', gauge })),
                planned('work', { do: 'stop', part: pump }),
                ...settings(network, lineUp.positions, ends.positions, (valve) => -rank(valve)).map((step) => planned('restore', step)),
                sounding('verify', tank!, { say: 'level stays', with: { tank: tank! } }),
                told('verify', { do: 'look', part: tank!, piece: 'sample' }, { tell: 'sample', with: { tank: tank!, when: 'after' } }),
                ...bowls.map((id) => planned('verify', { do: 'look', part: id, piece: 'bowl', words: 'water, slime' }, { say: 'note water', with: { part: id } })),
                planned('verify', { do: 'look', piece: 'all joints', words: 'dry card' }, { say: 'dry card' }),
                planned('finish', { do: 'log', jobs: request.jobs }),
            ],
            acceptance: [{ say: 'sample clear', with: { tank: tank! } }, { say: 'line-up', with: { lineUp: ends.id } }],
            log: [{ say: 'log run', with: { pump } }, ...bowls.map((id): Remark => ({ say: 'log water', with: { part: id } }))],
            after: filters.map(({ id }): Remark => ({ say: 'renew instead', with: { part: id, piece: 'element' } })),
            defaults: [`${TURNOVERS[0]} turns of the tank, better ${TURNOVERS[1]}; the tank is taken to mix well all the while (common practice)`, ...(request.today?.volumes.has(tank!) ? [] : [`${tank} is taken as filled to 95 % (no level is stated)`])],
        };
    },
};
