/** What is cut off, by which valves, and what still hangs there: by hand from the texts. */
import { expect, test } from 'vitest';
import { boatFrom, boatOf, idsOf, marked, refused, shown } from './shown';

test('Ottilwake F1: one valve, and what has to hold behind it', async () => {
    // From T1.P1 fuel comes by V1, the only valve. By the return it comes too, T1.R1, R, E1, F2, LP1, S2, with no valve: E1 and the valves in LP1 must hold it.
    const found = shown('isolate F1', { boat: await boatOf('ottilwake') });
    expect(found.title).toBe('F1 cut off as far as checks hold, from RUN');
    expect(marked(found, 'turned')).toEqual(['V1 shut']);
    expect(found.positions?.get('V1')).toBe('shut');
    expect(marked(found, 'about')).toEqual(['F1', 'E1 must hold', 'LP1 must hold']);
    // Between V1 and LP1 stand S1, PR1, S1b, F1, G1 and S2. What hangs there and holds fuel runs out; a gauge holds none.
    expect(idsOf(found, 'dead')).toEqual(['S1', 'PR1', 'S1b', 'G1', 'S2']);
    expect(found.marks.find(({ about }) => about === 'G1')?.words).toBeUndefined();
    expect(found.notes.join(' ')).toContain('only E1 and LP1 hold T1 back');
    expect(found.notes.some((note) => note.startsWith('Opened, what is in ') && note.includes('F1'))).toBe(true);
});

test('Ottilwake F2: nothing that hands can shut, so no valve is turned', async () => {
    const found = shown('isolate F2', { boat: await boatOf('ottilwake') });
    expect(found.title).toBe('F2 cannot be cut off, from RUN');
    expect(found.positions).toBeUndefined();
    expect([idsOf(found, 'turned'), idsOf(found, 'dead')]).toEqual([[], []]);
    expect(found.notes.join(' ')).toContain('F2 cannot be cut off from T1');
});

test('Brackenwake F1: a selector that cannot shut is turned to the other tank, whose valve is shut with it', async () => {
    // SV1 has PORT and STBD alone: away from T1 means to T2, whose V2 is then shut. E1 does not say that its return holds back, so SV2 goes to OFF.
    const found = shown('isolate F1', { boat: await boatOf('brackenwake') });
    expect(marked(found, 'turned')).toEqual(['SV1 STBD', 'SV2 OFF', 'V2 shut']);
    expect(idsOf(found, 'about')).toEqual(['F1']);
    // S1, R2 and R3 still hang on tanks.
    expect(idsOf(found, 'dead')).toEqual(['S2', 'S3', 'G1', 'S4', 'LP1', 'S5', 'F2', 'S6', 'R1']);
});

test('what is cut off as it is needs no valve', async () => {
    const found = shown('isolate FB-P', { boat: await boatOf('marrenwake') });
    expect(idsOf(found, 'turned')).toEqual([]);
    expect(found.positions).toBeUndefined();
    expect(found.notes[0]).toBe('FB-P is cut off from every tank in line-up RUN as it is.');
});

test('both sides of a part, and a valve that turns with another', async () => {
    const boat = await boatFrom(`vessel Gangwake
tank T1 { pickup P1 drop R1 vent }
engine E1
selector SV1 {
  ports in, out
  position ON joins in, out
  position OFF joins nothing
}
selector SV2 {
  ports in, out
  position ON joins in, out
  position OFF joins nothing
  ganged with SV1
}
supply course Feed from T1.P1 to SV1.in { hose S1 }
supply course On from SV1.out to E1 { filter F1 }
return course Back from E1 to SV2.in { hose R1 }
return course Home from SV2.out to T1.R1 { hose R2 }
line-up RUN run is normal { SV1 ON }
`);
    // One handle: with SV1 OFF the return is shut as well.
    const found = shown('isolate F1', { boat });
    expect(marked(found, 'turned')).toEqual(['SV1 OFF', 'SV2 OFF']);
    expect(idsOf(found, 'dead')).toEqual(['R1']);
    expect(found.notes.join(' ')).toContain('Stop E1');
});

test('a line-up that is not there is refused', async () => {
    const boat = await boatOf('ottilwake');
    expect(refused('isolate F1', { boat, lineUp: 'NIGHT' })).toBe('There is no line-up called NIGHT. There are RUN, SERVICE and LAID-UP.');
    expect(refused('line-up', { boat, lineUp: 'NIGHT' })).toContain('no line-up called NIGHT');
});

test('what only checks keep dry as it is: nothing is turned, and they are marked', async () => {
    const boat = await boatFrom(`vessel Leanwake
tank T1 { pickup P1 drop R1 vent }
engine E1 { backflow blocks }
supply course Feed from T1.P1 to E1 { shutoff V1   hose S1   filter F1 }
return course Back from E1 to T1.R1 { filter F2   check C1   hose R1 }
line-up RUN run is normal { V1 shut }
`);
    // With V1 shut nothing can come to F2 but by R1 and back through C1; a check is never relied upon, and no valve stands there.
    const found = shown('isolate F2', { boat });
    expect(idsOf(found, 'turned')).toEqual([]);
    expect(marked(found, 'about')).toEqual(['F2', 'C1 must hold']);
    expect(found.title).toBe('F2 cut off as far as checks hold, from RUN');
});
