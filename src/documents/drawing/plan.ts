/**
 * What of a schematic has to be placed, as a library for layout wants it: blocks of a size, each with ports at its edges, and links between
 * ports. Lines without a branch are one block, whose parts stand in a row: so a part that is put in shifts what follows on the sheet by its
 * own width and nothing else, and no order ever changes.
 */
export interface Plan {
    readonly blocks: readonly Block[];
    readonly links: readonly Link[];
}

export interface Block {
    readonly id: string;
    readonly width: number;
    readonly height: number;
    readonly ports: readonly Port[];
}

export interface Port {
    readonly id: string;
    readonly side: 'west' | 'east';
    /** Below the top of its block, where the block settles that itself. */
    readonly y?: number;
}

/** Read left to right on the sheet, which is against the flow for returns and vents. */
export interface Link {
    readonly id: string;
    readonly from: string;
    readonly to: string;
}

/** A plan laid out. */
export interface Laid {
    readonly width: number;
    readonly height: number;
    /** The upper left corner of each block, and its size, which is at least what was asked for. */
    readonly blocks: ReadonlyMap<string, { readonly x: number; readonly y: number; readonly width: number; readonly height: number }>;
    /** Where each port stands on the sheet. */
    readonly ports: ReadonlyMap<string, { readonly x: number; readonly y: number }>;
    /** Each link as a line of level and upright pieces, from its `from` to its `to`. */
    readonly links: ReadonlyMap<string, readonly (readonly [number, number])[]>;
}

/** Lays out a plan; rejects when the library fails. */
export type Layouter = (plan: Plan, chosen: Chosen) => Promise<Laid>;

/** Where a person put things, by the id of the thing: the middle of its symbol on the sheet. */
export type Chosen = ReadonlyMap<string, { readonly x: number; readonly y: number }>;
