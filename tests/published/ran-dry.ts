/**
 * Tank, two filters, injection pump, injectors; the tank ran dry.
 * Source: a tractor dealer's answer to an owner who ran out of fuel (secondary; its list begins at its second item).
 * The order is the page's. The page does not say what drives the fuel: the hand primer before the first filter is ours,
 * so that no screw opened is on the suction side. Sizes, heights and tags are invented.
 */
import { both, ours, published } from './ledger';

export const boat = `
vessel Kaag "invented barge" {
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
  bleed BS3 "pump inlet" at 830 mm
  injectors 3
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 450 mm   normally open
  hose S1      bore 8 mm   length 1.00 m
  primer PR1   at 500 mm   stroke 15 mL   lifts 900 mm   cracks 0.1 kPa   holds 20 mL
  hose S2      bore 8 mm   length 0.30 m
  filter F1 primary in EngineBay {
    separates water   holds 450 mL   ports at 560 mm   lid at 40 mm over ports
    bleed BS1 at 605 mm
    prefill allowed
  }
  hose S3      bore 8 mm   length 0.60 m
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

export const ORDER = [
    ...published('The page fills the tank; ours takes the level from the envelope and has no step for filling.', 'fill T1'),
    ...ours('The page does not name the tank valve; ours begins in the SERVICE line-up, where it was shut.', 'open V1'),
    ...both('open BS1', 'work PR1', 'shut BS1', 'open BS2', 'work PR1', 'shut BS2', 'open BS3', 'work PR1', 'shut BS3'),
    ...published('The page opens the injector pipes half a turn and cranks at full throttle until no bubbles come, then tightens; ours writes no step '
        + 'at a high-pressure joint.', 'open the injector pipes', 'crank', 'tighten the injector pipes'),
    ...ours('The page has the engine run by then; ours ends with a few short tries.', 'start E1'),
];

/** The page rests the starter for some minutes after each 30 s. */
export const LONGEST_CRANK_S = 30;
