/** Overflow: where fuel goes in a line-up, when a tank that more comes to than leaves is full, and when a pickup stands dry. */
import type { Boat } from '../../model/boat';
import type { Estimate } from '../../analysis/estimate';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { atFull, enginesAt } from '../../analysis/time/burners';
import { fills, ledgersOf, movers, uncovers, type Flow, type Ledger, type TankFills, type Uncovers } from '../../analysis/time/overflow';
import { transfersOf, type Transfer } from '../../analysis/time/transfer';
import { networkOf } from '../../analysis/topology/network';
import { running } from '../../analysis/topology/paths';
import { distinct, shapeGrounds } from '../../analysis/missing';
import { missingInTime } from '../../checks/missing-in-time';
import { fromSI } from '../../model/units';
import { listed, litres } from '../../model/words';
import type { Answer } from './answer';
import { durationWords, lastsWords, whenData, whenWords } from './durations';
import { inLitresPerHour, litresPerHour, lyingWords, speedData, speedIn, speedWords } from './flowing';
import { round } from './open';
import type { State } from './state';

interface Row {
    readonly ledger: Ledger;
    readonly volume: number | undefined;
    readonly filling: TankFills;
    readonly pickups: readonly Uncovers[];
}

export function answerOverflow(boat: Boat, state: State): Answer {
    const { lineUp, volumes, said } = state;
    const speed = speedIn(state);
    const attitude = said.heel === undefined && said.trim === undefined ? UPRIGHT : state.attitudes[0]!;
    const rows = ledgersOf(boat, lineUp, speed === 'full' ? atFull : enginesAt(speed)).map((ledger): Row => {
        const tank = boat.tanks.find(({ id }) => id === ledger.tank)!;
        const volume = volumes.get(tank.id);
        // Without a size there is nothing to reckon from; both then name what is missing.
        return { ledger, volume, filling: fills(tank, volume ?? NaN, ledger), pickups: uncovers(boat, lineUp, tank, volume ?? NaN, ledger, attitude) };
    });
    const transfers = transfersOf(boat, lineUp, volumes);
    // Elsewhere a hand or a float switches it, and nobody says when.
    const network = networkOf(boat);
    const off = lineUp.use === 'transfer' || lineUp.use === 'polish' ? [] : movers(network, running(network, lineUp.positions)).map((pump) => pump.name);
    const lacks = [...rows.flatMap(({ filling, pickups }) => [...filling.lacks, ...pickups.flatMap((pickup) => pickup.lacks)]), ...transfers.flatMap((transfer) => transfer.lacks)];
    const consumers = boat.consumers.filter(({ id }) => rows.some(({ ledger }) => [...ledger.gives, ...ledger.takes].some(({ by }) => by === id)));
    return {
        title: `Where fuel goes in ${lineUp.id}, ${speedWords(speed)}, ${lyingWords(boat, state, attitude)}`,
        body: [
            ...answerWords(rows),
            ...transfers.flatMap(transferWords),
            ...(rows.length > 0 ? [{ head: ['', 'holds', 'gives, L/h', 'takes, L/h', 'rises by, L/h', 'full', 'pickup dry'], rows: rows.map(rowWords) }] : []),
            ...(rows.some(({ ledger }) => ledger.joined.length > 0) ? [`An open line joins ${listed([...new Set(rows.flatMap(({ ledger }) => (ledger.joined.length > 0 ? [ledger.tank, ...ledger.joined] : [])))].sort())}: they rise and fall together, more or less.`] : []),
            ...(off.length > 0 ? [`${listed(off)} can pump from tank to tank as the valves stand in ${lineUp.id}, and ${off.length > 1 ? 'are' : 'is'} taken as off: what a switch that is forgotten does is told by a line-up for \`transfer\`.`] : []),
            'What runs by itself between tanks at different levels is not in it.',
        ],
        data: {
            ask: 'overflow', lineUp: lineUp.id, speed: speedData(speed),
            tanks: rows.map(({ ledger, volume, filling, pickups }) => ({
                tank: ledger.tank, ...(volume !== undefined && { litres: round(volume * 1e3) }), gives: ledger.gives.map(flowData), takes: ledger.takes.map(flowData), netLitresPerHour: round(fromSI(ledger.net.si, 'L/h')), joined: ledger.joined,
                ...(filling.to95 && { to95: whenData(filling.to95) }), ...(filling.toGross && { overflows: whenData(filling.toGross) }),
                pickups: pickups.map(({ pickup, least, after }) => ({ pickup, ...(least !== undefined && { dryBelowLitres: round(least * 1e3) }), ...(after && { dry: whenData(after) }) })),
            })),
        },
        used: [...consumers.flatMap(({ id: about }) => [{ about, fact: 'draws' }, { about, fact: 'burns' }]), ...transfers.map(({ pump: about }) => ({ about, fact: 'gives' })), ...rows.flatMap(({ ledger: { tank }, pickups }) => [...shapeGrounds(boat, tank), ...pickups.map(({ pickup: about }) => ({ about, fact: 'mouth' }))])],
        defaults: [], missing: distinct(lacks.map((lack) => missingInTime(boat, lack))),
    };
}

/** What comes first of each: a tank that runs over, then a pickup that stands dry. */
function answerWords(rows: readonly Row[]): string[] {
    if (rows.length === 0) return ['Nothing draws from a tank or returns to one in this line-up.'];
    const over = rows.filter(({ filling }) => filling.toGross).sort((a, b) => a.filling.toGross!.soonest - b.filling.toGross!.soonest);
    const dry = rows.flatMap(({ ledger: { tank }, pickups }) => pickups.flatMap(({ pickup, after }) => (after ? [{ tank, pickup, after }] : []))).sort((a, b) => a.after.soonest - b.after.soonest);
    const untold = rows.some(({ filling, pickups }) => filling.lacks.length > 0 || pickups.some(({ lacks }) => lacks.length > 0));
    return [
        ...over.map(({ ledger: { tank }, filling: { to95, toGross } }) => `WARNING: ${tank} rises and runs over, by its vent unless an overflow takes it, ${whenWords(toGross!)}${to95 && to95.si !== 0 ? `; it stands at 95 % ${whenWords(to95)}` : ''}.`),
        ...(over.length === 0 && !untold ? ['No tank runs over.'] : []),
        ...(dry[0] ? [`${dry[0].pickup} in ${dry[0].tank} stands dry ${whenWords(dry[0].after)}.`] : untold ? ['Not all of it can be told yet: see what is to be measured.'] : ['No pickup comes dry.']),
    ];
}

function rowWords({ ledger, volume, filling, pickups }: Row): string[] {
    const flows = (list: readonly Flow[]): string => list.map(({ by, flow, shared }) => `${by} ${flow ? bandWords(flow) : '?'}${shared ? ' (shared)' : ''}`).join(', ');
    return [
        ledger.tank, volume === undefined ? '?' : litres(volume), flows(ledger.gives), flows(ledger.takes), ledger.lacks.length > 0 ? '?' : bandWords(ledger.net), filling.toGross ? whenWords(filling.toGross) : filling.lacks.length > 0 ? '?' : 'never',
        pickups.map(({ pickup, after, lacks }) => `${pickup} ${after ? whenWords(after) : lacks.length > 0 ? '?' : 'never'}`).join(', '),
    ];
}

const bandWords = ({ si, least, most }: Estimate): string => `${inLitresPerHour(si)}${inLitresPerHour(least) === inLitresPerHour(most) ? '' : ` (${inLitresPerHour(least)} to ${inLitresPerHour(most)})`}`;

function transferWords({ pump, from, to, moves, rate, room, tooMuch, seconds, secondsToFull }: Transfer): string[] {
    const way = `${pump} moves ${moves ? litres(moves.si) : 'fuel'} from ${listed(from)} to ${listed(to, 'or')}${rate ? ` at ${litresPerHour(rate.si)}` : ''}`;
    return [
        `${way}${seconds ? `, which takes ${lastsWords(seconds)}` : ''}.${room === undefined ? '' : `${room > 0 ? ` There is room for ${litres(room)} up to 95 %${secondsToFull ? `, filled in ${durationWords(secondsToFull.si)}` : ''}.` : ' There is no room: 95 % is reached.'}`}`,
        ...(tooMuch ? [`WARNING: up to ${litres(tooMuch.most)} of what is to be moved ${tooMuch.si === 0 ? 'may not fit' : 'does not fit'}.`] : []),
    ];
}

const flowData = ({ by, flow, shared }: Flow): unknown => ({ by, ...(flow && { litresPerHour: round(fromSI(flow.si, 'L/h')) }), shared });
