/** What issued pages are worth, and where something is mentioned, as text for the terminal and as data. */
import type { Boat } from '../../model/boat';
import { listed } from '../../model/words';
import { wrap } from '../figures';
import { revisionOf } from './facts';
import { usedThen, type ChangedFact, type Generation, type Register, type Standing } from './issued';
import { mentionsOf, type Mention } from './mentions';
import { plain } from './safe';
import type { Difference } from './says';

const WIDTH = 110;
/** Names and words are the owner's: nothing in them may act on a terminal. */
const folded = (text: string, indent: string, first: string): string => wrap(plain(text), WIDTH, indent, first);
/** Of the facts that changed so many are told; all of them are in the data. */
const MOST = 12;

const MEANS = {
    false: 'says what is no longer so. Take it out of the folder, and issue it anew',
    gone: 'can no longer be made',
    'still true': 'rests on facts that have changed, and says the same',
    untouched: 'rests on nothing that has changed',
} as const;

export function standingText(boat: Boat, standings: readonly Standing[]): string {
    const of = (status: Standing['status']): Standing[] => standings.filter((standing) => standing.status === status);
    const lines = [`${standings.length} issued ${standings.length === 1 ? 'page' : 'pages'} of ${plain(boat.title ?? boat.name)} against revision ${revisionOf(boat)}`];
    for (const standing of of('false')) lines.push('', head(standing), ...standing.differences.flatMap(differenceLines), ...becauseLines(standing.because));
    for (const standing of of('gone')) lines.push('', head(standing), folded(standing.gone ?? '', '    ', '    '), ...becauseLines(standing.because));
    for (const standing of of('still true')) lines.push('', head(standing), ...becauseLines(standing.because));
    const untouched = of('untouched');
    if (untouched.length > 0) lines.push('', folded(`untouched: ${listed(untouched.map(({ page }) => page.id))}`, '    ', ''));
    if (standings.length > 0) lines.push('', `${of('false').length} false, ${of('gone').length} gone, ${of('still true').length} still true, ${untouched.length} untouched`);
    return `${lines.join('\n')}\n`;
}

const head = ({ page: { id, title, issued, revision }, status }: Standing): string =>
    folded(`${status}: ${id}, "${title}", issued ${issued === undefined ? '' : `${issued} `}from revision ${revision}: it ${MEANS[status]}.`, '    ', '');

function differenceLines({ kind, was, now }: Difference): string[] {
    if (was === undefined) return [folded(`${kind}, new: ${now}`, '        ', '    ')];
    if (now === undefined) return [folded(`${kind}, no longer: ${was}`, '        ', '    ')];
    return [folded(`${kind}, it said: ${was}`, '        ', '    '), folded(`and now: ${now}`, '        ', '      ')];
}

function becauseLines(facts: readonly ChangedFact[]): string[] {
    // Nothing of the boat changed: then the program words or reckons it otherwise.
    if (facts.length === 0) return ['    because: no fact that it rests on has changed; this Orlop makes it otherwise than the one that issued it'];
    const more = facts.length > MOST ? [`    and ${facts.length - MOST} more facts`] : [];
    return [...facts.slice(0, MOST).map(({ about, fact, was, now }) => folded(`because: ${about} ${fact}: ${was ?? 'was not there'} -> ${now ?? 'is gone'}`, '        ', '    ')), ...more];
}

export function standingData(boat: Boat, standings: readonly Standing[]): object {
    const count = (status: Standing['status']): number => standings.filter((standing) => standing.status === status).length;
    return {
        boat: boat.title ?? boat.name, revision: revisionOf(boat),
        pages: standings.map(({ page: { id, title, issued, revision }, status, differences, because, gone }) => ({ id, title, ...(issued !== undefined && { issued }), revision, status, differences, because, ...(gone !== undefined && { gone }) })),
        count: { false: count('false'), gone: count('gone'), stillTrue: count('still true'), untouched: count('untouched') },
    };
}

/** Where something is mentioned in the pages as they were issued. */
export const mentionsIn = (register: Register, query: string): Mention[] => mentionsOf(register.pages.map((page) => ({ id: page.id, title: page.title, says: page.says, used: usedThen(register, page) })), query);

export function mentionsText(query: string, mentions: readonly Mention[]): string {
    const printed = mentions.filter((mention) => mention.printed.length > 0);
    const rests = mentions.filter((mention) => mention.printed.length === 0);
    if (mentions.length === 0) return `No issued page mentions ${plain(query)} or rests on it.\n`;
    const lines = printed.flatMap(({ page, title, printed: said }) => [folded(`printed: ${page}, "${title}"`, '    ', ''), ...said.map(({ kind, text }) => folded(`${kind}: ${text}`, '        ', '    '))]);
    if (rests.length > 0) lines.push(...(printed.length > 0 ? [''] : []), ...rests.map(({ page, title, restsOn }) => folded(`rests on: ${page}, "${title}": ${listed(restsOn.slice(0, 4).map(({ about, fact, value }) => `${about} ${fact} ${value}`))}${restsOn.length > 4 ? ` and ${restsOn.length - 4} more` : ''}`, '    ', '')));
    return `${lines.join('\n')}\n`;
}

export const mentionsData = (boat: Boat, query: string, mentions: readonly Mention[]): object => ({ boat: boat.title ?? boat.name, revision: revisionOf(boat), mention: query, mentions });

export function generationsText(generations: readonly Generation[]): string {
    const lines = generations.filter(({ change }) => change !== 'same').flatMap(({ id, title, change, differences }) => [folded(`${change}: ${id}, "${title}"`, '    ', ''), ...differences.flatMap(differenceLines), '']);
    const same = generations.filter(({ change }) => change === 'same');
    if (same.length > 0) lines.push(folded(`the same: ${listed(same.map(({ id }) => id))}`, '    ', ''));
    return `${lines.join('\n').trimEnd()}\n`;
}

export const generationsData = (boat: Boat, generations: readonly Generation[]): object => ({ boat: boat.title ?? boat.name, revision: revisionOf(boat), generations });
