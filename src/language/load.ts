/** One boat from texts in memory, without an editor. */
import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import type { Boat, View } from '../model/boat';
import { addLibrary } from './library';
import { lowerBoat } from './lowering/boat';
import type { Sources } from './sources';
import { createOrlopServices, type OrlopServices } from './services';
import { textProblems, type TextProblem } from './problems';

export interface Loaded {
    readonly boat: Boat;
    readonly sources: Sources;
    /** What is wrong with the texts as texts: spelling, names, units. */
    readonly problems: readonly TextProblem[];
    /** Kinds of blocks from which nothing is drawn yet. */
    readonly later: readonly string[];
    /** Tags that likeness makes, in the order of the texts. */
    readonly made: readonly string[];
}

async function withLibrary(): Promise<OrlopServices> {
    const services = createOrlopServices(EmptyFileSystem);
    await addLibrary(services.shared);
    return services;
}

/** Services between loads: making the parser costs far more than reading a boat. */
const idle: OrlopServices[] = [];

/** Texts by the name of their file. Names are those in messages; a folder part in them is kept. */
export type Texts = Readonly<Record<string, string>>;

export interface Loading {
    /** Files of the shared folder, by absolute path or, as of `/shared`, by name. */
    readonly shared?: Texts;
    readonly view?: View;
}

/** Loads a boat from its files. */
export async function loadBoat(texts: Texts, { shared = {}, view }: Loading = {}): Promise<Loaded> {
    const services = idle.pop() ?? await withLibrary();
    const { workspace } = services.shared;
    const documentsOf = (files: Texts, folder: string): LangiumDocument[] => Object.entries(files).map(([name, text]) =>
        workspace.LangiumDocumentFactory.fromString(text, URI.file(name.startsWith('/') ? name : `${folder}/${name}`)));
    const own = documentsOf(texts, '/boat');
    const documents = [...own, ...documentsOf(shared, '/shared')];
    for (const document of documents) workspace.LangiumDocuments.addDocument(document);
    await workspace.DocumentBuilder.build(documents, { validation: false });
    const lowered = lowerBoat(own, view);
    const problems = textProblems(documents, lowered.problems);
    for (const document of documents) { workspace.LangiumDocuments.deleteDocument(document.uri); workspace.IndexManager.remove(document.uri); }
    idle.push(services);
    return { boat: lowered.boat, sources: lowered.sources, problems, later: lowered.later, made: lowered.made };
}
