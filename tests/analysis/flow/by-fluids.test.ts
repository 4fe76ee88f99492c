/** Water and friction against two libraries for Python. What they reckon stands in by-fluids.json, with the script that wrote it beside it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { frictionFactor } from '../../../src/analysis/flow/pipe';
import { waterDensity, waterTension, waterViscosity } from '../../../src/analysis/flow/water';

interface Told {
    readonly water: readonly { celsius: number; density: number; viscosity: number; tension: number }[];
    readonly friction: readonly { reynolds: number; roughness: number; colebrook: number; swameeJain: number }[];
}

const { water, friction } = JSON.parse(readFileSync(new URL('by-fluids.json', import.meta.url), 'utf8')) as Told;
const off = (found: number, told: number): number => Math.abs(found / told - 1);

describe('water by IAPWS', () => {
    test.each(water)('at $celsius °C', ({ celsius, density, viscosity, tension }) => {
        // Kell has water without air on the scale of 1968, which is some parts in 100 000 off; the short formula is good to 1 % by its makers, and much nearer here.
        expect(off(waterDensity(celsius + 273.15), density)).toBeLessThan(3e-5);
        expect(off(waterViscosity(celsius + 273.15), viscosity)).toBeLessThan(5e-4);
        expect(off(waterTension(celsius + 273.15), tension)).toBeLessThan(1e-5);
    });
    test('beyond 0 to 100 °C it is as at the end', () => expect([waterDensity(200), waterViscosity(500)]).toEqual([waterDensity(273.15), waterViscosity(373.15)]));
});

describe('the friction factor', () => {
    test.each(friction)('at Re $reynolds and a roughness of $roughness', ({ reynolds, roughness, colebrook, swameeJain }) => {
        // The library writes (6.97/Re)^0.9 where the paper has 5.74/Re^0.9. By its own two columns Swamee and Jain are up to 3.1 % off Colebrook, most at Re 4000.
        expect(Math.abs(frictionFactor(reynolds, roughness) - swameeJain)).toBeLessThan(3e-6);
        expect(off(frictionFactor(reynolds, roughness), colebrook)).toBeLessThan(0.032);
    });
});
