/**
 * A filter with two bleed screws and an injection pump with one at its inlet, all fed by the height of the tank.
 * Source: a tractor dealer's page on bleeding (secondary, not a government document; its later steps are not stored).
 * The order is the page's; sizes, heights and tags are invented.
 */
import { both, ours, published } from './ledger';

/** `tank` is the height of the tank's bottom in mm. The lowest level is 20 % of 300 mm, so 60 mm above it. */
export const boat = (tank: number): string => `
vessel Balje "invented ferry" {
  heights from "inside of hull at the engine bay"
  envelope level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 600 x 400 x 300 mm   low aft inner corner at ${tank} mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at ${tank + 20} mm
  drop R1     bore 8 mm   mouth at 20 mm off bottom   top at ${tank + 300} mm
  vent        at ${tank + 300} mm
  fill        at ${tank + 300} mm
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 60 mL   inlet at 820 mm
  bleed BS3 "pump inlet" at 830 mm
  injectors 3
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at ${tank + 20} mm   normally open
  hose S1      bore 8 mm   length 0.80 m
  filter F1 final in EngineBay {
    holds 400 mL   ports at 860 mm   lid at 30 mm over ports
    bleed BS1 "left"   at 900 mm
    bleed BS2 "right"  at 900 mm
    prefill not on the clean side
  }
  tube S2      bore 8 mm   length 0.40 m   low at 820 mm
}
return course Back from E1 to T1.R1 {
  tube R       bore 6 mm   length 1.50 m
}
vent course Breather from T1 to air { hose VH1   bore 16 mm   crest at 2000 mm   outlet at 1900 mm }
fill course Filler from deck to T1 { hose FH1   bore 38 mm   plate at 1900 mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;

const FILL = published('The page tops up the tank first; ours takes the lowest level of the envelope and needs no more than that.', 'fill T1');
const OPEN = ours('The page speaks of no tank valve apart from the filter; ours begins with it shut, and under a head of fuel opens it first.', 'open V1');
const FILTER = both('open BS1', 'let T1 flow', 'shut BS1', 'open BS2', 'let T1 flow', 'shut BS2');
const PUMP = ['open BS3', 'let T1 flow', 'shut BS3'] as const;
const START = ours('The page stops at the pump inlet when the engine was not cranked; ours ends with the engine tried.', 'start E1');

export const filterChanged = [
    ...FILL, ...OPEN, ...FILTER,
    ...published('The page goes on to the pump inlet in any case; here the tube runs down from the filter and keeps its fuel while that stands open, so that ours has '
        + 'no air left to let out.', ...PUMP),
    ...START,
];

export const ranDry = [
    ...FILL, ...OPEN, ...FILTER, ...both(...PUMP),
    ...published('When the engine ran dry the page goes on to the injectors; ours writes no step at a high-pressure joint: it ends where low '
        + 'pressure ends and tries the engine.', 'bleed the injectors'),
    ...START,
];
