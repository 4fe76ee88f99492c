/** Examples of the pages, each with what stands around it on the boat, so that the tests can read every one. */
import type { Texts } from '../load';
import { fence } from './markdown';

export interface Example {
    /** As the page shows it. */
    readonly shown: string;
    /** The head of the block in which it stands, when the page leaves that out. */
    readonly inside?: string;
    /** The rest of the boat, in a file of its own. */
    readonly around?: string;
}

export const texts = ({ shown, inside, around }: Example): Texts => ({
    ...(around !== undefined && { 'around.orlop': around }),
    'shown.orlop': inside === undefined ? `${shown}\n` : `${inside} {\n${shown}\n}\n`,
});

export const show = (example: Example): string => fence(example.shown);

/** A small boat on which the examples stand that name something. */
export const BOAT = `vessel Ottilwake {
  heights from "inside of hull at the engine bay"
  space EngineBay machinery
  space QuarterBerth
}
tank T1 in QuarterBerth {
  box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, 2200 mm fwd, 550 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 650 mm
  drop R1     bore 8 mm   mouth at 25 mm off bottom   top at 650 mm
  vent
  fill
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 60 mL   inlet at 820 mm
  bleed BS3 "gallery"   at 820 mm   spanner 8 mm
  exhaust wet   muffler free 2 L   raw water 25 L/min at 3600 rpm   cranks 200 rpm
}
supply course Feed from T1.P1 to E1 {
  shutoff V1    at 660 mm   normally open
  hose S1       bore 8 mm   length 2.6 m   low at 560 mm
  primer PR1    at 640 mm   stroke 15 mL   lifts 900 mm   holds 20 mL
  filter F1 primary {
    separates water   passes 10 um   holds 450 mL
    ports at 660 mm   lid at 40 mm over ports
    bleed BS1   at 705 mm
    seals lid ring, drain washer
    prefill allowed
  }
  gauge G1      vacuum   at 660 mm
  hose S2       bore 8 mm   length 1.4 m   crest at 760 mm
  lift pump LP1 at 620 mm   lever 3 mL   holds 25 mL
  filter F2 final {
    passes 5 um   holds 220 mL   ports at 880 mm
    bleed BS2   at 900 mm
    prefill not on the clean side
  }
}
return course Back from E1 to T1.R1 { hose R   bore 6 mm   length 3.4 m }
line-up RUN       run       is normal
line-up SERVICE   service   from RUN   { V1 shut }
`;

/** Two spaces, and a tank and an engine between which a course of an example can run. */
export const ENDS = `vessel Ottilwake {
  heights from "keel"
  space EngineBay machinery
  space QuarterBerth
}
tank T9 { pickup P1   drop R1 }
engine E9
`;
export const COURSE = 'supply course Line from T9.P1 to E9';
