/** A loaded boat and its judgement as one report with places in the texts; the terminal and the editor start from it. */
import type { Boat, Id } from '../model/boat';
import { bySeverity, factsToMeasure, type FactToMeasure, type Judgement } from '../checks/judge';
import { checkBleedBlocks } from '../documents/bleed/kept';
import { checkProcedures } from '../documents/procedures/check';
import type { Finding } from '../model/finding';
import type { Report } from '../documents/findings/report';
import { viewWords } from '../documents/view';
import type { PlaceInText } from '../documents/place';
import { factsForBleeding } from '../procedures/bleed';
import type { Range } from 'vscode-languageserver-types';
import type { Loaded } from './load';

/** `textOf` gives the text of a file by its address, `nameOf` the name that messages show; `procedures` what is wrong with those of the text. */
export function reportOf({ boat, sources, problems, later }: Loaded, textOf: (uri: string) => string, nameOf: (uri: string) => string, judgement: Judgement, procedures: readonly Finding[] = checkProcedures(boat)): Report {
    const lines = new Map<string, readonly string[]>();
    const place = (uri: string, range: Range): PlaceInText => {
        const own = lines.get(uri) ?? textOf(uri).split(/\r\n|\r|\n/);
        lines.set(uri, own);
        const text = own[range.start.line] ?? '';
        const length = range.end.line === range.start.line ? range.end.character - range.start.character : text.trimEnd().length - range.start.character;
        return { file: nameOf(uri), line: range.start.line + 1, column: range.start.character + 1, length, text };
    };
    const placeOf = (id: Id, fact?: string): PlaceInText | undefined => {
        const source = sources.find(id, fact);
        return source && place(source.uri, source.mark);
    };
    const verdicts = { pass: 0, fail: 0, 'cannot tell': 0, 'not applicable': 0 };
    for (const { verdict } of judgement.verdicts) verdicts[verdict.outcome]++;
    const findings = bySeverity([...judgement.findings, ...checkBleedBlocks(boat), ...procedures]);
    return {
        boat: `${boat.title ?? (boat.name === '' ? 'Unnamed boat' : boat.name)}${viewWords(boat)}`,
        slips: problems.map(({ uri, range, message, severity, code }) => ({ message, severity, code, place: place(uri, range) })),
        findings: findings.map((finding) => { const at = placeOf(finding.about, finding.fact); return { ...finding, ...(at && { place: at }) }; }),
        waived: judgement.waived, idle: judgement.idle, graded: boat.evidence.size > 0, later,
        facts: named(boat, factsToMeasure([...judgement.open, ...factsForBleeding(boat).map(({ engine, fact }) => ({ code: 'the bleed sequence', about: engine, fact }))])), verdicts, placeOf,
    };
}

/** What a fact settles, told by the names that a reader knows: a part without a tag by its place. */
function named(boat: Boat, facts: readonly FactToMeasure[]): FactToMeasure[] {
    const names = new Map(boat.parts.map((part) => [part.id, part.name]));
    return facts.map((fact) => ({ ...fact, settles: fact.settles.map(({ code, about }) => ({ code, about: names.get(about) ?? about })) }));
}
