/**
 * An engine whose lift pump has a priming lever and whose injection pump has two vents, with a cold-start device.
 * Source: TM 55-1930-209-14&P-9-4, page file 358, the heading on bleeding the cold-start device. Order and names of
 * the points are the document's; sizes, heights and tags are invented.
 *
 * The page draws no chain. That the filter stands after the lift pump is concluded: fuel comes out of the filter's
 * vent while the lever is worked.
 */
import { both, ours, published } from './ledger';

interface Variant {
    readonly filter: 'after the pump' | 'before the pump';
    readonly prefill?: 'allowed' | 'forbidden';
    /** Height of the tank's bottom, mm. Its inside height is 400 mm. */
    readonly tank?: number;
    /** Where the cold-start device is written: as the engine's last bleed point, or on its own branch. */
    readonly coldStart?: 'on the engine' | 'on a branch' | 'none';
}

export function boat({ filter, prefill = 'allowed', tank = 0, coldStart = 'on the engine' }: Variant): string {
    const pump = 'lift pump LP1 at 620 mm   lever 3 mL   holds 25 mL';
    const strainer = `filter F1 primary in EngineBay {
    holds 300 mL   ports at 660 mm   lid at 40 mm over ports
    bleed BS1 "filter" at 705 mm
    prefill ${prefill}
  }`;
    const tee = coldStart === 'on a branch' ? 'tee J1 at 660 mm' : '';
    const low = tank + 20;
    return `
vessel Prahm "invented workboat" {
  heights from "inside of hull at the engine bay"
  envelope level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 800 x 500 x 400 mm   low aft inner corner at ${tank} mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at ${low} mm
  drop R1     bore 8 mm   mouth at 20 mm off bottom   top at ${tank + 400} mm
  vent        at ${tank + 400} mm
  fill        at ${tank + 400} mm
}
engine E1 in EngineBay {
  injection rotary mechanical   holds 60 mL   inlet at 820 mm
  bleed BS2 "hydraulic head"    at 820 mm
  bleed BS3 "governor housing"  at 860 mm
  ${coldStart === 'on the engine' ? 'bleed BS4 "joint at the cold-start inlet" at 880 mm' : ''}
  injectors 4
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at ${low} mm   normally open
  hose S1      bore 8 mm   length 1.50 m
  ${filter === 'before the pump' ? strainer : pump}
  tube S2      bore 6 mm   length 0.40 m
  ${filter === 'before the pump' ? pump : strainer}
  ${tee}
  tube S3      bore 6 mm   length 0.40 m
}
return course Back from E1 to T1.R1 {
  tube R       bore 6 mm   length 2.00 m
}
${coldStart === 'on a branch' ? `
heater CS1 "cold-start device" in EngineBay {
  inlet at 880 mm
  bleed BS4 "joint at the inlet" at 880 mm
}
supply course ColdStart from J1 to CS1 {
  tube S4      bore 4 mm   length 0.50 m
}` : ''}
vent course Breather from T1 to air { hose VH1   bore 16 mm   crest at ${tank + 1500} mm   outlet at ${tank + 1400} mm }
fill course Filler from deck to T1 { hose FH1   bore 38 mm   plate at ${tank + 1300} mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;
}

const ONE_BY_ONE = 'The page opens all three at once, governor first, pumps until every one runs clear, then shuts them in order while pumping; '
    + 'ours opens, pumps and shuts one at a time, in the same shutting order, so that one person has one open screw to watch.';

export const ORDER = [
    ...ours('The page does not name the tank valve; ours begins in the SERVICE line-up, where it was shut to open the filter.', 'open V1'),
    ...published(ONE_BY_ONE, 'open BS3', 'open BS2'),
    ...both('open BS1', 'work LP1 lever', 'shut BS1'),
    ...ours(ONE_BY_ONE, 'open BS2', 'work LP1 lever'),
    ...both('shut BS2'),
    ...ours(ONE_BY_ONE, 'open BS3', 'work LP1 lever'),
    ...both('shut BS3', 'open BS4', 'work LP1 lever', 'shut BS4'),
    ...ours('The page ends with the low-pressure side full; ours ends with the engine tried, because only that ends the job.', 'start E1'),
];
