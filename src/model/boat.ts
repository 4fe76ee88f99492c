/**
 * The boat as plain data in SI units. Built once by language/lowering; everything after it reads only this.
 * Ids are tags where the owner gave one (`F1`), `T1.P1` for a fitting, and course and ordinal (`Feed/3`) for a
 * part without a tag. A fact that was not stated is absent; nothing is filled in here.
 */
import type { Id } from './id';
import type { CurvePoint, Evidence, Measure, Place } from './measure';
import type { ProcedureBlock } from './procedure';
import type { Step } from './step';
import type { Overlay, View } from './overlay';
import type { Interval, LogEntry, Passage } from './upkeep';

export type { Id } from './id';
export type * from './overlay';
export type * from './procedure';
export type * from './upkeep';

export interface Boat {
    readonly name: string;
    readonly title?: string;
    readonly vessel: Vessel;
    readonly tanks: readonly Tank[];
    readonly consumers: readonly Consumer[];
    readonly parts: readonly Part[];
    readonly courses: readonly Course[];
    readonly joints: readonly Joint[];
    readonly lineUps: readonly LineUp[];
    readonly intervals: readonly Interval[];
    readonly log: readonly LogEntry[];
    readonly bleeds: readonly BleedBlock[];
    readonly procedures: readonly ProcedureBlock[];
    /** Surveys and refits, in the order of the text, and the view of them in which this boat was read. */
    readonly overlays: readonly Overlay[];
    readonly view: View;
    readonly answers: readonly Answer[];
    readonly waivers: readonly Waiver[];
    readonly passages: readonly Passage[];
    /** How well a thing or a fact is known: by id, and by id and the words of the fact, like `S1 bore`. */
    readonly evidence: ReadonlyMap<string, Evidence>;
    /** Facts that were written as `unknown` or `unreached`. */
    readonly unknown: readonly { readonly about: Id; readonly fact: string; readonly how: string }[];
    /** Every tag with the ids it was given to; a tag with two ids is used twice. */
    readonly tags: ReadonlyMap<string, readonly Id[]>;
}

export interface Vessel {
    readonly declared: boolean;
    readonly length?: Measure;
    readonly datum?: string;
    readonly waterline?: Place;
    readonly envelope: Envelope;
    /** Speed through the water, m/s, at speeds of the engine. */
    readonly speeds: readonly CurvePoint[];
    /** The share of what can be used that every passage leaves. */
    readonly reserve?: Measure;
    readonly fuel: Fuel;
    readonly rules: readonly string[];
    readonly spaces: readonly Space[];
}

/** What is said of the fuel itself. */
export interface Fuel {
    readonly grade?: FuelGrade;
    /** kg/m³ at 15 °C. */
    readonly density?: Measure;
    /** m²/s at temperatures, K. */
    readonly viscosity: readonly CurvePoint[];
    /** Solid particles, kg in a kg. */
    readonly dirt?: Measure;
    /** By ISO 4406, as written. */
    readonly cleanliness?: string;
}

export type FuelGrade = 'summer diesel' | 'winter diesel' | 'renewable diesel' | 'biodiesel blend';

/** Angles in rad either way, level as a fraction of the gross volume, temperatures in K. */
export interface Envelope {
    readonly heel?: Measure;
    readonly trim?: Measure;
    readonly level?: Measure;
    readonly fuel?: Measure;
    /** The heel at which vents must still be dry. */
    readonly survival?: Measure;
}

export interface Space {
    readonly id: Id;
    readonly machinery: boolean;
}

export type Carries = 'diesel' | 'coolant' | 'heating water' | 'raw water';

export interface Tank {
    readonly id: Id;
    readonly title?: string;
    readonly space?: Id;
    readonly carries?: Carries;
    readonly box?: Box;
    /** The shape where it is no box: cross-sections from aft forward. A tank has one or the other. */
    readonly sections?: readonly Section[];
    /** The pressure that it was tested at, Pa. */
    readonly tested?: Measure;
    readonly fittings: readonly Fitting[];
    /** A can that hangs in her for a procedure: it has a tap and a cap in place of a valve and a vent. */
    readonly portable?: true;
}

/** Inside sizes in metres, and the low aft inner corner; the box grows forward, outboard and up from it. */
export interface Box {
    readonly length: number;
    readonly breadth: number;
    readonly height: number;
    readonly corner: Place;
    /** +1 when outboard is to starboard, -1 when to port. */
    readonly outboard: 1 | -1;
}

/**
 * A cross-section of the inside of a tank, m. The corners of all sections of a tank go round in the same order, and straight
 * lines join each to the same corner of the next section.
 */
export interface Section {
    readonly fwd: number;
    readonly corners: readonly { readonly up: number; readonly stbd: number }[];
}

export type FittingKind = 'pickup' | 'drop' | 'vent' | 'fill';

export interface Fitting {
    readonly id: Id;
    readonly tank: Id;
    readonly kind: FittingKind;
    readonly port: string;
    readonly bore?: Measure;
    readonly mouth?: Place;
    readonly top?: Place;
    /** For a fill: whether its pipe ends at the tank top or reaches into the tank, or is filled under pressure. */
    readonly fillEnds?: 'at the top' | 'into the tank' | 'under pressure';
    /** For a fill: how fast it is filled, m³/s. */
    readonly takes?: Measure;
}

export type ConsumerKind = 'engine' | 'generator' | 'heater' | 'exchanger';

export interface Consumer {
    readonly id: Id;
    readonly kind: ConsumerKind;
    readonly title?: string;
    readonly space?: Id;
    readonly burns: readonly CurvePoint[];
    readonly draws: readonly CurvePoint[];
    readonly limits: Limits;
    /** How warm its return is, K, at a temperature of what it draws. */
    readonly returns: readonly CurvePoint[];
    readonly injection?: Injection;
    readonly exhaust?: Exhaust;
    readonly holds?: Measure;
    readonly inlet?: Place;
    /** Low-pressure bleed points in the maker's order; the last is where low pressure ends. */
    readonly vents: readonly Vent[];
    /** Clears small air by itself through its return. */
    readonly selfBleeding: boolean;
    /** Whether liquid can come back through it, from its return to its supply, while it is stopped. */
    readonly backflow?: 'passes' | 'blocks';
    /** Somebody found that it starts hard after standing: fuel has left its supply, and air has come. */
    readonly losesPrime?: true;
}

/** The maker's: pressures in Pa, the lift in m, the fuel in K. */
export interface Limits {
    /** Suction at the inlet with dirty filters, and with new elements. */
    readonly inlet?: Measure;
    readonly clean?: Measure;
    readonly lift?: Measure;
    readonly return?: Measure;
    /** Pressure at the inlet while it is stopped. */
    readonly head?: Measure;
    readonly fuel?: Measure;
}

export interface Injection {
    readonly pump: 'in-line' | 'rotary' | 'unit' | 'common-rail';
    readonly control?: 'mechanical' | 'electronic';
}

export interface Exhaust {
    readonly kind: 'wet' | 'dry';
    /** Free volume of the muffler above the water that rests in it, m³. */
    readonly mufflerFree?: Measure;
    readonly rawWater?: CurvePoint;
    /** Cranking speed, rev/s. */
    readonly cranks?: Measure;
}

/** A bleed screw or vent cock: opened by hand while its part is filled. */
export interface Vent {
    readonly id: Id;
    readonly tag: string;
    readonly title?: string;
    readonly part: Id;
    readonly at?: Place;
    readonly spanner?: Measure;
}

export type PartKind =
    | 'hose' | 'tube' | 'shutoff' | 'check' | 'tee' | 'filter' | 'strainer' | 'gauge' | 'radiator'
    | 'hand primer' | 'electric primer' | 'lift pump' | 'electric pump' | 'selector' | 'changeover';

/**
 * Anything that liquid passes through. One shape for all kinds: a kind leaves the facts that it cannot have absent,
 * which vocabulary.ts enforces where the text is read.
 */
export interface Part {
    readonly id: Id;
    readonly kind: PartKind;
    readonly tag?: string;
    readonly title?: string;
    /** How a sentence names it: its tag, or "the hose after V1". */
    readonly name: string;
    readonly course?: Id;
    readonly space?: Id;
    /** What is engraved on it. */
    readonly label?: string;
    readonly at?: Place;
    readonly low?: Place;
    readonly crest?: Place;
    /** For a pipe of a vent: its open end. */
    readonly outlet?: Place;
    /** For a pipe of a fill: the deck plate. */
    readonly plate?: Place;
    readonly bore?: Measure;
    readonly length?: Measure;
    readonly holds?: Measure;
    /** Turned end for end: its arrow points against the course it stands in. */
    readonly reversed?: true;
    /** For pipes: marked as a fire-resistant type. */
    readonly fireResistant?: true;
    /** The year marked on it, or the day: `2021`, `2021-03-12`. */
    readonly dated?: string;
    readonly normally?: 'open' | 'shut';
    readonly lockedOpen?: true;
    /** A shutoff worked by electricity alone is not a manual one. */
    readonly solenoid?: true;
    readonly cracks?: Measure;
    /** For a gauge. */
    readonly reads?: 'vacuum' | 'pressure';
    readonly stroke?: Measure;
    readonly lifts?: Measure;
    readonly rate?: Measure;
    /** Pa: the most that a pump makes against a shut line, and the most that it, or a filter, may have inside. */
    readonly pushes?: Measure;
    readonly stands?: Measure;
    readonly whenOff?: 'passes' | 'blocks';
    readonly role?: 'primary' | 'final';
    readonly separatesWater?: true;
    readonly passes?: Measure;
    readonly rated?: Measure;
    /** What the element takes, Pa: new at the rated flow, and when it is to be renewed. */
    readonly clean?: Measure;
    readonly dirty?: Measure;
    /** The dirt that it holds until then, kg. */
    readonly dirt?: Measure;
    readonly beta?: Measure;
    readonly lid?: Place;
    readonly drain?: Place;
    /** For a filter: its drain has a cap or plug. */
    readonly plugged?: true;
    readonly seals: readonly string[];
    readonly prefill?: Prefill;
    readonly vents: readonly Vent[];
    /** Selectors and changeovers: what each position joins. */
    readonly ports: readonly string[];
    readonly positions: readonly Position[];
    readonly turning: readonly Turning[];
    readonly gangedWith?: Id;
}

export type Prefill = 'allowed' | 'not on the clean side' | 'forbidden';

export interface Position {
    readonly name: string;
    /** Groups of ports that are joined with one another. */
    readonly joins: readonly (readonly string[])[];
}

/** Between two positions the plug passes a third; no position named means between any two. */
export interface Turning {
    readonly from?: string;
    readonly to?: string;
    readonly passes: string;
}

export type Service = 'supply' | 'return' | 'vent' | 'fill' | 'transfer';
export type Outside = 'air' | 'deck' | 'sea';

export interface Course {
    readonly id: Id;
    readonly service: Service;
    readonly title?: string;
    readonly from: End;
    readonly to: End;
    /** The parts that stand in it, in the direction of flow, legs of splits and changeovers included. */
    readonly parts: readonly Id[];
}

export interface End {
    readonly outside?: Outside;
    /** The part, tank or consumer, when the name was found. */
    readonly part?: Id;
    readonly port?: string;
}

/** Two ports made fast to one another. A port is `V1:in`; a tee is one point, `J1`; a tank fitting is `T1.P1`. */
export interface Joint {
    readonly from: string;
    readonly to: string;
    readonly course: Id;
}

export interface LineUp {
    readonly id: Id;
    readonly use: 'run' | 'service' | 'laid up' | 'transfer' | 'polish' | 'emergency' | undefined;
    readonly normal: boolean;
    readonly base?: Id;
    /** For a transfer: what is to be moved, m³. */
    readonly moves?: Measure;
    /** As written here, without what is inherited: the positions of valves, and engines that are `stopped` or `running`. */
    readonly settings: readonly { readonly part: Id; readonly position: string }[];
}

/** A bleed sequence as it stands in the text. */
export interface BleedBlock {
    readonly id: Id;
    readonly engine: Id;
    readonly opened: readonly Id[];
    readonly ranDry: boolean;
    readonly prefilled: readonly Id[];
    readonly from?: Id;
    readonly starts?: Id;
    readonly ends?: Id;
    readonly kept: boolean;
    readonly lines: readonly BleedLine[];
}

export interface BleedLine {
    readonly id: Id;
    /** The line in one spelling: words and quantities single-spaced, as the writer of the block spells them. */
    readonly text: string;
    /** Names used on the line that are not in the boat. */
    readonly strangers: readonly string[];
    /** Absent for cautions, notes and lines that were not understood. */
    readonly step?: Step;
    /** It was meant for a step, and what it does is not known. */
    readonly unread?: true;
}

/** What a person answered to a rule that nothing computes. */
export interface Answer {
    readonly id: Id;
    readonly rule: string;
    readonly about: Id;
    readonly outcome: 'pass' | 'fail' | 'cannot tell';
    readonly words?: string;
    readonly evidence?: Evidence;
    /** The survey, and its date. */
    readonly survey: Id;
    readonly on?: string;
}

/** A rule that is set aside at one thing, by someone, until a day. */
export interface Waiver {
    readonly id: Id;
    readonly rule: string;
    /** The things that it holds at; everywhere when none is named. */
    readonly at: readonly Id[];
    /** ISO date, the last day on which it holds. */
    readonly until: string;
    readonly by: string;
    readonly because: string;
}
