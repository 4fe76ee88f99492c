/** The view beside the text: hears pictures, shows them, and tells what its reader wants. */
import type { ToView } from '../messages';
import { Chooser, tell } from './choose';
import { Drawing } from './drawing';
import { Finder } from './find';
import { element, keep, kept, post } from './host';
import { Mover } from './move';
import { pngOf } from './png';
import { SheetView } from './sheet';
import { tellInWords } from './words';

const before = kept();
let boat = before?.document;
let svg: string | undefined;
/** A view that was hidden comes back as it was, once there is a picture. */
let toRestore = before;

const remember = (): void => { if (boat !== undefined && !toRestore) keep({ document: boat, question: chooser.now, ...sheet.view }); };
const sheet = new SheetView(remember);
const drawing = new Drawing();
let { kind } = before?.question ?? { kind: 'schematic' };
const chooser = new Chooser(before?.question ?? { kind }, (question) => {
    // Another kind of drawing is another sheet.
    if (question.kind !== kind) sheet.rest();
    ({ kind } = question);
    post({ do: 'ask', question });
    remember();
});
const finder = new Finder((id) => { if (drawing.mark(id)) sheet.show(drawing.symbol(id!)!, true); });
const mover = new Mover(drawing, sheet, () => chooser.now.kind === 'schematic');
drawing.listen({ open: (id) => post({ do: 'open', id }), place: (id, by) => mover.place(id, by) });

element('svg').addEventListener('click', () => post({ do: 'save svg' }));
element('png').addEventListener('click', () => {
    if (svg !== undefined) pngOf(svg).then((bytes) => post({ do: 'save png', bytes }), () => tell('told', 'The drawing is too large for an image of points. Save it as SVG.'));
});

const folderOf = (file: string | undefined): string | undefined => file?.slice(0, file.lastIndexOf('/'));

window.addEventListener('message', ({ data }: MessageEvent<ToView>) => {
    if (data.tell === 'here') {
        if (drawing.mark(data.id)) sheet.show(drawing.symbol(data.id!)!, false);
        return;
    }
    if (data.tell === 'nothing') return tell('told', data.words);
    const { picture } = data;
    if (boat !== undefined && folderOf(boat) !== folderOf(data.document)) {
        chooser.forget();
        sheet.rest();
        // What is drawn of the one is no drawing of the other, which may have none.
        if (picture.svg === undefined) {
            svg = undefined;
            drawing.clear();
            tellInWords([]);
            element('heading').textContent = 'Drawing';
        }
    }
    boat = data.document;
    chooser.offer(picture);
    if (picture.svg !== undefined) {
        const { focused } = drawing;
        const drawn = drawing.read(picture);
        if (drawn) {
            svg = picture.svg;
            sheet.put(drawn.svg, drawn.size);
            drawing.settle(focused);
            element('heading').textContent = drawn.svg.getAttribute('aria-label');
            tellInWords(picture.words ?? []);
        } else tell('told', 'The drawing that was made cannot be shown; the one before it stays.');
        if (toRestore) sheet.view = toRestore;
        toRestore = undefined;
    }
    finder.know(picture.choices.things, (id) => drawing.symbol(id) !== undefined);
    mover.know(picture.placed);
    remember();
});

post({ do: 'ask', question: chooser.now, anew: true });
