/** A return that leads into the engine's own supply: only what is burnt comes from the tank. */
import { expect, test } from 'vitest';
import { flowIn } from '../../../src/analysis/flow/states';
import { UPRIGHT } from '../../../src/analysis/tanks/attitude';
import { lineUpsOf } from '../../../src/analysis/topology/line-ups';
import { networkOf } from '../../../src/analysis/topology/network';
import { loadBoat } from '../../../src/language/load';
import { topology } from '../../topologies/topologies';

test('with the return to the filter, pump and primary pass what is burnt; the filter behind passes what is drawn', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': topology(13).text });
    const network = networkOf(boat);
    const at = (lineUp: string) => flowIn(network, { lineUp: lineUpsOf(boat).find(({ id }) => id === lineUp)!, attitude: UPRIGHT, level: 'low', speed: 'full' });
    // At its fastest E1 draws 15 L/h and burns 2.4 L/h, so 12.6 L/h go round: 15 - 12.6 = 2.4 L/h come from the tank.
    const litres = (flow: number | undefined): number => Math.round(flow! * 3.6e6 * 100) / 100;
    const round = at('RUN');
    expect(['F1', 'LP1', 'F2'].map((part) => litres(round.flowIn(part)))).toEqual([2.4, 2.4, 15]);
    // Turned to the tank all that is drawn comes from it.
    const home = at(boat.lineUps.find(({ settings }) => settings.some(({ part, position }) => part === 'SV2' && position === 'TANK'))!.id);
    expect(['F1', 'LP1', 'F2'].map((part) => litres(home.flowIn(part)))).toEqual([15, 15, 15]);
});
