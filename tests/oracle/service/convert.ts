/** From the boat and the steps of the program to the plain ones of the service oracle. Only this file and the tests know both. */
import type { Boat, LineUp, Part, Vent } from '../../../src/model/boat';
import type { Place } from '../../../src/model/measure';
import type { ServiceStep } from '../../../src/model/step';
import type { Job } from '../../../src/model/upkeep';
import { planBleed } from '../../../src/procedures/bleed';
import { turnedTo } from './simulate';
import type { At, PlainBoat, PlainKind, PlainPart } from './boat';
import type { PlainJob, PlainStep } from './steps';

const at = (place: Place | undefined): At | undefined => (place?.up === undefined ? undefined
    : { up: place.up.si, ...(place.fwd && { fwd: place.fwd.si }), ...(place.stbd && { stbd: place.stbd.si }) });
const litres = (cubicMetres: number): number => cubicMetres * 1000;
const ventOf = (vent: Vent): PlainPart['vents'][number] => ({ name: vent.tag, ...(vent.at?.up && { at: at(vent.at)! }) });

const KINDS: Record<Part['kind'], PlainKind> = {
    hose: 'pipe', tube: 'pipe', shutoff: 'shutoff', check: 'check', tee: 'tee', filter: 'filter', strainer: 'filter', gauge: 'gauge', radiator: 'other',
    'hand primer': 'hand pump', 'electric primer': 'electric pump', 'lift pump': 'lever pump', 'electric pump': 'electric pump', selector: 'selector', changeover: 'selector',
};

export function plainBoat(boat: Boat): PlainBoat {
    // Pipes of vents and fills are there to be looked at; nothing comes through them.
    const wet = boat.courses.filter((course) => course.service !== 'vent' && course.service !== 'fill');
    const { parts } = boat;
    const part = (one: Part): PlainPart => {
        const volume = one.holds?.si ?? (one.bore && one.length ? Math.PI / 4 * one.bore.si ** 2 * one.length.si : undefined);
        const positions = one.kind === 'shutoff' ? { open: [['in', 'out']], shut: [] } : one.positions.length > 0 ? Object.fromEntries(one.positions.map(({ name, joins }) => [name, joins])) : undefined;
        return {
            name: one.id, kind: KINDS[one.kind], ports: one.ports.length > 0 ? one.ports : ['in', 'out'], vents: one.vents.map(ventOf), seals: one.seals,
            ...(at(one.at) && { at: at(one.at)! }), ...(one.crest?.up && { crest: one.crest.up.si }), ...(one.lid?.up && { lid: at(one.lid)! }), ...(one.drain?.up && { drain: at(one.drain)! }),
            ...(volume !== undefined && { litres: litres(volume) }), ...(one.whenOff && { whenOff: one.whenOff }), ...(one.reversed && { reversed: true }),
            ...(one.prefill && { prefill: one.prefill }), ...(one.role === 'primary' && { primary: true }), ...(positions && { positions }), ...(one.gangedWith && { gang: one.gangedWith }),
        };
    };
    const valves = parts.filter((one) => one.kind === 'shutoff' || one.positions.length > 0);
    const lineUp = (one: LineUp): Record<string, string> => {
        const base = boat.lineUps.find((other) => other.id === one.base);
        const inherited = base ? lineUp(base) : Object.fromEntries(valves.flatMap((valve) => {
            const normal = valve.normally ?? (valve.kind === 'shutoff' ? 'open' : undefined);
            return normal ? [[valve.id, normal]] : [];
        }));
        const own = Object.fromEntries(one.settings.filter(({ part: id }) => valves.some((valve) => valve.id === id)).map(({ part: id, position }) => [id, position]));
        const ganged = valves.flatMap((valve) => {
            const leader = valve.gangedWith ? own[valve.gangedWith] : undefined;
            return leader !== undefined && !(valve.id in own) ? [[valve.id, leader]] : [];
        });
        return { ...inherited, ...own, ...Object.fromEntries(ganged) };
    };
    return {
        tanks: boat.tanks.map((tank) => {
            const { box } = tank;
            const corner = at(box?.corner);
            return {
                name: tank.id, fluid: tank.carries === undefined || tank.carries === 'diesel' ? 'fuel' as const : 'water' as const,
                ...(box && corner?.fwd !== undefined && corner.stbd !== undefined && {
                    box: {
                        fwd: [corner.fwd, corner.fwd + box.length] as const, up: [corner.up, corner.up + box.height] as const,
                        stbd: [Math.min(corner.stbd, corner.stbd + box.outboard * box.breadth), Math.max(corner.stbd, corner.stbd + box.outboard * box.breadth)] as const,
                    },
                }),
                fittings: tank.fittings.flatMap((fitting) => (fitting.kind === 'pickup' || fitting.kind === 'drop' ? [{
                    name: fitting.port, kind: fitting.kind, ...(at(fitting.mouth) && { mouth: at(fitting.mouth)! }), ...(at(fitting.top) && { top: at(fitting.top)! }),
                    ...(fitting.bore && fitting.mouth?.up && fitting.top?.up && { litres: litres(Math.PI / 4 * fitting.bore.si ** 2 * (fitting.top.up.si - fitting.mouth.up.si)) }),
                }] : [])),
            };
        }),
        consumers: boat.consumers.map((one) => {
            const { exhaust } = one;
            // The muffler fills at the flow of the raw water pump, which follows the speed: free volume over flow times cranking over rated speed.
            const floods = exhaust?.mufflerFree && exhaust.rawWater && exhaust.cranks ? exhaust.mufflerFree.si / (exhaust.rawWater.value.si * exhaust.cranks.si / exhaust.rawWater.at.si) : undefined;
            return {
                name: one.id, kind: one.kind, vents: one.vents.map(ventOf), ...(at(one.inlet) && { inlet: at(one.inlet)! }), ...(one.holds && { litres: litres(one.holds.si) }),
                ...(one.backflow && { backflow: one.backflow }), ...(one.injection?.pump === 'common-rail' && { rail: true }), ...(one.selfBleeding && { selfBleeding: true }),
                ...(exhaust && { exhaust: { wet: exhaust.kind === 'wet', ...(floods !== undefined && { floods }) } }),
            };
        }),
        parts: parts.map(part),
        joins: boat.joints.filter((joint) => wet.some((course) => course.id === joint.course)).map(({ from, to }) => [from, to] as const),
        lineUps: Object.fromEntries(boat.lineUps.map((one) => [one.id, lineUp(one)])),
        laidUp: boat.lineUps.filter((one) => one.use === 'laid up').map((one) => one.id),
        envelope: {
            heel: boat.vessel.envelope.heel?.high ?? boat.vessel.envelope.heel?.si ?? 0, trim: boat.vessel.envelope.trim?.high ?? boat.vessel.envelope.trim?.si ?? 0,
            low: boat.vessel.envelope.level?.low ?? 0, high: boat.vessel.envelope.level?.high ?? 1,
        },
    };
}

export const plainJobs = (jobs: readonly Job[]): PlainJob[] => jobs.map(({ verb, part, piece }) => ({ verb, piece, ...(part && { part }) }));

/** The steps of a procedure, with those of a bleed sequence in the place of `do bleed`; undefined where that has none from there. */
export function plainSteps(boat: Boat, plain: PlainBoat, steps: readonly ServiceStep[], { starts, ends }: { readonly starts: string; readonly ends: string }): PlainStep[] | undefined {
    let setting = plain.lineUps[starts] ?? {};
    const made: PlainStep[] = [];
    for (const step of steps) {
        if (step.do === 'set') setting = turnedTo(plain, setting, step.part, step.position);
        if (step.do !== 'sequence') { made.push(plainStep(boat, step)!); continue; }
        const here = Object.keys(plain.lineUps).find((name) => Object.entries(plain.lineUps[name]!).every(([valve, position]) => setting[valve] === position));
        const found = here === undefined ? undefined : planBleed(boat, { engine: step.engine, opened: step.opened, prefilled: step.prefilled, ranDry: step.ranDry === true, starts: here, ends });
        if (!found || 'refused' in found) return undefined;
        if (step.ranDry) made.push({ do: 'ran dry', engine: step.engine });
        made.push(...found.steps.map((one) => plainStep(boat, one.step)!));
        setting = plain.lineUps[ends] ?? setting;
    }
    return made;
}

/** One step; undefined where it stands for a whole sequence. */
function plainStep(boat: Boat, step: ServiceStep): PlainStep | undefined {
    const tag = (vent: string): string => [...boat.parts, ...boat.consumers].flatMap((one) => one.vents).find((one) => one.id === vent)?.tag ?? vent;
    switch (step.do) {
        case 'set': return { do: 'set', part: step.part, position: step.position };
        case 'open': case 'close': return { do: step.do, part: step.part, opening: step.opening };
        case 'hold': return { do: 'hold', valves: step.valves, part: step.part, opening: step.opening };
        case 'remove': case 'fit': return { do: step.do, part: step.part, pieces: step.pieces, ...(step.again && { again: true }) };
        case 'look': return { do: 'look', piece: step.piece, ...(step.part && { part: step.part }) };
        case 'clean': return { do: 'clean', part: step.part, piece: step.piece };
        case 'switch': return { do: 'switch', thing: step.thing, to: step.to, ...(step.of && { of: step.of }) };
        case 'place': return { do: 'place', thing: step.thing, part: step.part, ...(step.holds !== undefined && { holds: litres(step.holds) }) };
        case 'prefill': return { do: 'prefill', part: step.part };
        case 'bleed': return { do: 'bleed', vent: tag(step.vent), driver: step.driver.part };
        case 'prove': return { do: 'prove', pump: step.part, vent: tag(step.vent) };
        case 'start': return { do: 'start', engine: step.engine, tries: step.tries, seconds: step.seconds };
        case 'stop': return { do: 'stop', what: step.part, ...(step.keyOut && { keyOut: true }) };
        case 'run': return {
            do: 'run', what: step.part, ends: !boat.consumers.some((one) => one.id === step.part) && (step.seconds !== undefined || step.until !== undefined),
            ...(step.until && { until: { tank: step.until.tank, holds: litres(step.until.holds) } }),
        };
        case 'read': return { do: 'read', gauge: step.gauge, ...(step.speed !== undefined && { running: true }) };
        case 'caution': return { do: 'caution', topic: step.topic, ...(step.part && { part: step.part }) };
        case 'log': return { do: 'log' };
        case 'wait': return { do: 'words' };
        case 'sequence': return undefined;
    }
}
