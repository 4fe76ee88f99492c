/** What a remark of a plan says: by its name, with what it names. No remark without an entry here, and no entry without a remark. */
import type { Boat } from '../../model/boat';
import { capital, figure, listed, mm } from '../../model/words';
import type { Remark } from '../../procedures/service/remarks';
import { bandWords, canWords, nameOf, openingPhrase, partOf, speedWords, timeWords } from './naming';
import { OPERATION_WORDS } from './operation-words';
import { fineness, ids, leans, s, type WordsOf } from './remark-parts';

export const REMARK_WORDS: WordsOf<Remark['say']> = {
    ...OPERATION_WORDS,
    'also stops': ({ consumers }, boat) => `${ids(boat, consumers)} ${s(consumers.length, 'is', 'are')} stopped too: the same lines are shut or opened.`,
    'cold engine': ({ engine }, boat) => `Go on only when a hand can rest on ${nameOf(boat, engine)}.`,
    'battery off until start': () => 'It stays off until the step that sets it on.',
    'cuts off': ({ valve, parts, tanks }, boat) => `${nameOf(boat, valve)} then stands between ${ids(boat, tanks)} and ${ids(boat, parts)}.`,
    'cut off already': ({ parts }, boat) => `${ids(boat, parts)} ${s(parts.length, 'is', 'are')} cut off from every tank as the valves stand.`,
    'stays dry without a valve': ({ part, opening, tanks }, boat) => `No valve shuts ${nameOf(boat, part)} off. None is needed: ${ids(boat, tanks)} ${s(tanks.length, 'stands', 'stand')} lower than ${openingPhrase(boat, part, opening)}, however she leans.`,
    'keeps the column': ({ valve, parts }, boat) => `Leave ${nameOf(boat, valve)} shut until ${ids(boat, parts)} ${s(parts.length, 'is', 'are')} closed. Opened before, the fuel falls back to the tank.`,
    'proves above': ({ valves, tank, volume }, boat) => `It proves ${ids(boat, valves)} only when ${tank} holds more than ${canWords(volume, 'up')} and she is upright. With less in it, open slowly and be ready to close: a stream that dies then proves nothing.`,
    'proves nothing': ({ valves, part, opening }, boat) => `Upright no tank stands above ${openingPhrase(boat, part, opening)}. A stream that does not come proves nothing of ${ids(boat, valves)}.`,
    'may prove nothing': ({ valves }, boat) => `Heights are missing. Whether a stream that dies proves ${ids(boat, valves)} cannot be said.`,
    'let air in': ({ part, by }, boat) => `Loosen ${openingPhrase(boat, part, by)}, so that air gets in. While it is tight the stream dies by vacuum and proves nothing.`,
    'empties first': ({ part, volume }, boat) => `What is in ${nameOf(boat, part)} comes first${volume === undefined ? '' : `, about ${canWords(volume)}`}. Then the stream must die.`,
    'if it runs on': ({ valves, part, opening }, boat) => `If it does not die, close ${opening === 'drain' && partOf(boat, part)?.lid !== undefined ? `the drain and the lid of ${nameOf(boat, part)}` : openingPhrase(boat, part, opening)} at once. Open nothing before it is found why ${ids(boat, valves, 'or')} leaks.`,
    comes: ({ volume, more }, boat) => `${volume === undefined ? 'How much comes is not known' : `About ${canWords(volume, 'up')} comes`}${more.length === 0 ? '' : `${volume === undefined ? ', since' : ', and'} what ${ids(boat, more)} ${s(more.length, 'holds', 'hold')} is not known`}.`,
    'by the return': ({ part, opening, tank, port, stbd }, boat) => `Open ${openingPhrase(boat, part, opening)} near upright only. Beyond ${leans(port, stbd)} ${tank} comes back by the return.`,
    'note water': () => 'Write down how much water and dirt came, and their colour.',
    'until clean fuel': () => 'Let it run until clean fuel comes, and no longer.',
    'count old seals': ({ seals }) => `Have ${listed(seals.map((seal) => `the old ${seal}`))} in the hand before ${s(seals.length, 'the new one goes', 'new ones go')} in.`,
    'oil seals': ({ seals }) => `Wet ${listed(seals)} with clean fuel.`,
    'element fineness': ({ passes }) => `The element is one of ${fineness(passes)}.`,
    'renew instead': ({ piece, under, every }) => `If it is fouled, fit a new ${piece}.${under === undefined ? '' : ` A clean one with less than ${timeWords(under)} goes in again.`}${every === undefined ? '' : ` It is renewed every ${timeWords(every)} in any case.`}`,
    'close it dry': ({ part, why }, boat) => `Pour nothing into ${nameOf(boat, part)}: ${why === 'not on the clean side' ? 'fuel poured in there passes no element' : why === 'forbidden' ? 'it is forbidden' : 'nobody said that it may be filled by hand'}.`,
    'how to fill': ({ volume }) => `Pour clean, filtered fuel in outside the element, up to 10 mm (3/8 in) under the rim${volume === undefined ? '' : `: about ${canWords(volume)}`}.`,
    'filling saves': ({ vent, filled, dry, in: unit }) => `This may be left out. At ${vent} it then takes about ${dry} ${unit} in place of ${filled}, and the limit at which to stop and think is ${2 * dry} ${unit}.`,
    'must be filled': ({ part }, boat) => `This may not be left out: no pump can push fuel into ${nameOf(boat, part)}.`,
    'mark ends': () => 'Mark which end is which, and which way its arrow points.',
    'like for like': ({ bore, length, fireResistant }) => {
        const sizes = [...(bore === undefined ? [] : [`bore ${mm(bore)}`]), ...(length === undefined ? [] : [`length ${figure(length)} m`])];
        return `The new one is like the old one${sizes.length === 0 ? '' : `: ${sizes.join(', ')}`}.${fireResistant === 'yes' ? ' It is marked as a fire-resistant type.' : ''}`;
    },
    'arrow downstream': () => 'Its arrow points downstream, away from the tank.',
    'plug ends': () => 'Plug both open ends at once.',
    tighten: () => 'Hand tight, then as its maker says.',
    'off line': ({ part, lineUp, bled }, boat) => `${nameOf(boat, part)} is off line in ${lineUp}. ${bled === undefined ? 'It may hold air: bleed it before a valve puts it on line.' : `It was bled with the valves as in ${bled}, so that a valve that puts it on line finds fuel.`}`,
    'needs power': ({ pump }, boat) => `${nameOf(boat, pump)} needs power: its switch and the battery on. Run it in spells of 20 to 30 s.`,
    'two at it': ({ pump, vent }, boat) => `One is at the switch of ${nameOf(boat, pump)}, one at ${vent}. The one at ${vent} says when to run it and when to stop.`,
    tube: ({ vent }) => `Push a clear tube onto ${vent}, and put its end into the can. Watch the bubbles in it.`,
    'low pressure ends': ({ vent }) => `${vent} is where low pressure ends. Open no union beyond it.`,
    'no stroke': ({ pump }, boat) => `If the lever of ${nameOf(boat, pump)} meets no resistance, its cam holds it. Key out, turn the crank by hand up to one turn, and try again.`,
    'clears itself': ({ consumer }, boat) => `Small air that is left ${nameOf(boat, consumer)} passes to its return when it runs.`,
    'nothing to bleed': ({ consumers }, boat) => `Nothing is bled: no air came before ${ids(boat, consumers)}.`,
    'runs by itself': ({ tank, vent, stop }, boat) => `${tank} runs into it by its height alone. Stay with it. To stop it, close ${vent}${stop.length === 0 ? '' : ` or shut ${ids(boat, stop)}`}.`,
    'if it does not start': ({ budget }) => budget === undefined ? 'If it does not start, stop and find out why.'
        : `Crank at most ${figure(budget)} s in all since it last ran. If it does not start by then, stop and find out why.`,
    'rail purges itself': ({ engine }, boat) => `${nameOf(boat, engine)} clears its rail by itself while it is cranked. Open nothing on its high-pressure side.`,
    'moored for load': () => 'Alongside, with lines and springs doubled.',
    'new baseline': ({ elements }) => `${elements === 'new' ? 'With new elements' : 'With the elements as they are'}. Write down what it reads: from now on that is what it is compared with.`,
    'no figure for gauge': () => 'What it should read cannot be reckoned. Write down what it reads: from now on that is what it is compared with.',
    'dry at rest': () => 'Before anything runs all that was opened or bled is dry.',
    'dry card': () => 'Hold a dry card to each joint, never a hand. The card stays dry.',
    'bilge clean first': () => 'Only when no fuel is in the bilge. If there is, lift it with pads or a hand pump into a can first. Do not leave her with this pump off.',
    'look for': ({ signs }) => `Look for ${listed(signs)}.`,
    'turns freely': ({ valve }, boat) => `${nameOf(boat, valve)} turns freely all the way, and does not drip.`,
    delivers: ({ pump, vent }, boat) => `${nameOf(boat, pump)} brings a solid stream at ${vent}.`,
    'reads nought': ({ gauge }, boat) => `With nothing running ${nameOf(boat, gauge)} reads nought.`,
    'starts within': ({ engine, tries, seconds }, boat) => `${nameOf(boat, engine)} starts within ${tries} ${s(tries, 'try', 'tries')} of ${figure(seconds)} s.`,
    'joints dry': ({ parts }, boat) => `The joints of ${ids(boat, parts)} are dry, at rest and running.`,
    'gauge between': ({ gauge, low, high, speed }, boat) => `${nameOf(boat, gauge)} reads ${bandWords({ low, high })}${speed === undefined ? '' : ` at ${speedWords(speed)}`}.`,
    'bowl clear': ({ part }, boat) => `The bowl of ${nameOf(boat, part)} is clear, with no stream of bubbles.`,
    'line-up': ({ lineUp }) => `The valves stand as in line-up ${lineUp}.`,
    // The hours of each engine are a field by themselves.
    'log job': ({ words }) => `Done: ${words}`,
    'log reading': ({ gauge, speed }, boat) => `Reading of ${nameOf(boat, gauge)}${speed === undefined ? '' : ` at ${speedWords(speed)}`}`,
    'log water': ({ part }, boat) => `Water and dirt from ${nameOf(boat, part)}, mL`,
    'log strokes': ({ vents }) => `Strokes or seconds at ${listed(vents)}`,
    'take from stock': ({ part, pieces }, boat) => `Take ${listed(pieces)} of ${nameOf(boat, part)} off the list of spares, and order new.`,
    'waste ashore': ({ pieces }) => `Take ${listed(pieces)} ashore as oily waste, in a metal can with a lid. Rags with fuel may heat up by themselves.`,
    'after one hour': ({ parts }, boat) => `After one hour look at ${ids(boat, parts)} again, with a dry card.`,
    'next cold start': ({ engine }, boat) => `At the next cold start see that ${nameOf(boat, engine)} fires as it used to. If not, air still comes in.`,
};

export const remarkWords = (boat: Boat, remark: Remark): string => capital((REMARK_WORDS[remark.say] as (named: unknown, boat: Boat) => string)('with' in remark ? remark.with : undefined, boat));
