/** Every kind of question, answered. */
import type { Boat } from '../../model/boat';
import { listed } from '../../model/words';
import { answerAir } from './air';
import type { Answer } from './answer';
import { answerBackPressure } from './back-pressure';
import { answerEndurance } from './endurance';
import { answerFlow } from './flow';
import { answerGauge } from './gauge';
import { answerIsolate } from './isolate';
import { answerOpen } from './open';
import { answerOverflow } from './overflow';
import { answerPaths } from './paths';
import type { Circumstances, Question } from './question';
import { answerReach } from './reach';
import { answerSevered } from './severed';
import { answerSounding } from './sounding';
import { answerStarve } from './starve';
import { stateOf, type Aspect, type State } from './state';
import { answerSuction } from './suction';

/** Undefined when the boat has no line-up of the name. */
export function answer(boat: Boat, question: Question, said: Circumstances): Answer | undefined {
    const state = stateOf(boat, said, READS.low.includes(question.ask) ? 'low' : 'full');
    if (!state) return undefined;
    const found = answered(boat, question, state);
    const reads = (of: Aspect): boolean => READS[of].includes(question.ask);
    const unused = [
        ...(!reads('full') && !reads('low') && !reads('filled') && state.levelSaid ? ['level'] : []),
        ...(!reads('lean') && !reads('upright') && (said.heel !== undefined || said.trim !== undefined) ? ['heel or trim'] : []),
        ...(!reads('lineUp') && !reads('runs') && said.lineUp !== undefined ? ['line-up'] : []),
        ...(!reads('speed') && !reads('back') && !reads('speeds') && said.speed !== undefined ? ['speed'] : []),
        ...(!reads('elements') && said.elements !== undefined ? ['elements'] : []),
    ];
    return {
        ...found, defaults: [...state.taken.filter(({ of }) => reads(of)).map(({ words }) => words), ...found.defaults],
        body: [...(unused.length === 0 ? [] : [`What you said of ${listed(unused)} plays no part in this answer.`]), ...found.body],
    };
}

/** What of the state each question is answered for; the others are answered for any. */
const READS: Readonly<Record<Aspect, readonly Question['ask'][]>> = {
    full: ['isolate', 'open', 'back-pressure', 'overflow'], low: ['flow', 'gauge', 'suction'],
    lean: ['isolate', 'open', 'reach', 'sounding', 'suction', 'back-pressure', 'starve'], upright: ['flow', 'gauge', 'overflow'],
    lineUp: ['isolate', 'open', 'air', 'paths', 'severed', 'flow', 'gauge', 'starve', 'overflow'], runs: ['suction', 'back-pressure'],
    speed: ['flow', 'gauge', 'suction', 'starve', 'overflow'], back: ['back-pressure'], elements: ['flow', 'suction', 'starve'], filled: ['endurance'], speeds: ['endurance'],
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
        case 'flow': return answerFlow(boat, question.part, question.way, state);
        case 'gauge': return answerGauge(boat, question.gauge, state);
        case 'suction': return answerSuction(boat, question.consumer, state);
        case 'back-pressure': return answerBackPressure(boat, question.consumer, state);
        case 'starve': return answerStarve(boat, state);
        case 'endurance': return answerEndurance(boat, state);
        case 'overflow': return answerOverflow(boat, state);
    }
}
