/**
 * An invented boat for the groups of time and filters, with round figures. T1 and T2 are 1000 x 500 x 400 mm = 200 L each, side by side, with mouths 25 mm off
 * bottom, 12.5 L below them; DT is 400 x 250 x 500 mm = 50 L, its mouth 50 mm off bottom, 5 L below it.
 */
export const PLOVERWAKE = `
vessel Ploverwake {
  heights from "top of the keel"
  waterline at 700 mm
  envelope heel 20 deg   trim 5 deg   level 10 to 95 %   fuel 5 to 30 degC
  speed 6 kn at 2000 rpm
  reserve 25 %
  fuel density 840 kg/m3   dirt 10 mg/kg   cleanliness "18/16/13"
}
tank T1 {
  box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm stbd
  tested 20 kPa on 2020
  pickup P1   bore 10 mm   mouth at 25 mm off bottom   top at 420 mm up, 1100 mm fwd, 300 mm stbd
  pickup P2   bore 10 mm   mouth at 25 mm off bottom   top at 420 mm up, 1200 mm fwd, 300 mm stbd
  drop D1     bore 10 mm   mouth at 50 mm off bottom   top at 420 mm up, 1900 mm fwd, 300 mm stbd
  drop X1     bore 8 mm    mouth at 20 mm off bottom
  vent        bore 14 mm
  fill        ends at the top   takes 30 L/min
}
tank T2 {
  box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm port
  pickup P1   bore 10 mm   mouth at 25 mm off bottom   top at 420 mm up, 1100 mm fwd, 300 mm port
  drop R1
  drop X2     bore 8 mm    mouth at 20 mm off bottom
  vent
}
tank DT {
  box 400 x 250 x 500 mm   low aft inner corner at 900 mm up, 3000 mm fwd, 100 mm stbd
  pickup P1   bore 10 mm   mouth at 50 mm off bottom   top at 1420 mm up, 3100 mm fwd, 200 mm stbd
  drop R1
  drop L1
  vent
}
engine E1 {
  burns 2 L/h at 1000 rpm, 5 L/h at 2000 rpm
  draws 12 L/h at 1000 rpm, 25 L/h at 2000 rpm
  limits fuel 60 degC
  returns 45 degC at 40 degC
  injection in-line mechanical   holds 100 mL
  exhaust wet   muffler free 6 L   raw water 60 L/min at 2000 rpm   cranks 200 rpm
}
generator G2 {
  burns 3 L/h at 1500 rpm
  draws 13 L/h at 1500 rpm
}
supply course Feed from DT.P1 to E1 {
  shutoff V1   normally open
  hose S1      bore 10 mm   length 2 m
  filter F1 primary { separates water   passes 10 um   rated 60 L/h   holds 450 mL   dirt 30 g   beta 75   dirty 12 kPa }
  gauge G1     vacuum   at 1000 mm
  hose S2      bore 10 mm   length 1 m
  filter F2 final { passes 4 um   rated 20 L/h   holds 220 mL   dirt 20 g about   beta 75 }
}
return course Back from E1 to DT.R1 { hose B1   bore 8 mm   length 3 m }
supply course Light from T1.P1 to G2 { shutoff V2   normally open   hose S3   bore 10 mm   length 3 m }
return course Away from G2 to T2.R1 { hose B2   bore 8 mm   length 3 m }
transfer course Lift from T2.P1 to DT.L1 { shutoff V3   normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1 }
transfer course Round from T1.P2 to T1.D1 { shutoff V4   normally shut   electric pump PP1 gives 200 L/h when off blocks   filter F3 { passes 10 um } }
transfer course Cross from T1.X1 to T2.X2 { shutoff V5   normally shut   hose H2   bore 8 mm   length 4 m   shutoff V6   normally shut }
vent course Breath from T1 to air { hose VH1   bore 14 mm   length 2 m   crest at 1500 mm   outlet at 1450 mm up, 1400 mm stbd }
fill course Filler from deck to T1 { hose FH1   bore 38 mm }

line-up RUN run is normal
line-up LIFT transfer moves 45 L { V3 open }
line-up POLISH polish { V4 open }
line-up LEVEL service { V5 open   V6 open }

passage Islands motors 30 h at 1500 rpm margin 20 %

log 2026 {
  2026-01-10   E1 1000 h   renewed F1 element   DT dipped 300 mm   G1 1 kPa at 2000 rpm
  2026-02-10   E1 1050 h   DT dipped 300 mm   G1 2 kPa at 2000 rpm
  2026-03-10   E1 1100 h   DT dipped 200 mm   G1 3.82376 kPa at 2000 rpm
}
`;
