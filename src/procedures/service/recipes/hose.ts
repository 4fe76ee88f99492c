/** Hoses and tubes: renewed whole, looked at where they lie. */
import type { Part } from '../../../model/boat';
import type { Remark } from '../remarks';
import { blank, isFor, partOf } from './pieces';
import { looked } from './looking';
import type { Recipe } from './recipe';
import { renewWhole } from './whole-part';

const KINDS: readonly Part['kind'][] = ['hose', 'tube'];

export const HOSE: readonly Recipe[] = [
    {
        verb: 'renew', fits: isFor(['renew'], KINDS),
        make: (visit, job) => {
            const part = partOf(visit, job)!;
            const like: Remark = { say: 'like for like', with: { part: part.id, ...(part.bore && { bore: part.bore.si }), ...(part.length && { length: part.length.si }), fireResistant: part.fireResistant ? 'yes' : 'no' } };
            return renewWhole(visit, part, part.kind === 'hose' ? { tools: ['hose cutter', 'driver for the clips'], spares: ['clips'], remarks: [like] } : { tools: ['tube cutter', 'flaring tool or new olives'], spares: ['olives'], remarks: [like] });
        },
    },
    { verb: 'refit', fits: isFor(['refit'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} is not put back once it is off: its ends are cut, or set. Renew it.`) },
    { verb: 'look', fits: isFor(['look'], KINDS), make: (visit, job) => looked(job, partOf(visit, job)!.kind === 'hose' ? ['chafe', 'cracks', 'soft places', 'weeps at the clips', 'its date'] : ['chafe', 'green or white rust', 'weeps at the unions']) },
    { verb: 'drain', fits: isFor(['drain'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing to drain it by. It empties when it is taken off.`) },
    { verb: 'clean', fits: isFor(['clean'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} has nothing in it to clean. If it is fouled inside, renew it.`) },
    { verb: 'test', fits: isFor(['test'], KINDS), make: (visit, job) => blank(`${partOf(visit, job)!.name} is looked at, and renewed by its date; nothing on board tests it.`) },
];
