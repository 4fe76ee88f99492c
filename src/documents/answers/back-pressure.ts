/** Back-pressure: what a consumer's return pushes against, over which crest or up to which surface, against its maker's limit. */
import type { Boat, Id } from '../../model/boat';
import { worstBackPressure } from '../../analysis/flow/back-pressure';
import { fittingOf } from '../../analysis/topology/joints';
import { networkOf } from '../../analysis/topology/network';
import { nameOf } from '../../checks/check';
import { fromSI } from '../../model/units';
import { attitudeWords, figure } from '../../model/words';
import type { Answer } from './answer';
import { bandData, bandWords, flowDefaults, flowGrounds, inKPa, isReckoned, levelIn, limitWords, litresPerHour, lyingWords, ownSpeedSentences, partlySentences, pressureData, speedData, speedIn, speedWords, unreckonedWords, untoldMissing, untoldWords, waysOf } from './flowing';
import { round } from './open';
import type { State } from './state';

export function answerBackPressure(boat: Boat, id: Id, state: State): Answer {
    const network = networkOf(boat);
    const consumer = network.consumers.get(id)!;
    const limit = consumer.limits.return?.si;
    const { worst, untold } = worstBackPressure(network, consumer, state.runs, { level: levelIn(state, 'full'), attitudes: state.attitudes, ...(state.said.speed !== undefined && { speed: speedIn(state, consumer) }) });
    const title = `What the return of ${id} pushes against`;
    const missing = isReckoned(consumer) ? untoldMissing(boat, untold) : [];
    if (!worst) return { title, body: [isReckoned(consumer) ? untoldWords(id, untold) : unreckonedWords(id)], data: { ask: 'back-pressure', consumer: id, ...(limit !== undefined && { limitKPa: inKPa(limit) }) }, used: [], defaults: [], missing };
    const { found, total } = worst;
    const { lineUp, attitude, speed } = found.asked;
    const after = waysOf(network, lineUp, id, 'from');
    const row = (what: string, si: number): string[] => [what, figure(fromSI(si, 'kPa')), figure(fromSI(si, 'inHg'), 2)];
    const end = network.passages[found.way.at(-1)?.passage ?? -1]?.part;
    const tank = end === undefined ? undefined : fittingOf(boat, end)?.tank;
    const where = found.over === undefined ? tank === undefined ? '' : ` up to the liquid in ${tank}` : ` over ${boat.parts.some(({ id: part, crest }) => part === found.over && crest) ? 'the crest of ' : 'the top of '}${nameOf(boat, found.over)}, until that line is full`;
    return {
        title,
        body: [
            `${id} returns ${litresPerHour(found.flow)} ${speedWords(speed)} in ${lineUp.id}, ${total.si < 0 ? `and its return draws at it with ${bandWords({ si: -total.si, least: -total.most, most: -total.least })}` : `against ${bandWords(total)}`}${where}, ${lyingWords(boat, state, attitude)}.`,
            ...ownSpeedSentences(state, consumer),
            limit === undefined ? `No limit is stated for the return of ${id}; the maker's book has it, and it is written \`limits return 10 kPa\`.` : limitWords(total, limit, `${id}'s`),
            ...partlySentences(untold),
            { head: ['', 'kPa', 'inHg'], rows: [row(found.height < 0 ? 'height: it runs down' : 'height to lift it', found.height), row('friction', found.friction), row('checks', found.checks), row('in all', found.total)] },
            'Its outlet is taken to stand as high as its inlet.',
        ],
        data: {
            ask: 'back-pressure', consumer: id, lineUp: lineUp.id, attitude: attitudeWords(attitude), speed: speedData(speed), litresPerHour: round(fromSI(found.flow, 'L/h')), total: bandData(total),
            height: pressureData(found.height), friction: pressureData(found.friction), checks: pressureData(found.checks), ...(found.over !== undefined && { over: found.over }), ...(tank !== undefined && { tank }),
            ...(limit !== undefined && { limitKPa: inKPa(limit) }),
        },
        used: flowGrounds(boat, after, [id]), defaults: flowDefaults(boat, [found.steady], after, [consumer], speed), missing,
    };
}
