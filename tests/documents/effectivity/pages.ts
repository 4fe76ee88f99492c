/** Pages for the tests, written out by hand. */
import type { Page, PageStep } from '../../../src/documents/procedures/tree';
import { loadBoat } from '../../../src/language/load';
import type { Boat } from '../../../src/model/boat';
import { exampleTexts } from '../sheet/boats';

export const step = (action: string, more: Partial<PageStep> = {}): PageStep => ({ number: 1, cautions: [], action, signs: [], notes: [], ...more });

export function page(id: string, steps: readonly PageStep[], more: Partial<Page> = {}): Page {
    return {
        id, title: id, boat: 'Ottilwake', effectivity: { revision: '', facts: '', view: '' }, deferral: '', purpose: '', summary: [], drains: [], tools: [], parts: [], valves: [],
        sections: [{ heading: 'Steps', steps }], acceptance: [], log: [], after: [], taken: [], ...more,
    };
}

/** The mended Ottilwake, with words of her text put in the place of others. */
export async function ottilwake(...edits: readonly (readonly [from: string, to: string])[]): Promise<Boat> {
    const texts = exampleTexts('ottilwake-mended');
    for (const [from, to] of edits) {
        const file = Object.keys(texts).find((name) => texts[name]!.includes(from));
        if (file === undefined) throw new Error(`${from} is not in the text`);
        texts[file] = texts[file]!.replace(from, to);
    }
    const { boat, problems } = await loadBoat(texts);
    const errors = problems.filter(({ severity }) => severity === 'error');
    if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('\n'));
    return boat;
}
