import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { isPump } from '../../analysis/topology/network';
import { capital } from '../../model/words';
import { type Check } from '../check';

export const checkDir: Check = {
    code: 'CHECK-DIR', severity: 'critical',
    statement: 'Check valves, pumps, primers and the in and out marks of filters agree with the flow of the course they stand in.',
    prevents: 'The engine starves, or a filter sheds its dirt downstream.',
    facts: 'which parts are found turned end for end',
    source: 'logic of the network',
    judge: (view) => view.boat.parts.filter((part) => part.kind === 'check' || part.kind === 'filter' || part.kind === 'strainer' || isPump(part)).map(judge),
};

function judge(part: Part): Verdict {
    if (!part.reversed) return { outcome: 'pass', about: part.id };
    const flows = part.kind !== 'filter' && part.kind !== 'strainer';
    return {
        outcome: 'fail', about: part.id, fact: 'reversed', rests: [{ about: part.id, fact: 'reversed' }], message: `${capital(part.name)} points against the flow of ${part.course ?? 'its course'}.`,
        reason: flows ? 'Nothing passes it in the direction of the course.' : 'Flow the wrong way carries the dirt that it holds to the engine.',
        advice: `Turn ${part.name} end for end; then remove the word \`reversed\`.${flows ? ' What lies beyond it is judged only then.' : ''}`,
    };
}
