/** A fact in the very words in which it was written, for answers that tell what they rest on. */
import type { Id } from '../../model/boat';
import type { Loaded } from '../load';

export function quoter({ sources }: Loaded, textOf: (uri: string) => string): (about: Id, fact?: string) => string | undefined {
    return (about, fact) => {
        const source = fact === undefined ? sources.find(about) : sources.findFact(about, fact);
        if (!source) return undefined;
        const { start, end } = source.range;
        const lines = textOf(source.uri).split(/\r\n|\r|\n/).slice(start.line, end.line + 1);
        if (lines.length === 0) return undefined;
        // A declaration with a block is quoted to the end of its first line.
        const first = lines[0]!.slice(start.character, end.line === start.line ? end.character : undefined);
        const said = first.replace(/--.*$/, '').replace(/\{\s*$/, '').replace(/\s+/g, ' ').trim();
        // Of several words the last is marked.
        return fact?.includes(' ') && !said.startsWith(fact) ? `${fact.slice(0, fact.lastIndexOf(' '))} ${said}` : said;
    };
}
