import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { isValve } from '../../analysis/topology/network';
import { capital, listed } from '../../model/words';
import { type Check, type View } from '../check';

export const lineupNamed: Check = {
    code: 'LINEUP-NAMED', severity: 'document',
    statement: 'Every valve has a position in every named line-up, said, inherited or by its normal position.',
    prevents: 'Procedures that cannot be proven.',
    facts: 'line-ups; normal positions',
    source: 'common practice',
    judge: (view) => view.boat.parts.filter(isValve).map((valve) => judge(view, valve)),
};

function judge(view: View, valve: Part): Verdict {
    if (view.boat.lineUps.length === 0 && valve.normally === undefined && !valve.lockedOpen) {
        return {
            outcome: 'fail', about: valve.id, message: `${capital(valve.name)} has no normal position, and no line-up is declared.`, reason: 'Nobody can say whether it should be open.',
            advice: `Write \`normally open\` at ${valve.name}, or declare \`line-up RUN run is normal\` and its positions.`, ...(valve.kind === 'shutoff' && { fix: normally(valve) }),
        };
    }
    const silent = view.lineUps.filter((lineUp) => lineUp.assumedOpen.includes(valve.id) || lineUp.unplaced.includes(valve.id)).map((lineUp) => lineUp.id);
    if (silent.length === 0) return { outcome: 'pass', about: valve.id, rests: valve.lockedOpen ? [{ about: valve.id, fact: 'locked open' }] : valve.normally === undefined ? view.boat.lineUps.map(({ id }) => ({ about: id })) : [{ about: valve.id, fact: 'normally' }] };
    return {
        outcome: 'fail', about: valve.id, message: `${capital(valve.name)} has no position in line-up${silent.length > 1 ? 's' : ''} ${listed(silent)}.`,
        reason: valve.kind === 'shutoff' ? 'It is taken as open, which nobody said.' : 'What it joins there is not known.',
        advice: valve.kind === 'shutoff' ? `Write \`normally open\` at ${valve.name}, or its position in ${listed(silent)}.` : `Write its position in ${listed(silent)}, like \`${valve.name} ${valve.positions[0]?.name ?? 'OPEN'}\`.`,
        see: silent.filter((id) => view.boat.lineUps.some((lineUp) => lineUp.id === id)).map((id) => ({ id, why: 'says nothing of it' })),
        ...(valve.kind === 'shutoff' && { fix: normally(valve) }),
    };
}

const normally = (valve: Part): { title: string; line: string; where: { endOfLineOf: string } } => ({ title: `Say that ${valve.name} is normally open`, line: 'normally open', where: { endOfLineOf: valve.id } });
