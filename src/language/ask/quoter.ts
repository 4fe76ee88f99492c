/**
 * A fact in the very words in which it was written, for answers that tell what they rest on. Where it counts otherwise than it is written, that is
 * told: mirrored, its sides are those of the thing that took it over; what a survey or a refit moved, it names.
 */
import type { Id } from '../../model/boat';
import type { Loaded } from '../load';
import { counts } from '../lowering/overlays';

export function quoter({ boat, sources }: Loaded, textOf: (uri: string) => string): (about: Id, fact?: string) => string | undefined {
    const moves = boat.overlays.flatMap((overlay) => overlay.changes.filter((change) => change.do === 'move' && counts(overlay, change, boat.view)));
    return (about, fact) => {
        const source = fact === undefined ? sources.find(about) : sources.findFact(about, fact);
        if (!source) return undefined;
        const { start, end } = source.range;
        const lines = textOf(source.uri).split(/\r\n|\r|\n/).slice(start.line, end.line + 1);
        if (lines.length === 0) return undefined;
        // A declaration with a block is quoted to the end of its first line.
        const first = lines[0]!.slice(start.character, end.line === start.line ? end.character : undefined);
        const written = first.replace(/--.*$/, '').replace(/\{\s*$/, '').replace(/\s+/g, ' ').trim();
        const sided = source.turned ? written.replace(SIDES, (side) => (side === 'port' ? 'stbd' : 'port')) : written;
        const moved = moves.filter((change) => change.about === about && /\bat\b/.test(written) && !/ (over|under) ports\b/.test(written));
        const said = `${sided}${sided === written ? '' : ' (mirrored)'}${moved.map(({ words }) => ` (then \`${words}\`)`).join('')}`;
        // Of several words the last is marked.
        return fact?.includes(' ') && !said.startsWith(fact) ? `${fact.slice(0, fact.lastIndexOf(' '))} ${said}` : said;
    };
}

const SIDES = /\b(port|stbd|starboard)\b/g;
