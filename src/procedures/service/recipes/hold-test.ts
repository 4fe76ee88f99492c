/**
 * Whether a shutoff holds: something behind it is opened a little, and the stream must die. That shows it only where the surface stands above the opening,
 * and where this valve keeps the tank away and no other. Where nothing behind it ever stands below the surface it is said what else shows it.
 */
import type { Id, Part } from '../../../model/boat';
import { distinct, missingOf } from '../../../analysis/missing';
import { headsOn } from '../../../analysis/opening/open';
import { openingsOf, type Opening } from '../../../analysis/opening/openings';
import { plumbing } from '../../../analysis/opening/plumbing';
import { supplyOnly } from '../../../analysis/opening/side';
import { thresholds } from '../../../analysis/opening/thresholds';
import { knots } from '../../../analysis/flow/demand';
import { runOn } from '../../../analysis/time/run-on';
import { burnersOf } from '../../../analysis/time/burners';
import { isManual } from '../../../analysis/topology/isolation';
import { runLineUps, turned } from '../../../analysis/topology/line-ups';
import { networkOf, type Positions } from '../../../analysis/topology/network';
import { partsBefore, running, tanksBefore } from '../../../analysis/topology/paths';
import { listed, litres } from '../../../model/words';
import { isolationOf, upright } from '../cut-off';
import type { Visit } from '../visit';
import { bodySeals, drainSeals, needed } from './pieces';
import type { Recipe } from './recipe';
import { planned } from '../step-of';
import { blank } from './operation';

const WORDS = 'for holding';
/** s: as long as the frame gives a stream to die (trade practice: some 10 s). */
const EACH = 15 * 60;

export const holdTest: Recipe = {
    verb: 'test',
    rows: (boat) => valvesOf(boat.parts).filter(({ id }) => feedsSomething(boat, id)).map(({ id }) => ({ verb: 'test', part: id, piece: WORDS })),
    fits: ({ boat }, { verb, part, piece }) => verb === 'test' && piece === WORDS && boat.parts.some(({ id, kind }) => id === part && kind === 'shutoff'),
    make: (visit, { part }) => {
        const { boat, lineUps, starts, request: { today } } = visit;
        const valve = part!;
        if (!valvesOf(boat.parts).some(({ id }) => id === valve)) return blank(`No hand can shut ${valve}.`);
        const { open, shut } = positionsOf(visit, valve);
        const behind = behindIt(visit, open, shut);
        const elsewhere = runLineUps(lineUps).filter(({ id, positions }) => id !== starts.id && behindIt(visit, turned(boat, positions, valve, 'open'), turned(boat, positions, valve, 'shut')).length > 0).map(({ id }) => id);
        if (behind.length === 0 && elsewhere.length > 0) return blank(`In ${starts.id} nothing is drawn through ${valve}. Ask for the procedure that starts from ${listed(elsewhere, 'or')}.`);
        if (behind.length === 0) return blank(`Nothing lies behind ${valve} that it alone keeps a tank from: whatever is opened, the stream dies or runs on for another reason.`);
        const found = behind.flatMap((opening) => levelsAt(visit, open, opening));
        const [best] = found.sort((a, b) => a.volume - b.volume);
        const lacks = behind.flatMap((opening) => headsOn(plumbing(networkOf(supplyOnly(boat)), open), opening, upright(visit)).flatMap((head) => head.lacks)).filter(({ of }) => of !== 'envelope');
        if (!best) return lacks.length > 0 ? blank(`Whether anything behind ${valve} stands below the surface cannot be told.`, distinct(lacks.map((lack) => missingOf(boat, lack)))) : blank(otherwise(visit, valve, open));
        const { tank, volume, opening } = best;
        const holds = today?.volumes.get(tank);
        if (holds !== undefined && holds <= volume) return blank(`${tank} holds ${litres(holds)}. With less than ${litres(volume)} nothing comes at the ${opening.name} of ${opening.part}, whether ${valve} holds or not. ${otherwise(visit, valve, open)}`);
        const opens = [{ part: opening.part, opening: opening.name }];
        const seals = opening.name === 'lid' || opening.name === 'ports' ? bodySeals(visit, opening.part) : [];
        const cut = isolationOf(visit, opens);
        if ('blank' in cut) return cut;
        if (!cut.settings.some((setting) => setting.part === valve)) return blank(`The ${opening.name} of ${opening.part} is cut off by ${listed(cut.settings.map((setting) => setting.part))} first. ${otherwise(visit, valve, open)}`);
        return {
            opens, parts: needed(opening.part, opening.name === 'drain' ? drainSeals(visit, opening.part) : seals), seconds: EACH,
            steps: [planned('open', { do: 'look', part: opening.part, piece: opening.name, words: 'not a drop' }, { say: 'if it leaks', with: { valve } }), ...(seals.length > 0 ? [planned('renew', { do: 'remove', part: opening.part, pieces: seals }), planned('renew', { do: 'fit', part: opening.part, pieces: seals }, { say: 'oil seals', with: { part: opening.part, seals } })] : [])],
        };
    },
};

const valvesOf = (parts: readonly Part[]): readonly Part[] => parts.filter((part) => isManual(part) && part.tag !== undefined);

function feedsSomething(boat: Visit['boat'], valve: Id): boolean {
    const allOpen = running(networkOf(boat), new Map(), 'all open');
    return boat.consumers.some(({ id }) => partsBefore(allOpen, `${id}:in`).has(valve));
}

function positionsOf({ boat, starts }: Visit, valve: Id): { open: Positions; shut: Positions } {
    return { open: turned(boat, starts.positions, valve, 'open'), shut: turned(boat, starts.positions, valve, 'shut') };
}

/** Lids, drains, bodies and bleed points to which a tank comes with the valve open and none with it shut. A joint is not undone for a test. */
function behindIt({ boat, network }: Visit, open: Positions, shut: Positions): Opening[] {
    const [before, after] = [running(network, open), running(network, shut)];
    return [...openingsOf(boat).values()].flat().filter(({ part, name }) => name !== 'joint' && network.through.has(part) && tanksBefore(before, `${part}:in`).length > 0 && tanksBefore(after, `${part}:in`).length === 0);
}

/** From which volume on a tank floods an opening upright, m³, as the valves stand; along its supply, with checks that hold. */
function levelsAt({ boat, ...visit }: Visit, positions: Positions, opening: Opening): { tank: Id; volume: number; opening: Opening }[] {
    const network = networkOf(supplyOnly(boat));
    return thresholds(plumbing(network, positions), opening, upright({ boat, ...visit })).flatMap(({ tank, volume }) => (typeof volume === 'number' ? [{ tank, volume, opening }] : []));
}

/** What else shows it, or that nothing does. */
function otherwise({ boat, network, starts }: Visit, valve: Id, open: Positions): string {
    const linedUp = running(network, open);
    const shut = running(network, turned(boat, open, valve, 'shut'));
    const primer = boat.parts.find(({ id, kind }) => (kind === 'hand primer' || kind === 'lift pump') && tanksBefore(linedUp, `${id}:in`).length > 0 && tanksBefore(shut, `${id}:in`).length === 0);
    const none = `Nothing behind ${valve} stands below the surface of ${listed(tanksBefore(linedUp, `${valve}:in`))} while she is upright, so no stream shows whether it holds.`;
    if (primer) return `${none} With ${valve} shut and the first bleed point behind it open, work ${primer.kind === 'lift pump' ? `the lever of ${primer.id}` : primer.id}: what comes must end after some strokes. If it does not, ${valve} leaks.`;
    const engines = burnersOf(network).filter(({ id }) => partsBefore(linedUp, `${id}:in`).has(valve)).flatMap((consumer) => {
        const { fedBy, seconds } = runOn(boat, consumer, starts.positions, [valve], knots(consumer.draws)[0]?.speed);
        return fedBy.length === 0 && seconds ? [`${consumer.id} idling must die within ${Math.ceil(seconds.most / 60)} min once ${valve} is shut`] : [];
    });
    return engines.length > 0 ? `${none} ${listed(engines)}; bleed it afterwards.` : `${none} Nothing on board shows it.`;
}
