/** The lines unrolled: each course as chains of what liquid meets one after another, so that each part has only the next one beside it. */
import type { Boat, Course, Id, Joint, Service } from '../../../model/boat';

export interface Run {
    readonly course?: Course;
    readonly service: Service;
    /** Parts, fittings, consumers and open ends (`Breather:air`) in the order of flow; a part at which a chain branches is met in several. */
    readonly stops: readonly Stop[];
    /** Not joined to anything: they stand in no order of flow. */
    readonly loose?: true;
}

export interface Stop {
    readonly id: Id;
    readonly into?: string;
    readonly out?: string;
}

const RANK: readonly Service[] = ['supply', 'return', 'vent', 'fill', 'transfer'];

/** Supplies first, from the tanks on, then returns, vents, fills and transfers; at last what is joined to nothing. */
export function runsOf(boat: Boat): readonly Run[] {
    const joints = new Map<Id, Joint[]>();
    for (const joint of boat.joints) { const own = joints.get(joint.course); if (own) own.push(joint); else joints.set(joint.course, [joint]); }
    const runs = ordered(boat.courses).flatMap((course) => chains(boat, joints.get(course.id) ?? []).map((stops): Run => ({ course, service: course.service, stops })));
    const met = new Set(runs.flatMap(({ stops }) => stops.map(({ id }) => id)));
    const loose = [...boat.tanks.filter(({ fittings }) => !fittings.some(({ id }) => met.has(id))), ...boat.parts, ...boat.consumers].map(({ id }) => id).filter((id) => !met.has(id));
    return loose.length === 0 ? runs : [...runs, { service: 'supply', loose: true, stops: [...new Set(loose)].map((id) => ({ id })) }];
}

/** By service, and of one service what ends where another begins before that other; else as written. */
function ordered(courses: readonly Course[]): Course[] {
    return RANK.flatMap((service) => {
        const left = courses.filter((course) => course.service === service);
        const found: Course[] = [];
        while (left.length > 0) {
            const first = left.findIndex(({ from }) => from.part === undefined || !left.some((other) => other.to.part === from.part && other.from.part !== from.part));
            found.push(...left.splice(Math.max(0, first), 1));
        }
        return found;
    });
}

export const ownerOf = (point: string): Id => point.split(':')[0]!;

/** Each joint is walked once; where several lead on, the first that is written is taken, and the others begin chains of their own. */
function chains(boat: Boat, joints: readonly Joint[]): Stop[][] {
    const parts = new Map(boat.parts.map((part) => [part.id, part]));
    const consumers = new Set(boat.consumers.map(({ id }) => id));
    const outside = (point: string): boolean => /:(air|deck|sea)$/.test(point) && !parts.has(ownerOf(point));
    const stopOf = (point: string): Id => {
        const owner = ownerOf(point);
        const circuit = owner.split('.')[0]!;
        return outside(point) ? point : !parts.has(owner) && consumers.has(circuit) ? circuit : owner;
    };
    /** Whether liquid that comes in by one port can go on by another, in any position. */
    const leads = (into: string, out: string): boolean => {
        const part = parts.get(ownerOf(into));
        if (!part || part.positions.length === 0) return true;
        const [a, b] = [into, out].map((point) => point.slice(point.indexOf(':') + 1));
        return part.positions.some(({ joins }) => joins.some((group) => group.includes(a!) && group.includes(b!)));
    };
    const leaving = new Map<Id, number[]>();
    joints.forEach(({ from }, i) => { const own = leaving.get(stopOf(from)); if (own) own.push(i); else leaving.set(stopOf(from), [i]); });
    const used = new Set<number>();
    const found: Stop[][] = [];
    joints.forEach((_, first) => {
        if (used.has(first)) return;
        const stops: Stop[] = [{ id: stopOf(joints[first]!.from), out: joints[first]!.from }];
        for (let next: number | undefined = first; next !== undefined;) {
            used.add(next);
            const { to }: Joint = joints[next]!;
            const id = stopOf(to);
            const on: number | undefined = consumers.has(id) ? undefined : leaving.get(id)?.find((i) => !used.has(i) && leads(to, joints[i]!.from));
            stops.push({ id, into: to, ...(on !== undefined && { out: joints[on]!.from }) });
            next = on;
        }
        found.push(stops);
    });
    return found;
}
