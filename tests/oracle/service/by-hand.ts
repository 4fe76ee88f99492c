/** Procedures written by hand for the examples, each in its boat's own text: good ones, so that only a slip in them breaks a law. */
export const BY_HAND: Readonly<Record<string, string>> = {
    ottilwake: `
procedure renew F1 element, look F2 element "Change F1, look at F2" starts RUN ends RUN 45 min one person {
  caution fire, skin, spill, starter, waste, exhaust, jet, flood F1, flood F2, flood E1
  stop E1 key out
  set battery switch off
  set bilge pump off
  shut V1
  place can 2 L under F1
  place 4 pads under F1
  prove V1 by draining F1 until the stream dies within 10 s
  open F1 lid
  remove F1 element, lid ring, T-ring
  look F1 bowl "dark, slime"
  clean F1 bowl
  remove F1 drain washer
  fit F1 drain washer
  shut F1 drain
  fit F1 element, lid ring, T-ring
  shut F1 lid
  place can 2 L under F2
  place 2 pads under F2
  open F2 ports
  remove F2 element
  look F2 element
  refit F2 element
  shut F2 ports
  place 2 pads under E1
  open V1
  bleed BS1 by PR1
  bleed BS2 by PR1
  prove LP1 at BS2 by lever 10 strokes
  bleed BS3 by LP1 lever
  set battery switch on
  start E1 at most 2 times 10 s seacock open budget 43 s
  run E1 at 1300 rpm for 5 min
  look all joints "dry card"
  read G1 expect 0.4 to 1.4 inHg at 1300 rpm
  stop E1
  set bilge pump auto
  log renew F1 element
}
`,
    'brackenwake-mended': `
procedure renew F1 element "Change F1" starts RUN-PORT ends RUN-PORT {
  caution fire, skin, spill, starter, waste, exhaust, jet, flood F1
  stop E1 key out
  set bilge pump off
  shut V1
  shut V3
  place can 3 L under F1
  place 4 pads under F1
  open F1 lid
  remove F1 element, lid ring, T-ring
  fit F1 element, lid ring, T-ring
  shut F1 lid
  open V1
  open V3
  bleed BS1 by PR1
  start E1 at most 2 times 10 s seacock open budget 30 s
  run E1 at 1000 rpm for 5 min
  look all joints "dry card"
  stop E1
  set bilge pump auto
}
procedure work SV1, work V2 "Turn the valves" starts RUN-PORT ends RUN-PORT {
  turn SV1 to STBD
  turn SV1 to PORT
  shut V2
  open V2
}
`,
    marrenwake: `
procedure renew FA-P element "Change the port primary that is on line" starts RUN ends RUN {
  caution fire, skin, spill, starter, waste, exhaust, jet, flood FA-P
  stop E1 key out
  set bilge pump off
  place can 3 L under FA-P
  place 4 pads under FA-P
  turn CH1-P to B
  shut V1-P
  open FA-P lid
  remove FA-P element, lid ring, T-ring
  fit FA-P element, lid ring, T-ring
  shut FA-P lid
  open V1-P
  turn CH1-P to A
  open VB-P
  bleed BS-FA-P by EP1-P running
  shut VB-P
  start E1 at most 2 times 10 s seacock open budget 30 s
  run E1 at 1000 rpm for 5 min
  look all joints "dry card"
  stop E1
  set bilge pump auto
}
`,
};
