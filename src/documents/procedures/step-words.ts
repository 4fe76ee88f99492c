/** The sentence of each step: imperative, one action, at most 20 words; what takes more is told as the steps within it. */
import type { Boat, Id } from '../../model/boat';
import type { BleedStep, HoldStep, PieceStep, RunStep, ServiceStep, StartStep } from '../../model/step';
import { SWEEP, sweep } from '../../analysis/air/sweeping';
import { fluidOf } from '../../analysis/flow/fluid';
import { ganged } from '../../analysis/topology/line-ups';
import { jobWords, type PlannedServiceStep, type ProcedurePlan } from '../../procedures/service/plan';
import type { Remark } from '../../procedures/service/remarks';
import { bandWords, canWords, consumerOf, nameOf, openingPhrase, partOf, placeOf, spannerWords, speedWords, timeWords, ventOf } from './naming';
import { capital, listed, mm } from '../../model/words';

/** What a step says on a page. */
export interface StepWords {
    /** The tag in the margin: what hands go to. */
    readonly tag?: Id;
    readonly action: string;
    readonly does?: readonly string[];
    readonly signs?: readonly string[];
}

/** STE and the like: no sentence of a step is longer. */
export const MOST_WORDS = 20;
export const wordsIn = (sentence: string): number => sentence.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length;

export type Fluid = ProcedurePlan['fluid'];

/** Where a thing is, in brackets behind its tag; nothing where the reader stands there already. */
export type Where = (id: Id) => string;
export const whereIn = (boat: Boat): Where => (id) => { const place = placeOf(boat, id); return place === '' ? '' : ` (${place})`; };

/** What a step cannot tell by itself. */
export interface Around {
    readonly where?: Where;
    /** Parts and consumers under which a can stands by then. */
    readonly caught?: ReadonlySet<Id>;
    /** What lets air into a part that is drained. */
    readonly air?: string;
    /** Tanks that are cans, hung in her for the job. */
    readonly cans?: ReadonlySet<Id>;
}

export function stepWords(boat: Boat, planned: Pick<PlannedServiceStep, 'step' | 'traps' | 'drawUp'>, fluid: Fluid, around: Around = {}): StepWords {
    const { step } = planned;
    const { where = whereIn(boat) } = around;
    const name = (id: Id): string => nameOf(boat, id);
    switch (step.do) {
        case 'set': return setWords(boat, step.part, step.position, where);
        case 'stop': return stopWords(boat, step.part, step.keyOut === true, where);
        case 'switch': return step.of === undefined
            ? { action: `Set the ${step.thing} to ${step.to.toUpperCase()}.` }
            : { tag: step.of, action: step.to === 'open' || step.to === 'shut' ? `${step.to === 'open' ? 'Open' : 'Shut'} the ${step.thing} of ${name(step.of)}${where(step.of)}.` : `Set the ${step.thing} of ${name(step.of)} to ${step.to.toUpperCase()}.` };
        case 'place': return {
            tag: step.part,
            action: step.thing === 'pads' ? `Place ${step.count ?? 'the'} ${step.count === 1 ? 'pad' : 'pads'} under ${name(step.part)}${where(step.part)}.`
                : `Place ${step.holds === undefined ? 'the drip can' : `a drip can that holds at least ${canWords(step.holds, 'up')}`} under ${name(step.part)}${where(step.part)}.`,
        };
        case 'open': return openWords(boat, step.part, step.opening, where);
        case 'close': return closeWords(boat, step.part, step.opening, where);
        case 'hold': return holdWords(boat, step, where, around.air);
        case 'remove': case 'fit': return pieceWords(boat, step, where);
        case 'clean': return { tag: step.part, action: `Clean the ${step.piece} of ${name(step.part)}${where(step.part)}.` };
        case 'look': return {
            ...(step.part !== undefined && { tag: step.part }), action: step.part === undefined ? `Look at ${/^(all|each|every) /.test(step.piece) ? step.piece : `the ${step.piece}`}.` : `Look at ${step.piece === '' ? '' : `the ${step.piece} of `}${name(step.part)}${where(step.part)}.`,
            ...(step.words !== undefined && { signs: [ended(capital(step.words))] }),
        };
        case 'prefill': return {
            tag: step.part, action: `Fill ${name(step.part)}${where(step.part)} by hand with clean ${fluid}, its bleed point shut.`,
        };
        case 'bleed': return bleedWords(boat, planned, step, fluid, { ...around, where });
        case 'prove': return {
            tag: step.part, action: `Prove that ${name(step.part)}${where(step.part)} draws.`,
            does: [`Open ${step.vent} a little.`, `Work the lever of ${name(step.part)} for ${step.strokes} full strokes.`, `Close ${step.vent}.`],
            signs: [
                `${capital(fluid)} spurts at ${step.vent} with each stroke.`,
                `If the lever has resistance and nothing spurts, ${name(step.part)} does not draw. Bleed before it again, and look for air that comes in at its joints.`,
            ],
        };
        case 'start': return startWords(boat, step, where);
        case 'run': return runWords(boat, step, where);
        case 'read': return {
            tag: step.gauge, action: `Read ${name(step.gauge)}${where(step.gauge)}${step.speed === undefined ? '' : ` at ${speedWords(step.speed)}`}.`,
            signs: [step.expect === undefined ? 'Write the reading down. What it should be is not known.' : `Expected: ${bandWords(step.expect)}.`],
        };
        case 'wait': return { action: `Wait ${timeWords(step.seconds)}.` };
        case 'log': return logWords(step.jobs.map(jobWords));
        case 'sequence': return {
            tag: step.engine, action: step.ranDry ? `Bleed ${name(step.engine)} by its bleed sequence after running dry.` : `Bleed ${name(step.engine)} by its bleed sequence.`,
            ...(step.opened.length > 0 && { signs: [`The parts that were opened: ${listed(step.opened)}${step.prefilled.length > 0 ? `; filled by hand: ${listed(step.prefilled)}` : ''}.`] }),
        };
        case 'caution': return { action: step.text ?? capital(step.topic) };
    }
}

const ended = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

function setWords(boat: Boat, id: Id, position: string, where: Where): StepWords {
    const others = ganged(boat, id).filter((other) => other !== id);
    const name = `${nameOf(boat, id)}${where(id)}`;
    return {
        tag: id, action: position === 'open' || position === 'shut' ? `${position === 'open' ? 'Open' : 'Shut'} ${name}.` : `Turn ${name} to ${position}.`,
        ...(others.length > 0 && { signs: [`${listed(others)} ${others.length > 1 ? 'turn' : 'turns'} with it.`] }),
    };
}

function stopWords(boat: Boat, id: Id, keyOut: boolean, where: Where): StepWords {
    const name = `${nameOf(boat, id)}${where(id)}`;
    if (!keyOut) return { tag: id, action: `${consumerOf(boat, id) ? 'Stop' : 'Switch off'} ${name}.` };
    return { tag: id, action: `Stop ${name} and keep it from starting.`, does: ['Stop it.', 'Take its key out and keep it with you.', 'Pull its stop control and leave it pulled.'] };
}

function openWords(boat: Boat, part: Id, opening: string, where: Where): StepWords {
    const vent = ventOf(boat, opening);
    const what = openingPhrase(boat, part, opening);
    if (opening === 'ports') return { tag: part, action: `Take the body of ${nameOf(boat, part)}${where(part)} off its ports.` };
    if (opening === 'joint') return { tag: part, action: `Undo ${unionWords(boat, part)}${where(part)}.` };
    return { tag: vent ? opening : part, action: `Open ${what}${vent?.spanner ? ` with the ${spannerWords(vent.spanner.si)}` : where(part)}.` };
}

function closeWords(boat: Boat, part: Id, opening: string, where: Where): StepWords {
    const what = openingPhrase(boat, part, opening);
    if (opening === 'ports') return { tag: part, action: `Put the body of ${nameOf(boat, part)}${where(part)} back on its ports.` };
    if (opening === 'joint') return { tag: part, action: `Make ${unionWords(boat, part)}${where(part)} up again.` };
    return { tag: ventOf(boat, opening) ? opening : part, action: `Close ${what}${where(part)}.` };
}

/** the unions of LP1, towards S2 and S3 */
function unionWords(boat: Boat, part: Id): string {
    const neighbours = partOf(boat, part) ? neighboursOf(boat, part) : [];
    if (neighbours.length === 0) return openingPhrase(boat, part, 'joint');
    return `the ${neighbours.length === 1 ? 'union' : 'unions'} of ${nameOf(boat, part)}, towards ${listed(neighbours)}`;
}

/** What a part is joined to, a tank by its own name. */
function neighboursOf(boat: Boat, part: Id): string[] {
    const ownerOf = (end: string): string => end.split(':')[0]!;
    const ends = boat.joints.flatMap(({ from, to }) => (ownerOf(from) === part ? [ownerOf(to)] : ownerOf(to) === part ? [ownerOf(from)] : []));
    return [...new Set(ends.map((id) => boat.tanks.find((tank) => tank.fittings.some((fitting) => fitting.id === id))?.id ?? nameOf(boat, id)))];
}

/** What lets air into a part that is drained: with it tight the stream dies by vacuum. */
const airBy = (boat: Boat, { part, opening }: HoldStep): string | undefined => (opening === 'drain' && partOf(boat, part)?.lid !== undefined ? 'lid' : undefined);

function holdWords(boat: Boat, step: HoldStep, where: Where, by: string | undefined): StepWords {
    const { valves, part, opening, within } = step;
    const air = by ?? airBy(boat, step);
    const held = listed(valves.map((id) => nameOf(boat, id)));
    const vent = ventOf(boat, opening);
    return {
        tag: part, action: `Prove that ${held} ${valves.length > 1 ? 'hold' : 'holds'}.`,
        does: [
            opening === 'joint' ? `Undo ${openingPhrase(boat, part, opening)}${where(part)} until an end comes free and air gets in.`
                : opening === 'ports' ? `Lower ${openingPhrase(boat, part, opening)}${where(part)} until air gets in.`
                    : `Open ${openingPhrase(boat, part, opening)}${where(part)} a quarter turn${vent?.spanner ? ` with the ${spannerWords(vent.spanner.si)}` : ''}.`,
            ...(air === undefined ? [] : [`${ventOf(boat, air) ? 'Open' : 'Loosen'} ${openingPhrase(boat, part, air)}, so that air gets in.`]),
            'Count the seconds until the stream dies.',
            ...(air !== undefined && ventOf(boat, air) ? [`Close ${openingPhrase(boat, part, air)}.`] : []),
        ],
        signs: [`The stream dies within ${timeWords(within)} once what hangs there has run out.`, 'A stream that never came proves nothing.'],
    };
}

function pieceWords(boat: Boat, { do: does, part, pieces, again }: PieceStep, where: Where): StepWords {
    const name = `${nameOf(boat, part)}${where(part)}`;
    const verb = does === 'remove' ? 'Take' : again ? 'Put' : 'Fit';
    if (pieces.length === 0) return { tag: part, action: does === 'remove' ? `Take ${name} off.` : again ? `Put ${name} back.` : `Fit the new ${name}.` };
    const which = does === 'remove' ? 'the' : again ? 'the same' : 'the new';
    const into = does === 'remove' ? `out of ${name}` : again ? `back into ${name}` : `in ${name}`;
    const action = `${verb} ${which} ${listed(pieces)} ${into}.`;
    if (wordsIn(action) <= MOST_WORDS) return { tag: part, action };
    return { tag: part, action: `${verb} ${which} pieces ${into}.`, does: pieces.map((piece) => `${verb} ${which} ${piece} ${does === 'remove' ? 'out' : 'in'}.`) };
}

function bleedWords(boat: Boat, { traps = [], drawUp }: Pick<PlannedServiceStep, 'traps' | 'drawUp'>, step: BleedStep, fluid: Fluid, { where, caught, cans }: Around & { readonly where: Where }): StepWords {
    const vent = ventOf(boat, step.vent);
    const owner = vent?.owner ?? step.vent;
    const pump = nameOf(boat, step.driver.part);
    const last = endsAt(boat, step.vent);
    return {
        tag: step.vent, action: `Bleed ${nameOf(boat, owner)}${where(owner)} at ${step.vent}.`,
        does: [
            ...(last === undefined ? [] : [`Open no union beyond ${step.vent}: low pressure ends there.`]),
            ...(caught?.has(owner) || caught?.has(step.vent) ? [`Put a clear tube on ${step.vent}, its end in the drip can.`] : []),
            `Open ${step.vent}${vent?.spanner ? ` with the ${spannerWords(vent.spanner.si)}` : ''} half a turn to one turn.`,
            `${driveWords(step, pump, fluid)}.`,
            `Close ${step.vent} while ${fluid} still flows.`,
        ],
        signs: [
            ...expectation(step, cans?.has(step.driver.part) === true),
            ...(drawUp ? [`${pump} stands ${mm(drawUp.above)} above the surface of ${drawUp.tank} at its lowest: the first ${drawUp.strokes === 1 ? 'stroke' : `${drawUp.strokes} strokes`} may bring nothing.`] : []),
            ...traps.map((trap) => trapWords(boat, trap, fluid)),
        ],
    };
}

/** The engine on which a vent is the last: there low pressure ends. */
function endsAt(boat: Boat, vent: Id): Id | undefined {
    const owner = consumerOf(boat, ventOf(boat, vent)?.owner ?? '');
    return owner?.vents.at(-1)?.id === vent && owner.kind !== 'exchanger' ? owner.id : undefined;
}

/** Until it is done; then the vent is closed, not before. Ten strokes, or the time in which a bubble would have come: trade practice. */
function driveWords({ driver }: BleedStep, pump: string, fluid: Fluid): string {
    switch (driver.by) {
        case 'hand': return `Pump ${pump} in slow full strokes until a solid stream comes and ten more strokes bring no bubble`;
        case 'lever': return `Work the lever of ${pump} until a solid stream comes and ten more strokes bring no bubble`;
        case 'electric': return `Run ${pump} in spells of 20 to 30 s until a solid stream runs 5 s without a bubble`;
        case 'gravity': return `Let ${fluid} run in from ${pump} by its own height until a solid stream runs 5 s without a bubble`;
    }
}

const CAUSES = {
    pump: 'a leak before the pump, a valve that is shut, or an empty tank', gravity: 'a valve that is shut, a blocked pickup or vent, or a tank that is too low',
    can: 'a tap that is shut, a cap that lets no air in, a hose with a kink, or a can that is empty or stands too low',
} as const;

/** How much the air takes; the limit is one of air and foam, for the strokes that prove it come on top. */
function expectation({ expect, driver }: BleedStep, fromCan: boolean): string[] {
    const counted = driver.by === 'hand' || driver.by === 'lever' ? 'strokes' : 's';
    if (!expect) return [counted === 's' ? 'How many seconds it takes is not known.' : 'How many strokes it takes is not known.'];
    const range = expect.most > expect.likely ? `${expect.likely} to ${expect.most}` : `${expect.likely}`;
    return [
        `Expect ${range} ${expect.in} for the air, and the ${expect.in === 's' ? '5 s' : 'ten'} more.`,
        `If only air and foam have come by ${expect.think} ${expect.in}, stop and think. The cause is then ${CAUSES[driver.by !== 'gravity' ? 'pump' : fromCan ? 'can' : 'gravity']}.`,
    ];
}

function trapWords(boat: Boat, { part: id, speed }: NonNullable<PlannedServiceStep['traps']>[number], fluid: Fluid): string {
    const bore = partOf(boat, id)?.bore;
    const stays = speed !== undefined && bore !== undefined && sweep(bore.si, speed, fluidOf(boat.vessel, fluid === 'fuel' ? 'diesel' : 'coolant')).bubble === 'stays';
    const slow = speed === undefined ? ' How fast it is swept is not known.' : speed < SWEEP ? ` It is swept at ${speed.toFixed(2)} m/s; common practice asks ${SWEEP} m/s.` : '';
    return `The crest of ${nameOf(boat, id)} ${stays ? 'keeps' : 'may keep'} air.${slow} Expect a hiccup some minutes after the start.`;
}

function startWords(boat: Boat, { engine, tries, seconds, seacock }: StartStep, where: Where): StepWords {
    return {
        tag: engine, action: `Start ${nameOf(boat, engine)}${where(engine)}.`,
        does: [
            'Put the key in.', 'Push the stop control in.', ...(seacock ? ['See that its seacock is open.'] : []),
            tries === 1 ? `Crank once, at most ${seconds} s.` : `Crank at most ${seconds} s at a time, at most ${tries} times.`,
            ...(tries > 1 ? ['Let the starter rest one minute between.'] : []),
        ],
        signs: [`${nameOf(boat, engine)} fires and runs evenly.`],
    };
}

function runWords(boat: Boat, { part, speed, seconds, inGear, until }: RunStep, where: Where): StepWords {
    const words = [
        `Run ${nameOf(boat, part)}${where(part)}`, inGear ? 'in gear' : '', speed === undefined ? '' : `at ${speedWords(speed)}`, seconds === undefined ? '' : `for ${timeWords(seconds)}`,
        until === undefined ? '' : `until ${until.tank} holds ${canWords(until.holds)}`,
    ];
    return { tag: part, action: `${words.filter((word) => word !== '').join(' ')}.` };
}

const FIELDS = 'Fill in the fields under Write down.';

function logWords(jobs: readonly string[]): StepWords {
    const action = `Write into the log: ${listed(jobs)}.`;
    if (wordsIn(action) <= MOST_WORDS) return { action, signs: [FIELDS] };
    return { action: 'Write into the log what was done.', does: jobs.map((job) => `Write: ${job}.`), signs: [FIELDS] };
}

/** What is always remarked of a step, whoever wrote it; a plan that remarks the same itself says it with its own figures. */
export function usualRemarks(step: ServiceStep): Remark[] {
    switch (step.do) {
        case 'hold': return [{ say: 'if it runs on', with: { valves: step.valves, part: step.part, opening: step.opening } }];
        case 'prefill': return [{ say: 'how to fill', with: { part: step.part } }];
        case 'close': return [{ say: 'tighten', with: { part: step.part } }];
        case 'prove': return [{ say: 'no stroke', with: { pump: step.part } }];
        case 'start': return step.budget === undefined ? [] : [{ say: 'if it does not start', with: { engine: step.engine, budget: step.budget } }];
        case 'run': return step.inGear ? [{ say: 'moored for load', with: { engine: step.part } }] : [];
        default: return [];
    }
}
