/** The page of rules: those that are computed and those that a person answers, from their tables alone. */
import { INSPECTED } from '../../checks/inspected';
import { RULES } from '../../checks/rules';
import { SEVERITIES, type Rule, type Severity } from '../../model/finding';
import { STANDING } from '../../documents/findings/report';
import { PROCEDURE_RULES } from '../../procedures/service/laws';
import { capital } from '../../model/words';
import { BOAT, show, type Example } from './examples';
import { code, page, plain, table } from './markdown';

/** What a finding of each severity means. */
const WEIGHT: Readonly<Record<Severity, string>> = {
    critical: 'Fire, flooding, injury or certain damage.',
    major: 'The engine may well stop, or fuel be spilt.',
    minor: 'It makes things worse, or hard to service.',
    advice: 'It would be better otherwise.',
    document: 'The text or the papers are at fault, not the boat.',
};

const OUTCOMES = [
    ['pass', 'What the rule states is so, as far as the text says.'],
    ['fail', 'It is not so. Only this outcome is a finding. It says what may come of it on this boat, and how to mend it.'],
    ['cannot tell', 'The answer hangs on a fact that is not written. The fact goes to the one list of facts to measure, with how to find it out. It is never guessed.'],
    ['not applicable', 'The boat has nothing there that the rule speaks of.'],
] as const;

function computed(rule: Rule): string[] {
    return [
        `### ${rule.code}`,
        `${capital(rule.severity)}, computed. ${plain(rule.statement)}`,
        [`- It prevents: ${plain(rule.prevents)}`, `- It reads: ${plain(ended(rule.facts))}`, `- Source: ${plain(ended(rule.source))}`].join('\n'),
    ];
}

const ended = (text: string): string => (text.endsWith('.') ? text : `${text}.`);

export const ANSWER: Example = { around: BOAT, inside: 'survey Spring26 on 2026-03-02 by "surveyor"', shown: 'answer CHAFE at S2 fail "no grommet at frame 6" seen photo "p22.jpg"' };

const bySeverity = <T extends Rule>(rules: readonly T[]): T[] => SEVERITIES.flatMap((severity) => rules.filter((rule) => rule.severity === severity));

export function rulesPage(): string {
    return page([
        '# Rules',
        `${plain(STANDING)} A boat without findings is one in which these rules found nothing wrong with what was written.`,
        `There are ${RULES.length + INSPECTED.length} rules of two sorts. ${RULES.length} are **computed**: Orlop works the answer out from the text, and nobody states it. ${INSPECTED.length} are **inspected**: nothing can compute them, a person looks and answers. What nobody answered is not judged.`,
        '## Severities',
        table(['severity', 'what it means'], SEVERITIES.map((severity) => [severity, WEIGHT[severity]])),
        'One finding may weigh less or more than its rule. What counts is the severity that stands with the finding.',
        '## The four outcomes',
        'A computed rule gives one outcome for each thing that it speaks of: for each tank, for each filter, for each engine.',
        table(['outcome', 'in words'], OUTCOMES),
        'A person who answers an inspected rule says `pass`, `fail` or `cannot tell`.',
        'A finding of either sort can be set aside for a time, by someone who answers for it: see [waivers](language.md#waivers).',
        '## All rules',
        table(['rule', 'severity', 'sort', 'what it prevents'], [
            ...bySeverity(RULES).map((rule) => [code(rule.code), rule.severity, 'computed', plain(rule.prevents)]),
            ...bySeverity(INSPECTED).map((rule) => [code(rule.code), rule.severity, 'inspected', plain(rule.prevents)]),
        ]),
        '## Computed rules',
        'What each states, what that prevents, which facts it reads and where it comes from.',
        ...RULES.flatMap(computed),
        '## Rules of procedures',
        'These are asked of every `procedure` in the text, step by step, by carrying it out on the boat as she is written. A step that breaks one is a finding at its line. They cannot be waived.',
        table(['rule', 'severity', 'statement', 'what it prevents', 'source'], bySeverity<Rule>(Object.values(PROCEDURE_RULES)).map((rule) => [code(rule.code), rule.severity, plain(rule.statement), plain(rule.prevents), plain(capital(ended(rule.source)))])),
        '## Inspected rules',
        'Nothing computes them. They are answered in a survey, one by one and place by place. An answer of `fail` is a finding. [The language](language.md#what-was-found-surveys) says how a survey is written; this is one line of it:',
        show(ANSWER),
        table(['rule', 'severity', 'statement', 'what it prevents', 'mend', 'source'], bySeverity(INSPECTED).map((rule) => [code(rule.code), rule.severity, plain(rule.statement), plain(rule.prevents), plain(rule.mend), plain(capital(ended(rule.source)))])),
    ]);
}
