/** The sheet for machines, by the published schema. */
import { REDO, STANDING, type Figure, type Line, type Printed, type PrintedWorking, type Source } from './printed';

export function sheetData({ title, basis, groups, taken, missing }: Printed): unknown {
    return {
        boat: title, standing: STANDING, redo: REDO, basis: basis.map(([term, words]) => ({ term, words })),
        computations: groups.flatMap(({ workings }) => workings.map(workingData)),
        taken, missing: missing.map(({ about, fact, how, settles }) => ({ about, fact, how, settles })),
    };
}

function workingData({ number, group, working, inputs, steps, result, limit, margin, verdict }: PrintedWorking): unknown {
    const { id, about, what, formula, source, where, rule, notes, byMesh, bySteps } = working;
    return {
        number, id, group, about, what, formula, source, inputs: inputs.map(lineData), steps: steps.map(lineData),
        ...(result && { result: { symbol: working.result!.symbol, ...figureData(result) } }),
        ...(limit && { limit: { sense: limit.sense, ...figureData(limit), from: sourceData(limit.from) } }),
        ...(margin && { margin: { ...figureData(margin), ...(margin.percent !== undefined && { percent: Number(margin.percent) }) } }),
        verdict, ...(where !== undefined && { where }), ...(rule !== undefined && { rule }), notes, byMesh: byMesh === true, bySteps: bySteps === true,
        missing: working.missing.map(({ about: of, fact, how }) => ({ about: of, fact, how })),
    };
}

const figureData = ({ value, unit, least, most }: Figure): object => ({ value: Number(value), unit, ...(least !== undefined && { least: Number(least) }), ...(most !== undefined && { most: Number(most) }) });
const lineData = (line: Line): object => ({ symbol: line.symbol, what: line.what, ...(line.formula !== undefined && { formula: line.formula }), ...figureData(line), ...(line.from && { from: sourceData(line.from) }) });
const sourceData = ({ kind, words, grade, id }: Source): object => ({ kind, words, ...(grade && { grade }), ...(id !== undefined && { id }) });
