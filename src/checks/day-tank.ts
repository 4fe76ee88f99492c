/** Tanks that a pump fills from another tank. */
import type { Part, Tank } from '../model/boat';
import { linesOut } from '../analysis/tanks/to-outside';
import { isPump } from '../analysis/topology/network';
import { tanksAfter, tanksBefore } from '../analysis/topology/paths';
import type { View } from './check';

/** The pumps of transfer courses that fill it, hand pumps too. */
export function filledBy({ boat, network, allOpen }: View, { id: tank }: Tank): readonly Part[] {
    const pumps = boat.courses.filter(({ service }) => service === 'transfer').flatMap(({ parts }) => parts.flatMap((id) => network.parts.get(id) ?? [])).filter(isPump);
    return pumps.filter(({ id }) => tanksAfter(allOpen, `${id}:out`).includes(tank) && tanksBefore(allOpen, `${id}:in`).some((other) => other !== tank));
}

/** Filled by a pump from another tank, and not from deck. */
export const isDayTank = (view: View, tank: Tank): boolean => !tank.fittings.some(({ id, kind }) => kind === 'fill' && linesOut(view.network, id).length > 0) && filledBy(view, tank).length > 0;
