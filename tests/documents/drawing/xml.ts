/** A reader of XML of its own, as strict as a browser is with a file: what is not well-formed throws with the place. It knows no DTDs and no processing instructions. */
export interface Element {
    readonly name: string;
    readonly attributes: ReadonlyMap<string, string>;
    readonly children: readonly (Element | string)[];
    readonly parent?: Element;
}

const NAME = /[A-Za-z_][\w.-]*/y;
const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: '\'' };
/** XML 1.0 (fifth edition), production 2, Char. */
const NO_CHAR = /[^\u0009\u000a\u000d\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;

/** The root of a document. */
export function readXml(text: string): Element {
    let at = 0;
    const fail = (why: string): never => { throw new Error(`${why} at ${at}: ${text.slice(Math.max(0, at - 60), at)}>>>${text.slice(at, at + 60)}`); };
    const strange = NO_CHAR.exec(text);
    if (strange) { at = strange.index; fail('a sign that XML does not know'); }
    const take = (said: string): void => { if (!text.startsWith(said, at)) fail(`${said} is missing`); at += said.length; };
    const blank = (): boolean => { const from = at; while (/[ \t\r\n]/.test(text[at] ?? '')) at++; return at > from; };
    const name = (): string => { NAME.lastIndex = at; const found = NAME.exec(text) ?? fail('a name is missing'); at += found[0].length; return found[0]; };
    const decoded = (raw: string): string => {
        if (/&(?!(?:lt|gt|amp|quot|apos|#\d+|#x[0-9a-fA-F]+);)/.test(raw)) fail(`a bare & in ${raw}`);
        return raw.replace(/&(#x?)?(\w+);/g, (_, number: string | undefined, code: string) => number === undefined ? ENTITIES[code]! : String.fromCodePoint(parseInt(code, number === '#x' ? 16 : 10)));
    };
    const element = (parent: Element | undefined): Element => {
        take('<');
        const attributes = new Map<string, string>();
        const children: (Element | string)[] = [];
        const made: Element = { name: name(), attributes, children, ...(parent && { parent }) };
        for (;;) {
            const apart = blank();
            if (text.startsWith('/>', at)) { at += 2; return made; }
            if (text[at] === '>') { at++; break; }
            if (!apart) fail('attributes without a blank between them');
            const key = name();
            if (attributes.has(key)) fail(`the attribute ${key} twice`);
            take('="');
            const end = text.indexOf('"', at);
            if (end < 0) fail('a value without its end');
            const raw = text.slice(at, end);
            if (raw.includes('<')) fail('< in a value');
            attributes.set(key, decoded(raw));
            at = end + 1;
        }
        for (;;) {
            const next = text.indexOf('<', at);
            if (next < 0) fail(`${made.name} without its end`);
            const raw = text.slice(at, next);
            if (raw.includes(']]>')) fail(']]> in words');
            if (raw !== '') children.push(decoded(raw));
            at = next;
            if (!text.startsWith('</', at)) { children.push(element(made)); continue; }
            at += 2;
            if (name() !== made.name) fail(`the end of something else than ${made.name}`);
            blank();
            take('>');
            return made;
        }
    };
    blank();
    const root = element(undefined);
    blank();
    if (at !== text.length) fail('something behind the end');
    return root;
}

export function* elements(root: Element): Generator<Element> {
    yield root;
    for (const child of root.children) if (typeof child !== 'string') yield* elements(child);
}

export const wordsOf = (element: Element): string => element.children.map((child) => (typeof child === 'string' ? child : wordsOf(child))).join('');
/** The nearest element from here upwards that has an attribute, and its value. */
export function above(element: Element | undefined, attribute: string): string | undefined {
    for (let at = element; at; at = at.parent) { const value = at.attributes.get(attribute); if (value !== undefined) return value; }
    return undefined;
}
