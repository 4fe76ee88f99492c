/**
 * What a generated procedure remarks under its steps and at its end, as data: a name, and what the sentence speaks of. Quantities in SI,
 * ids as they are. The sentences are made in the catalogue of messages, which knows each of these.
 */
import type { Id } from '../../model/boat';

/** A name, with what its sentence names. */
type Says<Say extends string, With extends Readonly<Record<string, number | string | readonly string[] | undefined>> | undefined = undefined> =
    With extends undefined ? { readonly say: Say } : { readonly say: Say; readonly with: With };

export type Remark =
    // Prepare
    /** They are stopped too, since they share what is shut or opened. */
    | Says<'also stops', { readonly consumers: readonly Id[] }>
    /** The engine has cooled until a hand rests on it. */
    | Says<'cold engine', { readonly engine: Id }>
    /** Nothing else that is electric is needed until that step. */
    | Says<'battery off until start'>
    // Isolate and prove
    /** What a setting cuts off from which tanks: the opened parts. */
    | Says<'cuts off', { readonly valve: Id; readonly parts: readonly Id[]; readonly tanks: readonly Id[] }>
    /** Nothing need be shut for this part: no tank reaches it as the valves stand. */
    | Says<'cut off already', { readonly parts: readonly Id[] }>
    /** No valve can cut it off, and none is needed: no tank can stand above it anywhere in the envelope. */
    | Says<'stays dry without a valve', { readonly part: Id; readonly opening: string; readonly tanks: readonly Id[] }>
    /** With this valve open the column would fall back to the tank: it stays shut until the part is closed. */
    | Says<'keeps the column', { readonly valve: Id; readonly parts: readonly Id[] }>
    /** It proves the valves only when a tank holds more than this, m³, upright. */
    | Says<'proves above', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string; readonly tank: Id; readonly volume: number }>
    /** At this opening a dry stream proves nothing upright: the tanks never stand above it. */
    | Says<'proves nothing', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string }>
    /** Whether it proves the valves cannot be said: heights are missing. */
    | Says<'may prove nothing', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string }>
    /** Loosen the lid so that air gets in: with the lid tight the stream dies by vacuum and proves nothing. */
    | Says<'let air in', { readonly part: Id; readonly by: string }>
    /** What is in the part comes first; then the stream must die. */
    | Says<'empties first', { readonly part: Id; readonly volume?: number | undefined }>
    /** If it does not die: close, and find which of these leaks before anything else is opened. */
    | Says<'if it runs on', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string }>
    // Open, renew, close
    /** So much comes, m³, with the valves shut; `more` names parts whose content is not known. */
    | Says<'comes', { readonly part: Id; readonly volume?: number | undefined; readonly more: readonly Id[] }>
    /** Fuel can come back by the return when she leans further than this, rad: open it near upright only. */
    | Says<'by the return', { readonly part: Id; readonly opening: string; readonly tank: Id; readonly port?: number | undefined; readonly stbd?: number | undefined }>
    /** Note how much water and dirt came, and their colour. */
    | Says<'note water', { readonly part: Id }>
    /** Drain until clean fuel comes, and no longer. */
    | Says<'until clean fuel', { readonly part: Id }>
    /** So many old seals in the hand before new ones go in. */
    | Says<'count old seals', { readonly part: Id; readonly seals: readonly string[] }>
    | Says<'oil seals', { readonly part: Id; readonly seals: readonly string[] }>
    /** The fineness of the element, m. */
    | Says<'element fineness', { readonly part: Id; readonly passes: number }>
    /** Dark, slimy or gritty: fit a new one. `under` is the running time, s, under which a clean one goes in again; `every` the interval of renewing it. */
    | Says<'renew instead', { readonly part: Id; readonly piece: string; readonly under?: number | undefined; readonly every?: number | undefined }>
    /** Nothing is poured in: fuel would pass no element. */
    | Says<'close it dry', { readonly part: Id; readonly why: 'not on the clean side' | 'forbidden' | 'nobody said that it may' }>
    /** Clean, filtered fuel, outside the element, to 10 mm under the rim. */
    | Says<'how to fill', { readonly part: Id; readonly volume?: number | undefined }>
    /** It may be left out: the pump then needs so many strokes, or seconds, at the vent instead of so many. */
    | Says<'filling saves', { readonly part: Id; readonly vent: Id; readonly filled: number; readonly dry: number; readonly in: 'strokes' | 's' }>
    /** No pump can push fuel to it, so it must be filled by hand. */
    | Says<'must be filled', { readonly part: Id }>
    /** Mark which end is which, and its arrow. */
    | Says<'mark ends', { readonly part: Id }>
    /** Same bore, m, and length, m; of a fire-resistant type where that is asked for. */
    | Says<'like for like', { readonly part: Id; readonly bore?: number | undefined; readonly length?: number | undefined; readonly fireResistant: 'yes' | 'no' }>
    | Says<'arrow downstream', { readonly part: Id }>
    /** Plug both ends at once. */
    | Says<'plug ends', { readonly part: Id }>
    /** Hand tight, then as its maker says. */
    | Says<'tighten', { readonly part: Id }>
    // Restore and bleed
    /** A valve stays where it is until this part is bled on its own leg. */
    | Says<'off line', { readonly part: Id; readonly lineUp: Id }>
    /** Electric: key or button in spells, and the supply that it needs is on. */
    | Says<'needs power', { readonly pump: Id }>
    /** No union beyond this vent is opened. */
    | Says<'low pressure ends', { readonly vent: Id; readonly engine: Id }>
    /** The lever has no stroke: turn the crank part of a turn, key out. */
    | Says<'no stroke', { readonly pump: Id }>
    /** There is no vent beyond: what small air is left it passes to its return when it runs. */
    | Says<'clears itself', { readonly consumer: Id }>
    /** No air came before it: nothing is bled. */
    | Says<'nothing to bleed', { readonly consumers: readonly Id[] }>
    /** By gravity: the tank's valve is the stop, and it is watched. */
    | Says<'runs by itself', { readonly tank: Id; readonly vent: Id; readonly stop: readonly Id[] }>
    // Start and verify
    /** No start within the budget, s: shut the seacock or drain the muffler before cranking on, and open it the instant it fires. */
    | Says<'if it does not start', { readonly engine: Id; readonly budget?: number | undefined }>
    | Says<'rail purges itself', { readonly engine: Id }>
    | Says<'moored for load', { readonly engine: Id }>
    /** With the element as it is and the tanks between their lowest and highest level, Pa; what it then reads is the new baseline. */
    | Says<'new baseline', { readonly gauge: Id; readonly elements: 'new' | 'as they are' }>
    /** Nothing can be reckoned: what it reads is written down as the baseline. */
    | Says<'no figure for gauge', { readonly gauge: Id; readonly consumer: Id }>
    /** A card, never a hand. */
    | Says<'dry card'>
    | Says<'bilge clean first'>
    /** What to see when a part is looked at. */
    | Says<'look for', { readonly part: Id; readonly signs: readonly string[] }>
    // Valves, pumps, gauges, checks
    | Says<'turns freely', { readonly valve: Id }>
    | Says<'delivers', { readonly pump: Id; readonly vent: Id }>
    | Says<'reads nought', { readonly gauge: Id }>
    // Acceptance, log, after
    | Says<'starts within', { readonly engine: Id; readonly tries: number; readonly seconds: number }>
    | Says<'joints dry', { readonly parts: readonly Id[] }>
    | Says<'gauge between', { readonly gauge: Id; readonly low: number; readonly high: number; readonly speed?: number | undefined }>
    | Says<'bowl clear', { readonly part: Id }>
    | Says<'line-up', { readonly lineUp: Id }>
    | Says<'log job', { readonly words: string; readonly engines: readonly Id[] }>
    | Says<'log reading', { readonly gauge: Id; readonly speed?: number | undefined }>
    | Says<'log water', { readonly part: Id }>
    | Says<'log strokes', { readonly vents: readonly Id[] }>
    | Says<'take from stock', { readonly part: Id; readonly pieces: readonly string[] }>
    | Says<'waste ashore', { readonly pieces: readonly string[] }>
    | Says<'after one hour', { readonly parts: readonly Id[] }>
    | Says<'next cold start', { readonly engine: Id }>;
