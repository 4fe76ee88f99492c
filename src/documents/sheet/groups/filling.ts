/** Filling: the pressure in a tank while its air leaves by the vent, and what becomes of a full tank that grows warm. */
import type { Tank } from '../../../model/boat';
import { exactly } from '../../../analysis/estimate';
import { BASE, expansivityOf, volumeCorrection, type Expansivity } from '../../../analysis/flow/density';
import { GRADES } from '../../../analysis/flow/grades';
import { highLevel } from '../../../analysis/opening/condition';
import { FULL } from '../../../analysis/tanks/pickups';
import { AIR, CREST_K, fillingsOf, MOUTH_K, SHARE_OF_TEST, type Filling } from '../../../analysis/time/filling';
import { growth } from '../../../analysis/time/expansion';
import type { View } from '../../../checks/check';
import { distinct } from '../../../analysis/missing';
import { missingInTime } from '../../../checks/missing-in-time';
import { fromSI } from '../../../model/units';
import { figure } from '../../../model/words';
import { carried, input, within, type Input, type Step, type Working } from '../working';
import { frictionSteps, roughness, rowInputs } from './rows';
import { grossWorking } from './tanks';

export function fillingWorkings(view: View): Working[] {
    const tanks = fuelTanks(view);
    const grows = growthWorking(view);
    return [...fillingsOf(view.boat).filter(({ tank }) => tanks.some(({ id }) => id === tank)).map((filling) => pressureWorking(view, filling)), ...(grows ? [grows] : []), ...tanks.map((tank) => warmedWorking(view, tank, grows))];
}

const fuelTanks = ({ boat }: View): Tank[] => boat.tanks.filter(({ carries = 'diesel' }) => carries === 'diesel');

function pressureWorking(view: View, { tank: id, fill, vent, parts, rate, pressure, allowed, lacks }: Filling): Working {
    const { boat } = view;
    const tank = boat.tanks.find((other) => other.id === id)!;
    const row = rowInputs(view, parts, vent);
    const takes = tank.fittings.find((other) => other.id === fill)!.takes;
    const crests = Math.max(1, parts.filter((part) => view.network.parts.get(part)?.crest).length);
    const shared = {
        id: `pressure ${id} by ${fill}`, about: id, what: `The pressure in ${id} while it is filled, the air leaving by ${vent ?? 'its vent'} as fast as the fuel comes`, source: 'Darcy and Weisbach', rule: 'VENT-AREA',
        ...(allowed !== undefined && { limit: { value: exactly(allowed), unit: 'kPa', sense: 'at most' as const, from: { about: id, fact: 'tested', words: `${SHARE_OF_TEST * 100} % of the ${figure(fromSI(allowed / SHARE_OF_TEST, 'kPa'))} kPa that it was tested at (33 CFR 183.520, for petrol, by analogy)` } } }),
    };
    const missing = distinct(lacks.map((lack) => missingInTime(boat, lack)));
    const narrow = [...row.pipes].sort((a, b) => a.bore - b.bore)[0];
    if (!rate || !pressure || !takes || !narrow) return { ...shared, formula: 'p = ρ × v² / 2 × (f × L / D + K)', inputs: [], steps: [], notes: [], missing };
    const { steps, friction, rough, notes } = frictionSteps(row, rate.si, AIR.viscosity, narrow.number);
    return {
        ...shared, formula: `p = ρ / 2 × (${friction} + K × v${narrow.number}²)`, steps, result: { symbol: 'p', value: pressure, unit: 'kPa' }, missing,
        inputs: [
            input('Q', 'how fast it is filled', takes, 'L/min', { about: fill, fact: 'takes' }), ...row.inputs, ...(rough ? [roughness()] : []),
            input('ρ', 'density of air', AIR.density, 'kg/m3', { cited: 'handbook value' }), input('ν', 'viscosity of air', AIR.viscosity, 'mm2/s', { cited: 'handbook value' }),
            input('K', 'velocity heads of its mouths and bends', MOUTH_K + crests * CREST_K, '1', { cited: `${MOUTH_K} for the mouths, ${CREST_K} for ${crests > 1 ? 'each bend' : 'the bend'} at a crest (textbook values)` }),
        ],
        notes: [...notes, 'A clogged gauze takes more.'],
    };
}

/** What a litre grows by from the coldest of the envelope to the warmest; nothing where the envelope tells no temperature, or of no fuel that the tables know. */
function growthWorking({ boat }: View): Working | undefined {
    const { fuel } = boat.vessel.envelope;
    const { density, grade } = boat.vessel.fuel;
    const band = GRADES[grade ?? 'diesel'];
    if (!fuel) return undefined;
    const [cold, warm] = [fuel.low ?? fuel.si, fuel.high ?? fuel.si];
    const weight: Input = density ? input('ρ', 'density of the fuel at 15 °C', density, 'kg/m3', { about: 'vessel', fact: 'fuel density' })
        : { symbol: 'ρ', what: 'density of the fuel at 15 °C', value: band.density, unit: 'kg/m3', from: { taken: `${band.name}, ${figure(band.density.si)} kg/m³ (common practice; ${band.standard})` } };
    const rho = weight.value.si;
    const value = within([weight.value], (kg) => { const by = growth((kelvin) => volumeCorrection(kg!, kelvin), cold, warm); return by === undefined ? undefined : by - 1; });
    const by = expansivityOf(rho);
    if (!value || !by) return undefined;
    const alpha = by.a + by.k1 / rho + by.k0 / rho ** 2;
    return {
        id: 'growth of the fuel', about: 'vessel', what: 'What the fuel grows by from the coldest of the envelope to the warmest', formula: 'γ = c₁ / c₂ − 1', source: 'volume correction of API MPMS 11.1, base 15 °C; the text was not read', notes: [], missing: [],
        inputs: [input('T₁', 'coldest fuel', cold, 'degC', { about: 'vessel', fact: 'envelope fuel' }), input('T₂', 'warmest fuel', warm, 'degC', { about: 'vessel', fact: 'envelope fuel' }), weight],
        steps: [
            { symbol: 'α', what: 'swelling in a kelvin, for fuels of this density', formula: swelling(by), value: alpha, unit: '1' },
            ...([['₁', cold], ['₂', warm]] as const).flatMap(([i, kelvin]): Step[] => [
                { symbol: `s${i}`, what: `swelling from 15 °C, ${i === '₁' ? 'cold' : 'warm'}`, formula: `s${i} = α × (T${i} − ${BASE})`, value: alpha * (kelvin - BASE), unit: '1' },
                { symbol: `c${i}`, what: 'volume correction', formula: `c${i} = exp(−s${i} × (1 + 0.8 × s${i}))`, value: volumeCorrection(rho, kelvin)!, unit: '%' },
            ]),
        ], result: { symbol: 'γ', value, unit: '%' },
    };
}

/** Filled cold to its highest level, and warmed. */
function warmedWorking({ boat }: View, tank: Tank, grows: Working | undefined): Working {
    const gross = grossWorking(tank);
    const { fuel, level } = boat.vessel.envelope;
    const share = level ? highLevel(boat) : FULL;
    const value = within([...(gross.result ? [gross.result.value] : []), ...(grows?.result ? [grows.result.value] : [])], (whole, by) => (by === undefined ? undefined : share * whole! * (1 + by)));
    return {
        id: `warmed ${tank.id}`, about: tank.id, what: `What the fuel of ${tank.id}, filled cold, takes when it has grown warm`, formula: 'E = p × G × (1 + γ)', source: 'definition', steps: [], rule: 'EXPANSION',
        inputs: [...carried('G', `the whole inside of ${tank.id}`, gross), input('p', 'share to which it is filled', share, '%', level ? { about: 'vessel', fact: 'envelope level' } : { taken: `${FULL * 100} %, trade practice` }), ...(grows ? carried('γ', 'what the fuel grows by', grows) : [])],
        ...(value && gross.result && { result: { symbol: 'E', value, unit: 'L' }, limit: { value: gross.result.value, unit: 'L', sense: 'at most' as const, from: { step: gross.id } } }),
        missing: distinct([...gross.missing, ...(fuel ? [] : [missingInTime(boat, { about: 'vessel', of: 'fuel' })])]), notes: ['Beyond the whole inside it runs out of the vent, upright; heeled it may run out sooner. The tank is taken not to grow.'],
    };
}

/** α = A + K₀ / ρ² + K₁ / ρ, what is nought left out. */
const swelling = ({ a, k0, k1 }: Expansivity): string => `α = ${a === 0 ? '' : `${a < 0 ? '−' : ''}${Math.abs(a)} + `}${k0} / ρ²${k1 === 0 ? '' : ` + ${k1} / ρ`}`;
