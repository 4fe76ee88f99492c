/** Filters and strainers: the element renewed, or looked at and put back; the bowl looked at and cleaned. */
import type { Id, Job, Part } from '../../../model/boat';
import type { PlannedServiceStep } from '../plan';
import type { Remark } from '../remarks';
import { planned } from '../step-of';
import type { Visit } from '../visit';
import { blank, bodySeals, drainSeals, isFor, needed, partOf } from './pieces';
import type { Opened, Recipe, Work } from './recipe';

const KINDS: readonly Part['kind'][] = ['filter', 'strainer'];

/** The drain first, so that the canister is empty when the lid comes off; then the lid, or the body at its ports. */
export const bodyOpenings = ({ id, lid, drain }: Part): readonly Opened[] => [...(drain ? [{ part: id, opening: 'drain' }] : []), { part: id, opening: lid ? 'lid' : 'ports' }];

/** s, with what is poured and wiped. */
const ELEMENT_TAKES = 900;
const BOWL_TAKES = 60;

const DIRTY = ['dark', 'slime', 'grit', 'water'];
/** What an element is looked at for, as the line of a procedure has it. */
const SIGNS = DIRTY.join(', ');

/** What was taken out is looked at, cleaned around, and new goes in; or the same again. */
function elementWork(visit: Visit, part: Part, how: 'renew' | 'again'): Work {
    const { id, separatesWater } = part;
    const seals = bodySeals(visit, id);
    const hasBowl = separatesWater === true || part.drain !== undefined;
    const interval = visit.boat.intervals.find(({ job }) => job.part === id && job.verb === 'renew' && job.piece === 'element');
    const instead: Remark = { say: 'renew instead', with: { part: id, piece: 'element', ...(interval?.refitUnder !== undefined && { under: interval.refitUnder }), ...(interval?.hours !== undefined && { every: interval.hours }) } };
    const count: Remark | undefined = seals.length > 0 ? { say: 'count old seals', with: { part: id, seals } } : undefined;
    const oil: Remark | undefined = seals.length > 0 ? { say: 'oil seals', with: { part: id, seals } } : undefined;
    const fineness: Remark | undefined = part.passes ? { say: 'element fineness', with: { part: id, passes: part.passes.si } } : undefined;
    const steps: PlannedServiceStep[] = [
        planned('renew', { do: 'remove', part: id, pieces: ['element', ...seals] }, count),
        planned('renew', { do: 'look', part: id, piece: 'element', words: SIGNS }, { say: 'look for', with: { part: id, signs: DIRTY } }, how === 'again' ? instead : undefined),
        ...(hasBowl ? [planned('renew', { do: 'clean', part: id, piece: 'bowl' })] : []),
        ...(how === 'renew' ? [planned('renew', { do: 'fit', part: id, pieces: ['element', ...seals] }, fineness, oil, dryRemark(part))]
            : [planned('renew', { do: 'fit', part: id, pieces: ['element'], again: true }, dryRemark(part)), ...(seals.length > 0 ? [planned('renew', { do: 'fit', part: id, pieces: seals }, oil)] : [])]),
    ];
    return {
        opens: bodyOpenings(part), steps, seconds: ELEMENT_TAKES,
        parts: [...needed(id, ['element'], how === 'again' ? 'only if it is not refitted' : undefined), ...needed(id, [...seals, ...drainSeals(visit, id)])],
        ...(part.seals.length === 0 && { defaults: [`the seals of ${id} are those that come with its element (none is stated)`] }),
    };
}

/** s. */
const FILLING_TAKES = 300;

/** Opened at its lid alone, so that it can be filled; its element stays in. */
export function fillingWork(visit: Visit, id: Id): Work {
    const part = visit.network.parts.get(id)!;
    const seals = bodySeals(visit, id);
    return {
        opens: [{ part: id, opening: part.lid ? 'lid' : 'ports' }], parts: needed(id, seals), seconds: FILLING_TAKES,
        steps: seals.length === 0 ? [] : [planned('renew', { do: 'remove', part: id, pieces: seals }), planned('renew', { do: 'fit', part: id, pieces: seals }, { say: 'oil seals', with: { part: id, seals } })],
    };
}

function dryRemark({ id, prefill, role }: Part): Remark | undefined {
    if (prefill === 'allowed' || (prefill === undefined && role === 'primary')) return undefined;
    return { say: 'close it dry', with: { part: id, why: prefill ?? 'nobody said that it may' } };
}

const isElement = (job: Job): boolean => job.piece === 'element' || job.piece === '';

export const FILTER: readonly Recipe[] = [
    {
        verb: 'renew', fits: (visit, job) => isFor(['renew'], KINDS)(visit, job) && isElement(job),
        make: (visit, job) => elementWork(visit, partOf(visit, job)!, 'renew'),
    },
    {
        verb: 'refit', fits: (visit, job) => isFor(['refit'], KINDS)(visit, job) && isElement(job),
        make: (visit, job) => elementWork(visit, partOf(visit, job)!, 'again'),
    },
    {
        verb: 'look', fits: (visit, job) => isFor(['look'], KINDS)(visit, job) && job.piece === 'element',
        make: (visit, job) => elementWork(visit, partOf(visit, job)!, 'again'),
    },
    {
        // From outside, through a clear bowl.
        verb: 'look', fits: isFor(['look'], KINDS),
        make: (_visit, job) => {
            const id = job.part!;
            const signs = job.piece === 'bowl' ? ['water', 'dark fuel', 'bubbles'] : ['weeps', 'rust', 'loose bolts'];
            return {
                whole: [planned('work', { do: 'look', part: id, piece: job.piece, words: signs.join(', ') }, { say: 'look for', with: { part: id, signs } }), planned('finish', { do: 'log', jobs: [job] })],
                consumers: [], takes: { seconds: BOWL_TAKES, people: 1 }, needs: { tools: ['lamp'] },
            };
        },
    },
    {
        verb: 'clean', fits: isFor(['clean'], KINDS),
        make: (visit, job) => {
            const part = partOf(visit, job)!;
            if (part.kind === 'filter' && !part.separatesWater && !part.drain) return blank(`${part.id} has no bowl in which anything settles: what it holds back goes ashore with its element.`);
            const work = elementWork(visit, part, 'again');
            const piece = job.piece === '' ? part.kind === 'strainer' ? 'element' : 'bowl' : job.piece;
            const cleaned = work.steps.some(({ step }) => step.do === 'clean' && step.piece === piece);
            return cleaned ? work : { ...work, steps: work.steps.flatMap((step) => (step.step.do === 'look' ? [step, planned('renew', { do: 'clean', part: part.id, piece })] : [step])) };
        },
    },
    {
        verb: 'test', fits: isFor(['test'], KINDS),
        make: (_visit, job) => blank(`What ${job.part!} takes is read at a gauge while the engine runs. Ask \`gauge\`, and read the gauge on its line.`),
    },
];
