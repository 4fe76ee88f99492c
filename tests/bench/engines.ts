/** A boat of any size, the same every time: each engine has its own tank, and its courses in a file of their own, some 30 tags in all. */
/** F101 is the first filter of engine 1, F1001 that of engine 10. */
const two = (n: number): string => String(n).padStart(2, '0');
const day = (n: number): string => two(1 + (n - 1) % 28);

export function engines(count: number): Readonly<Record<string, string>> {
    const all = Array.from({ length: count }, (_, i) => i + 1);
    return {
        'boat.orlop': [vessel(count), ...all.map(tankAndEngine)].join('\n'),
        ...Object.fromEntries(all.map((n) => [`lines-${two(n)}.orlop`, lines(n)])),
        'upkeep.orlop': upkeep(all),
    };
}

const vessel = (count: number): string => `vessel Manywake "${count} engines" {
  length ${count + 5}.00 m
  heights from "top of the keelson"
  waterline at 520 mm
  envelope heel 15 deg   trim 3 deg   level 5 to 95 %   fuel 5 to 45 degC
  space EngineRoom machinery
  space TankRoom
}
`;

const tankAndEngine = (n: number): string => `tank T${n} "tank ${n}" in TankRoom carries diesel {
  box 800 x 600 x 420 mm   low aft inner corner at 200 mm up, ${1000 * n} mm fwd, 550 mm stbd
  aluminium 5 mm   tested 25 kPa on 2019
  pickup P1  bore 8 mm   mouth at 25 mm off bottom   top at 650 mm up, ${1000 * n + 150} mm fwd, 700 mm stbd
  drop R1    bore 8 mm   mouth at 25 mm off bottom   top at 650 mm up, ${1000 * n + 700} mm fwd, 850 mm stbd
  vent       at 630 mm up, ${1000 * n + 400} mm fwd, 1000 mm stbd
  fill       at 630 mm up, ${1000 * n + 400} mm fwd, 1100 mm stbd
  sender
  inspection 150 mm
}

engine E${n} "engine ${n}" in EngineRoom {
  cylinders 3
  makes 21 kW at 3600 rpm
  burns 0.6 L/h at 850 rpm, 2.4 L/h at 2400 rpm, 6.25 L/h at 3600 rpm
  draws 5.3 L/h at 850 rpm, 15 L/h at 2400 rpm
  limits inlet 20 kPa   lift 900 mm   return 10 kPa
  injection in-line mechanical   holds 60 mL   inlet at 820 mm up, 200 mm port
  bleed BS${n}03 "gallery"   at 820 mm up, 200 mm port   spanner 8 mm
  injectors 3   nuts 17 mm   at 900 mm   pipe bore 1.6 mm   pipe length 0.55 m
  exhaust wet   muffler free 2.0 L   raw water 25 L/min at 3600 rpm   cranks 200 rpm
}
`;

const lines = (n: number): string => `supply course Feed${n} from T${n}.P1 to E${n} {
  shutoff V${n}01   at 660 mm up, 2350 mm fwd, 700 mm stbd   in TankRoom   normally open   label "FUEL ${n}"
  hose S${n}01      bore 8 mm   length 1.60 m   low at 560 mm   fire-resistant   dated 2021
  strainer ST${n}01 at 650 mm   holds 80 mL
  hose S${n}02      bore 8 mm   length 1.00 m   fire-resistant   dated 2021
  primer PR${n}01   at 640 mm up, 300 mm port   stroke 15 mL   lifts 900 mm   cracks 0.1 kPa   holds 20 mL   metal
  hose S${n}03      bore 8 mm   length 0.25 m
  shutoff V${n}02   at 650 mm   in EngineRoom   normally open
  tube S${n}04      bore 8 mm   length 0.30 m
  filter F${n}01 primary in EngineRoom {
    separates water   passes 10 um   rated 60 L/h   holds 450 mL   bowl 120 mL   metal shield
    ports at 660 mm up, 3300 mm fwd, 300 mm port
    lid at 40 mm over ports
    drain at 480 mm
    bleed BS${n}01   at 705 mm   spanner 10 mm
    seals lid ring, T-ring, drain washer
    prefill allowed
  }
  gauge G${n}01 vacuum   at 660 mm
  hose S${n}05      bore 8 mm   length 1.40 m   crest at 760 mm   dated 2021
  lift pump LP${n}01 at 620 mm up, 3000 mm fwd, 150 mm port   lever 3 mL   holds 25 mL
  tube S${n}06      bore 6 mm   length 0.60 m
  filter F${n}02 final in EngineRoom {
    passes 5 um   holds 220 mL
    ports at 880 mm up, 3050 mm fwd, 150 mm port
    bleed BS${n}02   at 900 mm   spanner 10 mm
    prefill not on the clean side
  }
  tube S${n}07      bore 6 mm   length 0.35 m
}

return course Back${n} from E${n} to T${n}.R1 {
  hose R${n}01      bore 6 mm   length 1.20 m   dated 2021
  tube R${n}02      bore 6 mm   length 2.20 m   low at 560 mm
}

vent course Breather${n} from T${n} to air {
  tube VH${n}01     bore 16 mm   length 0.80 m
  hose VH${n}02     bore 16 mm   crest at 1560 mm up, 1450 mm stbd   outlet at 1500 mm up, 1500 mm stbd
}

fill course Filler${n} from deck to T${n} {
  hose FH${n}01     bore 38 mm   plate at 1420 mm up, 1450 mm stbd
}
`;

const upkeep = (all: readonly number[]): string => `line-up RUN      run   is normal
line-up SERVICE  service from RUN { ${all.map((n) => `V${n}01 shut`).join('   ')} }
line-up LAID-UP  laid up from RUN { ${all.map((n) => `V${n}01 shut   V${n}02 shut`).join('   ')} }

tend {
${all.map((n) => `  renew F${n}01 element   every 250 h or 12 months   with lid ring, T-ring, drain washer
  renew F${n}02 element   every 500 h or 24 months`).join('\n')}
}

log 2025 {
${all.map((n) => `  2025-03-${day(n)}   E${n} ${1400 + n} h   renewed F${n}01 element
  2025-09-${day(n)}   E${n} ${1500 + n} h`).join('\n')}
}
`;
