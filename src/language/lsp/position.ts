/** What of the boat stands at a position of a text. */
import type { Position, Range } from 'vscode-languageserver-types';
import type { Id } from '../../model/boat';
import type { Sources } from '../sources';

const before = (a: Position, b: Position): boolean => a.line < b.line || (a.line === b.line && a.character < b.character);

/** Ids whose own line or name the range touches: the innermost at a point, all of them in a selection. */
export function idsAt(sources: Sources, uri: string, range: Range): Id[] {
    const touched = sources.ids.filter((id) => {
        const source = sources.find(id)!;
        return source.uri === uri && !before(range.end, source.range.start) && !before(source.range.end, range.start);
    });
    if (range.start.line !== range.end.line) {
        // In a selection only what begins inside it was chosen; its surroundings were not.
        return touched.filter((id) => { const { start } = sources.find(id)!.range; return start.line >= range.start.line && start.line <= range.end.line; });
    }
    const innermost = touched.reduce<Id | undefined>((best, id) => {
        if (best === undefined) return id;
        const [a, b] = [sources.find(id)!.range, sources.find(best)!.range];
        return before(b.start, a.start) || (!before(a.start, b.start) && before(a.end, b.end)) ? id : best;
    }, undefined);
    return innermost === undefined ? [] : [innermost];
}
