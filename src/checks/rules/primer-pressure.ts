/** Division: what stands behind an electric primer up to the last pump is PUMP-SERIES's; this rule judges the filters after that, and all that a hand primer fills. */
import type { Part } from '../../model/boat';
import { nothing, type Check } from '../check';
import { behind, judgePressed } from '../pressed';

export const primerPressure: Check = {
    code: 'PRIMER-PRESSURE', severity: 'advice',
    statement: 'A hand or electric primer pushes no more against a shut line than each filter stands that it fills, up to the consumer.',
    prevents: 'A burst bowl.',
    facts: 'what primers push; what filters stand; the network',
    source: 'makers of filters, as common practice',
    judge: (view) => {
        const primers = view.boat.parts.filter(({ kind }) => kind.endsWith('primer')).map((pump) => ({ pump, met: behind(view, pump) })).filter(({ met }) => met.onSupply);
        if (primers.length === 0) return [nothing('no primer stands on the supply of what burns fuel')];
        return primers.map(({ pump, met: { between, beyond } }) => {
            const filters: readonly Part[] = pump.kind === 'hand primer' ? [...between, ...beyond] : beyond;
            if (filters.length === 0) return { outcome: 'not applicable', about: pump.id, why: between.length > 0 ? 'what it fills stands before another pump (see PUMP-SERIES)' : 'it fills no filter' };
            return judgePressed(pump, filters, (weak) => ({
                reason: `Worked on while every bleed point is shut, it can burst ${weak.length > 1 ? 'their bowls' : `the bowl of ${weak[0]!.name}`}.`,
                advice: `Open a bleed point behind ${pump.name} before it is worked, or fit one that pushes less.`,
            }));
        });
    },
};
