/** Moves symbols: Alt and the pointer, Alt and the arrows. Where one comes to lie is told once it lies still. */
import { idOf, type Drawing } from './drawing';
import { element, post } from './host';
import type { SheetView } from './sheet';

/** After this without another key it lies still, ms. */
const STILL = 400;

export class Mover {
    private moving: { readonly id: string; readonly middle: readonly [number, number]; by: [number, number] } | undefined;
    private timer: ReturnType<typeof setTimeout> | undefined;

    /** Things that stand where somebody put them. */
    private placed: ReadonlySet<string> = new Set();
    private at: string | undefined;

    constructor(private readonly drawing: Drawing, sheet: SheetView, private readonly isAllowed: () => boolean) {
        const scroller = element('sheet');
        let from: readonly [number, number] | undefined;
        scroller.addEventListener('pointerdown', (event) => {
            const id = idOf(event.target);
            if (event.button !== 0 || !event.altKey || id === undefined || !this.begin(id)) return;
            from = [event.clientX, event.clientY];
            scroller.setPointerCapture(event.pointerId);
        });
        scroller.addEventListener('pointermove', ({ clientX, clientY }) => { if (from) this.shift([(clientX - from[0]) / sheet.scale, (clientY - from[1]) / sheet.scale]); });
        scroller.addEventListener('pointerup', () => { if (from) this.end(); from = undefined; });
        scroller.addEventListener('pointercancel', () => { this.moving = undefined; from = undefined; });
        scroller.addEventListener('focusin', ({ target }) => { this.at = idOf(target); this.offer(); });
        element('undo').addEventListener('click', () => { if (this.at !== undefined) this.place(this.at, undefined); });
    }

    /** By so much, or back to where it stands by itself. */
    place(id: string, by: readonly [number, number] | undefined): void {
        if (!this.isAllowed()) return;
        clearTimeout(this.timer);
        if (!by) return post({ do: 'place', id });
        if (this.moving?.id !== id && !this.begin(id)) return;
        const { by: [x, y] } = this.moving!;
        this.shift([x + by[0], y + by[1]]);
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

    private begin(id: string): boolean {
        const symbol = this.drawing.symbol(id);
        if (!symbol || !this.isAllowed()) return false;
        this.moving = { id, middle: middleOf(symbol), by: [0, 0] };
        return true;
    }

    private shift([x, y]: readonly [number, number]): void {
        const { moving } = this;
        if (!moving) return;
        moving.by = [x, y];
        this.drawing.symbol(moving.id)?.setAttribute('transform', `translate(${x} ${y})`);
    }

    private end(): void {
        const { moving } = this;
        this.moving = undefined;
        if (!moving || (moving.by[0] === 0 && moving.by[1] === 0)) return;
        post({ do: 'place', id: moving.id, at: { x: Math.round(moving.middle[0] + moving.by[0]), y: Math.round(moving.middle[1] + moving.by[1]) } });
    }
}

function middleOf(symbol: SVGGraphicsElement): readonly [number, number] {
    const { x, y, width, height } = symbol.getBBox();
    return [x + width / 2, y + height / 2];
}
