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

/** Five lines at one tee, three of which leave it on one side; two tees with nothing between them. */
const KNOT = `vessel Knotwake
tank T1 { pickup P1   drop R1   drop R2 }
tank T2 { pickup P1 }
engine E1
engine E2
heater H1
supply course Port from T1.P1 to E1 {
  shutoff V1
  tee J1
  filter F1 primary
}
supply course Stbd from T2.P1 to J1 { shutoff V2   hose S2   tube S5 }
supply course Two from J1 to E2 { hose S3 }
supply course Three from J1 to H1 { tube S4   shutoff V3 }
return course Back from E1 to T1.R1 {
  hose B1
  tee J2
  tee J3
  hose B2
}
return course Aft from E2 to J2 { check CV2 }
return course Low from J3 to T1.R2 { check CV3 }
line-up RUN run is normal
`;

export const BOATS: readonly { readonly name: string; readonly texts: Texts }[] = [
    ...TOPOLOGIES.map(({ name, text }) => ({ name, texts: text })),
    { name: 'turned', texts: TURNED },
    { name: 'knot', texts: { 'knot.orlop': KNOT } },
    ...readdirSync(EXAMPLES, { withFileTypes: true }).filter((entry) => entry.isDirectory()).map(({ name }) => name).sort().map((name) => ({ name, texts: example(name) })),
];

export async function drawn(texts: Texts): Promise<{ readonly boat: Boat; readonly laid: LaidOut }> {
    const { boat } = await load(texts);
    return { boat, laid: await laidOut(boat, layOut) };
}
