/** One boat from texts in memory, without an editor. */
import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import type { Boat } from '../model/boat';
import { lowerBoat } from './lowering/boat';
import type { Sources } from './sources';
import { createOrlopServices, type OrlopServices } from './services';
import { textProblems, type TextProblem } from './problems';

export interface Loaded {
    readonly boat: Boat;
    readonly sources: Sources;
    /** What is wrong with the texts as texts: spelling, names, units. */
    readonly problems: readonly TextProblem[];
}

/** Services between loads: making the parser costs far more than reading a boat. */
const idle: OrlopServices[] = [];

/** Loads a boat from its files, by name. Names are those in messages; a folder part in them is kept. */
export async function loadBoat(texts: Readonly<Record<string, string>>): Promise<Loaded> {
    const services = idle.pop() ?? createOrlopServices(EmptyFileSystem);
    const { workspace } = services.shared;
    const documents: LangiumDocument[] = Object.entries(texts).map(([name, text]) =>
        workspace.LangiumDocumentFactory.fromString(text, URI.file(name.startsWith('/') ? name : `/${name}`)));
    for (const document of documents) workspace.LangiumDocuments.addDocument(document);
    await workspace.DocumentBuilder.build(documents, { validation: false });
    const lowered = lowerBoat(documents);
    const problems = textProblems(documents, lowered.problems);
    for (const document of documents) { workspace.LangiumDocuments.deleteDocument(document.uri); workspace.IndexManager.remove(document.uri); }
    idle.push(services);
    return { boat: lowered.boat, sources: lowered.sources, problems };
}
