/** Procedures as they are written: what each step and each head is read as. */
import { describe, expect, test } from 'vitest';
import { loadBoat } from '../../src/language/load';
import type { ProcedureBlock } from '../../src/model/boat';
import type { ServiceStep } from '../../src/model/step';

const BOAT = `vessel Ternwake
tank T1 { pickup P1   drop R1 }
tank T2 { pickup P1   drop R1 }
engine E1 { exhaust wet   bleed BS3 }
selector SV1 {
  ports port, stbd, out
  position PORT joins port, out
  position STBD joins stbd, out
}
supply course FromPort from T1.P1 to SV1.port { shutoff V1 }
supply course FromStbd from T2.P1 to SV1.stbd { shutoff V2 }
supply course Feed from SV1.out to E1 {
  hose S1
  primer PR1
  filter F1 primary {
    lid at 700 mm   drain at 480 mm
    bleed BS1
  }
  gauge G1 vacuum
  gauge G2 pressure
  lift pump LP1
  filter F2 final { bleed BS2 }
}
return course Back from E1 to T1.R1 { hose }
transfer course Across from T1 to T2 { electric pump TP1 60 L/h }
line-up RUN run is normal { SV1 PORT }
line-up DRAW transfer from RUN { SV1 STBD }
`;

async function read(procedure: string): Promise<{ block: ProcedureBlock; said: string[] }> {
    const { boat, problems } = await loadBoat({ 'boat.orlop': BOAT, 'upkeep.orlop': procedure });
    return { block: boat.procedures[0]!, said: problems.map(({ message }) => message) };
}
const step = async (line: string) => read(`procedure renew F1 element {\n  ${line}\n}\n`);

/** 1 rpm is 1/60 rev/s, 1 inHg 3386.389 Pa (NIST SP 811), 1 L 0.001 m³. */
const INHG = 3386.389;
const STEPS: readonly (readonly [line: string, steps: readonly ServiceStep[]])[] = [
    ['stop E1 key out', [{ do: 'stop', part: 'E1', keyOut: true }]],
    ['stop TP1', [{ do: 'stop', part: 'TP1' }]],
    ['set bilge pump off', [{ do: 'switch', thing: 'bilge pump', to: 'off' }]],
    ['set battery switch on', [{ do: 'switch', thing: 'battery switch', to: 'on' }]],
    ['set E1 seacock shut', [{ do: 'switch', thing: 'seacock', of: 'E1', to: 'shut' }]],
    ['place can 2 L under F1', [{ do: 'place', thing: 'can', part: 'F1', holds: 0.002 }]],
    ['place can under F1, F2', [{ do: 'place', thing: 'can', part: 'F1' }, { do: 'place', thing: 'can', part: 'F2' }]],
    ['place 4 pads under F1', [{ do: 'place', thing: 'pads', part: 'F1', count: 4 }]],
    ['open V1', [{ do: 'set', part: 'V1', position: 'open' }]],
    ['shut V1, V2', [{ do: 'set', part: 'V1', position: 'shut' }, { do: 'set', part: 'V2', position: 'shut' }]],
    ['turn SV1 to STBD', [{ do: 'set', part: 'SV1', position: 'STBD' }]],
    ['open F1 lid', [{ do: 'open', part: 'F1', opening: 'lid' }]],
    ['open F2 ports', [{ do: 'open', part: 'F2', opening: 'ports' }]],
    ['open S1 joint', [{ do: 'open', part: 'S1', opening: 'joint' }]],
    ['open F1 BS1', [{ do: 'open', part: 'F1', opening: 'BS1' }]],
    ['shut F1 lid, F1 drain', [{ do: 'close', part: 'F1', opening: 'lid' }, { do: 'close', part: 'F1', opening: 'drain' }]],
    ['shut F1 lid, drain and V1', [{ do: 'close', part: 'F1', opening: 'lid' }, { do: 'close', part: 'F1', opening: 'drain' }, { do: 'set', part: 'V1', position: 'shut' }]],
    ['prove V1 by draining F1 until the stream dies within 10 s', [{ do: 'hold', valves: ['V1'], part: 'F1', opening: 'drain', within: 10 }]],
    ['prove V1, V2 by opening F1 lid until the stream dies within 1 min', [{ do: 'hold', valves: ['V1', 'V2'], part: 'F1', opening: 'lid', within: 60 }]],
    ['prove V1 by opening F1 BS1 until the stream dies within 10 s', [{ do: 'hold', valves: ['V1'], part: 'F1', opening: 'BS1', within: 10 }]],
    ['prove LP1 at BS2 by lever 10 strokes', [{ do: 'prove', part: 'LP1', vent: 'BS2', strokes: 10 }]],
    ['remove F1 element, lid ring, T-ring', [{ do: 'remove', part: 'F1', pieces: ['element', 'lid ring', 'T-ring'] }]],
    ['remove S1', [{ do: 'remove', part: 'S1', pieces: [] }]],
    ['fit F1 element, lid ring, F2 element', [{ do: 'fit', part: 'F1', pieces: ['element', 'lid ring'] }, { do: 'fit', part: 'F2', pieces: ['element'] }]],
    ['refit F2 element', [{ do: 'fit', part: 'F2', pieces: ['element'], again: true }]],
    ['clean F1 bowl', [{ do: 'clean', part: 'F1', piece: 'bowl' }]],
    ['look F1 bowl "dark, slime"', [{ do: 'look', part: 'F1', piece: 'bowl', words: 'dark, slime' }]],
    ['look all joints "dry card"', [{ do: 'look', piece: 'all joints', words: 'dry card' }]],
    ['prefill F1', [{ do: 'prefill', part: 'F1' }]],
    ['prefill F1, F2', [{ do: 'prefill', part: 'F1' }, { do: 'prefill', part: 'F2' }]],
    ['bleed BS1 by PR1   expect 23 strokes   stop and think at 46', [{ do: 'bleed', vent: 'BS1', driver: { by: 'hand', part: 'PR1' }, expect: { in: 'strokes', likely: 23, most: 23, think: 46 } }]],
    ['start E1   at most 2 times 10 s   seacock open   budget 43 s', [{ do: 'start', engine: 'E1', tries: 2, seconds: 10, seacock: 'open', budget: 43 }]],
    ['do bleed E1 after opening F1, F2 prefilled F1', [{ do: 'sequence', engine: 'E1', opened: ['F1', 'F2'], prefilled: ['F1'] }]],
    ['do bleed E1 after running dry', [{ do: 'sequence', engine: 'E1', opened: [], prefilled: [], ranDry: true }]],
    ['run E1 at 1200 rpm for 5 min in gear', [{ do: 'run', part: 'E1', speed: 20, seconds: 300, inGear: true }]],
    ['run TP1 for 20 min', [{ do: 'run', part: 'TP1', seconds: 1200 }]],
    ['run TP1 until T2 holds 100 L', [{ do: 'run', part: 'TP1', until: { tank: 'T2', holds: 0.1 } }]],
    ['wait 10 min', [{ do: 'wait', seconds: 600 }]],
    ['log renew F1 element, look F2 bowl', [{ do: 'log', jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'look', part: 'F2', piece: 'bowl' }] }]],
    ['caution fire, flood F1, spill', [{ do: 'caution', topic: 'fire' }, { do: 'caution', topic: 'flood', part: 'F1' }, { do: 'caution', topic: 'spill' }]],
    ['caution spill "WARNING: The sill is low."', [{ do: 'caution', topic: 'spill', signal: 'WARNING', text: 'The sill is low.' }]],
    ['caution spill "The sill is low."', [{ do: 'caution', topic: 'spill', text: 'The sill is low.' }]],
    ['note "the screw is soft"', []],
    ['if no resistance "turn the crank"', []],
];

describe('a line as steps', () => {
    test.each(STEPS)('%s', async (line, steps) => {
        const { block, said } = await step(line);
        expect(said).toEqual([]);
        expect(block.lines.map((read) => [read.steps, read.unread])).toEqual([[steps, undefined]]);
    });

    test('a vacuum gauge reads below nought, any other above', async () => {
        const [vacuum, pressure] = [(await step('read G1 expect 0.4 to 1.4 inHg at 2400 rpm')).block.lines[0]!.steps[0], (await step('read G2 expect 20 kPa')).block.lines[0]!.steps[0]];
        expect(vacuum).toMatchObject({ do: 'read', gauge: 'G1', speed: 40 });
        expect((vacuum as { expect: { low: number; high: number } }).expect.low).toBeCloseTo(-1.4 * INHG, 1);
        expect((vacuum as { expect: { low: number; high: number } }).expect.high).toBeCloseTo(-0.4 * INHG, 1);
        expect(pressure).toEqual({ do: 'read', gauge: 'G2', expect: { low: 20_000, high: 20_000 } });
    });
});

describe('a head', () => {
    test('with all that it may say, in its order', async () => {
        const { block, said } = await read('procedure renew F1 element, look F2 element "Change the primary element"   starts RUN   ends DRAW   45 min   one person {\n}\n');
        expect(said).toEqual([]);
        expect(block).toMatchObject({
            jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'look', part: 'F2', piece: 'element' }],
            title: 'Change the primary element', starts: 'RUN', ends: 'DRAW', takes: 2700, people: 1, kept: false, lines: [],
        });
    });
    test('a list of parts is a job for each, and a piece is not lost before a time', async () => {
        const { block, said } = await read('procedure renew F1, F2 element 1 h two people kept {\n}\n');
        expect(said).toEqual([]);
        expect(block).toMatchObject({ jobs: [{ verb: 'renew', part: 'F1', piece: 'element' }, { verb: 'renew', part: 'F2', piece: 'element' }], takes: 3600, people: 2, kept: true });
    });
    test('without a block it is whole', async () => expect((await read('procedure renew F1 element\n')).said).toEqual([]));
    test('nothing of it is kept unread any more', async () => expect((await loadBoat({ 'boat.orlop': `${BOAT}procedure renew F1 element {\n}\n` })).later).toEqual([]));
});

test('each line and the head can be found in the text', async () => {
    const { boat, sources } = await loadBoat({ 'boat.orlop': BOAT, 'upkeep.orlop': 'procedure renew F1 element {\n  open V1\n  note "stiff"\n}\n' });
    const { id, lines } = boat.procedures[0]!;
    expect(sources.find(id)!.mark).toEqual({ start: { line: 0, character: 16 }, end: { line: 0, character: 18 } });
    expect(lines.map((line) => sources.find(line.id)!.range.start.line)).toEqual([1, 2]);
});

describe('what is not understood', () => {
    test('ends the judging, and says so once', async () => {
        const { block, said } = await read('procedure renew F1 element {\n  open V1\n  frobnicate F1\n  shut V1\n  frobnicate F1\n}\n');
        expect(block.lines.map(({ unread }) => unread)).toEqual([undefined, true, undefined, true]);
        expect(said.filter((message) => message.includes('not judged from here on'))).toHaveLength(1);
    });
    test('a name that is not there is told by nothing but its name', async () => {
        const { block, said } = await step('shut V9');
        expect(said).toEqual(['`V9` is not in this boat.']);
        expect(block.lines[0]).toMatchObject({ strangers: ['V9'], steps: [{ do: 'set', part: 'V9', position: 'shut' }] });
    });
});

describe('what may be refitted', () => {
    test('under how many hours is a fact of its interval', async () => {
        const { boat } = await loadBoat({ 'boat.orlop': `${BOAT}tend {\n  renew F2 element every 500 h refit if clean under 250 h\n}\n` });
        expect(boat.intervals[0]).toMatchObject({ hours: 500 * 3600, refitUnder: 250 * 3600 });
    });
});
