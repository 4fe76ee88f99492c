/**
 * The schematics as a hand would lay them out, and the least number of crossings that the hand reached. Drawn before any drawing was made by Orlop.
 *
 * The rules of these sketches: tanks stand at the left edge, consumers at the right; a tank that is filled by a pump stands one column further right than
 * the tank that fills it. Every line leaves its tank on the right, runs from left to right without turning back (a line from a tank to a tank of the same
 * column may turn once), and none goes round behind a tank. The fittings of a tank may come in any order. Vents and fills are left out: they
 * leave upwards and cross nothing.
 *
 * Under these rules one crossing is the least wherever two tanks can both feed an engine and both take its return (boats 3 and 23, Brackenwake): with
 * the left edge as a point, {T1, T2, E1} are each joined to {where the supplies meet, where the return parts, the left edge}, which is the graph of three
 * houses and three wells. A line that went round behind a tank would save it, and read worse.
 */

/**
 * A sketch as it can be counted. One string a column, from left to right: what ends at its left side, then `|`, then what leaves it at its right side,
 * each from top to bottom. A line that only passes a column is `~` with a letter, on both sides. Parts in a row without a branch are left out.
 */
export interface Sketch {
    readonly columns: readonly string[];
    /** From one column to the next, or between two of the same column; a pass by its letter alone is the same line everywhere. */
    readonly links: readonly string[];
}

/*
 *  T1 R1 ----------------- E1        one tank, one engine: 1, 2, 11, 12, 14, 15, 18, 20
 *     P1 --o--o--o--o----- E1
 */
const PLAIN: Sketch = { columns: ['| T1.R1 T1.P1', 'E1.out E1.in |'], links: ['T1.R1 E1.out', 'T1.P1 E1.in'] };

/*
 *  T1 R1 ------------ SV2 ---- E1    3: one crossing, where the supply of T1 meets the return to T2
 *     P1 ----. ,----- SV2
 *             X
 *  T2 R1 ----' '----- SV1 -o-- E1
 *     P1 ------------ SV1
 */
const TWO_SELECTORS: Sketch = {
    columns: ['| T1.R1 T1.P1 T2.R1 T2.P1', 'SV2.port SV2.stbd SV1.port SV1.stbd | SV2.in SV1.out', 'E1.out E1.in |'],
    links: ['T1.R1 SV2.port', 'T1.P1 SV1.port', 'T2.R1 SV2.stbd', 'T2.P1 SV1.stbd', 'SV2.in E1.out', 'SV1.out E1.in'],
};

/*
 *  T1 R1 ------------------ E1       4
 *     P1 ----- SV1 -o-o-o-- E1
 *  T2 P1 ----- SV1
 */
const SUPPLY_SELECTOR: Sketch = {
    columns: ['| T1.R1 T1.P1 T2.P1', '~r SV1.port SV1.stbd | ~r SV1.out', 'E1.out E1.in |'],
    links: ['T1.R1 ~r', 'T1.P1 SV1.port', 'T2.P1 SV1.stbd', '~r E1.out', 'SV1.out E1.in'],
};

/*
 *  T1 P1 --o-o-o-- DT R2             5
 *     OR --------- DT OV
 *                  DT R1 --------------- E1
 *                     P1 --o-- J1 -o-o-- E1
 *     P2 ----o---------------- J1
 */
const DAY_TANK: Sketch = {
    columns: ['| T1.P1 T1.OR T1.P2', 'DT.R2 DT.OV ~d | DT.R1 DT.P1 ~d', '~r J1.a J1.b | ~r J1.on', 'E1.out E1.in |'],
    links: ['T1.P1 DT.R2', 'T1.OR DT.OV', 'T1.P2 ~d', 'DT.R1 ~r', 'DT.P1 J1.a', '~d J1.b', '~r E1.out', 'J1.on E1.in'],
};

/*
 *  T1 P1 --o-o-o-- DT R2             6
 *     OR --------- DT OV
 *                  DT R1 ------- E1
 *                     P1 -o-o-o- E1
 */
const DAY_TANK_ABOVE: Sketch = {
    columns: ['| T1.P1 T1.OR', 'DT.R2 DT.OV | DT.R1 DT.P1', 'E1.out E1.in |'],
    links: ['T1.P1 DT.R2', 'T1.OR DT.OV', 'DT.R1 E1.out', 'DT.P1 E1.in'],
};

/*
 *  T1 R1 ----------------- E1        7
 *     P1 --o--o--o--o----- E1
 *     P2 --o-o-o-.
 *     R2 ---o-o--'
 */
const LOOP: Sketch = { columns: ['| T1.R1 T1.P1 T1.P2 T1.R2', 'E1.out E1.in |'], links: ['T1.R1 E1.out', 'T1.P1 E1.in', 'T1.P2 T1.R2'] };

/*
 *  T1 R1 ------------------------- E1        8; and 16, with the check and the primer for FA and FB
 *                  ,- FA -.
 *     P1 --o-- CH1 |      | CH1 -o-o- E1
 *                  '- FB -'
 */
const SIDE_BY_SIDE: Sketch = {
    columns: ['| T1.R1 T1.P1', '~r CH1.in | ~r CH1.a CH1.b', '~r A.in B.in | ~r A.out B.out', '~r END.a END.b | ~r END.out', 'E1.out E1.in |'],
    links: ['T1.R1 ~r', 'T1.P1 CH1.in', '~r ~r', 'CH1.a A.in', 'CH1.b B.in', 'A.out END.a', 'B.out END.b', '~r E1.out', 'END.out E1.in'],
};

/*
 *  T1 P1 --o-o-o-o-- E1              9, and Marrenwake: each consumer belongs to one tank
 *     R1 ----------- E1
 *     P2 --o-o-o-o-- GN
 *     R2 ----------- GN
 *  T2 P1 --o-o-o-o-- E2
 *     R1 ----------- E2
 *     P2 --o-o-o-o-- HE1
 */
const EACH_ITS_OWN: Sketch = {
    columns: ['| T1.P1 T1.R1 T1.P2 T1.R2 T2.P1 T2.R1 T2.P2', 'E1.in E1.out GN.in GN.out E2.in E2.out HE1.in |'],
    links: ['T1.P1 E1.in', 'T1.R1 E1.out', 'T1.P2 GN.in', 'T1.R2 GN.out', 'T2.P1 E2.in', 'T2.R1 E2.out', 'T2.P2 HE1.in'],
};

/*
 *  T1 R1 -------------------------- E1       10: the heater between the engine and the generator
 *     P1 --o-- J1 -- J2 -o-o-o-o--- E1
 *              |     '--o-o-o-o---- HE1
 *              '--o-o-o-o---------- GN
 *     R2 -------------------------- GN
 */
const MANIFOLD: Sketch = {
    columns: ['| T1.R1 T1.P1 T1.R2', '~r J1.in ~q | ~r J1.on J1.down ~q', '~r J2.in ~g ~q | ~r J2.on J2.down ~g ~q', 'E1.out E1.in HE1.in GN.in GN.out |'],
    links: ['T1.R1 ~r', 'T1.P1 J1.in', 'T1.R2 ~q', '~r ~r', 'J1.on J2.in', 'J1.down ~g', '~q ~q', '~r E1.out', 'J2.on E1.in', 'J2.down HE1.in', '~g GN.in', '~q GN.out'],
};

/*
 *  T1 R1 ---o------------- SV2 ------ E1     13
 *                   ,----- SV2
 *     P1 --o-o-o-- J1 ----- F2 ------ E1
 */
const TO_THE_HEAD: Sketch = {
    columns: ['| T1.R1 T1.P1', '~r J1.in | ~r J1.head J1.on', 'SV2.tank SV2.head ~s | SV2.in ~s', 'E1.out E1.in |'],
    links: ['T1.R1 ~r', 'T1.P1 J1.in', '~r SV2.tank', 'J1.head SV2.head', 'J1.on ~s', 'SV2.in E1.out', '~s E1.in'],
};

/*
 *  T1 R1 ----------------- E1        17, and 21 without the valves
 *     P1 --o--o--o--o----- E1
 *     X1 --o-.
 *  T2 X2 --o-'
 */
const CROSSOVER: Sketch = { columns: ['| T1.R1 T1.P1 T1.X1 T2.X2', 'E1.out E1.in |'], links: ['T1.R1 E1.out', 'T1.P1 E1.in', 'T1.X1 T2.X2'] };

/*
 *  T1 R1 ------------------- E1      19
 *     P1 --o-o-o-o-o-------- E1
 *  sea  ---o-o-o------------ HX1
 *  air  --o-- J1 ----------- HX1
 *  sea  ----- J1
 */
const RAW_WATER: Sketch = {
    columns: ['| T1.R1 T1.P1 Sea.in Air.in Overboard.out', '~r ~s ~i J1.air J1.sea | ~r ~s ~i J1.hx', 'E1.out E1.in HX1.in HX1.out |'],
    links: ['T1.R1 ~r', 'T1.P1 ~s', 'Sea.in ~i', 'Air.in J1.air', 'Overboard.out J1.sea', '~r E1.out', '~s E1.in', '~i HX1.in', 'J1.hx HX1.out'],
};

/*
 *  T1 P1 --o-o-o-o-o------ E1        22: the common return runs between the two supplies
 *     R1 --o-- J1 -------- E1
 *               '--o------ GN
 *     P2 --o-o-o-o-------- GN
 */
const TEED: Sketch = {
    columns: ['| T1.P1 T1.R1 T1.P2', '~a J1.in ~b | ~a J1.on J1.down ~b', 'E1.in E1.out GN.out GN.in |'],
    links: ['T1.P1 ~a', 'T1.R1 J1.in', 'T1.P2 ~b', '~a E1.in', 'J1.on E1.out', 'J1.down GN.out', '~b GN.in'],
};

/*
 *  T1  R1 --o--------- SV2 ---- E1   23: as 3, with the tee for the supply selector
 *      P1 --o--. ,-o-- SV2
 *               X
 *  JUG R1 -----' '---- J1 -o-o- E1
 *      P1 --o--------- J1
 */
const CAN: Sketch = {
    columns: ['| T1.R1 T1.P1 JUG.R1 JUG.P1', 'SV2.tank SV2.can J1.a J1.b | SV2.in J1.on', 'E1.out E1.in |'],
    links: ['T1.R1 SV2.tank', 'T1.P1 J1.a', 'JUG.R1 SV2.can', 'JUG.P1 J1.b', 'SV2.in E1.out', 'J1.on E1.in'],
};

/*
 *  as 3, and below it
 *  HT1 P1 --o--o-- HX1               Brackenwake: the heating loop touches nothing else
 *      R1 -------- HX1
 */
const WITH_HEATING: Sketch = {
    columns: ['| T1.R1 T1.P1 T2.R1 T2.P1 HT1.P1 HT1.R1', 'SV2.port SV2.stbd SV1.port SV1.stbd ~w ~x | SV2.in SV1.out ~w ~x', 'E1.out E1.in HX1.in HX1.out |'],
    links: [...TWO_SELECTORS.links, 'HT1.P1 ~w', 'HT1.R1 ~x', '~w HX1.in', '~x HX1.out'],
};

export const SKETCHES: Readonly<Record<string, Sketch>> = {
    '01-single': PLAIN, '02-no-hand-primer': PLAIN, '03-two-tanks-two-selectors': TWO_SELECTORS, '04-selector-fixed-return': SUPPLY_SELECTOR, '05-day-tank-pumped': DAY_TANK,
    '06-day-tank-gravity': DAY_TANK_ABOVE, '07-polishing-loop': LOOP, '08-duplex-primaries': SIDE_BY_SIDE, '09-twin-engines-generator-heater': EACH_ITS_OWN, '10-shared-manifold': MANIFOLD,
    '11-primary-below-tank': PLAIN, '12-primary-above-tank': PLAIN, '13-return-to-filter-head': TO_THE_HEAD, '14-electric-lift-pump': PLAIN, '15-common-rail': PLAIN,
    '16-electric-primer-in-bypass': SIDE_BY_SIDE, '17-crossover': CROSSOVER, '18-raised-loop': PLAIN, '19-vented-loop': RAW_WATER, '20-keel-tank': SIDE_BY_SIDE, '21-joined-tanks': CROSSOVER,
    '22-generator-return-teed': TEED, '23-jug-feed': CAN,
    ottilwake: PLAIN, 'ottilwake-mended': PLAIN, brackenwake: WITH_HEATING, 'brackenwake-mended': WITH_HEATING, marrenwake: EACH_ITS_OWN,
};

/** The least number of crossings that a hand reached, by the name of the boat or of the example. */
export const HAND_CROSSINGS: Readonly<Record<string, number>> = {
    '01-single': 0, '02-no-hand-primer': 0, '03-two-tanks-two-selectors': 1, '04-selector-fixed-return': 0, '05-day-tank-pumped': 0,
    '06-day-tank-gravity': 0, '07-polishing-loop': 0, '08-duplex-primaries': 0, '09-twin-engines-generator-heater': 0, '10-shared-manifold': 0,
    '11-primary-below-tank': 0, '12-primary-above-tank': 0, '13-return-to-filter-head': 0, '14-electric-lift-pump': 0, '15-common-rail': 0,
    '16-electric-primer-in-bypass': 0, '17-crossover': 0, '18-raised-loop': 0, '19-vented-loop': 0, '20-keel-tank': 0, '21-joined-tanks': 0,
    '22-generator-return-teed': 0, '23-jug-feed': 1,
    ottilwake: 0, 'ottilwake-mended': 0, brackenwake: 1, 'brackenwake-mended': 1, marrenwake: 0,
};
