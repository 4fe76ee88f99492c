/** The drawing told in words: nested lists, in which each thing leads to its line. */
import type { PictureResult } from '../../server/protocol';
import { element, post } from './host';

export function tellInWords(words: NonNullable<PictureResult['words']>): void {
    const root = document.createDocumentFragment();
    /** The lists that are open, the outermost first. */
    let lists: HTMLUListElement[] = [];
    for (const { text, about, depth } of words) {
        if (depth === 0) {
            lists = [];
            const heading = document.createElement('h3');
            heading.append(said(text, about));
            root.append(heading);
            continue;
        }
        lists.length = Math.min(lists.length, depth);
        while (lists.length < depth) {
            const list = document.createElement('ul');
            (lists.at(-1)?.lastElementChild ?? lists.at(-1) ?? root).append(list);
            lists.push(list);
        }
        const item = document.createElement('li');
        item.append(said(text, about));
        lists.at(-1)!.append(item);
    }
    element('list').replaceChildren(root);
}

function said(text: string, about: string | undefined): Node {
    if (about === undefined) return document.createTextNode(text);
    const button = document.createElement('button');
    button.type = 'button';
    button.textContent = text;
    button.addEventListener('click', () => post({ do: 'open', id: about }));
    return button;
}
