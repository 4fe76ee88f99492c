/**
 * Which cautions a step needs, from a table of what is done and what the boat is. Signal words as in ANSI Z535: DANGER
 * will, WARNING could kill or maim; CAUTION could hurt; NOTICE is harm to things. Each says the hazard, the
 * consequence and how to avoid it, in that order. The texts are common practice in the trade.
 */
import type { Boat, Consumer, Id } from '../model/boat';
import type { CautionTopic } from '../model/step';
import { listed } from '../model/words';
import { canStandAbove } from '../analysis/tanks/surface';

export interface Caution {
    readonly topic: CautionTopic;
    readonly signal: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';
    readonly text: string;
}

/** Printed with every procedure, whatever it says. */
export const DEFERRAL = 'The engine maker\'s book, local codes and licensed practice come before this sequence.';

/** Before the first part is opened. */
export function openingCautions(fuel: boolean): Caution[] {
    if (!fuel) return [{ topic: 'scald', signal: 'WARNING', text: 'Hot coolant scalds. Let the engine cool until a hand can rest on it; open nothing under pressure.' }];
    return [
        { topic: 'fire', signal: 'WARNING', text: 'Fuel on hot parts or near a flame burns. Engine cool, no flame, no smoking, heaters off, air moving, extinguisher to hand.' },
        { topic: 'skin', signal: 'CAUTION', text: 'Fuel harms skin and eyes. Gloves and goggles on.' },
        { topic: 'spill', signal: 'NOTICE', text: 'Fuel pumped overboard pollutes. Bilge pump off, pads and a can under each bleed point, no detergent; take the waste ashore.' },
    ];
}

/** Before a vent that liquid of a tank may reach by itself; names what stops it. */
export function floodCaution(boat: Boat, tanks: readonly Id[], vent: Id, stops: readonly string[], fuel: boolean): Caution[] {
    const place = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents).find((other) => other.id === vent)?.at;
    const could = tanks.map((id) => canStandAbove(boat, boat.tanks.find((tank) => tank.id === id)!, place));
    if (!could.some((answer) => answer !== 'no')) return [];
    const certain = could.includes('yes');
    // What comes back by a return no valve of the supply stops, and it is not reckoned here.
    const stop = stops.length > 0 ? `Close ${vent} to stop it; ${listed(stops)} shut ${stops.length > 1 ? 'stop' : 'stops'} only what comes along the supply.` : `Close ${vent} to stop it.`;
    return [{
        topic: 'flood', signal: 'WARNING',
        text: `${fuel ? 'Fuel' : 'Coolant'} ${certain ? 'can' : 'may'} run out of ${vent} by itself, by the level in ${tanks.join(', ')} or by heel${certain ? '' : ' (the heights that would tell are not all known)'}. ${stop}`,
    }];
}

/** Before anything that is turned by hand or by the starter. */
export const STARTER: Caution = {
    topic: 'starter', signal: 'WARNING',
    text: 'An engine that turns crushes fingers and takes sleeves. Key out, stop pulled, battery switch off until the step that says start.',
};

export function startCautions(consumer: Consumer): Caution[] {
    const jet: Caution = consumer.injection?.pump === 'common-rail'
        ? { topic: 'jet', signal: 'DANGER', text: 'Rail pressure drives fuel through skin and kills flesh. Open no high-pressure union, running or stopped.' }
        : { topic: 'jet', signal: 'WARNING', text: 'A jet of fuel goes through skin: if it touches you, hospital at once, even if it looks like nothing. Look for leaks with a card, never a hand; crack no injector union here.' };
    const starting: Caution = { topic: 'starter', signal: 'WARNING', text: 'The engine starts. Hands, hair and tools clear of belts; call out before cranking.' };
    if (consumer.exhaust?.kind !== 'wet') return [starting, jet];
    return [starting, jet, {
        topic: 'exhaust', signal: 'NOTICE',
        text: 'Cranking pumps sea water into the muffler, then into the cylinders. Count every second cranked; past the budget shut the seacock or drain the muffler first, and open the seacock the instant it fires.',
    }];
}
