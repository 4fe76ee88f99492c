/** Starve: which consumer loses its fuel first as the tanks go down together, at which level and why, each way she leans. */
import type { Boat, Id } from '../../model/boat';
import { starving, type Starves } from '../../analysis/flow/starve';
import type { Attitude } from '../../analysis/tanks/attitude';
import { networkOf } from '../../analysis/topology/network';
import { levelTanks } from '../../analysis/tanks/level';
import { attitudeWords, figure, listed, litres } from '../../model/words';
import { kPa } from '../figures';
import type { Answer, Table } from './answer';
import { flowDefaults, flowGrounds, inKPa, partsTo, speedData, speedIn, speedWords, untoldMissing, untoldWords } from './flowing';
import { round } from './open';
import type { State } from './state';

export function answerStarve(boat: Boat, state: State): Answer {
    const network = networkOf(boat);
    const { lineUp, attitudes } = state;
    const how = { speed: speedIn(state), elements: state.said.elements ?? 'dirty' } as const;
    const { first, untold } = starving(network, lineUp, attitudes, how);
    const ways = attitudes.map((attitude) => ({ attitude, first: starving(network, lineUp, [attitude], how).first }));
    const consumers = boat.consumers.filter(({ id }) => first.some(({ consumer }) => consumer === id));
    const parts = new Set(first.flatMap(({ suction }) => [...partsTo(network, lineUp, suction.inlet)]));
    const limitOf = (id: Id): number | undefined => network.consumers.get(id)!.limits.inlet?.si;
    // Only where the first pump is the consumer's own is its limit about it.
    const marginOf = ({ consumer, suction }: Starves): number | undefined => { const limit = limitOf(consumer); return limit === undefined || suction.inlet.feeds !== undefined ? undefined : limit - suction.total; };
    const partly = untold.filter(({ consumer }) => consumers.some(({ id }) => id === consumer)).map(({ consumer }) => consumer);
    const untoldLines = [
        ...(partly.length > 0 ? [`Of ${listed(partly)} not every way she leans can be told yet: it may starve sooner.`] : []),
        ...untold.filter(({ consumer }) => !partly.includes(consumer)).map(({ consumer, untold: why }) => `${consumer}: ${untoldWords(consumer, [why])}`),
    ];
    const joined = levelTanks(network, lineUp.positions).filter((tanks) => tanks.length > 1 && first.some(({ tank }) => tanks.includes(tank))).map((tanks) => [...tanks].sort());
    return {
        title: `Which starves first in ${lineUp.id}, ${speedWords(how.speed)}, elements ${how.elements}`,
        body: [
            ...(first[0] ? [`${first[0].consumer} starves${first.length > 1 ? ' first' : ''} ${whyWords(first[0])}.`] : untold.length > 0 ? [] : ['Nothing that draws from a tank runs in this line-up.']),
            ...(first.length > 0 ? [{
                head: ['', 'starves below', 'by', 'lying', 'suction at the mouth', 'margin to limit'],
                rows: first.map((found) => [found.consumer, `${levelWords(found)} in ${found.tank}`, found.by, attitudeWords(found.attitude), suctionWords(found), found.suction.inlet.feeds !== undefined ? `that of ${found.suction.inlet.feeds} alone` : marginOf(found) === undefined ? 'no limit stated' : kPaWords(marginOf(found)!)]),
            }] : []),
            ...untoldLines,
            ...(first.length > 0 && ways.length > 1 ? ['Each way she leans:', waysTable(ways)] : []),
            ...(first.length > 0 ? ['The tanks go down together, by the same share of each. Still liquid: in a seaway a pickup comes dry sooner. A pickup that is dry draws air, whatever the suction. `Suction at the mouth` is with the surface just there.'] : []),
            ...joined.map((tanks) => `An open line joins ${listed(tanks)}: leaning, fuel runs to the lower until they stand level, and a pickup in the higher comes dry with far more in them together. That is not in these figures; PICKUP-HEEL judges it.`),
        ],
        data: {
            ask: 'starve', lineUp: lineUp.id, speed: speedData(how.speed), elements: how.elements, first: first.map((found) => starvesData(found, marginOf(found))),
            ways: ways.map(({ attitude, first: each }) => ({ attitude: attitudeWords(attitude), first: each.map(({ consumer, tank, by, volume }) => ({ consumer, tank, by, litres: round(volume * 1e3) })) })),
            cannotTell: untold.map(({ consumer }) => consumer),
        },
        used: flowGrounds(boat, parts, consumers.map(({ id }) => id)),
        defaults: flowDefaults(boat, first.map(({ suction }) => suction.steady), parts, consumers, how.speed),
        missing: untoldMissing(boat, untold.map(({ untold: why }) => why)),
    };
}

const levelWords = ({ volume, share }: Starves): string => `${litres(volume)} (${figure(share * 100)} %)`;

/** What its pump draws against with the surface just at the mouth. */
const suctionWords = ({ suction: { total } }: Starves): string => (total < 0 ? 'pushed in' : kPa(total));

const kPaWords = (margin: number): string => (margin < 0 ? `over by ${kPa(-margin)}` : kPa(margin));

const whyWords = (found: Starves): string => `with less than ${levelWords(found)} in ${found.tank}, ${attitudeWords(found.attitude)}: its ${found.by === 'dry pickup' ? 'pickup then stands dry' : 'pump then draws against more than its maker allows'}`;

function waysTable(ways: readonly { readonly attitude: Attitude; readonly first: readonly Starves[] }[]): Table {
    const ids = [...new Set(ways.flatMap(({ first }) => first.map(({ consumer }) => consumer)))].sort();
    return { head: ['', ...ids], rows: ways.map(({ attitude, first }) => [attitudeWords(attitude), ...ids.map((id) => { const found = first.find(({ consumer }) => consumer === id); return found ? `${litres(found.volume)}${found.by === 'suction' ? ', suction' : ''}${first.length > 1 && first[0] === found ? ', first' : ''}` : '?'; })]) };
}

const starvesData = ({ consumer, tank, by, attitude, volume, share, suction }: Starves, margin: number | undefined): unknown => ({
    consumer, tank, by, attitude: attitudeWords(attitude), litres: round(volume * 1e3), percent: round(share * 100), suctionAtMouthKPa: inKPa(suction.total), ...(margin !== undefined && { marginAtMouthKPa: inKPa(margin) }),
});
