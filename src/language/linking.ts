/**
 * A folder is a boat: names are looked up among the files of one folder, never across boats. Patterns are looked up further:
 * in the folder, in the folder called `shared` beside it, and in the library that comes with Orlop.
 */
import type { AstNodeDescription, LangiumCoreServices, LangiumDocument, LangiumSharedCoreServices, LinkingError, ReferenceInfo, Scope } from 'langium';
import {
    AstUtils, DefaultIndexManager, DefaultLinker, DefaultScopeComputation, DefaultScopeProvider, DocumentState, EMPTY_SCOPE, MapScope,
    MultiMap,
} from 'langium';
import { isAfterEach } from './each';
import { BoatCache, boatOf, filesIn, folderOf, patternFolders } from './folders';
import type { Named, Port } from './generated/ast';
import { isChangeover, isEnd, isRef, isSelector, isTank } from './generated/ast';
import { innerTags, likePorts, madeTags, patternAround, portName, tagOf, type Follow } from './likeness';
import { EACH_KINDS, nearest } from './vocabulary';
import { listed } from '../model/words';

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

interface BoatNames {
    readonly scope: Scope;
    readonly follow: Follow;
}

export class BoatScopeProvider extends DefaultScopeProvider {
    private readonly boats: BoatCache<BoatNames>;
    private readonly shared: LangiumSharedCoreServices;

    constructor(services: LangiumCoreServices) {
        super(services);
        this.shared = services.shared;
        this.boats = new BoatCache(services.shared, DocumentState.IndexedContent);
    }

    override getScope(context: ReferenceInfo): Scope {
        if (context.property === 'port') return this.ports(context);
        const names = this.namesOf(boatOf(AstUtils.getDocument(context.container).uri));
        const pattern = patternAround(context.container, names.follow);
        const outer = pattern ? this.scope([...innerTags(pattern, names.follow)].map(({ tag, node }) => this.descriptions.createDescription(node, tag)), names.scope) : names.scope;
        const inner = AstUtils.getContainerOfType(context.container, (node) => isSelector(node) || isChangeover(node));
        if (!inner) return outer;
        const own: (Named | Port)[] = isChangeover(inner) ? [...inner.positions, ...inner.legs] : isSelector(inner) ? [...inner.positions, ...inner.ports] : [];
        return this.scope(own.filter((node) => node.name !== undefined).map((node) => this.descriptions.createDescription(node, node.name)), outer);
    }

    private scope(descriptions: readonly AstNodeDescription[], outer: Scope): Scope {
        return new MapScope(descriptions, outer);
    }

    /** All names of one boat; the first declaration of a tag wins, the others are findings. */
    names(boat: string): Scope {
        return this.namesOf(boat).scope;
    }

    private namesOf(boat: string): BoatNames {
        return this.boats.get(boat, () => {
            const byName = new Map<string, AstNodeDescription>();
            const add = (description: AstNodeDescription): void => { if (!byName.has(description.name)) byName.set(description.name, description); };
            const { IndexManager } = this.shared.workspace;
            // In the order of the files, whichever was indexed last.
            const of = (folder: string): AstNodeDescription[] => filesIn(this.shared, folder).flatMap(({ uri }) => IndexManager.allElements(undefined, new Set([uri.toString()])).toArray());
            const own = of(boat);
            own.forEach(add);
            for (const folder of patternFolders(boat).slice(1)) of(folder).filter((description) => description.type === 'Pattern').forEach(add);
            const follow: Follow = (ref) => byName.get(ref.to.$refText)?.node;
            for (const { node } of own) if (node) for (const made of madeTags(node, follow)) add(this.descriptions.createDescription(made.node, made.tag));
            return { scope: new MapScope(byName.values()), follow };
        });
    }

    private ports(context: ReferenceInfo): Scope {
        const { container } = context;
        const part = isEnd(container) ? container.part?.ref : isRef(container) ? container.to?.ref : undefined;
        const ports: readonly Port[] = isTank(part) || isSelector(part) ? likePorts(part) : [];
        const named = ports.map((port) => ({ port, name: portName(port) }));
        return named.length === 0 ? EMPTY_SCOPE : new MapScope(named.map(({ port, name }) => this.descriptions.createDescription(port, name)));
    }
}

/** Anything that changes in a boat may change what is true of all of it. */
export class BoatIndexManager extends DefaultIndexManager {
    override isAffected(document: LangiumDocument, changedUris: Set<string>): boolean {
        const folders = patternFolders(boatOf(document.uri));
        for (const changed of changedUris) {
            if (folders.includes(folderOf(changed))) return true;
        }
        return false;
    }
}

/** Names compared for one boat; past it, thousands of unknown names would keep everyone waiting. */
const COMPARED = 200_000;

export class BoatLinker extends DefaultLinker {
    private readonly compared: BoatCache<{ count: number }>;

    constructor(services: LangiumCoreServices) {
        super(services);
        this.compared = new BoatCache(services.shared, DocumentState.IndexedContent);
    }

    protected override createLinkingError(info: ReferenceInfo, target?: AstNodeDescription): LinkingError {
        const error = super.createLinkingError(info, target);
        const name = info.reference.$refText;
        const port = info.property === 'port' ? this.noPort(info, name) : undefined;
        if (port !== undefined) return { ...error, message: port };
        if (isAfterEach(info.container)) {
            const small = name.toLowerCase();
            if (Object.hasOwn(EACH_KINDS, small)) return { ...error, message: `\`${name}\` is written in small letters here: \`each ${small}\`.` };
        }
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
        const wanted = isAfterEach(info.container) ? (type: string) => type === 'Pattern' : () => true;
        const names = this.scopeProvider.getScope(info).getAllElements().filter(({ type }) => wanted(type)).map((element) => element.name).toArray();
        compared.count += names.length;
        return nearest(name, names);
    }
}
