/** The sentences of a bleed sequence. Terminal, page, block in the text and machine output all take them from here. */
import type { Boat, Id } from '../../model/boat';
import type { BleedStep, Step } from '../../model/step';
import type { Broken } from '../../analysis/air/pumping';
import { SWEEP, sweep } from '../../analysis/air/sweeping';
import { fluidOf } from '../../analysis/flow/fluid';
import type { BleedPlan } from '../../procedures/bleed';
import type { DrawUp, Trap } from '../../procedures/expected';
import { ganged } from '../../analysis/topology/line-ups';
import { listed } from '../../model/words';
import { mm, speed } from '../figures';

/** The driver as the block and every sentence name it: PR1, LP1 lever, EP1 running, gravity from T1. */
export function driverWords({ driver }: BleedStep): string {
    switch (driver.by) {
        case 'hand': return driver.part;
        case 'lever': return `${driver.part} lever`;
        case 'electric': return `${driver.part} running`;
        case 'gravity': return `gravity from ${driver.part}`;
    }
}

/** A step as one imperative sentence. */
export function stepSentence(boat: Boat, step: Step, fluid: BleedPlan['fluid'] = 'fuel'): string {
    switch (step.do) {
        case 'set': return step.position === 'open' || step.position === 'shut' ? `${step.position === 'open' ? 'Open' : 'Shut'} ${titled(boat, step.part)}.` : turning(boat, step.part, step.position);
        case 'prefill': return `Fill ${step.part} to the brim with clean ${fluid}, outside the element, and close its lid. Its bleed point stays shut.`;
        case 'bleed': return `${opening(boat, step)}, ${work(step)}, and close ${step.vent} while ${fluid} still flows.`;
        case 'prove': return `Crack ${step.vent} and work the lever of ${step.part} ${step.strokes} strokes: ${fluid} must spurt at each. Close ${step.vent}.`;
        case 'start': return `Battery on, stop control released${step.seacock ? ', seacock open' : ''}. Start ${step.engine}: at most ${step.tries} times ${step.seconds} s, a minute's rest between.`
            + (step.seacock ? ` Cranking in all, since the engine last ran, at most ${step.budget} s.` : '');
    }
}

/** Turn SV1 (supply) to PORT, in EngineRoom; SV2 turns with it. */
function turning(boat: Boat, id: Id, position: string): string {
    const [head, ...where] = found(boat, id);
    const others = ganged(boat, id).filter((other) => other !== id);
    return `Turn ${[`${head} to ${position}`, ...where].join(', ')}${others.length > 0 ? `; ${listed(others)} ${others.length > 1 ? 'turn' : 'turns'} with it` : ''}.`;
}

const titled = (boat: Boat, id: Id): string => found(boat, id).join(', ');

/** A part with what helps to find it: V1 (supply), labelled "FUEL", in QuarterBerth. */
function found(boat: Boat, id: Id): string[] {
    const part = boat.parts.find((other) => other.id === id);
    return [
        part?.title === undefined ? id : `${id} (${part.title})`, part?.label === undefined ? '' : `labelled "${part.label}"`, part?.space === undefined ? '' : `in ${part.space}`,
    ].filter((words) => words !== '');
}

function opening(boat: Boat, { vent: id }: BleedStep): string {
    const vent = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents.map((other) => ({ ...other, owner: owner.id }))).find((other) => other.id === id);
    const spanner = vent?.spanner ? ` (${mm(vent.spanner.si)} spanner)` : '';
    return `Open ${id}${vent?.title === undefined ? '' : ` "${vent.title}"`} on ${vent?.owner ?? '?'}${spanner} half a turn to one turn`;
}

function work({ driver }: BleedStep): string {
    switch (driver.by) {
        case 'hand': return `pump ${driver.part} in slow full strokes`;
        case 'lever': return `work the lever of ${driver.part}`;
        case 'electric': return `run ${driver.part} in spells of 20 to 30 s`;
        case 'gravity': return `let ${driver.part} run into it by its own height`;
    }
}

/** What to expect of a stage, or that it cannot be said. */
export function expectationSentence(step: BleedStep): string {
    const { expect } = step;
    if (!expect) {
        return step.driver.by === 'gravity' ? `Seconds, not strokes. How many cannot be said: at its lowest level ${step.driver.part} does not hold what must come (top it up as it sinks), or a volume, a bore or a length on the way is not known.`
            : step.driver.by === 'electric' ? 'How long cannot be said: a volume or what the pump moves is not known.' : 'How many strokes cannot be said: a volume or the stroke is not known.';
    }
    const unit = expect.in === 's' ? 's' : 'strokes';
    const range = expect.most > expect.likely ? `${expect.likely} to ${expect.most}` : `${expect.likely}`;
    const cause = step.driver.by === 'gravity' ? 'a shut valve, a blocked pickup or vent, or a tank that is too low' : 'a leak on the suction side, a shut valve or an empty tank';
    return `Expect ${range} ${unit}. Stop and think at ${expect.think}: past that the cause is not trapped air but ${cause}.`;
}

export function doneSign(step: BleedStep): string {
    const last = step.driver.by === 'hand' || step.driver.by === 'lever' ? 'ten more strokes' : '3 to 5 s';
    return `Done when foam and beads have turned into a solid stream, and ${last} bring no bubble.`;
}

export const NO_RESISTANCE = 'The lever moves fuel only over the last 10 to 15 % of its throw. If no resistance is felt at all, the cam holds it: key out, turn the crank up to one turn by hand, and try again.';

const HICCUP = 'Expect a hiccup some minutes after the start';

export function trapSentence(boat: Boat, step: BleedStep, trap: Trap, fluid: BleedPlan['fluid'] = 'fuel'): string {
    const part = boat.parts.find((other) => other.id === trap.part);
    const crest = part?.crest?.up ? `its crest at ${mm(part.crest.up.si)}` : 'its crest';
    const how = driverWords(step);
    if (trap.speed === undefined || !part?.bore) return `${crest} may keep air; how fast ${how} sweeps it is not known. ${HICCUP}.`;
    const { bubble, laws, rises } = sweep(part.bore.si, trap.speed, fluidOf(boat.vessel, fluid === 'fuel' ? 'diesel' : 'coolant'));
    const [least] = laws;
    if (bubble === 'stays' && least) {
        return `${crest} keeps its air: ${how} moves only ${speed(trap.speed)} through it, less than the ${SWEEP} m/s of common practice and than any law asks (the least: ${speed(least.speed)}, ${least.name}, ${least.slope}). ${HICCUP}; a bleed point at the crest would clear it, a faster primer may.`;
    }
    const asked = laws.find((law) => law.speed > trap.speed!);
    return `${crest} may keep air: ${how} moves ${speed(trap.speed)} through it, ${trap.speed < SWEEP ? 'less' : 'more'} than the ${SWEEP} m/s of common practice`
        + `${asked ? `, less than the ${speed(asked.speed)} of ${asked.name}, ${asked.slope}` : ''}. `
        + `${rises ? 'No law is proven in so small a bore' : `In a bore of ${mm(part.bore.si)} no bubble rises by itself`}. ${HICCUP}.`;
}

/** Strokes before anything comes, by the expansion of the air in the line. */
export function drawUpSentence(step: BleedStep, { tank, above, strokes }: DrawUp): string {
    return `${step.driver.part} stands ${mm(above)} above the surface of ${tank} at its lowest level: there the first ${strokes === 1 ? 'stroke' : `${strokes} strokes`} may bring nothing, while the air before it is thinned.`;
}

/** Where low pressure ends, said at the last vent of the engine. */
export function endOfLowPressure(boat: Boat, plan: BleedPlan, step: BleedStep): string | undefined {
    const consumer = boat.consumers.find((other) => other.id === plan.engine)!;
    if (consumer.vents.at(-1)?.id !== step.vent || plan.fluid !== 'fuel') return undefined;
    return `${step.vent} is where low pressure ends: no union further on is opened.`;
}

/** What must be so before the first step; by what was done. */
export function beforeFirst(plan: BleedPlan): string {
    const { opened, ranDry } = plan.request;
    return `Before the first step: engine stopped, ${ranDry ? 'fuel in the tank that it draws from, ' : `${opened.length > 0 ? `${listed(opened)} closed with new seals, ` : ''}`}every lid tight, every drain and bleed point shut.`;
}

/** How the strokes are reckoned, when any are told. */
export const RECKONING = 'Strokes are reckoned with a hand pump that moves 80 % of its full stroke, and a quarter more than the volume to flush: the trade\'s rule, with no published source.';
/** How the seconds by gravity are reckoned, when any are told. */
export const RECKONING_BY_GRAVITY = 'Seconds by gravity are reckoned from the lowest level of the tank, with a quarter more than the volume to flush: the shorter time by the friction of the pipes alone, the longer with three times that for filters and fittings, the trade\'s rule with no published source.';
export const tellsSeconds = (plan: BleedPlan): boolean => plan.steps.some(({ step }) => step.do === 'bleed' && step.driver.by === 'gravity' && step.expect !== undefined);
export const tellsStrokes = (plan: BleedPlan): boolean => plan.steps.some(({ step }) => step.do === 'bleed' && step.expect?.in === 'strokes');

/** What follows the start; common practice. */
export function afterStart(plan: BleedPlan): string | undefined {
    if (!plan.steps.some(({ step }) => step.do === 'start')) return undefined;
    return `Once ${plan.engine} fires, a fast idle of several minutes passes the last small air. Look at every joint with a dry card, running and stopped; then 10 to 15 minutes under load at the berth, and look again after an hour. Write the date, the hours and the strokes into the log. (Common practice.)`;
}

/** What this sequence leaves undone: opened parts that are off line, and other consumers that may have air before them. */
export function leftSentences(plan: BleedPlan): string[] {
    const found = plan.left.map(({ part, ends }) => `${part} still holds air: it is off line in ${plan.ends}. Bleed it before a valve puts it on line${ends === undefined ? '' : `, by the sequence that ends in ${ends}`}.`);
    if (plan.tainted.length > 0) found.push(`Air may stand before ${listed(plan.tainted)} too. Bleed ${listed(plan.tainted)} before running ${plan.tainted.length > 1 ? 'them' : 'it'}.`);
    return found;
}

/** Why a step is false on the boat as it is written. */
export function brokenSentence({ law, parts }: Broken): string {
    const [first = '', second = ''] = parts;
    const rest = listed(parts.slice(1));
    switch (law) {
        case 'not-reached': return `${second} cannot push fuel to ${first}: the way between them is shut, or leads elsewhere.`;
        case 'on-suction': return `${first} is upstream of ${second}: opened while ${second} is worked, it draws air in.`;
        case 'not-fed': return `${first} is fed by no tank: a valve before it is shut.`;
        case 'return-shut': return `The return of ${first} is shut.`;
        case 'out-of-order': return `${second} comes before ${first}.`;
        case 'air-drawn': return `${first} would draw air from ${rest}.`;
        case 'air-upstream': return `No solid stream can come at ${first}: ${rest} may still hold air.`;
        case 'no-head': return `${second} is not proven to stand 50 mm above ${first}, alone and at its lowest level.`;
        case 'no-such-part': return `There is no ${first} on this boat that this can be done with.`;
        case 'no-such-position': return `${first} has no position ${second}.`;
        case 'not-a-driver': return `${first} is not a pump that can be worked this way.`;
        case 'not-empty': return `${first} was not opened, or holds fuel already.`;
        case 'may-not-prefill': return `${first} may not be filled by hand.`;
        case 'not-isolated': return `${first} is not shut off from the tank: opening it to fill it lets fuel out or air in.`;
        case 'air-left': return `Air would stay before ${first}: in ${rest}.`;
        case 'wrong-line-up': return `The sequence ends with ${listed(parts)} in another position than the line-up that it ends in.`;
    }
}
