/** Division: this rule judges electric pumps and primers with another pump behind them, that pump and the filters between; PRIMER-PRESSURE the other filters that a primer fills. */
import type { Part } from '../../model/boat';
import { nothing, type Check } from '../check';
import { behind, judgePressed } from '../pressed';

export const pumpSeries: Check = {
    code: 'PUMP-SERIES', severity: 'minor',
    statement: 'An electric pump or primer that can run in series with a pump behind it, whichever way the valves are turned, pushes no more against a shut line than that pump, and each filter between, stands.',
    prevents: 'A burst diaphragm or bowl.',
    facts: 'what pumps push; what pumps and filters stand; the network',
    source: 'makers of pumps and filters, as common practice',
    judge: (view) => {
        const electric = view.boat.parts.filter(({ kind }) => kind.startsWith('electric')).map((pump) => ({ pump, met: behind(view, pump) })).filter(({ met }) => met.onSupply);
        if (electric.length === 0) return [nothing('no electric pump stands on the supply of what burns fuel')];
        return electric.map(({ pump, met: { pumps, between } }) => (pumps.length === 0 ? { outcome: 'not applicable', about: pump.id, why: 'no pump stands behind it' }
            : judgePressed(pump, [...pumps, ...between], (weak) => ({
                reason: `When ${pump.name} runs and nothing draws, it presses on ${weak.length > 1 ? 'them' : weak[0]!.name}: a diaphragm or a bowl gives way, and fuel comes out.`, advice: advice(pump),
            }))));
    },
};

const advice = (pump: Part): string => `Fit a relief valve behind ${pump.name}, or a pump that pushes less${pump.kind === 'electric primer' ? '; until then hold its button only while a bleed point is open' : ''}.`;
