/** Finds a thing by its tag or by words of its name: the best match is framed and brought to the middle, Enter goes to the next. */
import type { Choices } from '../../server/protocol';
import { element } from './host';

type Thing = Choices['things'][number];

/** The better a match, the lower; nothing is none. */
function rank({ id, name }: Thing, sought: string): number | undefined {
    const [tag, words] = [id.toLowerCase(), name.toLowerCase()];
    if (tag === sought) return 0;
    if (tag.startsWith(sought)) return 1;
    if (tag.includes(sought)) return 2;
    return words.includes(sought) ? 3 : undefined;
}

export class Finder {
    private things: readonly Thing[] = [];
    private readonly input = element<HTMLInputElement>('find');
    private readonly said = element('found');
    private at = 0;

    constructor(private readonly show: (id: string | undefined) => void) {
        this.input.addEventListener('input', () => this.look(0));
        this.input.addEventListener('keydown', (event) => {
            if (event.key === 'Enter') { event.preventDefault(); this.look(this.at + (event.shiftKey ? -1 : 1)); }
            else if (event.key === 'Escape') { this.input.value = ''; this.look(0); }
        });
    }

    /** What is drawn can be found. */
    know(things: readonly Thing[], isDrawn: (id: string) => boolean): void {
        this.things = things.filter(({ id }) => isDrawn(id));
    }

    private look(at: number): void {
        const sought = this.input.value.trim().toLowerCase();
        if (sought === '') { this.said.textContent = ''; return this.show(undefined); }
        const found = this.things.flatMap((thing) => { const order = rank(thing, sought); return order === undefined ? [] : [{ thing, order }]; }).sort((a, b) => a.order - b.order);
        this.at = found.length === 0 ? 0 : (at + found.length) % found.length;
        const hit = found[this.at]?.thing;
        this.said.textContent = hit ? `${hit.name}${found.length > 1 ? `, ${this.at + 1} of ${found.length}` : ''}` : 'nothing drawn is called so';
        this.show(hit?.id);
    }
}
