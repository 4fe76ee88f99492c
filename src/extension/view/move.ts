/** Moves symbols up and down the sheet, with all that stands in their line: Alt and the pointer, Alt and the arrows. Told once they lie still. */
import { idOf, type Drawing } from './drawing';
import { element, post } from './host';
import type { SheetView } from './sheet';

/** After this without another key it lies still, ms. */
const STILL = 400;

export class Mover {
    private moving: { readonly id: string; by: number } | undefined;
    private timer: ReturnType<typeof setTimeout> | undefined;
    /** Things that stand where somebody put them. */
    private placed: ReadonlySet<string> = new Set();
    /** The thing that the keys were at last. */
    private at: string | undefined;

    constructor(private readonly drawing: Drawing, sheet: SheetView, private readonly isAllowed: () => boolean) {
        const scroller = element('sheet');
        let from: number | undefined;
        scroller.addEventListener('pointerdown', (event) => {
            const id = idOf(event.target);
            if (event.button !== 0 || !event.altKey || id === undefined || !this.isAllowed()) return;
            this.moving = { id, by: 0 };
            from = event.clientY;
            scroller.setPointerCapture(event.pointerId);
        });
        scroller.addEventListener('pointermove', ({ clientY }) => { if (from !== undefined) this.shift((clientY - from) / sheet.scale); });
        scroller.addEventListener('pointerup', () => { if (from !== undefined) this.end(); from = undefined; });
        scroller.addEventListener('pointercancel', () => { this.shift(0); this.moving = undefined; from = undefined; });
        scroller.addEventListener('focusin', ({ target }) => { this.at = idOf(target); this.offer(); });
        element('undo').addEventListener('click', () => { if (this.at !== undefined) this.place(this.at, undefined); });
    }

    /** By so much, or back to where it stands by itself. */
    place(id: string, by: number | undefined): void {
        if (!this.isAllowed()) return;
        clearTimeout(this.timer);
        if (by === undefined) return post({ do: 'place', id });
        if (this.moving?.id !== id) this.moving = { id, by: 0 };
        this.shift(this.moving.by + by);
        this.timer = setTimeout(() => this.end(), STILL);
    }

    know(placed: readonly string[]): void {
        this.placed = new Set(placed);
        this.offer();
    }

    private offer(): void {
        element('put').hidden = this.at === undefined || !this.placed.has(this.at) || !this.isAllowed();
        element('placed').textContent = this.at ?? '';
    }

    private shift(by: number): void {
        if (!this.moving) return;
        this.moving.by = by;
        this.drawing.symbol(this.moving.id)?.setAttribute('transform', `translate(0 ${by})`);
    }

    private end(): void {
        const { moving } = this;
        this.moving = undefined;
        if (moving && moving.by !== 0) post({ do: 'place', id: moving.id, by: Math.round(moving.by) });
    }
}
