/** What all answers about flow say alike: in which state it was asked, pressures in words, what was taken, what it was concluded from. */
import type { Boat, Consumer, Id } from '../../model/boat';
import type { Ground, MissingFact } from '../../model/finding';
import type { Estimate } from '../../analysis/estimate';
import { demandAt } from '../../analysis/flow/demand';
import { fluidOf } from '../../analysis/flow/fluid';
import type { Asked } from '../../analysis/flow/states';
import type { Steady } from '../../analysis/flow/steady';
import { inletOf, type Inlet, type Untold } from '../../analysis/flow/suction';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { networkOf, type Network } from '../../analysis/topology/network';
import { partsAfter, partsBefore, running } from '../../analysis/topology/paths';
import { fittingOf } from '../../analysis/topology/joints';
import { distinct, shapeGrounds, steadyMissing } from '../../analysis/missing';
import { nameOf } from '../../checks/check';
import { fromSI } from '../../model/units';
import { attitudeWords, figure } from '../../model/words';
import { kPa } from '../figures';
import { round } from './open';
import { levelWords, type State } from './state';

/** The levels that were said, else the lowest, or the fullest. */
export const levelIn = ({ levelSaid, volumes }: State, careful: 'low' | 'full'): Asked['level'] => (levelSaid ? volumes : careful);
/** What is said of speed is of the engines; of another consumer it is always the full. */
export const speedIn = ({ said }: State, consumer?: Consumer): number | 'full' => (consumer && consumer.kind !== 'engine' ? 'full' : said.speed ?? 'full');
export const ownSpeedSentences = ({ said }: State, { id, kind }: Consumer): string[] => (said.speed !== undefined && kind !== 'engine' ? [`What you said of speed is of the engines: ${id} runs at its own full speed.`] : []);

export const rpm = (speed: number): string => `${Math.round(fromSI(speed, 'rpm'))} rpm`;
export const speedWords = (speed: Asked['speed']): string => (speed === 'stopped' ? 'stopped' : speed === 'full' ? 'at full speed' : `at ${rpm(speed)}`);
/** Of the engines, rpm, or `full`. */
export const speedData = (speed: Asked['speed']): unknown => (typeof speed === 'number' ? round(fromSI(speed, 'rpm')) : speed);

/** Half a last digit that only arithmetic has made goes up all the same. */
export const inLitresPerHour = (flow: number): string => figure(Number(fromSI(flow, 'L/h').toPrecision(9)));
export const litresPerHour = (flow: number): string => `${inLitresPerHour(flow)} L/h`;

/** `heeled 10° to port, with T1 at 100 L (50 %)`; the level only where it was said, of tanks of fuel and those that were named. */
export function lyingWords(boat: Boat, { levelSaid, volumes, said }: State, attitude: State['attitudes'][number]): string {
    const tanks = boat.tanks.filter(({ id, carries = 'diesel' }) => carries === 'diesel' || said.levels.has(id)).map(({ id }) => id);
    return `${attitudeWords(attitude)}${levelSaid ? `, with ${levelWords(boat, volumes, tanks)}` : ''}`;
}

/** What counts as no pressure, Pa: no gauge shows it. */
const NO_PRESSURE = 0.5;

export type Side = 'suction' | 'pressure' | 'none';
export const sideOf = (gauge: number): Side => (Math.abs(gauge) < NO_PRESSURE ? 'none' : gauge < 0 ? 'suction' : 'pressure');

/** Pa above the surroundings in words: suction and pressure are told, never signed. */
export const pressureWords = (gauge: number): string => (sideOf(gauge) === 'none' ? 'no pressure' : `a ${sideOf(gauge)} of ${kPa(Math.abs(gauge))}`);

/** Pa in words, with how far off it may be: `12.3 kPa (3.6 inHg; 9.8 to 21.4 kPa by what is only guessed)`. */
export const bandWords = ({ si, least, most }: Estimate): string => (most - least < NO_PRESSURE ? kPa(si)
    : `${figure(fromSI(si, 'kPa'))} kPa (${figure(fromSI(si, 'inHg'), 2)} inHg; ${figure(fromSI(least, 'kPa'))} to ${figure(fromSI(most, 'kPa'))} kPa by what is only guessed)`);

export const inKPa = (si: number): number => round(fromSI(si, 'kPa'));
export const inInHg = (si: number): number => round(fromSI(si, 'inHg'));
export const pressureData = (si: number): { kPa: number; inHg: number } => ({ kPa: inKPa(si), inHg: inInHg(si) });
export const bandData = ({ si, least, most }: Estimate): unknown => ({ ...pressureData(si), leastKPa: inKPa(least), mostKPa: inKPa(most) });

/** How a figure that may be off stands to the maker's limit. */
export function limitWords(total: Estimate, limit: number, whose: string): string {
    const words = `${whose} limit of ${kPa(limit)}`;
    if (total.most <= limit) return `That is within ${words}, with at least ${kPa(limit - total.most)} to spare.`;
    if (total.least > limit) return `That is over ${words}, by at least ${kPa(total.least - limit)}.`;
    return total.si <= limit ? `That is within ${words} by ${kPa(limit - total.si)}, but what is only guessed may take it over by ${kPa(total.most - limit)}.`
        : `That is over ${words} by ${kPa(total.si - limit)}, though what is only guessed may bring it within.`;
}

/** One line for each thing: the liquid, what each part on these ways was taken for, and what consumers draw beyond their stated curves. */
export function flowDefaults(boat: Boat, steadies: readonly Steady[], parts: ReadonlySet<Id>, consumers: readonly Consumer[], speed: Asked['speed']): string[] {
    const carried = [...new Set(steadies.flatMap((steady) => [...parts].flatMap((id) => steady.groupAt(`${id}:in`) ?? steady.groupAt(id) ?? [])).map(({ carries }) => carries))];
    return [...new Set([
        ...(carried.length > 0 ? carried : [undefined]).flatMap((carries) => fluidOf(boat.vessel, carries, 'cold').taken),
        ...(speed === 'stopped' ? [] : consumers.flatMap((consumer) => drawnWords(consumer, consumer.kind === 'engine' ? speed : 'full'))),
        ...[...parts].sort().flatMap((id) => [...new Set(steadies.flatMap(({ taken }) => taken.get(id) ?? []))].map((taken) => `${nameOf(boat, id)} ${taken}`)),
    ])];
}

/** Nothing where what it draws lies within its stated curve. */
function drawnWords(consumer: Consumer, speed: number | 'full'): string[] {
    const demand = demandAt(consumer, speed);
    if (!demand?.draws || !demand.carriedOn) return [];
    const { si, least, most } = demand.draws;
    return [`${consumer.id} draws ${litresPerHour(si)} (${figure(fromSI(least, 'L/h'))} to ${figure(fromSI(most, 'L/h'))}) at ${rpm(demand.speed)}: in proportion to its speed, since its curve does not reach so far`];
}

/** The facts of parts, and of the consumers and tanks at their ends, that flow is reckoned from. */
export function flowGrounds(boat: Boat, parts: Iterable<Id>, consumers: readonly Id[]): Ground[] {
    const ids = [...parts];
    const tanks = [...new Set(ids.flatMap((id) => fittingOf(boat, id)?.tank ?? []))];
    return [
        ...consumers.flatMap((about) => ['draws', 'burns', 'limits inlet', 'limits clean', 'limits return', 'inlet'].map((fact) => ({ about, fact }))),
        ...ids.flatMap((about) => ['bore', 'length', 'at', 'ports', 'crest', 'mouth', 'top', 'clean', 'dirty', 'rated', 'cracks'].map((fact) => ({ about, fact }))),
        ...tanks.flatMap((about) => shapeGrounds(boat, about)), ...fluidOf(boat.vessel, 'diesel', 'cold').facts.map((fact) => ({ about: 'vessel', fact })),
    ];
}

export const untoldMissing = (boat: Boat, untold: readonly Untold[]): MissingFact[] => distinct(untold.flatMap(({ lacks }) => lacks.map((lack) => steadyMissing(boat, lack))));

/** Why nothing is told, where it is no fact that is missing. */
export function untoldWords(consumer: Id, untold: readonly Untold[]): string {
    if (untold.some(({ lacks }) => lacks.length > 0)) return 'It cannot be told yet: see what is to be measured.';
    if (untold.some(({ status }) => status === 'unbalanced')) return `What ${consumer} moves cannot flow in this state: no open way leads there from liquid, or away to a tank.`;
    if (untold.some(({ status }) => status === 'singular')) return 'No tank settles the pressure there.';
    return untold.length > 0 ? 'No answer was found: some figure is beyond all sense.' : `In this line-up no open line joins that side of ${consumer} to a tank.`;
}

/** The parts of the supply and the return of a consumer, with the fittings of the tanks. */
export function waysOf(network: Network, { positions }: ResolvedLineUp, consumer: Id, side: 'to' | 'from'): ReadonlySet<Id> {
    return side === 'to' ? partsBefore(running(network, positions), `${consumer}:in`) : partsAfter(running(network, positions), `${consumer}:out`);
}

/** Exchangers draw nothing that is stated: pumps of their circuit move what runs there. */
export const isReckoned = ({ kind }: Consumer): boolean => kind !== 'exchanger';
export const unreckonedWords = (id: Id): string => `${id} draws nothing by itself: what the pump of its circuit moves is not reckoned here.`;

/** Where some ways she leans, or some line-ups, cannot be told. */
export const partlySentences = (untold: readonly Untold[]): string[] => (untold.length > 0 ? ['Not every way she leans, or not every line-up, can be told yet: the worst may be worse.'] : []);

/** What stands before the inlet, with the fittings of the tanks. */
export const partsTo = (network: Network, { positions }: ResolvedLineUp, { point }: Inlet): ReadonlySet<Id> => partsBefore(running(network, positions), point);

/** What draws: the pump that the liquid meets first, or the consumer's own. */
export const drawsWords = (boat: Boat, consumer: Id, inlet: Inlet | undefined): string => (inlet?.pump === undefined ? consumer : `${nameOf(boat, inlet.pump)}, the first pump before ${consumer},`);

export const inletIn = (boat: Boat, lineUp: ResolvedLineUp, consumer: Id): Inlet | undefined => inletOf(networkOf(boat), lineUp, consumer);
