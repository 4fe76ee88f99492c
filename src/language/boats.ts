/** The boats of a workspace, each lowered once after every change, and judged once a day until the next. */
import { DocumentState, UriUtils, type LangiumDocument, type LangiumSharedCoreServices } from 'langium';
import { viewOf } from '../checks/check';
import { judgement, verdictsBy, type Judged } from '../checks/judge';
import type { Report } from '../documents/findings/report';
import type { Boat } from '../model/boat';
import type { Finding } from '../model/finding';
import { checkProcedure, checkProcedures, moved } from '../documents/procedures/check';
import { BoatCache, boatOf, filesIn, sharedOf } from './folders';
import type { Loaded, Texts } from './load';
import { lowerBoat } from './lowering/boat';
import { textProblems } from './problems';
import { reportOf } from './report';

export interface KnownBoat extends Loaded {
    readonly report: Report;
}

/** A boat as it is written, and as it was judged last. */
interface Kept {
    readonly loaded: Loaded;
    /** By address. */
    readonly texts: ReadonlyMap<string, string>;
    judged?: Verdicts;
    known?: KnownBoat;
    atOnce?: KnownBoat;
}

/** The verdicts on a boat as it was on a day. */
interface Verdicts {
    readonly day: string | undefined;
    readonly quick: readonly Judged[];
    slow?: Slow;
}

/** What takes long to say: the verdicts of the slow rules, and what is wrong with procedures, which are carried out step by step. */
interface Slow {
    readonly verdicts: readonly Judged[];
    readonly procedures: readonly Finding[];
}

export class Boats {
    private readonly cache: BoatCache<Kept>;
    /** What the slow rules last said of each boat, for the moment until they are asked again. */
    private readonly former = new Map<string, Slow & { readonly boat: Boat }>();
    private readonly settled: ((boat: string) => void)[] = [];
    /** The day on which the diagnostics that the editor has were made. */
    private day: string | undefined;

    /** `today` gives the day of judgement as an ISO date. */
    constructor(private readonly shared: LangiumSharedCoreServices, private readonly today?: () => string) {
        this.cache = new BoatCache(shared, DocumentState.Linked);
        this.day = today?.();
        shared.workspace.DocumentBuilder.onUpdate(() => this.turnPage());
    }

    /** Tells the key of a boat once the slow rules have been asked of it anew. */
    onSettled(tell: (boat: string) => void): void {
        this.settled.push(tell);
    }

    /** All files of the boat that a file belongs to, in order of name. */
    files(document: LangiumDocument): LangiumDocument[] {
        return filesIn(this.shared, boatOf(document.uri));
    }

    /** The texts of a boat's files, and of the shared folder beside it, by the names of the files; as if changed, where they are. */
    texts(document: LangiumDocument, changed: (file: LangiumDocument) => string = (file) => file.textDocument.getText()): { own: Texts; shared: Texts } {
        const of = (files: readonly LangiumDocument[]): Texts => Object.fromEntries(files.map((file) => [UriUtils.basename(file.uri), changed(file)]));
        return { own: of(this.files(document)), shared: of(filesIn(this.shared, sharedOf(boatOf(document.uri)))) };
    }

    /** The boat that a file belongs to, as it is written; nothing is judged. */
    written(document: LangiumDocument): Loaded {
        return this.kept(document).loaded;
    }

    /** The boat that a file belongs to, judged by every rule. What is true of the same text today may not be so tomorrow: waivers end, hoses age. */
    of(document: LangiumDocument): KnownBoat {
        const kept = this.kept(document);
        const verdicts = this.verdicts(kept);
        if (!verdicts.slow) this.keepSlow(document, kept, verdicts, { verdicts: [...verdictsBy(viewOf(kept.loaded.boat, verdicts.day), 'slow')], procedures: checkProcedures(kept.loaded.boat) });
        return (kept.known ??= this.report(document, kept, verdicts.slow!));
    }

    /** The same, with what the slow rules said of it a moment ago, where they have not been asked since it was changed. */
    atOnce(document: LangiumDocument): KnownBoat {
        const kept = this.kept(document);
        const former = this.verdicts(kept).slow ? undefined : this.former.get(boatOf(document.uri));
        if (!former) return this.of(document);
        const { sources, boat } = kept.loaded;
        return (kept.atOnce ??= this.report(document, kept, {
            verdicts: former.verdicts.filter(({ verdict: { about } }) => sources.find(about) !== undefined), procedures: moved(former.procedures, former.boat, boat),
        }));
    }

    /** Asks the slow rules one by one, giving way in between, unless somebody had to know at once; true when what they say of this text stands. */
    async settle(document: LangiumDocument, giveWay: () => Promise<boolean>): Promise<boolean> {
        const kept = this.kept(document);
        const verdicts = this.verdicts(kept);
        if (verdicts.slow) return true;
        const slow: Judged[] = [];
        const procedures: Finding[] = [];
        let last: Judged['check'] | undefined;
        for (const judged of verdictsBy(viewOf(kept.loaded.boat, verdicts.day), 'slow')) {
            if (judged.check !== last && !await giveWay()) return false;
            last = judged.check;
            slow.push(judged);
        }
        for (const block of kept.loaded.boat.procedures) {
            if (!await giveWay()) return false;
            procedures.push(...checkProcedure(kept.loaded.boat, block));
        }
        if (this.kept(document) !== kept) return false;
        if (!verdicts.slow) this.keepSlow(document, kept, verdicts, { verdicts: slow, procedures });
        return true;
    }

    private keepSlow(document: LangiumDocument, { loaded: { boat } }: Kept, verdicts: Verdicts, slow: Slow): void {
        verdicts.slow = slow;
        this.former.set(boatOf(document.uri), { ...slow, boat });
        for (const tell of this.settled) tell(boatOf(document.uri));
    }

    private kept(document: LangiumDocument): Kept {
        return this.cache.get(boatOf(document.uri), () => this.load(document));
    }

    private verdicts(kept: Kept): Verdicts {
        const day = this.today?.();
        if (!kept.judged || kept.judged.day !== day) {
            kept.judged = { day, quick: [...verdictsBy(viewOf(kept.loaded.boat, day), 'quick')] };
            delete kept.known;
            delete kept.atOnce;
        }
        return kept.judged;
    }

    private report(document: LangiumDocument, { loaded, texts, judged }: Kept, slow: Slow): KnownBoat {
        const folder = boatOf(document.uri);
        const said = judgement(loaded.boat, [...judged!.quick, ...slow.verdicts], judged!.day);
        return { ...loaded, report: reportOf(loaded, (uri) => texts.get(uri) ?? '', (uri) => uri.slice(folder.length + 1), said, slow.procedures) };
    }

    private load(document: LangiumDocument): Kept {
        const documents = this.files(document);
        const lowered = lowerBoat(documents);
        const loaded: Loaded = { boat: lowered.boat, sources: lowered.sources, problems: textProblems(documents, lowered.problems), later: lowered.later, made: lowered.made };
        return { loaded, texts: new Map(documents.map((other) => [other.uri.toString(), other.textDocument.getText()])) };
    }

    /** With the first key of a day every boat is told anew, not only the one that is typed in. */
    private turnPage(): void {
        const day = this.today?.();
        if (day === this.day) return;
        this.day = day;
        const { DocumentBuilder, LangiumDocuments } = this.shared.workspace;
        for (const document of LangiumDocuments.all) if (document.state === DocumentState.Validated) DocumentBuilder.resetToState(document, DocumentState.IndexedReferences);
    }
}
