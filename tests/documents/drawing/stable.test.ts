/** A schematic changes as little as the text does: what is put in shifts what follows, what is put elsewhere by hand stays there, what is called otherwise is drawn as it was. */
import { describe, expect, test } from 'vitest';
import { elsewhereTold, movedIn, readPlaces, type Places } from '../../../src/documents/drawing/places';
import { layOut } from '../../../src/layout/elk';
import { laidOut, pictureOf, type LaidOut } from '../../../src/layout/schematic';
import type { Boat, Joint, Part } from '../../../src/model/boat';
import { load } from '../../checks/boats';
import { topology } from '../../topologies/topologies';
import { standing } from './standing';

const laid = async (text: string, places?: Places): Promise<LaidOut> => laidOut((await load(text)).boat, layOut, places);
const sheet = (of: LaidOut): string => pictureOf(of, {}).svg;

test.each([1, 3, 13])('boat %i: a part that is put in moves what follows right by no more than its width, and all else not at all', async (number) => {
    const { boat } = await load(topology(number).text);
    const was = standing(sheet(await laidOut(boat, layOut)));
    const found: string[] = [];
    for (const [place, joint] of boat.joints.entries()) {
        if (place % EVERY !== number % EVERY) continue;
        const now = standing(sheet(await laidOut(withPart(boat, joint, place % 2 === 0 ? 'shutoff' : 'hose'), layOut)));
        const tell = (words: string): void => { found.push(`between ${joint.from} and ${joint.to}: ${words}`); };
        const [x, y] = now.get('VX9')!;
        expect([...now.keys()].filter((id) => id !== 'VX9').toSorted()).toEqual([...was.keys()].toSorted());
        for (const [id, [oldX, oldY]] of was) {
            const [newX, newY] = now.get(id)!;
            const by = newX - oldX;
            if (newY !== oldY) tell(`${id} moved down by ${newY - oldY}`);
            if (by < 0 || by > WIDTH) tell(`${id} moved right by ${by}`);
            if (newX < x && by !== 0) tell(`${id}, left of it, moved right by ${by}`);
        }
        // In a row nothing changes places, and what follows makes room.
        for (const [one, [a, row]] of was) for (const [other, [b, sameRow]] of was) if (row === sameRow && a < b && now.get(one)![0] > now.get(other)![0]) tell(`${one} and ${other} changed places`);
        for (const [id, [otherX, otherY]] of now) if (otherY === y && id !== 'VX9' && Math.abs(otherX - x) < 20) tell(`${id} stands on it`);
    }
    expect(found).toEqual([]);
});

/** Every so many places are tried; all of them with ORLOP_PLACES=all. */
const EVERY = process.env['ORLOP_PLACES'] === 'all' ? 1 : 4;

/** Small parts are all so wide: from one to the next in a row of the sheet. */
const WIDTH = 84;

/** The boat with a small part more, between two that are joined. */
function withPart(boat: Boat, joint: Joint, kind: 'shutoff' | 'hose'): Boat {
    const part: Part = { id: 'VX9', kind, tag: 'VX9', name: 'VX9', course: joint.course, seals: [], vents: [], ports: [], positions: [], turning: [] };
    return { ...boat, parts: [...boat.parts, part], joints: boat.joints.flatMap((other) => (other === joint ? [{ ...joint, to: 'VX9:in' }, { ...joint, from: 'VX9:out' }] : [other])) };
}

describe('what is put elsewhere by hand', () => {
    const { text } = topology(3);
    test.each(['SV2', 'E1', 'T2', 'B1'])('%s stands 200 lower, also when parts are put in before and behind it', async (id) => {
        const plain = await laid(text);
        const kept = movedIn('', plain.schematic, plain.laid, id, 200);
        expect(kept.split('\n').filter((line) => line !== '' && !line.startsWith('--'))).toHaveLength(1);
        const { places, problems } = readPlaces(kept);
        expect(problems).toEqual([]);
        const chosen = await laid(text, places);
        expect([chosen.strangers, chosen.elsewhere]).toEqual([[], []]);
        const [before, after] = [standing(sheet(plain)).get(id)!, standing(sheet(chosen)).get(id)!];
        expect(after[1] - before[1]).toBe(200);
        for (const place of [1, 20]) {
            const { boat } = plain.schematic;
            expect(standing(sheet(await laidOut(withPart(boat, boat.joints[place]!, 'shutoff'), layOut, places))).get(id)![1]).toBe(after[1]);
        }
        // And back.
        expect(movedIn(kept, chosen.schematic, chosen.laid, id)).toBe('');
    });

    test('what a person wrote into the file stays: remarks, other places, and lines that were not understood', async () => {
        const { schematic, laid: at } = await laid(text);
        const own = '-- for the locker door\nB1 down 500  -- out of the way\nover there\nT2 down 300\n';
        const put = movedIn(own, schematic, at, 'E1', 0);
        // E1 stands between B1 and T2 by name; nothing else has changed.
        expect(put.split('\n').filter((line) => !line.startsWith('E1'))).toEqual(own.split('\n'));
        expect(put.split('\n').findIndex((line) => line.startsWith('E1'))).toBe(3);
        expect(movedIn(put, schematic, at, 'E1')).toBe(own);
        expect(movedIn(own, schematic, at, 'B1')).toBe(own.replace('B1 down 500  -- out of the way\n', ''));
    });

    test('what cannot stand where it was put stands elsewhere, and it is told by how much', async () => {
        // V1 and V2 cannot both stand at 240; S1 stands in the line of V1, and the first by name counts.
        const wanted = new Map([['S1', 240], ['V1', 300], ['V2', 240]]);
        const [chosen, free] = [await laid(text, wanted), await laid(text, new Map([['V2', 240]]))];
        const [drawn, apart] = [standing(sheet(chosen)), standing(sheet(free))];
        const lower = (id: string): number => drawn.get(id)![1] - apart.get('V2')![1];
        expect(free.elsewhere).toEqual([]);
        // The sheet itself says how far from 240 each row stands, V2 alone being where it was put.
        expect(chosen.elsewhere).toEqual([['S1', 240], ['V1', 300], ['V2', 240]].map(([id, down]) => ({ id, by: lower(String(id)) + 240 - Number(down) })).filter(({ by }) => by !== 0));
        expect(chosen.elsewhere.map(({ id }) => id)).toContain('V1');
        expect(lower('V1')).not.toBe(lower('V2'));
        expect(elsewhereTold([{ id: 'V1', by: -60 }])).toEqual(['schematic.places: V1 stands 60 higher than it says: what stands there or in the same row was put first. Write a place where there is room, or take that line out.']);
        expect(elsewhereTold([{ id: 'V1', by: -60 }, { id: 'V2', by: 136 }])[0]).toMatch(/V1 stands 60 higher and V2 stands 136 lower than it says/);
    });

    test('lines that are not understood are told by their number and left out, and so are names that are on the sheet no more', async () => {
        const { places, problems } = readPlaces('E1 down 240\nE1 sideways 3\nT1 down\n\n-- a remark\nSV1 down 1e9\nV9 down 10\r\nT2 down -40   -- up\n');
        expect([...places]).toEqual([['E1', 240], ['V9', 10], ['T2', -40]]);
        expect(problems.map((problem) => /line (\d+)/.exec(problem)?.[1])).toEqual(['2', '3', '6']);
        for (const problem of problems) expect(problem).toMatch(/Write a name, the word down and a number, such as: E1 down 240\.$/);
        expect((await laid(text, places)).strangers).toEqual(['V9']);
    });
});

test('a part that is called otherwise changes only lines of the file that say its name', async () => {
    const { text } = topology(3);
    const [was, now] = [sheet(await laid(text)).split('\n'), sheet(await laid(text.replace(/\bV2\b/g, 'V8'))).split('\n')];
    expect(now).toHaveLength(was.length);
    const changed = was.flatMap((line, i) => (line === now[i] ? [] : [[line, now[i]!] as const]));
    expect(changed.length).toBeGreaterThan(0);
    for (const [old, later] of changed) expect([/\bV2\b/.test(old), later]).toEqual([true, old.replace(/\bV2\b/g, 'V8')]);
});
