/** What each tank holds, upright: the whole inside, filled, out of reach of its lowest pickup, usable; and the lowest level that is written. */
import type { Fitting, Section, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import { estimateOf, exactly } from '../../../analysis/estimate';
import { highLevel, lowLevel } from '../../../analysis/opening/condition';
import { UPRIGHT } from '../../../analysis/tanks/attitude';
import { grossOf, span } from '../../../analysis/tanks/liquid';
import { FULL, leastToWet, unusable, usable } from '../../../analysis/tanks/pickups';
import type { View } from '../../../checks/check';
import { levelMissing, mouthMissing, sizeMissing } from '../../../analysis/missing';
import { fromSI } from '../../../model/units';
import { figure } from '../../../model/words';
import { carried, input, within, type From, type Input, type Working } from '../working';
import { boxBelow, leanedBox, sizes } from './box';

const PRACTICE = 'trade practice';

export const tankWorkings = (view: View): Working[] => view.boat.tanks.flatMap((tank) => {
    const fuel = (tank.carries ?? 'diesel') === 'diesel';
    const pickups = tank.fittings.filter(({ kind }) => kind === 'pickup');
    return [...sectionWorkings(tank), grossWorking(tank), ...(fuel && pickups.length > 0 ? [fullWorking(tank), unusableWorking(tank, pickups), usableWorking(tank, pickups)] : []), ...(fuel ? [lowestWorking(view, tank)] : [])];
});

const about = (tank: Tank): { about: string; notes: string[]; missing: MissingFact[] } => ({ about: tank.id, notes: [], missing: [] });

export function grossWorking(tank: Tank): Working {
    const { id, box, sections } = tank;
    const gross = grossOf(tank);
    const shared = { ...about(tank), id: `gross ${id}`, what: `What ${id} holds, the whole inside` };
    const result = gross === undefined ? {} : { result: { symbol: 'V', value: exactly(gross), unit: 'L' } };
    if (box) return { ...shared, formula: 'V = L × B × H', source: 'geometry of a box', inputs: sizes(id, box), steps: [], ...result };
    if (!sections || gross === undefined) return { ...shared, formula: 'V = L × B × H', source: 'geometry of a box', inputs: [], steps: [], missing: [sizeMissing(id)] };
    const inputs: Input[] = sections.flatMap((section, i): Input[] => [
        input(`x${sub(i + 1)}`, `section ${i + 1}, forward of the transom`, section.fwd, 'mm', sectionFact(id, section)),
        input(`A${sub(i + 1)}`, `area of section ${i + 1}`, areaOf(section), 'm2', { step: `section ${id} at ${along(section.fwd)}` }),
        ...(sections[i + 1] ? [input(`M${sub(i + 1)}`, `area midway between sections ${i + 1} and ${i + 2}`, areaOf(midway(section, sections[i + 1]!)), 'm2', { step: `section ${id} at ${along(midway(section, sections[i + 1]!).fwd)}, midway` })] : []),
    ]);
    const terms = sections.slice(1).map((_, i) => `(x${sub(i + 2)} − x${sub(i + 1)}) × (A${sub(i + 1)} + 4 × M${sub(i + 1)} + A${sub(i + 2)})`);
    return {
        ...shared, formula: `V = (${terms.join(' + ')}) / 6`, inputs, steps: [], ...result,
        source: 'Simpson\'s rule over each interval, exact where straight lines run between the corners of the sections',
    };
}

/** The area of each section and of those midway, by the corners. */
function sectionWorkings(tank: Tank): Working[] {
    const { id, sections = [] } = tank;
    if (grossOf(tank) === undefined) return [];
    return sections.flatMap((section, i) => {
        const next = sections[i + 1];
        const own = sectionWorking(tank, section, `at ${along(section.fwd)}`, () => sectionFact(id, section));
        if (!next) return [own];
        const between = midway(section, next);
        return [own, sectionWorking(tank, between, `at ${along(between.fwd)}, midway`, (symbol) => ({ step: own.id, words: `the mean of ${symbol} in \`${own.id}\` and in \`section ${id} at ${along(next.fwd)}\`` }))];
    });
}

function sectionWorking(tank: Tank, { corners, fwd }: Section, where: string, from: (symbol: string) => From): Working {
    const count = corners.length;
    const at = (i: number): string => sub((i % count) + 1);
    const inputs = corners.flatMap(({ stbd, up }, i): Input[] => [
        input(`y${at(i)}`, `corner ${i + 1}, to starboard of the centreline`, stbd, 'mm', from(`y${at(i)}`)),
        input(`z${at(i)}`, `corner ${i + 1}, above the datum`, up, 'mm', from(`z${at(i)}`)),
    ]);
    const terms = corners.map((_, i) => `y${at(i)} × z${at(i + 1)} − y${at(i + 1)} × z${at(i)}`);
    return {
        ...about(tank), id: `section ${tank.id} ${where}`, what: `The area of ${tank.id} across the boat, ${along(fwd)} forward of the transom${where.endsWith('midway') ? ', midway between two sections' : ''}`,
        formula: `A = |${terms.join(' + ')}| / 2`, source: 'area within a polygon by its corners', inputs, steps: [], result: { symbol: 'A', value: exactly(areaOf({ corners, fwd })), unit: 'm2' },
    };
}

/** To the tenth of a millimetre: no two sections are nearer. */
const along = (fwd: number): string => `${Number(fromSI(fwd, 'mm').toFixed(1))} mm`;

const areaOf = ({ corners }: Section): number => Math.abs(corners.reduce((sum, { up, stbd }, i) => { const next = corners[(i + 1) % corners.length]!; return sum + stbd * next.up - next.stbd * up; }, 0)) / 2;
const midway = (aft: Section, fore: Section): Section => ({ fwd: (aft.fwd + fore.fwd) / 2, corners: aft.corners.map(({ up, stbd }, i) => ({ up: (up + fore.corners[i]!.up) / 2, stbd: (stbd + fore.corners[i]!.stbd) / 2 })) });
const sectionFact = (id: string, { fwd }: Section): From => ({ about: id, fact: 'section', words: `section at ${along(fwd)} fwd` });

const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
export const sub = (n: number): string => [...String(n)].map((digit) => SUBSCRIPTS[Number(digit)]!).join('');

export function fullWorking(tank: Tank): Working {
    const gross = grossWorking(tank);
    return {
        ...about(tank), id: `full ${tank.id}`, what: `What ${tank.id} holds when it is filled, with room for the fuel to grow warm`, formula: 'F = f × G', source: PRACTICE,
        inputs: [...carried('G', `the whole inside of ${tank.id}`, gross), input('f', 'share to which it is filled', FULL, '%', { taken: `${figure(FULL * 100)} %, trade practice` })],
        steps: [], ...(gross.result && { result: { symbol: 'F', value: exactly(FULL * gross.result.value.si), unit: 'L' } }), missing: gross.missing,
    };
}

/** The pickup with the lowest mouth: what lies below it cannot be drawn. */
export function lowestPickup(pickups: readonly Fitting[]): Fitting | undefined {
    return pickups.some(({ mouth }) => !mouth?.up) ? undefined : [...pickups].sort((a, b) => a.mouth!.up!.si - b.mouth!.up!.si)[0];
}

export function unusableWorking(tank: Tank, pickups: readonly Fitting[], down = ''): Working {
    const { id, box } = tank;
    const pickup = lowestPickup(pickups);
    const mouth = pickup?.mouth;
    const shared = { ...about(tank), id: `unusable ${id}${down}`, what: `What stays in ${id} ${down === '' ? 'below its lowest pickup' : `when it is used${down}`}`, ...(pickup && { where: `upright, below ${pickup.id}` }) };
    const missing = [...(grossOf(tank) === undefined || !span(tank, UPRIGHT) ? [sizeMissing(id)] : []), ...pickups.filter((other) => !other.mouth?.up).map((other) => mouthMissing(other.id))];
    const rest = unusable(tank, pickups.map((other) => other.mouth));
    const leaned = leanedBox(tank, UPRIGHT);
    const [z, z0] = [mouth?.up, box?.corner.up];
    const value = z && within([estimateOf(z)], (up) => leastToWet(tank, { up: { si: up! } }, UPRIGHT));
    if (rest === undefined || !value || !z) return { ...shared, formula: 'R = L × B × (z − z₀)', source: 'geometry', inputs: [], steps: [], missing };
    const height = input('z', `mouth of ${pickup!.id}, above the datum`, z, 'mm', { about: pickup!.id, fact: 'mouth' });
    const result = { symbol: 'R', value, unit: 'L' };
    if (!box || !leaned || !z0) return { ...shared, formula: `R = what of ${id} lies below z`, source: 'sum over the closed mesh of its sections', inputs: [height], steps: [], byMesh: true, result };
    const { formula, note } = boxBelow(leaned, z.si - z0.si);
    return {
        ...shared, formula: `R = ${formula}`, source: 'geometry of a box', result, notes: [note],
        inputs: [...sizes(id, box, formula.includes('H') ? 'LBH' : 'LB'), input('z₀', 'low aft inner corner, above the datum', z0, 'mm', { about: id, fact: 'low aft inner corner' }), height],
        steps: [{ symbol: 'd', what: 'depth at the mouth', formula: 'd = z − z₀', value: z.si - z0.si, unit: 'mm' }],
    };
}

/** `down`: behind the id, where it is told for other pickups than its own. */
export function usableWorking(tank: Tank, pickups: readonly Fitting[], down = ''): Working {
    const [full, rest] = [fullWorking(tank), unusableWorking(tank, pickups, down)];
    const use = usable(tank, pickups.map(({ mouth }) => mouth));
    const inputs = [...carried('F', 'what it holds when filled', full), ...carried('R', 'what stays in it', rest)];
    const value = use === undefined || !full.result || !rest.result ? undefined : within([full.result.value, rest.result.value], (filled, left) => Math.max(0, filled - left));
    return {
        ...about(tank), id: `usable ${tank.id}${down}`, what: `What can be used of ${tank.id}${down}, filled and upright`, formula: 'U = max(0, F − R)', source: PRACTICE, inputs, steps: [],
        ...(value && { result: { symbol: 'U', value, unit: 'L' } }), missing: [...full.missing, ...rest.missing],
        notes: ['Heeled, less can be used: the computations of the least for each pickup tell how much less.'],
    };
}

/** How full the tanks are: as low or as full as the envelope lets them be, or half full. */
export type Level = 'lowest' | 'half' | 'fullest';
export const LEVELS: Readonly<Record<Level, string>> = { lowest: 'at the lowest level of the envelope', half: 'when it is half full', fullest: 'at the highest level of the envelope' };

/** What is in a tank at a level. The lowest has to be stated: nothing is said of a boat that may run dry. */
export function levelWorking({ boat }: Pick<View, 'boat'>, tank: Tank, level: Level): Working {
    const gross = grossWorking(tank);
    const stated = boat.vessel.envelope.level;
    const share = level === 'lowest' ? lowLevel(boat) : level === 'half' ? 0.5 : highLevel(boat);
    const from: From | undefined = level === 'half' ? { cited: 'the level that is asked for' } : stated ? { about: 'vessel', fact: 'envelope level' } : level === 'fullest' ? { taken: 'full, since her envelope states no level' } : undefined;
    return {
        ...about(tank), id: `${level} ${tank.id}`, what: `What is in ${tank.id} ${LEVELS[level]}`, formula: 'V = p × G', source: 'definition', steps: [],
        inputs: [...carried('G', `the whole inside of ${tank.id}`, gross), ...(from ? [input('p', 'level, as a share of the whole inside', share, '%', from)] : [])],
        ...(gross.result && from && { result: { symbol: 'V', value: exactly(share * gross.result.value.si), unit: 'L' } }), missing: [...gross.missing, ...(from ? [] : [levelMissing])],
        notes: gross.result && from ? [`${figure(fromSI(share, '%'))} % of the whole inside.`] : [],
    };
}

/** What is left in a tank when everything must still work. */
export const lowestWorking = (view: Pick<View, 'boat'>, tank: Tank): Working => levelWorking(view, tank, 'lowest');
