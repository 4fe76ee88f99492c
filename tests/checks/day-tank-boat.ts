/**
 * A main tank, and a day tank over it that a pump fills and whose overflow runs back. The day tank holds 500 x 400 x 400 mm, 80 L; its lid is at 1900 mm and the mouth of its
 * overflow at 1800 mm. Its engine draws 20 L/h and burns 5 of them, and warms what it sends back by 15 degrees.
 */
export const DAY_TANK = `
vessel Daywake { envelope heel 5 deg   trim 2 deg   level 10 to 90 %   fuel 5 to 20 degC }
tank T1 { box 1000 x 600 x 400 mm   low aft inner corner at 0 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom
  drop R1
  vent
  fill }
tank DT { box 500 x 400 x 400 mm   low aft inner corner at 1500 mm up, 3000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom
  pickup OV   mouth at 1800 mm
  drop R1
  drop R2
  vent }
engine E1 { burns 5 L/h at 2000 rpm   draws 20 L/h at 2000 rpm   returns 55 degC at 40 degC   limits fuel 70 degC }
fill course Filler from deck to T1 { hose FH   bore 38 mm }
transfer course Lift from T1.P1 to DT.R2 { electric pump TP1   gives 300 L/h   when off blocks
  hose L1   bore 10 mm   length 2 m }
transfer course Over from DT.OV to T1.R1 { hose O1   bore 15 mm   length 2 m }
supply course Feed from DT.P1 to E1 { shutoff V1   normally open }
return course Back from E1 to DT.R1 { hose B1 }
line-up RUN run is normal
`;
