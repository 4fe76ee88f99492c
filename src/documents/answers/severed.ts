/** Severed: what is lost if a line is cut through, stopped and running, how fast, and what stops it. */
import type { Boat, Id } from '../../model/boat';
import { LIMIT, TIME, severed, type Severed } from '../../analysis/opening/severed';
import { fluidOf } from '../../analysis/flow/fluid';
import { distinct, lineMissing, shapeGrounds } from '../../analysis/missing';
import { nameOf } from '../../checks/check';
import { blockedBy } from '../../analysis/topology/isolating';
import { networkOf } from '../../analysis/topology/network';
import { attitudeWords, capital, listed, litres } from '../../model/words';
import type { Answer, Table } from './answer';
import { round } from './open';
import type { State } from './state';

export function answerSevered(boat: Boat, line: Id, { lineUp }: State): Answer {
    const [tight, worn] = (['tight', 'leaky'] as const).map((checks) => severed(boat, lineUp, checks, line)) as [Severed[], Severed[]];
    const all = [...tight, ...worn];
    const tanks = [...new Set(all.flatMap(({ sources }) => sources.map(({ tank }) => tank)))];
    const blocks = ({ valve, position }: { readonly valve: Id; readonly position: string }): readonly Id[] => blockedBy(networkOf(boat), lineUp.positions, { part: valve, position });
    const stops = [...new Set(all.flatMap(({ sources }) => sources.flatMap(({ stop }) => (stop ? [`${stop.valve} ${stop.position}`] : []))))];
    const stopWords = [...new Map(all.flatMap(({ sources }) => sources.flatMap(({ tank, fitting, stop }) => (stop ? [[`${stop.valve} ${fitting}`, `${stop.valve} ${stop.position} stops what comes from ${tank} by ${fitting}${blocks(stop).length > 0 ? ` (first stop ${listed(blocks(stop))}, whose return it blocks)` : ''}`] as const] : []))))].map(([, words]) => words);
    const pushed = [...new Set(all.flatMap((found) => found.pushed.map(({ by }) => by)))];
    const unstopped = [...new Set(all.flatMap(({ sources }) => sources.filter(({ stop }) => !stop).map(({ tank, fitting }) => `${tank} by ${fitting}`)))];
    const fluid = tanks.length > 0 ? fluidOf(boat.vessel, boat.tanks.find(({ id }) => tanks.includes(id))?.carries, 'warm') : undefined;
    return {
        title: `${capital(nameOf(boat, line))} cut through, in line-up ${lineUp.id}, tanks as full as they are ever used, over her whole envelope`,
        body: tight.length === 0 ? [`${capital(nameOf(boat, line))} is no supply, return or transfer line; what is in a vent or a fill is not reckoned.`] : [
            ...(unstopped.length > 0 && all.some(({ fastest }) => (fastest?.rate ?? 0) > 0) ? [`WARNING: nothing that a hand can shut stands between it and ${listed(unstopped)}.`] : []),
            ...(stopWords.length > 0 ? [`${stopWords.join('; ')}.`] : []),
            tableOf(tight, worn),
            ...(pushed.length > 0 ? [`Running, ${listed(pushed)} ${pushed.length > 1 ? 'push' : 'pushes'} it out.`] : []),
            ...(all.some(({ lacks }) => lacks.length > 0) ? ['`or more`: only what is known of her places was reckoned. Until the rest is measured, take it that a tank can empty itself.'] : []),
            'What stands in the line itself comes besides.',
            `${all.every(({ lacks }) => lacks.length > 0) ? '' : `${all.some(({ lacks }) => lacks.length > 0) ? 'Every other figure' : 'Every figure'} is an upper bound: full lines, and pipes alone hinder the flow. `}33 CFR 183.558 lets a cut petrol hose on a boat at rest lose ${litres(LIMIT)} in ${TIME} s; it does not bind diesel, and is a measure by analogy.`,
        ],
        data: { ask: 'severed', line, lineUp: lineUp.id, cases: tight.map((held, i) => ({ state: held.state, checksTight: severedData(held), checksWorn: severedData(worn[i]!) })), stops },
        used: [{ about: line, fact: 'bore' }, { about: line, fact: 'length' }, { about: line, fact: 'low' }, ...tanks.flatMap((about) => shapeGrounds(boat, about)), ...(fluid?.facts ?? []).map((fact) => ({ about: 'vessel', fact }))],
        defaults: fluid?.taken ?? [], missing: distinct(all.flatMap(({ lacks }) => lacks.map((lack) => lineMissing(boat, lack)))),
    };
}

/** One row for a state: how fast at most, how much at most, and how she lies when it comes fastest. */
function row(when: string, { sources, pushed, fastest, all, lacks }: Severed): string[] {
    if (sources.length === 0 && pushed.length === 0) return [when, 'no tank reaches it', '', '', ''];
    if (!fastest) return [when, lacks.length > 0 ? '?' : 'nothing', '', '', ''];
    if (fastest.rate === 0) return [when, lacks.length > 0 ? '?' : 'nothing', '', '', ''];
    // What is not known of a place leaves attitudes out: then a figure bounds nothing.
    const or = lacks.length > 0 ? ' or more' : '';
    return [when, litres(fastest.inTime) + or, litres(fastest.rate * 60) + or, all ? litres(all.volume) + or : '?', attitudeWords(fastest.attitude)];
}

function tableOf(tight: readonly Severed[], worn: readonly Severed[]): Table {
    return {
        head: ['', `in ${TIME} s`, 'a minute', 'in all, unstopped', 'fastest when'],
        rows: ['stopped', 'running'].flatMap((state) => [[`${state}, checks hold`, tight], [`${state}, checks worn`, worn]] as const).flatMap(([when, cases]) => cases.filter((found) => when.startsWith(found.state)).map((found) => row(when, found))),
    };
}

const severedData = ({ sources, pushed, fastest, all, lacks }: Severed): unknown => ({
    from: sources.map(({ tank, fitting, end, stop }) => ({ tank, fitting, end, ...(stop && { stop }) })), pushedBy: pushed.map(({ by }) => by),
    ...(fastest && { litresIn150s: round(fastest.inTime * 1e3), litresPerMinute: round(fastest.rate * 6e4), attitude: attitudeWords(fastest.attitude) }),
    ...(all && { litresInAll: round(all.volume * 1e3) }), ...(lacks.length > 0 && { orMore: true }),
});
