/** Every kind of question, answered. */
import type { Boat } from '../../model/boat';
import { listed } from '../../model/words';
import { answerAir } from './air';
import type { Answer } from './answer';
import { answerIsolate } from './isolate';
import { answerOpen } from './open';
import { answerPaths } from './paths';
import type { Circumstances, Question } from './question';
import { answerReach } from './reach';
import { answerSevered } from './severed';
import { answerSounding } from './sounding';
import { stateOf, type Aspect, type State } from './state';

/** Undefined when the boat has no line-up of the name. */
export function answer(boat: Boat, question: Question, said: Circumstances): Answer | undefined {
    const state = stateOf(boat, said);
    if (!state) return undefined;
    const found = answered(boat, question, state);
    const reads = (of: Aspect): boolean => READS[of].includes(question.ask);
    const unused = [
        ...(!reads('level') && (said.level !== undefined || said.levels.size > 0) ? ['level'] : []),
        ...(!reads('lean') && (said.heel !== undefined || said.trim !== undefined) ? ['heel or trim'] : []),
        ...(!reads('lineUp') && said.lineUp !== undefined ? ['line-up'] : []),
    ];
    return {
        ...found, defaults: [...state.taken.filter(({ of }) => reads(of)).map(({ words }) => words), ...found.defaults],
        body: [...(unused.length === 0 ? [] : [`What you said of ${listed(unused)} plays no part in this answer.`]), ...found.body],
    };
}

/** What of the state each question is answered for; the others are answered for any. */
const READS: Readonly<Record<Aspect, readonly Question['ask'][]>> = {
    level: ['isolate', 'open'], lean: ['isolate', 'open', 'reach', 'sounding'], lineUp: ['isolate', 'open', 'air', 'paths', 'severed'],
};

function answered(boat: Boat, question: Question, state: State): Answer {
    switch (question.ask) {
        case 'isolate': return answerIsolate(boat, question.part, question.opening, state);
        case 'open': return answerOpen(boat, question.part, question.opening, state);
        case 'air': return answerAir(boat, question.after, state);
        case 'paths': return answerPaths(boat, question.way, question.consumer, state);
        case 'reach': return answerReach(boat, state);
        case 'severed': return answerSevered(boat, question.line, state);
        case 'sounding': return answerSounding(boat, question.tank, state);
    }
}
