/** Where the free surface of each tank stands at the lowest level, upright and in each corner of the envelope. */
import type { Tank } from '../../../model/boat';
import { exactly } from '../../../analysis/estimate';
import { attitudesOf } from '../../../analysis/opening/condition';
import type { Attitude } from '../../../analysis/tanks/attitude';
import { surfaceAt } from '../../../analysis/tanks/liquid';
import type { View } from '../../../checks/check';
import { distinct, sizeMissing, whereMissing } from '../../../analysis/missing';
import { attitudeWords } from '../../../model/words';
import { carried, type Working } from '../working';
import { depthSteps, leanInputs, leanedBox } from './box';
import { levelWorking, type Level } from './tanks';

export const surfaceWorkings = (view: View): Working[] => view.boat.tanks.filter(({ carries = 'diesel' }) => carries === 'diesel').flatMap((tank) => {
    const all = attitudesOf(view.boat).map((attitude) => surfaceWorking(view, tank, attitude));
    // What is not known upright is known nowhere, and is asked for once.
    return all[0]?.result ? all : all.slice(0, 1);
});

const WHERE: Readonly<Record<Level, string>> = { lowest: 'lowest level', half: 'half full', fullest: 'highest level' };

export function surfaceWorking(view: Pick<View, 'boat'>, tank: Tank, attitude: Attitude, level: Level = 'lowest'): Working {
    const filled = levelWorking(view, tank, level);
    const volume = filled.result?.value.si;
    const words = attitudeWords(attitude);
    const shared = { id: `surface ${tank.id}, ${level === 'lowest' ? '' : `${WHERE[level]}, `}${words}`, about: tank.id, what: `The height of the free surface of ${tank.id}, as she lies`, where: `${WHERE[level]}, ${words}`, notes: [] };
    const surface = volume === undefined ? undefined : surfaceAt(tank, volume, attitude);
    const inputs = carried('V', `what is in ${tank.id}`, filled);
    if (volume === undefined || surface === undefined) {
        const place = volume === undefined ? [] : [surfaceAt(tank, volume, { heel: 0, trim: 0 }) === undefined ? sizeMissing(tank.id) : whereMissing(tank.id, tank.id)];
        return { ...shared, formula: 'S = q + d', source: 'geometry', inputs, steps: [], missing: distinct([...filled.missing, ...place]) };
    }
    const result = { symbol: 'S', value: exactly(surface), unit: 'mm' };
    const leaned = leanedBox(tank, attitude);
    if (!leaned) return { ...shared, formula: `S = the height, as she lies, below which V of ${tank.id} stands`, source: 'search over the closed mesh of its shape', inputs: [...inputs, ...leanInputs(attitude)], steps: [], byMesh: true, result, missing: [] };
    const { steps, note } = depthSteps(leaned, tank.box!, volume, surface - leaned.low);
    return { ...shared, formula: 'S = q + d', source: 'geometry of a box under a level plane', inputs: [...inputs, ...leaned.inputs], steps: [...leaned.steps, ...steps], result, notes: [note], missing: [] };
}
