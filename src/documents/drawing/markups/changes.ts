/** What surveys found otherwise than drawn and refits change: two views of one boat, held against each other. */
import type { Boat, Id, Overlay } from '../../../model/boat';
import { capital } from '../../../model/words';
import { viewWords } from '../../view';
import { factsOf, KNOWN, namesOf } from '../../procedures/facts';
import type { Mark, Markup } from '../markup';
import type { Refused, Shown } from './markup';
import { thingsOf } from './things';

type Facts = ReadonlyMap<string, string>;

export function changesMarkup({ boat, before }: Shown): Markup | Refused {
    if (before === undefined) return { refused: 'There is no other view of this boat to hold it against, so no change can be drawn.' };
    const [was, now] = [thingsByName(before), thingsByName(boat)];
    const [old, here] = [factsByName(before), factsByName(boat)];
    const names = [...new Set([...now.keys(), ...was.keys()])];
    const came = new Set(names.filter((name) => !was.has(name)));
    const went = new Set(names.filter((name) => !now.has(name)));
    const differs = (name: string): boolean => came.has(name) || went.has(name) || differences(old.get(name), here.get(name), (other) => came.has(other) || went.has(other)).length > 0;
    const said = changesSaid(boat);
    const found = inOrder(names.filter(differs), said.map(({ about }) => about), was);
    const others = [...new Set(said.filter(({ about }) => !now.has(about) && !was.has(about)).map(({ words }) => words))];
    return {
        title: `Changes${viewWords(boat)}`,
        marks: found.flatMap((name, i): Mark[] => { const about = now.get(name); return about === undefined ? [] : [{ about, as: came.has(name) ? 'added' : 'changed', words: String(i + 1) }]; }),
        notes: [
            ...(found.length === 0 ? ['Nothing that is drawn differs.'] : []),
            ...found.map((name, i) => {
                const own = said.filter(({ about }) => about === (now.get(name) ?? was.get(name))).map(({ words }) => words);
                const words = own.length > 0 ? own.join('; ') : came.has(name) ? 'is put in' : went.has(name) ? 'is gone' : differences(old.get(name), here.get(name), () => true).join('; ');
                return `${i + 1}. ${capital(name)}${went.has(name) ? ', no longer drawn' : ''}: ${words}.`;
            }),
            ...others.map((words) => `Of no one thing: ${words}.`),
        ],
    };
}

/** Things that can be drawn, by what their facts are told of. */
function thingsByName(boat: Boat): ReadonlyMap<string, Id> {
    const names = namesOf(boat);
    return new Map([...thingsOf(boat)].map((id) => [names.get(id) ?? id, id]));
}

/** How well a fact is known is no change of the boat. */
function factsByName(boat: Boat): ReadonlyMap<string, Facts> {
    const found = new Map<string, Map<string, string>>();
    for (const { about, fact, value } of factsOf(boat)) if (!fact.endsWith(KNOWN)) { const own = found.get(about) ?? new Map<string, string>(); own.set(fact, value); found.set(about, own); }
    return found;
}

const JOINS = /(^| )joins$/;

/** In words. That a neighbour came or went is told with the neighbour. */
function differences(was: Facts = new Map(), now: Facts = new Map(), isTold: (name: string) => boolean): string[] {
    const nameIn = (value: string | undefined): string[] => (value ?? '').split('; ').map((end) => end.split(',')[0]!.replace(/ (in|out)$/, ''));
    return [...new Set([...was.keys(), ...now.keys()])].filter((fact) => was.get(fact) !== now.get(fact) && !(JOINS.test(fact) && [...nameIn(was.get(fact)), ...nameIn(now.get(fact))].some(isTold)))
        .map((fact) => (now.has(fact) ? `${fact} ${now.get(fact)}${was.has(fact) ? `, was ${was.get(fact)}` : ''}` : `${fact} ${was.get(fact)}: no longer`));
}

interface Said { readonly about: Id; readonly words: string }

/** The lines of the surveys and of the refit that this view was read with. */
function changesSaid({ overlays, view }: Boat): Said[] {
    const counts = ({ id, kind }: Overlay): boolean => view !== 'drawn' && (kind === 'survey' || (typeof view === 'object' && view.after === id));
    return overlays.filter(counts).flatMap(({ id, on, changes }) => changes.filter(({ disposition }) => view === 'found' || disposition !== 'open')
        .map(({ about, words }) => ({ about, words: `${words} (${[id, on].filter((word) => word !== undefined).join(', ')})` })));
}

/** As the overlays have them; then what differs besides. */
function inOrder(names: readonly string[], first: readonly Id[], was: ReadonlyMap<string, Id>): string[] {
    const place = (name: string): number => { const at = first.findIndex((id) => id === name || id === was.get(name)); return at < 0 ? first.length : at; };
    return [...names].sort((a, b) => place(a) - place(b));
}
