/**
 * The heel at which an opening reaches the water is that of a boat that turns about her centreline at the waterline; trim, sinkage and waves
 * are left out. Water comes in where a vent is open, so its outlet is what weighs; the crest is what then still keeps it out.
 */
import type { Fitting, Part, Tank } from '../../model/boat';
import type { Measure, Place } from '../../model/measure';
import type { Failure, Ground, MissingFact, Verdict } from '../../model/finding';
import { linesOut } from '../../analysis/tanks/to-outside';
import { immersedAt, type Immersion } from '../../analysis/tanks/vents';
import { degrees, mm } from '../../model/words';
import { type Check, type View } from '../check';
import { heelMissing, ventEndMissing, waterlineMissing } from '../../analysis/missing';

/** What common practice asks of any boat, rad; under sail it asks 40 degrees. */
const LEAST = (20 * Math.PI) / 180;

export const ventHeel: Check = {
    code: 'VENT-HEEL', severity: 'major', slow: true,
    statement: 'The outlet of each vent stays dry at the greatest heel, to either side: the greater of the envelope\'s heel and the survival heel. So does its crest, where it is written.',
    prevents: 'Salt water in the fuel.',
    facts: 'outlet and crest of the vent line, up and across the boat; the waterline; envelope heel and survival heel',
    source: 'common practice: 20° under power, 40° under sail',
    judge: (view) => view.boat.tanks.flatMap((tank) => ofTank(view, tank)),
};

function ofTank(view: View, tank: Tank): Verdict[] {
    const vents = tank.fittings.filter(({ kind }) => kind === 'vent');
    if ((tank.carries ?? 'diesel') !== 'diesel') return [{ outcome: 'not applicable', about: tank.id, why: 'it carries no fuel' }];
    if (vents.length === 0) return [{ outcome: 'not applicable', about: tank.id, why: 'it has no vent (see VENT-EXISTS)' }];
    return vents.flatMap((vent) => {
        const lines = linesOut(view.network, vent.id);
        return lines.length === 0 ? [{ outcome: 'cannot tell' as const, about: vent.id, missing: missingOf(view, vent, undefined) }] : lines.map((line) => judge(view, tank, vent, line));
    });
}

/** The greatest heel that is asked of the vents, and the fact that says so. */
export function greatest({ boat: { vessel: { envelope: { heel, survival } } } }: View): { readonly heel: number; readonly fact: string } | undefined {
    const most = (measure: Measure | undefined): number => measure?.high ?? measure?.si ?? -1;
    if (!heel && !survival) return undefined;
    return most(survival) >= most(heel) ? { heel: most(survival), fact: 'survival heel' } : { heel: most(heel), fact: 'envelope heel' };
}

/** Without a heel nothing is asked of it but what no heel changes. */
function missingOf(view: View, vent: Fitting, outlet: Place | undefined): MissingFact[] {
    return [...(outlet?.up && outlet.stbd ? [] : [ventEndMissing(vent.id)]), ...(view.boat.vessel.waterline?.up ? [] : [waterlineMissing]), ...(greatest(view) ? [] : [heelMissing])];
}

/** What goes under, and at which heel. */
interface Wet {
    readonly part: Part;
    readonly place: Place;
    readonly at: number;
}

function judge(view: View, tank: Tank, vent: Fitting, line: readonly Part[]): Verdict {
    const { waterline } = view.boat.vessel;
    const last = line.findLast(({ outlet }) => outlet);
    const crest = line.filter((part) => part.crest?.up).sort((a, b) => b.crest!.up!.si - a.crest!.up!.si)[0];
    const under = immersedAt(last?.outlet, waterline);
    const most = greatest(view);
    if (!last || under === undefined || (!most && under !== 'never' && under !== 0)) return { outcome: 'cannot tell', about: vent.id, missing: missingOf(view, vent, last?.outlet) };
    const over = crest && immersedAt(crest.crest, waterline);
    const rests: Ground[] = [{ about: last.id, fact: 'outlet' }, ...(crest && over !== undefined ? [{ about: crest.id, fact: 'crest' }] : []), { about: 'vessel', fact: 'waterline' }, ...(most ? [{ about: 'vessel', fact: most.fact }] : [])];
    const isUnder = (at: Immersion | undefined): at is number => at !== undefined && at !== 'never' && Math.abs(at) < (most?.heel ?? 0);
    const sinks = isUnder(over) ? { part: crest!, place: crest!.crest!, at: over } : undefined;
    if (under === 0 || isUnder(under)) return outletUnder(tank, { part: last, place: last.outlet!, at: under }, sinks, over !== undefined && !sinks, { ...most, waterline: waterline!.up!.si }, rests);
    if (sinks) return crestUnder(tank, sinks, last, most!.heel, rests);
    if (under !== 'never' && Math.abs(under) < LEAST - 1e-9) return soon(tank, { part: last, place: last.outlet!, at: under }, most!.heel, rests);
    return { outcome: 'pass', about: last.id, rests };
}

interface Asked {
    readonly heel?: number;
    readonly fact?: string;
    readonly waterline: number;
}

function outletUnder(tank: Tank, outlet: Wet, crest: Wet | undefined, crestDry: boolean, asked: Asked, rests: readonly Ground[]): Failure {
    const { part, at } = outlet;
    const { heel, fact } = asked;
    const sameSide = crest && (at === 0 || Math.sign(crest.at) === Math.sign(at)) ? crest : undefined;
    const must = heel === undefined ? '' : `; it must stay dry to ${degrees(heel)}, ${fact === 'survival heel' ? 'her survival heel' : 'the heel of the envelope'}`;
    return {
        outcome: 'fail', about: part.id, fact: 'outlet', rests,
        message: at === 0 ? `The outlet of ${part.name}, the vent of ${tank.id}, is below the waterline${must}.`
            : `The outlet of ${part.name}, the vent of ${tank.id}, goes under when she is heeled ${degrees(at)} to ${side(at)}${sameSide && sameSide.at !== 0 ? `, and its crest at ${degrees(sameSide.at)}` : ''}${must}.`,
        reason: sameSide ? `Salt water then runs into ${tank.id}.` : crestDry ? `The water shuts the vent, so that ${tank.id} draws no air, and what is thrown over the crest runs into the fuel.` : `Salt water then stands in the vent and may run into ${tank.id}.`,
        advice: `Lead the outlet ${dryPlace(outlet.place, asked)}${sameSide ? `, and the crest ${dryPlace(sameSide.place, asked)}` : ''}.`,
    };
}

function crestUnder(tank: Tank, { part, at }: Wet, last: Part, heel: number, rests: readonly Ground[]): Failure {
    return {
        outcome: 'fail', about: part.id, fact: 'crest', severity: 'minor', rests,
        message: `The crest of ${part.name}, the vent of ${tank.id}, goes under when she is heeled ${degrees(at)} to ${side(at)}, although its outlet stays dry to ${degrees(heel)}.`,
        reason: `Nothing stands then between what comes to the outlet of ${last.name} and ${tank.id}.`, advice: 'Lead the crest higher, or nearer the centreline.',
    };
}

function soon(tank: Tank, { part, at }: Wet, heel: number, rests: readonly Ground[]): Failure {
    return {
        outcome: 'fail', about: part.id, fact: 'outlet', severity: 'advice', rests,
        message: `The outlet of ${part.name}, the vent of ${tank.id}, goes under when she is heeled ${degrees(at)} to ${side(at)}. That is more than the ${degrees(heel)} of the envelope, but common practice keeps vents dry to 20° under power, 40° under sail.`,
        reason: `Once she heels so far, salt water stands in the vent of ${tank.id}.`, advice: 'Lead the outlet higher, or nearer the centreline.',
    };
}

const side = (heel: number): string => (heel < 0 ? 'port' : 'starboard');

/** Where it would be dry: z >= zw + |y| tan φ, or |y| <= (z - zw) / tan φ. */
function dryPlace({ up, stbd }: Place, { heel, waterline }: Asked): string {
    const above = up!.si - waterline;
    if (heel === undefined || !stbd || Math.tan(heel) > 10) return 'inboard and well above the waterline';
    const height = mm(Math.ceil((waterline + Math.abs(stbd.si) * Math.tan(heel)) * 1e3 - 1e-6) / 1e3);
    return above > 0 ? `inboard to ${mm(Math.floor((above / Math.tan(heel)) * 1e3 + 1e-6) / 1e3)} from the centreline, or up to ${height}` : `up to more than ${height}`;
}
