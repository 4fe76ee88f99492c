/** Vents and fills: the heel at which the sea comes to a vent, and the areas of both. */
import type { Fitting, Id, Part, Tank } from '../../../model/boat';
import type { MissingFact } from '../../../model/finding';
import type { Measure, Place } from '../../../model/measure';
import { estimateOf, exactly, least } from '../../../analysis/estimate';
import { linesOut } from '../../../analysis/tanks/to-outside';
import { immersedAt } from '../../../analysis/tanks/vents';
import type { View } from '../../../checks/check';
import { fillEndsMissing, heelMissing, ventEndMissing, waterlineMissing } from '../../../analysis/missing';
import { boresOf, LEAST_AREA } from '../../../checks/rules/vent-area';
import { greatest } from '../../../checks/rules/vent-heel';
import { input, within, type Input, type Limit, type Working } from '../working';

export const ventWorkings = (view: View): Working[] => fuelTanks(view).flatMap((tank) => [
    ...tank.fittings.filter(({ kind }) => kind === 'vent').flatMap((vent) => heelWorkings(view, vent)),
    ...tank.fittings.filter(({ kind }) => kind === 'vent').slice(0, 1).map((vent) => ventAreaWorking(view, tank, vent)),
    ...tank.fittings.filter(({ kind }) => kind === 'fill').map((fill) => fillAreaWorking(view, fill)),
]);

const fuelTanks = ({ boat }: View): Tank[] => boat.tanks.filter(({ carries = 'diesel' }) => carries === 'diesel');

function heelWorkings(view: View, vent: Fitting): Working[] {
    const lines = linesOut(view.network, vent.id);
    if (lines.length === 0) return [immersion(view, vent.id, `heel ${vent.id}`, vent.id, 'outlet', undefined)];
    return lines.flatMap((line) => {
        const last = line.findLast(({ outlet }) => outlet);
        const crest = line.filter((part) => part.crest?.up).sort((a, b) => b.crest!.up!.si - a.crest!.up!.si)[0];
        return [
            immersion(view, vent.id, `heel ${last?.id ?? vent.id} outlet`, last?.id ?? vent.id, 'outlet', last?.outlet),
            ...(crest ? [immersion(view, vent.id, `heel ${crest.id} crest`, crest.id, 'crest', crest.crest)] : []),
        ];
    });
}

function immersion(view: View, vent: Id, id: string, about: Id, fact: 'outlet' | 'crest', place: Place | undefined): Working {
    const { vessel: { waterline } } = view.boat;
    const most = greatest(view);
    const limit: Limit | undefined = most && { value: exactly(most.heel), unit: 'deg', sense: 'at least', from: { about: 'vessel', fact: most.fact } };
    const [z, zw, y] = [place?.up, waterline?.up, place?.stbd];
    const inputs: Input[] = [
        ...(z ? [input('z', `${fact}, above the datum`, z, 'mm', { about, fact })] : []), ...(y ? [input('y', `${fact}, to starboard of the centreline`, y, 'mm', { about, fact })] : []),
        ...(zw ? [input('w', 'waterline, above the datum', zw, 'mm', { about: 'vessel', fact: 'waterline' })] : []),
    ];
    const missing: MissingFact[] = [...(z && y ? [] : [fact === 'outlet' ? ventEndMissing(vent) : crestMissing(about)]), ...(zw ? [] : [waterlineMissing]), ...(most ? [] : [heelMissing])];
    const shared = {
        id, about, what: `The heel at which the ${fact} of ${about}, of the vent ${vent}, reaches the water`, source: 'geometry: tan φ = height over the waterline / distance off the centreline', inputs, steps: [],
        rule: 'VENT-HEEL', ...(limit && { limit }), missing,
    };
    const at = immersedAt(place, waterline);
    const side = y === undefined || y.si === 0 ? '' : y.si < 0 ? ', to port' : ', to starboard';
    const notes = ['She is taken to turn about the centreline at her waterline; trim, sinkage and waves are left out.'];
    if (at === undefined || !z || !zw) return { ...shared, formula: 'φ = arctan((z − w) / |y|)', notes };
    const where = { where: `still water, no trim${side}` };
    if (at === 'never') return { ...shared, ...where, formula: 'φ = π / 2', result: { symbol: 'φ', value: exactly(Math.PI / 2), unit: 'deg' }, notes: ['It stands on the centreline, above the waterline: it goes under only on her side.', ...notes] };
    if (at === 0 || !y) return { ...shared, ...where, formula: 'φ = 0', result: { symbol: 'φ', value: exactly(0), unit: 'deg' }, notes: ['It stands below the waterline: it is under as she floats.', ...notes] };
    const value = within([z, zw, y].map(estimateOf), (up, water, off) => { const angle = immersedAt({ up: { si: up! }, stbd: { si: off! } }, { up: { si: water! } }); return angle === 'never' ? Math.PI / 2 : angle === undefined ? undefined : Math.abs(angle); });
    return { ...shared, ...where, formula: 'φ = arctan((z − w) / |y|)', ...(value && { result: { symbol: 'φ', value, unit: 'deg' } }), notes };
}

const crestMissing = (about: Id): MissingFact => ({ about, fact: `how far the crest of ${about} stands off the centreline`, how: 'measure it, and write it like `crest at 1560 mm up, 1450 mm stbd`' });

const CIRCLE = 'A = π × D² / 4';
const area = (bore: Measure): ReturnType<typeof within> => within([estimateOf(bore)], (d) => (Math.PI * d! ** 2) / 4);

function ventAreaWorking(view: View, tank: Tank, vent: Fitting): Working {
    const { missing, rests } = boresOf(view, vent);
    const narrow = narrowest(view, rests.map(({ about }) => about), vent);
    const fill = tank.fittings.find(({ kind }) => kind === 'fill');
    const ends = fill?.fillEnds;
    const asked = !fill || ends === 'under pressure' ? undefined : (ends === undefined ? [...LEAST_AREA['at the top'], ...LEAST_AREA['into the tank']] : [...LEAST_AREA[ends]]).map((mm2) => mm2 * 1e-6);
    const limit: Limit | undefined = asked && {
        value: { si: Math.max(...asked), least: Math.min(...asked), most: Math.max(...asked) }, unit: 'mm2', sense: 'at least',
        from: { cited: `46 CFR 182.450(c), as guidance${ends === undefined ? '; between its least for a fill that ends at the top and its most for one that ends in the tank, since nobody said which' : ', between the two readings of its tube (in inches and in rounded metric words)'}` },
    };
    return {
        id: `area ${vent.id}`, about: vent.id, what: `The area of the vent of ${tank.id} where it is narrowest`, formula: CIRCLE, source: 'geometry of a circle', ...boreOf(narrow), steps: [],
        ...resultOf(narrow, missing), ...(limit && { limit }), rule: 'VENT-AREA', missing: [...missing, ...(fill && !ends ? [fillEndsMissing(fill.id, tank.id)] : [])],
        notes: fill ? ends === 'under pressure' ? ['Filled under pressure: the area of the fill is the limit of VENT-AREA.'] : [] : ['No fill is written, so VENT-AREA asks nothing.'],
    };
}

function fillAreaWorking(view: View, fill: Fitting): Working {
    const course = view.boat.courses.find(({ service, to }) => service === 'fill' && to.part === fill.tank && to.port === fill.port);
    const narrow = narrowest(view, course?.parts ?? [], fill);
    const missing: MissingFact[] = narrow ? [] : [{ about: fill.id, fact: `the bore of the fill of ${fill.tank}`, how: 'measure the inside of the fill hose' }];
    return { id: `area ${fill.id}`, about: fill.id, what: `The area of the fill of ${fill.tank} where it is narrowest`, formula: CIRCLE, source: 'geometry of a circle', ...boreOf(narrow), steps: [], ...resultOf(narrow, missing), notes: [], missing };
}

interface Narrow {
    readonly id: Id;
    readonly name: string;
    readonly bore: Measure;
}

/** Of the pipes and the fitting that state a bore, the narrowest; of two as narrow the first by name. */
function narrowest({ network }: View, parts: readonly Id[], fitting: Fitting): Narrow | undefined {
    const own = [...parts.map((id): Part | undefined => network.parts.get(id))].flatMap((part) => (part?.bore ? [{ id: part.id, name: part.name, bore: part.bore }] : []));
    const all = [...own, ...(fitting.bore ? [{ id: fitting.id, name: fitting.id, bore: fitting.bore }] : [])];
    return all.sort((a, b) => least(a.bore) - least(b.bore) || (a.id < b.id ? -1 : 1))[0];
}

const boreOf = (narrow: Narrow | undefined): { inputs: Input[]; where?: string } => (narrow ? { inputs: [input('D', `bore of ${narrow.name}`, narrow.bore, 'mm', { about: narrow.id, fact: 'bore' })], where: `at ${narrow.name}` } : { inputs: [] });

function resultOf(narrow: Narrow | undefined, missing: readonly MissingFact[]): Pick<Working, 'result'> {
    const value = narrow && missing.length === 0 ? area(narrow.bore) : undefined;
    return value ? { result: { symbol: 'A', value, unit: 'mm2' } } : {};
}
