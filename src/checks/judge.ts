/** Judges a boat by every rule: the findings, most severe first, and the facts that would settle what is open. */
import type { Boat, Id, Waiver } from '../model/boat';
import { SEVERITIES, type Finding, type Ground, type MissingFact, type Rule, type Verdict, type Waived } from '../model/finding';
import { GRADES, type Grade } from '../model/measure';
import { viewOf, type View } from './check';
import { judgeAnswers } from './inspected';
import { RULES } from './rules';
import { waive } from './waivers';

export interface Judged {
    readonly check: Rule;
    readonly verdict: Verdict;
    /** How well the weakest fact is known that the verdict rests on. */
    readonly grade: Grade;
}

export interface Judgement {
    readonly verdicts: readonly Judged[];
    readonly findings: readonly Finding[];
    readonly waived: readonly Waived[];
    /** Waivers that no finding needs. */
    readonly idle: readonly Waiver[];
    /** What was not stated, with the verdicts that it leaves open. */
    readonly open: readonly OpenFact[];
}

export interface OpenFact {
    /** What it leaves open, a rule by its code, and on what; nothing when it was only written as not known. */
    readonly code?: string;
    readonly about: Id;
    readonly fact: MissingFact;
}

export interface FactToMeasure extends MissingFact {
    readonly settles: readonly { readonly code: string; readonly about: Id }[];
}

/** Some rules weigh every level, heel and line-up; an editor judges by them a moment after the others. */
export type Pace = 'quick' | 'slow';

/** The verdicts of the rules of one pace; of all without one. Answers of a person are quick. */
export function* verdictsBy(view: View, pace?: Pace): Generator<Judged> {
    const { boat } = view;
    const graded = ({ check, verdict }: Omit<Judged, 'grade'>): Judged => ({ check, verdict, grade: weakest(boat, verdict) });
    for (const check of RULES) if (pace === undefined || (check.slow === true) === (pace === 'slow')) yield* check.judge(view).map((verdict) => graded({ check, verdict }));
    if (pace !== 'slow') yield* judgeAnswers(boat).map(graded);
}

/** `today` is an ISO date; without it nothing is said of what is old, and every waiver holds. */
export function judge(boat: Boat, today?: string): Judgement {
    return judgement(boat, [...verdictsBy(viewOf(boat, today))], today);
}

/** What verdicts come to. */
export function judgement(boat: Boat, verdicts: readonly Judged[], today?: string): Judgement {
    const said = namer(boat);
    const failed = verdicts.flatMap(({ check, verdict, grade }): Finding[] => (verdict.outcome === 'fail' ? [readable(said, { ...verdict, rule: check, severity: verdict.severity ?? check.severity, grade })] : []));
    const { findings, waived, idle } = waive(boat, bySeverity(failed), today);
    return {
        verdicts, findings, waived, idle,
        open: [
            ...verdicts.flatMap(({ check, verdict }) => (verdict.outcome === 'cannot tell' ? verdict.missing.map((fact) => ({ code: check.code, about: verdict.about, fact: { ...fact, fact: said(fact.fact), how: said(fact.how) } })) : [])),
            ...boat.unknown.map((fact) => ({ about: fact.about, fact })),
        ],
    };
}

/** The weakest grade among what a verdict rests on. A fact with no mark is told: somebody wrote it down. */
function weakest(boat: Boat, verdict: Verdict): Grade {
    if (verdict.outcome !== 'pass' && verdict.outcome !== 'fail') return 'told';
    const grounds: readonly Ground[] = verdict.rests ?? [{ about: verdict.about }];
    const grades = grounds.map(({ about, fact }) => (boat.evidence.get(fact === undefined ? about : `${about} ${fact}`) ?? boat.evidence.get(about))?.grade ?? 'told');
    return GRADES[Math.max(...grades.map((grade) => GRADES.indexOf(grade)), 0)]!;
}

/** Sentences name things as the reader does: a tag used twice by its tag, a part without a tag by its place. */
function namer(boat: Boat): (text: string) => string {
    const names = new Map(boat.parts.filter((part) => part.tag === undefined).map((part) => [part.id, part.name]));
    return (text) => text.replace(/[A-Z][\w\u00C0-\uFEFE-]*(?:\/\d+(?:\.\w+)?|~\d+)/g, (id) => names.get(id) ?? id.replace(/~\d+$/, ''));
}

function readable(said: (text: string) => string, finding: Finding): Finding {
    const { fix, ...rest } = finding;
    // An edit that would have to name the second use of a tag would name the first.
    const clear = fix !== undefined && !/~\d/.test(fix.line);
    return { ...rest, message: said(finding.message), reason: said(finding.reason), advice: said(finding.advice), ...(clear && { fix: { ...fix, title: said(fix.title) } }) };
}

export function bySeverity(findings: readonly Finding[]): Finding[] {
    return [...findings].sort((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity));
}

/** Facts to measure, those that settle most first. */
export function factsToMeasure(open: readonly OpenFact[]): FactToMeasure[] {
    const byFact = new Map<string, { fact: MissingFact; settles: { code: string; about: Id }[] }>();
    for (const { code, about, fact } of open) {
        const key = `${fact.about} ${fact.fact}`;
        const entry = byFact.get(key) ?? { fact, settles: [] };
        if (code !== undefined && !entry.settles.some((other) => other.code === code && other.about === about)) entry.settles.push({ code, about });
        byFact.set(key, entry);
    }
    return [...byFact.values()].map(({ fact, settles }) => ({ ...fact, settles })).sort((a, b) => b.settles.length - a.settles.length || (a.fact < b.fact ? -1 : 1));
}
