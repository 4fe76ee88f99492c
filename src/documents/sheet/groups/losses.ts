/** The terms of a sum of losses along a way: friction of pipes, elements, checks, and the weight of a height; each with its symbol, in kPa. */
import type { Id } from '../../../model/boat';
import { estimateOf, exactly, type Estimate } from '../../../analysis/estimate';
import { GRAVITY } from '../../../analysis/flow/pipe';
import { CHECK, CLEAN, DIRTY, PRIMER } from '../../../analysis/flow/plumbed';
import type { Passed } from '../../../analysis/flow/steady';
import { nameOf, type View } from '../../../checks/check';
import { partOf } from '../flows';
import { carried, type From, type Input, type Step, type Working } from '../working';
import { frictionOf, isSameFlow, laminarOf, type State } from './friction';
import { sub } from './tanks';

export const G: Input = { symbol: 'g', what: 'gravity, m/s²', value: exactly(GRAVITY), unit: '1', from: { cited: 'the standard value' } };

export interface Losses {
    readonly inputs: readonly Input[];
    readonly steps: readonly Step[];
    /** `F₁ + F₂ + E₁ + 2 × C₁`; empty without any. */
    readonly terms: readonly string[];
    /** Computations of friction that these rest on. */
    readonly frictions: readonly Working[];
}

/** Pa: less than a thousandth of a millimetre of fuel shows nowhere. */
const NOTHING = 0.01;

/** `share`: what flows is so much of what flows at full speed, and r stands for it. */
export function lossesOn(view: View, way: readonly Passed[], state: State, elements: 'clean' | 'dirty', share?: number): Losses {
    const inputs: Input[] = [];
    const steps: Step[] = [];
    const terms: string[] = [];
    const frictions: Working[] = [];
    const counts = { F: 0, E: 0, C: 0 };
    const next = (of: keyof typeof counts): string => { counts[of]++; return `${of}${sub(counts[of])}`; };
    for (const passed of way) {
        const id = partOf(view, passed);
        const part = id === undefined ? undefined : view.network.parts.get(id);
        if (id === undefined) continue;
        const full = share === undefined || !passed.link.pipes ? undefined : laminarOf(view, id).find(({ flow }) => isSameFlow(Math.abs(passed.flow ?? 0), flow * share));
        const friction = full?.working ?? frictionOf(view, passed, state);
        if (friction) { const symbol = next('F'); frictions.push(friction); inputs.push(...carried(symbol, `friction in ${nameOf(view.boat, id)}`, friction)); terms.push(full ? `r × ${symbol}` : symbol); }
        const { check, element } = passed.link;
        if (check && check.opens > NOTHING && part) {
            const symbol = next('C');
            const isPrimer = part.kind === 'hand primer';
            inputs.push({ symbol, what: `${isPrimer ? 'each of the two checks of ' : ''}${nameOf(view.boat, id)} opens at`, value: valueOf(part.cracks, isPrimer ? PRIMER : CHECK), unit: 'kPa', from: fromOf(id, part.cracks, 'cracks', isPrimer ? PRIMER.taken : CHECK.taken) });
            terms.push(isPrimer ? `2 × ${symbol}` : symbol);
        }
        if (element && part?.kind === 'filter') {
            const symbol = next('E');
            const stated = elements === 'clean' ? part.clean : part.dirty;
            const fallback = elements === 'clean' ? CLEAN : DIRTY;
            const what = `${nameOf(view.boat, id)} with ${elements === 'clean' ? 'a new element' : 'an element that is to be renewed'}`;
            const value = valueOf(stated, fallback);
            const flow = Math.abs(passed.flow!);
            const from = fromOf(id, stated, elements, fallback.taken);
            terms.push(symbol);
            if (isSameFlow(flow, element.at)) { inputs.push({ symbol, what, value, unit: 'kPa', from }); continue; }
            const [drop, at, own] = [`e${sub(counts.E)}`, `a${sub(counts.E)}`, `q${sub(counts.E)}`];
            inputs.push(
                { symbol: drop, what, value, unit: 'kPa', from }, { symbol: at, what: 'at so much', value: exactly(element.at), unit: 'L/h', from: elements === 'clean' && part.clean && part.rated ? { about: id, fact: 'rated' } : { cited: 'what runs draws through it, the filters beside it taking their share' } },
                { symbol: own, what: `what flows in ${nameOf(view.boat, id)}`, value: exactly(flow), unit: 'L/h', from: { cited: 'what is drawn through it, or the network solution where it divides' } },
            );
            steps.push({ symbol, what: `what ${nameOf(view.boat, id)} takes, in proportion to the flow`, formula: `${symbol} = ${drop} × ${own} / ${at}`, value: value.si * flow / element.at, unit: 'kPa' });
        }
    }
    return { inputs, steps, terms, frictions };
}

const valueOf = (stated: Parameters<typeof estimateOf>[0] | undefined, { si, least, most }: Estimate): Estimate => (stated ? estimateOf(stated) : { si, least, most });
const fromOf = (id: Id, stated: object | undefined, fact: string, taken: string): From => (stated ? { about: id, fact } : { taken });
