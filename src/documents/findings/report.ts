/** The findings of a boat, with their places; for the terminal, as a page, and for machines. */
import { SEVERITIES, type Finding, type Severity, type Waived } from '../../model/finding';
import type { Id, Waiver } from '../../model/boat';
import type { FactToMeasure } from '../../checks/judge';
import { listed } from '../../model/words';
import { wrap } from '../figures';
import type { PlaceInText } from '../place';

export interface Slip {
    readonly message: string;
    readonly severity: 'error' | 'warning';
    readonly code: string;
    readonly place: PlaceInText;
}

export interface Report {
    readonly boat: string;
    /** What is wrong with the text as text. */
    readonly slips: readonly Slip[];
    readonly findings: readonly (Finding & { readonly place?: PlaceInText })[];
    readonly waived: readonly Waived[];
    readonly idle: readonly Waiver[];
    readonly facts: readonly FactToMeasure[];
    /** Whether the boat says of any fact how well it is known. */
    readonly graded: boolean;
    /** Kinds of blocks that stand in the text and from which nothing is drawn yet. */
    readonly later: readonly string[];
    /** How many verdicts of each kind the rules gave. */
    readonly verdicts: Readonly<Record<'pass' | 'fail' | 'cannot tell' | 'not applicable', number>>;
    readonly placeOf: (id: Id) => PlaceInText | undefined;
}

const WIDTH = 80;
export const STANDING = 'Findings are judgements by the rules named, as guidance. They claim no compliance with any standard. The maker\'s book, local codes and licensed practice come first.';

export function reportText(report: Report): string {
    const lines: string[] = [`${report.boat}: ${summary(report)}`, ''];
    for (const slip of report.slips) {
        lines.push(`${slip.severity === 'error' ? 'text' : 'text, perhaps'}   ${slip.code}`, ...shown(slip.place), wrap(slip.message, WIDTH, '  '), '');
    }
    for (const finding of report.findings) {
        lines.push(`${finding.severity}   ${finding.rule.code}`);
        if (finding.place) lines.push(...shown(finding.place));
        lines.push(wrap(finding.message, WIDTH, '  '), wrap(finding.reason, WIDTH, '  '), wrap(`Mend: ${finding.advice}`, WIDTH, '        ', '  '));
        for (const { id, why } of finding.see ?? []) {
            const place = report.placeOf(id);
            if (place) lines.push(`  See ${id}, ${why}: ${place.file}:${place.line}`);
        }
        if (report.graded && finding.grade) lines.push(`  Weakest fact: ${finding.grade}`);
        lines.push(wrap(`Source: ${finding.rule.source}`, WIDTH, '          ', '  '), '');
    }
    if (report.waived.length > 0) lines.push('Waived', '', ...report.waived.map((waived) => wrap(waivedWords(waived), WIDTH, '    ', '  ')), '');
    for (const waiver of report.idle) lines.push(wrap(idleWords(waiver), WIDTH), '');
    if (report.facts.length > 0) {
        lines.push('Facts to measure, those that settle most first', '');
        for (const fact of report.facts) {
            lines.push(wrap(`${fact.fact}: ${fact.how}`, WIDTH, '    ', '  '), ...(fact.settles.length === 0 ? [] : [wrap(`settles ${settled(fact)}`, WIDTH, '      ', '    ')]));
        }
        lines.push('');
    }
    if (report.later.length > 0) lines.push(wrap(laterWords(report), WIDTH), '');
    lines.push(wrap(STANDING, WIDTH));
    return `${lines.join('\n')}\n`;
}

const settled = (fact: FactToMeasure): string => fact.settles.map(({ code, about }) => `${code} at ${about}`).join(', ');
const waivedWords = ({ finding, waivers }: Waived): string => `${finding.severity} ${finding.rule.code} at ${listed(finding.members ?? [finding.about])}, ${waivers.map(({ by, until, because }) => `by ${by} until ${until}: ${because}`).join('; ')}. ${finding.message}`;
const idleWords = ({ rule, at }: Waiver): string => `Nothing is found that the waiver of ${rule}${at.length === 0 ? '' : ` at ${listed(at)}`} would be for.`;
const laterWords = ({ later }: Report): string => `Kept as they stand, and nothing is drawn from them yet: ${listed(later.map((kind) => `\`${kind}\``))}.`;

function shown(place: PlaceInText): string[] {
    const number = String(place.line);
    const text = place.text.replace(/\t/g, ' ').trimEnd();
    return [
        `  ${place.file}:${place.line}:${place.column}`,
        `  ${number.padStart(5)} | ${text}`,
        `  ${' '.repeat(5)} | ${' '.repeat(place.column - 1)}${'^'.repeat(Math.max(1, Math.min(place.length, text.length - place.column + 1)))}`,
    ];
}

export function summary(report: Report): string {
    const parts: string[] = [];
    const slips = report.slips.length;
    if (slips > 0) parts.push(`${slips} ${slips === 1 ? 'slip' : 'slips'} in the text`);
    for (const severity of SEVERITIES) {
        const count = report.findings.filter((finding) => finding.severity === severity).length;
        if (count > 0) parts.push(`${count} ${severity}`);
    }
    if (Object.values(report.verdicts).every((count) => count === 0)) return [...parts, 'nothing to judge: no tank, engine or line is written'].join(', ');
    if (parts.length === 0) parts.push('no findings');
    if (report.waived.length > 0) parts.push(`${report.waived.length} waived`);
    const { pass, 'cannot tell': open, 'not applicable': not } = report.verdicts;
    return `${parts.join(', ')} (of the verdicts ${pass} pass, ${open} cannot tell, ${not} do not apply)`;
}

export function worst(report: Report): Severity | undefined {
    return SEVERITIES.find((severity) => report.findings.some((finding) => finding.severity === severity));
}

export function reportPage(report: Report): string {
    const lines = [`# Findings: ${escapeMarkdown(report.boat)}`, '', `${summary(report)}.`, ''];
    for (const slip of report.slips) lines.push(`## Text: ${slip.place.file}:${slip.place.line}`, '', `    ${slip.place.text.trim()}`, '', escapeMarkdown(slip.message), '');
    for (const finding of report.findings) {
        lines.push(`## ${finding.severity}: ${finding.rule.code}, ${escapeMarkdown(finding.about)}`, '');
        if (finding.place) lines.push(`${finding.place.file}:${finding.place.line}`, '', `    ${finding.place.text.trim()}`, '');
        lines.push(escapeMarkdown(finding.message), escapeMarkdown(finding.reason), '', `Mend: ${escapeMarkdown(finding.advice)}`, '', ...(report.graded && finding.grade ? [`Weakest fact: ${finding.grade}`, ''] : []), `Source: ${escapeMarkdown(finding.rule.source)}`, '');
    }
    if (report.facts.length > 0) {
        lines.push('## Facts to measure', '', '| fact | how | settles |', '| --- | --- | --- |');
        for (const fact of report.facts) lines.push(`| ${cell(fact.fact)} | ${cell(fact.how)} | ${cell(settled(fact))} |`);
        lines.push('');
    }
    if (report.waived.length > 0) lines.push('## Waived', '', ...report.waived.map((waived) => `- ${escapeMarkdown(waivedWords(waived))}`), '');
    for (const waiver of report.idle) lines.push(escapeMarkdown(idleWords(waiver)), '');
    if (report.later.length > 0) lines.push(escapeMarkdown(laterWords(report)), '');
    lines.push(STANDING, '');
    return lines.join('\n');
}

export function reportData(report: Report): unknown {
    return {
        boat: report.boat, standing: STANDING,
        slips: report.slips.map(({ place, ...slip }) => ({ ...slip, file: place.file, line: place.line, column: place.column })),
        findings: report.findings.map(({ rule, severity, about, message, reason, advice, grade, place }) => ({
            rule: rule.code, severity, about, message, reason, advice, ...(grade && { grade }), source: rule.source, ...(place && { file: place.file, line: place.line, column: place.column }),
        })),
        facts: report.facts.map(({ about, fact, how, settles }) => ({ about, fact, how, settles })),
        waived: report.waived.map(({ finding, waivers }) => ({ rule: finding.rule.code, about: finding.members ?? [finding.about], severity: finding.severity, message: finding.message, waivers: waivers.map(({ until, by, because }) => ({ until, by, because })) })),
        idleWaivers: report.idle.map(({ rule, at }) => ({ rule, at })),
        verdicts: report.verdicts,
    };
}

/** Names are the owner's: nothing in them may become markup. */
export const escapeMarkdown = (text: string): string => text.replace(/[\\*_#<>[\]|&]/g, (sign) => (sign === '<' ? '&lt;' : sign === '>' ? '&gt;' : sign === '&' ? '&amp;' : `\\${sign}`));
export const cell = (text: string): string => escapeMarkdown(text).replace(/\r?\n/g, ' ');
