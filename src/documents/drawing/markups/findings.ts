/** Findings, each numbered at the things that it speaks of, in the order of the report. */
import type { Finding } from '../../../model/finding';
import type { Id } from '../../../model/boat';
import type { Mark, Markup } from '../markup';
import type { Refused, Shown } from './markup';
import { thingsOf } from './things';

/** What of a finding a drawing tells. */
export type ShownFinding = Pick<Finding, 'severity' | 'about' | 'message' | 'members'> & { readonly rule: Pick<Finding['rule'], 'code'> };

export function findingsMarkup({ boat, findings }: Shown): Markup | Refused {
    if (findings === undefined) return { refused: 'The findings of this boat were not worked out, so none can be drawn.' };
    const things = thingsOf(boat);
    const numbers = new Map<Id, number[]>();
    findings.forEach(({ about, members }, i) => { for (const id of new Set(members ?? [about])) if (things.has(id)) numbers.set(id, [...(numbers.get(id) ?? []), i + 1]); });
    const marked = new Set([...numbers.values()].flat());
    return {
        title: findings.length === 0 ? 'No findings' : `${findings.length} ${findings.length === 1 ? 'finding' : 'findings'}`,
        marks: [...numbers].map(([about, own]): Mark => ({ about, as: 'finding', words: own.join(', ') })),
        notes: findings.map(({ severity, rule, about, message }, i) => `${i + 1}. ${severity}, ${rule.code}${marked.has(i + 1) ? '' : ` (${about}, at no one thing)`}: ${message}`),
    };
}
