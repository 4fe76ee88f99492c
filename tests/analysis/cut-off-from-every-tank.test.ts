/**
 * What `ask isolate` and the warning of `ask open` tell to set holds against every tank, also against one that is out of the line-up: a selector
 * without a position that shuts, turned away from one tank, is turned to the other.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { plumbing } from '../../src/analysis/opening/plumbing';
import { waysTo } from '../../src/analysis/opening/ways';
import { lineUpsOf } from '../../src/analysis/topology/line-ups';
import { networkOf } from '../../src/analysis/topology/network';
import { answer } from '../../src/documents/answers/answers';
import { readQuestion } from '../../src/language/ask/question';
import { loadBoat } from '../../src/language/load';
import type { Boat, Id } from '../../src/model/boat';

const EXAMPLES = fileURLToPath(new URL('../../examples', import.meta.url));

async function boatOf(name: string): Promise<Boat> {
    const files = readdirSync(`${EXAMPLES}/${name}`).filter((file) => file.endsWith('.orlop'));
    return (await loadBoat(Object.fromEntries(files.map((file) => [file, readFileSync(`${EXAMPLES}/${name}/${file}`, 'utf8')])))).boat;
}

interface Told {
    readonly sets: readonly { readonly settings: readonly { readonly part: Id; readonly position: string }[] }[];
    readonly alternatives: Told['sets'];
}

const ask = (boat: Boat, words: string) => { const { question, circumstances } = readQuestion(words, boat); return answer(boat, question, circumstances)!; };
const setsOf = (boat: Boat, words: string): string[] => (ask(boat, words).data as unknown as Told).sets.map(({ settings }) => settings.map(({ part, position }) => `${part} ${position}`).join(', '));

// By hand from examples/brackenwake/lines.orlop. SV1 has PORT and STBD alone, and T1 has no shutoff: to be rid of T1 it must be turned to T2, whose V2 must
// then be shut. E1 does not say that its return holds back, so SV2 must be OFF: in PORT T1 comes back, in STBD T2.
describe('Brackenwake: a selector that cannot shut', async () => {
    const boat = await boatOf('brackenwake');
    test.each(['F1', 'F2'])('%s, drawing from the port tank: the starboard tank must be shut with it', (filter) => expect(setsOf(boat, `isolate ${filter} in RUN-PORT`)).toEqual(['SV1 STBD, SV2 OFF, V2 shut']));
    test('drawing from the starboard tank: its own valve, and the return', () => expect(setsOf(boat, 'isolate F2 in RUN-STBD')).toEqual(['SV2 OFF, V2 shut']));
    test('the warning before it is opened names the same', () => expect(ask(boat, 'open F1 lid').body[0]).toMatch(/^WARNING: .*SV1 STBD, SV2 OFF and V2 shut with E1 stopped/));
});

describe.each(readdirSync(EXAMPLES).sort())('%s', (name) => {
    test('no liquid has a way to a filter when what is told was set, checks worn', async () => {
        const boat = await boatOf(name);
        const network = networkOf(boat);
        for (const lineUp of lineUpsOf(boat)) for (const { id } of boat.parts.filter(({ kind }) => kind === 'filter')) {
            const told = ask(boat, `isolate ${id} in ${lineUp.id}`).data as unknown as Told;
            for (const { settings } of [...told.sets, ...told.alternatives]) {
                const positions = new Map([...lineUp.positions, ...settings.map(({ part, position }) => [part, position] as const)]);
                expect([lineUp.id, id, settings, waysTo(plumbing(network, positions, 'leaky'), id).map(({ tank }) => tank)]).toEqual([lineUp.id, id, settings, []]);
            }
        }
    });
});
