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
    /** Others that draw through a valve that is set: some are without fuel meanwhile, some draw another way. */
    | Says<'feeds too', { readonly valve: Id; readonly stopped: readonly Id[]; readonly less: readonly Id[] }>
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
    /** It was loosened for air alone: it is made tight again, and its seal looked at. */
    | Says<'tight again', { readonly part: Id; readonly opening: string }>
    /** A union or a body that is only cracked lets no air in: the line hangs by vacuum, and a stream that dies proves nothing. */
    | Says<'air at the opening', { readonly part: Id; readonly opening: string }>
    /** What is in the part comes first, m³, and what hangs in the lines; from then on the stream must die. */
    | Says<'empties first', { readonly part: Id; readonly volume?: number | undefined; readonly lines?: number | undefined }>
    /** If it does not die: close, and find which of these leaks before anything else is opened. */
    | Says<'if it runs on', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string }>
    // Open, renew, close
    /** Where nothing proves the valves: what to do if it comes all the same. */
    | Says<'if it comes', { readonly valves: readonly Id[]; readonly part: Id; readonly opening: string }>
    /** A body without a drain holds so much, m³, when it comes off. */
    | Says<'comes off full', { readonly part: Id; readonly volume?: number | undefined }>
    /** So much comes, m³, with the valves shut, `own` of it out of the part itself; `more` names parts whose content is not known. */
    | Says<'comes', { readonly part: Id; readonly volume?: number | undefined; readonly own?: number | undefined; readonly more: readonly Id[] }>
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
    /** Plug all of its ends at once, and take the plugs out before the new one goes on. */
    | Says<'plug ends', { readonly part: Id; readonly count: number }>
    | Says<'plugs out', { readonly part: Id; readonly count: number }>
    /** A lift pump's lever lies on a cam of the engine. */
    | Says<'off the cam', { readonly pump: Id }>
    | Says<'onto the cam', { readonly pump: Id }>
    /** For its washer the drain plug, that was only cracked, comes right out. */
    | Says<'plug right out', { readonly part: Id }>
    /** Hand tight, then as its maker says. */
    | Says<'tighten', { readonly part: Id }>
    // Restore and bleed
    /** A part that the end line-up leaves off line, and the line-up in which it was bled; none: it may hold air. */
    | Says<'off line', { readonly part: Id; readonly lineUp: Id; readonly bled?: Id }>
    /** Electric: key or button in spells, and the supply that it needs is on. */
    | Says<'needs power', { readonly pump: Id }>
    /** One at the switch of an electric pump, one at the bleed point, who calls. */
    | Says<'two at it', { readonly pump: Id; readonly vent: Id }>
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
    /** No start within the budget, s: shut the seacock or drain the muffler before cranking on, and open it the instant it fires; first bleed again at the last point. */
    | Says<'if it does not start', { readonly engine: Id; readonly budget?: number | undefined; readonly vent?: Id | undefined }>
    | Says<'rail purges itself', { readonly engine: Id }>
    | Says<'moored for load', { readonly engine: Id }>
    /** For these elements, new in some filters and old in others, and tanks at this level; a hundred millimetres of level are 0.8 kPa. What it then reads is the new baseline. */
    | Says<'new baseline', { readonly gauge: Id; readonly renewed: readonly Id[]; readonly old: readonly Id[]; readonly level: 'half full' | 'as today' }>
    /** Nothing can be reckoned: what it reads is written down as the baseline. */
    | Says<'no figure for gauge', { readonly gauge: Id; readonly consumer: Id }>
    /** Before the start: each joint that was opened is dry. */
    | Says<'dry at rest'>
    /** A card, never a hand. */
    | Says<'dry card'>
    | Says<'bilge clean first'>
    /** Tools, plugs, pads and cans are all there again: none is left in a line or in the bilge. */
    | Says<'count back'>
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
    | Says<'next cold start', { readonly engine: Id }>
    | OperationRemark;

/** Of operations rather than of an opened part: recipes of transfer, polishing, cans, duplexes, tests, laying up. */
type OperationRemark =
    // Transfer
    /** Before the pump runs the source holds at least, and the tank at most, so much, m³; else it is not begun. Both are written down. */
    | Says<'sound first', { readonly from: Id; readonly to: Id; readonly least: number; readonly most?: number | undefined }>
    /** More is planned, m³, than fits today. */
    | Says<'moves less', { readonly lineUp: Id; readonly volume: number; readonly planned: number }>
    /** m³ and s; where it is not known what the tank holds, for all that it takes when it is empty. */
    | Says<'expect transfer', { readonly pump: Id; readonly from: Id; readonly to: Id; readonly volume: number; readonly least: number; readonly likely: number; readonly most: number; readonly fromEmpty: 'yes' | 'no' }>
    /** One stands by at the sounding, with the switch in reach. */
    | Says<'never unattended', { readonly pump: Id; readonly tank: Id }>
    /** At once: the tank does not rise, the pump changes its note, fuel or foam comes from the vent; the tank at this mark or the source at what it keeps, m³. */
    | Says<'stop pumping if', { readonly pump: Id; readonly from: Id; readonly to: Id; readonly mark: number; readonly keeps: number }>
    /** Once these valves are set the engine draws from other tanks than that which is filled. */
    | Says<'another tank feeds', { readonly engine: Id; readonly tank: Id; readonly tanks: readonly Id[] }>
    /** No other tank can feed it: what filling stirs up goes to its filters, so it is better stopped. */
    | Says<'only this tank', { readonly engine: Id; readonly tank: Id }>
    /** It stays stopped: in this line-up it would draw from the tank that is filled. */
    | Says<'stopped while filled', { readonly engine: Id; readonly tank: Id }>
    /** What the one lost the other gained; else fuel went elsewhere: look in the bilge and at the vents before anything else. */
    | Says<'levels agree', { readonly from: Id; readonly to: Id }>
    | Says<'log levels', { readonly tanks: readonly Id[] }>
    | Says<'log run', { readonly pump: Id }>
    // Polishing
    /** m³ in the tank, s for one turn of it, for the fewest and for the better count; shares that have not been through the filter by then. */
    | Says<'expect turns', { readonly tank: Id; readonly volume: number; readonly turn: number; readonly turns: number; readonly likely: number; readonly better: number; readonly longer: number; readonly leaves: number; readonly leavesLess: number }>
    /** Every so many s; done with, Pa, or the flow falls off: stop and renew it, then go on. */
    | Says<'watch element', { readonly filter: Id; readonly every: number; readonly gauges: readonly Id[]; readonly dirty?: number | undefined }>
    /** Somebody is on board and looks at it all the while. */
    | Says<'stay on board', { readonly pump: Id; readonly tank: Id }>
    /** It draws by the same pickup as the pump, which would leave it air. */
    | Says<'one pickup', { readonly engine: Id; readonly pump: Id }>
    /** The tank covers the pickup of the pump, m³; else it draws air. */
    | Says<'covers pickup', { readonly tank: Id; readonly pump: Id; readonly least?: number | undefined }>
    | Says<'have a spare', { readonly filter: Id }>
    /** It comes back to where it was drawn: a level that falls is a leak, or fuel that goes to another tank. */
    | Says<'level stays', { readonly tank: Id }>
    /** A sample from the bottom, in a jar against the light. */
    | Says<'sample clear', { readonly tank: Id }>
    // A can in an emergency
    /** She lies safe meanwhile: it stands still, hot as it is. */
    | Says<'lie safe', { readonly engine: Id }>
    /** What this is for, and that it is stopped before the can is empty. */
    | Says<'until home', { readonly engine: Id }>
    /** The height of the bottom of the can over the datum, m. */
    | Says<'can stands', { readonly part: Id; readonly up: number }>
    /** s that a litre lasts at the speed at which it is run, rev/s, by what it burns where the return comes back to the can. */
    | Says<'a litre lasts', { readonly engine: Id; readonly speed?: number | undefined; readonly seconds?: number | undefined }>
    | Says<'keep it filled', { readonly can: Id }>
    /** What hangs there goes, what was plugged and shut comes back. */
    | Says<'back to the tank', { readonly engine: Id; readonly lineUp: Id; readonly opened: readonly Id[]; readonly plugged: readonly Id[]; readonly tap: Id; readonly valves: readonly Id[] }>
    // A duplex under way
    /** It must be full and bled; if it was opened since and not bled, it is not turned to. */
    | Says<'standby is full', { readonly filters: readonly Id[]; readonly vents: readonly Id[] }>
    /** Idle, with room to stop, lee shore none. */
    | Says<'sea room', { readonly engines: readonly Id[] }>
    /** Slowly, over some seconds; what it passes on the way. */
    | Says<'turn slowly', { readonly valve: Id; readonly passes?: string | undefined }>
    /** If it falters before anything is opened, it is turned back at once. */
    | Says<'turn back if', { readonly valve: Id; readonly position: string; readonly engines: readonly Id[] }>
    /** From the first opening on it is not turned back: the open side would give air, or flood. */
    | Says<'never back', { readonly valve: Id; readonly position: string; readonly part: Id; readonly engines: readonly Id[]; readonly openings: readonly string[] }>
    /** The other side carries all: it is not touched. */
    | Says<'not the other side', { readonly opens: readonly Id[]; readonly runs: readonly Id[] }>
    /** Nothing bleeds it while the engine runs on the other side: filled to the brim and topped up. */
    | Says<'to the brim', { readonly part: Id }>
    /** At the top of the page: that side is not bled when it ends, and with the engine stopped it would be. */
    | Says<'ends unbled', { readonly valve: Id; readonly was: string; readonly position: string; readonly parts: readonly Id[]; readonly engines: readonly Id[] }>
    /** The side that runs shows no bubbles; that which was opened is full and dry. */
    | Says<'idle side full', { readonly parts: readonly Id[]; readonly runs: readonly Id[]; readonly engines: readonly Id[] }>
    /** Bled by these with the engine stopped, before it carries the engine. */
    | Says<'bleed before use', { readonly valve: Id; readonly position: string; readonly part: Id; readonly vents: readonly Id[] }>
    // After running dry
    /** No more cranking: an injection pump runs dry on its own fuel. */
    | Says<'stop cranking', { readonly engine: Id }>
    /** Dirt and water of the bottom have gone to the filters: look at the bowl, and have elements to hand. */
    | Says<'bottom came along', { readonly filters: readonly Id[] }>
    /** Others that draw from the same tank: each is bled before it runs. */
    | Says<'bleed these too', { readonly consumers: readonly Id[]; readonly tanks: readonly Id[] }>
    // Shutoffs from afar, and whether one holds
    /** It goes back by hand at the valve, or by its cable: turn it, and feel that it moves freely. */
    | Says<'reset at the valve', { readonly valve: Id }>
    /** By its switch: it shuts when the current is off. */
    | Says<'shut by its switch', { readonly valve: Id }>
    /** What the lever must show: it lies across the pipe when shut. A pull that came loose moves no lever. */
    | Says<'lever tells', { readonly valve: Id; readonly position: 'open' | 'shut' }>
    /** An engine that dies within so many s, idling, shows that it is the right valve; done on a survey, and it may need a bleed: not part of this test. */
    | Says<'engine would die', { readonly valve: Id; readonly engine: Id; readonly seconds?: number | undefined }>
    | Says<'if it leaks', { readonly valve: Id }>
    // Laying up, and taking her into use again
    /** So long that treated fuel has come to the injectors. */
    | Says<'treated fuel', { readonly engine: Id }>
    /** To preserve the fuel side with oil is the maker's to say. */
    | Says<'preserving is the maker\'s', { readonly engines: readonly Id[] }>
    /** This line-up leaves a consumer open to its tanks. */
    | Says<'still open', { readonly consumer: Id; readonly tanks: readonly Id[]; readonly lineUp: Id }>
    /** Not drained here: off line, bowls are looked at only. */
    | Says<'only looked at', { readonly parts: readonly Id[] }>
    | Says<'log levels and water', { readonly tanks: readonly Id[] }>;
