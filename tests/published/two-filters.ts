/**
 * Primary, lift pump, secondary with a bleed screw, injection pump with another.
 * Source: "Painless bleeding", an article in a sailing magazine (secondary; stored as far as the injectors).
 * The chain and the order are the article's; sizes, heights and tags are invented. The strainer inside the article's
 * lift pump is left out: no step touches it.
 */
import { both, ours, published } from './ledger';

export const boat = `
vessel Fleute "invented ketch" {
  heights from "inside of hull at the engine bay"
  envelope level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 800 x 500 x 400 mm   low aft inner corner at 0 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 450 mm
  drop R1     bore 8 mm   mouth at 20 mm off bottom   top at 450 mm
  vent        at 400 mm
  fill        at 400 mm
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 60 mL   inlet at 820 mm
  bleed BS3 "gallery" at 830 mm
  injectors 3
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 450 mm   normally open
  hose S1      bore 8 mm   length 1.50 m
  filter F1 primary in EngineBay { separates water   holds 450 mL   ports at 560 mm   lid at 40 mm over ports   prefill allowed }
  hose S2      bore 8 mm   length 0.60 m
  lift pump LP1 at 620 mm   lever 3 mL   holds 25 mL
  tube S3      bore 6 mm   length 0.40 m
  filter F2 final in EngineBay {
    holds 220 mL   ports at 880 mm   lid at 10 mm over ports
    bleed BS2 at 900 mm
    prefill not on the clean side
  }
  tube S4      bore 6 mm   length 0.40 m
}
return course Back from E1 to T1.R1 {
  tube R       bore 6 mm   length 2.00 m
}
vent course Breather from T1 to air { hose VH1   bore 16 mm   crest at 1500 mm   outlet at 1400 mm }
fill course Filler from deck to T1 { hose FH1   bore 38 mm   plate at 1300 mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;

const JOINTS = published('The article first has the joints looked over, most of all between tank and lift pump; ours bleeds, and leaves the looking to the '
    + 'service procedure.', 'look over the joints');
const OPEN = ours('The article does not name the tank valve; ours begins in the SERVICE line-up, where it was shut.', 'open V1');
const START = both('start E1');
const AFTER = published('The article then runs the engine at a fast idle for some minutes and looks for leaks; that belongs to the service procedure.', 'run E1 and look for leaks');

/** Filters only: the article begins just after where air got in, at the secondary, and ends there. */
export const filtersChanged = [
    ...JOINTS, ...OPEN,
    ...both('open BS2', 'work LP1 lever', 'shut BS2'),
    ...ours('The article stops at the secondary unless air went past it; ours cannot rule out that the tube behind the secondary lost its fuel while the '
        + 'filter stood open, and goes on to the next screw.', 'open BS3', 'work LP1 lever', 'shut BS3'),
    ...START, ...AFTER,
];

/** Air beyond the secondary: the injection pump next, then the injectors. */
export const airBeyond = [
    ...JOINTS, ...OPEN,
    ...both('open BS2', 'work LP1 lever', 'shut BS2', 'open BS3', 'work LP1 lever', 'shut BS3'),
    ...published('The article ends at the injectors; ours writes no step at a high-pressure joint: it ends where low pressure ends and tries the engine.', 'bleed the injectors'),
    ...START, ...AFTER,
];
