/** A folder is a boat. Which files belong to it, where its patterns may stand, and what is kept of it between two keys. */
import type { DocumentState, LangiumDocument, LangiumSharedCoreServices, URI } from 'langium';
import { LIBRARY } from './library';

/** The key of the boat that a file belongs to: the address of its folder. */
export const boatOf = (uri: URI): string => folderOf(uri.toString());
export const folderOf = (address: string): string => address.slice(0, address.lastIndexOf('/'));

/** The folder of patterns beside a boat's folder. */
export const sharedOf = (boat: string): string => `${folderOf(boat)}/shared`;

/** Folders whose patterns a boat may use, the nearest first. */
export const patternFolders = (boat: string): readonly string[] => [boat, sharedOf(boat), boatOf(LIBRARY)];

/** The files of a folder, in order of name. */
export const filesIn = ({ workspace }: LangiumSharedCoreServices, folder: string): LangiumDocument[] =>
    workspace.LangiumDocuments.all.filter(({ uri }) => boatOf(uri) === folder).toArray().sort((a, b) => (a.uri.toString() < b.uri.toString() ? -1 : 1));

/** What is known of each boat until a file of it, or of its patterns, reaches a state again. The boats beside it are not forgotten. */
export class BoatCache<T> {
    private readonly known = new Map<string, T>();

    constructor({ workspace }: LangiumSharedCoreServices, state: DocumentState) {
        workspace.DocumentBuilder.onDocumentPhase(state, ({ uri }) => this.forget(boatOf(uri)));
        workspace.DocumentBuilder.onUpdate((_, deleted) => deleted.forEach((uri) => this.forget(boatOf(uri))));
    }

    get(boat: string, make: () => T): T {
        if (!this.known.has(boat)) this.known.set(boat, make());
        return this.known.get(boat)!;
    }

    private forget(folder: string): void {
        this.known.delete(folder);
        const isOfMany = folder === sharedOf(folder) || folder === boatOf(LIBRARY);
        if (isOfMany) for (const boat of [...this.known.keys()]) if (patternFolders(boat).includes(folder)) this.known.delete(boat);
    }
}
