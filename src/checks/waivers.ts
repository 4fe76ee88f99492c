/** Findings that someone answers for until a day stand apart; a waiver that has run out says so at its finding. */
import type { Boat, Id, Waiver } from '../model/boat';
import type { Finding, Waived } from '../model/finding';
import { listed } from '../model/words';

export interface Waiving {
    readonly findings: readonly Finding[];
    readonly waived: readonly Waived[];
    /** Waivers that no finding needs. */
    readonly idle: readonly Waiver[];
}

/** A finding that tells of several things stays until every one of them is waived. */
export function waive(boat: Boat, findings: readonly Finding[], today: string | undefined): Waiving {
    const left: Finding[] = [];
    const waived: Waived[] = [];
    const used = new Set<Waiver>();
    for (const finding of findings) {
        const members = finding.members ?? [finding.about];
        const fitting = boat.waivers.filter(({ rule, at }) => rule === finding.rule.code && (at.length === 0 || members.some((id) => isAt(id, at))));
        fitting.forEach((waiver) => used.add(waiver));
        const holding = fitting.filter(({ until }) => today === undefined || today <= until);
        const free = members.filter((id) => !holding.some(({ at }) => at.length === 0 || isAt(id, at)));
        const ended = fitting.filter((waiver) => !holding.includes(waiver));
        const notes = [
            ...(holding.length > 0 && free.length > 0 ? holding.map(({ at, by, until, because }) => `Of these ${listed(at)} is waived by ${by} until ${until} (${because}).`) : []),
            ...ended.map(({ by, until, because }) => `It was waived by ${by} until ${until} (${because}), and that day has passed.`),
        ];
        if (free.length === 0) waived.push({ finding, waivers: holding });
        else left.push(notes.length === 0 ? finding : { ...finding, reason: [finding.reason, ...notes].join(' ') });
    }
    return { findings: left, waived, idle: boat.waivers.filter((waiver) => !used.has(waiver)) };
}

/** A waiver at T1 holds for what is said of its fittings too. */
const isAt = (id: Id, at: readonly Id[]): boolean => at.some((other) => id === other || id.startsWith(`${other}.`));
