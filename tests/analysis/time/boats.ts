/** Boats for the tests of tanks in time: a main tank with a day tank, and two tanks with two engines. Invented, with round figures. */
import { load } from '../../checks/boats';
import type { Boat } from '../../../src/model/boat';

export const LITRE = 1e-3;
export const LH = LITRE / 3600;

/**
 * T1 is 1000 x 500 x 400 mm = 200 L; its mouth stands 25 mm off bottom, 1.0 x 0.5 x 0.025 m = 12.5 L below it. DT is 400 x 250 x 500 mm = 50 L; its
 * mouth stands 50 mm off bottom, 0.4 x 0.25 x 0.05 m = 5 L below it.
 */
export const DAY = `
vessel Curlewake {
  heights from "top of the keel"
  envelope heel 20 deg   trim 5 deg   level 10 to 95 %   fuel 5 to 30 degC
  speed 6 kn at 2000 rpm
  reserve 20 %
}
tank T1 {
  box 1000 x 500 x 400 mm   low aft inner corner at 0 mm up, 1000 mm fwd, 100 mm stbd
  pickup P1   bore 10 mm   mouth at 25 mm off bottom   top at 420 mm up, 1100 mm fwd, 300 mm stbd
  drop O1
  vent
  fill
}
tank DT {
  box 400 x 250 x 500 mm   low aft inner corner at 900 mm up, 3000 mm fwd, 100 mm stbd
  pickup P2   bore 10 mm   mouth at 50 mm off bottom   top at 1420 mm up, 3100 mm fwd, 200 mm stbd
  drop R1
  drop L1
  vent
}
engine E1 {
  burns 5 L/h at 2000 rpm
  draws 25 L/h at 2000 rpm
  limits fuel 60 degC
  returns 45 degC at 40 degC
}
supply course Feed from DT.P2 to E1 { shutoff V1 normally open   hose S1 bore 10 mm length 2 m   filter F1 final }
return course Back from E1 to DT.R1 { hose B1 }
transfer course Lift from T1.P1 to DT.L1 { shutoff V2 normally shut   electric pump TP1 gives 100 L/h when off blocks   hose H1 }
line-up RUN run is normal
line-up LIFT transfer moves 30 L { V2 open }
`;

export const boatOf = async (text: string): Promise<Boat> => (await load(text)).boat;
