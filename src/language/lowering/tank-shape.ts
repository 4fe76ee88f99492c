/** The shape of a tank: a box, or cross-sections between which straight lines run. */
import type { Shape } from '../../analysis/tanks/mesh';
import { bottomUnder } from '../../analysis/tanks/sounding';
import type { Box, Section as SectionModel } from '../../model/boat';
import { GRADES, type Evidence, type Measure, type Place } from '../../model/measure';
import { fromSI } from '../../model/units';
import { mirrored, takenOver, type Fact, type Facts } from '../facts';
import type { Section, Tank } from '../generated/ast';
import { turnedIn } from '../likeness';
import type { Context } from './context';

/** The shape that a tank states itself, or else that of the nearest tank that it is like. */
export function lowerShape(context: Context, id: string, line: readonly Tank[], facts: Facts): Shape {
    const bySections = line.findIndex((tank) => tank.sections.length > 0);
    const own = line[0] && context.read('tank', line[0]);
    const box = own?.get('box');
    if (bySections === 0 && box) {
        context.problem('shape', box.cst, `${id} is written as a \`box\` and by sections. Keep what is right, and remove the other.`, 'error', box.end);
        return {};
    }
    const byBox = context.overlays.factsOf(id).some((bearer) => context.read('tank', bearer).has('box')) ? 0 : line.findIndex((tank) => context.read('tank', tank).has('box'));
    if (bySections < 0 || (byBox >= 0 && byBox <= bySections)) return boxOf(context, id, facts);
    const corner = own?.get('low aft inner corner');
    if (corner) context.problem('shape', corner.cst, `\`${corner.word.words}\` belongs to a \`box\`; the corners of ${id} stand in its sections. Remove it.`, 'error', corner.end);
    const turned = turnedIn(line)[bySections] ?? false;
    return new SectionReader(context, id, line[bySections]!.sections, turned, bySections === 0).read();
}

/** The height of the bottom under a place, where a pipe that stands there would touch it; the lowest point inside, where the place is not known or is no place in the tank. */
export function bottomOf(shape: Shape): ((under: Place) => Measure) | undefined {
    const { box, sections } = shape;
    if (box) { const { up } = box.corner; return up && (() => up); }
    return sections && ((under) => ({ si: bottomUnder(shape, under) ?? Math.min(...sections.flatMap(({ corners }) => corners.map(({ up }) => up))) }));
}

function boxOf(context: Context, id: string, facts: Facts): Shape {
    const sizes = facts.get('box')?.sizes;
    if (!sizes) return {};
    const corner: Place = context.place(id, facts.get('low aft inner corner')?.place) ?? {};
    const box: Box = {
        length: sizes[0]!.si, breadth: sizes[1]!.si, height: sizes[2]!.si, corner,
        outboard: (corner.stbd?.si ?? 0) < 0 ? -1 : 1,
    };
    return { box };
}

// ---- sections

/** Sections nearer to one another than this are in one place, m. */
const SAME = 0.0005;
/** A smaller section is none, m²: its corners stand in one line. */
const NOTHING = 1e-4;

type Corners = SectionModel['corners'];
interface Written extends SectionModel { readonly node: Section }

class SectionReader {
    constructor(private readonly context: Context, private readonly id: string, private readonly nodes: readonly Section[], private readonly turned: boolean, private readonly own: boolean) {}

    /** Nothing when a section cannot be so: a volume of half a shape would be wrong. */
    read(): Shape {
        this.keep();
        const written = this.nodes.map((node) => this.section(node));
        if (this.nodes.length === 1) return this.slip(this.nodes[0]!, `${this.id} has one section only. Write a second one at its other end, with as many corners: \`section at 3000 mm fwd   corners ...\`.`);
        const sections = written.filter((section) => section !== undefined).sort((a, b) => a.fwd - b.fwd);
        if (sections.length < written.length) return {};
        for (const [i, fore] of sections.entries()) {
            const aft = sections[i - 1];
            const slip = aft && this.beside(aft, fore);
            if (slip) return this.slip(fore.node, slip);
        }
        return { sections: sections.map(({ fwd, corners }) => ({ fwd, corners })) };
    }

    private section(node: Section): Written | undefined {
        const read = this.context.read('section', node);
        const facts = this.turned ? mirrored(read) : read;
        const [at, corners] = [facts.get('at'), facts.get('corners')];
        const place = this.context.place(this.id, at?.place);
        if (corners?.missing || isUnknown(at)) return undefined;
        if (!place?.fwd || at?.place?.up || at?.place?.stbd) {
            if (at || !this.told(node)) this.slip(node, `A section of ${this.id} is taken at a place along the boat alone: write how far forward, like \`section at 2200 mm fwd\`.`);
            return undefined;
        }
        const where = mm(place.fwd.si);
        if (!corners?.corners) {
            if (!this.told(node)) this.slip(node, `The section at ${where} has no corners. Write them in order round it, like \`corners 200 mm up 550 mm stbd, 200 mm up 1100 mm stbd, 620 mm up 1150 mm stbd\`.`);
            return undefined;
        }
        const points = corners.corners.map((corner) => (corner.fwd ? undefined : this.context.place(this.id, corner)));
        const lacking = points.findIndex((point) => !point?.up || !point.stbd);
        if (lacking >= 0) { this.slip(node, `Corner ${lacking + 1} of the section at ${where} needs a height above the datum and a place across the boat, and nothing else: write it like \`200 mm up 550 mm stbd\`.`); return undefined; }
        const found = points.map((point) => ({ up: point!.up!.si, stbd: point!.stbd!.si }));
        if (found.length < 3) { this.slip(node, `The section at ${where} has ${found.length === 1 ? 'one corner' : 'two corners'}. It takes three or more to enclose anything.`); return undefined; }
        if (crosses(found)) { this.slip(node, `The corners of the section at ${where} cross one another. Write them in the order in which they follow round it.`); return undefined; }
        if (Math.abs(area(found)) < NOTHING) { this.slip(node, `The corners of the section at ${where} stand in one line and enclose nothing. Take them again.`); return undefined; }
        return { fwd: place.fwd.si, corners: found, node };
    }

    /** What is wrong with two sections that follow one another. */
    private beside(aft: Written, fore: Written): string | undefined {
        const [there, here] = [`the one at ${mm(aft.fwd)}`, `The section at ${mm(fore.fwd)}`];
        const order = 'Begin both at the same corner, and go round the same way.';
        if (fore.fwd - aft.fwd < SAME) return `${this.id} has two sections at ${mm(fore.fwd)}. Keep the one that is right.`;
        if (aft.corners.length !== fore.corners.length) return `${here} has ${fore.corners.length} corners, and ${there} has ${aft.corners.length}. Each is joined to its like: give both as many; a corner may be written twice.`;
        if (area(aft.corners) * area(fore.corners) < 0) return `The corners of the section at ${mm(fore.fwd)} go round the other way than those of ${there}. ${order}`;
        const between = [0.25, 0.5, 0.75].map((share) => aft.corners.map(({ up, stbd }, i) => ({ up: up + share * (fore.corners[i]!.up - up), stbd: stbd + share * (fore.corners[i]!.stbd - stbd) })));
        if (apart(aft.corners, fore.corners) || between.some((corners) => crosses(corners) || Math.abs(area(corners)) < NOTHING)) return `The corners of the section at ${mm(fore.fwd)} do not follow in the order of those of ${there}: joined each to its like, the tank would be twisted. ${order}`;
        return undefined;
    }

    /** For findings: where the shape is written, and how well it is known, by its weakest section. */
    private keep(): void {
        const read = this.nodes.map((node) => this.context.read('section', node));
        const all = read.flatMap((facts) => facts.get('corners') ?? []);
        if (all[0]) this.context.sources.addFact(this.id, 'section', all[0].cst, all.at(-1)!.end, this.turned);
        const whole = this.context.evidence.get(this.id) ?? {};
        const marks = read.map((facts) => facts.get('corners')?.evidence ?? facts.given ?? whole).map((evidence) => (this.own ? evidence : takenOver(evidence)));
        const rank = ({ grade }: Evidence): number => GRADES.indexOf(grade ?? 'told');
        this.context.evidence.set(`${this.id} section`, marks.reduce((weakest, evidence) => (rank(evidence) > rank(weakest) ? evidence : weakest)));
        if (read.some((facts) => facts.get('corners')?.missing || isUnknown(facts.get('at')))) this.context.unknown.push({ about: this.id, fact: 'section' });
    }

    /** Whether a slip on the line itself was told already. */
    private told(node: Section): boolean {
        const cst = node.$cstNode;
        return cst !== undefined && this.context.problems.some(({ node: { root, offset }, severity }) => severity === 'error' && root === cst.root && offset >= cst.offset && offset < cst.end);
    }

    private slip(node: Section, message: string): Shape {
        if (this.own) this.context.problem('section', node.$cstNode, message);
        return {};
    }
}

/** Written as `unknown` or `unreached`. */
const isUnknown = (at: Fact | undefined): boolean => at !== undefined && (at.missing === true || (at.place !== undefined && !at.place.up && !at.place.fwd && !at.place.stbd));

const mm = (si: number): string => `${Math.round(fromSI(si, 'mm'))} mm fwd`;

/** m², positive one way round. */
const area = (corners: Corners): number => corners.reduce((sum, { up, stbd }, i) => { const next = corners[(i + 1) % corners.length]!; return sum + (stbd * next.up - next.stbd * up) / 2; }, 0);

/** Whether two sides cut one another; sides that only touch do not. */
function crosses(corners: Corners): boolean {
    const side = (a: Corners[number], b: Corners[number], c: Corners[number]): number => {
        const twice = (b.stbd - a.stbd) * (c.up - a.up) - (b.up - a.up) * (c.stbd - a.stbd);
        return Math.abs(twice) < 1e-9 ? 0 : Math.sign(twice); // in one line, but for the arithmetic
    };
    return corners.some((a, i) => {
        const b = corners[(i + 1) % corners.length]!;
        return corners.some((c, j) => { const d = corners[(j + 1) % corners.length]!; return j > i && side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0; });
    });
}

/** Whether the corners, each section about its middle, would lie much nearer to one another if one of the two began at another corner. */
function apart(one: Corners, other: Corners): boolean {
    const [a, b] = [centred(one), centred(other)];
    const off = a.map((_, by) => a.reduce((sum, { up, stbd }, i) => { const to = b[(i + by) % b.length]!; return sum + (up - to.up) ** 2 + (stbd - to.stbd) ** 2; }, 0));
    return Math.min(...off) < off[0]! / 2;
}

function centred(corners: Corners): Corners {
    const [up, stbd] = [corners.reduce((sum, corner) => sum + corner.up, 0) / corners.length, corners.reduce((sum, corner) => sum + corner.stbd, 0) / corners.length];
    return corners.map((corner) => ({ up: corner.up - up, stbd: corner.stbd - stbd }));
}
