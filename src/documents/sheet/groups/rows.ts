/** What a row of pipes takes, as steps that a reader can redo: speed, Reynolds number and friction factor of each. */
import type { Id } from '../../../model/boat';
import { areaOf, cubicOf, DRAWN, frictionFactor, LAMINAR, reynolds, TURBULENT } from '../../../analysis/flow/pipe';
import { fittingOf } from '../../../analysis/topology/joints';
import type { View } from '../../../checks/check';
import { figure } from '../../../model/words';
import { input, type Input, type Step } from '../working';
import { sub } from './tanks';

export interface Row {
    /** In the order of the line; one without length is a mouth that is only passed. */
    readonly pipes: readonly { readonly bore: number; readonly length: number; readonly number: string }[];
    readonly inputs: readonly Input[];
}

/** The pipes among the parts, as `rowOf` of analysis/flow reads them, which tells what is lacking; before them a mouth, where one is given. */
export function rowInputs({ boat, network }: View, parts: readonly Id[], mouth?: Id): Row {
    const pipes: Row['pipes'][number][] = [];
    const inputs: Input[] = [];
    const add = (bore: Input, length: number, along?: Input): void => { pipes.push({ bore: bore.value.si, length, number: bore.symbol.slice(1) }); inputs.push(bore, ...(along ? [along] : [])); };
    const next = (): string => sub(pipes.length + 1);
    const own = mouth === undefined ? undefined : fittingOf(boat, mouth);
    if (own?.bore) add(input(`D${next()}`, `bore of ${own.id}`, own.bore, 'mm', { about: own.id, fact: 'bore' }), 0);
    for (const id of parts) {
        const part = network.parts.get(id);
        if (part?.kind === 'hose' || part?.kind === 'tube') {
            if (!part.bore || !part.length) continue;
            add(input(`D${next()}`, `bore of ${part.name}`, part.bore, 'mm', { about: id, fact: 'bore' }), part.length.si, input(`L${next()}`, `length of ${part.name}`, part.length, 'm', { about: id, fact: 'length' }));
            continue;
        }
        const fitting = fittingOf(boat, id);
        const [top, low] = [fitting?.top?.up?.si, fitting?.mouth?.up?.si];
        if (!fitting?.bore || top === undefined || low === undefined) continue;
        add(input(`D${next()}`, `bore of ${id}`, fitting.bore, 'mm', { about: id, fact: 'bore' }), Math.abs(top - low), input(`L${next()}`, `length of ${id}`, Math.abs(top - low), 'm', { about: id, fact: 'top', words: 'from its mouth to its top' }));
    }
    return { pipes, inputs };
}

export const roughness = (): Input => input('ε', 'roughness', DRAWN, 'mm', { cited: 'drawn tubing, the textbooks\'; hoses are counted as smooth' });

export interface Worked {
    readonly steps: readonly Step[];
    /** The sum of f × L / D × v² over the pipes. */
    readonly friction: string;
    /** Whether every pipe is laminar. */
    readonly laminar: boolean;
    /** Some pipe is not, so the roughness counts. */
    readonly rough: boolean;
    readonly notes: readonly string[];
}

/** At a flow (m³/s) of the symbol Q, of a viscosity (m²/s) of the symbol ν. `at`: the pipe whose speed is wanted even without length. */
export function frictionSteps({ pipes }: Row, flow: number, viscosity: number, at: string): Worked {
    const steps: Step[] = [];
    const regimes = new Set<string>();
    for (const { bore, length, number: i } of pipes) {
        if (length === 0 && i !== at) continue;
        const speed = flow / areaOf(bore);
        steps.push({ symbol: `v${i}`, what: 'speed in it', formula: `v${i} = 4 × Q / (π × D${i}²)`, value: speed, unit: 'm/s' });
        if (length === 0) continue;
        const re = reynolds(speed, bore, viscosity);
        steps.push({ symbol: `Re${i}`, what: 'Reynolds number', formula: `Re${i} = v${i} × D${i} / ν`, value: re, unit: '1' });
        const { regime, lines } = factor(i, re, bore);
        regimes.add(regime);
        steps.push(...lines);
    }
    const used = pipes.filter(({ length }) => length > 0);
    return {
        steps, friction: used.map(({ number: i }) => `f${i} × L${i} / D${i} × v${i}²`).join(' + ') || '0', laminar: [...regimes].every((regime) => regime === 'laminar'), rough: [...regimes].some((regime) => regime !== 'laminar'),
        notes: [`The flow is ${[...regimes].sort().join(', ') || 'through mouths alone'}: laminar up to Re ${figure(LAMINAR, 4)}, turbulent from ${TURBULENT}.`],
    };
}

const SWAMEE = (re: string, i: string): string => `ln(ε / (3.7 × D${i}) + 5.74 / exp(0.9 × ln(${re}))) / ln(10)`;

function factor(i: string, re: number, bore: number): { readonly regime: string; readonly lines: readonly Step[] } {
    const f = { symbol: `f${i}`, what: 'friction factor', value: frictionFactor(re, DRAWN / bore), unit: '1' };
    if (re <= LAMINAR) return { regime: 'laminar', lines: [{ ...f, formula: `f${i} = 64 / Re${i}` }] };
    if (re >= TURBULENT) return { regime: 'turbulent', lines: [{ ...f, what: 'friction factor (Swamee and Jain)', formula: `f${i} = 0.25 / (${SWAMEE(`Re${i}`, i)})²` }] };
    const { y2, y3, fa, fb } = cubicOf(DRAWN / bore);
    return {
        regime: 'between laminar and turbulent', lines: [
            { symbol: `y${i}`, what: 'for Dunlop\'s cubic', formula: `y${i} = ε / (3.7 × D${i}) + 5.74 / exp(0.9 × ln(4000))`, value: y2, unit: '1' },
            { symbol: `w${i}`, what: 'for it', formula: `w${i} = −2 × ln(y${i}) / ln(10)`, value: y3, unit: '1' },
            { symbol: `a${i}`, what: 'for it', formula: `a${i} = 1 / w${i}²`, value: fa, unit: '1' },
            { symbol: `b${i}`, what: 'for it', formula: `b${i} = a${i} × (2 − 0.00514215 / (y${i} × w${i}))`, value: fb, unit: '1' },
            { symbol: `r${i}`, what: 'for it', formula: `r${i} = Re${i} / 2000`, value: re / LAMINAR, unit: '1' },
            { ...f, what: 'friction factor (Dunlop\'s cubic between laminar and turbulent)', formula: `f${i} = 7 × a${i} − b${i} + r${i} × (0.128 − 17 × a${i} + 2.5 × b${i} + r${i} × (−0.128 + 13 × a${i} − 2 × b${i} + r${i} × (0.032 − 3 × a${i} + 0.5 × b${i})))` },
        ],
    };
}

