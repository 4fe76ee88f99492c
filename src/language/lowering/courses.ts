/** Courses into parts and the joints between them. A split becomes two tees, so that no later code knows of splits. */
import type { Course as CourseModel, End as EndModel, FittingKind, Joint, Part as PartModel, PartKind, Position as PositionModel, Prefill, Service, Tank as TankModel, Turning } from '../../model/boat';
import type { CstNode, Reference } from 'langium';
import type { Evidence } from '../../model/measure';
import { isPart, type Changeover, type Course, type End, type Item, type Named, type Part, type Pattern, type Position, type Selector, type Split, type Token } from '../generated/ast';
import type { Facts } from '../facts';
import { isMirrored, itemsOf, likeOf, likePorts, likeVents, overridesOf, patternOf, suffixOf, turnedIn } from '../likeness';
import { unquote } from '../quantity';
import { Cursor } from '../cursor';
import { nearest } from '../vocabulary';
import type { Context } from './context';
import type { Inserted } from './overlays';
import { likeLine, lowerVents, optional } from './vessel';

export class Courses {
    readonly parts: PartModel[] = [];
    readonly joints: Joint[] = [];
    readonly courses: CourseModel[] = [];
    /** Fittings that a course takes for granted, such as the vent of `vent course Breather from T1 to air`. */
    readonly implied: { readonly tank: string; readonly port: string; readonly kind: FittingKind }[] = [];

    constructor(private readonly context: Context, private readonly tanks: readonly TankModel[]) {}

    selector(selector: Selector): void {
        const id = this.context.claim(selector.name, selector.$cstNode);
        const line = likeLine(this.context, selector);
        this.context.things.set(id, { kind: 'selector', line, tagged: true });
        const facts = this.context.readLine('selector', line, id);
        this.context.keepFacts(id, facts);
        const ports = likePorts(selector).map((port) => port.name).filter((name) => name !== undefined);
        const placed = line.find((other) => other.positions.length > 0) ?? selector;
        this.parts.push({
            ...this.common(id, 'selector', facts), name: id, tag: selector.name, ...optional('title', selector.title && unquote(selector.title)),
            ports, positions: placed.positions.filter(({ name }) => name !== undefined).map((position) => this.position(position, id, ports)).map(({ name, joins }) => ({ name, joins: joins.filter((group) => group.length > 1) })),
            turning: turnings(placed.facts.map((line) => line.tokens)),
            ...optional('gangedWith', facts.get('ganged with')?.ref?.to.$refText),
        });
    }

    course(course: Course): void {
        const id = this.context.claim(course.name, course.$cstNode);
        const pattern = patternOf(course);
        const said = this.context.read('course', course);
        const given = said.given ?? (pattern && this.context.read('pattern', pattern).given);
        if (given) this.context.evidence.set(id, given);
        const line = new Line(this, course, id, pattern, given, this.context);
        const from = this.end(found(this.context, id, 'from') ?? course.from, course.service, 'from', id);
        const to = this.end(found(this.context, id, 'to') ?? course.to, course.service, 'to', id);
        let last = from.node;
        if (course.pattern) this.likeness(course, pattern);
        for (const item of pattern ? pattern.items : course.pattern ? [] : course.items) last = line.add(item, last);
        line.join(last, to.node);
        this.courses.push({ id, service: course.service, ...optional('title', course.title && unquote(course.title)), from: from.end, to: to.end, parts: line.parts });
    }

    /** What is wrong with a course that is like a pattern, or says otherwise than it. */
    private likeness(course: Course, pattern: Pattern | undefined): void {
        const target = course.pattern!.to.ref;
        const name = course.pattern!.to.$refText;
        if (!target) return;
        if (!pattern) {
            this.context.problem('like', course.pattern!.$cstNode, `${name} is not a pattern of a whole course. Write one like \`pattern ${name} is ${course.service} course { ... }\`.`);
            return;
        }
        if (pattern.service !== course.service) this.context.problem('like', course.pattern!.$cstNode, `${name} is a pattern of a ${pattern.service} course, and this is a ${course.service} course.`);
        const items = new Map([...itemsOf(pattern.items)].flatMap((item) => (item.name !== undefined ? [[item.name, item] as const] : [])));
        for (const item of course.items) {
            const same = item.name === undefined ? undefined : items.get(item.name);
            const here = item.$cstNode;
            if (same && isPart(item) && isPart(same) && kindOf(item) === kindOf(same)) {
                const like = likeOf(item);
                if (like) this.context.problem('like', like.$cstNode, `What ${item.name} is like is said in ${name}; here stands only what differs.`);
                continue;
            }
            if (item.name === undefined) this.context.problem('like', here, `What stands in ${course.name} comes from ${name}; a line here says what differs, and must name the part, like \`hose S2   length 1.9 m\`.`);
            else if (!same) {
                const meant = nearest(item.name, items.keys());
                this.context.problem('like', here, `${name} has no ${item.name} that could differ here.${meant ? ` Did you mean \`${meant}\`?` : ` It has ${[...items.keys()].join(', ')}.`}`);
            } else this.context.problem('like', here, `${item.name} is a ${isPart(same) ? kindOf(same) : same.$type.toLowerCase()} in ${name}. Begin the line with that word, or change the pattern.`);
        }
    }

    /** The end of a course as a point of the network; none when the name is not there. */
    private end(end: Ending | undefined, service: Service, side: 'from' | 'to', course: string): { end: EndModel; node?: string } {
        if (end?.outside) return { end: { outside: end.outside }, node: `${course}:${end.outside}` };
        const node = end?.part?.ref;
        if (!end?.part || !node) return { end: {} };
        const part = this.context.idOf(end.part.$refText);
        const port = end.port?.$refText;
        const known: EndModel = { part, ...optional('port', port) };
        switch (node.$type) {
            case 'Tank': return this.tankEnd(end, part, port, service, side);
            case 'Consumer': return port === undefined
                ? { end: known, node: `${part}:${side === 'to' ? 'in' : 'out'}` }
                : { end: known, node: `${part}.${port}` };
            case 'Selector':
                if (port !== undefined) return { end: known, node: `${part}:${port}` };
                this.context.problem('port', end.$cstNode, `Which port of ${part}? Write \`${part}.${node.ports[0]?.name ?? 'out'}\`.`);
                return { end: {} };
            case 'Part':
                if (this.context.overlays.isRemoved(part)) { this.context.problem('end', end.$cstNode, `${part} is taken out or missing in this view, and a course ends at it. Say where that course ends then.`, 'warning'); return { end: {} }; }
                if (node.kind === 'tee') return { end: known, node: part };
        }
        this.context.problem('end', end.$cstNode, `A course ends at a tank, a consumer, a port of a selector or a tee, and ${part} is none of these. Put a tee beside it, and name the tee here.`);
        return { end: {} };
    }

    private tankEnd(end: Ending, tank: string, port: string | undefined, service: Service, side: 'from' | 'to'): { end: EndModel; node?: string } {
        const model = this.tanks.find((other) => other.id === tank);
        if (port !== undefined) {
            const found = model?.fittings.some((fitting) => fitting.port === port);
            return found ? { end: { part: tank, port }, node: `${tank}.${port}` } : { end: { part: tank } };
        }
        const kind: FittingKind = service === 'vent' || service === 'fill' ? service : side === 'from' ? 'pickup' : 'drop';
        const fits = model?.fittings.filter((fitting) => fitting.kind === kind) ?? [];
        if (fits.length > 1) {
            this.context.problem('port', end.$cstNode, `${tank} has ${fits.length} ${kind} fittings. Say which: ${fits.map((fitting) => `\`${tank}.${fitting.port}\``).join(' or ')}.`);
            return { end: { part: tank } };
        }
        const chosen = fits[0]?.port ?? kind;
        if (fits.length === 0 && !this.implied.some((other) => other.tank === tank && other.port === chosen)) this.implied.push({ tank, port: chosen, kind });
        return { end: { part: tank, port: chosen }, node: `${tank}.${chosen}` };
    }

    position(position: Position, of: string, ports: readonly string[]): PositionModel {
        const cursor = new Cursor(position.tokens);
        const groups: string[][] = [[]];
        const unknown = (name: string, at: CstNode | undefined): void => {
            const meant = nearest(name, ports);
            this.context.problem('port', at, `${of} has no port \`${name}\`; its ports are ${ports.join(', ')}.` + (meant ? ` Did you mean \`${meant}\`?` : ''));
        };
        if (ports.length === 0) {
            this.context.problem('position', position.$cstNode, `${of} has no ports that ${position.name} could join: write a line like \`ports in, out\`.`);
            return { name: position.name, joins: [] };
        }
        if (!cursor.words('joins') && !cursor.words('through')) {
            const other = cursor.peek();
            if (other?.$type === 'Word' && !ports.includes(other.text)) cursor.take();
            this.context.problem('position', position.$cstNode, `Say what position ${position.name} joins, like \`joins ${ports.slice(0, 2).join(', ')}\` or \`joins nothing\`.`);
        }
        if (cursor.words('nothing')) return { name: position.name, joins: [] };
        while (!cursor.done) {
            if (cursor.comma()) continue;
            // `port, out and stbd, spare` is two pairs; `port, stbd and out` is all three.
            if (cursor.words('and')) { if (cursor.peek(1)?.$type === 'Comma') groups.push([]); continue; }
            const here = cursor.cst;
            const name = cursor.word() ?? cursor.ref()?.to.$refText;
            if (name === undefined) { cursor.take(); continue; }
            if (ports.includes(name)) groups.at(-1)!.push(name); else unknown(name, here);
        }
        return { name: position.name, joins: groups.filter((group) => group.length > 0) };
    }

    common(id: string, kind: PartKind, facts: Facts): Omit<PartModel, 'name' | 'ports' | 'positions' | 'turning'> {
        const context = this.context;
        const at = context.place(id, (facts.get('ports') ?? facts.get('at'))?.place);
        const at_ = (word: string): PartModel['at'] => context.place(id, facts.get(word)?.place, at);
        const flag = <K extends string>(key: K, word: string): { [P in K]?: true } => facts.has(word) ? { [key]: true } as { [P in K]?: true } : {};
        return {
            id, kind, seals: facts.get('seals')?.pieces ?? [], vents: [],
            ...optional('at', at), ...optional('low', at_('low')), ...optional('crest', at_('crest')), ...optional('outlet', at_('outlet')), ...optional('plate', at_('plate')),
            ...optional('lid', at_('lid')), ...optional('drain', at_('drain')), ...optional('space', facts.get('in')?.ref?.to.$refText),
            ...optional('label', facts.get('label')?.text), ...optional('bore', facts.measure('bore')), ...optional('length', facts.measure('length')), ...optional('holds', facts.measure('holds')),
            ...optional('cracks', facts.measure('cracks')), ...optional('reads', (['vacuum', 'pressure'] as const).find((word) => facts.has(word))), ...optional('stroke', facts.measure('stroke') ?? facts.measure('lever')),
            ...optional('lifts', facts.measure('lifts')), ...optional('rate', facts.measure('gives')), ...optional('pushes', facts.measure('pushes')), ...optional('stands', facts.measure('stands')),
            ...optional('clean', facts.measure('clean')), ...optional('dirty', facts.measure('dirty')), ...optional('dirt', facts.measure('dirt')), ...optional('beta', facts.measure('beta')),
            ...optional('whenOff', facts.get('when off')?.choice as PartModel['whenOff']),
            ...optional('normally', facts.get('normally')?.choice as PartModel['normally']),
            ...optional('passes', facts.measure('passes')), ...optional('rated', facts.measure('rated')),
            ...optional('prefill', facts.get('prefill')?.choice as Prefill | undefined),
            ...optional('role', facts.has('primary') ? 'primary' as const : facts.has('final') ? 'final' as const : undefined),
            ...flag('reversed', 'reversed'), ...flag('lockedOpen', 'locked open'), ...flag('solenoid', 'solenoid'), ...flag('separatesWater', 'separates water'),
            ...flag('plugged', 'plugged'), ...flag('fireResistant', 'fire-resistant'), ...optional('dated', facts.get('dated')?.text),
        };
    }
}

/** The end of a course as it is written in its head, or as a survey found it. */
type Ending = Partial<Pick<End, 'outside' | 'part' | 'port' | '$cstNode'>>;

function found(context: Context, course: string, side: 'from' | 'to'): Ending | undefined {
    const ref = context.overlays.endOf(course, side);
    return ref && { part: ref.to as Reference<Named>, ...optional('port', ref.port), ...optional('$cstNode', ref.$cstNode) };
}

/** One course being laid, item by item, each joined to the point before it. */
class Line {
    readonly parts: string[] = [];
    private count = 0;
    private lastTag: string | undefined;
    /** Absent while it is still to be typed. */
    private readonly service: Service | undefined;
    private readonly suffix: string;
    private readonly overrides: ReadonlyMap<string, readonly Part[]>;

    constructor(
        private readonly courses: Courses, private readonly node: Course, private readonly course: string, private readonly pattern: Pattern | undefined,
        private readonly given: Evidence | undefined, private readonly context: Context,
    ) {
        this.service = node.service;
        this.suffix = pattern ? suffixOf(node) : '';
        this.overrides = pattern ? overridesOf(node) : new Map();
    }

    /** Joins two points, with what a refit puts or a survey found between them; and between those again. */
    join(from: string | undefined, to: string | undefined): void {
        if (from === undefined || to === undefined) return;
        const inserted = this.context.overlays.between(from, to);
        if (!inserted) { this.courses.joints.push({ from, to, course: this.course }); return; }
        const out = this.part(inserted.part, undefined, inserted);
        const id = this.parts.pop()!;
        this.join(from, out === id ? id : `${id}:in`);
        this.parts.push(id);
        this.join(out, to);
    }

    add(item: Item, from: string | undefined): string | undefined {
        if (item.name !== undefined && this.context.overlays.isRemoved(item.name + this.suffix)) return from;
        if (item.$type === 'Split') return this.split(item, from);
        if (item.$type === 'Changeover') return this.changeover(item, from);
        return this.part(item, from);
    }

    private part(part: Part, from: string | undefined, inserted?: Inserted): string {
        const kind = kindOf(part);
        const own = part.name === undefined || inserted ? [] : (this.overrides.get(part.name) ?? []).filter((over) => kindOf(over) === kind);
        const likes = likeLine(this.context, part);
        const line = inserted ? [{ ...inserted, facts: part.facts, vents: part.vents }, ...likes.slice(1)] : [...own, ...likes];
        const tag = part.name === undefined ? undefined : part.name + (inserted ? '' : this.suffix);
        const id = this.id(tag, part, inserted !== undefined);
        this.context.things.set(id, { kind, line: likes, tagged: tag !== undefined });
        // A mirrored course mirrors what it takes over, never what it says itself.
        const turned = turnedIn(line, isMirrored(this.node) && this.pattern && !inserted ? own.length : Infinity);
        const facts = this.context.readLine(kind, line, id, { own: own.length + 1, turned });
        this.context.keepFacts(id, facts, inserted ? undefined : this.given);
        const model = this.courses.common(id, kind, facts);
        const by = inserted || !this.pattern ? part : this.node;
        const vents = lowerVents(this.context, id, likeVents(inserted ? likes : line as Part[], tag, { own: own.length + 1, suffix: inserted ? '' : this.suffix, turned }), { by, given: facts.given ?? this.given, base: model.at });
        this.courses.parts.push({
            ...model, ...optional('normally', kind === 'shutoff' ? this.context.overlays.positionOf(id) ?? model.normally : undefined), vents, name: tag ?? this.describe(kind), course: this.course, ports: [], positions: [], turning: [],
            ...optional('tag', tag), ...optional('title', part.title && unquote(part.title)),
        });
        const [into, out] = kind === 'tee' ? [id, id] : [`${id}:in`, `${id}:out`];
        // Joined first: what was put in before it comes before it.
        this.join(from, into);
        this.parts.push(id);
        if (tag !== undefined) this.lastTag = tag;
        return out;
    }

    private split(split: Split, from: string | undefined): string {
        const tag = split.name === undefined ? undefined : split.name + this.suffix;
        const id = this.id(tag, split);
        this.context.read('split', split);
        const name = tag ?? this.describe('split');
        const ends = [`${id}.parts`, `${id}.rejoins`] as const;
        for (const [i, tee] of ends.entries()) {
            if (split.$cstNode) this.context.sources.add(tee, split.$cstNode);
            this.courses.parts.push({
                id: tee, kind: 'tee', course: this.course, name: i === 0 ? name : `where ${name} rejoins`,
                seals: [], vents: [], ports: [], positions: [], turning: [],
            });
        }
        this.join(from, ends[0]);
        this.parts.push(ends[0]);
        for (const leg of split.legs) {
            this.context.read('leg', leg);
            let last: string | undefined = ends[0];
            for (const item of leg.items) last = this.add(item, last);
            this.join(last, ends[1]);
        }
        this.parts.push(ends[1]);
        return ends[1];
    }

    /** A changeover is one valve with an inlet, an outlet and two ports to each leg; a position opens both. */
    private changeover(changeover: Changeover, from: string | undefined): string {
        const tag = changeover.name === undefined ? undefined : changeover.name + this.suffix;
        const id = this.id(tag, changeover);
        this.context.things.set(id, { kind: 'changeover', line: [changeover], tagged: tag !== undefined });
        const facts = this.context.readLine('changeover', [changeover], id, { turned: [isMirrored(this.node)] });
        this.context.keepFacts(id, facts, this.given);
        const legs = changeover.legs.map((leg, i) => leg.name ?? `leg ${i + 1}`); // a name may still be to be typed
        const positions = changeover.positions.filter(({ name }) => name !== undefined).map((position) => {
            const through = this.courses.position(position, id, legs).joins.flat();
            return {
                name: position.name,
                joins: through.length === 0 ? [] : [['in', ...through.map((leg) => `${leg} in`)], ['out', ...through.map((leg) => `${leg} out`)]],
            };
        });
        this.courses.parts.push({
            ...this.courses.common(id, 'changeover', facts), name: tag ?? this.describe('changeover'), ...optional('tag', tag), course: this.course, positions,
            turning: turnings(changeover.facts.map((line) => line.tokens)),
            ports: ['in', 'out', ...legs.flatMap((leg) => [`${leg} in`, `${leg} out`])],
        });
        this.join(from, `${id}:in`);
        this.parts.push(id);
        for (const [i, leg] of changeover.legs.entries()) {
            this.context.read('leg', leg);
            let last: string | undefined = `${id}:${legs[i]!} in`;
            for (const item of leg.items) last = this.add(item, last);
            this.join(last, `${id}:${legs[i]!} out`);
        }
        return `${id}:out`;
    }

    private id(tag: string | undefined, item: Item, inserted = false): string {
        this.count++;
        const by = this.pattern && !inserted ? this.node : item;
        const id = tag === undefined ? `${this.course}/${this.count}` : this.context.claim(tag, item.$cstNode, by);
        if (tag === undefined && item.$cstNode) this.context.sources.add(id, item.$cstNode, undefined, by.$cstNode);
        if (this.suffix !== '' && !inserted) this.context.suffixes.set(id, this.suffix);
        return id;
    }

    private describe(kind: string): string {
        const article = this.service === 'supply' || this.service === undefined ? 'the' : `the ${this.service}`;
        return this.lastTag === undefined ? `${article} ${kind} at the start of ${this.course}` : `${article} ${kind} after ${this.lastTag}`;
    }
}

export function kindOf(part: Part): PartKind {
    // `electric` with its second word still to be typed.
    if (part.kind === 'pump' || part.kind === undefined) return part.driven === 'electric' ? 'electric pump' : 'lift pump';
    if (part.kind === 'primer') return part.driven === 'electric' ? 'electric primer' : 'hand primer';
    return part.kind;
}

/** `turning PORT to STBD passes OFF`, `turning passes BOTH`. */
function turnings(lines: readonly (readonly Token[])[]): Turning[] {
    const found: Turning[] = [];
    for (const line of lines) {
        const cursor = new Cursor(line);
        if (!cursor.words('turning')) continue;
        const from = cursor.ref()?.to.$refText;
        const to = cursor.words('to') ? cursor.ref()?.to.$refText : undefined;
        const passes = cursor.words('passes') ? cursor.ref()?.to.$refText : undefined;
        if (passes !== undefined) found.push({ passes, ...optional('from', from), ...optional('to', to) });
    }
    return found;
}

