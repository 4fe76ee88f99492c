/** Cautions as three things: what the hazard is, what comes of it, how it is avoided. */
import type { CautionStep } from '../../model/step';
import type { Hazard } from './tree';

type Told = Hazard;

const HAZARDS: Readonly<Record<CautionStep['topic'], Told>> = {
    fire: { signal: 'WARNING', hazard: 'Fuel on hot parts or near a flame.', consequence: 'It burns.', avoid: 'Let the engine cool. No flame, no smoking, heaters off. Move the air, and have an extinguisher at hand.' },
    flood: { signal: 'WARNING', hazard: 'A tank can run out here.', consequence: 'Fuel floods the bilge.', avoid: 'Shut the valves that are named, and see that they hold, before anything is opened.' },
    skin: { signal: 'CAUTION', hazard: 'Fuel on skin and in eyes.', consequence: 'It harms both.', avoid: 'Wear gloves and goggles. Wash at once.' },
    spill: { signal: 'NOTICE', hazard: 'Fuel in the bilge.', consequence: 'Pumped overboard it pollutes.', avoid: 'Bilge pump off. Keep pads and a can under the work. Use no detergent.' },
    starter: { signal: 'WARNING', hazard: 'An engine that turns.', consequence: 'It crushes fingers and takes sleeves.', avoid: 'Key out and stop pulled until the step that starts it. Call out before cranking.' },
    jet: { signal: 'WARNING', hazard: 'A jet of fuel.', consequence: 'It goes through skin and kills the flesh.', avoid: 'Look for leaks with a card, never with a hand. If it touches you, go to hospital at once.' },
    exhaust: { signal: 'NOTICE', hazard: 'Cranking fills a wet exhaust with sea water.', consequence: 'The water gets into the cylinders.', avoid: 'Count every second of cranking. Past the budget shut the seacock or drain the muffler first.' },
    scald: { signal: 'WARNING', hazard: 'Hot coolant under pressure.', consequence: 'It scalds.', avoid: 'Let the engine cool until a hand can rest on it.' },
    waste: { signal: 'NOTICE', hazard: 'Used elements, fuel and rags.', consequence: 'They pollute, and rags can heat up by themselves.', avoid: 'Keep them in a metal can with a lid, and take them ashore.' },
    underway: { signal: 'CAUTION', hazard: 'Work beside an engine that runs, in a boat that moves.', consequence: 'Belts catch hands and sleeves; cans tip.', avoid: 'Keep the guards on. Secure the can, kneel, and keep one hand for the boat.' },
    overfill: { signal: 'NOTICE', hazard: 'A tank that is filled past its top.', consequence: 'Fuel comes out of its vent.', avoid: 'Stand by the pump, watch the level, and stop in time.' },
    rail: { signal: 'DANGER', hazard: 'Rail pressure.', consequence: 'It drives fuel through skin and kills.', avoid: 'Open no high-pressure union, running or stopped.' },
};

/** Somebody's own words stand as they are, behind what they are about. */
export function hazardOf({ topic, signal, text }: CautionStep): Hazard {
    const told = HAZARDS[topic];
    if (text === undefined) return { ...told, ...(signal && { signal }) };
    const own = /^(DANGER|WARNING|CAUTION|NOTICE): /.exec(text);
    return { signal: signal ?? (own?.[1] as Hazard['signal'] | undefined) ?? told.signal, hazard: told.hazard, consequence: '', avoid: own ? text.slice(own[0].length) : text };
}

/** As one paragraph behind the signal word. */
export const hazardWords = ({ hazard, consequence, avoid }: Hazard): string => [hazard, consequence, avoid].filter((words) => words !== '').join(' ');
