/** Reach: the least that each tank must hold for its mouths to stay in the liquid, over the envelope or as she lies; and when its vents go under. */
import type { Boat, Id, Tank } from '../../model/boat';
import type { Ground } from '../../model/finding';
import { lackOf, type Lack } from '../../analysis/opening/lack';
import { UPRIGHT, type Attitude } from '../../analysis/tanks/attitude';
import { grossOf } from '../../analysis/tanks/liquid';
import { drawing, leastToWet, unusable, usable } from '../../analysis/tanks/pickups';
import { linesOut } from '../../analysis/tanks/to-outside';
import { immersedAt, type Immersion } from '../../analysis/tanks/vents';
import { networkOf } from '../../analysis/topology/network';
import { running } from '../../analysis/topology/paths';
import { distinct, missingOf, shapeGrounds, sizeMissing } from '../../analysis/missing';
import { fromSI } from '../../model/units';
import { attitudeWords, degrees, figure, listed, litres } from '../../model/words';
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
    const vents = ventsOf(boat);
    // A row for each way she lies: a boat has few pickups, and a page is narrow.
    const table: Table = {
        head: ['', ...rows.map(({ fitting, feeds }) => `${fitting.id}${feeds.length > 0 ? ` (${listed(feeds)})` : ''}`)],
        rows: attitudes.map((attitude, i) => [attitudeWords(attitude), ...rows.map(({ least }) => (least[i] === undefined ? '?' : litres(least[i]!)))]),
    };
    return {
        title: 'The least that a tank must hold for each pickup to stay in the liquid', defaults: [],
        body: [
            ...(rows.length === 0 ? ['No tank has a pickup.'] : [...rows.flatMap(({ tank, fitting, least }) => worstWords(tank, fitting.id, attitudes.map((attitude, i) => ({ attitude, least: least[i] })))), table, ...boat.tanks.flatMap(tankWords), 'Still liquid; in a seaway it uncovers sooner. Trade practice adds 15 mm over the mouth, or a baffle.']),
            ...(vents.length === 0 ? [] : ['The sea reaches the open end of a vent, in still water and without trim, when she heels so far:', ventTable(vents)]),
        ],
        data: { ask: 'reach', vents: vents.map(ventData), pickups: rows.map(({ tank, fitting, least, feeds: consumers }) => ({ tank: tank.id, pickup: fitting.id, feeds: consumers, least: attitudes.map((attitude, i) => ({ attitude: attitudeWords(attitude), litres: least[i] === undefined ? null : round(least[i]! * 1e3) })) })) },
        used: rows.flatMap(({ tank, fitting }): Ground[] => [...shapeGrounds(boat, tank.id), { about: fitting.id, fact: 'mouth' }, { about: fitting.id, fact: 'top' }]).concat(vents.flatMap(({ outlet }) => [{ about: outlet, fact: 'outlet' }, { about: outlet, fact: 'crest' }, { about: 'vessel', fact: 'waterline' }])),
        missing: distinct([...boat.tanks.filter((tank) => grossOf(tank) === undefined).map(({ id }) => sizeMissing(id)), ...lacks.flatMap((lack) => (lack ? missingOf(boat, lack) : []))]),
    };
}

/** The sentence that is looked for, where every way she lies is known. */
function worstWords(tank: Tank, pickup: Id, cases: readonly { readonly attitude: Attitude; readonly least: number | undefined }[]): string[] {
    if (cases.some(({ least }) => least === undefined)) return [`${pickup}: the least is not known for every way she lies.`];
    const worst = cases.reduce((most, other) => (other.least! > most.least! ? other : most));
    const gross = grossOf(tank);
    return [`${pickup} can draw air with less than ${litres(worst.least!)}${gross === undefined ? '' : ` (${figure((worst.least! / gross) * 100)} %)`} in ${tank.id}, ${attitudeWords(worst.attitude)}.`];
}

function tankWords(tank: Tank): string[] {
    const gross = grossOf(tank);
    const mouths = tank.fittings.filter(({ kind }) => kind === 'pickup').map(({ mouth }) => mouth);
    const [rest, use] = [unusable(tank, mouths), usable(tank, mouths)];
    return gross === undefined || rest === undefined || use === undefined ? [] : [`${tank.id}: ${litres(gross)} gross, ${litres(rest)} below its lowest pickup, ${litres(use)} usable when filled to 95 %, upright.`];
}

interface VentEnd {
    readonly vent: Id;
    /** The part with the open end. */
    readonly outlet: Id;
    readonly under: Immersion | undefined;
    readonly crestUnder: Immersion | undefined;
}

/** The open end of each vent whose place is written. */
function ventsOf(boat: Boat): VentEnd[] {
    const { waterline } = boat.vessel;
    return boat.tanks.flatMap(({ fittings }) => fittings.filter(({ kind }) => kind === 'vent')).flatMap((vent) => linesOut(networkOf(boat), vent.id).flatMap((line): VentEnd[] => {
        const last = line.findLast(({ outlet }) => outlet);
        const crest = line.filter((part) => part.crest?.up).sort((a, b) => b.crest!.up!.si - a.crest!.up!.si)[0];
        return last ? [{ vent: vent.id, outlet: last.id, under: immersedAt(last.outlet, waterline), crestUnder: immersedAt(crest?.crest, waterline) }] : [];
    }));
}

const heelWords = (at: Immersion | undefined): string => (at === undefined ? '?' : at === 'never' ? 'never' : at === 0 ? 'upright' : `${degrees(at)} to ${at < 0 ? 'port' : 'starboard'}`);
const ventTable = (vents: readonly VentEnd[]): Table => ({ head: ['vent', 'ends in', 'its end under at', 'its crest under at'], rows: vents.map(({ vent, outlet, under, crestUnder }) => [vent, outlet, heelWords(under), heelWords(crestUnder)]) });
const inDegrees = (at: Immersion): number | 'never' => (at === 'never' ? at : round(fromSI(at, 'deg')));
const ventData = ({ vent, outlet, under, crestUnder }: VentEnd): unknown => ({ vent, outlet, ...(under !== undefined && { underAt: inDegrees(under) }), ...(crestUnder !== undefined && { crestUnderAt: inDegrees(crestUnder) }) });
