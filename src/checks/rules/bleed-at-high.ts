/**
 * Division: this rule asks whether air can be got out of a high point, NO-HUMP whether there should be one. Where nothing clears it, it is
 * told here alone. Where only a pump's sweep does, the rise is told by NO-HUMP, with how fast it is swept; here it passes, or is advice where
 * NO-HUMP has nothing to say (on the pressure side, or up to 50 mm). The laws of sweeping are advice and prove no crest clear; the
 * 0.15 m/s are common practice. BLEED-DRIVE asks whether anything pushes fuel to a bleed point that is there.
 */
import type { Id } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { SWEEP } from '../../analysis/air/sweeping';
import { areaOf } from '../../analysis/flow/pipe';
import { isPump } from '../../analysis/topology/network';
import { followers } from '../../analysis/topology/paths';
import { capital, listed, mm } from '../../model/words';
import { nothing, type Check, type View } from '../check';
import { inLineUps, isHump, ledLower, placeOf, sweepWords, trapsOf, type Trap } from '../high-points';

export const bleedAtHigh: Check = {
    code: 'BLEED-AT-HIGH', severity: 'major', slow: true,
    statement: 'Each high point of a supply line, by more than 20 mm and upright, has a bleed point, or a pump that is worked to bleed sweeps it at 0.15 m/s or more; that speed is advice and proves nothing.',
    prevents: 'Air that stays behind and stops the engine hours later.',
    facts: 'heights of the parts; crests, lows and bores of hoses; strokes and flows of pumps; bleed points',
    source: 'common practice; the published laws of sweeping come from wider pipes and ask for more',
    judge: (view) => {
        const { traps, lines } = trapsOf(view);
        if (lines.length === 0) return [nothing('no tank feeds anything that burns fuel in a line-up for running')];
        return [
            ...traps.map((trap) => judge(view, trap)),
            ...lines.flatMap(({ consumer: { id: about, selfBleeding }, missing }): Verdict[] => {
                if (selfBleeding) return [{ outcome: 'not applicable', about, why: 'it passes small air to its return by itself' }];
                if (missing.length > 0) return [{ outcome: 'cannot tell', about, missing }];
                return traps.some(({ consumers }) => consumers.some((other) => other.id === about)) ? [] : [{ outcome: 'pass', about }];
            }),
        ];
    },
};

function judge(view: View, trap: Trap): Verdict {
    const { point, cleared } = trap;
    const about = point.part;
    const consumers = trap.consumers.filter(({ selfBleeding }) => !selfBleeding).map(({ id }) => id);
    if (consumers.length === 0) return { outcome: 'not applicable', about, why: 'what it feeds passes small air to its return by itself' };
    const fact = view.network.parts.get(about)?.crest ? 'crest' : 'at';
    const rests: Ground[] = [{ about, fact }, ...point.falling.filter((id) => view.network.parts.get(id)?.bore).map((id) => ({ about: id, fact: 'bore' }))];
    if (cleared.by === 'unknown') return { outcome: 'cannot tell', about, missing: cleared.missing };
    if (cleared.by === 'vent' || cleared.by === 'pump') return { outcome: 'pass', about, rests };
    if (cleared.by === 'sweep' && isHump(trap)) return { outcome: 'pass', about, rests };
    const where = `${placeOf(view, trap)} (${mm(point.height)}${inLineUps(trap)})`;
    const reason = `It comes loose hours later, and ${listed(consumers)} ${consumers.length > 1 ? 'stumble or stop' : 'stumbles or stops'}.`;
    if (cleared.by === 'sweep') return {
        outcome: 'fail', about, fact, rests, severity: 'advice',
        message: `No bleed point stands at ${where}. ${capital(sweepWords(view, cleared.sweep))}: that is advice, and proves nothing.`,
        reason: `Should air stay, it comes loose hours later.`, advice: `${ledLower(view, trap)}; or bleed long there.`,
    };
    if (isWide(view, about)) return {
        outcome: 'fail', about, fact, rests,
        message: `Air stays in ${where}: the line rises to it and falls again, it has no bleed point, and no flow sweeps so wide a part.`,
        reason, advice: `${ledLower(view, trap)}; or fit one with a bleed point in its place.`,
    };
    const pushed = view.boat.parts.some((part) => isPump(part) && view.network.through.get(about)?.some((i) => followers(view.allOpen, part.id).has(view.network.passages[i]!.from)));
    return {
        outcome: 'fail', about, fact, rests,
        message: `Air stays at ${where}: no bleed point stands there, and ${cleared.fastest ? sweepWords(view, cleared.fastest) : 'no pump that is worked to bleed sweeps it'}.`,
        reason, advice: `${ledLower(view, trap)}; or ${pushed ? 'put a bleed point there' : `fit a primer before it${cleared.bore === undefined ? '' : ` that moves at least ${Math.ceil(SWEEP * areaOf(cleared.bore) * 1e6)} mL a stroke`}`}.`,
    };
}

const isWide = ({ network }: View, id: Id): boolean => ['filter', 'strainer'].includes(network.parts.get(id)?.kind ?? '');
