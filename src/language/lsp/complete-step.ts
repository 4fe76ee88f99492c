/** What may come next in a line of a procedure: the verb, what it is done to, then the openings, pieces or positions of that. */
import type { CompletionItem } from 'vscode-languageserver-protocol';
import { openingNames } from '../../analysis/opening/openings';
import type { Boat, Consumer, Part } from '../../model/boat';
import { PROCEDURE_VERBS } from '../lowering/jobs';
import { SWITCHES, TOPICS } from '../lowering/hand-steps';
import { PROCEDURE_STEPS } from '../lowering/steps';
import { keyword, names } from './snippets';

export function stepLine(boat: Boat, line: string): CompletionItem[] {
    const said = line.trimStart().split(/[\s,]+/);
    const [verb = ''] = said;
    if (said.length <= 1) return [...Object.keys(PROCEDURE_STEPS).map((word) => keyword(word)), keyword('note', 'note "$1"'), keyword('if', 'if ${1:no resistance} "$2"'), ...names(everything(boat))];
    const things = new Map<string, Part | Consumer>([...boat.parts.filter((part) => part.tag !== undefined), ...boat.consumers].map((thing) => [thing.id, thing]));
    // The last thing that was named, when nothing but a comma or the word being typed stands behind it.
    const thing = things.get(said.at(-2) ?? '');
    if (thing && said.length > 2 && !/,\s*\S*$/.test(line)) {
        const more = behind(verb, thing);
        if (more.length > 0) return more;
    }
    return wanted(boat, verb, line);
}

/** Behind the name of a part. */
function behind(verb: string, thing: Part | Consumer): CompletionItem[] {
    const isPart = 'ports' in thing;
    switch (verb) {
        case 'open': case 'shut': return isPart && thing.kind === 'shutoff' ? [] : openingNames(thing).map((name) => keyword(name));
        case 'remove': case 'fit': case 'refit': case 'look': case 'clean': return [...(isPart && (thing.kind === 'filter' || thing.kind === 'strainer') ? ['element', 'bowl'] : []), ...(isPart ? thing.seals : [])].map((name) => keyword(name));
        case 'turn': return isPart ? thing.positions.map(({ name }) => keyword(`to ${name}`)) : [];
        case 'set': return isPart ? [] : SWITCHES.seacock.map((word) => keyword(`seacock ${word}`));
        case 'stop': return isPart ? [] : [keyword('key out')];
        case 'start': return [keyword('at most 2 times 10 s')];
        case 'run': return [keyword('at 1300 rpm for 5 min'), keyword('for 20 min')];
        case 'read': return [keyword('expect')];
        case 'do': return [keyword('after opening'), keyword('after running dry')];
        default: return [];
    }
}

/** What a verb is done to. */
function wanted(boat: Boat, verb: string, line: string): CompletionItem[] {
    const parts = (of: (part: Part) => boolean): string[] => boat.parts.filter((part) => part.tag !== undefined && of(part)).map(({ id }) => id);
    const consumers = boat.consumers.map(({ id }) => id);
    const vents = [...boat.parts, ...boat.consumers].flatMap((owner) => owner.vents.map((vent) => vent.id));
    const pumps = parts(({ kind }) => kind === 'electric pump' || kind === 'electric primer');
    const filters = parts(({ kind }) => kind === 'filter' || kind === 'strainer');
    switch (verb) {
        case 'open': case 'shut': return names([...new Set([...parts(({ kind }) => kind === 'shutoff'), ...filters, ...everything(boat)])]);
        case 'turn': return names(parts(({ positions, kind }) => positions.length > 0 && kind !== 'shutoff'));
        case 'remove': case 'fit': case 'refit': case 'clean': case 'prefill': return names([...new Set([...filters, ...parts(() => true)])]);
        case 'look': return [...names([...new Set([...filters, ...parts(() => true), ...consumers])]), keyword('all joints "dry card"')];
        case 'bleed': return /\bby \S*$/.test(line) ? names(parts(({ kind }) => /primer|pump/.test(kind))) : /\s\S+\s+\S*$/.test(line.trimStart()) ? [keyword('by')] : names(vents);
        case 'stop': case 'run': return names([...consumers, ...pumps]);
        case 'start': return names(consumers);
        case 'do': return / bleed /.test(line) ? names([...consumers, ...filters]) : [keyword('bleed')];
        case 'set': return [...Object.entries(SWITCHES).filter(([thing]) => thing !== 'seacock').flatMap(([thing, to]) => to.map((word) => keyword(`${thing} ${word}`))), ...names(consumers)];
        case 'place': return /\bunder \S*$/.test(line) ? names(parts(() => true)) : [keyword('can', 'can ${1:2 L} under '), keyword('pads', '${1:4} pads under ')];
        case 'read': return names(parts(({ kind }) => kind === 'gauge'));
        case 'prove': return [...names(parts(({ kind }) => kind === 'shutoff' || kind === 'lift pump' || kind === 'selector')), keyword('by draining'), keyword('until the stream dies within 10 s')];
        case 'log': return [...PROCEDURE_VERBS.map((word) => keyword(word)), ...names(everything(boat))];
        case 'caution': return TOPICS.map((word) => keyword(word));
        default: return names(everything(boat));
    }
}

/** The head of a procedure: its job, then what is told of it. */
export function procedureHead(boat: Boat, line: string): CompletionItem[] {
    if (/^\s*procedure \S*$/.test(line) || /, *[a-z]*$/.test(line)) return [...PROCEDURE_VERBS.map((word) => keyword(word)), ...names(everything(boat))];
    if (/\b(?:starts|ends) \S*$/.test(line)) return names(boat.lineUps.map(({ id }) => id));
    return [...names(everything(boat)), ...['element', 'starts', 'ends', 'one person', 'kept'].map((word) => keyword(word))];
}

const everything = (boat: Boat): string[] => [...boat.tags.keys()];
