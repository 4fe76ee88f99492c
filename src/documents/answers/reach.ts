/** Reach: the least that each tank must hold for its mouths to stay in the liquid, over the envelope or as she lies. */
import type { Boat, Tank } from '../../model/boat';
import type { Ground } from '../../model/finding';
import { lackOf, type Lack } from '../../analysis/opening/lack';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { grossOf } from '../../analysis/tanks/liquid';
import { drawing, leastToWet, unusable, usable } from '../../analysis/tanks/pickups';
import { networkOf } from '../../analysis/topology/network';
import { running } from '../../analysis/topology/paths';
import { distinct, missingOf, shapeGrounds, sizeMissing } from '../../checks/missing';
import { attitudeWords, listed, litres } from '../../model/words';
import type { Answer, Table } from './answer';
import { round } from './open';
import type { State } from './state';

export function answerReach(boat: Boat, state: State): Answer {
    const open = running(networkOf(boat), new Map(), 'all open');
    const lacks: (Lack | undefined)[] = [];
    const attitudes = [UPRIGHT, ...state.attitudes.filter(({ heel, trim }) => heel !== 0 || trim !== 0)];
    const rows = boat.tanks.flatMap((tank) => tank.fittings.filter(({ kind }) => kind === 'pickup').map((fitting) => {
        const least = attitudes.map((attitude) => {
            lacks.push(lackOf(fitting.id, fitting.mouth, attitude, 'mouth'));
            return leastToWet(tank, fitting.mouth, attitude);
        });
        return { tank, fitting, least, feeds: drawing(open, fitting.id).map(({ id }) => id) };
    }));
    const table: Table = { head: ['pickup', 'feeds', ...attitudes.map(attitudeWords)], rows: rows.map(({ fitting, least, feeds: consumers }) => [fitting.id, listed(consumers), ...least.map((volume) => (volume === undefined ? '?' : litres(volume)))]) };
    return {
        title: 'The least that a tank must hold for each pickup to stay in the liquid', defaults: state.defaults.filter((taken) => /upright/.test(taken)),
        body: rows.length === 0 ? ['No tank has a pickup.'] : [table, ...boat.tanks.flatMap(tankWords), 'Still liquid; in a seaway it uncovers sooner. Trade practice adds 15 mm over the mouth, or a baffle.'],
        data: { ask: 'reach', pickups: rows.map(({ tank, fitting, least, feeds: consumers }) => ({ tank: tank.id, pickup: fitting.id, feeds: consumers, least: attitudes.map((attitude, i) => ({ attitude: attitudeWords(attitude), litres: least[i] === undefined ? null : round(least[i]! * 1e3) })) })) },
        used: rows.flatMap(({ tank, fitting }): Ground[] => [...shapeGrounds(boat, tank.id), { about: fitting.id, fact: 'mouth' }, { about: fitting.id, fact: 'top' }]),
        missing: distinct([...boat.tanks.filter((tank) => grossOf(tank) === undefined).map(({ id }) => sizeMissing(id)), ...lacks.flatMap((lack) => (lack ? missingOf(boat, lack) : []))]),
    };
}

function tankWords(tank: Tank): string[] {
    const gross = grossOf(tank);
    const mouths = tank.fittings.filter(({ kind }) => kind === 'pickup').map(({ mouth }) => mouth);
    const [rest, use] = [unusable(tank, mouths), usable(tank, mouths)];
    return gross === undefined || rest === undefined || use === undefined ? [] : [`${tank.id}: ${litres(gross)} gross, ${litres(rest)} below its lowest pickup, ${litres(use)} usable when filled to 95 %, upright.`];
}
