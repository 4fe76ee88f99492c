import type { Consumer, Part, Tank } from '../../model/boat';
import type { Place } from '../../model/measure';
import type { MissingFact, Verdict } from '../../model/finding';
import { UPRIGHT } from '../../analysis/tanks/attitude';
import { span } from '../../analysis/tanks/liquid';
import { capital, mm } from '../../model/words';
import { type Check } from '../check';
import { heightMissing, mouthMissing, placeMissing, sizeMissing } from '../../analysis/missing';

export const zKnown: Check = {
    code: 'Z-KNOWN', severity: 'document',
    statement: 'The heights of ports, drains and bleed points, of tanks and of the mouths of their returns are known, and agree with one another.',
    prevents: 'Rules that cannot decide, and a bleed sequence that must count on either.',
    facts: 'heights of filters, of their drains and bleed points, of the engine inlet and its bleed points, of tanks',
    source: 'logic of the network',
    judge: ({ boat }) => [...boat.tanks.map(ofTank), ...boat.parts.filter((part) => part.kind === 'filter' || part.vents.length > 0 || (part.low && part.crest)).map(ofPart), ...boat.consumers.map(ofConsumer)],
};

/** Two heights of which the first must not be the lower; what is closer than this is one height, m. */
const SAME = 0.002;
interface Pair { readonly upper: string; readonly high: Place | undefined; readonly lower: string; readonly low: Place | undefined }

function verdict(about: string, name: string, missing: readonly MissingFact[], pairs: readonly Pair[], facts: readonly string[]): Verdict {
    const wrong = pairs.find(({ high, low }) => high?.up && low?.up && high.up.si < low.up.si - SAME);
    if (wrong) {
        return {
            outcome: 'fail', about, message: `${capital(wrong.upper)} of ${name} (${mm(wrong.high!.up!.si)}) is written lower than ${wrong.lower} (${mm(wrong.low!.up!.si)}).`,
            reason: 'One of the two is a slip, and what is computed from it is wrong.', advice: 'Take both heights again from the datum.',
        };
    }
    return missing.length > 0 ? { outcome: 'cannot tell', about, missing } : { outcome: 'pass', about, rests: facts.map((fact) => ({ about, fact })) };
}

function ofPart(part: Part): Verdict {
    const missing = [
        ...(part.kind === 'filter' && !part.at?.up ? [placeMissing(part, 'ports')] : []),
        ...(part.separatesWater && !part.drain?.up ? [placeMissing(part, 'drain')] : []),
        ...part.vents.filter((vent) => !vent.at?.up).map((vent) => heightMissing(vent.id)),
    ];
    return verdict(part.id, part.name, missing, [
        { upper: 'the lid', high: part.lid, lower: 'its ports', low: part.at }, { upper: 'the lid', high: part.lid, lower: 'its drain', low: part.drain },
        { upper: 'the height of the ports', high: part.at, lower: 'its drain', low: part.drain }, { upper: 'the crest', high: part.crest, lower: 'its lowest point', low: part.low },
        ...part.vents.map((vent) => ({ upper: vent.id, high: vent.at, lower: 'its drain', low: part.drain })),
    ], part.kind === 'filter' ? ['ports', ...(part.drain ? ['drain'] : [])] : ['at']);
}

function ofConsumer(consumer: Consumer): Verdict {
    if (consumer.vents.length === 0) return { outcome: 'not applicable', about: consumer.id, why: 'no bleed point is written on it' };
    const missing = [
        ...(consumer.inlet?.up ? [] : [{ about: consumer.id, fact: `the height of the inlet of ${consumer.id}`, how: 'measure it from the datum with a water level' }]),
        ...consumer.vents.filter((vent) => !vent.at?.up).map((vent) => heightMissing(vent.id)),
    ];
    return verdict(consumer.id, consumer.id, missing, [], ['inlet']);
}

function ofTank(tank: Tank): Verdict {
    const drops = tank.fittings.filter(({ kind }) => kind === 'drop');
    const missing = [
        ...(span(tank, UPRIGHT) ? [] : [sizeMissing(tank.id)]),
        ...drops.filter((drop) => !drop.mouth?.up).map((drop) => mouthMissing(drop.id)),
    ];
    return verdict(tank.id, tank.id, missing, [], tank.sections ? ['section'] : ['box', 'low aft inner corner']);
}
