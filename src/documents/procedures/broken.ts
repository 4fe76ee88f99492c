/** Why a step of a procedure is false on the boat as she is written, and what to do: one or two sentences for every law. */
import type { Boat, Id } from '../../model/boat';
import { openingNames } from '../../analysis/opening/openings';
import { capital, listed } from '../../model/words';
import type { BrokenLaw } from '../../procedures/service/laws';
import { consumerOf, nameOf, openingPhrase, partOf } from './naming';

/** What is wrong, and what to do. */
export type Words = readonly [wrong: string, mend: string];

export const brokenSentence = (boat: Boat, broken: BrokenLaw): string => brokenWords(boat, broken).join(' ');

export function brokenWords(boat: Boat, { law, parts, missing = [] }: BrokenLaw): Words {
    const [first = '', second = ''] = parts;
    const named = parts.map((id) => nameOf(boat, id));
    const [one = '', two = ''] = named;
    const rest = listed(named.slice(1));
    const pieces = listed(parts.slice(1));
    const facts = listed(missing.map(({ fact, how }) => `${fact} (${how})`));
    const opened = (): string => openingPhrase(boat, first, second);
    switch (law) {
        // ---- isolation
        case 'could-flood': return [`${capital(fluidOf(boat, parts[2]))} of ${listed(named.slice(2))} could come out of ${opened()} as the valves stand here.`, 'Shut what lies between before this step, or keep shut what this step opens.'];
        case 'cannot-tell': return [`Whether a tank could run out of ${opened()} as the valves stand here cannot be told.`, `Find out ${facts}; or shut another valve on the way.`];
        case 'not-isolated': return [`${one} is not shut off from its tank here.`, 'Shut the valves before it first.'];
        case 'rail-union': return [`A high-pressure union of ${one} is opened by this step, and a jet from a rail kills.`, 'Take the step out; this engine bleeds itself.'];
        // ---- pumping
        case 'not-reached': return [`${two} cannot push anything to ${one}: the way between them is shut, or leads elsewhere.`, 'Set the valves between them first.'];
        case 'on-suction': return [`${one} is upstream of ${two}: opened while ${two} is worked, it draws air in.`, `Work a pump that stands before ${one}.`];
        case 'not-fed': return [`${one} is fed by no tank here: a valve before it is shut.`, consumerOf(boat, first) ? `Leave a way from a tank open, or stop ${one} before this step.` : 'Open it before this step.'];
        case 'no-head': return [`${two} is not proven to stand 50 mm above ${one}, alone and at its lowest level.`, 'Bleed with a pump instead.'];
        case 'air-drawn': return [`${one} would draw air from ${rest}.`, 'Close or bleed that first.'];
        case 'out-of-order': return [`${two} comes before ${one}.`, 'Bleed in the order in which the fuel meets them.'];
        case 'not-a-driver': return [`${one} is not a pump that can be worked this way here.`, 'Name one that can, and see that an electric one has its battery switch on.'];
        case 'air-upstream': return [`No solid stream can come at ${one}: ${rest} may still hold air.`, 'Bleed that first.'];
        case 'return-shut': return [`The return of ${one} is shut here, and what pumps towards it bursts something.`, 'Open it before this step.'];
        // ---- open and closed
        case 'open-while-pumped': return [`${capital(openThings(boat, parts.slice(1)))} ${parts.length > 2 ? 'stand' : 'stands'} open while ${atWork(boat, first)}.`, `Close ${parts.length > 2 ? 'them' : 'it'} before this step.`];
        case 'left-open': return [`At the end ${openThings(boat, parts)} ${parts.length > 1 ? 'stand' : 'stands'} open.`, `Close ${parts.length > 1 ? 'them' : 'it'}.`];
        case 'left-out': return [`At the end ${listed(parts.map((key) => pieceWords(boat, key)))} ${parts.length > 1 ? 'are' : 'is'} out.`, `Fit ${parts.length > 1 ? 'them' : 'it'} again.`];
        case 'piece-out': return [`${capital(outOf(one, pieces))} still out here.`, `Fit ${parts.length > 2 ? 'them' : 'it'} before this step.`];
        case 'old-seal': return [`${capital(pieces)} of ${one} ${parts.length > 2 ? 'were' : 'was'} disturbed, and no new one is fitted.`, `Write \`fit ${first} ${parts.slice(1).join(', ')}\` before this step.`];
        // ---- filling by hand
        case 'may-not-prefill': return [`${one} may not be filled by hand: dirt would go past its element.`, 'Leave this step out, and bleed it.'];
        case 'not-empty': return [`${one} was not opened, or is full already.`, 'Fill it only when it has been opened and before it is closed.'];
        // ---- cranking
        case 'over-budget': return [`${one} is cranked longer than its wet exhaust takes, all attempts together.`, 'Crank less, or shut the seacock for it and open it the moment it fires.'];
        case 'seacock-shut': return [`The seacock of ${one} is shut while it runs or fires: its impeller runs dry.`, `Write \`set ${first} seacock open\` before it runs.`];
        // ---- what is caught
        case 'no-can': return [`Nothing stands under ${one} to catch what comes.`, `Write \`place can 2 L under ${first}\` before this step, with a can that takes twice what it holds.`];
        case 'no-pads': return [`No pads lie under ${one}.`, `Write \`place 4 pads under ${first}\` before this step.`];
        case 'small-can': return [`The can under ${one} takes less than twice what comes out of it.`, 'Place a larger one.'];
        case 'bilge-pump-on': return [`The bilge pump may start while there can be fuel under ${listed(named)}, and pumps it overboard.`, `Write \`set bilge pump off\` before it is opened, and \`auto\` when it is closed and looked at.`];
        case 'not-warned': return [`Nothing warns of ${listed(parts.map((topic) => `\`${topic}\``))} before this step.`, `Write \`caution ${parts.join(', ')}\` before it.`];
        // ---- what is not there, or not so
        case 'no-such-part': return [`There is no ${listed(named, 'or')} on the boat as she is here that this can be done with.`, 'Take the step out, or name what is there.'];
        case 'no-such-position': return noPosition(boat, first, second);
        case 'no-such-opening': return noOpening(boat, first, second);
        case 'no-such-piece': return second === '' ? [`${one} is taken off here, or cannot be.`, 'Look at the steps before it.']
            : [`There is no ${pieces} in ${one} here.`, 'Take the step out, or write the seals into the block of the part: `seals lid ring, drain washer`.'];
        case 'not-open': return isOpening(boat, first, second) ? [`${capital(opened())} is not open here.`, 'Open it before this step, or take the step out.']
            : [`${one} is not open here${second === '' ? '' : `, and nobody comes to its ${pieces}`}.`, `Open it before this step: \`open ${first} ${ownOpenings(boat, first)[0] ?? 'lid'}\`.`];
        case 'already-open': return [`${capital(opened())} is open already.`, 'Take the step out.'];
        case 'not-out': return [`${second === '' ? one : `The ${pieces} of ${one}`} was not taken out, so it cannot go in again.`, 'Remove it first, or take the step out.'];
        case 'still-in': return [`${second === '' ? one : `The old ${pieces} of ${one}`} is still in.`, `Write \`remove ${[first, parts.slice(1).join(', ')].join(' ').trim()}\` before this step.`];
        case 'not-running': return [`${one} is read at a speed while nothing runs on its line.`, 'Run the engine before this step, or leave out the speed.'];
        // ---- hands
        case 'engine-runs': return [`${one} runs while hands are at its lines.`, `Write \`stop ${first} key out\` before this step.`];
        case 'key-in': return [`${one} could be started while hands are at its lines.`, `Write \`stop ${first} key out\` before this step.`];
        // ---- how it ends
        case 'left-set': return leftSet(boat, parts);
        case 'wrong-line-up': return [`It ends with ${listed(named)} in another position than the line-up that it ends in.`, `Turn ${parts.length > 1 ? 'them' : 'it'} back, or end in another line-up.`];
        case 'air-left': return missing.length > 0 ? [`Whether air stays before ${one} cannot be told.`, `Find out ${facts}.`]
            : [`Air ${parts.length < 2 ? 'may stay' : 'stays'} before ${one}${parts.length < 2 ? '' : `: in ${rest}`}.`, `Write \`do bleed ${first} after opening\` and what was opened.`];
        case 'not-done': return [`No step does what the head says: ${listed(parts.map((job) => `\`${job}\``))}.`, 'Write the steps for it, or take it out of the head.'];
        case 'no-way-back': return [`Abandoned after this step, she cannot be put back into a line-up by closing, fitting, setting and bleeding.`, 'Do it in another order.'];
        // ---- tanks
        case 'overfills': return missing.length > 0 ? [`Whether ${one} overfills ${two} cannot be told.`, `Find out ${facts}.`]
            : [`${one} would fill ${two} beyond 95 %, and it comes out of the vent.`, `Stop it earlier: \`run ${first} until ${second} holds\` less.`];
        case 'draws-air': return [`${one} would draw ${two} down below its pickup, and then draws air.`, 'Stop it earlier.'];
    }
}

const fluidOf = (boat: Boat, tank: Id | undefined): string => { const carries = boat.tanks.find(({ id }) => id === tank)?.carries ?? 'diesel'; return carries === 'diesel' ? 'fuel' : carries; };
const outOf = (part: string, pieces: string): string => (pieces === '' ? `${part} is` : `${pieces} of ${part} ${/ and |, /.test(pieces) ? 'are' : 'is'}`);

/** `F1 lid` as the executor keys what stands open, told as hands know it. */
export function openThings(boat: Boat, keys: readonly string[]): string {
    return listed(keys.map((key) => {
        const [part = '', ...opening] = key.split(' ');
        return opening.length === 0 ? nameOf(boat, part) : openingPhrase(boat, part, opening.join(' '));
    }));
}

const ownOpenings = (boat: Boat, id: Id): readonly string[] => { const thing = partOf(boat, id) ?? consumerOf(boat, id); return thing ? openingNames(thing) : []; };
const isOpening = (boat: Boat, id: Id, name: string): boolean => ownOpenings(boat, id).includes(name);

function noOpening(boat: Boat, id: Id, opening: string): Words {
    const own = ownOpenings(boat, id);
    const name = nameOf(boat, id);
    if (own.length === 0) return [`${name} has no ${opening} that Orlop knows of.`, 'Take the step out.'];
    return [`${name} has no ${opening}; it has ${listed(own.map((other) => `\`${other}\``))}.`, `Name one of these${opening === 'lid' || opening === 'drain' ? `, or write \`${opening} at\` and its height into the block of ${name}` : ''}.`];
}

function noPosition(boat: Boat, id: Id, position: string): Words {
    const part = partOf(boat, id);
    const name = nameOf(boat, id);
    if (part?.lockedOpen && position === 'shut') return [`${name} is locked open and cannot be shut.`, 'Shut another valve on the way.'];
    if (part?.kind === 'shutoff' && position === 'shut') return [`${name} is not shut here, so nothing shows that it holds.`, 'Shut it before this step.'];
    const own = part === undefined ? [] : part.kind === 'shutoff' ? ['open', 'shut'] : part.positions.map((other) => other.name);
    return own.length > 0 ? [`${name} has no position ${position}; it has ${listed(own)}.`, 'Name one of these.'] : [`${name} has no position ${position}.`, 'Take the step out.'];
}

/** What was set and not put back, by the line that puts it back; then what runs that stood still before. */
function leftSet(boat: Boat, things: readonly string[]): Words {
    const running = things.filter((thing) => !thing.includes(' '));
    const set = things.filter((thing) => thing.includes(' '));
    const back = [...set.map(backLine), ...running.map((id) => `stop ${id}`)];
    const words = [
        ...(set.length > 0 ? [`${listed(set.map((thing) => setWords(boat, thing)))} ${set.length > 1 ? 'are' : 'is'} not as before`] : []), ...(running.length > 0 ? [`${listed(running.map((id) => nameOf(boat, id)))} still ${running.length > 1 ? 'run' : 'runs'}`] : []),
    ];
    return [`At the end ${words.join(', and ')}.`, `Write ${listed(back.map((line) => `\`${line}\``))}.`];
}

function backLine(thing: string): string {
    if (thing.endsWith(' key')) return `start ${thing.slice(0, -4)} at most 2 times 10 s`;
    return `set ${thing} ${thing === 'bilge pump' ? 'auto' : thing.endsWith('seacock') ? 'open' : 'on'}`;
}

/** `bilge pump`, `E1 seacock`, `E1 key`. */
function setWords(boat: Boat, thing: string): string {
    const [owner = '', ...what] = thing.split(' ');
    return consumerOf(boat, owner) ? `the ${what.join(' ')} of ${owner}` : `the ${thing}`;
}

/** `F1 element`, or a part that is off as a whole. */
export function pieceWords(boat: Boat, key: string): string {
    const [part = '', ...piece] = key.split(' ');
    return piece.length === 0 ? nameOf(boat, part) : `the ${piece.join(' ')} of ${nameOf(boat, part)}`;
}

/** What something does while something stands open. */
function atWork(boat: Boat, id: Id): string {
    if (consumerOf(boat, id)) return `${id} is started or runs`;
    return /pump|primer/.test(partOf(boat, id)?.kind ?? '') ? `${nameOf(boat, id)} is worked` : `${nameOf(boat, id)} is filled`;
}
