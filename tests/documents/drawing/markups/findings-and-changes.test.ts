/** Findings numbered at their things, and the changes of surveys and refits. */
import { expect, test } from 'vitest';
import type { ShownFinding } from '../../../../src/documents/drawing/markups/markup';
import { boatFrom, boatOf, marked, refused, shown } from './shown';

const finding = (about: string, message: string, members?: readonly string[]): ShownFinding => ({ rule: { code: 'SOME-RULE' }, severity: 'major', about, message, ...(members && { members }) });

test('findings keep the numbers of the report; a thing of several has all of them, a line-up none', async () => {
    const findings = [finding('F1', 'One.'), finding('RUN', 'Two.'), finding('F1', 'Three.', ['F1', 'S2']), finding('T1.P1', 'Four.'), finding('BS1', 'Five.')];
    const found = shown('findings', { boat: await boatOf('ottilwake'), findings });
    expect(marked(found, 'finding')).toEqual(['F1 1, 3', 'S2 3', 'T1.P1 4', 'BS1 5']);
    expect(found.notes).toEqual(['1. major, SOME-RULE: One.', '2. major, SOME-RULE (RUN, at no one thing): Two.', '3. major, SOME-RULE: Three.', '4. major, SOME-RULE: Four.', '5. major, SOME-RULE: Five.']);
});

test('without findings that were worked out nothing is claimed', async () => {
    const boat = await boatOf('ottilwake');
    expect(refused('findings', { boat })).toContain('were not worked out');
    expect(shown('findings', { boat, findings: [] }).title).toBe('No findings');
});

const DRAWN = `vessel Changewake
tank T1 { pickup P1 drop R1 drop R2 vent }
engine E1
supply course Feed from T1.P1 to E1 {
  shutoff V1   at 660 mm   normally open
  hose S1   bore 8 mm   length 2 m
  hose S9   bore 8 mm   length 1 m
  filter F1   label "OLD"
  hose S2   bore 8 mm   length 1 m
}
return course Back from E1 to T1.R1 { tube R1   bore 6 mm   length 2 m }
line-up RUN run is normal
survey Spring on 2026-03-02 by "surveyor" {
  found S1 bore 6 mm   measured
  missing S9   seen   drawing error
  found S2 bore 10 mm   measured   open
}
refit Winter {
  insert shutoff V2 at 620 mm   normally open   between F1 and S2
  set F1 label "NEW"
}
`;

test('after a refit: what was found, what is put in, what is gone and what is otherwise, in the words of the text', async () => {
    const [before, after] = [await boatFrom(DRAWN, 'drawn'), await boatFrom(DRAWN, { after: 'Winter' })];
    const found = shown('changes', { boat: after, before });
    // In the order of the text. What the survey left open (S2) is not on the boat, and that F1 and S2 have a new neighbour is told with V2.
    expect(marked(found, 'changed')).toEqual(['S1 1', 'F1 4']);
    expect(marked(found, 'added')).toEqual(['V2 3']);
    expect(found.notes.map((note) => note.split(':')[0])).toEqual(['1. S1', '2. S9, no longer drawn', '3. V2', '4. F1']);
    expect(found.notes[0]).toMatch(/6 mm.*\(Spring, 2026-03-02\)\.$/);
    expect(found.notes[3]).toMatch(/NEW.*\(Winter\)\.$/);
    expect(found.title).toBe('Changes, after Winter');
});

test('as found counts what is open too; a refit that was not asked for counts for nothing', async () => {
    const [before, found] = [await boatFrom(DRAWN, 'drawn'), await boatFrom(DRAWN, 'found')];
    expect(marked(shown('changes', { boat: found, before }), 'changed')).toEqual(['S1 1', 'S2 3']);
    expect(marked(shown('changes', { boat: found, before }), 'added')).toEqual([]);
});

test('a course that ends elsewhere is a change of what it joins', async () => {
    const text = DRAWN.replace(/survey[\s\S]*/, 'survey Spring on 2026-03-02 by "surveyor" {\n  found Back to T1.R2, drawn T1.R1   seen\n}\n');
    const found = shown('changes', { boat: await boatFrom(text, 'found'), before: await boatFrom(text, 'drawn') });
    expect(marked(found, 'changed').map((words) => words.split(' ')[0]).sort()).toEqual(['R1', 'T1.R1', 'T1.R2']);
});

test('two views that are alike, and no other view', async () => {
    const boat = await boatFrom(DRAWN, 'drawn');
    expect(shown('changes', { boat, before: await boatFrom(DRAWN, 'drawn') })).toMatchObject({ marks: [], notes: ['Nothing that is drawn differs.'] });
    expect(refused('changes', { boat })).toContain('no other view');
});
