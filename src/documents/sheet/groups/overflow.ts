/** Line-ups in which a consumer returns to another tank than it draws from: how fast tanks rise and fall, and when one runs over or comes dry. */
import type { Consumer, Id } from '../../../model/boat';
import { exactly, type Estimate } from '../../../analysis/estimate';
import { highLevel, lowLevel } from '../../../analysis/opening/condition';
import { grossOf } from '../../../analysis/tanks/liquid';
import type { When } from '../../../analysis/time/lack';
import { fills, ledgersOf, uncovers, type Ledger } from '../../../analysis/time/overflow';
import type { ResolvedLineUp } from '../../../analysis/topology/line-ups';
import type { View } from '../../../checks/check';
import { distinct } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { fromSI, toSI } from '../../../model/units';
import { figure, listed } from '../../../model/words';
import { byName, carried, input, type Input, type Limit, type Step, type Working } from '../working';
import { fullOf, read } from './curves';
import { grossWorking, lowestPickup, sub, unusableWorking } from './tanks';

/** With less there is no night's run: common practice, ours. */
const NIGHT: Limit = { value: exactly(toSI(10, 'h')), unit: 'h', sense: 'at least', from: { cited: 'a night\'s run, common practice' } };

export const overflowWorkings = (view: View): Working[] => [...view.runs].sort((a, b) => byName(a.id, b.id)).flatMap((lineUp) => {
    const ledgers = ledgersOf(view.boat, lineUp);
    const apart = ledgers.filter(({ tank, gives, takes }) => gives.some(({ by }) => ledgers.some((other) => other.tank !== tank && other.takes.some((one) => one.by === by))) || takes.some(({ by }) => ledgers.some((other) => other.tank !== tank && other.gives.some((one) => one.by === by))));
    return apart.flatMap((ledger) => tankWorkings(view, lineUp, ledgers, ledger));
});

function tankWorkings(view: View, lineUp: ResolvedLineUp, ledgers: readonly Ledger[], ledger: Ledger): Working[] {
    const { boat } = view;
    const tank = boat.tanks.find(({ id }) => id === ledger.tank)!;
    const rate = netWorkings(view, lineUp, ledgers, ledger);
    const net = rate.at(-1)!;
    const gross = grossOf(tank);
    const level = midway(view);
    const volume = (gross ?? NaN) * (lowLevel(boat) + highLevel(boat)) / 2;
    const shared = { about: tank.id, source: 'volume by flow', where: `line-up ${lineUp.id}, full speed, upright` };
    const inputs = [...carried('G', `the whole inside of ${tank.id}`, grossWorking(tank)), ...level, ...carried('N', 'how fast it rises', net)];
    const steps = [middle(view)];
    const missingFor = (lacks: typeof ledger.lacks): Working['missing'] => distinct(lacks.map((lack) => missingInTime(boat, lack)));
    const { toGross, lacks } = fills(tank, volume, ledger);
    const overflow: Working = {
        ...shared, id: `overflow ${tank.id}, ${lineUp.id}`, what: `After how long ${tank.id}, at first midway between its levels, is full and runs out of its vent`, formula: 't = (1 − p) × G / N',
        inputs, steps, ...whenOf(toGross), limit: NIGHT, rule: 'RETURN-OVERFLOW', notes: [...whenNotes(toGross), ...joinedNotes(ledger)], missing: missingFor(lacks),
    };
    const dries = ledger.net.least < 0 && lacks.length === 0 ? uncovers(boat, lineUp, tank, volume, ledger).flatMap((pickup): Working[] => {
        const pickups = tank.fittings.filter(({ kind }) => kind === 'pickup');
        const id = pickup.pickup;
        const rest = lowestPickup(pickups)?.id === id ? unusableWorking(tank, pickups) : unusableWorking(tank, tank.fittings.filter((other) => other.id === id), ` down to ${id}`);
        return [rest, {
            ...shared, id: `dry ${id}, ${lineUp.id}`, what: `After how long ${id} draws air, ${tank.id} at first midway between its levels`, formula: 't = max(0, p × G − R) / |N|',
            inputs: [...carried('R', `what stays in it below ${id}`, rest), ...inputs], steps, ...whenOf(pickup.after), notes: [...whenNotes(pickup.after), ...joinedNotes(ledger)], missing: missingFor(pickup.lacks),
        }];
    }) : [];
    // By the worst of the guesses it may do either.
    return [...rate, ...(ledger.net.most > 0 || lacks.length > 0 ? [overflow] : []), ...dries];
}

const midway = ({ boat }: View): Input[] => (boat.vessel.envelope.level ? [
    input('p₁', 'lowest level, as a share of the whole inside', lowLevel(boat), '%', { about: 'vessel', fact: 'envelope level' }), input('p₂', 'highest level', highLevel(boat), '%', { about: 'vessel', fact: 'envelope level' }),
] : []);
const middle = ({ boat }: View): Step => ({ symbol: 'p', what: `midway between ${boat.vessel.envelope.level ? 'the levels of the envelope' : 'empty and full, since the envelope states no level'}`, formula: boat.vessel.envelope.level ? 'p = (p₁ + p₂) / 2' : 'p = 1 / 2', value: (lowLevel(boat) + highLevel(boat)) / 2, unit: '%' });

/** Nothing when it never comes by the best guesses. */
function whenOf(when: When | undefined): Pick<Working, 'result'> {
    if (when?.si === undefined) return {};
    const value: Estimate = { si: when.si, least: when.soonest, most: when.latest ?? when.si };
    return { result: { symbol: 't', value, unit: 'h' } };
}

function whenNotes(when: When | undefined): string[] {
    if (!when) return [];
    if (when.si === undefined) return [`By the best guesses it never comes; it may come after ${figure(fromSI(when.soonest, 'h'))} h.`];
    return when.latest === undefined ? ['By other guesses, or with what runs over from a joined tank, it comes later or never.'] : [];
}

const joinedNotes = ({ joined }: Ledger): string[] => (joined.length > 0 ? [`An open line joins ${listed(joined)} to it, which ${joined.length > 1 ? 'take' : 'takes'} or ${joined.length > 1 ? 'give' : 'gives'} a share.`] : []);

/** The last of them is how fast the tank rises, the others what that rests on. */
function netWorkings({ boat }: View, lineUp: ResolvedLineUp, ledgers: readonly Ledger[], ledger: Ledger): Working[] {
    const inputs: Input[] = [];
    const before: Working[] = [];
    const terms: string[] = [];
    const notes: string[] = [];
    const symbols = new Map<string, string>();
    const add = (consumer: Consumer, which: 'burns' | 'draws'): string | undefined => {
        const key = `${which} ${consumer.id}`;
        const known = symbols.get(key);
        const at = fullOf(consumer);
        if (known !== undefined || !at) return known;
        const symbol = `${which === 'burns' ? 'b' : 'Q'}${sub([...symbols.keys()].filter((other) => other.startsWith(which)).length + 1)}`;
        const found = read(consumer, which, at, symbol);
        if (found.inputs.length === 0) return undefined;
        inputs.push(...found.inputs);
        before.push(...found.before);
        symbols.set(key, symbol);
        return symbol;
    };
    const sides = (by: Id): { gives: number; takes: number } => ({ gives: ledgers.filter(({ gives }) => gives.some((one) => one.by === by)).length, takes: ledgers.filter(({ takes }) => takes.some((one) => one.by === by)).length });
    const share = (count: number): string => (count > 1 ? ` / ${count}` : '');
    for (const id of [...new Set([...ledger.takes, ...ledger.gives].map(({ by }) => by))]) {
        const consumer = boat.consumers.find((other) => other.id === id);
        if (!consumer) continue;
        const { gives, takes } = sides(id);
        const [takesHere, givesHere] = [ledger.takes.some(({ by }) => by === id), ledger.gives.some(({ by }) => by === id)];
        const alone = gives === 1 && givesHere && (takes === 0 || (takes === 1 && takesHere));
        const b = alone || takes === 0 || takesHere ? add(consumer, 'burns') : undefined;
        if (alone || (givesHere && takes === 0)) { if (b !== undefined) terms.push(`− ${b}${alone ? '' : share(gives)}`); continue; }
        const q = add(consumer, 'draws');
        if (takesHere && b !== undefined && q !== undefined) terms.push(`+ (${q} − ${b})${share(takes)}`);
        if (givesHere && q !== undefined) terms.push(`− ${q}${share(gives)}`);
        if (takesHere && takes > 1) notes.push(`What ${id} returns is taken as shared alike by ${takes} tanks; it may all go to one.`);
        if (givesHere && gives > 1) notes.push(`What ${id} draws is taken as shared alike by ${gives} tanks; it may all come from one.`);
    }
    const [only] = terms;
    const formula = terms.length === 1 && only!.startsWith('+ (') && only!.endsWith(')') ? only!.slice(3, -1) : terms.join(' ').replace(/^\+ /, '').replace(/^− /, '−');
    const missing = distinct(ledger.lacks.map((lack) => missingInTime(boat, lack)));
    return [...before, {
        id: `rise ${ledger.tank}, ${lineUp.id}`, about: ledger.tank, what: `How fast ${ledger.tank} rises, by what is returned to it and drawn from it (below nought it falls)`, formula: `N = ${formula || 'what is returned − what is drawn'}`, source: 'balance of flows',
        inputs: inputs.sort((a, b) => byName(a.symbol, b.symbol)), steps: [], where: `line-up ${lineUp.id}, full speed`, ...(missing.length === 0 && terms.length > 0 && { result: { symbol: 'N', value: ledger.net, unit: 'L/h' } }), notes, missing,
    }];
}
