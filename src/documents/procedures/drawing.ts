/**
 * The drawing of a page: the lines that the page is about, with the valves as they stand during the work, what is cut off by them, and the bleed
 * points by the numbers of their steps. As data on the page, so that it is made anew and compared like all else that the page says.
 */
import type { Boat, Id, Job } from '../../model/boat';
import type { ServiceStep } from '../../model/step';
import { lineUpsOf, turned } from '../../analysis/topology/line-ups';
import type { Positions } from '../../analysis/topology/network';
import { capital, listed } from '../../model/words';
import type { Mark } from '../drawing/markup';
import { cutOffIn } from '../drawing/markups/isolate';
import { thingsOf, turnedMarks } from '../drawing/markups/things';
import { partOf } from '../drawing/part-of';
import type { Said as Line, Sheet } from '../drawing/sheet';
import { inWords } from '../drawing/words';
import { thingsOn } from './effectivity';
import { nameOf } from './naming';
import type { Said } from './says';

export interface Drawing {
    /** What it shows of the boat: ids of tanks, consumers, parts and courses. */
    readonly things: readonly Id[];
    readonly title: string;
    readonly lineUp: Id;
    readonly positions: Readonly<Record<Id, string>>;
    readonly marks: readonly Mark[];
    readonly notes: readonly string[];
    /** Told in words. */
    readonly words: readonly Line[];
}

/** What a page carries out. */
export interface Work {
    /** The boat; with a can that hangs in her for it. */
    readonly on: Boat;
    readonly jobs: readonly Job[];
    readonly starts: Id;
    /** As the page numbers them, but for cautions. */
    readonly steps: readonly ServiceStep[];
}

/** The SVG file, beside the page. */
export const drawingFile = ({ id }: { readonly id: string }): string => `${id}.svg`;

/** Nothing where there is nothing to draw. */
export function drawingOf(boat: Boat, page: Said, work: Work): Drawing | undefined {
    const { on, jobs, starts, steps } = work;
    const things = thingsOn(boat, page);
    const sub = partOf(boat, things);
    const shown = thingsOf(sub);
    if (shown.size === 0) return undefined;
    const before = lineUpsOf(on).find(({ id }) => id === starts)?.positions ?? new Map<Id, string>();
    const after = duringWork(on, before, steps);
    const [cut, sure] = (['tight', 'leaky'] as const).map((checks) => cutOffIn(on, after, checks)) as [Id[], Id[]];
    const about = [...new Set(jobs.flatMap(({ part }) => part ?? []))];
    const valves = turnedMarks(on, before, after);
    const numbers = bleedNumbers(steps);
    const all: Mark[] = [
        ...about.map((id): Mark => ({ about: id, as: 'about' })), ...valves,
        ...cut.filter((id) => !about.includes(id) && !valves.some((valve) => valve.about === id)).map((id): Mark => ({ about: id, as: 'dead' })),
        ...[...numbers].map(([id, own]): Mark => ({ about: id, as: 'number', words: own.join(', ') })),
    ];
    const marks = all.filter((mark) => shown.has(mark.about));
    const byChecks = cut.filter((id) => !sure.includes(id) && shown.has(id));
    const hers = thingsOf(boat);
    const elsewhere = [...new Set(all.map((mark) => mark.about))].filter((id) => !hers.has(id));
    const drawing = {
        things, title: `${capital(page.title)}: the valves during the work`, lineUp: starts, positions: Object.fromEntries([...after].filter(([id]) => shown.has(id)).sort(([a], [b]) => (a < b ? -1 : 1))), marks,
        notes: [
            ...(numbers.size > 0 ? ['A number in a ring is the step in which that bleed point is opened.'] : []),
            ...(byChecks.length > 0 ? [`Cut off only as long as checks, pumps and engines hold back what stands behind them: ${listed(byChecks.map((id) => nameOf(on, id)))}.`] : []),
            ...(elsewhere.length > 0 ? [`Not on the drawing, since it is there for this job alone: ${listed(elsewhere)}.`] : []),
        ],
    };
    return { ...drawing, words: inWords(sub, sheetOf(drawing)) };
}

/** What is drawn of the boat, and how. */
export const drawn = (boat: Boat, drawing: Drawing): { readonly boat: Boat; readonly sheet: Sheet } => ({ boat: partOf(boat, drawing.things), sheet: sheetOf(drawing) });

const sheetOf = ({ title, lineUp, positions, marks, notes }: Omit<Drawing, 'words'>): Sheet => ({ lineUp, markup: { title, positions: new Map(Object.entries(positions)), marks, notes } });

/** The valves when something was last opened or taken out; where nothing is, when something first runs, or else at the end. */
export function duringWork(boat: Boat, start: Positions, steps: readonly ServiceStep[]): Positions {
    let positions = start;
    let work: Positions | undefined;
    for (const step of steps) {
        if (step.do === 'set') positions = turned(boat, positions, step.part, step.position);
        else if (step.do === 'open' || step.do === 'remove' || (step.do === 'run' && work === undefined)) work = positions;
    }
    return work ?? positions;
}

/** The steps in which each bleed point is opened. */
function bleedNumbers(steps: readonly ServiceStep[]): ReadonlyMap<Id, readonly number[]> {
    const found = new Map<Id, number[]>();
    steps.filter((step) => step.do !== 'caution').forEach((step, i) => { if (step.do === 'bleed' || step.do === 'prove') found.set(step.vent, [...(found.get(step.vent) ?? []), i + 1]); });
    return found;
}
