/**
 * Division: SHUT-AT-TANK, SIPHON-BREAK and RETURN-SHUT-IF-LOW tell, with their weight, that nothing holds a tank back. This rule adds, as a minor remark at the loop
 * itself, that the loop is no answer to them; where they are content it is too. A vent that was fitted to make the loop break is told here alone.
 */
import type { Course } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { fullest, surfaceIn } from '../../analysis/opening/condition';
import { heightOf, UPRIGHT } from '../../analysis/tanks/attitude';
import { runsOut } from '../../analysis/opening/siphon';
import { isPump, reach } from '../../analysis/topology/network';
import { partsBefore } from '../../analysis/topology/paths';
import { capital, mm } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { cornerWords } from '../corner';
import { declared, incoming, lineUpOf, outgoing, type Incoming, type Outgoing } from '../lines';
import { shapeGrounds } from '../../analysis/missing';

export const loopNotBreak: Check = {
    code: 'LOOP-NOT-BREAK', severity: 'minor', slow: true,
    statement: 'A loop that rises above the highest level is not counted as protection against a siphon, and no vent opens a line to the air from which a pump draws.',
    prevents: 'False safety: the line siphons over the loop while it is full; or the engine draws air from the vent of the loop.',
    facts: 'crests and lowest points of lines; shape and place of tanks; shutoffs and checks at their fittings; vents that begin in a supply',
    source: 'physics: a full line siphons over any loop lower than about ten metres; air let in at its top breaks it, and the supply too',
    judge(view) {
        const verdicts = [...view.boat.courses.filter(({ service }) => service === 'vent').flatMap((course) => vented(view, course)), ...loops(view)];
        return verdicts.length > 0 ? verdicts : [nothing('no line rises above the level of its tank in a loop')];
    },
};

/** A vent that begins in a supply, with a pump behind it. */
function vented({ boat, allOpen, network }: View, course: Course): Verdict[] {
    const { part: from, port } = course.from;
    const start = network.index.get(port === undefined ? from ?? '' : `${from!}:${port}`);
    if (from === undefined || start === undefined || network.tanks.has(from)) return [];
    const after = reach(allOpen, allOpen.ways, [start]);
    for (const consumer of boat.consumers) {
        const pump = [...partsBefore(allOpen, `${consumer.id}:in`)].flatMap((id) => network.parts.get(id) ?? []).find((part) => isPump(part) && after.has(network.index.get(`${part.id}:in`)!));
        if (!pump) continue;
        return [{
            outcome: 'fail', about: from, severity: 'major',
            message: `${course.id} opens the supply of ${consumer.id} to the air at ${from}, and ${pump.name} draws there.`,
            reason: `${consumer.id} draws air and stops.`,
            advice: `Take ${course.id} out. Against a siphon put a shutoff, or an anti-siphon check, at the fitting of the tank.`,
            see: [{ id: pump.id, why: 'draws air' }],
        }];
    }
    return [];
}

function loops(view: View): Verdict[] {
    const { boat } = view;
    const upright = fullest(boat).find(({ attitude }) => attitude.heel === 0 && attitude.trim === 0)!;
    const lines: (Outgoing | Incoming)[] = [...outgoing(view), ...incoming(view)];
    return boat.parts.filter(({ crest }) => crest?.up !== undefined).flatMap((pipe): Verdict[] => {
        const about = pipe.id;
        const own = lines.filter(({ tank, parts }) => {
            const surface = surfaceIn(upright, boat.tanks.find(({ id }) => id === tank)!);
            return parts.includes(about) && surface !== undefined && heightOf(pipe.crest, UPRIGHT)! > surface;
        });
        if (own.length === 0) return [];
        for (const line of own) if (!isHeld(line)) {
            const settings = declared(view).map(({ positions }) => positions);
            // What lies beyond the loop, or the loop's own far end.
            const beyond = line.parts.flatMap((part) => runsOut(boat, line.fitting, [part], settings).worst ?? []).filter(({ opening, from }) => opening.part === about || from.through.includes(about));
            const worst = beyond.reduce<typeof beyond[number] | undefined>((most, other) => (most && most.from.head >= other.from.head ? most : other), undefined);
            if (!worst) continue;
            const low = worst.opening.part === about ? 'its own lowest point' : boat.parts.find(({ id }) => id === worst.opening.part)!.name;
            return [{
                outcome: 'fail', about, fact: 'crest', rests: [{ about, fact: 'crest' }, ...shapeGrounds(boat, line.tank)],
                message: `${capital(pipe.name)} rises above ${line.tank} in a loop, which does not stop a siphon: once the line is full, it runs over the loop to ${low}, ${mm(worst.from.head)} below the surface (${cornerWords(boat, worst.condition, line.tank, lineUpOf(view, worst))}).`,
                reason: 'A loop breaks a siphon only when air gets in at its top, and air in the line stops the engine.',
                advice: `Put a shutoff or a check valve at ${line.fitting}, and do not count on the loop.`,
                see: [{ id: line.tank, why: 'what would run out' }],
            }];
        }
        return [{ outcome: 'pass', about, rests: [{ about, fact: 'crest' }] }];
    });
}

/** Whether something other than a loop holds the tank back at its fitting. */
const isHeld = (line: Outgoing | Incoming): boolean => ('valve' in line ? line.valve.outcome === 'pass' : line.held.part !== undefined);
