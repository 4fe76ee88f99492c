/** Markdown as a reader of Markdown takes it: tables and crossed-out words known, HTML let through, so that what slips past is seen. */
import MarkdownIt from 'markdown-it';

const reader = new MarkdownIt({ html: true });

/** Every token of a page in order, those inside a line of text too. */
function* tokens(list) {
    for (const token of list) {
        yield token;
        if (token.children !== null) yield* tokens(token.children);
    }
}
const read = (text) => [...tokens(reader.parse(text, {}))];

/** HTML, and images and links of anything but a file beside it or a place in the page: none of them belongs into a page. */
export function foreign(text, isPage) {
    const found = [];
    for (const { type, content, attrs } of read(text)) {
        if (type === 'html_block' || type === 'html_inline') found.push(`HTML: ${content.trim()}`);
        if (type === 'image' && !isPage(decodeURI(Object.fromEntries(attrs).src))) found.push(`an image: ${content}`);
        if (type === 'link_open') {
            const href = Object.fromEntries(attrs).href;
            if (!href.startsWith('#') && !isPage(decodeURI(href).replace(/#.*/, ''))) found.push(`a link to ${href}`);
        }
    }
    return found;
}

/** What a page is made of, without its words: the kinds of its tokens. How lines are wrapped does not count. */
export const skeleton = (text) => read(text).map(({ type, tag, level }) => `${level} ${type} ${tag}`).filter((kind) => !/ (text|text_special|softbreak) | inline /.test(kind));

/** What is read: the words, a line of text each. */
export const words = (text) => reader.parse(text, {}).filter(({ type }) => ['inline', 'fence', 'code_block', 'html_block'].includes(type))
    .map(({ type, content, children }) => type === 'inline' ? children.map(said).join('') : content);

/** Of a picture the words that stand for it. */
const said = ({ type, content, children }) => type === 'softbreak' || type === 'hardbreak' ? ' ' : type === 'image' ? children.map(said).join('') : content;
