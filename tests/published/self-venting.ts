/**
 * Two engines that have no bleed screw. Facts of the topology are the documents'; sizes, heights and tags invented.
 */
import { both, ours, published } from './ledger';

/**
 * TM 55-1930-209-14&P-21, para 5-36: tank, strainer, gear pump with relief, filter, passage in the head, unit
 * injectors, restricted fitting, return to a vented tank. Surplus flow carries air to the tank; no screw is named.
 */
export const unitInjectors = `
vessel Schute "invented lighter" {
  heights from "inside of hull at the engine bay"
  envelope level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 800 x 500 x 400 mm   low aft inner corner at 0 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 10 mm   mouth at 20 mm off bottom   top at 400 mm
  drop R1     bore 10 mm   mouth at 20 mm off bottom   top at 400 mm
  vent        at 400 mm
  fill        at 400 mm
}
engine E1 in EngineBay {
  injection unit mechanical   inlet at 820 mm
  exhaust dry
  self-bleeding
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 420 mm   normally open
  hose S1      bore 10 mm   length 1.50 m
  strainer ST1 at 500 mm   holds 200 mL
  lift pump LP1 at 620 mm   holds 30 mL
  tube S2      bore 10 mm   length 0.40 m
  filter F1 final in EngineBay { holds 500 mL   ports at 780 mm   lid at 40 mm over ports   prefill allowed }
  tube S3      bore 10 mm   length 0.40 m
}
return course Back from E1 to T1.R1 {
  tube R       bore 6 mm   length 2.00 m
}
vent course Breather from T1 to air { hose VH1   bore 16 mm   crest at 1500 mm   outlet at 1400 mm }
fill course Filler from deck to T1 { hose FH1   bore 38 mm   plate at 1300 mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;

export const unitInjectorsOrder = [
    ...ours('The paragraph does not name a tank valve; ours begins in the SERVICE line-up, where it was shut to open the filter.', 'open V1'),
    ...ours('The paragraph says how air leaves but lists no steps; running is what makes the surplus flow. The new filter is taken as filled by hand '
        + 'before it was closed, as TM 5-3810-293-14&P-1 has it: the gear pump has no lever.', 'start E1'),
];

/**
 * TM 5-4310-393-14, para B and figure 3-16: tank above, gravity hose, injection pump that vents itself by a hose
 * teed into the return. No lift pump, no manual bleed printed. After a line is changed: start, look for leaks, tighten.
 */
export const gravityFed = `
vessel Nauen "invented launch" {
  heights from "inside of hull at the engine bay"
  envelope level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 400 x 300 x 300 mm   low aft inner corner at 1200 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 1220 mm
  drop R1     bore 8 mm   mouth at 20 mm off bottom   top at 1500 mm
  vent        at 1500 mm
  fill        at 1500 mm
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 40 mL   inlet at 820 mm
  exhaust dry
  self-bleeding
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 1220 mm   normally open
  hose S1      bore 8 mm   length 0.80 m   low at 820 mm
}
return course Back from E1 to T1.R1 {
  hose R       bore 6 mm   length 1.00 m
}
vent course Breather from T1 to air { hose VH1   bore 16 mm   crest at 2000 mm   outlet at 1900 mm }
fill course Filler from deck to T1 { hose FH1   bore 38 mm   plate at 1900 mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;

export const gravityFedOrder = [
    ...ours('The document does not name a tank valve; under a head of fuel ours has it shut before a hose is taken off.', 'open V1'),
    ...both('start E1'),
    ...published('Looking at joints after the start is no step of a bleed sequence here; it belongs to the service procedure around it.', 'look for leaks', 'tighten'),
];
