/**
 * A number without a unit is a slip that the language refuses, and a single value out of its usual range is queried where
 * it is read. This rule holds values against one another: each comparison is one that only a slip of a unit or of the
 * decimal point is likely to break.
 */
import type { Consumer, Course, Id, Part, Tank } from '../../model/boat';
import type { Failure, Verdict } from '../../model/finding';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { meshOf } from '../../analysis/tanks/mesh';
import { fromSI } from '../../model/units';
import { capital } from '../../model/words';
import { type Check, type View } from '../check';
import { shapeFact } from '../../analysis/missing';

export const unitOk: Check = {
    code: 'UNIT-OK', severity: 'document',
    statement: 'Sizes agree with one another: no pipe, tank or height exceeds the length of the hull, no bore is eight times that of the pipes beside it, nothing burns more than it draws, and pipes end inside their tanks.',
    prevents: 'Errors of ten times in all that is computed.',
    facts: 'length of the hull; lengths, bores and heights; burn and gross flow; sizes of tanks',
    source: 'common practice',
    judge: (view) => [...hull(view), ...view.boat.courses.flatMap((course) => bores(view, course)), ...view.boat.consumers.map(burn), ...view.boat.tanks.map(mouths)],
};

const queried = (about: Id, fact: string, message: string, see: readonly { id: Id; why: string }[] = []): Failure => ({
    outcome: 'fail', about, fact, message, reason: 'One of the two is perhaps in the wrong unit, or a decimal point has slipped.',
    advice: 'Take the measure again, and set the unit right: mm, cm, m, in or ft.', see, rests: [{ about, fact }],
});

const metres = (si: number): string => `${Number(fromSI(si, 'm').toPrecision(3))} m`;
const mm = (si: number): string => `${Number(fromSI(si, 'mm').toPrecision(3))} mm`;

/** A pipe may be longer than the way it leads, hardly longer than the boat; 2.6 m written as 26 m on a hull of 10.8 m is. */
function hull({ boat }: View): Verdict[] {
    const sizes = [
        ...boat.parts.flatMap((part) => (part.length ? [{ about: part.id, fact: 'length', what: `${capital(part.name)} is ${metres(part.length.si)} long`, size: part.length.si }] : [])),
        ...boat.tanks.flatMap((tank) => { const size = longestSide(tank); return size === undefined ? [] : [{ about: tank.id, fact: shapeFact(tank), what: `A side of ${tank.id} is ${metres(size)} long`, size }]; }),
        // No datum lies a whole length of the hull below or above a part: 660 mm written as 660 cm does, on most hulls.
        ...[...boat.parts.map((part) => ({ part, at: part.at, name: part.name })), ...boat.consumers.map((part) => ({ part, at: part.inlet, name: part.id }))].flatMap(({ part, at, name }) => (at?.up
            ? [{ about: part.id, fact: 'at', what: `${capital(name)} stands ${metres(Math.abs(at.up.si))} ${at.up.si < 0 ? 'below' : 'above'} the datum`, size: Math.abs(at.up.si) }] : [])),
    ];
    if (sizes.length === 0) return [{ outcome: 'not applicable', about: 'vessel', why: 'no length, box or height is written' }];
    const length = boat.vessel.length?.si;
    if (length === undefined) return [{ outcome: 'cannot tell', about: 'vessel', missing: [{ about: 'vessel', fact: 'the length of the hull', how: 'write it into the vessel, like `length 10.80 m`' }] }];
    const wrong = sizes.filter(({ size }) => size > length);
    return wrong.length === 0 ? [{ outcome: 'pass', about: 'vessel', rests: [{ about: 'vessel', fact: 'length' }] }]
        : wrong.map(({ about, fact, what }) => queried(about, fact, `${what}, more than the whole hull with ${metres(length)}.`));
}

/** The longest extent of a tank along, across or up, m. */
function longestSide(tank: Tank): number | undefined {
    const points = meshOf(tank)?.points;
    return points && Math.max(...([0, 1, 2] as const).map((axis) => Math.max(...points.map((point) => point[axis])) - Math.min(...points.map((point) => point[axis]))));
}

/** Pipes joined end to end seldom differ by more than four times (25 mm to 6 mm); a slipped point makes ten, inches for millimetres 25. */
const TIMES = 8;

function bores({ network }: View, course: Course): Verdict[] {
    const pipes = course.parts.map((id) => network.parts.get(id)!).filter((part): part is Part & { bore: NonNullable<Part['bore']> } => (part.kind === 'hose' || part.kind === 'tube') && part.bore !== undefined);
    if (pipes.length < 2) return [];
    const middle = [...pipes].map(({ bore }) => bore.si).sort((a, b) => a - b)[Math.floor((pipes.length - 1) / 2)]!;
    const off = pipes.flatMap((pipe, i) => {
        const beside = [pipes[i - 1], pipes[i + 1]].filter((other) => other !== undefined);
        const apart = beside.every(({ bore }) => Math.max(bore.si / pipe.bore.si, pipe.bore.si / bore.si) >= TIMES);
        return apart ? [{ pipe, beside: beside[0]!, far: Math.abs(Math.log(pipe.bore.si / middle)) }] : [];
    }).sort((a, b) => b.far - a.far)[0];
    if (!off) return [{ outcome: 'pass', about: course.id, rests: pipes.map(({ id }) => ({ about: id, fact: 'bore' })) }];
    return [queried(off.pipe.id, 'bore', `${capital(off.pipe.name)} has a bore of ${mm(off.pipe.bore.si)}, and ${off.beside.name} beside it one of ${mm(off.beside.bore.si)}.`, [{ id: off.beside.id, why: 'the pipe beside it' }])];
}

/** What is burnt comes out of what is drawn: at one speed the first cannot be the greater. */
function burn({ id, burns, draws }: Consumer): Verdict {
    const pairs = burns.flatMap((burnt) => draws.filter((drawn) => Math.abs(drawn.at.si - burnt.at.si) < 1e-6).map((drawn) => ({ burnt, drawn })));
    if (pairs.length === 0) return { outcome: 'not applicable', about: id, why: 'burn and gross flow are not both written for one speed' };
    const wrong = pairs.find(({ burnt, drawn }) => (burnt.value.low ?? burnt.value.si) > (drawn.value.high ?? drawn.value.si) * 1.0001);
    if (!wrong) return { outcome: 'pass', about: id, rests: [{ about: id, fact: 'burns' }, { about: id, fact: 'draws' }] };
    const flow = (si: number): string => `${Number(fromSI(si, 'L/h').toPrecision(3))} L/h`;
    return {
        ...queried(id, 'burns', `${id} burns ${flow(wrong.burnt.value.si)} at ${Math.round(fromSI(wrong.burnt.at.si, 'rpm'))} rpm and draws only ${flow(wrong.drawn.value.si)}.`),
        advice: 'Take both again from the maker\'s data: `draws` is all that passes the filters, burnt or returned.',
    };
}

/** A fitting may hang a little under the inside or over it; more is a height from another datum. */
const SLACK = 0.01;

function mouths(tank: Tank): Verdict {
    const { id, fittings } = tank;
    const inside = span(tank, UPRIGHT);
    const known = fittings.filter(({ mouth }) => mouth?.up);
    if (!inside || known.length === 0) return { outcome: 'not applicable', about: id, why: 'its size and height and the mouth of a pipe in it are not all written' };
    const wrong = known.find(({ mouth }) => mouth!.up!.si < inside.low - SLACK || mouth!.up!.si > inside.high + SLACK);
    return wrong ? queried(wrong.id, 'mouth', `${wrong.id} ends at ${mm(wrong.mouth!.up!.si)}, outside ${id}, which reaches from ${mm(inside.low)} to ${mm(inside.high)}.`, [{ id, why: 'the tank' }])
        : { outcome: 'pass', about: id, rests: [{ about: id, fact: shapeFact(tank) }, ...known.map((fitting) => ({ about: fitting.id, fact: 'mouth' }))] };
}
