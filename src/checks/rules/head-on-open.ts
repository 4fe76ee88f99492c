/**
 * Division: SHUTOFF-BEFORE-FILTER and ISOLATE-FILTER-IN ask whether a filter can be shut off at all, whatever the line-up. This rule asks
 * whether it is, in the line-up in which it is opened, at every level and heel; where nothing can shut off a filter those two tell it and this
 * rule is silent. Of a strainer no other rule tells, so that it can not be shut off is told here, as major. What comes to a strainer by a return that
 * nothing shuts is RETURN-SHUT-IF-LOW's. Drains that alone are low enough are DRAIN-HEAD's.
 *
 * Bleed points are not judged: they are opened to let liquid come, and shut by the hand that opened them; the bleed sequence
 * says at each whether it runs by itself.
 */
import type { Id, Part } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { openingsOf } from '../../analysis/opening/openings';
import { tanksBefore } from '../../analysis/topology/paths';
import { capital, listed, mm } from '../../model/words';
import { type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { openedIn, whenOpened, type Floods } from '../opened';
import { shapeGrounds } from '../../analysis/missing';

export const headOnOpen: Check = {
    code: 'HEAD-ON-OPEN', severity: 'major', slow: true,
    statement: 'In a line-up for service no liquid stands above the lid or the ports of a filter or strainer, at any level, heel and trim, or a valve that is shut there keeps it away. Where no line-up is for service, those for running are judged. A strainer can be shut off at all.',
    prevents: 'A surprise: the part floods when it is opened, though the line-up was set.',
    facts: 'heights and places of lid or ports; shape and place of tanks; envelope; line-ups; valves and checks; mouths of returns',
    source: 'logic of the network',
    judge,
};

interface Told { readonly part: Part; readonly found: Floods }

function judge(view: View): Verdict[] {
    const verdicts: Verdict[] = [];
    const told: Told[] = [];
    for (const part of view.boat.parts.filter(({ kind }) => kind === 'filter' || kind === 'strainer')) {
        const about = part.id;
        const opening = openingsOf(view.boat).get(about)![0]!;
        const found = whenOpened(view, opening);
        if (tanksBefore(view.allOpen, `${about}:in`).length === 0 && tanksBefore(view.allOpen, `${about}:out`).length === 0) verdicts.push({ outcome: 'not applicable', about, why: 'no tank feeds it' });
        else if (found.outcome === 'cannot tell') verdicts.push({ outcome: 'cannot tell', about, missing: found.missing });
        else if (found.outcome === 'stays dry') verdicts.push({ outcome: 'pass', about, rests: openedIn(view).lineUps.filter(({ id }) => view.boat.lineUps.some((lineUp) => lineUp.id === id)).map(({ id }) => ({ about: id })) });
        else if (found.settings.length > 0) told.push({ part, found });
        else if (part.kind === 'strainer' && found.along === 'supply') verdicts.push(uncut(view, { part, found }));
        else verdicts.push({ outcome: 'not applicable', about, why: found.along === 'supply' ? 'nothing shuts it off (see SHUTOFF-BEFORE-FILTER)' : 'nothing shuts it off from the return side (see ISOLATE-FILTER-IN and RETURN-SHUT-IF-LOW)' });
    }
    // What one line-up leaves open is mended by one line: it is told together.
    const groups = together(told);
    const isAlone = (group: readonly Told[]): boolean => groups.every((other) => other === group || other[0]!.found.lineUp !== group[0]!.found.lineUp);
    return [...verdicts, ...groups.map((group) => leftOpen(view, group, isAlone(group) ? 'SERVICE' : `SERVICE-${group[0]!.part.id}`))];
}

/** Those of one line-up whose valves can be set at once. Of two filters of which one is always on line, each is cut off by the position that opens the other. */
function together(told: readonly Told[]): readonly (readonly Told[])[] {
    const groups: Told[][] = [];
    for (const one of told) {
        const group = groups.find((others) => others.every(({ found }) => found.lineUp === one.found.lineUp && !found.settings.some(({ part, position }) => one.found.settings.some((own) => own.part === part && own.position !== position))));
        if (group) group.push(one); else groups.push([one]);
    }
    return groups;
}

const worstOf = (told: readonly Told[]): Told => told.reduce((most, other) => (other.found.worst.from.head > most.found.worst.from.head ? other : most));

/** F1 floods at its lid, 235 mm below the surface of T1 (upright, T1 at 95 %, in SERVICE) */
function floodWords({ boat }: View, { part, found: { worst: { opening, condition, from }, lineUp } }: Told): string {
    return `${part.name} floods at its ${opening.name}, ${mm(from.head)} below ${headWords(from.tank, from.cracks)} (${cornerWords(boat, condition, from.tank, lineUp.id)})`;
}

/** What checks hold back is taken off the surface. */
const headWords = (tank: Id, cracks: number): string => (cracks > 0 ? `what the checks leave of ${tank}` : `the surface of ${tank}`);

/** `name` is that of the line-up to be written where none is for service. */
function leftOpen(view: View, told: readonly Told[], name: string): Verdict {
    const { lineUp } = told[0]!.found;
    const { forService } = openedIn(view);
    const settings = [...new Map(told.flatMap(({ found }) => found.settings).map(({ part, position }) => [part, position]))];
    const valves = listed(settings.map(([part, position]) => `${part} ${position}`));
    const names = listed(told.map(({ part }) => part.name));
    const many = told.length > 1;
    return {
        outcome: 'fail', about: told[0]!.part.id, severity: 'minor', members: told.map(({ part }) => part.id), rests: told.flatMap((one) => groundsOf(view, one)),
        message: forService ? `Line-up ${lineUp.id} is for service and leaves ${names} open to ${listed(tanksOf(told))}: opened, ${floodWords(view, worstOf(told))}.`
            : `No line-up is for service, and as she runs ${floodWords(view, worstOf(told))}.${many ? ` The same holds of ${listed(told.filter((one) => one !== worstOf(told)).map(({ part }) => part.name))}.` : ''}`,
        reason: forService ? 'Whoever sets the line-up and trusts it floods the bilge.' : 'Whoever does not think of the valve floods the bilge.',
        advice: forService ? `Set ${valves} in line-up ${lineUp.id}.`
            : `Write \`line-up ${name} service from ${lineUp.id} { ${settings.map(([part, position]) => `${part} ${position}`).join('   ')} }\`, and set ${valves} before ${names} ${many ? 'are' : 'is'} opened.`,
        see: [...told.slice(1).map(({ part }) => ({ id: part.id, why: 'open as well' })), ...settings.map(([id, position]) => ({ id, why: `to be set ${position}` }))],
    };
}

function uncut(view: View, told: Told): Verdict {
    const { part, found } = told;
    return {
        outcome: 'fail', about: part.id, rests: groundsOf(view, told),
        message: `${capital(part.name)} cannot be shut off from ${listed(found.tanks)}: opened, ${floodWords(view, told)}.`,
        reason: 'Nothing stops the liquid while it is open.',
        advice: `Put a quarter-turn full-bore shutoff between ${listed(found.tanks)} and ${part.name}.`,
        see: found.tanks.map((id) => ({ id, why: `${id} feeds it` })),
    };
}

const tanksOf = (told: readonly Told[]): Id[] => [...new Set(told.flatMap(({ found }) => found.tanks))].sort();

function groundsOf({ boat }: View, { part, found: { worst: { opening, from }, lineUp } }: Told): Ground[] {
    return [{ about: part.id, fact: opening.name }, { about: part.id, fact: 'ports' }, ...shapeGrounds(boat, from.tank), ...(boat.lineUps.some(({ id }) => id === lineUp.id) ? [{ about: lineUp.id }] : [])];
}
