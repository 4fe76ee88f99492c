import type { Verdict } from '../../model/finding';
import type { Check } from '../check';

export const tagUnique: Check = {
    code: 'TAG-UNIQUE', severity: 'document',
    statement: 'Each tag names one thing of the boat.',
    prevents: 'The wrong valve is worked.',
    facts: 'all tags of the boat, in all its files',
    source: 'common practice',
    judge: ({ boat }) => [...boat.tags].flatMap(([tag, ids]): Verdict[] => ids.length === 1 ? [{ outcome: 'pass', about: ids[0]! }] : ids.slice(1).map((id) => ({
        outcome: 'fail', about: id, message: `${tag} is already the tag of something else on this boat.`, reason: 'A procedure that names it could mean either.',
        advice: `Give one of the two another tag.`, see: [{ id: ids[0]!, why: 'the first one' }],
    }))),
};
