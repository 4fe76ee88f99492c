/** What kinds of remark sentences have in common: their types, and the words that many of them use. */
import type { Boat, Id } from '../../model/boat';
import { fromSI } from '../../model/units';
import { figure, leanLimit, listed } from '../../model/words';
import type { Remark } from '../../procedures/service/remarks';
import { nameOf } from './naming';

type Named<Say extends Remark['say']> = Extract<Remark, { readonly say: Say }> extends { readonly with: infer With } ? With : undefined;
/** The sentence of each remark, from what it names. */
export type WordsOf<Say extends Remark['say']> = { readonly [Each in Say]: (named: Named<Each>, boat: Boat) => string };

/** One or many. */
export const s = (count: number, one: string, many: string): string => (count === 1 ? one : many);
export const ids = (boat: Boat, all: readonly Id[], last: 'and' | 'or' = 'and'): string => listed(all.map((id) => nameOf(boat, id)), last);
export const fineness = (si: number): string => `${figure(fromSI(si, 'um'))} µm`;
export const share = (part: number): string => `${figure(part * 100, 2)} %`;
/** 11° to port or 40° to starboard */
export const leans = (port: number | undefined, stbd: number | undefined): string => listed([...(port === undefined ? [] : [`${leanLimit(port)} to port`]), ...(stbd === undefined ? [] : [`${leanLimit(stbd)} to starboard`])], 'or');
