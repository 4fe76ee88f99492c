/**
 * A boat whose suction and back-pressure can be worked out by hand: all of it stands in one vertical line, so that upright is the worst (she hardly leans), and the
 * engine draws 18 L/h = 5e-6 m³/s and burns 6 of them. Her coldest fuel has 840 kg/m³ and 5.5 mm²/s: 4.62e-3 Pa s.
 *
 * Suction, laminar (Re 145), 32 µ L v / D² with v = 5e-6 / 50.27e-6 = 0.09947 m/s in 8 mm: S1, 2 m, 459.6 Pa; the pipe of P1, 625 - 225 mm, 91.9 Pa. From the
 * mouth, 225 mm, up to LP1, 625 mm: 0.4 x 840 x 9.80665 = 3295.0 Pa. F1 takes 10 kPa, and 1 kPa new. Together 13.85 kPa, and 4.85 with a new element. With 30 bores for a
 * fitting at either end S1 counts as 2.48 m and the pipe, which has one end, as 0.64 m: 569.9 + 147.1, so 14.01 kPa at most.
 */
export const DRAWING = `
vessel Drawnwake {
  heights from "top of the keel"
  envelope heel 0.1 deg   trim 0.1 deg   level 0 to 95 %   fuel 15 to 40 degC
  fuel density 840 kg/m3   viscosity 5.5 mm2/s at 15 degC, 2.9 mm2/s at 40 degC
}
tank T1 {
  box 1000 x 600 x 400 mm   low aft inner corner at 200 mm up, 2000 mm fwd, 550 mm stbd
  pickup P1   bore 8 mm   mouth at 225 mm up, 2350 mm fwd, 700 mm stbd   top at 625 mm up, 2350 mm fwd, 700 mm stbd
  drop R1     bore 8 mm   mouth at 225 mm up, 2350 mm fwd, 700 mm stbd   top at 625 mm up, 2350 mm fwd, 700 mm stbd
  vent
}
engine E1 {
  burns 6 L/h at 3000 rpm
  draws 18 L/h at 3000 rpm
  limits inlet 15 kPa   lift 450 mm   return 6 kPa
  inlet at 800 mm up, 2350 mm fwd, 700 mm stbd
}
supply course Feed from T1.P1 to E1 {
  shutoff V1    at 640 mm   normally open
  hose S1       bore 8 mm   length 2 m
  filter F1 primary { clean 1 kPa   dirty 10 kPa   ports at 640 mm   rated 18 L/h }
  lift pump LP1 at 625 mm up, 2350 mm fwd, 700 mm stbd
  tube S2       bore 6 mm   length 0.5 m
}
return course Back from E1 to T1.R1 { hose B1   bore 6 mm   length 3 m }
line-up RUN run is normal
`;
