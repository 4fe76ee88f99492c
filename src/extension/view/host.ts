/** The side of the editor, as the view sees it. */
import type { FromView, Kept } from '../messages';

declare function acquireVsCodeApi(): { postMessage(message: FromView): void; getState(): Kept | undefined; setState(state: Kept): void };
const host = acquireVsCodeApi();

export const post = (message: FromView): void => host.postMessage(message);
export const kept = (): Kept | undefined => host.getState();
export const keep = (state: Kept): void => host.setState(state);

/** An element of the page, which has all that are asked for. */
export const element = <E extends HTMLElement>(id: string): E => document.getElementById(id) as E;
