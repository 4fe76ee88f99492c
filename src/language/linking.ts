/** A folder is a boat: names are looked up among the files of one folder, never across folders. */
import type { AstNode, AstNodeDescription, LangiumCoreServices, LangiumDocument, LangiumSharedCoreServices, LinkingError, ReferenceInfo, Scope } from 'langium';
import {
    AstUtils, DefaultIndexManager, DefaultLinker, DefaultScopeComputation, DefaultScopeProvider, DocumentState, EMPTY_SCOPE, MapScope,
    MultiMap, UriUtils, WorkspaceCache, type URI,
} from 'langium';
import type { Named, Port } from './generated/ast';
import { isChangeover, isEnd, isFitting, isRef, isSelector, isTank } from './generated/ast';
import { nearest } from './vocabulary';
import { listed } from '../model/words';

/** The key of the boat that a file belongs to. */
export const boatOf = (uri: URI): string => UriUtils.dirname(uri).toString();

export class BoatScopeComputation extends DefaultScopeComputation {
    /** Every tag of a file is visible in all files of its boat, however deep it stands. */
    override async collectExportedSymbols(document: LangiumDocument): Promise<AstNodeDescription[]> {
        const symbols: AstNodeDescription[] = [];
        for (const node of AstUtils.streamAllContents(document.parseResult.value)) {
            const name = tagOf(node);
            if (name !== undefined) symbols.push(this.descriptions.createDescription(node, name, document));
        }
        return symbols;
    }
    override async collectLocalSymbols(): Promise<MultiMap<never, AstNodeDescription>> {
        return new MultiMap();
    }
}

/** Named only inside their selector, changeover or split. */
const INNER = new Set(['Position', 'Leg']);
/** The tag that a node declares for the whole boat. */
export function tagOf(node: AstNode): string | undefined {
    const name = (node as { name?: unknown }).name;
    return typeof name === 'string' && !isPort(node.$type) && !INNER.has(node.$type) ? name : undefined;
}

const isPort = (type: string): boolean => type === 'Fitting' || type === 'SelectorPort';

export class BoatScopeProvider extends DefaultScopeProvider {
    private readonly boats: WorkspaceCache<string, Scope>;
    private readonly index: LangiumSharedCoreServices['workspace']['IndexManager'];

    constructor(services: LangiumCoreServices) {
        super(services);
        this.index = services.shared.workspace.IndexManager;
        this.boats = new WorkspaceCache(services.shared, DocumentState.IndexedContent);
    }

    override getScope(context: ReferenceInfo): Scope {
        if (context.property === 'port') return this.ports(context);
        const inner = AstUtils.getContainerOfType(context.container, (node) => isSelector(node) || isChangeover(node));
        const boat = this.names(boatOf(AstUtils.getDocument(context.container).uri));
        if (!inner) return boat;
        const own: (Named | Port)[] = isChangeover(inner) ? [...inner.positions, ...inner.legs] : isSelector(inner) ? [...inner.positions, ...inner.ports] : [];
        return new MapScope(own.filter((node) => node.name !== undefined).map((node) => this.descriptions.createDescription(node, node.name)), boat);
    }

    /** All names of one boat; the first declaration of a tag wins, the others are findings. */
    names(boat: string): Scope {
        return this.boats.get(boat, () => {
            const byName = new Map<string, AstNodeDescription>();
            const own = this.index.allElements().filter((description) => boatOf(description.documentUri) === boat).toArray();
            // In the order of the files, whichever was indexed last.
            own.sort((a, b) => (a.documentUri.toString() < b.documentUri.toString() ? -1 : a.documentUri.toString() > b.documentUri.toString() ? 1 : 0));
            for (const description of own) if (!byName.has(description.name)) byName.set(description.name, description);
            return new MapScope(byName.values());
        });
    }

    private ports(context: ReferenceInfo): Scope {
        const { container } = context;
        const part = isEnd(container) ? container.part?.ref : isRef(container) ? container.to?.ref : undefined;
        const ports: readonly Port[] = isTank(part) ? part.fittings : isSelector(part) ? part.ports : [];
        const named = ports.map((port) => ({ port, name: portName(port) }));
        return named.length === 0 ? EMPTY_SCOPE : new MapScope(named.map(({ port, name }) => this.descriptions.createDescription(port, name)));
    }
}

/** A vent or fill without a tag goes by its kind: T1.vent. */
export const portName = (port: Port): string => isFitting(port) ? port.name ?? port.kind : port.name;

/** Anything that changes in a boat may change what is true of all of it. */
export class BoatIndexManager extends DefaultIndexManager {
    override isAffected(document: LangiumDocument, changedUris: Set<string>): boolean {
        const boat = boatOf(document.uri);
        for (const changed of changedUris) {
            if (changed.slice(0, changed.lastIndexOf('/')) === boat) return true;
        }
        return false;
    }
}

/** Names compared for one boat; past it, thousands of unknown names would keep everyone waiting. */
const COMPARED = 200_000;

export class BoatLinker extends DefaultLinker {
    private readonly compared: WorkspaceCache<string, { count: number }>;

    constructor(services: LangiumCoreServices) {
        super(services);
        this.compared = new WorkspaceCache(services.shared, DocumentState.IndexedContent);
    }

    protected override createLinkingError(info: ReferenceInfo, target?: AstNodeDescription): LinkingError {
        const error = super.createLinkingError(info, target);
        const name = info.reference.$refText;
        const port = info.property === 'port' ? this.noPort(info, name) : undefined;
        if (port !== undefined) return { ...error, message: port };
        const meant = this.nearest(info, name);
        return { ...error, message: `\`${name}\` is not in this boat.` + (meant ? ` Did you mean \`${meant}\`?` : '') };
    }

    /** With the names of the ports that are there. */
    private noPort({ container }: ReferenceInfo, port: string): string | undefined {
        const part = isEnd(container) ? container.part : isRef(container) ? container.to : undefined;
        if (!part) return undefined;
        const owner = part.ref;
        const ports = isTank(owner) ? owner.fittings.map(portName) : isSelector(owner) ? owner.ports.map(portName) : [];
        const name = part.$refText;
        const said = ports.filter((other) => other !== undefined);
        if (said.length > 0) return `\`${name}.${port}\`: ${name} has no \`${port}\`; it has ${listed(said.map((other) => `\`${name}.${other}\``), 'and')}.`;
        if (isTank(owner)) return `\`${name}.${port}\`: ${name} has no fittings. Write \`pickup ${port}\` or \`drop ${port}\` into the block of \`tank ${name}\`.`;
        if (isSelector(owner)) return `\`${name}.${port}\`: ${name} has no ports. Write \`ports ${port}, ...\` into the block of \`selector ${name}\`.`;
        return `\`${name}.${port}\`: ${name} has no ports that have names; write \`${name}\` alone.`;
    }

    /** The nearest name of the boat, while there is no end of names to compare. */
    private nearest(info: ReferenceInfo, name: string): string | undefined {
        const compared = this.compared.get(boatOf(AstUtils.getDocument(info.container).uri), () => ({ count: 0 }));
        if (compared.count > COMPARED) return undefined;
        const names = this.scopeProvider.getScope(info).getAllElements().map((element) => element.name).toArray();
        compared.count += names.length;
        return nearest(name, names);
    }
}
