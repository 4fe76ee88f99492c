/** PORT-ONCE: each port is joined to exactly one line. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, after, edit, said, without } from './boats';

const LINE_UP = 'line-up RUN run is normal';

test.each([
    ['a pick-up', 'T1.P1', SLOOP, after(SLOOP, LINE_UP, 'supply course Tap from T1.P1 to E1'), 'critical: T1.P1 is joined to 2 courses: Feed and Tap.'],
    ['a pick-up with no course', 'T1.P2', '', after(SLOOP, 'pickup P1 bore 8 mm', 'pickup P2 bore 8 mm'), 'minor: T1.P2 is joined to nothing.'],
    ['a drop with no course', 'T1.R1', SLOOP, edit(SLOOP, 'from E1 to T1.R1', 'from E1 to deck'), 'minor: T1.R1 is joined to nothing.'],
    ['a vent fitting', 'T1.vent', SLOOP, after(SLOOP, LINE_UP, 'vent course Second from T1 to air'), 'critical: T1.vent is joined to 2 courses: Breather and Second.'],
    ['a port of a selector', 'SV2', '', edit(TWIN, 'ports in, port, stbd', 'ports in, port, stbd, spare'), 'minor: Port spare of SV2 is joined to nothing.'],
    ['a port of a selector, twice', 'SV1', '', edit(TWIN, 'from T2.P1 to SV1.stbd', 'from T2.P1 to SV1.port'), 'critical: Port port of SV1 is joined to 2 courses: FromPort and FromStbd.'],
    ['a tee with two pipes', 'J1', after(after(SLOOP, 'primer PR1', 'tee J1'), LINE_UP, 'supply course Branch from J1 to E2\ngenerator E2'), after(SLOOP, 'primer PR1', 'tee J1'), 'minor: J1 is a tee, but only 2 of its pipes lead anywhere.'],
])('%s', async (_what, id, right, wrong, message) => {
    if (right !== '') expect(await said('PORT-ONCE', right, id)).toEqual([`pass ${id}`]);
    expect(await said('PORT-ONCE', wrong, id)).toContain(`fail ${id}, ${message}`);
});

test('the inlet and the outlet of an engine', async () => {
    expect(await said('PORT-ONCE', SLOOP, 'E1')).toEqual(['pass E1', 'pass E1']);
    expect(await said('PORT-ONCE', after(after(SLOOP, 'pickup P1 bore 8 mm', 'pickup P2'), LINE_UP, 'supply course Tap from T1.P2 to E1'), 'E1')).toEqual([
        'fail E1, critical: The supply inlet of E1 is joined to 2 courses: Feed and Tap.', 'pass E1',
    ]);
    expect(await said('PORT-ONCE', after(after(SLOOP, 'drop R1 bore 8 mm', 'drop R2'), LINE_UP, 'return course Leak from E1 to T1.R2'), 'E1')).toEqual([
        'pass E1', 'fail E1, critical: The return outlet of E1 is joined to 2 courses: Back and Leak.',
    ]);
});

test('a vent or a fill with no course stands for its whole line', async () => {
    const bare = edit(SLOOP, 'vent course Breather from T1 to air {\n  hose VH1     bore 16 mm\n}', '');
    expect(await said('PORT-ONCE', bare, 'T1.vent')).toEqual(['pass T1.vent']);
    expect(await said('PORT-ONCE', edit(without(SLOOP, 'hose FH1 bore 38 mm'), 'fill course Filler from deck to T1 {\n}', ''), 'T1.fill')).toEqual(['pass T1.fill']);
});
