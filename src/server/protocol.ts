/** What the extension asks the server beyond the protocol of editors. Plain data; the only file that both read. */
import type { Range } from 'vscode-languageserver-types';

/** Asks for a drawing of the boat that a file belongs to. */
export const PICTURE = 'orlop/picture';
/** Told to the client when a boat may have changed: the views of it ask again, with the version that they show. */
export const CHANGED = 'orlop/changed';
/** Asks where in the texts a thing of the boat is written, and which thing stands at a place in a text. */
export const WHERE = 'orlop/where';
/** Asks for the text of the file of chosen places after a thing was put elsewhere, or back. */
export const PLACE = 'orlop/place';

export interface PictureParams {
    readonly textDocument: { readonly uri: string };
    readonly kind: 'schematic' | 'elevation';
    readonly lineUp?: string;
    /** Percent of the gross volume. */
    readonly level?: number;
    /** Degrees, positive with the starboard side down. */
    readonly heel?: number;
    /** What is shown over it, in the words of `orlop draw --show`; nothing when empty. */
    readonly show?: string;
    /** Of a procedure that is shown: the step, from 1. */
    readonly step?: number;
    /** The text of the file of chosen places beside the boat, if there is one. */
    readonly places?: string;
    /** The version that the view has: the answer is short when it still holds. */
    readonly known?: string;
}

export interface PictureResult {
    /** Equal when nothing that is seen has changed. */
    readonly version: string;
    /** Absent when `known` still holds. */
    readonly svg?: string;
    readonly words?: readonly { readonly text: string; readonly about?: string; readonly depth: number }[];
    /** Of a procedure that is walked: what is to be done in this step, and what is to be seen, in sentences. */
    readonly said?: readonly string[];
    /** A sentence: why what is shown is the last good picture, or why there is none. */
    readonly stale?: string;
    /** A sentence: what of the question was not understood. The picture is then the plain one. */
    readonly refused?: string;
    /** Things that stand where a person put them. */
    readonly placed: readonly string[];
    readonly choices: Choices;
}

/** What can be chosen for this boat. */
export interface Choices {
    readonly boat: string;
    readonly lineUps: readonly string[];
    /** Words for `show`, each with how it is called. */
    readonly shows: readonly { readonly show: string; readonly title: string }[];
    /** Steps of the procedure that is shown. */
    readonly steps?: number;
    /** Every thing that can be found, by id, with what it is called. */
    readonly things: readonly { readonly id: string; readonly name: string }[];
}

export interface ChangedParams {
    /** The folder of the boat. */
    readonly folder: string;
}

export type WhereParams = { readonly textDocument: { readonly uri: string } } & ({ readonly id: string } | { readonly position: { readonly line: number; readonly character: number } });

export interface WhereResult {
    readonly id: string;
    readonly uri: string;
    readonly range: Range;
}

export interface PlaceParams {
    readonly textDocument: { readonly uri: string };
    readonly id: string;
    /** Units of the sheet, down; without it the thing goes back to where it stands by itself. */
    readonly by?: number;
    /** The text of the file as it is, if there is one. */
    readonly places?: string;
}

export interface PlaceResult {
    /** Empty when nothing is put anywhere any more. */
    readonly text: string;
}
