/** A bleed sequence: its bleed points in their order, what is worked at each, and the valves that are turned. */
import type { Id } from '../../../model/boat';
import { lineUpsOf } from '../../../analysis/topology/line-ups';
import { planBleed, type BleedPlan } from '../../../procedures/bleed';
import { titleOf } from '../../bleed/sheet';
import { beforeFirst, driverWords, leftSentences, stepSentence } from '../../bleed/words';
import type { Mark, Markup } from '../markup';
import type { Refused, Shown } from './markup';

export interface BleedShow {
    readonly engine: Id;
    readonly opened: readonly Id[];
    readonly ranDry?: true;
}

/** Numbers are those of the steps as the printed sequence has them. */
export function bleedMarkup({ boat }: Shown, request: BleedShow): Markup | Refused {
    const plan = planBleed(boat, request);
    if ('refused' in plan) return { refused: [plan.refused, ...plan.missing.map(({ fact, how }) => `Find out first: ${fact} (${how}).`)].join(' ') };
    const positions = lineUpsOf(boat).find(({ id }) => id === plan.starts)?.positions;
    return {
        title: titleOf(plan), lineUp: plan.starts, ...(positions && { positions }), marks: [...pointMarks(plan), ...valveMarks(plan), ...pumpMarks(plan), ...openedMarks(plan)],
        notes: [
            ...leftSentences(plan), `Starts in line-up ${plan.starts}, as the valves are drawn, and ends in ${plan.ends}.`, beforeFirst(plan),
            ...plan.steps.flatMap(({ step, cautions }, i) => [...cautions.map(({ signal, text }) => `${signal}: ${text}`), `${i + 1}. ${stepSentence(boat, step, plan.fluid)}`]),
        ],
    };
}

/** The steps of each thing, in the order in which it is first come to. */
function numbered(found: readonly { readonly about: Id; readonly number: number; readonly words: string }[]): { about: Id; numbers: string; words: string }[] {
    return [...new Set(found.map(({ about }) => about))].map((about) => {
        const own = found.filter((one) => one.about === about);
        return { about, numbers: own.map(({ number }) => number).join(', '), words: [...new Set(own.map(({ words }) => words))].join(', ') };
    });
}

const pointMarks = ({ steps }: BleedPlan): Mark[] =>
    numbered(steps.flatMap(({ step }, i) => (step.do === 'bleed' ? [{ about: step.vent, number: i + 1, words: `by ${driverWords(step)}` }] : step.do === 'prove' ? [{ about: step.vent, number: i + 1, words: `by ${step.part} lever` }] : [])))
        .flatMap(({ about, numbers, words }): Mark[] => [{ about, as: 'number', words: numbers }, { about, as: 'open', words }]);

const valveMarks = ({ steps }: BleedPlan): Mark[] =>
    numbered(steps.flatMap(({ step }, i) => (step.do === 'set' ? [{ about: step.part, number: i + 1, words: `${i + 1}: ${step.position}` }] : []))).map(({ about, words }) => ({ about, as: 'turned', words }));

const pumpMarks = ({ steps }: BleedPlan): Mark[] =>
    numbered(steps.flatMap(({ step }, i) => (step.do === 'bleed' ? [{ about: step.driver.part, number: i + 1, words: '' }] : step.do === 'prove' ? [{ about: step.part, number: i + 1, words: '' }] : [])))
        .map(({ about, numbers }) => ({ about, as: 'about', words: `at ${numbers}` }));

const openedMarks = ({ request, steps }: BleedPlan): Mark[] => request.opened.map((about) => {
    const filled = steps.findIndex(({ step }) => step.do === 'prefill' && step.part === about);
    return { about, as: 'about', words: `was opened${filled < 0 ? '' : `, filled at ${filled + 1}`}` };
});
