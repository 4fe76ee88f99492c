/** Hoses that are too old are one finding: they are bought and renewed together. */
import { Temporal } from 'temporal-polyfill';
import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { capital, listed } from '../../model/words';
import { fuelHoses, nothing, type Check } from '../check';

/** Common practice, from memory; some makers of engines ask for two years. */
const YEARS = 10;

export const hoseAge: Check = {
    code: 'HOSE-AGE', severity: 'minor',
    statement: 'No fuel hose is more than ten years old, by what is marked on it.',
    prevents: 'Air drawn in through cracks, or a burst.',
    facts: 'the year or day marked on each hose; the day of judgement',
    source: 'common practice, from memory (some makers ask for two years); a hose that has gone hard is renewed whatever its age',
    judge: (view) => {
        const { today } = view;
        const hoses = fuelHoses(view);
        if (hoses.length === 0) return [nothing('no fuel hose is written')];
        if (today === undefined) return [nothing('no day was given')];
        const old = hoses.filter((hose) => hose.dated !== undefined && isOld(hose.dated, today));
        return [...(old.length > 0 ? [fails(old)] : []), ...hoses.filter((hose) => !old.includes(hose)).map(judge)];
    },
};

function judge(hose: Part): Verdict {
    if (hose.dated !== undefined) return { outcome: 'pass', about: hose.id, rests: [{ about: hose.id, fact: 'dated' }] };
    return { outcome: 'cannot tell', about: hose.id, missing: [{ about: hose.id, fact: `the year marked on ${hose.name}`, how: 'read it on the hose, and write `dated 2021`' }] };
}

/** A year alone, or a day that the calendar has not, is counted as the trade does, year from year; a day to the day. */
function isOld(dated: string, today: string): boolean {
    const day = dayOf(dated);
    if (day === undefined) return Number(today.slice(0, 4)) - Number(dated.slice(0, 4)) > YEARS;
    return Temporal.PlainDate.compare(day.add({ years: YEARS }), Temporal.PlainDate.from(today)) < 0;
}

function dayOf(text: string): Temporal.PlainDate | undefined {
    try { return Temporal.PlainDate.from(text); } catch { return undefined; }
}

function fails(hoses: readonly Part[]): Verdict {
    const many = hoses.length > 1;
    return {
        outcome: 'fail', members: hoses.map(({ id }) => id), about: hoses[0]!.id, fact: 'dated', rests: hoses.map(({ id }) => ({ about: id, fact: 'dated' })),
        message: `${capital(listed(hoses.map(({ name, dated }) => `${name} (${dated!})`)))} ${many ? 'are' : 'is'} more than ten years old.`,
        reason: 'Old hose cracks where it bends: on the suction side it lets air in, elsewhere it leaks.',
        advice: `Replace ${many ? 'them' : 'it'}, and write the year that is marked on the new hose.`, see: hoses.slice(1).map(({ id }) => ({ id, why: 'as old' })),
    };
}
