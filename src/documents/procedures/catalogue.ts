/** The one catalogue of what every procedure page says beside its steps. Steps, signs and remarks: step-words.ts, remark-words.ts; hazards: hazards.ts. */
import type { Section } from '../../procedures/service/plan';

export const SECTIONS: Readonly<Record<Section, string>> = {
    prepare: 'Prepare', isolate: 'Isolate', open: 'Open and drain', renew: 'Clean, look and renew', close: 'Close', restore: 'Set the valves', bleed: 'Bleed', start: 'Start',
    verify: 'Check', work: 'Work', finish: 'Clean up and write down',
};

/** Of the section of valves where something is placed too. */
export const PADS_AND_VALVES = 'Set pads and valves';

/** Headings and labels of a page, in the order in which they stand on it. */
export const LABELS = {
    byHand: 'Written by hand', faults: 'Do not follow this as it stands', drains: 'What drains where, and how to stop it', summary: 'In short', tools: 'Tools', parts: 'Parts', valves: 'Valves', drawing: 'Drawing',
    steps: 'Steps', acceptance: 'It is right when', log: 'Write down', after: 'Afterwards', taken: 'Taken because nothing was said', effectivity: 'For which boat',
    count: 'Count', what: 'What', where: 'Where', valve: 'Valve', places: 'Where things are', start: 'Start', work: 'Work', bleed: 'Bleeding', end: 'End', done: 'done',
} as const;

export const DEFERRAL = 'The maker\'s book, local codes and licensed practice come before this page.';
export const BY_HAND = 'Somebody wrote these steps by hand. Orlop has run them against the boat as she is written, and did not make them.';
export const CURRENT = 'This page holds for the boat as she was written when it was issued. If the codes differ from those of the boat today, get a new page.';
/** The next time that the job is due, what was ticked the last time must not pass for done. */
export const KEPT = 'What was ticked or written here before is still there. Go on with it, or clear it and begin anew.';
export const CLEAR = 'Clear all ticks and fields';
export const OTHER_VALVES = 'All other valves stay as they are.';

/** What is done with what came out: common practice; where law says more, the law. */
export const WASTE = {
    fuel: ['Put used elements, pads and rags into a metal can with a lid: rags with fuel may heat up by themselves.', 'Take fuel, elements and rags ashore as oily waste. Nothing of it goes overboard, and no detergent on it.'],
    coolant: ['Take coolant ashore as waste. Nothing of it goes overboard.'],
} as const;

export const FOLLOW_UP = 'After one hour, and at the next cold start, look at every joint that was opened with a dry card. Tighten or do it again if it is wet.';
export const NOTHING_LEFT = 'All tools, plugs, pads and cans are counted, and none is left behind.';
