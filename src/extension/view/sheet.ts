/**
 * The sheet under the eye: how large it is shown, and which piece of it. The drawing in it may be put in anew at any time; both stay. Until
 * somebody zooms, it is as large as it fits, and large enough to be read.
 */
import { element } from './host';

const STEP = 1.25;
const [LEAST, MOST] = [0.1, 8];
/** Of the least that can be read: words of 11 units are 8 pixels. */
const READABLE = 0.75;
/** Of a small boat. */
const LARGE = 2;
/** Fewer pixels are a shaky click. */
const DRAG = 4;

type At = readonly [x: number, y: number];
export interface View { readonly zoom?: number | 'whole'; readonly left: number; readonly top: number }

export class SheetView {
    private readonly scroller = element('sheet');
    private readonly paper = element('paper');
    private size: At = [1, 1];
    /** Nothing until somebody zooms. */
    private zoom: number | 'whole' | undefined;
    private readonly pointers = new Map<number, At>();
    /** The pointer was drawn over the sheet: what comes of it is no click. */
    private dragged = false;

    constructor(private readonly changed: () => void) {
        const { scroller } = this;
        scroller.addEventListener('wheel', (event) => {
            if (!event.ctrlKey && !event.metaKey) return;
            event.preventDefault();
            this.zoomBy(Math.exp(-Math.max(-50, Math.min(50, event.deltaY)) * 0.01), [event.clientX, event.clientY]);
        }, { passive: false });
        scroller.addEventListener('scroll', () => changed());
        scroller.addEventListener('pointerdown', (event) => this.down(event));
        scroller.addEventListener('pointermove', (event) => this.move(event));
        for (const end of ['pointerup', 'pointercancel'] as const) scroller.addEventListener(end, ({ pointerId }) => this.pointers.delete(pointerId));
        scroller.addEventListener('click', (event) => { if (this.dragged) event.stopPropagation(); this.dragged = false; }, { capture: true });
        scroller.addEventListener('dblclick', () => this.fit());
        scroller.addEventListener('keydown', ({ key, altKey, ctrlKey, metaKey }) => {
            if (altKey || ctrlKey || metaKey) return;
            if (key === '+' || key === '=') this.zoomBy(STEP);
            else if (key === '-') this.zoomBy(1 / STEP);
            else if (key === '0') this.fit();
        });
        new ResizeObserver(() => this.lay()).observe(scroller);
    }

    /** Pixels of the screen for one of the sheet. */
    get scale(): number {
        const { clientWidth, clientHeight } = this.scroller;
        if (typeof this.zoom === 'number') return this.zoom;
        const whole = Math.min(clientWidth / this.size[0], clientHeight / this.size[1]);
        return Math.min(LARGE, Math.max(this.zoom === 'whole' ? LEAST : READABLE, whole));
    }

    get view(): View {
        return { ...(this.zoom !== undefined && { zoom: this.zoom }), left: this.scroller.scrollLeft, top: this.scroller.scrollTop };
    }
    set view({ zoom, left, top }: View) {
        this.zoom = zoom;
        this.lay();
        this.scroller.scrollTo(left, top);
    }

    /** Puts a drawing of this size in. */
    put(svg: SVGElement, size: At): void {
        this.size = size;
        this.paper.replaceChildren(svg);
        this.lay();
    }

    /** The whole sheet. */
    private fit(): void {
        this.zoom = 'whole';
        this.lay();
        this.changed();
    }

    /** As nobody had zoomed: for another sheet. */
    rest(): void {
        this.view = { left: 0, top: 0 };
    }

    /** Brings what is shown there to the middle, or only into sight where it is out of it. */
    show(of: Element, always: boolean): void {
        const [box, frame] = [of.getBoundingClientRect(), this.scroller.getBoundingClientRect()];
        const [x, y] = [box.left + box.width / 2 - frame.left, box.top + box.height / 2 - frame.top];
        const isIn = x >= 0 && x <= frame.width && y >= 0 && y <= frame.height;
        if (always || !isIn) this.scroller.scrollBy(x - frame.width / 2, y - frame.height / 2);
    }

    private lay(): void {
        const { scale } = this;
        this.paper.style.width = `${Math.floor(this.size[0] * scale)}px`;
        this.paper.style.height = `${Math.floor(this.size[1] * scale)}px`;
    }

    /** What lies at the place stays there. */
    private zoomBy(by: number, at?: At): void {
        const { scroller, paper } = this;
        const frame = scroller.getBoundingClientRect();
        const [x, y] = at ?? [frame.left + frame.width / 2, frame.top + frame.height / 2];
        const before = paper.getBoundingClientRect();
        const [right, down] = [(x - before.left) / before.width, (y - before.top) / before.height];
        this.zoom = Math.min(MOST, Math.max(LEAST, this.scale * by));
        this.lay();
        const after = paper.getBoundingClientRect();
        scroller.scrollBy(after.left + right * after.width - x, after.top + down * after.height - y);
        this.changed();
    }

    private down(event: PointerEvent): void {
        if (event.button !== 0 || event.altKey) return;
        this.dragged = false;
        this.pointers.set(event.pointerId, [event.clientX, event.clientY]);
    }

    private move({ pointerId, clientX, clientY }: PointerEvent): void {
        const from = this.pointers.get(pointerId);
        if (!from) return;
        const to: At = [clientX, clientY];
        if (!this.dragged && this.pointers.size === 1 && Math.hypot(to[0] - from[0], to[1] - from[1]) < DRAG) return;
        this.dragged = true;
        this.scroller.setPointerCapture(pointerId);
        const other = [...this.pointers].find(([id]) => id !== pointerId)?.[1];
        this.pointers.set(pointerId, to);
        if (!other) return this.scroller.scrollBy(from[0] - to[0], from[1] - to[1]);
        const apart = (a: At): number => Math.max(1, Math.hypot(a[0] - other[0], a[1] - other[1]));
        this.zoomBy(apart(to) / apart(from), [(to[0] + other[0]) / 2, (to[1] + other[1]) / 2]);
    }
}
