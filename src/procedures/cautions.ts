/**
 * Which cautions a step needs, from a table of what is done and what the boat is. Signal words as in ANSI Z535: DANGER
 * will, WARNING could kill or maim; CAUTION could hurt; NOTICE is harm to things. Each says the hazard, the
 * consequence and how to avoid it, in that order. The texts are common practice in the trade.
 */
import type { Boat, Consumer, Id } from '../model/boat';
import type { CautionTopic } from '../model/step';
import { listed } from '../model/words';
import { canStandAbove } from '../analysis/tanks/surface';

export interface Caution extends Hazard {
    readonly topic: CautionTopic;
    /** As one text. */
    readonly text: string;
    /** Valves that it tells to rely on. */
    readonly valves?: readonly Id[];
}

/** The three parts of it, as in a DITA hazard statement and, as it is commonly told, ANSI Z535.6. */
export interface Hazard {
    readonly signal: 'DANGER' | 'WARNING' | 'CAUTION' | 'NOTICE';
    readonly hazard: string;
    readonly consequence: string;
    readonly avoid: string;
}

/** What each topic says of itself. What is said of one boat and step, as of flooding, is told where it is known. */
export const HAZARDS: Readonly<Record<CautionTopic, Hazard>> = {
    fire: { signal: 'WARNING', hazard: 'Fuel on hot parts or near a flame.', consequence: 'It burns.', avoid: 'Engine cool, no flame, no smoking, heaters off, air moving, extinguisher to hand.' },
    flood: { signal: 'WARNING', hazard: 'A tank can run out where something is opened.', consequence: 'Fuel floods the bilge.', avoid: 'See that the valves that are named are shut and hold before anything is opened. To stop it, close what was opened.' },
    skin: { signal: 'CAUTION', hazard: 'Fuel on skin and in eyes.', consequence: 'It harms both.', avoid: 'Gloves and goggles on. Wash at once; no high-pressure wash.' },
    spill: { signal: 'NOTICE', hazard: 'Fuel in the bilge.', consequence: 'Pumped overboard it pollutes.', avoid: 'Bilge pump off, pads and a can under what is opened, no detergent; take the waste ashore.' },
    starter: { signal: 'WARNING', hazard: 'An engine that turns, by hand or by its starter.', consequence: 'It crushes fingers and takes sleeves.', avoid: 'Key out, stop pulled, battery switch off until the step that says start. Hands, hair and tools clear of belts; call out before cranking.' },
    jet: { signal: 'WARNING', hazard: 'A jet of fuel.', consequence: 'It goes through skin and kills flesh: hospital at once, even if it looks like nothing.', avoid: 'Look for leaks with a card, never a hand; crack no injector union.' },
    rail: { signal: 'DANGER', hazard: 'Rail pressure.', consequence: 'It drives fuel through skin and kills flesh.', avoid: 'Open no high-pressure union, running or stopped.' },
    exhaust: { signal: 'NOTICE', hazard: 'Cranking pumps sea water into the muffler.', consequence: 'Past what the muffler holds it runs into the cylinders.', avoid: 'Count every second cranked; past the budget shut the seacock or drain the muffler first, and open the seacock the instant it fires.' },
    scald: { signal: 'WARNING', hazard: 'Hot coolant under pressure.', consequence: 'It scalds.', avoid: 'Let the engine cool until a hand can rest on it; open nothing under pressure.' },
    waste: { signal: 'NOTICE', hazard: 'Used elements, old fuel and rags.', consequence: 'They pollute, and rags can heat up by themselves.', avoid: 'Into a metal can with a lid, closed; ashore to where hazardous waste is taken.' },
    underway: { signal: 'WARNING', hazard: 'Hands beside an engine that runs, on a boat that moves.', consequence: 'Belts take hands and sleeves, hot parts burn, cans tip.', avoid: 'Guards on. Secure the can, kneel, one hand for the boat; touch only the side that is off line.' },
    overfill: { signal: 'NOTICE', hazard: 'A tank that is filled past its top.', consequence: 'Fuel comes out of its vent, on deck and overboard.', avoid: 'Dip it first. Stay at the pump, watch the level, and stop in time.' },
};

const of = (topic: CautionTopic, text: string, told: Partial<Hazard> = {}): Caution => ({ topic, ...HAZARDS[topic], ...told, text });

/** The three parts in a row. */
export const hazardWords = ({ hazard, consequence, avoid }: Omit<Hazard, 'signal'>): string => [hazard, consequence, avoid].filter((words) => words !== '').join(' ');

/** Printed with every procedure, whatever it says. */
export const DEFERRAL = 'The engine maker\'s book, local codes and licensed practice come before this sequence.';

/** Before the first part is opened. */
export function openingCautions(fuel: boolean): Caution[] {
    if (!fuel) return [of('scald', 'Hot coolant scalds. Let the engine cool until a hand can rest on it; open nothing under pressure.')];
    return [
        of('fire', 'Fuel on hot parts or near a flame burns. Engine cool, no flame, no smoking, heaters off, air moving, extinguisher to hand.'),
        of('skin', 'Fuel harms skin and eyes. Gloves and goggles on.'),
        of('spill', 'Fuel pumped overboard pollutes. Bilge pump off, pads and a can under each bleed point, no detergent; take the waste ashore.'),
    ];
}

const FLOODS = 'It floods the bilge.';

/** Before a vent that liquid of a tank may reach by itself; names what stops it. */
export function floodCaution(boat: Boat, tanks: readonly Id[], vent: Id, stops: readonly string[], fuel: boolean): Caution[] {
    const place = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents).find((other) => other.id === vent)?.at;
    const could = tanks.map((id) => canStandAbove(boat, boat.tanks.find((tank) => tank.id === id)!, place));
    if (!could.some((answer) => answer !== 'no')) return [];
    const certain = could.includes('yes');
    // What comes back by a return no valve of the supply stops, and it is not reckoned here.
    const stop = stops.length > 0 ? `Close ${vent} to stop it; ${listed(stops)} shut ${stops.length > 1 ? 'stop' : 'stops'} only what comes along the supply.` : `Close ${vent} to stop it.`;
    const what = `${fuel ? 'Fuel' : 'Coolant'} ${certain ? 'can' : 'may'} run out of ${vent} by itself, by the level in ${tanks.join(', ')} or by heel${certain ? '' : ' (the heights that would tell are not all known)'}.`;
    return [of('flood', `${what} ${stop}`, { hazard: what, consequence: FLOODS, avoid: stop })];
}

/** Before anything that is turned by hand or by the starter. */
export const STARTER: Caution = of('starter', 'An engine that turns crushes fingers and takes sleeves. Key out, stop pulled, battery switch off until the step that says start.',
    { avoid: 'Key out, stop pulled, battery switch off until the step that says start.' });

/** Before the step that says start. */
export const STARTING: Caution = of('starter', 'The engine starts. Hands, hair and tools clear of belts; call out before cranking.',
    { hazard: 'The engine starts.', consequence: 'Belts take hands, hair and sleeves.', avoid: 'Hands, hair and tools clear of belts; call out before cranking.' });

export function startCautions(consumer: Consumer): Caution[] {
    const jet: Caution = consumer.injection?.pump === 'common-rail'
        ? of('jet', 'Rail pressure drives fuel through skin and kills flesh. Open no high-pressure union, running or stopped.', HAZARDS.rail)
        : of('jet', 'A jet of fuel goes through skin: if it touches you, hospital at once, even if it looks like nothing. Look for leaks with a card, never a hand; crack no injector union here.');
    if (consumer.exhaust?.kind !== 'wet') return [STARTING, jet];
    return [STARTING, jet, of('exhaust', 'Cranking pumps sea water into the muffler, then into the cylinders. Count every second cranked; past the budget shut the seacock or drain the muffler first, and open the seacock the instant it fires.')];
}
