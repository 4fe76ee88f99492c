/** A drawing told in words, downstream, for whoever does not see it: each line once, in the order in which the fuel meets its parts. */
import type { Boat, Id, Part } from '../../model/boat';
import type { ResolvedLineUp } from '../../analysis/topology/line-ups';
import { isValve } from '../../analysis/topology/network';
import { joinedTo } from '../../analysis/topology/joints';
import { listed, mm } from '../../model/words';
import { fromSI } from '../../model/units';
import { figure } from '../figures';
import { endWords } from './ends';
import { LOOK_WORDS } from './marks';
import type { Mark } from './markup';
import { drawnLineUp, marksById, type Said, type Sheet } from './sheet';

export function inWords(boat: Boat, sheet: Sheet): Said[] {
    const lineUp = drawnLineUp(boat, sheet.lineUp);
    const marks = marksById(sheet.markup);
    const said: Said[] = [];
    const tell = (depth: number, text: string, about?: Id): void => { said.push({ depth, text: text + marked(about === undefined ? undefined : marks.get(about)), ...(about !== undefined && { about }) }); };
    if (sheet.markup) { tell(0, sheet.markup.title); for (const note of sheet.markup.notes) tell(1, note); }
    tell(0, 'Tanks');
    for (const tank of boat.tanks) {
        tell(1, [tank.id, tank.title, tank.space === undefined ? undefined : `in ${tank.space}`].filter(Boolean).join(', '), tank.id);
        for (const { id, kind, mouth } of tank.fittings) tell(2, `${id}, ${kind}${mouth?.up ? `, mouth at ${mm(mouth.up.si)}` : ''}`, id);
    }
    const named = new Map(boat.parts.map((part) => [part.id, part]));
    const told = new Set<Id>();
    for (const course of boat.courses) {
        tell(0, `${course.id}${course.title === undefined ? '' : `, ${course.title}`}: ${course.service} from ${endWords(course.from)} to ${endWords(course.to)}`, course.id);
        for (const id of course.parts) { told.add(id); part(named.get(id)); }
    }
    const others = boat.parts.filter(({ id }) => !told.has(id));
    if (others.length > 0) tell(0, 'What stands between lines');
    for (const other of others) part(other);
    if (boat.consumers.length > 0) tell(0, 'Engines and other consumers');
    for (const { id, title, kind, vents } of boat.consumers) {
        tell(1, `${id}, ${title ?? kind}`, id);
        for (const vent of vents) tell(2, `${vent.tag}, ${vent.title ?? 'bleed point'}`, vent.id);
    }
    return said;

    function part(of: Part | undefined): void {
        if (!of) return;
        tell(1, describe(boat, of, sheet.markup?.positions ? { ...lineUp!, positions: sheet.markup.positions } : lineUp), of.id);
        for (const vent of of.vents) tell(2, `${vent.tag}, ${vent.title ?? 'bleed point'}`, vent.id);
    }
}

const marked = (marks: readonly Mark[] | undefined): string => marks === undefined ? '' : ` (${listed(marks.map(({ as, words }) => words === undefined ? LOOK_WORDS[as] : as === 'number' || as === 'finding' ? `${LOOK_WORDS[as]} ${words}` : words))})`;

/** Of a part turned end for end, whose sign is drawn so. */
export const REVERSED = 'its arrow points against the line';

function describe(boat: Boat, part: Part, lineUp: ResolvedLineUp | undefined): string {
    const position = isValve(part) ? lineUp?.positions.get(part.id) : undefined;
    const open = part.kind === 'tee' ? joinedTo(boat, part.id) : [];
    return [
        part.tag === undefined ? part.name : `${part.tag}, ${part.kind}`, part.title, part.bore && `bore ${figure(fromSI(part.bore.si, 'mm'))} mm`,
        part.reversed ? REVERSED : undefined, isValve(part) ? position ?? 'not placed' : undefined, lineUp?.assumedOpen.includes(part.id) && position === 'open' ? 'taken so, since nothing says how it stands' : undefined, part.space === undefined ? undefined : `in ${part.space}`,
        open.length > 2 ? `joins ${open.length} lines` : undefined,
    ].filter(Boolean).join(', ');
}
