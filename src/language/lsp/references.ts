/**
 * Declarations and uses of names, in all files of one boat and in no other. Besides the links that the parser makes there are
 * names that only their line gives a meaning: the position in `SV1 PORT`, in `turn SV1 to PORT` and in `turning`, the
 * ports and legs that a position joins.
 */
import { AstUtils, CstUtils, DefaultReferences, GrammarUtils, stream, type AstNode, type CstNode, type FindReferencesOptions, type LangiumCoreServices, type LangiumDocument, type ReferenceDescription, type Stream } from 'langium';
import { ganged } from '../../analysis/topology/line-ups';
import type { Boats } from '../boats';
import { isChangeover, isCourse, isLeg, isPart, isPosition, isRef, isSelector, isSelectorPort, isSetting, isWord, type Changeover, type Leg, type Part, type Position, type Ref, type Selector, type SelectorPort } from '../generated/ast';
import { itemsOf, likePorts, lineage, patternOf } from '../likeness';
import { isPositionInStep } from '../problems';

export interface Use {
    readonly target: AstNode;
    readonly cst: CstNode;
}

export class BoatReferences extends DefaultReferences {
    constructor(services: LangiumCoreServices, private readonly boats: () => Boats) {
        super(services);
    }

    override findDeclarations(source: CstNode): AstNode[] {
        const { astNode } = source;
        const use = usesIn(astNode).find(({ cst }) => cst.offset <= source.offset && source.end <= cst.end);
        if (use) return [use.target];
        const name = this.nameProvider.getNameNode(astNode);
        return name && name.offset <= source.offset && source.end <= name.end ? [overridden(astNode) ?? astNode] : [];
    }

    override findReferences(target: AstNode, { documentUri, includeDeclaration }: FindReferencesOptions): Stream<ReferenceDescription> {
        const targets = this.oneHandle(target);
        const wanted = new Set(targets);
        const documents = this.boats().files(AstUtils.getDocument(target)).filter(({ uri }) => documentUri === undefined || uri.toString() === documentUri.toString());
        const found = documents.flatMap((document) => AstUtils.streamAst(document.parseResult.value).toArray()
            .flatMap((node) => usesIn(node).filter((use) => wanted.has(use.target)).map((use) => this.describe(document, node, use))));
        const own = includeDeclaration ? targets.flatMap((node) => this.getSelfReferences(node)) : [];
        return stream([...own.filter(({ sourceUri }) => documentUri === undefined || sourceUri.toString() === documentUri.toString()), ...found]);
    }

    /** A position together with those of the same name on the valves that turn with its own: one handle sets them all. */
    oneHandle(target: AstNode): AstNode[] {
        const valve = target.$container;
        if (!isPosition(target) || !isSelector(valve)) return [target];
        const { boat, sources } = this.boats().of(AstUtils.getDocument(target));
        const id = sources.ids.find((other) => sources.find(other)!.node === valve);
        const others = id === undefined ? [] : ganged(boat, id).map((other) => sources.find(other)?.node).filter(isSelector);
        return [target, ...others.flatMap((other) => other.positions).filter((position) => position !== target && position.name === target.name)];
    }

    private describe({ uri }: LangiumDocument, node: AstNode, { target, cst }: Use): ReferenceDescription {
        const targetUri = AstUtils.getDocument(target).uri;
        return {
            sourceUri: uri, sourcePath: this.nodeLocator.getAstNodePath(node), targetUri, targetPath: this.nodeLocator.getAstNodePath(target),
            segment: CstUtils.toDocumentSegment(cst)!, local: uri.toString() === targetUri.toString(),
        };
    }
}

/** What a line in a course that is like a pattern says otherwise: the part of the pattern is what it names. */
function overridden(node: AstNode): AstNode | undefined {
    const course = node.$container;
    const pattern = isPart(node) && isCourse(course) ? patternOf(course) : undefined;
    return pattern && [...itemsOf(pattern.items)].find((item) => item.name === (node as Part).name);
}

/** The names that a node itself uses, with what they mean. */
export function usesIn(node: AstNode): Use[] {
    const same = overridden(node);
    const own = same && GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
    if (same && own) return [{ target: same, cst: own }];
    const soft = softUse(node);
    const links = soft && isRef(node) ? [] : AstUtils.streamReferences(node).toArray().flatMap(({ reference }): Use[] => {
        const target = 'ref' in reference ? reference.ref : undefined;
        return target && reference.$refNode ? [{ target, cst: reference.$refNode }] : [];
    });
    return soft?.target ? [...links, { target: soft.target, cst: soft.cst }] : links;
}

/** A name that its line gives its meaning; its target is absent when nothing goes by it. */
function softUse(node: AstNode): { readonly cst: CstNode; readonly target: AstNode | undefined } | undefined {
    if (isSetting(node)) {
        const cst = GrammarUtils.findNodeForProperty(node.$cstNode, 'state');
        return cst && { cst, target: positionOf(node.part?.ref, node.state) };
    }
    if (!node.$cstNode) return undefined;
    const line = node.$container;
    const owner = line && AstUtils.getContainerOfType(line, isValve);
    if (isRef(node)) {
        const cst = node.to?.$refNode;
        if (!cst) return undefined;
        if (isPositionInStep(node)) return { cst, target: positionOf((tokensOf(line)[1] as Ref | undefined)?.to?.ref, node.to.$refText) };
        if (isPosition(line)) return { cst, target: joined(owner, node.to.$refText) };
        const first = tokensOf(line)[0];
        if (owner && isWord(first) && first.text === 'turning') return { cst, target: positionOf(owner, node.to.$refText) };
    }
    if (isWord(node) && isPosition(line) && line.tokens[0] !== node) return { cst: node.$cstNode, target: joined(owner, node.text) };
    return undefined;
}

type Valve = Selector | Changeover;
export const isValve = (node: unknown): node is Valve => isSelector(node) || isChangeover(node);
const tokensOf = (node: AstNode | undefined): readonly AstNode[] => (node as { tokens?: readonly AstNode[] } | undefined)?.tokens ?? [];
const positionOf = (valve: AstNode | undefined, name: string | undefined): Position | undefined => (isValve(valve) ? placed(valve).positions.find((position) => position.name === name) : undefined);
/** Where the positions of a valve are written: at itself, or at what it is like. */
const placed = (valve: Valve): Valve => (isSelector(valve) ? (lineage(valve) as Selector[]).find((other) => other.positions.length > 0) ?? valve : valve);
const joined = (valve: Valve | undefined, name: string): SelectorPort | Leg | undefined =>
    isSelector(valve) ? (likePorts(valve) as SelectorPort[]).find((port) => port.name === name) : valve?.legs.find((leg) => leg.name === name);

/** What is named only inside its valve, split or tank. */
export const isInner = (node: AstNode): boolean => isPosition(node) || isLeg(node) || isSelectorPort(node) || node.$type === 'Fitting';
