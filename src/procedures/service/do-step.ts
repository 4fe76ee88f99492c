/** Runs one step: the state after it, and what it breaks, but for cautions and ways back. */
import type { ServiceStep } from '../../model/step';
import { breaks, type Done } from './program';
import { without, type Stage } from './stage';
import type { ServiceState } from './state';
import { flip, place, read, stop, warn } from './steps/aboard';
import { bleedingStep, sequence } from './steps/bleeding';
import { close, hold, open } from './steps/opening';
import { clean, fit, look, remove } from './steps/pieces';
import { run } from './steps/running';

export function doStep(stage: Stage, state: ServiceState, step: ServiceStep): Done {
    if (step.do === 'caution') return warn(stage, state, step);
    const done = oneStep(stage, state, step);
    if (state.dryImpeller.size === 0) return done;
    // An engine that fires with its seacock shut has water the moment that the next step opens it, or its impeller runs dry.
    const dry = [...state.dryImpeller].filter((id) => !(step.do === 'switch' && step.thing === 'seacock' && step.of === id && step.to === 'open'));
    return { state: { ...done.state, dryImpeller: without(done.state.dryImpeller, ...state.dryImpeller) }, broken: [...done.broken, ...dry.map((id) => breaks('seacock-shut', [id]))] };
}

function oneStep(stage: Stage, state: ServiceState, step: Exclude<ServiceStep, { do: 'caution' }>): Done {
    switch (step.do) {
        case 'set': case 'prefill': case 'bleed': case 'prove': case 'start': return bleedingStep(stage, state, step);
        case 'sequence': return sequence(stage, state, step);
        case 'open': return open(stage, state, step);
        case 'close': return close(stage, state, step);
        case 'hold': return hold(stage, state, step);
        case 'remove': return remove(stage, state, step);
        case 'fit': return fit(stage, state, step);
        case 'clean': return clean(stage, state, step);
        case 'look': return look(stage, state, step);
        case 'stop': return stop(stage, state, step);
        case 'switch': return flip(stage, state, step);
        case 'place': return place(stage, state, step);
        case 'run': return run(stage, state, step);
        case 'read': return read(stage, state, step);
        case 'wait': case 'log': return { state, broken: [] };
    }
}
