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
    /** It stands at the right edge: nothing leads on from it. */
    readonly last?: true;
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
    /** The upper left corner of each block and its size; `top` is where what is joined to it begins, all of which moves together. */
    readonly blocks: ReadonlyMap<string, { readonly x: number; readonly y: number; readonly width: number; readonly height: number; readonly top: number }>;
    /** Where each port stands on the sheet. */
    readonly ports: ReadonlyMap<string, { readonly x: number; readonly y: number }>;
    /** Each link as a line of level and upright pieces, from its `from` to its `to`. */
    readonly links: ReadonlyMap<string, readonly (readonly [number, number])[]>;
}

/**
 * How far down the sheet a person put blocks, by id, from where what is joined to them begins. How far right a block stands follows from
 * what lies before it, so that nobody can draw a flow that turns back.
 */
export type Rows = ReadonlyMap<string, number>;

/** Lays out a plan; rejects when the library fails. */
export type Layouter = (plan: Plan, rows: Rows) => Promise<Laid>;
