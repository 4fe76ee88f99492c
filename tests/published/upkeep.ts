/**
 * Published intervals for filters and tanks, on one invented boat.
 * Intervals are the documents'; the cases (hours run, dates) are ours, with their arithmetic beside them.
 */

/** What a case says: the day and the hours of the last service, the day and the hours of the newest reading. */
export interface Log {
    readonly served: string;
    readonly at: number;
    readonly read: string;
    readonly hours: number;
}

const boat = `
vessel Tjalk "invented barge" {
  heights from "inside of hull at the engine bay"
  space EngineBay machinery
}
tank T1 carries diesel {
  pickup P1   bore 8 mm
  drop R1     bore 8 mm
  vent
  fill
}
engine E1 in EngineBay {
  injection in-line mechanical
  exhaust dry
}
supply course Feed from T1.P1 to E1 {
  shutoff V1
  hose S1
  filter F1 primary
  lift pump LP1
  filter F2 final
}
return course Back from E1 to T1.R1 { hose R }
vent course Breather from T1 to air { hose VH1 }
fill course Filler from deck to T1 { hose FH1 }
line-up RUN run is normal
`;

/** The boat, its intervals, and a log in which every job was done on one day. */
const written = (tend: readonly string[], done: readonly string[], { served, at, read, hours }: Log): string => `${boat}
tend {
${tend.map((line) => `  ${line}`).join('\n')}
}
log 2025 {
${done.map((job) => `  ${served}   E1 ${at} h   ${job}`).join('\n')}
}
log 2026 {
  ${read}   E1 ${hours} h
}
`;

/** TM 9-4940-568-20, Table 2-1, item 10 g: primary and secondary filters at 250 h or semiannually, one interval for both. */
export const bothFilters = (log: Log): string => written(
    ['renew F1 element   every 250 h or 6 months', 'renew F2 element   every 250 h or 6 months'],
    ['renewed F1 element', 'renewed F2 element'], log,
);

/** TM 9-6115-653-14&P, legend of Table 4-1: semiannual goes with 500 h. Which rows are semiannual did not survive in the copy read; only the legend is used. */
export const semiannualOf500 = (log: Log): string => written(['renew F1 element   every 500 h or 6 months'], ['renewed F1 element'], log);

/** TM 5-3895-359-14&P, maintenance items: drain the tank at 500 h; mounts, cap seal, breather and crossover at 12 months or 700 h. */
export const tankDrain = (log: Log): string => written(
    ['drain T1 bottom   every 500 h', 'look T1 breather   every 700 h or 12 months', 'look T1 cap seal   every 700 h or 12 months'],
    ['drained T1 bottom', 'looked T1 breather', 'looked T1 cap seal'], log,
);

/** TM 10-4930-251-12&P, para 4-7: a quarter is three calendar months or 250 h, whichever comes first. */
export const quarter = (log: Log): string => written(['renew F1 element   every 250 h or 3 months'], ['renewed F1 element'], log);
