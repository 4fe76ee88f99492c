/** The drawing in the sheet: which symbol is which thing, where the keys are, and which one the text is at. */
import type { PictureResult } from '../../server/protocol';
import { element } from './host';

const SVG = 'http://www.w3.org/2000/svg';
/** Of the frame around a symbol, in units of the sheet. */
const MARGIN = 4;
/** How far Alt with an arrow moves a symbol. */
const NUDGE = 10;

export class Drawing {
    /** Symbols by the id of their thing, in the order in which they are read. */
    private things = new Map<string, SVGGraphicsElement>();
    private names = new Map<string, string>();
    /** The thing that Tab comes to. */
    private current: string | undefined;
    private here: string | undefined;

    /** Every id that is drawn. */
    get ids(): readonly string[] {
        return [...this.things.keys()];
    }
    symbol(id: string): SVGGraphicsElement | undefined {
        return this.things.get(id);
    }
    /** The thing that the keys are at. */
    get focused(): string | undefined {
        return idOf(document.activeElement);
    }

    /** Reads a drawing; nothing when it is none. */
    read({ svg, words, choices }: PictureResult): { svg: SVGSVGElement; size: readonly [number, number] } | undefined {
        const root = new DOMParser().parseFromString(svg ?? '', 'image/svg+xml').documentElement;
        if (!(root instanceof SVGSVGElement)) return undefined;
        const drawn = document.importNode(root, true);
        const size = [drawn.viewBox.baseVal.width, drawn.viewBox.baseVal.height] as const;
        drawn.setAttribute('width', '100%');
        drawn.setAttribute('height', '100%');
        // An image would hide from a screen reader what is in it, and each thing in it can be gone to.
        drawn.setAttribute('role', 'group');
        const title = drawn.querySelector(':scope > title');
        drawn.setAttribute('aria-label', title?.textContent ?? '');
        title?.remove();
        const found = new Map([...drawn.querySelectorAll<SVGGraphicsElement>('[data-id]')].map((symbol) => [symbol.dataset['id']!, symbol]));
        const order = [...new Set((words ?? []).flatMap(({ about }) => about ?? []))].filter((id) => found.has(id));
        // What the words tell with something else, such as a bleed point with its filter, follows what it is drawn after.
        for (const [i, id] of [...found.keys()].entries()) if (!order.includes(id)) order.splice(order.indexOf([...found.keys()][i - 1] ?? '') + 1, 0, id);
        this.things = new Map(order.map((id) => [id, found.get(id)!]));
        this.names = new Map(choices.things.map(({ id, name }) => [id, name]));
        for (const [id, symbol] of this.things) {
            symbol.setAttribute('tabindex', '-1');
            symbol.setAttribute('role', symbol.querySelector('[data-id]') ? 'group' : 'link');
            symbol.setAttribute('aria-label', nameOf(symbol) || this.names.get(id) || id);
            for (const words of symbol.querySelectorAll('text')) words.setAttribute('aria-hidden', 'true');
        }
        return { svg: drawn, size };
    }

    /** Takes the drawing away. */
    clear(): void {
        this.things = new Map();
        this.current = undefined;
        element('paper').replaceChildren();
    }

    /** After a drawing was put in: the frame and the keys are where they were. */
    settle(focused: string | undefined): void {
        this.comeTo(this.current !== undefined && this.things.has(this.current) ? this.current : this.things.keys().next().value);
        if (focused !== undefined) this.things.get(focused)?.focus({ preventScroll: true });
        this.frame();
    }

    /** Frames the symbol of a thing, and no other; true when it is drawn. */
    mark(id: string | undefined): boolean {
        this.here = id;
        this.frame();
        return id !== undefined && this.things.has(id);
    }

    private frame(): void {
        document.querySelector('#paper .here')?.remove();
        const symbol = this.here === undefined ? undefined : this.things.get(this.here);
        if (!symbol) return;
        const { x, y, width, height } = symbol.getBBox();
        const frame = document.createElementNS(SVG, 'rect');
        for (const [name, value] of Object.entries({ class: 'here', x: x - MARGIN, y: y - MARGIN, width: width + 2 * MARGIN, height: height + 2 * MARGIN })) frame.setAttribute(name, String(value));
        symbol.append(frame);
    }

    private comeTo(id: string | undefined): void {
        if (this.current !== undefined) this.things.get(this.current)?.setAttribute('tabindex', '-1');
        this.current = id;
        if (id !== undefined) this.things.get(id)?.setAttribute('tabindex', '0');
    }

    /** The keys and clicks on symbols. */
    listen({ open, place }: { readonly open: (id: string) => void; readonly place: (id: string, by: number | undefined) => void }): void {
        const paper = element('paper');
        paper.addEventListener('click', ({ target, altKey }) => { const id = idOf(target); if (id !== undefined && !altKey) open(id); });
        paper.addEventListener('focusin', ({ target }) => { const id = idOf(target); if (id !== undefined) this.comeTo(id); });
        paper.addEventListener('keydown', (event) => {
            const id = idOf(event.target);
            if (id === undefined || event.ctrlKey || event.metaKey) return;
            const way = ARROWS[event.key];
            if (event.altKey && way) place(id, way[1] * NUDGE);
            else if (event.key === 'Delete') place(id, undefined);
            else if (event.key === 'Enter') open(id);
            else if (event.key === 'Escape') element('sheet').focus();
            else if (way) this.go(this.ids.indexOf(id) + way[0] + way[1]);
            else if (event.key === 'Home') this.go(0);
            else if (event.key === 'End') this.go(this.things.size - 1);
            else return;
            event.preventDefault();
            event.stopPropagation();
        });
    }

    private go(to: number): void {
        const id = this.ids[Math.max(0, Math.min(this.things.size - 1, to))];
        if (id !== undefined) this.things.get(id)?.focus();
    }
}

/** What is said of a symbol, with the words beside it that are not said by that already. */
function nameOf(symbol: Element): string {
    const title = symbol.querySelector(':scope > title')?.textContent ?? '';
    const words = [...symbol.querySelectorAll('text')].map(({ textContent }) => textContent).filter((text) => !title.includes(text));
    return [title, ...words].filter((text) => text !== '').join(', ');
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** The thing that an element of the drawing belongs to. */
export const idOf = (target: EventTarget | null): string | undefined => target instanceof Element ? target.closest<SVGElement>('#paper [data-id]')?.dataset['id'] : undefined;
