/** Judges a boat by every rule: the findings, most severe first, and the facts that would settle what is open. */
import type { Boat, Id } from '../model/boat';
import { SEVERITIES, type Finding, type MissingFact, type Verdict } from '../model/finding';
import { viewOf, type Check } from './check';
import { RULES } from './rules';

export interface Judged {
    readonly check: Check;
    readonly verdict: Verdict;
}

export interface Judgement {
    readonly verdicts: readonly Judged[];
    readonly findings: readonly Finding[];
    /** Facts to measure, those that settle most verdicts first. */
    readonly facts: readonly FactToMeasure[];
}

export interface FactToMeasure extends MissingFact {
    readonly settles: readonly { readonly code: string; readonly about: Id }[];
}

/** `today` is an ISO date; without it what falls due by a day is not judged. */
export function judge(boat: Boat, today?: string): Judgement {
    const view = viewOf(boat, today);
    const verdicts = RULES.flatMap((check) => check.judge(view).map((verdict) => ({ check, verdict })));
    const said = namer(boat);
    const findings = verdicts.flatMap(({ check, verdict }) => (verdict.outcome === 'fail' ? [{ ...verdict, rule: check, severity: verdict.severity ?? check.severity }] : []));
    return { verdicts, findings: bySeverity(findings.map((finding) => readable(said, finding))), facts: factsToMeasure(verdicts).map((fact) => ({ ...fact, fact: said(fact.fact), how: said(fact.how) })) };
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

function factsToMeasure(verdicts: readonly Judged[]): FactToMeasure[] {
    const byFact = new Map<string, { fact: MissingFact; settles: { code: string; about: Id }[] }>();
    for (const { check, verdict } of verdicts) {
        if (verdict.outcome !== 'cannot tell') continue;
        for (const fact of verdict.missing) {
            const key = `${fact.about} ${fact.fact}`;
            const entry = byFact.get(key) ?? { fact, settles: [] };
            if (!entry.settles.some((other) => other.code === check.code && other.about === verdict.about)) entry.settles.push({ code: check.code, about: verdict.about });
            byFact.set(key, entry);
        }
    }
    return [...byFact.values()].map(({ fact, settles }) => ({ ...fact, settles })).sort((a, b) => b.settles.length - a.settles.length || (a.fact < b.fact ? -1 : 1));
}
