/** Every boat of the arrangements and every example, laid out once. */
import { readdirSync } from 'node:fs';
import { layOut } from '../../../src/layout/elk';
import { laidOut, type LaidOut } from '../../../src/layout/schematic';
import type { Boat } from '../../../src/model/boat';
import { example, load, type Texts } from '../../checks/boats';
import { TOPOLOGIES } from '../../topologies/topologies';

const EXAMPLES = new URL('../../../examples/', import.meta.url);

/** What no boat of an arrangement has: things turned end for end, a valve worked by electricity, a drain without a plug, valves that are said to be locked or shut. */
const TURNED = `vessel Turnwake
tank T1 {
  pickup P1
  drop R1
  vent
  fill
}
engine E1
supply course Feed from T1.P1 to E1 {
  shutoff V1   solenoid   normally open
  check CV1   reversed
  hose S1
  filter F1 primary { drain at 180 mm under ports   bleed BS1   bleed BS2 }
  electric pump EP1   reversed
  strainer ST1
  radiator HR1
  gauge G1 pressure
  shutoff V2   normally shut
  shutoff V3   locked open
  tube S2
}
return course Back from E1 to T1.R1 { check CV2   reversed   hose B1 }
line-up RUN run is normal
line-up SERVICE service from RUN { V1 shut   V2 open }
`;

export const BOATS: readonly { readonly name: string; readonly texts: Texts }[] = [
    ...TOPOLOGIES.map(({ name, text }) => ({ name, texts: text })),
    { name: 'turned', texts: TURNED },
    ...readdirSync(EXAMPLES, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }) => name).sort().map((name) => ({ name, texts: example(name) })),
];

export async function drawn(texts: Texts): Promise<{ readonly boat: Boat; readonly laid: LaidOut }> {
    const { boat } = await load(texts);
    return { boat, laid: await laidOut(boat, layOut) };
}
