/** What one keystroke can write: fixes of findings, bleed sequences, the usual intervals. */
import { AstUtils, CstUtils, type AstNode, type LangiumDocument } from 'langium';
import type { CodeActionProvider, LangiumServices } from 'langium/lsp';
import type { CodeAction, CodeActionParams, Command, Diagnostic, TextEdit, WorkspaceEdit } from 'vscode-languageserver-protocol';
import type { BleedBlock, Boat, Id, Job, PartKind } from '../../model/boat';
import { usualJobs } from '../../analysis/upkeep/practice';
import { blockText, untagged } from '../../documents/bleed/block';
import { keptBleed } from '../../documents/bleed/kept';
import { allNotes } from '../../documents/kept';
import { procedureText, unnamed } from '../../documents/procedures/block';
import { NOT_ABOARD, keptProcedure } from '../../documents/procedures/check';
import { tendBlock, tendLines } from '../../documents/upkeep/tend';
import { planBleed, type BleedRequest } from '../../procedures/bleed';
import { procedureFor } from '../../procedures/service/generate';
import { isBlank, jobWords } from '../../procedures/service/plan';
import { RECIPES } from '../../procedures/service/recipes';
import { visitOf } from '../../procedures/service/visit';
import { RULES } from '../../checks/rules';
import type { Boats, KnownBoat } from '../boats';
import { editOf } from '../edits';
import { isPattern, isTend, type Text } from '../generated/ast';
import { mendAll, type MendAll } from './fix-all';
import { idsAt } from './position';

/** What a resolved action was offered for. */
type Offer = { readonly uri: string } & ({ readonly code: string } | { readonly job: Job });

export class BoatActions implements CodeActionProvider {
    /** By boat and rule: every move of the cursor may ask again, and each answer judges the boat many times. */
    private readonly mended = new WeakMap<KnownBoat, Map<string, Promise<MendAll | undefined>>>();
    /** The editor asks for an edit when it is chosen. */
    private resolves = false;

    constructor(services: LangiumServices, private readonly boats: () => Boats) {
        services.shared.lsp.LanguageServer.onInitialize(({ capabilities }) => {
            const { dataSupport, resolveSupport } = capabilities.textDocument?.codeAction ?? {};
            this.resolves = dataSupport === true && resolveSupport?.properties.includes('edit') === true;
        });
    }

    async getCodeActions(document: LangiumDocument, params: CodeActionParams): Promise<(Command | CodeAction)[]> {
        const known = this.boats().of(document);
        const clear = isClear(known, this.boats().files(document));
        return [...fixes(known, document, params), ...await this.allFixes(known, document, params), ...(clear ? updates(known, document, params) : []), ...bleedings(known, document, params, clear), ...this.procedures(known, document, params, clear), ...upkeep(known, document, params)];
    }

    /** The action with its edit or, where there is none, with the reason. */
    async resolve(document: LangiumDocument, action: CodeAction): Promise<CodeAction> {
        const offer = action.data as Offer;
        if ('job' in offer) return { ...action, ...this.written(this.boats().of(document), document, offer.job) };
        const { code } = offer;
        const mended = await this.mendAll(this.boats().of(document), document, code);
        if (mended && this.isOf(mended, document)) return { ...action, edit: { changes: { ...mended.changes } } };
        const reason = mended ? 'The text has changed meanwhile. Nothing was written; ask again.'
            : `The findings of ${code} cannot be mended all at once. Nothing was written; mend them one by one.`;
        return { ...action, disabled: { reason } };
    }

    /** For a finding at the cursor that has fellows: all of them at once. */
    private async allFixes(known: KnownBoat, document: LangiumDocument, params: CodeActionParams): Promise<CodeAction[]> {
        const { report, sources } = known;
        const mendable = report.findings.filter((finding) => finding.fix !== undefined && JUDGED.has(finding.rule.code));
        const uri = document.uri.toString();
        const here = mendable.filter((finding) => { const source = sources.find(finding.about, finding.fact); return source?.uri === uri && overlaps(source.mark, params.range); });
        const found: CodeAction[] = [];
        for (const code of new Set(here.map(({ rule }) => rule.code))) {
            const { length } = mendable.filter(({ rule }) => rule.code === code);
            if (length < 2) continue;
            const diagnostics = params.context.diagnostics.filter((diagnostic) => diagnostic.code === code);
            const action: CodeAction = { title: `Mend all of this kind (${code}): ${length} findings`, kind: 'quickfix', diagnostics };
            const offer: Offer = { uri, code };
            const mended = this.resolves ? undefined : await this.mendAll(known, document, code);
            if (this.resolves) found.push({ ...action, data: offer });
            else if (mended && this.isOf(mended, document)) found.push({ ...action, edit: { changes: { ...mended.changes } } });
        }
        return found;
    }

    /** The procedures for what stands at the cursor. Each takes a moment to make, so an editor that can is given it when it is chosen. */
    private procedures(known: KnownBoat, document: LangiumDocument, params: CodeActionParams, clear: boolean): CodeAction[] {
        const uri = document.uri.toString();
        return jobsAt(known, document, params).map((job): CodeAction => {
            const title = `Write the procedure: ${jobWords(job)}`;
            if (!clear) return { title, kind: 'refactor', disabled: { reason: NOT_CLEAR } };
            return this.resolves ? { title, kind: 'refactor', data: { uri, job } satisfies Offer } : { title, kind: 'refactor', ...this.written(known, document, job) };
        });
    }

    private written({ boat }: KnownBoat, document: LangiumDocument, job: Job): Pick<CodeAction, 'edit' | 'disabled'> {
        const plan = procedureFor(boat, { jobs: [job] });
        if (isBlank(plan)) return { disabled: { reason: [plan.blank, ...plan.missing.map((fact) => `Find out ${fact.fact}: ${fact.how}.`)].join(' ') } };
        if (plan.on) return { disabled: { reason: NOT_ABOARD } };
        const without = unnamed(boat, plan);
        if (without.length > 0) return { disabled: { reason: `Give a tag to ${without.map((id) => boat.parts.find((part) => part.id === id)!.name).join(', ')}: the procedure names it.` } };
        return { edit: append(document, procedureText(boat, plan)) };
    }

    private mendAll(known: KnownBoat, document: LangiumDocument, code: string): Promise<MendAll | undefined> {
        const answers = this.mended.get(known) ?? new Map<string, Promise<MendAll | undefined>>();
        this.mended.set(known, answers);
        const answer = answers.get(code) ?? mendAll(this.boats().files(document), this.boats().texts(document).shared, code);
        answers.set(code, answer);
        return answer;
    }

    /** Whether the texts are still those that the changes are for. */
    private isOf({ texts }: MendAll, document: LangiumDocument): boolean {
        const { own } = this.boats().texts(document);
        return Object.keys(own).length === Object.keys(texts).length && Object.entries(own).every(([name, text]) => texts[name] === text);
    }
}

const eolOf = (document: LangiumDocument): string => (document.textDocument.getText().includes('\r\n') ? '\r\n' : '\n');
const overlaps = (a: Diagnostic['range'], b: Diagnostic['range']): boolean => a.start.line <= b.end.line && b.start.line <= a.end.line;

function fixes({ report, sources }: KnownBoat, document: LangiumDocument, params: CodeActionParams): CodeAction[] {
    return report.findings.flatMap((finding) => {
        const source = sources.find(finding.about, finding.fact);
        if (!finding.fix || source?.uri !== document.uri.toString() || !overlaps(source.mark, params.range)) return [];
        const edit = editOf(finding.fix, sources, eolOf(document));
        if (!edit) return [];
        const diagnostics = params.context.diagnostics.filter((diagnostic) => diagnostic.code === finding.rule.code && overlaps(diagnostic.range, source.mark));
        return [{ title: finding.fix.title + inPattern(source.node), kind: 'quickfix', diagnostics, isPreferred: true, edit: { changes: { [edit.uri]: [edit.edit] } } }];
    });
}

/** What stands in a pattern changes every course or part that is like it. */
function inPattern(node: AstNode): string {
    const pattern = AstUtils.getContainerOfType(node, isPattern);
    return pattern ? ` (in the pattern ${pattern.name}, so in all that is like it)` : '';
}

/** Rules that are asked again after each fix when all of a kind are mended. */
const JUDGED: ReadonlySet<string> = new Set(RULES.map(({ code }) => code));

/** Rules that hold kept blocks against what the boat gives. */
const OF_BLOCKS: ReadonlySet<string> = new Set(['BLEED-KEPT', 'BLEED-NOT-SUCTION', 'PROC-CURRENT']);

/** These tell what is done and was done; a slip in them says nothing else of the lines. */
const ASIDE: ReadonlySet<string> = new Set(['Tend', 'Log', 'Bleed', 'Procedure', 'Later', 'Waiver', 'Passage']);

/** Whether all that a sequence is made from was understood: nobody may act on half a text. */
function isClear({ problems }: KnownBoat, files: readonly LangiumDocument[]): boolean {
    return problems.every(({ severity, uri, range }) => {
        const file = severity === 'error' ? files.find((other) => other.uri.toString() === uri) : undefined;
        if (!file) return severity !== 'error';
        const at = file.textDocument.offsetAt(range.start);
        const entry = (file.parseResult.value as Text).entries.find(({ $cstNode }) => $cstNode && $cstNode.offset <= at && at < $cstNode.end);
        return entry !== undefined && ASIDE.has(entry.$type);
    });
}

/** Kept blocks that are no longer true. */
function updates({ boat, report, sources }: KnownBoat, document: LangiumDocument, params: CodeActionParams): CodeAction[] {
    const here = (id: Id): boolean => { const source = sources.find(id); return source?.uri === document.uri.toString() && overlaps(source.range, params.range); };
    const stale = (id: Id): boolean => report.findings.some(({ rule, about }) => OF_BLOCKS.has(rule.code) && (about === id || about.startsWith(`${id}/`)));
    const kept = [
        ...boat.bleeds.filter(({ kept, id }) => kept && here(id) && stale(id)).map((block) => ({ name: `the bleed sequence of ${block.engine}`, block: keptBleed(boat, block) })),
        ...boat.procedures.filter(({ kept, id }) => kept && here(id) && stale(id)).map((block) => ({ name: 'the procedure', block: keptProcedure(boat, block) })),
    ];
    return kept.flatMap(({ name, block }) => {
        if ('why' in block.wanted) return [];
        const source = sources.find(block.id)!;
        const text = withEol(block.wanted.text(allNotes(block, source.node.$cstNode!.text)).trimEnd(), eolOf(document));
        const diagnostics = params.context.diagnostics.filter((diagnostic) => OF_BLOCKS.has(String(diagnostic.code)));
        return [{ title: `Bring ${name} up to date`, kind: 'quickfix', diagnostics, isPreferred: true, edit: replace(document, [{ range: source.range, newText: text }]) }];
    });
}

const NOT_CLEAR = 'The text is not understood in full. Mend what is underlined first.';

function bleedings(known: KnownBoat, document: LangiumDocument, params: CodeActionParams, clear: boolean): CodeAction[] {
    return requestsAt(known, document, params).flatMap(({ title, request }): CodeAction[] => {
        // Nothing that someone may act on is made from a text that was not understood in full.
        if (!clear) return [{ title, kind: 'refactor', disabled: { reason: NOT_CLEAR } }];
        const plan = planBleed(known.boat, request);
        if ('refused' in plan) {
            const reason = [plan.refused, ...plan.missing.map((fact) => `Find out ${fact.fact}: ${fact.how}.`)].join(' ');
            return [{ title, kind: 'refactor', disabled: { reason } }];
        }
        const nameless = untagged(known.boat, plan);
        if (nameless.length > 0) return [{ title, kind: 'refactor', disabled: { reason: `Give a tag to ${nameless.map((id) => known.boat.parts.find((part) => part.id === id)!.name).join(', ')}: the sequence names it.` } }];
        const old = known.boat.bleeds.find((block) => block.kept && same(block, request));
        if (old) return []; // its own action brings it up to date
        return [{ title, kind: 'refactor', edit: append(document, blockText(known.boat, plan)) }];
    });
}

/** The usual job at a single filter, valve or tank, unless its procedure stands in the text. */
function jobsAt({ boat, sources }: KnownBoat, document: LangiumDocument, params: CodeActionParams): Job[] {
    if (params.range.start.line !== params.range.end.line) return [];
    const jobs = idsAt(sources, document.uri.toString(), params.range).flatMap((id): Job[] => {
        const part = boat.parts.find((other) => other.id === id && other.tag !== undefined);
        const usual: Job[] = part?.kind === 'filter' || part?.kind === 'strainer' ? [{ verb: 'renew', part: id, piece: 'element' }] : part?.kind === 'shutoff' ? [{ verb: 'renew', part: id, piece: '' }]
            : boat.tanks.some((tank) => tank.id === id) ? [{ verb: 'drain', part: id, piece: 'water' }] : [];
        const visit = usual.length === 0 ? undefined : visitOf(boat, { jobs: usual });
        return visit && !('blank' in visit) ? usual.filter((job) => RECIPES.some(({ fits }) => fits(visit, job))) : [];
    });
    return jobs.filter((job) => !boat.procedures.some((block) => block.jobs.some((other) => jobWords(other) === jobWords(job)))).slice(0, 2);
}

const same = (block: BleedBlock, request: BleedRequest): boolean =>
    block.engine === request.engine && block.ranDry === (request.ranDry ?? false) && [...block.opened].sort().join() === [...request.opened].sort().join();

const FILTERS: ReadonlySet<PartKind> = new Set(['filter', 'strainer', 'radiator']);
const OPENED: ReadonlySet<PartKind> = new Set([...FILTERS, 'hand primer', 'electric primer', 'lift pump', 'electric pump', 'hose', 'tube']);

/** What might be bled, by what stands at the cursor: an engine, a filter or pump, a course, or the filters chosen together. */
function requestsAt({ boat, sources }: KnownBoat, document: LangiumDocument, params: CodeActionParams): { title: string; request: BleedRequest }[] {
    const ids = idsAt(sources, document.uri.toString(), params.range);
    const found: { title: string; request: BleedRequest }[] = [];
    // A selection is for the filters in it; the pumps and pipes between were not what was opened.
    const openable = params.range.start.line === params.range.end.line ? OPENED : FILTERS;
    const opened = ids.filter((id) => boat.parts.some((part) => part.id === id && part.tag !== undefined && openable.has(part.kind)));
    for (const engine of new Set(opened.flatMap((id) => consumersAfter(boat, id)))) {
        found.push({ title: `Write the bleed sequence of ${engine} after opening ${opened.join(', ')}`, request: { engine, opened } });
    }
    const engines = new Set(ids.flatMap((id) => {
        if (boat.consumers.some((consumer) => consumer.id === id)) return [id];
        const to = boat.courses.find((course) => course.id === id && course.service === 'supply')?.to.part;
        return to !== undefined && boat.consumers.some((consumer) => consumer.id === to) ? [to] : [];
    }));
    if (opened.length === 0) {
        for (const engine of engines) {
            const filters = boat.parts.filter((part) => part.kind === 'filter' && consumersAfter(boat, part.id).includes(engine)).map((part) => part.id);
            if (filters.length > 0) found.push({ title: `Write the bleed sequence of ${engine} after opening ${filters.join(', ')}`, request: { engine, opened: filters } });
            found.push({ title: `Write the bleed sequence of ${engine} after running dry`, request: { engine, opened: [], ranDry: true } });
        }
    }
    return found;
}

/** Consumers that a part's course leads to, through tees and selectors. */
function consumersAfter(boat: Boat, part: Id): Id[] {
    const seen = new Set<Id>();
    const queue = boat.courses.filter((course) => course.service === 'supply' && course.parts.includes(part)).map((course) => course.id);
    const found = new Set<Id>();
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
        if (seen.has(at)) continue;
        seen.add(at);
        const course = boat.courses.find((other) => other.id === at)!;
        if (course.to.part !== undefined && boat.consumers.some((consumer) => consumer.id === course.to.part)) found.add(course.to.part);
        for (const other of boat.courses) {
            if (other.service === 'supply' && other.from.part !== undefined && (course.parts.includes(other.from.part) || other.from.part === course.to.part)) queue.push(other.id);
        }
    }
    return [...found].sort();
}

function upkeep({ boat, sources }: KnownBoat, document: LangiumDocument, params: CodeActionParams): CodeAction[] {
    const jobs = usualJobs(boat);
    // Where a part is told to have no interval, this is its mend.
    const diagnostics = params.context.diagnostics.filter((diagnostic) => diagnostic.code === 'TASK-SET');
    const kind = diagnostics.length > 0 ? { kind: 'quickfix', diagnostics } : { kind: 'refactor' };
    if (jobs.length === 0 || !sources.ids.some((id) => sources.find(id)?.uri === document.uri.toString())) return [];
    const title = boat.intervals.length === 0 ? 'Write the usual intervals' : 'Write the usual intervals for parts that have none';
    const tend = (document.parseResult.value as { entries?: unknown[] }).entries?.find(isTend);
    const last = tend?.$cstNode && CstUtils.flattenCst(tend.$cstNode).toArray().reverse().find((leaf) => leaf.text === '}');
    if (!last) return [{ title, ...kind, edit: append(document, tendBlock(jobs)) }];
    const eol = eolOf(document);
    const newText = tendLines(jobs).map((line) => `  ${line}${eol}`).join('');
    const ownLine = /(^|\n)[ \t]*$/.test(last.root.fullText.slice(0, last.offset));
    return [{ title, ...kind, edit: replace(document, [{ range: { start: last.range.start, end: last.range.start }, newText: ownLine ? newText : `${eol}${newText}` }]) }];
}

/** Puts a block at the end of the file, a blank line before it. */
function append(document: LangiumDocument, block: string): WorkspaceEdit {
    const text = document.textDocument.getText();
    const eol = eolOf(document);
    const gap = text === '' ? '' : /\n\s*\n$/.test(text) ? '' : text.endsWith('\n') ? eol : `${eol}${eol}`;
    const end = document.textDocument.positionAt(text.length);
    return replace(document, [{ range: { start: end, end }, newText: gap + withEol(block, eol) }]);
}

const withEol = (text: string, eol: string): string => text.replace(/\n/g, eol);
const replace = (document: LangiumDocument, edits: TextEdit[]): WorkspaceEdit => ({ changes: { [document.uri.toString()]: edits } });
