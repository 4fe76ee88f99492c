/** The state of the boat while a service procedure runs: all that a bleed sequence knows, and what hands have done. */
import type { Id } from '../../model/boat';
import type { CautionTopic } from '../../model/step';
import type { Attitude } from '../../analysis/tanks/attitude';
import type { BenchState } from '../state';

export interface ServiceState extends BenchState {
    /** What stands open, as `F1 lid`: part and opening. */
    readonly open: ReadonlySet<string>;
    /** Pieces that are out of their part; the empty name is the whole part. */
    readonly out: ReadonlyMap<Id, ReadonlySet<string>>;
    /** Seals that were disturbed, by part and position, and not renewed yet. */
    readonly disturbed: ReadonlyMap<Id, ReadonlySet<string>>;
    /** New pieces that were fitted, by part. */
    readonly fitted: ReadonlyMap<Id, ReadonlySet<string>>;
    /** Engines and other consumers that run, and electric pumps. */
    readonly running: ReadonlySet<Id>;
    /** Engines and generators whose key is in, the stop control with it. */
    readonly keyIn: ReadonlySet<Id>;
    /** `bilge pump`, `battery switch`, `E1 seacock`. */
    readonly set: ReadonlyMap<string, string>;
    /** Cans by the part that they stand under, m³: what they take, and what is in them. */
    readonly cans: ReadonlyMap<Id, { readonly holds: number | undefined; readonly has: number }>;
    /** Parts that have pads under them. */
    readonly pads: ReadonlySet<Id>;
    /** What tanks hold, m³, where that is known; and how she lies. */
    readonly volumes: ReadonlyMap<Id, number>;
    readonly attitude: Attitude;
    /** Seconds cranked since the engine last ran. */
    readonly cranked: ReadonlyMap<Id, number>;
    /** Engines that were cranked with the seacock shut and have fired: it must be opened at once. */
    readonly dryImpeller: ReadonlySet<Id>;
    /** Valves that were seen to hold. */
    readonly proven: ReadonlySet<Id>;
    /** Separators that may have water under the fuel. */
    readonly water: ReadonlySet<Id>;
    /** Parts that were opened, bled at or taken off since the start. */
    readonly opened: ReadonlySet<Id>;
    /** Of these, those that nobody has looked at since. */
    readonly unseen: ReadonlySet<Id>;
    /** Cautions that stand before here, by topic; of `flood` with the part, unless it is for all. */
    readonly warned: ReadonlySet<CautionTopic | `flood ${string}`>;
}

export const openingKey = (part: Id, opening: string): string => `${part} ${opening}`;
