import type { Tank } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { handSettings } from '../../analysis/topology/settings';
import { isOutside, lineUpNetwork, reach } from '../../analysis/topology/network';
import { freeTag, type Check, type View } from '../check';
import { shapeFact } from '../../analysis/missing';

/** Heights closer than this are the same: the thickness of a tank top and its fitting, m. */
const SAME = 0.005;

export const ventExists: Check = {
    code: 'VENT-EXISTS', severity: 'critical',
    statement: 'Each tank has a vent that no valve can shut, open both ways and, where the heights are known, at its highest point.',
    prevents: 'The tank collapses or the engine starves; filling blows back.',
    facts: 'vent fittings and vent courses; heights of vent and tank top',
    source: '46 CFR 182.450(a) (2015 edition read): a vent pipe connected to the highest point of the tank',
    judge: (view) => view.boat.tanks.map((tank) => judge(view, tank)),
};

function judge(view: View, tank: Tank): Verdict {
    const vents = tank.fittings.filter((fitting) => fitting.kind === 'vent');
    if (vents.length === 0) {
        return {
            outcome: 'fail', about: tank.id, message: `${tank.id} has no vent.`, reason: 'As liquid is drawn the pressure falls until the pump starves or the tank gives way.',
            advice: `Write its vent: \`vent course Breather from ${tank.id} to air { hose }\`; if there is none, fit one at its highest point.`,
            fix: { title: `Write a vent for ${tank.id}`, line: `vent course ${freeTag(view.boat, `${tank.id}Vent`)} from ${tank.id} to air { hose }`, where: { afterBlockOf: tank.id } },
        };
    }
    const shut = vents.filter((vent) => canBeShut(view, vent.id));
    if (shut.length === vents.length) {
        return {
            outcome: 'fail', about: shut[0]!.id, message: `The vent of ${tank.id} can be blocked: something in it shuts, or passes air one way only.`, reason: 'With the vent blocked the pump starves, and filling bursts the tank.', advice: 'Take the valve or check out of the vent line.',
        };
    }
    const top = span(tank, UPRIGHT)?.high;
    const low = vents.filter((vent) => top !== undefined && vent.top?.up !== undefined && vent.top.up.si < top - SAME);
    if (low.length === vents.length) {
        const gap = Math.round((top! - low[0]!.top!.up!.si) * 1e3);
        return {
            outcome: 'fail', about: low[0]!.id, rests: [{ about: low[0]!.id, fact: 'at' }, { about: tank.id, fact: shapeFact(tank) }], message: `The vent of ${tank.id} leaves it ${gap} mm below its highest point.`, reason: 'A pocket of air stays above the vent, and a full tank vents liquid.', advice: `Move the vent fitting to the top of ${tank.id}.`,
        };
    }
    return { outcome: 'pass', about: tank.id, rests: [...vents.map(({ id }) => ({ about: id, ...(top !== undefined && { fact: 'at' }) })), ...(top === undefined ? [] : [{ about: tank.id, fact: shapeFact(tank) }])] };
}

/** Whether some setting of the valves cuts the fitting off from the outside, when it has a course at all. */
function canBeShut(view: View, fitting: string): boolean {
    const start = view.network.index.get(fitting);
    if (start === undefined || !view.boat.joints.some((joint) => joint.from === fitting || joint.to === fitting)) return false;
    for (const positions of handSettings(view.boat, 'shutoffs shut')) {
        const linedUp = lineUpNetwork(view.network, positions);
        // Air must come in as fuel is drawn, and go out as it is filled.
        const [out, back] = [reach(linedUp, linedUp.ways, [start]), reach(linedUp, linedUp.back, [start])];
        if (![...out].some((point) => back.has(point) && isOutside(view.network.points[point]!))) return true;
    }
    return false;
}
