/** Upstream and downstream, step by step, in the editor's call hierarchy: what feeds a part is calling it, what it feeds is called. */
import { CstUtils, URI, type LangiumDocument, type LangiumDocuments } from 'langium';
import type { CallHierarchyProvider, LangiumServices } from 'langium/lsp';
import type { CallHierarchyIncomingCall, CallHierarchyIncomingCallsParams, CallHierarchyItem, CallHierarchyOutgoingCall, CallHierarchyOutgoingCallsParams, CallHierarchyPrepareParams } from 'vscode-languageserver-protocol';
import type { Boat, Id } from '../../model/boat';
import type { Boats, KnownBoat } from '../boats';
import { kindOfNode } from './kinds';
import { idsAt } from './position';

export class BoatFlow implements CallHierarchyProvider {
    private readonly documents: LangiumDocuments;
    constructor(private readonly services: LangiumServices, private readonly boats: () => Boats) {
        this.documents = services.shared.workspace.LangiumDocuments;
    }

    prepareCallHierarchy(document: LangiumDocument, { position }: CallHierarchyPrepareParams): CallHierarchyItem[] | undefined {
        const known = this.boats().atOnce(document);
        const { sources } = known;
        const root = document.parseResult.value.$cstNode;
        const leaf = root && CstUtils.findDeclarationNodeAtOffset(root, document.textDocument.offsetAt(position), this.services.parser.GrammarConfig.nameRegexp);
        const [target] = leaf && !leaf.hidden ? this.services.references.References.findDeclarations(leaf) : [];
        const named = target && sources.ids.find((id) => sources.find(id)!.node === target);
        const item = itemOf(known, named ?? idsAt(sources, document.uri.toString(), { start: position, end: position })[0]);
        return item && [item];
    }

    incomingCalls({ item }: CallHierarchyIncomingCallsParams): CallHierarchyIncomingCall[] | undefined {
        const known = this.boatOf(item);
        return known && neighbours(known.boat, idOf(item), 'upstream').flatMap((id) => {
            const from = itemOf(known, id);
            return from ? [{ from, fromRanges: [from.selectionRange] }] : [];
        });
    }

    outgoingCalls({ item }: CallHierarchyOutgoingCallsParams): CallHierarchyOutgoingCall[] | undefined {
        const known = this.boatOf(item);
        return known && neighbours(known.boat, idOf(item), 'downstream').flatMap((id) => {
            const to = itemOf(known, id);
            return to ? [{ to, fromRanges: [item.selectionRange] }] : [];
        });
    }

    private boatOf({ uri }: CallHierarchyItem): KnownBoat | undefined {
        const document = this.documents.getDocument(URI.parse(uri));
        return document && this.boats().atOnce(document);
    }
}

const idOf = ({ data }: CallHierarchyItem): Id => (data as { id?: Id } | undefined)?.id ?? '';

/** The item of a tank, a fitting, a part or a consumer; nothing else stands in the flow. */
function itemOf({ boat, sources }: KnownBoat, id: Id | undefined): CallHierarchyItem | undefined {
    if (id === undefined) return undefined;
    const part = boat.parts.find((other) => other.id === id);
    const consumer = boat.consumers.find((other) => other.id === id);
    const tank = boat.tanks.find((other) => other.id === id);
    const fitting = boat.tanks.flatMap(({ fittings }) => fittings).find((other) => other.id === id);
    // A fitting that a course takes for granted is written nowhere; its tank is.
    const source = sources.find(id) ?? (fitting && sources.find(fitting.tank));
    if (!source || !(part ?? consumer ?? tank ?? fitting)) return undefined;
    const detail = [part ? part.kind : consumer ? consumer.kind : tank ? 'tank' : fitting!.kind, part?.course].filter((word) => word !== undefined).join(', ');
    return { name: part?.name ?? id, kind: kindOfNode(source.node.$type).symbol, detail, uri: source.uri, range: source.range, selectionRange: source.mark, data: { id } };
}

/**
 * What stands next to something on one side, in the order of the courses. The points at which a split parts and rejoins are
 * passed over; a tank stands next to its fittings.
 */
export function neighbours(boat: Boat, id: Id, side: 'upstream' | 'downstream'): Id[] {
    const fittings = boat.tanks.flatMap((tank) => tank.fittings);
    const fitting = fittings.find((other) => other.id === id);
    const inward = ['drop', 'fill'];
    if (fitting && inward.includes(fitting.kind) === (side === 'downstream')) return [fitting.tank];
    if (boat.tanks.some((tank) => tank.id === id)) return fittings.filter((other) => other.tank === id && inward.includes(other.kind) === (side === 'upstream')).map((other) => other.id);
    const found = new Set<Id>();
    const passed = new Set<Id>();
    const walk = (at: Id): void => {
        if (passed.has(at)) return;
        passed.add(at);
        for (const { from, to } of boat.joints) {
            const [here, there] = side === 'upstream' ? [to, from] : [from, to];
            if (ownerOf(boat, here) !== at) continue;
            const next = ownerOf(boat, there);
            if (isSplitPoint(boat, next)) walk(next); else if (next !== undefined) found.add(next);
        }
    };
    walk(id);
    found.delete(id);
    return [...found];
}

/** What a port belongs to: V1 of `V1:in`, the fitting T1.P1, E1 of `E1.coolant-in`. Nothing for the open air. */
function ownerOf(boat: Boat, point: string): Id | undefined {
    const named = point.split(':')[0]!;
    const known = (id: Id): boolean => boat.parts.some((part) => part.id === id) || boat.consumers.some((consumer) => consumer.id === id) || boat.tanks.some((tank) => tank.fittings.some((fitting) => fitting.id === id));
    return [named, named.slice(0, Math.max(0, named.lastIndexOf('.')))].find(known);
}

const isSplitPoint = (boat: Boat, id: Id | undefined): id is Id => id !== undefined && /\.(parts|rejoins)$/.test(id) && boat.parts.some((part) => part.id === id && part.kind === 'tee');
