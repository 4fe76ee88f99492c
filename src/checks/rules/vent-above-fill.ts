/** Heights upright, since she is filled so. The open end counts: a crest further back may hold fuel off for a while, and does not replace it. */
import type { Fitting, Id, Part, Tank } from '../../model/boat';
import type { Ground, Verdict } from '../../model/finding';
import { linesOut } from '../../analysis/tanks/to-outside';
import { mm } from '../../model/words';
import { type Check, type View } from '../check';
import { distinct, plateMissing, ventEndMissing } from '../../analysis/missing';

/** How much above is advised, m, and what is one height. */
const ADVISED = 0.1;
const SAME = 0.0005;

export const ventAboveFill: Check = {
    code: 'VENT-ABOVE-FILL', severity: 'major', slow: true,
    statement: 'The open end of each vent is not below the deck plate of a fill of the same tank, or of one that an open line joins to it; 100 mm above is advised. A higher crest does not replace it.',
    prevents: 'Fuel runs out of the vent, overboard or into the boat, before the fill shows full.',
    facts: 'outlet of the vent line; deck plate of the fill; tanks that an open line joins',
    source: 'named for it, texts not read: the inland boat-safety scheme 2.5, the small commercial vessel code 7.4.4; 100 mm is common practice',
    judge: (view) => view.boat.tanks.flatMap((tank) => ofTank(view, tank)),
};

/** A fill from which liquid comes to the tank, and the line-up in which it does when it is another tank's. */
interface Filling {
    readonly fill: Fitting;
    readonly plate?: number;
    readonly pipe?: Id;
    readonly lineUp?: Id;
}

function ofTank(view: View, tank: Tank): Verdict[] {
    if ((tank.carries ?? 'diesel') !== 'diesel') return [{ outcome: 'not applicable', about: tank.id, why: 'it carries no fuel' }];
    const vents = tank.fittings.filter(({ kind }) => kind === 'vent');
    if (vents.length === 0) return [{ outcome: 'not applicable', about: tank.id, why: 'it has no vent (see VENT-EXISTS)' }];
    const fillings = fillingsOf(view, tank);
    if (fillings.length === 0) return [{ outcome: 'not applicable', about: tank.id, why: 'no fill of it is written' }];
    return vents.flatMap((vent) => {
        const lines = linesOut(view.network, vent.id);
        return lines.length === 0 ? [judge(tank, vent, [], fillings)] : lines.map((line) => judge(tank, vent, line, fillings));
    });
}

function fillingsOf({ boat, network, lineUps, joined }: View, tank: Tank): Filling[] {
    const joinedIn = new Map<Id, Id>();
    for (const lineUp of lineUps) for (const other of joined(lineUp).find((group) => group.includes(tank.id)) ?? []) if (other !== tank.id && !joinedIn.has(other)) joinedIn.set(other, lineUp.id);
    return boat.tanks.filter((other) => other === tank || joinedIn.has(other.id)).flatMap((other) => {
        const lineUp = joinedIn.get(other.id);
        return other.fittings.filter(({ kind }) => kind === 'fill').map((fill): Filling => {
            const pipe = linesOut(network, fill.id).flat().find(({ plate }) => plate?.up);
            return { fill, ...(pipe && { plate: pipe.plate!.up!.si, pipe: pipe.id }), ...(lineUp !== undefined && { lineUp }) };
        });
    });
}

function judge(tank: Tank, vent: Fitting, line: readonly Part[], fillings: readonly Filling[]): Verdict {
    const last = line.findLast(({ outlet }) => outlet?.up);
    const plates = fillings.filter(({ plate }) => plate !== undefined).sort((a, b) => b.plate! - a.plate!);
    const missing = distinct([...(last ? [] : [ventEndMissing(vent.id)]), ...fillings.filter(({ plate }) => plate === undefined).map(({ fill }) => plateMissing(fill.id))]);
    const highest = plates[0];
    if (!last || !highest) return { outcome: 'cannot tell', about: vent.id, missing };
    const above = last.outlet!.up!.si - highest.plate!;
    const rests: Ground[] = [{ about: last.id, fact: 'outlet' }, ...plates.map(({ pipe }) => ({ about: pipe!, fact: 'plate' }))];
    // What is too low for one plate is too low, whatever the others may be; what is high enough may still be too low for another.
    if (above >= -SAME && missing.length > 0) return { outcome: 'cannot tell', about: vent.id, missing };
    if (above >= ADVISED - SAME) return { outcome: 'pass', about: last.id, rests };
    const low = above < -SAME;
    const plate = `the deck plate of ${highest.fill.id}${highest.lineUp === undefined ? '' : `, which ${tank.id} is joined to in ${highest.lineUp}`}`;
    return {
        outcome: 'fail', about: last.id, fact: 'outlet', rests, ...(!low && { severity: 'advice' as const }),
        message: low ? `The outlet of ${last.name}, the vent of ${tank.id}, is ${mm(-above)} below ${plate}.`
            : `The outlet of ${last.name}, the vent of ${tank.id}, is ${Math.abs(above) <= SAME ? 'level with' : `only ${mm(above)} above`} ${plate}; ${mm(ADVISED)} is advised.`,
        reason: low ? 'When the tank is full, fuel runs out of the vent before it shows at the fill; a crest in the vent does not prevent that.' : 'Foam and a quick pump press fuel out of the vent before it shows at the fill.',
        advice: `Lead the outlet up to ${mm(highest.plate! + ADVISED)} or above.`,
        see: [{ id: highest.pipe!, why: 'its deck plate' }],
    };
}
