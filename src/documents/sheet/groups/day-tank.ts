/** How warm a day tank grows by what its engines send back: where it tends to, and when it comes to the maker's limit. */
import type { Consumer } from '../../../model/boat';
import { exactly } from '../../../analysis/estimate';
import { dayTanks, heatingOf, riseOf, type DayTank } from '../../../analysis/time/heating';
import type { View } from '../../../checks/check';
import { distinct } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { listed } from '../../../model/words';
import { carried, input, type From, type Input, type Limit, type Step, type Working } from '../working';
import { fullOf, read } from './curves';
import { fullWorking, sub } from './tanks';

export const dayTankWorkings = (view: View): Working[] => dayTanks(view.boat).flatMap((tank) => tankWorkings(view, tank));

const SOURCE = 'balance of heat, of which none is lost to the air';

function tankWorkings({ boat }: View, dayTank: DayTank): Working[] {
    const { tank, returning } = dayTank;
    const { steady, limit, toLimit, toLimitAlone, lacks } = heatingOf(boat, dayTank);
    const fuel = boat.vessel.envelope.fuel;
    const names = listed(returning.map(({ id }) => id));
    const several = returning.length > 1;
    const reads = returning.map((consumer, i) => heatOf(consumer, several ? sub(i + 1) : ''));
    const heat = reads.map(({ term }) => term).join(' + ');
    const burns = returning.map((_, i) => `b${several ? sub(i + 1) : ''}`).join(' + ');
    const share = `${several ? `(${heat})` : heat} / ${several ? `(${burns})` : burns}`;
    const [before, inputs, steps] = [reads.flatMap((one) => one.before), reads.flatMap((one) => one.inputs), reads.flatMap((one) => one.steps)];
    const most: Limit | undefined = limit === undefined ? undefined : { value: exactly(limit), unit: 'degC', sense: 'at most', from: limitFrom(returning, limit) };
    const missing = distinct(lacks.filter(({ of }) => of !== 'shape').map((lack) => missingInTime(boat, lack)));
    const shared = { about: tank.id, source: SOURCE, where: `${names} at full speed` };
    const makeUp: Input[] = fuel ? [{ symbol: 'T₀', what: 'what it is topped up with, the envelope from its coldest to its warmest', value: { si: fuel.si, least: fuel.low ?? fuel.si, most: fuel.high ?? fuel.si }, unit: 'degC', from: { about: 'vessel', fact: 'envelope fuel' } }] : [];
    const end: Working = {
        ...shared, id: `warmth ${tank.id}`, what: `Where the temperature of ${tank.id} tends to, kept topped up`, formula: `T = T₀ + ${share}`, inputs: [...makeUp, ...inputs], steps, ...(steady && { result: { symbol: 'T', value: steady, unit: 'degC' } }),
        ...(most && { limit: most }), rule: 'DAYTANK-HEAT', missing, notes: ['What the tank loses to the air is left out: it stays cooler.'],
    };
    if (!fuel || limit === undefined || missing.length > 0) return [...before, end];
    const warmest = { ...input('T₀', 'the warmest that the fuel comes, and what is in it at first', fuel.high ?? fuel.si, 'degC', { about: 'vessel', fact: 'envelope fuel' }) };
    const full = fullWorking(tank);
    const common = [...carried('V', `what ${tank.id} holds`, full), warmest, input('Tₗ', 'the warmest that the maker allows', limit, 'degC', limitFrom(returning, limit)), ...inputs];
    const rise: Step = { symbol: 's', what: 'by how much it would grow warmer in the end', formula: `s = ${share}`, value: reads.reduce((all, one) => all + one.heat, 0) / reads.reduce((all, one) => all + one.burns, 0), unit: 'K' };
    const after = (id: string, what: string, formula: string, seconds: typeof toLimit): Working[] => (typeof seconds === 'number' && seconds > 0 ? [{ ...shared, id, what, formula, inputs: common, steps: [...steps, rise], result: { symbol: 't', value: exactly(seconds), unit: 'h' }, notes: ['By the best guesses, from the warmest fuel, filled to 95 %. It comes later, since heat is lost.'], missing: [] }] : []);
    const divisor = several ? `(${burns})` : burns;
    return [
        ...before, end, full,
        ...after(`time to limit ${tank.id}, topped up`, `After how long ${tank.id}, kept topped up, is as warm as the maker allows`, `t = V / ${divisor} × ln(s / (T₀ + s − Tₗ))`, toLimit),
        ...after(`time to limit ${tank.id}, not topped up`, `After how long ${tank.id}, not topped up, is as warm as the maker allows`, `t = V / ${divisor} × (1 − exp(−(Tₗ − T₀) / s))`, toLimitAlone),
    ];
}

function limitFrom(returning: readonly Consumer[], limit: number): From {
    const strictest = returning.find(({ limits: { fuel } }) => fuel && (fuel.low ?? fuel.si) === limit)!;
    return { about: strictest.id, fact: 'limits fuel' };
}

/** What one of them brings: (Q − b) × ΔT. */
function heatOf(consumer: Consumer, number: string): { readonly term: string; readonly inputs: readonly Input[]; readonly before: readonly Working[]; readonly steps: readonly Step[]; readonly heat: number; readonly burns: number } {
    const at = fullOf(consumer);
    const [draws, burns] = (['draws', 'burns'] as const).map((which) => (at ? read(consumer, which, at, `${which === 'draws' ? 'Q' : 'b'}${number}`) : { inputs: [], before: [] })) as [ReturnType<typeof read>, ReturnType<typeof read>];
    const { id, returns } = consumer;
    const rise = riseOf(consumer);
    const symbol = `Δ${number}`;
    const point = returns.length === 1 ? returns[0]! : undefined;
    const warm: Input[] = point ? [input(`T₂${number}`, `what ${id} returns`, point.value, 'degC', { about: id, fact: 'returns' }), input(`T₁${number}`, 'at what it draws', point.at, 'degC', { about: id, fact: 'returns' })] : [];
    const [q, b] = [draws.inputs[0]?.value.si ?? 0, burns.inputs[0]?.value.si ?? 0];
    const given: Input[] = !point && rise ? [{ symbol, what: `by how much ${id} warms what it returns, the mean of what is written`, value: rise, unit: 'K', from: { about: id, fact: 'returns' } }] : [];
    return {
        term: `(Q${number} − b${number}) × ${symbol}`, before: [...draws.before, ...burns.before], inputs: [...draws.inputs, ...burns.inputs, ...warm, ...given],
        steps: point && rise ? [{ symbol, what: `by how much ${id} warms it`, formula: `${symbol} = max(0, T₂${number} − T₁${number})`, value: rise.si, unit: 'K' }] : [], heat: (q - b) * (rise?.si ?? 0), burns: b,
    };
}
