/** What stands between quotes is the owner's, sign for sign. */
import { expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';

const boatWith = (title: string): string => `vessel Merrowake
tank T1 "${title}" { pickup P1   drop R1   vent   fill }
engine E1 { injection in-line mechanical   exhaust dry }
supply course Feed from T1.P1 to E1 { shutoff V1   normally open   filter F1 primary   lift pump LP1 }
return course Back from E1 to T1.R1 { hose S8 }
`;

test.each(['C:\\new\\tank.png', 'a \\ b', '\\', '\\0\\b\\t', '1 < 2 & 3', '`code` | *bold*', ''])('a title reads `%s`', async (title) => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': boatWith(title) });
    expect(problems).toEqual([]);
    expect(boat.tanks[0]?.title ?? '').toBe(title);
});
