/**
 * What each boat is, by hand: written from the trade's picture of the arrangement, not from what Orlop prints. Parts stand in the order in which the
 * fuel meets them, pipes left out. `says` are statements of the trade with the line of reasoning; with `edits`, of the boat one slip further.
 */

export interface Statement {
    readonly rule: string;
    readonly about: string;
    /** The outcome, and the severity of a failure: `pass`, `fail major`. */
    readonly says: string;
    readonly why: string;
    /** Places of the text, each there only once, and what stands there instead. */
    readonly edits?: readonly (readonly [string, string])[];
    /** What the message must hold: a figure reckoned by hand in `why`. */
    readonly told?: string | RegExp;
    /** Orlop does not say so: what it says instead. The test then holds that it is still wrong, and fails once it is mended. */
    readonly gap?: string;
}

export interface Sequence {
    readonly engine?: string;
    /** Nothing means that the tank ran dry. */
    readonly opened?: readonly string[];
    readonly ends?: string;
    /** Bleed points with what drives each, `BS1 PR1`; parts filled by hand, `fill F1`. Levers that are proved are left out. */
    readonly order?: readonly string[];
    /** Refused, and the reason holds these words. */
    readonly refused?: string;
    /** Valves that no step touches. */
    readonly leaves?: readonly string[];
    /** Settings that stand before the first pump is worked. */
    readonly first?: readonly string[];
    /** Settings that come only after the last bleed point. */
    readonly last?: readonly string[];
    readonly why: string;
    readonly gap?: string;
}

export interface Expected {
    readonly tanks: readonly string[];
    readonly consumers: readonly string[];
    readonly courses: readonly string[];
    readonly parts: string;
    readonly says: readonly Statement[];
    readonly bleeds: readonly Sequence[];
}

/** From F1 on all is as in boat 1: each stage is filled by liquid that is proven behind it. S3 rises behind F1 and can run back into it, so F2 has its turn; no air gets past the element of F2. */
const USUAL: Sequence = { opened: ['F1'], order: ['BS1 PR1', 'BS2 PR1'], why: 'primer first, then on to the final filter; the injection pump has had no air' };
/** Run dry: the primary by the primer, the final filter by it too, since it sweeps faster, and the injection pump by the lever. */
const USUAL_DRY: Sequence = { order: ['BS1 PR1', 'BS2 PR1', 'BS3 LP1'], why: 'flow order: primary, final filter, injection pump' };

const pass = (rule: string, about: string, why: string): Statement => ({ rule, about, says: 'pass', why });

/** The two primaries of boat 8 with a shutoff before each in place of the changeover. */
const INLETS_ONLY: Statement['edits'] = [
    ['  changeover CH1 at 720 mm in EngineBay {\n    leg A {\n', '  split {\n    leg A {\n      shutoff VA   normally open\n'], ['    leg B {\n', '    leg B {\n      shutoff VB   normally open\n'],
    ['    position A    through A\n    position B    through B\n    position BOTH through A, B\n    turning passes BOTH\n', ''],
    ['{ CH1 A }', '{ VB shut }'], ['{ CH1 B }', '{ VA shut   VB open }'], ['{ CH1 BOTH }', '{ VB open }'], ['  work each changeover        every 6 months             common practice\n', ''],
];
/** Boat 12 without her primer. */
const NO_PRIMER: Statement['edits'] = [['primer PR1 ', 'gauge G9   vacuum\n  -- primer PR1 '], ['  test each primer            every 12 months            common practice\n', '']];
/** Boat 18 without the valve at her tank. */
const NO_V1: NonNullable<Statement['edits']> = [
    ['  shutoff V1    at 710 mm up, 2350 mm fwd, 250 mm stbd   in Locker   normally open   label "FUEL"\n', ''], ['service   from RUN   { V1 shut }', 'service   from RUN'], ['  work each shutoff           every 6 months             common practice\n', ''],
];

export const EXPECTED: Readonly<Record<string, Expected>> = {
    '01-single': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 G1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, hand primer 1, filter 2, gauge 1, lift pump 1, check 1',
        says: [
            pass('SHUT-AT-TANK', 'Feed', 'V1 is the first part behind the pickup'),
            pass('FILTER-ORDER', 'E1', '10 um, then 5 um'),
            { rule: 'FILTER-ORDER', about: 'F2', says: 'fail major', edits: [['passes 10 um', 'passes 2 um']], why: '2 um before 5 um: the fine one clogs and the coarse one does nothing' },
            pass('RETURN-SUBMERGED', 'T1.R1', 'its mouth is 25 mm off the bottom, between 20 and 30'),
            pass('BLEED-DRIVE', 'BS1', 'PR1 stands before it'),
            pass('BLEED-DRIVE', 'BS3', 'PR1 and the lever stand before it'),
        ],
        bleeds: [USUAL, USUAL_DRY],
    },
    '02-no-hand-primer': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, filter 2, lift pump 1, check 1',
        says: [
            { rule: 'BLEED-DRIVE', about: 'BS1', says: 'fail major', why: 'F1 has no driver: the lever stands behind it and only sucks at it; the tank (630 mm full) is lower than BS1 (805 mm)' },
            pass('BLEED-DRIVE', 'BS2', 'the lever stands before it'),
            pass('PREFILL-POLICY', 'F1', 'the text says that it may be filled, and F2 follows'),
            { rule: 'PRIMER-STROKES', about: 'BS2', says: 'fail advice', why: 'the lever moves 3 mL: 220 mL of F2 alone take 1.25 x 220 / (0.8 x 3) = 115 strokes' },
        ],
        bleeds: [
            { opened: ['F1'], order: ['fill F1', 'BS2 LP1'], why: 'F1 is filled to the brim and its vent stays shut while the lever is worked; then F2 by the lever' },
            { refused: 'F1 cannot be bled', why: 'nothing but filling by hand fills F1, and a filter that was not opened cannot be filled' },
        ],
    },
    '03-two-tanks-two-selectors': {
        tanks: ['T1', 'T2'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 SV1.port', 'supply: T2.P1 V2 SV1.stbd', 'supply: SV1.out PR1 F1 LP1 F2 E1', 'return: E1 SV2.in', 'return: SV2.port CV1 T1.R1', 'return: SV2.stbd CV2 T2.R1', 'vent: T1.vent air', 'vent: T2.vent air', 'fill: deck T1.fill', 'fill: deck T2.fill'],
        parts: 'selector 2, shutoff 2, hand primer 1, filter 2, lift pump 1, check 2',
        says: [
            pass('SUPPLY-RETURN-MATCH', 'E1', 'each line-up for running turns both selectors to one tank'),
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'fail', edits: [['from RUN-PORT   { SV1 STBD   SV2 STBD }', 'from RUN-PORT   { SV1 STBD }']], why: 'supply from T2, return to T1' },
            // T1 is 0.8 x 0.5 x 0.4 m = 160 L and half full of 20 to 95 %: 57.5 %. Into it come 15 - 2.4 = 12.6 L/h: 0.425 x 160 / 12.6 = 5.40 h.
            { rule: 'RETURN-OVERFLOW', about: 'T1', says: 'fail major', edits: [['from RUN-PORT   { SV1 STBD   SV2 STBD }', 'from RUN-PORT   { SV1 STBD }']], told: '5.4 h', why: '0.425 x 160 L / 12.6 L/h = 5.4 h' },
            pass('RETURN-NO-BLOCK', 'E1', 'the return selector has no off position'),
            { rule: 'RETURN-NO-BLOCK', about: 'SV2', says: 'fail critical', edits: [['  position STBD joins in, stbd\n', '  position STBD joins in, stbd\n  position OFF joins nothing\n']], why: 'turned to OFF the return is blocked' },
            pass('LINEUP-NAMED', 'SV2', 'each line-up says or inherits where it stands'),
        ],
        bleeds: [
            { ...USUAL, leaves: ['SV1', 'SV2'] },
            { ends: 'RUN-STBD', order: ['BS1 PR1', 'BS2 PR1', 'BS3 LP1'], first: ['SV1 STBD'], why: 'one tank was run dry: the common leg is filled from the other, so the selector is turned before anything is pumped' },
        ],
    },
    '04-selector-fixed-return': {
        tanks: ['T1', 'T2'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 SV1.port', 'supply: T2.P1 V2 SV1.stbd', 'supply: SV1.out PR1 F1 LP1 F2 E1', 'return: E1 CV1 T1.R1', 'vent: T1.vent air', 'vent: T2.vent air', 'fill: deck T1.fill', 'fill: deck T2.fill'],
        parts: 'selector 1, shutoff 2, hand primer 1, filter 2, lift pump 1, check 1',
        says: [
            { rule: 'RETURN-OVERFLOW', about: 'T1', says: 'fail major', told: '5.4 h', why: 'in RUN-STBD 12.6 L/h come into T1: 0.425 x 160 / 12.6 = 5.4 h' },
            // T2 holds 92 L at 57.5 %, of which 25/400 of 160 = 10 L stay under the pickup: 82 L / 15 L/h = 5.47 h.
            { rule: 'RETURN-OVERFLOW', about: 'T1', says: 'fail major', told: '5.5 h', why: 'T2 empties at the gross flow of 15 L/h, not at the burn: (92 - 10) / 15 = 5.5 h' },
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'fail', why: 'RUN-STBD draws from T2 and returns to T1' },
            { rule: 'RETURN-OVERFLOW', about: 'T1', says: 'not fail', edits: [['line-up RUN-STBD  run       from RUN-PORT   { SV1 STBD }\n', '']], why: 'while she draws from T1 alone nothing gathers there' },
        ],
        bleeds: [USUAL, USUAL_DRY],
    },
    '05-day-tank-pumped': {
        tanks: ['T1', 'DT'], consumers: ['E1'],
        courses: ['transfer: T1.P1 VT ST1 TP1 FT VD DT.R2', 'transfer: DT.OV T1.OR', 'supply: DT.P1 V1 J1 PR1 F1 LP1 F2 E1', 'supply: T1.P2 VE J1', 'return: E1 CVR DT.R1', 'vent: T1.vent air', 'vent: DT.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 4, strainer 1, electric pump 1, filter 3, tee 1, hand primer 1, lift pump 1, check 1',
        says: [
            pass('OVERFLOW-CAP', 'DT', '16 mm has four times the area of the 8 mm that fills it, it runs down to the main tank and has no valve'),
            { rule: 'OVERFLOW-CAP', about: 'DT', says: 'fail major', edits: [['hose O1       bore 16 mm', 'shutoff VO   normally open\n  hose O1       bore 16 mm']], why: 'a valve in the overflow can be shut' },
            { rule: 'DAYTANK-HEAT', about: 'DT', says: 'fail minor', why: 'of 15 L/h only 2.4 are burnt; 12.6 come back 10 degrees warmer' },
            {
                rule: 'DAYTANK-HEAT', about: 'DT', says: 'fail minor', told: /9[23](\.5)? °C/, why: 'topped up with the warmest fuel of the envelope, as the rule states: 40 + 12.6 x 10 / 2.4 = 92.5 °C',
                gap: 'it tells 75 °C, reckoned from 22.5 °C, the middle of the envelope, though its statement says the warmest',
            },
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'fail', edits: [['line-up EMERGENCY  emergency   from', 'line-up EMERGENCY  run   from'], ['transfer course Overflow from DT.OV to T1.OR {\n  hose O1       bore 16 mm   length 2.20 m   fire-resistant   dated 2023\n}\n', '']], why: 'without the overflow the emergency line empties the main tank into the day tank' },
            { rule: 'DEADLEG', about: 'S6', says: 'not told to write', why: 'the line-up in which S6 is used is written: EMERGENCY', gap: 'its mend is to write the line-up in which it is used; emergency line-ups do not count' },
        ],
        bleeds: [
            { ...USUAL, leaves: ['VE'], why: 'the engine side as from any tank; the main side fills the open day tank by its pump and needs nothing' },
            { ...USUAL_DRY, leaves: ['VE'] },
        ],
    },
    '06-day-tank-gravity': {
        tanks: ['T1', 'DT'], consumers: ['E1'],
        courses: ['transfer: T1.P1 VT ST1 TP1 DT.R2', 'transfer: DT.OV T1.OR', 'supply: DT.P1 V1 F1 LP1 F2 E1', 'return: E1 DT.R1', 'vent: T1.vent air', 'vent: DT.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, strainer 1, electric pump 1, filter 2, lift pump 1',
        says: [
            pass('HEAD-ON-OPEN', 'F1', 'V1 is shut in SERVICE'),
            { rule: 'HEAD-ON-OPEN', about: 'F1', says: 'fail minor', edits: [['{ V1 shut   VT shut }', '{ VT shut }']], why: 'the day tank stands 500 mm and more above every filter: what is opened with V1 open floods' },
            { rule: 'SHUT-AT-TANK', about: 'S1', says: 'fail critical', edits: [['  shutoff V1    at 1270 mm   in Deckhouse   normally open   label "QUICK CLOSE"   note "quick-closing, pulled from the deck"\n', ''], ['{ V1 shut   VT shut }', '{ VT shut }']], why: 'without V1 a burnt hose is fed by the whole day tank' },
            pass('POS-HEAD-LIMIT', 'E1', 'at rest LP1 stands under 1632 - 740 = 892 mm, about 7.4 kPa; 15 are allowed'),
            { rule: 'POS-HEAD-LIMIT', about: 'E1', says: 'fail minor', edits: [['head 15 kPa', 'head 6 kPa']], why: '7.4 kPa is more than 6: a diaphragm that leaks fills the sump' },
            pass('BLEED-DRIVE', 'BS1', 'the day tank stands above it'),
            pass('RETURN-SUBMERGED', 'DT.R1', 'its mouth is over the highest level, so the day tank cannot siphon out by its return'),
        ],
        bleeds: [
            { order: ['BS1 DT', 'BS2 DT', 'BS3 DT'], why: 'no pump: V1 open, then each vent in flow order by the height of the tank; the lever is only proved' },
            { opened: ['F1'], order: ['BS1 DT', 'BS2 DT'], why: 'the same: gravity drives before filling by hand and before the lever', gap: 'F1 is filled by hand and BS2 bled by 45 to 87 strokes of the lever, though the tank would fill both in seconds' },
        ],
    },
    '07-polishing-loop': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'transfer: T1.P2 VP ST1 PP1 FP CVP T1.R2', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, hand primer 1, filter 3, lift pump 1, check 2, strainer 1, electric pump 1',
        says: [
            // 1.0 x 0.5 x 0.4 m = 200 L, 190 L full to 95 %: three turns are 570 L.
            pass('POLISH-TURNOVER', 'POLISH', '570 L at 240 L/h are 2.4 h, and the fittings stand 800 mm of 1000 apart'),
            { rule: 'POLISH-TURNOVER', about: 'POLISH', says: 'fail advice', edits: [['gives 240 L/h', 'gives 20 L/h']], why: '570 / 20 = 28.5 h, more than a day' },
            { rule: 'POLISH-TURNOVER', about: 'POLISH', says: 'fail advice', edits: [['top at 700 mm up, 2900 mm fwd', 'top at 700 mm up, 2200 mm fwd']], why: 'it returns 100 mm from its own pickup: the same fuel goes round' },
            pass('PATH-ONE', 'E1', 'the loop has a pickup and a return of its own, so the engine still draws from one tank'),
        ],
        bleeds: [{ ...USUAL, leaves: ['VP'], why: 'the loop is no part of it' }, { opened: ['FP'], refused: 'FP is not on the lines of E1', why: 'the loop is bled by its own pump, not through the engine' }],
    },
    '08-duplex-primaries': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 CH1 FA FB G1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'changeover 1, shutoff 1, hand primer 1, filter 3, gauge 1, lift pump 1, check 1',
        says: [
            pass('DUPLEX-ISOLATE', 'FA', 'with B on line the changeover shuts it before and behind'),
            pass('DUPLEX-ISOLATE', 'FB', 'the same with A on line'),
            pass('FILTER-FLOW', 'FB', '60 L/h by itself, for 15'),
            { rule: 'FILTER-FLOW', about: 'FB', says: 'fail major', edits: [['rated 60 L/h   clean 1 kPa   dirty 8 kPa   stands 70 kPa   holds 450 mL   metal shield\n        ports at 720 mm up, 2950 mm fwd, 450 mm port', 'rated 10 L/h   ports at 720 mm']], why: 'each side alone must pass all 15 L/h, though the other passes more' },
            { rule: 'DUPLEX-ISOLATE', about: 'FA', says: 'fail major', edits: INLETS_ONLY, why: 'with a shutoff before each and none behind, the one that runs draws air through the one that is open' },
        ],
        bleeds: [
            { opened: ['FA'], order: ['BSA PR1', 'BS2 PR1'], leaves: ['CH1'], why: 'the side on line as any primary' },
            { opened: ['FB'], ends: 'RUN-B', order: ['BSB PR1'], first: ['CH1 B'], why: 'the standby side, cut off from all else while it was open, is brought on line to be bled by the primer; nothing could run back into it' },
        ],
    },
    '09-twin-engines-generator-heater': {
        tanks: ['T1', 'T2'], consumers: ['E1', 'E2', 'GN', 'HE1'],
        courses: [
            'supply: T1.P1 V1-P PR1-P F1-P LP1-P F2-P E1', 'supply: T2.P1 V1-S PR1-S F1-S LP1-S F2-S E2', 'supply: T1.P2 VG PRG FG1 LPG FG2 GN', 'supply: T2.P2 VH PRH FH MP1 HE1',
            'return: E1 CV1 T1.R1', 'return: E2 CV2 T2.R1', 'return: GN CVG T1.R2', 'vent: T1.vent air', 'vent: T2.vent air', 'fill: deck T1.fill', 'fill: deck T2.fill',
        ],
        parts: 'shutoff 4, hand primer 4, filter 7, lift pump 3, electric pump 1, check 3',
        says: [
            pass('PICKUP-RANK', 'T1.P2', '70 mm off the bottom, 45 over that of the engine'),
            pass('PICKUP-RANK', 'T2.P2', 'the heater draws 85 mm higher than the engine'),
            { rule: 'PICKUP-RANK', about: 'T2.P2', says: 'fail minor', edits: [['mouth at 110 mm off bottom', 'mouth at 20 mm off bottom']], why: 'the heater would drain what brings her home' },
            pass('SUPPLY-RETURN-MATCH', 'GN', 'from T1 to T1'),
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'fail', edits: [['from E1 to T1.R1', 'from E1 to T2.R1'], ['from E2 to T2.R1', 'from E2 to T1.R1']], why: 'the two returns are mixed up' },
            pass('SINGLE-POINT', 'vessel', 'no part stands on every way to E1, E2 and GN'),
        ],
        bleeds: [
            { opened: ['F1-P'], order: ['BS1-P PR1-P', 'BS2-P PR1-P'], leaves: ['VG', 'VH'], why: 'each by itself: nothing of the generator or the heater is touched' },
            { engine: 'E2', order: ['BS1-S PR1-S', 'BS2-S PR1-S', 'BS3-E2 LP1-S'], leaves: ['VG', 'VH'], why: 'the starboard engine in flow order, by its own pumps' },
            { engine: 'GN', opened: ['FG1'], order: ['BG1 PRG', 'BG2 PRG'], leaves: ['V1-P', 'V1-S', 'VH'], why: 'the generator by its own primer' },
        ],
    },
    '10-shared-manifold': {
        tanks: ['T1'], consumers: ['E1', 'GN', 'HE1'],
        courses: ['supply: T1.P1 V1 J1 J2 VM CVM PR1 F1 LP1 F2 E1', 'supply: J1 VG CVG PRG FG1 LPG FG2 GN', 'supply: J2 VH CVH PRH FH MP1 HE1', 'return: E1 CV1 T1.R1', 'return: GN CV2 T1.R2', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 4, tee 2, check 5, hand primer 3, filter 5, lift pump 2, electric pump 1',
        says: [
            { rule: 'SINGLE-POINT', about: 'T1.P1', says: 'fail advice', why: 'one pickup, one valve and one hose feed both the engine and the generator' },
            // Smallest pipes: 6 mm to the engine and the generator, 3 mm to the heater: 28.3 + 28.3 + 7.1 = 63.6 mm2.
            pass('SHARED-AREA', 'S1', '12 mm have 113 mm2, the branches 63.6'),
            { rule: 'SHARED-AREA', about: 'S1', says: 'fail minor', edits: [['hose S1       bore 12 mm', 'hose S1       bore 8 mm']], why: '8 mm have 50.3 mm2, less than 63.6' },
            { rule: 'PICKUP-RANK', about: 'T1.P1', says: 'fail minor', why: 'generator and heater draw as low as the engine' },
        ],
        bleeds: [
            { opened: ['F1'], order: ['BS1 PR1', 'BS2 PR1'], why: 'the branch of the engine by its own primer' },
            { order: ['BS1 PR1', 'BS2 PR1', 'BS3 LP1'], last: ['VG open', 'VH open'], why: 'run dry the manifold is purged to one branch at a time, with the others shut', gap: 'VG and VH are opened before the first pump is worked' },
        ],
    },
    '11-primary-below-tank': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 F1 V2 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, filter 2, lift pump 1, check 1',
        says: [
            pass('HEAD-ON-OPEN', 'F1', 'V1 is shut in SERVICE'),
            { rule: 'HEAD-ON-OPEN', about: 'F1', says: 'fail minor', edits: [['{ V1 shut   V2 shut }', '{ V2 shut }']], why: 'the lid (480 mm) lies under the bottom of the tank (700 mm): opened with V1 open it floods' },
            pass('ISOLATE-FILTER-IN', 'F1', 'V2 and the check at the return hold what lies beyond'),
            pass('BLEED-DRIVE', 'BS1', 'the tank stands above it at any level'),
        ],
        bleeds: [
            { opened: ['F1'], order: ['BS1 T1'], why: 'by the height of the tank to the vent of F1; V2 kept the rest full' },
            { order: ['BS1 T1', 'BS2 LP1', 'BS3 LP1'], why: 'gravity to F1, then the lever' },
        ],
    },
    '12-primary-above-tank': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, hand primer 1, filter 2, lift pump 1, check 1',
        says: [
            { rule: 'HEAD-ON-OPEN', about: 'F1', says: 'pass', edits: [['{ V1 shut }', '{ V1 open }']], why: 'the lid (980 mm) stands over the lid of the tank (550 mm) at any lean of 10 degrees: opened with V1 open it does not flood, the column falls back' },
            pass('DRAINBACK', 'F1', 'the valves of PR1 hold the column'),
            { rule: 'DRAINBACK', about: 'F1', says: 'fail minor', edits: NO_PRIMER, why: 'without the primer nothing holds it' },
            { rule: 'BLEED-DRIVE', about: 'BS1', says: 'fail major', edits: NO_PRIMER, why: 'the tank is lower, and the lever stands behind it' },
            { rule: 'PRIMER-REACH', about: 'PR1', says: 'pass', why: 'at 640 mm it lifts some 500 mm from 20 % (230 mm); it can do 900' },
        ],
        bleeds: [
            { opened: ['F1'], order: ['BS1 PR1'], why: 'what follows F1 lies lower than its ports: nothing runs back into it, and only F1 holds air' },
            USUAL_DRY,
        ],
    },
    '13-return-to-filter-head': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 J1 F2 E1', 'return: E1 SV2.in', 'return: SV2.head J1', 'return: SV2.tank CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'selector 1, shutoff 1, hand primer 1, filter 2, lift pump 1, tee 1, check 1',
        says: [
            pass('RETURN-NO-BLOCK', 'E1', 'turned to HEAD it goes round, turned to TANK it goes home: it is never blocked'),
            { rule: 'RETURN-NO-BLOCK', about: 'SV2', says: 'fail critical', edits: [['  position TANK joins in, tank\n', '  position TANK joins in, tank\n  position OFF joins nothing\n']], why: 'OFF blocks it' },
            { rule: 'PATH-ONE', about: 'E1', says: 'not fail', why: 'in RUN the return feeds the final filter: no tank is wrong, and none is filled' },
            { rule: 'PATH-ONE', about: 'E1', says: 'pass', edits: [['is normal   { SV2 HEAD }', 'is normal   { SV2 TANK }']], why: 'turned home it is as any return' },
        ],
        bleeds: [{ opened: ['F1'], order: ['BS1 PR1', 'BS2 PR1'], last: ['SV2 HEAD'], why: 'the loop stays open to the tank until no bubble comes, then it is restored' }],
    },
    '14-electric-lift-pump': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 F1 EP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, filter 2, electric pump 1, check 1',
        says: [
            { rule: 'PUMP-OFF-PATH', about: 'E1', says: 'fail major', why: 'off it blocks, and nothing leads past it: a flat battery is no fuel' },
            { rule: 'PUMP-OFF-PATH', about: 'E1', says: 'pass', edits: [['when off blocks', 'when off passes']], why: 'a pump that lets fuel through when it is off' },
            { rule: 'BLEED-DRIVE', about: 'BS1', says: 'fail major', why: 'F1 is on the suction side of the only pump' },
            { rule: 'BLEED-DRIVE', about: 'BS2', says: 'fail minor', why: 'it can be bled, with a battery' },
        ],
        bleeds: [
            { opened: ['F1'], order: ['fill F1', 'BS2 EP1'], why: 'F1 is on suction: filled by hand; what follows by the pump' },
            { opened: ['F2'], order: ['BS2 EP1', 'BS3 EP1'], why: 'vents behind the pump, in flow order' },
            { refused: 'F1 cannot be bled', why: 'F1 was not opened, so it is not filled' },
        ],
    },
    '15-common-rail': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 G1 EP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, hand primer 1, filter 2, gauge 1, electric pump 1, check 1',
        says: [
            pass('PREFILL-POLICY', 'F2', 'forbidden'),
            { rule: 'PREFILL-POLICY', about: 'F2', says: 'fail minor', edits: [['prefill forbidden', 'prefill not on the clean side']], why: 'before a common rail the last filter is not filled at all' },
            pass('PUMP-OFF-PATH', 'E1', 'the pump passes when it is off'),
            pass('FILTER-FLOW', 'F1', '200 L/h for 140'),
        ],
        bleeds: [
            { opened: ['F2'], order: ['BS2 PR1'], why: 'F2 is never filled by hand: the low-pressure side until it is solid, then the starter; no union of the rail' },
            { order: ['BS1 PR1', 'BS2 PR1'], why: 'low pressure in flow order; the rest she clears through her return' },
        ],
    },
    '16-electric-primer-in-bypass': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 CV1 VB EP1 CV2 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, check 3, electric primer 1, filter 2, lift pump 1',
        says: [
            pass('BYPASS-CHECK', 'EP1', 'CV1 holds what it pumps'),
            { rule: 'BYPASS-CHECK', about: 'EP1', says: 'fail major', edits: [['leg main { check CV1   at 680 mm   cracks 0.3 kPa }', 'leg main { hose S9   bore 8 mm   length 0.2 m }']], why: 'without CV1 it pumps round itself' },
            { rule: 'CHECK-DIR', about: 'CV1', says: 'fail critical', edits: [['check CV1   at 680 mm', 'check CV1   reversed   at 680 mm']], why: 'CV1 turned round: the engine starves' },
            pass('PUMP-OFF-PATH', 'E1', 'the main line leads past it'),
            pass('CHECK-CRACK', 'CV1', '0.3 kPa, under 1'),
        ],
        bleeds: [
            { opened: ['F1'], order: ['BS1 EP1', 'BS2 EP1'], first: ['VB open'], last: ['VB shut'], why: 'the electric primer drives all, then it is off and the lever is proved' },
            { order: ['BS1 EP1', 'BS2 EP1', 'BS3 LP1'], first: ['VB open'], why: 'in flow order; the lever finishes' },
        ],
    },
    '17-crossover': {
        tanks: ['T1', 'T2'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'transfer: T1.X1 VX1 VX2 T2.X2', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'vent: T2.vent air', 'fill: deck T1.fill', 'fill: deck T2.fill'],
        parts: 'shutoff 3, hand primer 1, filter 2, lift pump 1, check 1',
        says: [
            pass('XOVER-TWO-VALVES', 'T1.X1', 'VX1 stands at it'),
            pass('XOVER-TWO-VALVES', 'T2.X2', 'VX2 stands at it'),
            { rule: 'XOVER-TWO-VALVES', about: 'T2.X2', says: 'fail major', edits: [['  shutoff VX2   at 260 mm   in Locker   normally shut   label "CROSSOVER STBD"\n', ''], ['VX1 open   VX2 open', 'VX1 open']], why: 'a burst hose drains T2' },
            { rule: 'PICKUP-HEEL', about: 'T1.P1', says: 'fail major', edits: [['run        is normal', 'run        is normal   { VX1 open   VX2 open }']], why: 'left open under way, heel moves the fuel to the low side and the pickup comes dry' },
            pass('PICKUP-HEEL', 'T1.P1', 'kept shut, it stays wet'),
        ],
        bleeds: [{ ...USUAL, leaves: ['VX1', 'VX2'] }, { ...USUAL_DRY, leaves: ['VX1', 'VX2'] }],
    },
    '18-raised-loop': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 CVA PR1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 1, check 2, hand primer 1, filter 2, lift pump 1',
        says: [
            { rule: 'SIPHON-BREAK', about: 'CVA', says: 'pass', edits: NO_V1, why: 'the valve alone holds: 4 kPa are some 480 mm of fuel; full the tank stands 630 - 480 = 150 mm over the lowest hose, and less than 300 more when she leans' },
            { rule: 'SIPHON-BREAK', about: 'CVA', says: 'fail major', edits: [...NO_V1, ['cracks 4 kPa', 'cracks 0.5 kPa']], why: '0.5 kPa are 60 mm of fuel, and 150 stand there upright' },
            { rule: 'LOOP-NOT-BREAK', about: 'S1', says: 'fail minor', edits: [...NO_V1, ['  check CVA     at 710 mm up, 2350 mm fwd, 250 mm stbd   in Locker   cracks 4 kPa   label "ANTI-SIPHON"\n', '']], why: 'a loop by itself is no break once it is full' },
            pass('BLEED-AT-HIGH', 'S1', 'PR1 sweeps the crest: 15 mL/s in 8 mm (50.3 mm2) are 0.30 m/s, over 0.15'),
            { rule: 'NO-HUMP', about: 'S1', says: 'fail minor', why: 'its top keeps air, on the suction side' },
        ],
        bleeds: [USUAL, USUAL_DRY],
    },
    '19-vented-loop': {
        tanks: ['T1'], consumers: ['E1', 'HX1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'supply: sea VS ST1 RP1 HX1', 'return: HX1 J1 sea', 'vent: J1 CVL air', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, hand primer 1, filter 2, lift pump 2, check 2, strainer 1, tee 1',
        says: [
            pass('VENT-HEEL', 'VHT1', 'at 1500 mm, 1000 mm out: it goes under at atan((1500 - 450) / 1000) = 46 degrees; she heels 15'),
            { rule: 'VENT-HEEL', about: 'VHT1', says: 'fail major', edits: [['outlet at 1500 mm up, 1000 mm stbd', 'outlet at 700 mm up, 1000 mm stbd']], why: 'atan((700 - 450) / 1000) = 14.0 degrees, less than 15' },
            pass('VENT-SELF-DRAIN', 'T1.vent', 'it rises to a peak and falls to its outlet, without a pocket'),
            { rule: 'HOSE-FIRE', about: 'W1', says: 'not fail', why: 'sea water feeds no fire' },
            { rule: 'PATH-ONE', about: 'HX1', says: 'not fail', why: 'it is fed by the sea, as is written' },
            { rule: 'RETURN-NO-BLOCK', about: 'HX1', says: 'not fail', why: 'its way out to the sea has no valve' },
            { rule: 'DEADLEG', about: 'W1', says: 'not fail', why: 'sea water runs through it whenever the engine runs' },
        ],
        bleeds: [{ ...USUAL, leaves: ['VS'] }, { engine: 'HX1', refused: 'no tank feeds HX1', why: 'raw water has no bleed points; nothing to do there' }],
    },
    '20-keel-tank': {
        tanks: ['T1'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 CVF CV1 VB EP1 F1 LP1 F2 E1', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, check 3, electric primer 1, filter 2, lift pump 1',
        says: [
            // Box 350 mm high from 0: at 20 % the surface stands at 70 mm, LP1 at 1250.
            { rule: 'LIFT-STATIC', about: 'E1', says: 'fail major', why: '1250 - 70 = 1180 mm upright, and 900 are allowed' },
            pass('FOOT-CHECK', 'E1', 'CVF stands at the fitting of the tank'),
            { rule: 'FOOT-CHECK', about: 'E1', says: 'fail advice', edits: [['  check CVF "foot check" at 410 mm   in Locker   cracks 0.3 kPa\n', '']], why: 'she loses her prime, and every joint is a place for air' },
            pass('PRIMER-REACH', 'EP1', 'at 450 mm it lifts 380 mm; it can do 900'),
            { rule: 'PRIMER-REACH', about: 'EP1', says: 'fail minor', edits: [['lifts 900 mm\n    }', 'lifts 300 mm\n    }']], why: '380 mm are more than 300' },
        ],
        bleeds: [
            { opened: ['F1'], order: ['BS1 EP1', 'BS2 EP1'], first: ['VB open'], why: 'the electric primer near the tank first: no hand could suck so far' },
            { order: ['BS1 EP1', 'BS2 EP1', 'BS3 LP1'], first: ['VB open'], why: 'in flow order' },
        ],
    },
    '21-joined-tanks': {
        tanks: ['T1', 'T2'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'transfer: T1.X1 T2.X2', 'return: E1 CVR T1.R1', 'vent: T1.vent air', 'vent: T2.vent air', 'fill: deck T1.fill', 'fill: deck T2.fill'],
        parts: 'shutoff 1, hand primer 1, filter 2, lift pump 1, check 1',
        says: [
            { rule: 'XOVER-TWO-VALVES', about: 'T1.X1', says: 'fail major', why: 'no valve: one burst drains both' },
            { rule: 'XOVER-TWO-VALVES', about: 'T2.X2', says: 'fail major', why: 'the same at the other end' },
            pass('PATH-ONE', 'E1', 'the two count as one tank'),
            pass('SUPPLY-RETURN-MATCH', 'E1', 'drawn from and returned to the same'),
        ],
        bleeds: [USUAL, USUAL_DRY],
    },
    '22-generator-return-teed': {
        tanks: ['T1'], consumers: ['E1', 'GN'],
        courses: ['supply: T1.P1 V1 PR1 F1 LP1 F2 E1', 'supply: T1.P2 VG FG1 LPG FG2 GN', 'return: E1 J1 CVR T1.R1', 'return: GN CVG J1', 'vent: T1.vent air', 'fill: deck T1.fill'],
        parts: 'shutoff 2, hand primer 1, filter 4, lift pump 2, check 2, tee 1',
        says: [
            pass('RETURN-BACKPRESSURE', 'E1', 'a short line of 6 mm for 22.4 L/h of both; 15 kPa are allowed'),
            { rule: 'RETURN-BACKPRESSURE', about: 'GN', says: 'fail minor', edits: [['hose B2       bore 6 mm   length 1.80 m', 'hose B2       bore 3 mm   length 1.80 m']], why: 'in half the bore the same flow takes sixteen times as much, and the engine pushes the generator too' },
            { rule: 'RETURN-NO-BLOCK', about: 'VR', says: 'fail critical', edits: [['tee J1        at 760 mm   in EngineBay\n', 'tee J1        at 760 mm   in EngineBay\n  shutoff VR    normally open\n']], why: 'one valve in the common line blocks both' },
            pass('SUPPLY-RETURN-MATCH', 'GN', 'from T1 to T1, by the line of the engine'),
        ],
        bleeds: [
            USUAL,
            { engine: 'GN', opened: ['FG1'], order: ['fill FG1', 'BG2 LPG'], why: 'its own pump sucks at FG1: filled by hand, then the lever' },
        ],
    },
    '23-jug-feed': {
        tanks: ['T1', 'JUG'], consumers: ['E1'],
        courses: ['supply: T1.P1 V1 PR1 J1 F1 LP1 F2 E1', 'supply: JUG.P1 VJ J1', 'return: E1 SV2.in', 'return: SV2.tank CVR T1.R1', 'return: SV2.can CVJ JUG.R1', 'vent: T1.vent air', 'vent: JUG.vent air', 'fill: deck T1.fill'],
        parts: 'selector 1, shutoff 2, hand primer 1, filter 2, lift pump 1, tee 1, check 2',
        says: [
            pass('PATH-ONE', 'E1', 'in RUN the can is shut off'),
            { rule: 'PATH-ONE', about: 'E1', says: 'fail critical', edits: [['V1 shut   VJ open   SV2 CAN', 'VJ open   SV2 CAN'], ['FROM-CAN  emergency', 'FROM-CAN  run']], why: 'V1 left open: it draws from both' },
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'pass', edits: [['FROM-CAN  emergency', 'FROM-CAN  run']], why: 'the return follows to the can' },
            { rule: 'SUPPLY-RETURN-MATCH', about: 'E1', says: 'fail', edits: [['V1 shut   VJ open   SV2 CAN', 'V1 shut   VJ open'], ['FROM-CAN  emergency', 'FROM-CAN  run']], why: 'the return left to the tank empties the can at the gross flow' },
            { rule: 'DEADLEG', about: 'SJ', says: 'not told to write', why: 'the line-up in which SJ is used is written: FROM-CAN', gap: 'its mend is to write the line-up in which it is used' },
        ],
        bleeds: [
            { ...USUAL, leaves: ['VJ'] },
            { opened: ['F1'], ends: 'FROM-CAN', order: ['BS1 JUG', 'BS2 JUG'], first: ['VJ open', 'SV2 CAN'], leaves: ['V1'], why: 'the can at 20 % (1060 mm) stands over BS1 (765 mm) and BS2 (880 mm) and fills both by itself, with the tank shut off' },
        ],
    },
};
