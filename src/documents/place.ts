/** A place in the texts, as documents show it: file, line and the words to underline. */
export interface PlaceInText {
    readonly file: string;
    /** From 1. */
    readonly line: number;
    readonly column: number;
    readonly length: number;
    /** The whole line. */
    readonly text: string;
}

/** One document of a boat, for the terminal shell to print or write. */
export interface Document {
    readonly path: string;
    readonly text: string;
}
