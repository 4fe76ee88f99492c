/** Checks the procedures of the text: those written by hand by carrying them out on the boat as she is written, kept ones against what she now gives. */
import type { Boat, Id, ProcedureBlock, ProcedureLine } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { SEVERITIES, type Finding, type Fix, type Rule } from '../../model/finding';
import { capital } from '../../model/words';
import { lineUpsOf, normalLineUp } from '../../analysis/topology/line-ups';
import { execute, withCautions } from '../../procedures/service/execute';
import { procedureFor } from '../../procedures/service/generate';
import { isBlank } from '../../procedures/service/plan';
import type { Executed, Program } from '../../procedures/service/program';
import { ruleOf, PROCEDURE_RULES, type BrokenLaw, type ServiceLaw } from '../../procedures/service/laws';
import { checkKept, nameless, type KeptBlock } from '../kept';
import { SERVING, procedureLines, procedureText, unnamed } from './block';
import { brokenWords } from './broken';
import { stateWords } from './state-words';

/** The findings of every procedure, in the order of the text. */
export const checkProcedures = (boat: Boat): Finding[] => boat.procedures.flatMap((block) => checkProcedure(boat, block));

/** What is wrong with one procedure: what it breaks; and if Orlop keeps it, which lines the boat no longer gives. */
export function checkProcedure(boat: Boat, block: ProcedureBlock): Finding[] {
    if (!block.kept) return checkByRunning(boat, block);
    const ran = once(() => checkByRunning(boat, block));
    const stale = checkKept(keptProcedure(boat, block, ran));
    // What it was made from was carried out and broke nothing.
    if (stale.length === 0) return [];
    const told = new Set(stale.map(({ about }) => about));
    return [...stale, ...ran().filter(({ about }) => !told.has(about) || about === block.id)];
}

/** A procedure that Orlop keeps, with what the boat gives for it. */
export function keptProcedure(boat: Boat, block: ProcedureBlock, ran: () => readonly Finding[] = () => checkByRunning(boat, block)): KeptBlock {
    return {
        id: block.id, what: 'procedure', lines: block.lines, spelling: SERVING, rule: PROCEDURE_RULES.current, wanted: wanted(boat, block),
        // Of several laws that a line breaks the most severe is told.
        broken: () => ({ why: new Map([...ran()].sort((a, b) => SEVERITIES.indexOf(b.severity) - SEVERITIES.indexOf(a.severity)).map(({ about, message, advice, severity }) => [about, { words: `${message} ${advice}`, severity }])), elsewhere: new Set() }),
    };
}

function wanted(boat: Boat, { jobs, starts, ends }: ProcedureBlock): KeptBlock['wanted'] {
    const plan = procedureFor(boat, { jobs, ...(starts !== undefined && { starts }), ...(ends !== undefined && { ends }) });
    if (isBlank(plan)) return { why: [plan.blank, ...plan.missing.map((fact) => `Missing: ${fact.fact}; ${fact.how}.`)].join(' ') };
    if (plan.on) return { why: NOT_ABOARD };
    const without = unnamed(boat, plan);
    if (without.length > 0) return nameless(without.map((id) => boat.parts.find((part) => part.id === id)!.name));
    return { lines: procedureLines(plan), text: (notes) => procedureText(boat, plan, notes) };
}

export const NOT_ABOARD = 'It works with something that is not written in the boat, such as a can that is hung in her. Print it with `orlop procedure`.';

function once<T>(work: () => T): () => T {
    let found: { readonly of: T } | undefined;
    return () => (found ??= { of: work() }).of;
}

interface CarriedOut {
    readonly unread: boolean;
    readonly lines: readonly ProcedureLine[];
    readonly written: readonly { readonly line: ProcedureLine; readonly step: ServiceStep }[];
    readonly ran: Executed;
}

/** The steps up to a line that was not understood: what that would have done is not known, nor then what comes after it. */
function carryOut(boat: Boat, block: ProcedureBlock): CarriedOut {
    const unread = block.lines.findIndex((line) => line.unread);
    const lines = unread < 0 ? block.lines : block.lines.slice(0, unread);
    const written = lines.flatMap((line) => line.steps.map((step) => ({ line, step })));
    const normal = normalLineUp(boat, lineUpsOf(boat))?.id ?? '';
    const { starts = normal, ends = normal } = block;
    const steps = written.map(({ step }) => step);
    // Who warns of work under way means that she is under way.
    const underWay = steps.some((step) => step.do === 'caution' && step.topic === 'underway');
    const program: Program = { jobs: block.jobs, starts, ends, steps, ...(underWay && { underWay }) };
    // Cautions that nobody wrote are the table's: the printed page has them. One that was written too late stays where it was written.
    const warned = block.kept ? program : withCautions(boat, program);
    const { states, broken, atEnd } = execute(boat, warned);
    const at = steps.map((step) => warned.steps.indexOf(step));
    return { unread: unread >= 0, lines, written, ran: { states: [states[0]!, ...at.map((i) => states[i + 1]!)], broken: at.map((i) => broken[i] ?? []), atEnd } };
}

/** How things stand once the steps of a line are done; nothing where that is not known. */
export function stateAfter(boat: Boat, block: ProcedureBlock, line: ProcedureLine): string | undefined {
    const { written, ran } = carryOut(boat, block);
    const last = written.findLastIndex((own) => own.line === line);
    const state = last < 0 ? undefined : ran.states[last + 1];
    return state && stateWords(boat, state);
}

/** Each law at the line that breaks it, those of its end at its head. */
function checkByRunning(boat: Boat, block: ProcedureBlock): Finding[] {
    const { unread, lines, written, ran: { broken, atEnd } } = carryOut(boat, block);
    const told = new Set<string>();
    const found: Finding[] = [];
    for (const line of lines) {
        const laws = written.flatMap((own, i) => (own.line === line ? broken[i] ?? [] : []));
        found.push(...findings(boat, line.id, laws.flatMap((law) => untold(law, line.strangers, told)), (law) => fixOf(law, line)));
    }
    if (unread) return found;
    const strangers = block.strangers ?? [];
    const stuck = new Set(written.flatMap(({ step }, i) => (step.do === 'sequence' || step.do === 'start' ? broken[i]!.map(() => step.engine) : [])));
    return [...found, ...findings(boat, block.id, atEnd.flatMap((law) => ownEnd(law, strangers, stuck)), () => undefined)];
}

/** What of its end is no more than what was told before: a name that is not there, or an engine that could not be bled and started. */
function ownEnd(law: BrokenLaw, strangers: readonly string[], stuck: ReadonlySet<Id>): BrokenLaw[] {
    if ((law.law === 'not-done' && strangers.length > 0) || law.parts.some((part) => strangers.includes(part))) return [];
    if (law.law === 'air-left' && stuck.has(law.parts[0]!)) return [];
    if (law.law !== 'left-set') return [law];
    const parts = law.parts.filter((part) => !(part.endsWith(' key') && stuck.has(part.slice(0, -' key'.length))));
    return parts.length === 0 ? [] : [{ ...law, parts }];
}

/** What is so from one step on is told where it begins. */
const ONCE: ReadonlySet<Rule> = new Set<Rule>([PROCEDURE_RULES.catch, PROCEDURE_RULES.warn, PROCEDURE_RULES.hands, PROCEDURE_RULES.back]);

/** What of a law was not told before; nothing where the linker tells that a name is not there. */
function untold(broken: BrokenLaw, strangers: readonly string[], told: Set<string>): BrokenLaw[] {
    const { law, parts } = broken;
    if (parts.some((part) => strangers.includes(part))) return [];
    if (!ONCE.has(ruleOf(law))) return [broken];
    // Each topic of a caution, each part without a can; of a way back, the step.
    const fresh = parts.filter((part) => !told.has(`${law} ${part}`));
    if (told.has(law) && fresh.length === 0) return [];
    for (const part of fresh) told.add(`${law} ${part}`);
    told.add(law);
    return [{ ...broken, parts: fresh }];
}

/** One finding for each rule that is broken there. */
function findings(boat: Boat, about: Id, laws: readonly BrokenLaw[], fix: (law: BrokenLaw) => Fix | undefined): Finding[] {
    const rules = new Map<Rule, BrokenLaw[]>();
    for (const law of laws) rules.set(ruleOf(law.law), [...rules.get(ruleOf(law.law)) ?? [], law]);
    return [...rules].map(([rule, own]): Finding => {
        const words = own.map((law) => brokenWords(boat, law));
        const joined = (at: 0 | 1): string => [...new Set(words.map((said) => said[at]))].join(' ');
        const edit = own.map(fix).find((one) => one !== undefined);
        return { outcome: 'fail', about, message: joined(0), reason: capital(rule.prevents), advice: joined(1), rule, severity: rule.severity, ...(edit && { fix: edit }) };
    });
}

/**
 * What was found on a boat, at the places of the same lines on the boat as it has been changed. Lines have no names, so a line is known by its words
 * and by how many of the same stand before it.
 */
export function moved(found: readonly Finding[], before: Boat, now: Boat): Finding[] {
    const [old, places] = [new Map([...placesOf(before)].map(([key, id]) => [id, key])), placesOf(now)];
    return found.flatMap((finding) => { const about = places.get(old.get(finding.about) ?? ''); return about === undefined ? [] : [{ ...finding, about }]; });
}

function placesOf({ procedures }: Boat): Map<string, Id> {
    const places = new Map<string, Id>();
    const add = (words: string, id: Id): void => {
        let count = 0;
        while (places.has(`${words} #${count}`)) count++;
        places.set(`${words} #${count}`, id);
    };
    for (const { id, jobs, lines } of procedures) {
        add(`procedure ${JSON.stringify(jobs)}`, id);
        for (const line of lines) add(line.text, line.id);
    }
    return places;
}

/** A line to put before the step, where one is enough. */
function fixOf({ law, parts }: BrokenLaw, line: ProcedureLine): Fix | undefined {
    // A pump that is set too early is not mended by a line before it.
    const write = line.steps.some((step) => step.do === 'switch') ? undefined : WRITE[law]?.(parts);
    return write === undefined ? undefined : { title: `Write \`${write}\` before this step`, line: write, where: { before: line.id } };
}

const WRITE: Readonly<Partial<Record<ServiceLaw, (parts: readonly Id[]) => string | undefined>>> = {
    'no-pads': ([part]) => `place 4 pads under ${part}`, 'bilge-pump-on': () => 'set bilge pump off', 'not-warned': (topics) => `caution ${topics.join(', ')}`,
    'old-seal': ([part, ...seals]) => `fit ${part} ${seals.join(', ')}`, 'key-in': ([engine]) => `stop ${engine} key out`, 'engine-runs': ([engine]) => `stop ${engine} key out`,
    'seacock-shut': ([engine]) => `set ${engine} seacock open`,
};
