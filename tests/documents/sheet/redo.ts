/** Redoes a formula of the calculation sheet as a reader would: from the figures that are printed, with nothing of the program's own arithmetic. */

/** What one of each unit is in SI, written down here again: 1 L = 0.001 m³, 1° = π/180. */
export const SI: Readonly<Record<string, number>> = { 1: 1, mm: 1e-3, m: 1, L: 1e-3, mL: 1e-6, mm2: 1e-6, m2: 1, deg: Math.PI / 180, '%': 0.01, kPa: 1e3, Pa: 1,
    h: 3600, min: 60, s: 1, 'L/h': 1e-3 / 3600, 'L/min': 1e-3 / 60, kn: 1852 / 3600, nmi: 1852, 'm/s': 1, rpm: 1 / 60, K: 1, degC: 1, 'kg/m3': 1, 'mm2/s': 1e-6, g: 1e-3, 'mg/kg': 1e-6, 'µm': 1e-6, m3: 1,
};
/** Temperatures count from -273.15 °C. */
const toSI = (value: number, unit: string): number => value * SI[unit]! + (unit === 'degC' ? 273.15 : 0);
const fromSI = (si: number, unit: string): number => (si - (unit === 'degC' ? 273.15 : 0)) / SI[unit]!;

const FUNCTIONS: Readonly<Record<string, (...of: number[]) => number>> = {
    sin: Math.sin, cos: Math.cos, tan: Math.tan, arctan: Math.atan, log: Math.log10, exp: Math.exp, ln: Math.log, '√': Math.sqrt, '∛': Math.cbrt, max: Math.max, min: Math.min,
};

/** The value of the right side; throws on what is no formula, or on a symbol that nothing gives. */
export function redo(formula: string, known: ReadonlyMap<string, number>): number {
    const [, right] = /^[^=]+ = (.+)$/.exec(formula) ?? [];
    if (right === undefined) throw new Error(`no equation: ${formula}`);
    const tokens = right.match(/\d+(?:\.\d+)?|[√∛]|[\p{L}][\p{L}₀-₉]*|[-+−×/²³(),|]|\S/gu) ?? [];
    let at = 0;
    const next = (sign: string): boolean => { if (tokens[at] !== sign) return false; at++; return true; };
    const need = (sign: string): void => { if (!next(sign)) throw new Error(`${sign} expected before ${tokens.slice(at).join(' ')} in ${formula}`); };
    const sum = (): number => {
        let value = product();
        for (;;) if (next('+')) value += product(); else if (next('−')) value -= product(); else return value;
    };
    const product = (): number => {
        let value = power();
        for (;;) if (next('×')) value *= power(); else if (next('/')) value /= power(); else return value;
    };
    const power = (): number => {
        const value = one();
        return next('²') ? value ** 2 : next('³') ? value ** 3 : next('^') ? value ** one() : value;
    };
    const one = (): number => {
        const token = tokens[at++] ?? '';
        if (/^\d/.test(token)) return Number(token);
        if (token === 'π') return Math.PI;
        if (token === '(') { const value = sum(); need(')'); return value; }
        if (token === '|') { const value = sum(); need('|'); return Math.abs(value); }
        if (token === '−') return -power();
        const of = FUNCTIONS[token];
        if (of) {
            if (!next('(')) return of(one());
            const values = [sum()];
            while (next(',')) values.push(sum());
            need(')');
            return of(...values);
        }
        const value = known.get(token);
        if (value === undefined) throw new Error(`nothing gives ${token} in ${formula}`);
        return value;
    };
    const value = sum();
    if (at < tokens.length) throw new Error(`${tokens.slice(at).join(' ')} left over in ${formula}`);
    return value;
}

interface Figure { readonly symbol: string; readonly value: number; readonly unit: string; readonly formula?: string }
export interface Computation {
    readonly id: string;
    readonly formula: string;
    readonly inputs: readonly Figure[];
    readonly steps: readonly Figure[];
    readonly result?: Figure;
    readonly byMesh: boolean;
    readonly bySteps?: boolean;
    readonly verdict: string;
    readonly limit?: { readonly sense: string; readonly value: number; readonly unit: string };
    readonly margin?: { readonly value: number };
}

/** Every line of a computation that does not come out as printed: to half a unit of its last digit, or half a percent. */
export function redone(one: Computation): string[] {
    const known = new Map(one.inputs.map(({ symbol, value, unit }) => [symbol, toSI(value, unit)]));
    const lines = [...one.steps, ...(one.result && !one.byMesh && !one.bySteps ? [{ ...one.result, formula: one.formula }] : [])];
    const faults = lines.flatMap(({ symbol, value, unit, formula }) => {
        if (formula!.includes('=')) {
            if (!formula!.startsWith(`${symbol} = `)) return [`${one.id}: ${formula} does not give ${symbol}`];
            const worked = fromSI(redo(formula!, known), unit);
            // Numbers lose the noughts behind them in JSON, so the last digit is at most this coarse.
            const last = 10 ** -(String(value).split('.')[1]?.length ?? 0);
            if (!(Math.abs(worked - value) <= Math.max(Math.min(last, 1) / 2 * 1.0001, 0.005 * Math.abs(value)))) return [`${one.id}: ${formula} gives ${worked}, printed ${value} ${unit}`];
        } else if (!/^by trial, until (\p{L}) below comes to (\p{L})$/u.test(formula!)) return [`${one.id}: ${formula}`];
        known.set(symbol, toSI(value, unit));
        return [];
    });
    // What was found by trial is proven: C comes to V.
    for (const { formula } of one.steps) {
        const [, proof, asked] = /^by trial, until (\p{L}) below comes to (\p{L})$/u.exec(formula!) ?? [];
        if (proof !== undefined && !(Math.abs(known.get(proof)! / known.get(asked!)! - 1) <= 0.005)) faults.push(`${one.id}: ${proof} is not ${asked}`);
    }
    return faults;
}
