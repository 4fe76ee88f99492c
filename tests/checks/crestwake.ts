/** A line with a crest, for the tests of what rises and falls; sound in every rule about air. */

/**
 * From the fitting at 620 mm down to 500, up to the primer at 550 and the filter at 600, over the crest of S2, down to the pump at 580, up to the
 * filter at 780 and the engine at 800. The primer stands over the middle of the tank.
 */
export const CRESTWAKE = `
vessel Crestwake { envelope heel 10 deg   trim 1 deg   level 30 to 95 % }
tank T1 {
  box 800 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 25 mm off bottom   top at 620 mm up, 2200 mm fwd, 500 mm stbd
  drop R1
  vent
  fill        ends at the top
}
engine E1 {
  inlet at 800 mm
  bleed BS3
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 620 mm   normally open
  hose S1      bore 8 mm   low at 500 mm
  primer PR1   at 550 mm up, 2400 mm fwd, 600 mm stbd   stroke 15 mL   lifts 900 mm
  hose S1b     bore 8 mm
  filter F1 primary {
    ports at 600 mm
    bleed BS1
  }
  hose S2      bore 8 mm   crest at 700 mm
  lift pump LP1   at 580 mm   lever 3 mL
  tube S3      bore 6 mm
  filter F2 final {
    ports at 780 mm
    bleed BS2
  }
  tube S4      bore 6 mm
}
return course Back from E1 to T1.R1 { hose B1 }
line-up RUN run is normal
`;

/** Two tanks, a selector before the engine; the line of the starboard tank has a crest. */
export const TWOWAYS = `
tank T1 { pickup P1   top at 620 mm   vent }
tank T2 { pickup P1   top at 620 mm   vent }
engine E1 { inlet at 800 mm   bleed BS3 }
selector SV1 at 600 mm {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
supply course FromPort from T1.P1 to SV1.port { hose SP   bore 8 mm   length 2 m }
supply course FromStbd from T2.P1 to SV1.stbd { hose SS   bore 8 mm   length 2.5 m   crest at 720 mm }
supply course Common from SV1.out to E1 {
  hose S3      bore 8 mm
  lift pump LP1   at 700 mm   lever 3 mL
  tube S4      bore 6 mm
}
line-up RUN-PORT run is normal     { SV1 PORT }
line-up RUN-STBD run from RUN-PORT { SV1 STBD }
`;
