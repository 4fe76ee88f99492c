/**
 * Division: a rise that nothing clears of air is BLEED-AT-HIGH, major, and not told again here. Behind the pump that draws, the line is under
 * pressure: what gathers there is BLEED-AT-HIGH's alone. The rise counts from its lesser side, and upright (see `high-points.ts`).
 */
import type { Id } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { endPlace } from '../../analysis/air/heights';
import { joinedTo } from '../../analysis/topology/joints';
import { capital, mm } from '../../model/words';
import { nameOf, nothing, type Check, type View } from '../check';
import { inLineUps, isHump, ledLower, placeOf, sweepWords, trapsOf, type Trap } from '../high-points';

export const noHump: Check = {
    code: 'NO-HUMP', severity: 'minor', slow: true,
    statement: 'Between the tank and the pump that draws, no line rises by more than 50 mm and falls again by as much, upright, unless a bleed point stands at the top.',
    prevents: 'A trap for air under suction.',
    facts: 'heights of the parts; crests and lows of hoses; where the pump stands that draws',
    source: 'common practice',
    judge: (view) => {
        const { traps, lines } = trapsOf(view);
        if (lines.length === 0) return [nothing('no tank feeds anything that burns fuel in a line-up for running')];
        const humps = traps.filter(isHump);
        return [
            ...humps.map((trap) => judge(view, trap)),
            ...lines.flatMap(({ consumer: { id: about }, missing }): Verdict[] => {
                if (missing.length > 0) return [{ outcome: 'cannot tell', about, missing }];
                return humps.some(({ consumers }) => consumers.some((other) => other.id === about)) ? [] : [{ outcome: 'pass', about }];
            }),
        ];
    },
};

function judge(view: View, trap: Trap): Verdict {
    const { point, cleared } = trap;
    const about = point.part;
    const isStuck = cleared.by === 'nothing' && trap.consumers.some(({ selfBleeding }) => !selfBleeding);
    if (isStuck) return { outcome: 'not applicable', about, why: 'nothing clears it of air (see BLEED-AT-HIGH)' };
    const fact = view.network.parts.get(about)?.crest ? 'crest' : 'at';
    return {
        outcome: 'fail', about, fact, rests: [{ about, fact }],
        message: `${capital(placeOf(view, trap))} stands at ${mm(point.height)}${overEnds(view, trap)}${inLineUps(trap)}: the suction line rises there by ${mm(point.rise)} and falls again by ${mm(point.fall)}.`,
        reason: `Air gathers there while the engine draws.${cleared.by === 'sweep' ? ` When it is bled, ${sweepWords(view, cleared.sweep)}: that is advice, and proves nothing.` : ''}`,
        advice: `${ledLower(view, trap)}.`,
    };
}

/** `, 100 mm above F1 and 140 mm above LP1`: how far a crest stands above the parts at the ends of its hose. */
function overEnds(view: View, { point }: Trap): string {
    const { boat, network } = view;
    const over = ['in', 'out'].flatMap((end) => {
        const up = endPlace(network, `${point.part}:${end}`)?.up?.si;
        const other = besides(view, `${point.part}:${end}`);
        return up === undefined || other === undefined ? [] : [`${mm(point.height - up)} above ${nameOf(boat, other)}`];
    });
    return network.parts.get(point.part)?.crest && over.length === 2 ? `, ${over.join(' and ')}` : '';
}

/** What is joined to an end of a pipe; a gauge is passed by, since it stands on what is on its other side. */
function besides({ boat, network }: View, end: string): Id | undefined {
    const [point] = joinedTo(boat, end);
    const [owner, port] = point?.split(':') ?? [];
    return network.parts.get(owner ?? '')?.kind === 'gauge' && port !== undefined ? joinedTo(boat, `${owner}:${port === 'in' ? 'out' : 'in'}`)[0]?.split(':')[0] : owner;
}
