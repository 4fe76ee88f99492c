/** Two small invented boats for the test in the editor. */

/** A launch with no shutoff at all, everything else known well enough to bleed her. */
export const QUILLWAKE = `-- Quillwake, an invented launch with no shutoff in her supply line.

vessel Quillwake "Quillwake" {
  length 8.40 m
  heights from "inside of hull at the engine bay"
  waterline at 480 mm
  envelope heel 15 deg   trim 3 deg   level 10 to 95 %   fuel 5 to 40 degC
  space EngineBay machinery
  space SternLocker
}

tank T1 "stern tank" in SternLocker carries diesel {
  box 700 x 500 x 400 mm   low aft inner corner at 200 mm up, 400 mm fwd, 100 mm stbd
  pickup P1  bore 8 mm   mouth at 25 mm off bottom   top at 620 mm up, 600 mm fwd, 300 mm stbd
  drop R1    bore 8 mm   mouth at 25 mm off bottom   top at 620 mm up, 900 mm fwd, 300 mm stbd
  vent       at 610 mm up, 700 mm fwd, 400 mm stbd
  fill       at 610 mm up, 700 mm fwd, 500 mm stbd   ends at the top
}

engine E1 "main engine" in EngineBay {
  cylinders 2
  makes 14 kW at 3000 rpm
  burns 0.5 L/h at 850 rpm, 3.8 L/h at 3000 rpm
  draws 5 L/h at 850 rpm, 14 L/h at 3000 rpm
  limits inlet 20 kPa   lift 900 mm   return 10 kPa
  injection in-line mechanical   holds 50 mL   inlet at 800 mm
  bleed BS3 "gallery"   at 800 mm   spanner 8 mm
  exhaust dry
}

supply course Feed from T1.P1 to E1 {
  hose S1       bore 8 mm   length 1.80 m   low at 540 mm
  primer PR1    at 620 mm   stroke 15 mL   lifts 900 mm   holds 20 mL
  hose S2       bore 8 mm   length 0.30 m
  filter F1 primary in EngineBay {
    separates water   passes 10 um   rated 60 L/h   holds 400 mL
    ports at 640 mm   lid at 40 mm over ports   drain at 470 mm
    bleed BS1   at 690 mm   spanner 10 mm
    seals lid ring, drain washer
  }
  hose S3       bore 8 mm   length 1.20 m
  lift pump LP1 at 620 mm   lever 3 mL   holds 25 mL
  tube S4       bore 6 mm   length 0.60 m
  filter F2 final in EngineBay {
    passes 5 um   holds 200 mL
    ports at 860 mm
    bleed BS2   at 880 mm   spanner 10 mm
  }
  tube S5       bore 6 mm   length 0.30 m
}

return course Back from E1 to T1.R1 {
  tube R        bore 6 mm   length 2.80 m
}

vent course Breather from T1 to air {
  hose VH1      bore 16 mm   crest at 1300 mm   outlet at 1250 mm
}

fill course Filler from deck to T1 {
  hose FH1      bore 38 mm   plate at 1200 mm
}

line-up RUN      run   is normal
`;

/** A neighbour with tags of the same names. */
export const SEDGEWAKE = `-- Sedgewake, an invented dory; her V1 and F1 are not those of Quillwake.

vessel Sedgewake "Sedgewake"

tank T1 carries diesel { pickup P1   drop R1   vent   fill }
engine E1

supply course Feed from T1.P1 to E1 {
  shutoff V1   normally open
  filter F1 primary
  lift pump LP1
  filter F2 final
}
return course Back from E1 to T1.R1 { hose R }

line-up RUN       run       is normal
line-up SERVICE   service   from RUN { V1 shut }
`;
