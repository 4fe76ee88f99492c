/** The words of steps that are told in place of what the step itself would say: an action, and what it consists of in order. */
import { capital, figure, listed, mm } from '../../model/words';
import { fromSI } from '../../model/units';
import type { Boat } from '../../model/boat';
import type { Told } from '../../procedures/service/told';
import { canWords, nameOf, timeWords } from './naming';
import { about, down, up } from './operation-words';
import { ids, s } from './remark-parts';
import type { StepWords } from './step-words';

type Words = Pick<StepWords, 'action' | 'does' | 'signs'>;
type WordsFor = { readonly [Tell in Told['tell']]: (named: Extract<Told, { readonly tell: Tell }>['with'], boat: Boat) => Words };

export const TOLD_WORDS: WordsFor = {
    'fill the can': ({ tap }) => ({ action: 'Fill the feed can with clean fuel.', does: [`Shut ${tap}, or clamp the hose.`, 'Pour the fuel in through a funnel with a strainer.', 'Screw the cap tight while it is carried, and wipe the can dry.'] }),
    'lash the can': ({ part, over }, boat) => ({
        action: `Lash the feed can with its bottom ${mm(over)} (${figure(fromSI(over, 'in'), 2)} in) above ${nameOf(boat, part)}.`,
        does: ['Keep the can and its hoses away from hot parts and from belts.', 'Lead the hose down without a kink, and without a bight that rises.', 'Pull at the lashing: the can stays where it is as she rolls.'],
    }),
    'loosen the cap': () => ({ action: 'Loosen the cap of the feed can by one turn, so that air gets in.' }),
    'drip can': ({ part, holds }, boat) => ({ action: `Place a drip can that takes at least ${canWords(holds)} under ${nameOf(boat, part)}.` }),
    'part and plug': ({ part, from, side }, boat) => ({
        action: `Take ${nameOf(boat, from)} off ${nameOf(boat, part)}: there the ${side} is parted.`,
        does: [`Undo the union of ${nameOf(boat, from)} at the ${side === 'supply' ? 'inlet' : 'return outlet'} of ${nameOf(boat, part)}, a second spanner against it.`, 'Let what comes run into the drip can.', `Plug the end of ${nameOf(boat, from)} at once.`],
    }),
    'hose on': ({ part, side, tap }, boat) => (side === 'supply'
        ? { action: `Put the hose of the feed can on the inlet of ${nameOf(boat, part)}.`, does: [`See that ${tap} is shut.`, 'Make the hose fast: union with its washer, or tail with a clamp.'] }
        : { action: `Put the return hose on the return outlet of ${nameOf(boat, part)}.`, does: ['Make the hose fast: union with its washer, or tail with a clamp.', 'Lead its other end into the top of the feed can, above the fuel.', 'Tie it, so that it cannot jump out.'] }),
    tag: ({ valve, says, about }, boat) => ({ action: `Hang a tag on ${nameOf(boat, valve)}: "${capital(tagWords(says, nameOf(boat, about)))}".` }),
    'two people': ({ engines, part }, boat) => ({
        action: 'Give each of two people a post.',
        does: ['One does the work at the filters.', `The other stays at the helm, listens to ${ids(boat, engines)}, and has the stop control in reach.`, 'Agree on a call for "stop" that is heard over the engine.', `Put the extinguisher within reach of ${nameOf(boat, part)}.`],
    }),
    listen: ({ seconds, engines, part, valve }, boat) => ({
        action: `Leave ${nameOf(boat, part)} so for ${timeWords(seconds)}, and listen.`, signs: [`${ids(boat, engines)} ${s(engines.length, 'runs', 'run')} on evenly: ${nameOf(boat, valve)} lets no air by. Only now may the lid come off.`],
    }),
    'top up': ({ part, seconds }, boat) => ({ action: `Wait ${timeWords(seconds)}, and top ${nameOf(boat, part)} up to the brim again.` }),
    'water out': ({ tank }, boat) => ({ action: `Sound ${nameOf(boat, tank)}, and take the water out of its bottom.`, does: ['Sound it, and write the level down.', 'Lead a thin pipe to its lowest corner.', 'Pump into a clear jar until clean fuel comes.'] }),
    'treat the fuel': ({ tank, full }, boat) => ({
        action: `Put fuel treatment into ${nameOf(boat, tank)}, by its maker's measure, and fill it or leave it low.`,
        signs: [`There are two schools: fill it${full === undefined ? '' : ` to ${canWords(down(full))}, and no more`}, so that it breathes little; or leave it low, and buy fresh fuel. Fuel that is poured in after the treatment mixes it.`],
    }),
    'vent open': ({ tank }, boat) => ({ action: `See that the vent of ${nameOf(boat, tank)} is open and its gauze clean. Leave it open.` }),
    'leave her': ({ engines }, boat) => ({
        action: 'Leave her so that nobody starts an engine by mistake.',
        does: [`Hang the ${s(engines.length, 'key', 'keys')} of ${ids(boat, engines)} on ${s(engines.length, 'its seacock', 'their seacocks')}.`, 'Drain the raw water, where it can freeze.', 'Set the battery switch as the bilge pump needs it: it must still run by itself.'],
    }),
    'sea water': ({ engine }, boat) => ({ action: `Open the seacock of ${nameOf(boat, engine)}.`, does: ['Take the key off it.', 'See that the impeller is in, the strainer shut and every hose of the raw water on.', 'Open it fully, and look for water at its hoses.'] }),
    sample: ({ tank, when }, boat) => ({
        action: `Take a sample from the bottom of ${nameOf(boat, tank)}${when === 'before' ? ' before any fuel moves' : ''}.`, does: ['Pump from its lowest corner into a clear jar.', 'Let the jar stand for some minutes, and hold it against the light.'],
        signs: [`No water, no slime, no haze. ${when === 'before' ? 'Otherwise take that out first, until clean fuel comes.' : 'Otherwise go on another turn.'}`],
    }),
    'pump over': ({ pump, to, volume, likely, mark }, boat) => ({ action: `Run ${nameOf(boat, pump)} until ${canWords(volume)} has gone over, about ${about(likely)}. Never past ${canWords(down(mark))} in ${nameOf(boat, to)}.` }),
    pull: ({ valve }, boat) => ({ action: `Pull ${nameOf(boat, valve)} shut from outside the space.`, does: [`One stays at ${nameOf(boat, valve)}, and keeps hands off it.`, 'The other pulls all the way, where the pull is.'] }),
    sound: ({ tank }, boat) => ({ action: `Sound ${nameOf(boat, tank)}, and write the level down.` }),
    'fill the tank': ({ tank, volume, full }, boat) => ({
        action: `Fill ${nameOf(boat, tank)}${volume === undefined ? '' : `: at least ${canWords(up(volume))} in all, so that its pickup stays covered`}.`,
        signs: [...(full === undefined ? [] : [`Stop at ${canWords(down(full))}.`]), 'If it should not have been empty, look in the bilge for a leak first.'],
    }),
    'count all': ({ things }) => ({ action: `Count what was brought: ${listed(things)}. Nothing stays behind.` }),
};

function tagWords(says: Extract<Told, { readonly tell: 'tag' }>['with']['says'], about: string): string {
    switch (says) {
        case 'shut: engine on a can': return `shut, do not open. ${about} runs from a can`;
        case 'open filter: do not turn': return `do not turn. ${about} is open`;
        case 'not bled: do not turn': return `do not turn. ${about} is not bled`;
    }
}

export const toldWords = (boat: Boat, told: Told): Words => (TOLD_WORDS[told.tell] as (named: unknown, boat: Boat) => Words)(told.with, boat);
