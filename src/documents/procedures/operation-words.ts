/** The remarks of operations: transfer, polishing, a can, a duplex under way, shutoffs from afar, laying up. */
import { figure, kPa, listed, mm } from '../../model/words';
import { canWords, nameOf, speedWords, timeWords } from './naming';
import { ids, s, share, type WordsOf } from './remark-parts';

type Operation =
    | 'sound first' | 'moves less' | 'expect transfer' | 'never unattended' | 'stop pumping if' | 'another tank feeds' | 'only this tank' | 'stopped while filled' | 'levels agree' | 'log levels' | 'log run'
    | 'expect turns' | 'watch element' | 'stay on board' | 'one pickup' | 'covers pickup' | 'have a spare' | 'level stays' | 'sample clear'
    | 'lie safe' | 'can stands' | 'tube into the can' | 'a litre lasts' | 'keep it filled' | 'until home' | 'back to the tank'
    | 'standby is full' | 'sea room' | 'turn slowly' | 'turn back if' | 'never back' | 'not the other side' | 'to the brim' | 'ends unbled' | 'idle side full' | 'bleed before use'
    | 'stop cranking' | 'bottom came along' | 'bleed these too'
    | 'reset at the valve' | 'shut by its switch' | 'lever tells' | 'engine would die' | 'if it leaks'
    | 'treated fuel' | 'preserving is the maker\'s' | 'still open' | 'only looked at' | 'log levels and water';

/** The unit that suits the figure: seconds, then minutes, then hours. */
export const about = (seconds: number): string => timeWords(seconds < 120 ? Math.round(seconds) : seconds < 7200 ? Math.round(seconds / 60) * 60 : Math.round(seconds / 360) * 360);

/** To whole litres, to the side that is safe: up for what must be there, down for what must not be passed. A small tank keeps its tenths. */
export const up = (volume: number): number => whole(volume, Math.ceil, -1);
export const down = (volume: number): number => whole(volume, Math.floor, 1);
const whole = (volume: number, to: (value: number) => number, slip: number): number => { const step = volume < 0.01 ? 1e4 : 1e3; return to(volume * step + slip * 1e-6) / step; };

export const OPERATION_WORDS: WordsOf<Operation> = {
    'sound first': ({ from, to, least, most }) => `Begin only when ${from} holds at least ${canWords(up(least))}${most === undefined ? '' : `, and ${to} no more than ${canWords(down(most))}`}.`,
    'moves less': ({ lineUp, volume, planned }) => `${lineUp} moves ${canWords(planned)}. Today only ${canWords(volume)} fits.`,
    'expect transfer': ({ pump, to, volume, least, likely, most, fromEmpty }, boat) => `${nameOf(boat, pump)} moves ${canWords(volume)} in about ${about(likely)}${most > least ? ` (${about(least)} to ${about(most)})` : ''}${fromEmpty === 'yes' ? `, when ${to} is empty. It takes less time the more is in it` : ''}.`,
    'never unattended': ({ pump, tank }, boat) => `One person stays at the sounding of ${tank}, with the switch of ${nameOf(boat, pump)} in reach. Where it is not in reach, a second person stands at the switch.`,
    'stop pumping if': ({ pump, from, to, mark, keeps }, boat) => `Stop ${nameOf(boat, pump)} at once if ${to} does not rise, if the pump changes its note, or if fuel or foam comes from the vent. Stop it too when ${to} holds ${canWords(down(mark))}, or ${from} only ${canWords(up(keeps))}.`,
    'another tank feeds': ({ engine, tank, tanks }, boat) => `${nameOf(boat, engine)} now draws from ${listed(tanks)}, not from ${tank}.`,
    'only this tank': ({ engine, tank }, boat) => `No other tank can feed ${nameOf(boat, engine)}. Filling ${tank} stirs up dirt that goes to its filters: better stop it.`,
    'stopped while filled': ({ engine, tank }, boat) => `${nameOf(boat, engine)} stays stopped: it would draw from ${tank} while that is filled.`,
    'levels agree': ({ from, to }) => `What ${from} lost ${to} gained. If not, fuel went elsewhere: look in the bilge and at the vents before anything else.`,
    'log levels': ({ tanks }) => `Levels of ${listed(tanks)}, before and after`,
    'log run': ({ pump }, boat) => `Time that ${nameOf(boat, pump)} ran`,
    'expect turns': ({ tank, volume, turn, turns, likely, better, longer, leaves, leavesLess }) => `One turn of the ${canWords(volume)} in ${tank} takes about ${about(turn)}. After ${figure(turns)} turns (${about(likely)}) ${share(leaves)} has not been through the filter, after ${figure(better)} turns (${about(longer)}) ${share(leavesLess)}.`,
    'watch element': ({ filter, every, gauges, dirty }, boat) => `Look every ${about(every)}${gauges.length === 0 ? '' : ` at ${ids(boat, gauges)}`}. When ${dirty === undefined ? 'the flow falls off' : `it takes ${kPa(dirty)} or the flow falls off`}, stop and renew the element of ${nameOf(boat, filter)}. Then go on.`,
    'stay on board': ({ pump }, boat) => `Somebody stays on board and looks at ${nameOf(boat, pump)} all the while.`,
    'one pickup': ({ engine, pump }, boat) => `${nameOf(boat, engine)} draws by the same pickup as ${nameOf(boat, pump)}. It stays stopped: the pump would leave it air.`,
    'covers pickup': ({ tank, pump, least }, boat) => `${tank} ${least === undefined ? 'covers the pickup' : `holds at least ${canWords(up(least))}, which covers the pickup`} of ${nameOf(boat, pump)}. With less it draws air.`,
    'have a spare': ({ filter }, boat) => `Have a spare element of ${nameOf(boat, filter)} at hand.`,
    'level stays': ({ tank }) => `The level of ${tank} stays. If it falls, there is a leak, or the fuel goes to another tank.`,
    'sample clear': ({ tank }) => `A sample from the bottom of ${tank}, held against the light in a jar, is clear.`,
    'lie safe': ({ engine }, boat) => `${nameOf(boat, engine)} stands still for all of this: at anchor, alongside or hove to with sea room. If it has just run it is hot.`,
    'until home': ({ engine }, boat) => `This is to get home by. Stop ${nameOf(boat, engine)} before the feed can is empty.`,
    'can stands': ({ up }) => `Its bottom is then ${mm(up)} over the datum, above all that it feeds.`,
    'tube into the can': ({ vent }) => `Push a clear tube over ${vent}, and hold its other end in the drip can.`,
    'a litre lasts': ({ engine, speed, seconds }, boat) => (seconds === undefined ? `How long a litre lasts ${nameOf(boat, engine)} is not known: watch the feed can.` : `A litre lasts ${nameOf(boat, engine)} about ${about(seconds)}${speed === undefined ? '' : ` at ${speedWords(speed)}`}, while its return comes back to the feed can. The faster it runs, the less.`),
    'keep it filled': () => 'Look at the feed can every few minutes. Below a quarter its outlet takes air when she rolls: stop, or fill it up before.',
    'back to the tank': ({ engine, lineUp, opened, plugged, tap, valves }, boat) => `Afterwards stop ${nameOf(boat, engine)}, take its key out and shut ${tap}. Take the plugs out of ${ids(boat, plugged)}, and make ${s(plugged.length, 'it', 'them')} fast on ${ids(boat, opened)} with new washers. Set line-up ${lineUp}${valves.length === 0 ? '' : `, take the ${s(valves.length, 'tag', 'tags')} off ${ids(boat, valves)}`}, and bleed ${nameOf(boat, engine)} from the tank.`,
    'standby is full': ({ filters, vents }, boat) => `${ids(boat, filters)} must be full and bled. If ${s(filters.length, 'it was', 'they were')} opened since and not bled${vents.length === 0 ? '' : ` at ${listed(vents)}`}, do not turn to ${s(filters.length, 'it', 'them')}.`,
    'sea room': ({ engines }, boat) => `${ids(boat, engines)} ${s(engines.length, 'idles', 'idle')}. There is room to stop in, and no lee shore.`,
    'turn slowly': ({ valve, passes }, boat) => `Turn ${nameOf(boat, valve)} slowly, over some seconds.${passes === undefined ? '' : ` On the way it passes ${passes}.`}`,
    'turn back if': ({ valve, position, engines }, boat) => `If ${ids(boat, engines, 'or')} falters now, while nothing is open, turn ${nameOf(boat, valve)} back to ${position} at once.`,
    'never back': ({ valve, position, part, engines, openings }, boat) => `From here never turn ${nameOf(boat, valve)} to ${position}. If ${ids(boat, engines, 'or')} falters, ${nameOf(boat, valve)} leaks and air is drawn in: close the ${listed(openings)} of ${nameOf(boat, part)} at once, and stop ${ids(boat, engines)}.`,
    'not the other side': ({ opens, runs }, boat) => `${ids(boat, runs)} ${s(runs.length, 'carries', 'carry')} all: do not touch ${s(runs.length, 'it', 'them')}. Open only ${ids(boat, opens)}.`,
    'to the brim': ({ part }, boat) => `Pour clean, filtered fuel in outside the element, up to the brim. Nothing bleeds ${nameOf(boat, part)} while the engine runs on the other side: what is not filled stays air.`,
    'ends unbled': ({ valve, was, position, parts, engines }, boat) => `Do this only where ${ids(boat, engines)} cannot be stopped. It is work beside a hot engine that runs, and when it ends ${ids(boat, parts)} ${s(parts.length, 'is', 'are')} filled but not bled: ${nameOf(boat, valve)} stays at ${position} and is not turned to ${was} before ${s(parts.length, 'it is', 'they are')} bled with ${ids(boat, engines)} stopped. Where ${s(engines.length, 'it', 'they')} can be stopped, use the page of ${listed(parts.map((id) => `renew ${nameOf(boat, id)} element`))} instead.`,
    'idle side full': ({ parts, runs, engines }, boat) => `${ids(boat, engines)} ${s(engines.length, 'runs', 'run')} evenly, the ${s(runs.length, 'bowl', 'bowls')} of ${ids(boat, runs)} ${s(runs.length, 'shows', 'show')} no bubbles, and ${ids(boat, parts)} ${s(parts.length, 'is', 'are')} full and dry outside.`,
    'bleed before use': ({ valve, position, part, vents }, boat) => `At the next stop, with the engine off, bleed ${nameOf(boat, part)}${vents.length === 0 ? '' : ` at ${listed(vents)}`}. Until then the tag stays on ${nameOf(boat, valve)}, and it stays away from ${position}.`,
    'stop cranking': ({ engine }, boat) => `Crank ${nameOf(boat, engine)} no more: its injection pump would run dry.`,
    'bottom came along': ({ filters }, boat) => `Dirt and water of the bottom have gone to ${ids(boat, filters)}. Have elements at hand. Water that stands in a bowl is drained off before anything is bled.`,
    'bleed these too': ({ consumers, tanks }, boat) => `${ids(boat, consumers)} ${s(consumers.length, 'draws', 'draw')} from ${listed(tanks)} too. Bleed ${s(consumers.length, 'it', 'each')} before it runs.`,
    'reset at the valve': ({ valve }, boat) => `Set ${nameOf(boat, valve)} back by hand, at the valve or by its cable. It moves freely.`,
    'shut by its switch': ({ valve }, boat) => `${nameOf(boat, valve)} shuts when its current is off.`,
    'lever tells': ({ valve, position }, boat) => `The lever of ${nameOf(boat, valve)} itself shows it: ${position === 'shut' ? 'it lies across the pipe' : 'it lies along the pipe'}. A pull that came loose moves no lever.`,
    'engine would die': ({ valve, engine, seconds }, boat) => `Idling, ${nameOf(boat, engine)} would die${seconds === undefined ? '' : ` within ${about(seconds)}`} with ${nameOf(boat, valve)} shut. That is no part of this test: it may then need to be bled.`,
    'if it leaks': ({ valve }, boat) => `If it leaks, do not trust ${nameOf(boat, valve)}. Have it renewed with the tank below it, and use another valve until then.`,
    'treated fuel': ({ engine }, boat) => `So long that treated fuel has come to the injectors of ${nameOf(boat, engine)}.`,
    'preserving is the maker\'s': ({ engines }, boat) => `Whether the fuel side of ${ids(boat, engines)} is preserved with oil is the maker's to say.`,
    'still open': ({ consumer, tanks, lineUp }, boat) => `In ${lineUp} ${nameOf(boat, consumer)} is still open to ${listed(tanks)}.`,
    'only looked at': ({ parts }, boat) => `${ids(boat, parts)} ${s(parts.length, 'is', 'are')} off line. Look at ${s(parts.length, 'its bowl', 'their bowls')} only, and drain nothing.`,
    'log levels and water': ({ tanks }) => `Levels of ${listed(tanks)}, and water found, mL`,
};
