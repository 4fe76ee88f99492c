/** BLEED-DRIVE: each bleed point has a driver upstream that needs no power: a hand primer, a lever, or 50 mm of gravity head. */
import { describe, expect, test } from 'vitest';
import { SLOOP, after, before, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, vent?: string): Promise<string[]> => said('BLEED-DRIVE', texts, vent);
const UNDRIVEN = (vent: string, owner: string): string => `fail ${vent}, major: Nothing can push fuel to ${vent} on ${owner}: no primer or lever stands upstream with an open way, and no tank there is sure to stand above it.`;

test('PR1 drives all three; without its line the lever of LP1 drives what comes after it', async () => {
    expect(await rule(SLOOP)).toEqual(['pass BS1', 'pass BS2', 'pass BS3']);
    // Fuel could still run down to BS1 from T1, were it lower: its height is the fact to ask for.
    expect(await rule(without(SLOOP, 'primer PR1'))).toEqual(['cannot tell BS1: the height of BS1', 'pass BS2', 'pass BS3']);
    expect(await rule(edit(without(SLOOP, 'primer PR1'), 'bleed BS1', 'bleed BS1 at 900 mm'))).toEqual([UNDRIVEN('BS1', 'F1'), 'pass BS2', 'pass BS3']);
});

test('a primer downstream of the bleed point draws air in there', async () => {
    expect(await rule(edit(before(without(SLOOP, 'primer PR1'), 'hose S2 bore 8 mm', 'primer PR1'), 'bleed BS1', 'bleed BS1 at 900 mm'))).toEqual([UNDRIVEN('BS1', 'F1'), 'pass BS2', 'pass BS3']);
});

test('an electric primer needs power', async () => {
    const electric = edit(edit(SLOOP, 'primer PR1', 'electric primer PR1 when off passes'), 'bleed BS1', 'bleed BS1 at 900 mm');
    expect(await rule(electric, 'BS1')).toEqual(['fail BS1, minor: BS1 on F1 can be bled only by PR1, which needs power.']);
});

test('a shutoff that stands shut when running can be opened to bleed; one that only electricity works cannot be counted on', async () => {
    expect(await rule(edit(SLOOP, 'run is normal', 'run is normal { V1 shut }'), 'BS1')).toEqual(['pass BS1']);
    expect(await rule(edit(edit(SLOOP, 'run is normal', 'run is normal { V1 shut }'), 'shutoff V1', 'shutoff V1 solenoid'), 'BS1')).toEqual([UNDRIVEN('BS1', 'F1')]);
});

describe('by gravity, at the lowest level', () => {
    // The bottom at 200 mm, 10 % of 400 mm in it: the surface at 200 + 40 = 240 mm. 50 mm below it: 190 mm.
    // The line leaves the tank through its side at 205 mm, and stays below the surface on its way.
    const DRIVERLESS = ([['pickup P1   bore 8 mm', 'pickup P1   mouth at 205 mm   top at 205 mm'], ['shutoff V1   normally open', 'shutoff V1   at 205 mm   normally open'],
        ['passes 10 um', 'passes 10 um   ports at 150 mm'], ['  primer PR1\n', ''], ['  lift pump LP1\n', '']] as const).reduce((text, [old, now]) => edit(text, old, now), SLOOP);
    const at = (height: string, text = DRIVERLESS): string => edit(text, 'bleed BS1', `bleed BS1 ${height}`);
    test.each([['at 189 mm', 'pass BS1'], ['at 190 mm', 'pass BS1'], ['at 191 mm', UNDRIVEN('BS1', 'F1')], ['', 'cannot tell BS1: the height of BS1']])(
        'BS1 %s', async (height, verdict) => expect(await rule(at(height), 'BS1')).toEqual([verdict]));
    test('a line that rises over the tank top at 600 mm does not fill itself', async () => {
        expect(await rule(edit(at('at 189 mm'), 'mouth at 205 mm   top at 205 mm', 'mouth at 205 mm   top at 600 mm'), 'BS1')).toEqual([UNDRIVEN('BS1', 'F1')]);
    });
    test('how the line runs is not known', async () => {
        expect(await rule(edit(at('at 189 mm'), '   mouth at 205 mm   top at 205 mm', ''), 'BS1')).toEqual(['cannot tell BS1: the heights of T1.P1']);
    });
    test('the tank is not measured', async () => {
        const unknown = without(at('at 189 mm'), 'box 800 x 600 x 400 mm low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd');
        expect(await rule(unknown, 'BS1')).toEqual(['cannot tell BS1: the size and height of T1']);
    });
    test('the lowest level is not decided', async () => {
        expect(await rule(edit(at('at 189 mm'), '   level 10 to 95 %', ''), 'BS1')).toEqual(['cannot tell BS1: the lowest tank level']);
    });
});

test('a bleed point on no supply', async () => {
    expect(await rule(after(SLOOP, 'hose B1 bore 6 mm', 'filter F9 {\n bleed BS9\n}'), 'BS9')).toEqual(['not applicable BS9: it stands on no supply from a tank to a consumer']);
});
