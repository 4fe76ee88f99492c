/** Every kind of question, answered. */
import type { Boat } from '../../model/boat';
import { answerAir } from './air';
import type { Answer } from './answer';
import { answerIsolate } from './isolate';
import { answerOpen } from './open';
import { answerPaths } from './paths';
import type { Circumstances, Question } from './question';
import { answerReach } from './reach';
import { answerSevered } from './severed';
import { answerSounding } from './sounding';
import { stateOf } from './state';

/** Undefined when the boat has no line-up of the name. */
export function answer(boat: Boat, question: Question, said: Circumstances): Answer | undefined {
    const state = stateOf(boat, said);
    if (!state) return undefined;
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
