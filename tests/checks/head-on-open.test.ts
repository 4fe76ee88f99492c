/** HEAD-ON-OPEN: whether what is opened floods in the line-up in which it is opened. */
import { describe, expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { SLOOP, TWIN, before, edit, load, said, without, type Texts } from './boats';
import { HALF, f1, f2, service } from './half-full';

const rule = (texts: Texts, part = 'F1'): Promise<string[]> => said('HEAD-ON-OPEN', texts, part);
/** 100 mm to port and as far forward as the middle of the tank. */
const at = (up: number): string => `ports at ${up} mm up, 2400 mm fwd, 100 mm port`;

/*
 * 20 deg to port, bow 5 deg up or down: ((400 - 600) cos 20 + 700 sin 20) cos 5 = (-187.9 + 239.4) 0.9962 = 51.3 mm.
 * At 640 mm: (-225.5 + 239.4) 0.9962 = 13.8 mm, less than the 20 mm that count as level.
 */
const CORNER = 'F1 floods at its ports, 51 mm below the surface of T1 (heeled 20° to port, bow 5° down, T1 at 50 %, in';
test('a line-up for service that shuts V1, and one that does not', async () => {
    expect(await rule(service(f1(HALF, at(600)), 'V1 shut'))).toEqual(['pass F1']);
    expect(await rule(service(f1(HALF, at(600))))).toEqual([`fail F1, minor: Line-up SERVICE is for service and leaves F1 open to T1: opened, ${CORNER} SERVICE).`]);
    expect(await rule(service(f1(HALF, at(640))))).toEqual(['pass F1']);
});
test('no line-up for service', async () => {
    expect(await rule(f1(HALF, at(600)))).toEqual([`fail F1, minor: No line-up is for service, and as she runs ${CORNER} RUN).`]);
    expect(await rule(f1(HALF, at(640)))).toEqual(['pass F1']);
});
test('what is to be set is named', async () => {
    const found = async (text: string) => judge((await load(text)).boat).findings.find(({ rule: { code } }) => code === 'HEAD-ON-OPEN')!;
    expect((await found(service(f1(HALF, at(600))))).advice).toBe('Set V1 shut in line-up SERVICE.');
    expect((await found(f1(HALF, at(600)))).advice).toBe('Write `line-up SERVICE service from RUN { V1 shut }`, and set V1 shut before F1 is opened.');
});
test('the lid counts, not the ports below it', async () => {
    // 30 mm more: (-216.1 + 239.4) 0.9962 = 23.2 mm; 40 mm more is level.
    expect(await rule(service(f1(HALF, at(600), 'lid at 30 mm over ports')))).toEqual(['fail F1, minor: Line-up SERVICE is for service and leaves F1 open to T1: opened, F1 floods at its lid, 23 mm below the surface of T1 (heeled 20° to port, bow 5° down, T1 at 50 %, in SERVICE).']);
    expect(await rule(service(f1(HALF, at(600), 'lid at 40 mm over ports')))).toEqual(['pass F1']);
});
test('what one line-up leaves open is one finding', async () => {
    const both = edit(service(f2(f1(HALF, at(600)), at(500))), 'engine E1 {', 'engine E1 {\n  backflow blocks');
    // F2 at 500 mm: (-94.0 + 239.4) 0.9962 = 144.9 mm.
    expect(await said('HEAD-ON-OPEN', both)).toEqual(['fail F1, minor: Line-up SERVICE is for service and leaves F1 and F2 open to T1: opened, F2 floods at its ports, 145 mm below the surface of T1 (heeled 20° to port, bow 5° down, T1 at 50 %, in SERVICE).']);
    expect((await load(both)).boat.lineUps.length).toBe(2);
});
test('of two filters of which one is always on line, each is told with the position that cuts it off', async () => {
    const duplex = edit(f1(HALF, at(600)), /  filter F1[^]*?\n(?:  \}\n)?(?=  \S)/.exec(f1(HALF, at(600)))![0], `  changeover CH1 at 600 mm {
    leg A { filter F1 primary { ${at(600)} } }
    leg B { filter FB primary { ${at(600)} } }
    position A through A
    position B through B
    position BOTH through A, B
  }
`);
    const found = judge((await load(edit(duplex, 'run is normal', 'run is normal { CH1 BOTH }'))).boat).findings.filter(({ rule: { code } }) => code === 'HEAD-ON-OPEN');
    // With CH1 A all comes through F1: whoever opens it then floods the bilge.
    expect(found.map(({ advice }) => advice)).toEqual([
        'Write `line-up SERVICE-F1 service from RUN { CH1 B }`, and set CH1 B before F1 is opened.',
        'Write `line-up SERVICE-FB service from RUN { CH1 A }`, and set CH1 A before FB is opened.',
    ]);
    expect(await said('HEAD-ON-OPEN', `${edit(duplex, 'run is normal', 'run is normal { CH1 BOTH }')}line-up SERVICE-F1 service from RUN { CH1 B }\nline-up SERVICE-FB service from RUN { CH1 A }\n`, 'F1')).toEqual(['pass F1']);
});
test('checks on the way: what they hold is not relied upon along the supply', async () => {
    expect(await rule(edit(service(f1(HALF, at(600))), 'primer PR1', 'primer PR1   cracks 40 kPa'))).toEqual([`fail F1, minor: Line-up SERVICE is for service and leaves F1 open to T1: opened, ${CORNER} SERVICE).`]);
});

describe('from the return side', () => {
    const back = (settings: string, mouth = '   mouth at 225 mm up, 2400 mm fwd, 600 mm stbd', backflow = '\n  backflow passes'): string => service(before(f2(edit(edit(HALF, 'drop R1     bore 8 mm', `drop R1     bore 8 mm${mouth}`), 'engine E1 {', `engine E1 {${backflow}`), at(600)), 'tube S3 bore 6 mm', 'shutoff V9 normally open'), settings);
    test('the shutoff behind the filter is left open', async () => {
        expect(await rule(back('V1 shut'), 'F2')).toEqual(['fail F2, minor: Line-up SERVICE is for service and leaves F2 open to T1: opened, F2 floods at its ports, 51 mm below the surface of T1 (heeled 20° to port, bow 5° down, T1 at 50 %, in SERVICE).']);
        expect(await rule(back('V1 shut   V9 shut'), 'F2')).toEqual(['pass F2']);
    });
    test('a tight check in the return holds', async () => expect(await rule(edit(back('V1 shut'), 'hose B1      bore 6 mm', 'hose B1      bore 6 mm\n  check CV1'), 'F2')).toEqual(['pass F2']));
    test('what the engine lets back, and how deep the return reaches', async () => {
        expect(await rule(back('V1 shut', undefined, ''), 'F2')).toEqual(['cannot tell F2: what E1 lets flow back from its return']);
        expect(await rule(back('V1 shut', '', ''), 'F2')).toEqual(['cannot tell F2: what E1 lets flow back from its return; the height of the mouth of T1.R1']);
    });
    test('nothing can be shut: other rules tell it', async () => expect(await rule(without(back('V1 shut'), 'shutoff V9 normally open'), 'F2')).toEqual(['not applicable F2: nothing shuts it off from the return side (see ISOLATE-FILTER-IN and RETURN-SHUT-IF-LOW)']));
});

describe('one defect is told once', () => {
    test('a filter that nothing shuts off is SHUTOFF-BEFORE-FILTER\'s', async () => {
        const open = without(f1(HALF, at(600)), 'shutoff V1 normally open');
        expect(await rule(open)).toEqual(['not applicable F1: nothing shuts it off (see SHUTOFF-BEFORE-FILTER)']);
        expect(await said('SHUTOFF-BEFORE-FILTER', open, 'F1')).toEqual(['fail F1, major: F1 cannot be shut off from T1: no valve on the way stops the flow.']);
    });
    test('a selector that only changes to another full tank shuts nothing off', async () => {
        const two = (off: string): string => `vessel Twowake { envelope heel 5 deg   trim 1 deg   level 10 to 95 % }
tank T1 { box 1000 x 500 x 400 mm   low aft inner corner at 1000 mm up, 2000 mm fwd, 100 mm stbd
  pickup P1   mouth at 25 mm off bottom, 2500 mm fwd, 350 mm stbd
  vent }
tank T2 like T1 mirrored
engine E1
selector SV1 { ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
${off}}
supply course Port from T1.P1 to SV1.port { hose S1 }
supply course Stbd from T2.P1 to SV1.stbd { hose S2 }
supply course Feed from SV1.out to E1 { hose S3   filter F1 { ports at 400 mm up, 2500 mm fwd, 0 mm stbd } }
line-up RUN run is normal { SV1 PORT }
line-up SERVICE service { SV1 STBD }
`;
        const advice = async (text: string): Promise<string[]> => judge((await load(text)).boat).findings.filter(({ rule: { code } }) => code === 'HEAD-ON-OPEN').map((finding) => finding.advice);
        expect(await advice(two(''))).toEqual([]);
        expect(await rule(two(''))).toEqual(['not applicable F1: nothing shuts it off (see SHUTOFF-BEFORE-FILTER)']);
        expect(await advice(two('  position OFF joins nothing\n'))).toEqual(['Set SV1 OFF in line-up SERVICE.']);
    });
    test('of a strainer no other rule tells', async () => {
        const strainer = before(HALF, 'shutoff V1 normally open', 'strainer ST1 at 600 mm up, 2400 mm fwd, 100 mm port');
        expect(await rule(strainer, 'ST1')).toEqual(['fail ST1, major: ST1 cannot be shut off from T1: opened, ST1 floods at its ports, 51 mm below the surface of T1 (heeled 20° to port, bow 5° down, T1 at 50 %, in RUN).']);
        expect(await rule(service(before(HALF, 'hose S1 bore 8 mm', 'strainer ST1 at 600 mm up, 2400 mm fwd, 100 mm port'), 'V1 shut'), 'ST1')).toEqual(['pass ST1']);
    });
});

describe('cannot tell', () => {
    test('no height', async () => expect(await rule(HALF)).toEqual(['cannot tell F1: the height of the ports of F1']));
    test('no place', async () => expect(await rule(f1(HALF, 'ports at 600 mm'))).toEqual(['cannot tell F1: where F1 stands along and across the boat']));
    test('a low filter floods upright, wherever it stands', async () => {
        // 400 - 300 mm.
        expect(await rule(f1(HALF, 'ports at 300 mm'))).toEqual(['fail F1, minor: No line-up is for service, and as she runs F1 floods at its ports, 100 mm below the surface of T1 (upright, T1 at 50 %, in RUN).']);
    });
    test('no envelope, no tank', async () => {
        expect(await rule(edit(f1(HALF, at(640)), 'envelope heel 20 deg   trim 5 deg   level 50 %', 'envelope level 50 %'))).toEqual(['cannot tell F1: the heel and trim that she must work in']);
        expect(await rule(without(f1(SLOOP, at(640)), 'box 800 x 600 x 400 mm low aft inner corner at 200 mm up, 2000 mm fwd, 300 mm stbd'))).toEqual(['cannot tell F1: the size and height of T1']);
    });
    test('a selector that nobody placed', async () => expect(await rule(edit(TWIN, '{ SV1 PORT   SV2 PORT }', ''))).toEqual([expect.stringMatching(/^cannot tell F1: the position of SV1 in line-up RUN-PORT/)]));
    test('a line-up for service needs no height when it shuts the part off', async () => expect(await rule(service(SLOOP, 'V1 shut'))).toEqual(['pass F1']));
});
test('not applicable: no tank feeds it', async () => expect(await rule(edit(HALF, 'primer PR1', 'check CV1 reversed\n  primer PR1'))).toEqual(['not applicable F1: no tank feeds it']));
