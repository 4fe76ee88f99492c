/** Everything the editor underlines in one file: slips of the text, findings of the boat, and one list of facts to measure. */
import type { DocumentValidator, LangiumDocument } from 'langium';
import { DiagnosticSeverity, type Diagnostic, type Range } from 'vscode-languageserver-types';
import type { Severity } from '../../model/finding';
import type { Boats, KnownBoat } from '../boats';

const SEVERITY: Readonly<Record<Severity, DiagnosticSeverity>> = {
    critical: DiagnosticSeverity.Error, major: DiagnosticSeverity.Error, minor: DiagnosticSeverity.Warning,
    advice: DiagnosticSeverity.Information, document: DiagnosticSeverity.Information,
};
const SHOWN_FACTS = 3;

export class BoatDiagnostics implements DocumentValidator {
    /** `later`: what the slow rules say is told a moment after the rest; until then it stands as it was. */
    constructor(private readonly boats: () => Boats, private readonly later: boolean) {}

    async validateDocument(document: LangiumDocument): Promise<Diagnostic[]> {
        const known = this.later ? this.boats().atOnce(document) : this.boats().of(document);
        const uri = document.uri.toString();
        return [...slips(known, uri), ...findings(known, uri), ...facts(known, document)];
    }
}

function slips({ problems }: KnownBoat, uri: string): Diagnostic[] {
    return problems.filter((problem) => problem.uri === uri).map(({ range, message, code, severity }) => ({
        range, message, code, source: 'orlop', severity: severity === 'error' ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning,
    }));
}

function findings({ report, sources }: KnownBoat, uri: string): Diagnostic[] {
    return report.findings.flatMap((finding) => {
        const source = sources.find(finding.about, finding.fact) ?? sources.find('vessel');
        if (source?.uri !== uri) return [];
        const see = (finding.see ?? []).flatMap(({ id, why }) => {
            const other = sources.find(id);
            return other ? [{ location: { uri: other.uri, range: other.mark }, message: why.startsWith(id) ? why : `${id}: ${why}` }] : [];
        });
        return [{
            range: source.mark, source: 'orlop', code: finding.rule.code, severity: SEVERITY[finding.severity],
            message: `${finding.severity}: ${finding.message}\n${finding.reason}\nMend: ${finding.advice}`,
            ...(see.length > 0 && { relatedInformation: see }),
        }];
    });
}

/** One line at the vessel, never one for each rule. */
function facts({ report, sources }: KnownBoat, document: LangiumDocument): Diagnostic[] {
    const vessel = sources.find('vessel');
    if (report.facts.length === 0 || vessel?.uri !== document.uri.toString()) return [];
    const line = vessel.mark.start.line;
    const range: Range = { start: vessel.mark.start, end: line === vessel.mark.end.line ? vessel.mark.end : { line, character: (document.textDocument.getText().split(/\r\n?|\n/)[line] ?? '').trimEnd().length } };
    const first = report.facts.slice(0, SHOWN_FACTS).map((fact) => `${fact.fact} (${fact.how})`);
    return [{
        range, source: 'orlop', code: 'FACTS', severity: DiagnosticSeverity.Information,
        message: `${report.facts.length} ${report.facts.length === 1 ? 'fact' : 'facts'} to measure.${report.facts.length > SHOWN_FACTS ? ` These ${SHOWN_FACTS} settle most:` : ''}\n${first.join('\n')}`,
    }];
}
