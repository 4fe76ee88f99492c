/** What the view and the extension tell one another: plain data. */
import type { PictureParams, PictureResult } from '../server/protocol';

/** What is chosen in the view. */
export type Question = Omit<PictureParams, 'textDocument' | 'places' | 'known'>;

export type ToView =
    | { readonly tell: 'picture'; readonly document: string; readonly picture: PictureResult }
    /** There is no picture, and why. */
    | { readonly tell: 'nothing'; readonly words: string }
    /** The thing that the line under the cursor is about. */
    | { readonly tell: 'here'; readonly id: string | undefined };

export type FromView =
    /** `anew`: the view has no picture yet. */
    | { readonly do: 'ask'; readonly question: Question; readonly anew?: true }
    | { readonly do: 'open'; readonly id: string }
    /** So far down the sheet; without it, back. */
    | { readonly do: 'place'; readonly id: string; readonly by?: number }
    | { readonly do: 'save svg' }
    | { readonly do: 'save png'; readonly bytes: Uint8Array };

/** What the view keeps while it is hidden, and over a restart of the editor. */
export interface Kept {
    readonly document: string;
    readonly question: Question;
    readonly zoom?: number | 'whole';
    readonly left: number;
    readonly top: number;
}
