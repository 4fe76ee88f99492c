/**
 * Invented boats on which published service orders are run. The chain and the valves are each document's; sizes, heights, tags and boats are invented.
 * That no backflow passes the engines is invented too: no document says.
 */

/** TB 55-1900-231-15, section A(2): day tank, supply valve, supply line, supply pump, engine, return line. A bleed point at the pump's inlet is ours. */
export const dayTankAbove = `
vessel Tjalk "invented tug" {
  heights from "inside of hull at the engine bay"
  envelope heel 10 deg   trim 3 deg   level 20 to 95 %
  space EngineBay machinery
}
tank DT "day tank" carries diesel {
  box 600 x 400 x 400 mm   low aft inner corner at 1200 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 12 mm   mouth at 20 mm off bottom   top at 1220 mm up, 600 mm fwd, 400 mm stbd
  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 400 mm stbd
  vent        at 1600 mm
  fill        at 1600 mm
}
engine E1 in EngineBay {
  injection unit mechanical   holds 60 mL   inlet at 820 mm up, 1500 mm fwd, 300 mm stbd   backflow blocks
  bleed BS1 "pump inlet" at 830 mm up, 1500 mm fwd, 300 mm stbd
  exhaust dry
  makes 200 kW at 1800 rpm
  burns 40 L/h at 1800 rpm
}
supply course Feed from DT.P1 to E1 {
  shutoff V10  at 1220 mm up, 600 mm fwd, 350 mm stbd   normally open
  hose S1      bore 12 mm   length 1.40 m
  lift pump LP1 at 780 mm up, 1450 mm fwd, 300 mm stbd   holds 50 mL   lever 5 mL
  tube S3      bore 10 mm   length 0.30 m
}
return course Back from E1 to DT.R1 {
  hose R       bore 10 mm   length 2.00 m
}
vent course Breather from DT to air { hose VH1   bore 16 mm   crest at 2400 mm   outlet at 2300 mm }
fill course Filler from deck to DT { hose FH1   bore 38 mm   plate at 2300 mm }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V10 shut }
`;

/** TM 5-3810-307-10, Table 5-1 item 33: a separator with a drain valve under its bowl and a hand pump on its head. */
export const separatorWithPrimer = `
vessel Kraan "invented crane barge" {
  heights from "inside of hull at the engine bay"
  envelope heel 5 deg   trim 2 deg   level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 800 x 500 x 400 mm   low aft inner corner at 0 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 8 mm   mouth at 20 mm off bottom   top at 450 mm up, 600 mm fwd, 400 mm stbd
  drop R1     bore 8 mm   mouth at 380 mm off bottom   top at 450 mm up, 900 mm fwd, 400 mm stbd
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 60 mL   inlet at 820 mm up, 2000 mm fwd, 300 mm stbd   backflow blocks
  bleed BS2 "pump inlet" at 830 mm up, 2000 mm fwd, 300 mm stbd
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 450 mm up, 600 mm fwd, 400 mm stbd   normally open
  hose S1      bore 8 mm   length 1.00 m
  primer PR1   at 740 mm up, 1800 mm fwd, 300 mm stbd   stroke 15 mL   lifts 900 mm   cracks 0.1 kPa   holds 20 mL
  filter F1 primary in EngineBay {
    separates water   holds 450 mL   bowl 120 mL   ports at 700 mm up, 1800 mm fwd, 300 mm stbd   lid at 40 mm over ports
    drain at 500 mm
    bleed D1 "drain valve" at 500 mm up, 1800 mm fwd, 300 mm stbd
    bleed BS1 at 745 mm up, 1800 mm fwd, 300 mm stbd
    seals lid ring, drain washer
    prefill allowed
  }
  tube S2      bore 8 mm   length 0.40 m
}
return course Back from E1 to T1.R1 { tube R   bore 6 mm   length 2.00 m }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V1 shut }
`;

/** TM 55-1905-217-12: tank, valve, heat exchanger for fuel, engine. */
export const exchangerBelowTank = `
vessel Lander "invented landing craft" {
  heights from "inside of hull at the engine bay"
  envelope heel 10 deg   trim 3 deg   level 20 to 95 %
  space EngineBay machinery
}
tank T1 carries diesel {
  box 600 x 400 x 400 mm   low aft inner corner at 1200 mm up, 500 mm fwd, 300 mm stbd
  pickup P1   bore 12 mm   mouth at 20 mm off bottom   top at 1220 mm up, 600 mm fwd, 400 mm stbd
  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 400 mm stbd
}
engine E1 in EngineBay {
  injection unit mechanical   holds 60 mL   inlet at 820 mm up, 1500 mm fwd, 300 mm stbd   backflow blocks
  bleed BS1 "pump inlet" at 830 mm up, 1500 mm fwd, 300 mm stbd
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V20  at 1220 mm up, 600 mm fwd, 350 mm stbd   normally open
  hose S1      bore 12 mm   length 1.00 m
  radiator HX1 "fuel heat exchanger" at 900 mm up, 1200 mm fwd, 300 mm stbd   holds 800 mL
  hose S2      bore 12 mm   length 0.50 m
}
return course Back from E1 to T1.R1 { hose R   bore 10 mm   length 2.00 m }
line-up RUN      run   is normal
line-up SERVICE  service from RUN { V20 shut }
`;

/** NAVEDTRA 14075, chapter 9: two service tanks, one of them with water in it. The gang of the return with the supply is ours. */
export const twoServiceTanks = `
vessel Twain "invented patrol boat" {
  heights from "inside of hull at the engine bay"
  envelope heel 10 deg   trim 3 deg   level 20 to 95 %
  space EngineBay machinery
}
tank DA "service tank A" carries diesel {
  box 600 x 400 x 400 mm   low aft inner corner at 1200 mm up, 500 mm fwd, 500 mm port
  pickup P1   bore 12 mm   mouth at 20 mm off bottom   top at 1220 mm up, 600 mm fwd, 400 mm port
  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 400 mm port
}
tank DB "service tank B" carries diesel {
  box 600 x 400 x 400 mm   low aft inner corner at 1200 mm up, 500 mm fwd, 100 mm stbd
  pickup P1   bore 12 mm   mouth at 20 mm off bottom   top at 1220 mm up, 600 mm fwd, 200 mm stbd
  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 200 mm stbd
}
engine E1 in EngineBay {
  injection in-line mechanical   holds 60 mL   inlet at 820 mm up, 1500 mm fwd, 0 mm stbd   backflow blocks
  bleed BS2 "test cock" at 830 mm up, 1500 mm fwd, 0 mm stbd
  exhaust dry
}
selector SV1 at 1100 mm up, 700 mm fwd, 100 mm port {
  ports a, b, out
  position A joins a, out
  position B joins b, out
  ganged with SV2
}
selector SV2 at 1100 mm up, 700 mm fwd, 100 mm port {
  ports in, a, b
  position A joins in, a
  position B joins in, b
}
supply course FromA from DA.P1 to SV1.a { shutoff VA   at 1220 mm up, 600 mm fwd, 380 mm port   normally open   hose SA   bore 12 mm   length 0.80 m }
supply course FromB from DB.P1 to SV1.b { shutoff VB   at 1220 mm up, 600 mm fwd, 180 mm stbd   normally open   hose SB   bore 12 mm   length 0.80 m }
supply course Feed from SV1.out to E1 {
  hose S1      bore 12 mm   length 0.30 m
  filter F1 primary in EngineBay {
    separates water   holds 450 mL   ports at 900 mm up, 1200 mm fwd, 0 mm stbd   lid at 40 mm over ports
    drain at 700 mm
    bleed BS1 at 945 mm up, 1200 mm fwd, 0 mm stbd
    seals lid ring, drain washer
    prefill allowed
  }
  hose S2      bore 12 mm   length 0.50 m
}
return course Back from E1 to SV2.in { hose R   bore 10 mm   length 1.00 m }
return course ToA from SV2.a to DA.R1 { hose RA   bore 10 mm   length 1.00 m }
return course ToB from SV2.b to DB.R1 { hose RB   bore 10 mm   length 1.00 m }
line-up RUN-A    run     is normal     { SV1 A }
line-up RUN-B    run     from RUN-A    { SV1 B }
line-up SERVICE  service from RUN-B    { VA shut   VB shut }
`;

/** NAVEDTRA 14079, fuelling: the engine may draw from either of two tanks, and one is filled by a pump from the other. */
export const tankToBeFilled = twoServiceTanks
    .replace('line-up SERVICE', 'line-up FILL-A   transfer from RUN-A  moves 40 L   { VT open }\nline-up SERVICE')
    .replace('line-up RUN-A', 'transfer course Over from DB.P2 to DA.X1 { shutoff VT normally shut   electric pump TP1 gives 120 L/h   when off blocks }\nline-up RUN-A')
    .replace('  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 400 mm port\n', (line) => `${line}  drop X1\n`)
    .replace('  drop R1     bore 10 mm   mouth at 395 mm off bottom   top at 1600 mm up, 900 mm fwd, 200 mm stbd\n', (line) => `${line}  pickup P2   bore 12 mm   mouth at 20 mm off bottom   top at 1600 mm up, 800 mm fwd, 200 mm stbd\n`);
