// @ts-nocheck
// TEMPORARY: until the schematic is there.
import { drawSchematic } from '../documents/drawing/schematic/draw';
import { schematicOf } from '../documents/drawing/schematic/place';
import { layOut } from '../layout/elk';
export const standIn = async (boat, sheet) => {
    const plan = schematicOf(boat);
    const said = boat.courses.flatMap((course) => [{ text: course.id, depth: 0 }, ...[course.from.part, ...course.parts, course.to.part].filter((id) => id).map((id) => ({ text: `${id} after the one before`, about: id, depth: 1 }))]);
    return { svg: drawSchematic(plan, await layOut(plan.plan), sheet).replace(/ stroke-width="1" stroke-width/g, ' stroke-width').replace(/ stroke-width="1"( [^>]*stroke-width)/g, '$1'), words: said };
};
