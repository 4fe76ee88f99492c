/** Where each thing stands on a sheet: one point a thing, read from the file. */
import { apply, matrixOf, shapesOf, type Point } from './shapes';
import { drawingOf, signIn } from './walk';
import { elements, readXml } from './xml';

export function standing(svg: string): ReadonlyMap<string, Point> {
    const found = new Map<string, Point>();
    for (const group of elements(drawingOf(readXml(svg)))) {
        const id = group.attributes.get('data-id');
        if (id === undefined) continue;
        const sign = signIn(group);
        found.set(id, sign ? apply(matrixOf(sign), [0, 0]) : shapesOf(group)[0]!.strokes[0]![0]!);
    }
    return found;
}
