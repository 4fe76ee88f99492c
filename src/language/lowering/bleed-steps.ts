/** The steps of bleed sequences, as they are written. */
import type { Id } from '../../model/boat';
import type { Driver, Expectation, Step } from '../../model/step';
import type { Cursor } from '../cursor';
import { splitQuantity } from '../quantity';
import { optional } from './vessel';

/** The verbs of steps, each with an example. */
export const BLEED_VERBS: Readonly<Record<string, string>> = {
    open: 'open V1', shut: 'shut V1', turn: 'turn SV1 to PORT', prefill: 'prefill F1', bleed: 'bleed BS1 by PR1', prove: 'prove LP1 at BS2 by lever 10 strokes',
    start: 'start E1 at most 2 times 10 s',
};

/** A step as it is written, or nothing for a line that is no step. */
export function readBleedStep(cursor: Cursor, idOf: (tag: string) => Id): Step | undefined {
    const ref = (): Id | undefined => { const found = cursor.ref(); return found && idOf(found.to.$refText); };
    const verb = cursor.word();
    switch (verb) {
        case 'open': case 'shut': { const part = ref(); return part === undefined ? undefined : { do: 'set', part, position: verb }; }
        case 'turn': {
            const part = ref();
            const position = cursor.words('to') ? cursor.ref()?.to.$refText ?? cursor.word() : undefined;
            return part === undefined || position === undefined ? undefined : { do: 'set', part, position };
        }
        case 'prefill': { const part = ref(); return part === undefined ? undefined : { do: 'prefill', part }; }
        case 'bleed': {
            const vent = ref();
            const driver = cursor.words('by') ? readDriver(cursor, ref) : undefined;
            return vent === undefined || driver === undefined ? undefined : { do: 'bleed', vent, driver, ...optional('expect', readExpectation(cursor)) };
        }
        case 'prove': {
            const part = ref();
            const vent = cursor.words('at') ? ref() : undefined;
            cursor.words('by lever');
            const strokes = Number(cursor.measure() ?? NaN);
            cursor.words('strokes');
            return part === undefined || vent === undefined || Number.isNaN(strokes) ? undefined : { do: 'prove', part, vent, strokes };
        }
        case 'start': return readStart(cursor, ref());
        default: return undefined;
    }
}

function readDriver(cursor: Cursor, ref: () => Id | undefined): Driver | undefined {
    const gravity = cursor.words('gravity from');
    const part = ref();
    if (part === undefined) return undefined;
    const by = gravity ? 'gravity' : cursor.words('lever') ? 'lever' : cursor.words('running') ? 'electric' : 'hand';
    return { by, part };
}

function readExpectation(cursor: Cursor): Expectation | undefined {
    if (!cursor.words('expect')) return undefined;
    const number = (): { value: number; unit: 'strokes' | 's' } | undefined => {
        const text = cursor.measure();
        if (text === undefined) return undefined;
        const { numbers, unit } = splitQuantity(text);
        cursor.words('strokes');
        return numbers[0] === undefined ? undefined : { value: numbers[0], unit: unit === 's' ? 's' : 'strokes' };
    };
    // expect 23 to 31 strokes stop and think at 46
    const likely = number();
    const most = cursor.words('to') ? number() : likely;
    const think = cursor.words('stop and think at') ? number() : undefined;
    return likely && most && think && { in: most.unit, likely: likely.value, most: most.value, think: think.value };
}

function readStart(cursor: Cursor, engine: Id | undefined): Step | undefined {
    if (engine === undefined || !cursor.words('at most')) return undefined;
    const tries = Number(cursor.measure() ?? NaN);
    cursor.words('times');
    const seconds = splitQuantity(cursor.measure() ?? '').numbers[0];
    if (Number.isNaN(tries) || seconds === undefined) return undefined;
    const seacock = cursor.words('seacock open');
    const budget = cursor.words('budget') ? splitQuantity(cursor.measure() ?? '').numbers[0] : undefined;
    return { do: 'start', engine, tries, seconds, ...(seacock && { seacock: 'open' as const }), ...optional('budget', budget) };
}
