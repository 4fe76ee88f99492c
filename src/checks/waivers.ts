/** Findings that someone answers for until a day stand apart; a waiver that has run out says so at its finding. */
import type { Boat, Waiver } from '../model/boat';
import type { Finding, Waived } from '../model/finding';

export function waive(boat: Boat, findings: readonly Finding[], today: string | undefined): { findings: Finding[]; waived: Waived[] } {
    const left: Finding[] = [];
    const waived: Waived[] = [];
    for (const finding of findings) {
        const fitting = boat.waivers.filter((waiver) => waiver.rule === finding.rule.code && (waiver.at === undefined || concerns(finding, waiver.at)));
        const holding = fitting.find((waiver) => today === undefined || today <= waiver.until);
        if (holding) waived.push({ finding, waiver: holding });
        else left.push(fitting.length === 0 ? finding : { ...finding, reason: `${finding.reason} ${ended(fitting.at(-1)!)}` });
    }
    return { findings: left, waived };
}

/** A waiver at F1 holds for what is said of F1 or of its bleed points and facts. */
const concerns = (finding: Finding, at: string): boolean => finding.about === at || (finding.see ?? []).some(({ id }) => id === at && finding.about.startsWith(`${at}.`));

const ended = ({ by, until, because }: Waiver): string => `It was waived by ${by} until ${until} (${because}), and that day has passed.`;
