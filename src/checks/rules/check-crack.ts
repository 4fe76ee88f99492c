/**
 * Division: SIPHON-BREAK asks whether an anti-siphon check opens at enough; here such a check may open at more than a priming check, since it is there to
 * hold a head back. It is known by what would come past it if it opened at nothing. What it takes of the suction is counted with the suction.
 */
import type { Boat, Part } from '../../model/boat';
import type { MissingFact, Verdict } from '../../model/finding';
import { followers, partsBefore } from '../../analysis/topology/paths';
import { capital, figure, listed } from '../../model/words';
import { fromSI } from '../../model/units';
import { burnsFuel, nothing, viewOf, type Check, type View } from '../check';
import { outgoing, runningOut } from '../lines';
import { crackMissing, distinct } from '../../analysis/missing';
import { least, most } from '../../analysis/estimate';

export const checkCrack: Check = {
    code: 'CHECK-CRACK', severity: 'minor', slow: true,
    statement: 'The pressure at which each check on the supply of what burns fuel opens is known, and is no more than 1 kPa, in checks and in primers, unless the check holds back the head of a tank.',
    prevents: 'A check that takes a share of the suction which nobody counted.',
    facts: 'the pressure at which checks open; heights and places of lines and tanks, envelope and line-ups where one opens at more',
    source: 'common practice',
    judge: (view) => {
        const parts = view.boat.parts.filter((part) => (part.kind === 'check' || (part.kind === 'hand primer' && part.cracks)) && drawnBy(view, part).length > 0);
        return parts.length === 0 ? [nothing('no check stands on the supply of what burns fuel')] : parts.map((part) => judge(view, part));
    },
};

/** Pa. */
const MOST = 1000;

const drawnBy = (view: View, part: Part): string[] => view.boat.consumers.filter((consumer) => burnsFuel(view, consumer) && partsBefore(view.allOpen, `${consumer.id}:in`).has(part.id)).map(({ id }) => id);

function judge(view: View, part: Part): Verdict {
    const about = part.id;
    const { cracks } = part;
    if (!cracks) return { outcome: 'cannot tell', about, missing: [crackMissing(part)] };
    const rests = [{ about, fact: 'cracks' }];
    if (most(cracks) <= MOST + 1e-6) return { outcome: 'pass', about, rests };
    const held = part.kind === 'check' ? holdsBack(view, part) : 'no';
    if (held === 'yes') return { outcome: 'pass', about, rests };
    if (held !== 'no') return { outcome: 'cannot tell', about, missing: held };
    const certain = least(cracks) > MOST;
    const consumers = drawnBy(view, part);
    return {
        outcome: 'fail', about, fact: 'cracks', rests, ...(!certain && { severity: 'advice' }),
        message: `${capital(part.name)} opens at ${certain ? '' : 'up to '}${figure(fromSI(certain ? cracks.si : most(cracks), 'kPa'))} kPa; one that only keeps the line full needs no more than 1 kPa (common practice).`,
        reason: `${listed(consumers)} ${consumers.length > 1 ? 'have' : 'has'} so much less suction left, with every filter.`,
        advice: `Fit a ${part.kind === 'check' ? 'check' : 'primer with checks'} that ${part.kind === 'check' ? 'opens' : 'open'} at 1 kPa or less in its place.`,
        see: consumers.map((id) => ({ id, why: 'draws through it' })),
    };
}

/** Whether liquid of a tank would run out of some part behind the check if it held nothing back; else what is not known to say so. */
function holdsBack(view: View, check: Part): 'yes' | 'no' | MissingFact[] {
    const boat: Boat = { ...view.boat, parts: view.boat.parts.map((part) => (part === check ? { ...part, cracks: { si: 0 } } : part)) };
    const slack = viewOf(boat);
    const behind = followers(view.allOpen, check.id);
    const found = outgoing(slack).map(({ fitting, parts }) => runningOut(slack, { fitting, parts: parts.filter((id) => behind.has(view.network.index.get(`${id}:in`)!)) }));
    if (found.some(({ worst }) => worst?.from.through.includes(check.id))) return 'yes';
    const missing = distinct(found.flatMap((line) => line.missing));
    return missing.length > 0 ? missing : 'no';
}
