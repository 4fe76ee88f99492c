/**
 * Where a hose runs is computed: the space written on it, and those of whatever its ends are made fast to. Whether it is
 * of a fire-resistant type is what is marked on it. Hoses that lack the mark are one finding a boat: one length of hose to buy.
 */
import type { Part } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { machinerySpaces, whereabouts } from '../../analysis/topology/spaces';
import { fromSI } from '../../model/units';
import { capital, listed } from '../../model/words';
import { fuelHoses, nothing, type Check, type View } from '../check';

export const hoseFire: Check = {
    code: 'HOSE-FIRE', severity: 'critical',
    statement: 'Each fuel hose in or through a machinery space is marked as a fire-resistant type (one that withstands a fire for 2½ minutes).',
    prevents: 'A fire in the engine space burns through the hose and is fed by it.',
    facts: 'the marking of each hose; the spaces that it and its ends are in; which space holds the engine',
    source: 'named for it, texts not read: ISO 7840, the inland boat-safety scheme 2.14, the small commercial vessel code 7.4.5',
    judge: (view) => {
        const hoses = fuelHoses(view);
        if (hoses.length === 0) return [nothing('no fuel hose is written')];
        const verdicts = hoses.map((hose) => judge(view, hose));
        const lacking = hoses.filter((_, i) => verdicts[i] === 'lacks');
        return [...(lacking.length > 0 ? [fails(view, lacking)] : []), ...verdicts.filter((verdict): verdict is Verdict => verdict !== 'lacks')];
    },
};

function judge(view: View, hose: Part): Verdict | 'lacks' {
    const about = hose.id;
    const machinery = machinerySpaces(view.boat);
    if (hose.fireResistant) return { outcome: 'pass', about, rests: [{ about, fact: 'fire-resistant' }] };
    const { spaces, own, bothEnds } = whereabouts(view.network, hose);
    if (spaces.some((space) => machinery.has(space))) return 'lacks';
    if (machinery.size === 0) {
        const engine = view.boat.consumers.find(({ kind }) => kind === 'engine' || kind === 'generator');
        if (!engine) return { outcome: 'not applicable', about, why: 'no engine is written, so no space is known to hold one' };
        return { outcome: 'cannot tell', about, missing: [{ about: engine.id, fact: `which space holds ${engine.id}`, how: `write \`space EngineBay machinery\` in the vessel, and \`in EngineBay\` at ${engine.id} and at all that stands with it` }] };
    }
    // From one space, or from a space to the open air, it need not pass another; written on the hose itself it is certain.
    if (own !== undefined || (bothEnds && spaces.length === 1)) return { outcome: 'not applicable', about, why: 'it runs in no machinery space' };
    return { outcome: 'cannot tell', about, missing: [{ about, fact: `which spaces ${hose.name} runs through`, how: `follow it, and write \`in ${[...machinery][0]}\` on it if it touches that space, else the space that it is in` }] };
}

function fails({ network, boat }: View, hoses: readonly Part[]): Verdict {
    const machinery = machinerySpaces(boat);
    const spaces = [...new Set(hoses.flatMap((hose) => whereabouts(network, hose).spaces.filter((space) => machinery.has(space))))];
    const first = hoses[0]!;
    const many = hoses.length > 1;
    return {
        outcome: 'fail', members: hoses.map(({ id }) => id), about: first.id, rests: hoses.map(({ id }) => ({ about: id, fact: 'fire-resistant' })),
        message: `${capital(listed(hoses.map(({ name }) => name)))} ${many ? 'run' : 'runs'} in ${listed(spaces)} and ${many ? 'are' : 'is'} not written as marked fire-resistant.`,
        reason: 'In a fire such a hose can burn through within moments, and what runs out feeds the fire.',
        advice: `Write \`fire-resistant\` where the marking on the hose says so. Replace the others by hose that is marked: ${listed(hoses.map(toBuy))}.`,
        see: hoses.slice(1).map(({ id }) => ({ id, why: 'not marked either' })),
    };
}

/** What to ask for in the shop. */
function toBuy({ name, bore, length }: Part): string {
    const sizes = [...(bore ? [`${Number(fromSI(bore.si, 'mm').toPrecision(3))} mm`] : []), ...(length ? [`${length.si.toFixed(2)} m`] : [])];
    return sizes.length > 0 ? `${name} ${sizes.join(' x ')}` : `${name} (not measured)`;
}
