/** Drawings for machines, and the form of that as JSON Schema (draft 2020-12). A field may be added; none changes its meaning. */
import { DRAFT, id, list, number, object, one, text, type Schema } from '../json-schema';
import type { Picture } from './sheet';

/** `title` says what it shows, without the boat. */
export const drawingData = (boat: string, drawing: string, title: string, { svg, words }: Picture): unknown => ({ boat, drawing, title, svg, words });

export const DRAWING_SCHEMA: Schema = {
    $schema: DRAFT, title: 'A drawing by Orlop', description: 'What `orlop draw --json` prints for a drawing that is named.',
    ...object({
        boat: text, drawing: one('schematic', 'elevation'), title: { ...text, description: 'What it shows.' }, svg: { ...text, description: 'A whole SVG file.' },
        words: list(object({ text, 'about?': id, depth: number('0 for a heading, 1 for a line under it, and so on.') }, 'A line of the text alternative.')),
    }),
};
