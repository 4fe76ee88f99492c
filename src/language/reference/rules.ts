/** The page of rules: those that are computed and those that a person answers, from their tables alone. */
import { INSPECTED } from '../../checks/inspected';
import { RULES } from '../../checks/rules';
import { SEVERITIES, type Rule, type Severity } from '../../model/finding';
import { STANDING } from '../../documents/findings/report';
import { capital } from '../../model/words';
import { code, fence, page, plain, table } from './markdown';

/** What a finding of each severity asks of the reader. */
const WEIGHT: Readonly<Record<Severity, string>> = {
    critical: 'Fire, flooding or a dead engine may follow. Mend it before she sails.',
    major: 'It will cost you the engine, or a spill, on a bad day. Mend it soon.',
    minor: 'It makes work, or hides a fault. Mend it when you are there.',
    advice: 'It is better so.',
    document: 'The text is wrong or incomplete, not the boat.',
};

const OUTCOMES = [
    ['pass', 'What the rule states is so, as far as the text says.'],
    ['fail', 'It is not so. This is a finding, and the only outcome that is one.'],
    ['cannot tell', 'A fact is not written and the answer hangs on it. The fact goes to the one list of facts to measure. It is never guessed.'],
    ['not applicable', 'The boat has nothing there that the rule speaks of.'],
] as const;

function computed(rule: Rule): string[] {
    return [
        `### ${rule.code}`,
        `**${rule.severity}**, computed. ${plain(rule.statement)}`,
        table(['outcome', 'when'], [
            ['pass', 'What it states is so.'],
            ['fail', `It is not so. What may come of it: ${plain(small(rule.prevents))}`],
            ['cannot tell', `The answer hangs on one of these, and it is not written: ${plain(ended(rule.facts))}`],
            ['not applicable', 'The boat has nothing there that it speaks of.'],
        ]),
        `Source: ${plain(ended(rule.source))}`,
    ];
}

const ended = (text: string): string => (text.endsWith('.') ? text : `${text}.`);
/** A sentence behind a colon; words that are all capitals, and codes, stay as they are. */
const small = (text: string): string => (/^[A-Z][a-z]|^A /.test(text) ? text[0]!.toLowerCase() + text.slice(1) : text);

const bySeverity = <T extends Rule>(rules: readonly T[]): T[] => SEVERITIES.flatMap((severity) => rules.filter((rule) => rule.severity === severity));

export function rulesPage(): string {
    return page([
        '# Rules',
        `${plain(STANDING)} A boat without a finding is a boat in which these rules found nothing in what was written.`,
        `There are ${RULES.length + INSPECTED.length} rules of two sorts. ${RULES.length} are **computed**: Orlop works the answer out from the text, and nobody may state it. ${INSPECTED.length} are **inspected**: nothing can compute them, a person looks and answers. What nobody answered is not judged.`,
        '## Severities',
        table(['severity', 'what it means'], SEVERITIES.map((severity) => [severity, WEIGHT[severity]])),
        'The severity of a rule is that of most of its findings. One finding may weigh less or more than its rule, and then says so.',
        '## The four outcomes',
        'For each thing that a rule speaks of (a tank, a filter, an engine) there is one outcome.',
        table(['outcome', 'in words'], OUTCOMES),
        '## All rules',
        table(['rule', 'severity', 'sort', 'what it prevents'], [
            ...bySeverity(RULES).map((rule) => [code(rule.code), rule.severity, 'computed', plain(rule.prevents)]),
            ...bySeverity(INSPECTED).map((rule) => [code(rule.code), rule.severity, 'inspected', plain(rule.prevents)]),
        ]),
        '## Computed rules',
        `A finding may be set aside by a waiver with an owner and an end: see ${code('waive')} in the page of the language.`,
        ...RULES.flatMap(computed),
        '## Inspected rules',
        'They are answered in a survey, one by one and place by place, with `pass`, `fail` or `cannot tell`. An answer of `fail` is a finding.',
        fence('answer CHAFE at S2 fail "no grommet at frame 6" seen photo "p22.jpg"'),
        table(['rule', 'severity', 'statement', 'what it prevents', 'mend', 'source'], bySeverity(INSPECTED).map((rule) => [code(rule.code), rule.severity, plain(rule.statement), plain(rule.prevents), plain(rule.mend), plain(capital(ended(rule.source)))])),
    ]);
}
