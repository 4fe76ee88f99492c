/** The bleeding of a service procedure as steps: pads and cans under what is bled, power for electric pumps, what stands under each bleed. */
import type { Consumer, Id } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { segmentOf } from '../../analysis/air/vents';
import { otherValves, type PlannedStep } from '../bleed';
import type { Bled } from './bleeding';
import { canFor, runsByTube, streamAt, type Comes } from './drains';
import type { PlannedServiceStep } from './plan';
import type { Remark } from './remarks';
import { planned } from './step-of';
import { isMotor } from './stage';
import type { Visit } from './visit';

/** Under each part that is bled. */
const PADS_BLED = 1;

/** Valves back, pads and cans under what is bled, each vent with its driver, and what else is done while all is closed. */
export function bleedingSteps(visit: Visit, bled: Bled, afterwards: readonly PlannedServiceStep[], opened: readonly Id[], streams: ReadonlyMap<Id, Comes>, consumers: readonly Consumer[], fluid: 'fuel' | 'coolant'): PlannedServiceStep[] {
    const { network } = visit;
    const all: readonly PlannedStep[] = [...bled.steps, ...afterwards.map(({ step }): PlannedStep => ({ step: step as PlannedStep['step'], cautions: [], traps: [] }))];
    const hasOff = fluid === 'fuel' && consumers.some(isMotor);
    const first = all.findIndex(({ step }) => isPumped(step));
    const steps: PlannedServiceStep[] = [];
    let power: Id | undefined;
    for (const [i, { step, traps, drawUp }] of all.entries()) {
        const said = afterwards.find((one) => one.step === step);
        if (i === first) steps.push(...catchSteps(visit, all.map((one) => one.step), opened, streams));
        const electric = step.do === 'bleed' && step.driver.by === 'electric' ? step.driver.part : undefined;
        if (electric !== undefined && power === undefined && hasOff) steps.push(planned('bleed', { do: 'switch', thing: 'battery switch', to: 'on' }, { say: 'needs power', with: { pump: electric } }));
        power = electric ?? power;
        const remarks: Remark[] = [...(said?.remarks ?? []), ...bleedRemarks(visit, step, fluid)];
        steps.push({ ...planned(first >= 0 && i >= first ? 'bleed' : 'restore', step, ...remarks), ...(traps.length > 0 && { traps }), ...(drawUp && { drawUp }) });
        const next = all.slice(i + 1).map((one) => one.step).find(isPumped);
        if (power === undefined || electric === undefined || (next?.do === 'bleed' && next.driver.part === power)) continue;
        // Off before hands turn anything that the starter turns as well.
        steps.push(planned('bleed', { do: 'stop', part: power }), ...(hasOff ? [planned('bleed', { do: 'switch', thing: 'battery switch', to: 'off' })] : []));
        power = undefined;
    }
    steps.push(...otherValves(network, bled.state.positions, visit.ends).map((step) => planned(first >= 0 ? 'bleed' : 'restore', step)));
    const idle = consumers.filter(({ id }) => !bled.consumers.includes(id)).map(({ id }) => id);
    const last = steps.at(-1);
    const told: Remark[] = [
        ...(idle.length > 0 && first < 0 ? [{ say: 'nothing to bleed', with: { consumers: idle } } as const] : []),
        ...consumers.filter(({ id, selfBleeding }) => selfBleeding && bled.consumers.includes(id)).map(({ id }): Remark => ({ say: 'clears itself', with: { consumer: id } })),
    ];
    if (last && told.length > 0) steps[steps.length - 1] = { ...last, remarks: [...last.remarks, ...told] };
    return steps;
}

/** A step that brings fuel out of a bleed point. */
export const isPumped = (step: ServiceStep): step is Extract<ServiceStep, { do: 'bleed' | 'prove' }> => step.do === 'bleed' || step.do === 'prove';

/** Under what is bled: pads, and a can for the end of the tube where much comes; what was opened has both. */
function catchSteps({ network }: Visit, all: readonly ServiceStep[], opened: readonly Id[], streams: ReadonlyMap<Id, Comes>): PlannedServiceStep[] {
    const under = new Set(all.flatMap((step) => (isPumped(step) ? segmentOf(network, step.vent) ?? [] : [])));
    return [...under].filter((part) => !opened.includes(part)).flatMap((part): PlannedServiceStep[] => {
        const stream = streams.get(part);
        return [planned('bleed', { do: 'place', thing: 'pads', part, count: PADS_BLED }), ...(stream ? [planned('bleed', { do: 'place', thing: 'can', part, holds: canFor(stream, 1) })] : [])];
    });
}

/** What comes through tubes into the can under each part that is bled so. */
export function streamsOf(visit: Visit, all: readonly ServiceStep[]): ReadonlyMap<Id, Comes> {
    const streams = new Map<Id, Comes>();
    for (const step of all) {
        const part = step.do === 'bleed' && runsByTube(visit, step) ? segmentOf(visit.network, step.vent) : undefined;
        if (part === undefined || step.do !== 'bleed') continue;
        const [more, { volume, unknown }] = [streamAt(visit, step), streams.get(part) ?? { volume: 0, unknown: [] }];
        streams.set(part, { volume: volume + (more ?? 0), unknown: more === undefined ? [part] : unknown });
    }
    return streams;
}

/** Beside an electric pump, one is at its switch and one at the bleed point: where the switch is, no model says. */
export const peopleFor = (steps: readonly ServiceStep[]): number => (steps.some((step) => step.do === 'bleed' && step.driver.by === 'electric') ? 2 : 1);

function bleedRemarks({ network }: Visit, step: ServiceStep, fluid: 'fuel' | 'coolant'): Remark[] {
    if (step.do === 'prove') return [{ say: 'no stroke', with: { pump: step.part } }];
    if (step.do !== 'bleed') return [];
    const { vent, driver } = step;
    const engine = fluid === 'fuel' ? [...network.consumers.values()].find(({ vents }) => vents.at(-1)?.id === vent) : undefined;
    return [
        ...(driver.by === 'electric' ? [{ say: 'two at it', with: { pump: driver.part, vent } } as const] : []),
        ...(driver.by === 'gravity' ? [{ say: 'runs by itself', with: { tank: driver.part, vent, stop: [] } } as const] : []),
        ...(engine ? [{ say: 'low pressure ends', with: { vent, engine: engine.id } } as const] : []),
    ];
}
