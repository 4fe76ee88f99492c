/**
 * Whatever is shown of whatever boat: each mark is of a thing of hers, each valve stands in a position that it has, and no words are empty. ORLOP_FUZZ=200 draws so many
 * boats by lot.
 */
import { expect, test } from 'vitest';
import { judge } from '../../../../src/checks/judge';
import { markupFor, stepsOf, type Shown } from '../../../../src/documents/drawing/markups/markup';
import { readShow, showsFor } from '../../../../src/language/ask/show';
import { loadBoat } from '../../../../src/language/load';
import { lineUpsOf } from '../../../../src/analysis/topology/line-ups';
import type { Boat } from '../../../../src/model/boat';
import { randomCase, toText } from '../../../oracle/random-boats';
import { boatOf, EXAMPLES } from './shown';

const BY_LOT = Number(process.env['ORLOP_FUZZ'] ?? 12);

/** By the test's own count. */
function things(boat: Boat): Set<string> {
    const found = new Set<string>();
    for (const { id, fittings } of boat.tanks) { found.add(id); for (const fitting of fittings) found.add(fitting.id); }
    for (const list of [boat.parts, boat.consumers]) for (const { id, vents } of list) { found.add(id); for (const vent of vents) found.add(vent.id); }
    return found;
}

function sound(of: Shown, words: string): 'shown' | 'refused' {
    const { boat } = of;
    const found = markupFor(readShow(words, boat), of);
    if ('refused' in found) { expect(found.refused).toMatch(/^\S.*[.!?)]$/s); return 'refused'; }
    const own = things(boat);
    for (const { about, words: said } of found.marks) {
        expect(own.has(about), `${boat.name}, ${words}: ${about}`).toBe(true);
        if (said !== undefined) expect(said).toMatch(/^\S(.*\S)?$/);
    }
    for (const [valve, position] of found.positions ?? []) {
        const part = boat.parts.find(({ id }) => id === valve)!;
        expect(part.kind === 'shutoff' ? ['open', 'shut'] : part.positions.map(({ name }) => name), `${boat.name}, ${words}: ${valve}`).toContain(position);
    }
    expect(found.title).not.toBe('');
    for (const note of found.notes) expect(note, `${boat.name}, ${words}`).not.toMatch(/undefined|NaN|\[object|^\s*$/);
    return 'shown';
}

test.each(EXAMPLES)('%s', async (name) => {
    const boat = await boatOf(name);
    const findings = judge(boat).findings;
    let count = 0;
    for (const lineUp of [undefined, ...lineUpsOf(boat).map(({ id }) => id)]) {
        const of = { boat, findings, before: boat, ...(lineUp !== undefined && { lineUp }), ...(lineUp === undefined ? {} : { level: 0.4, heel: 0.1 }) };
        for (const { show } of showsFor(boat)) {
            // These are the same in whichever line-up she is drawn.
            if (lineUp !== undefined && /^(step|bleed|findings|changes)\b/.test(show)) continue;
            if (show.startsWith('step ')) {
                // Every step of a small boat, every third of a large one, which has hundreds.
                for (let i = 1; i <= (stepsOf(readShow(show, boat), of) ?? 1); i += boat.parts.length > 60 ? 3 : 1) if (sound(of, show.replace(/^step 1 /, `step ${i} `)) === 'shown') count++;
            } else if (sound(of, show) === 'shown') count++;
        }
    }
    expect(count).toBeGreaterThan(20);
}, 60_000);

test('boats drawn by lot', async () => {
    const count = { shown: 0, refused: 0 };
    for (let seed = 1; seed <= BY_LOT; seed++) {
        const { boat } = await loadBoat({ 'boat.orlop': toText(randomCase(seed).boat) });
        for (const { show } of showsFor(boat)) count[sound({ boat, findings: [], before: boat }, show)]++;
    }
    // A boat has a consumer, a filter or two and some valves to show something of.
    expect(count.shown).toBeGreaterThan(7 * BY_LOT);
}, 60_000);
