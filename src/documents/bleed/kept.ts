/** Checks the bleed blocks of the text: kept ones against what the boat now gives, hand-written ones by running them. */
import type { BleedBlock, Boat, Id } from '../../model/boat';
import type { Finding, Rule } from '../../model/finding';
import { planBleed, setUp, type BleedPlan, type BleedRequest, type Refusal } from '../../procedures/bleed';
import { airBefore, run } from '../../procedures/executor';
import { suctionOf } from '../../analysis/air/suction';
import { startState } from '../../procedures/state';
import { checkKept, nameless, type KeptBlock } from '../kept';
import { BLEEDING, blockLines, blockText, untagged } from './block';
import { brokenSentence } from './words';

export const BLEED_KEPT: Rule = {
    code: 'BLEED-KEPT', severity: 'major',
    statement: 'Each bleed sequence in the text is the one that the boat as written needs, and breaks no law of bleeding.',
    prevents: 'Stale paper: a valve left shut, air left in, a step that names a part which has gone.',
    facts: 'the block; everything that the sequence was made from',
    source: 'logic of the network',
};

/** The plan that a block stands for. */
export function planOf(boat: Boat, block: BleedBlock): BleedPlan | Refusal {
    return planBleed(boat, requestOf(block));
}

export function requestOf(block: BleedBlock): BleedRequest {
    return {
        engine: block.engine, opened: block.opened, ranDry: block.ranDry, prefilled: block.prefilled,
        ...(block.from !== undefined && { from: block.from }), ...(block.starts !== undefined && { starts: block.starts }), ...(block.ends !== undefined && { ends: block.ends }),
    };
}

export function checkBleedBlocks(boat: Boat): Finding[] {
    return boat.bleeds.flatMap((block) => (block.kept ? checkKept(keptBleed(boat, block)) : checkByRunning(boat, block)));
}

/** A sequence that Orlop keeps, with what the boat gives for it. */
export function keptBleed(boat: Boat, block: BleedBlock): KeptBlock {
    return {
        id: block.id, what: 'bleed sequence', lines: block.lines, spelling: BLEEDING, rule: BLEED_KEPT, wanted: wanted(boat, block),
        broken: () => {
            const { broken, drawn } = runBlock(boat, block);
            return { why: new Map([...broken].map(([id, words]) => [id, { words }])), elsewhere: drawn };
        },
    };
}

function wanted(boat: Boat, block: BleedBlock): KeptBlock['wanted'] {
    const plan = planOf(boat, block);
    if ('refused' in plan) return { why: [plan.refused, ...plan.missing.map((fact) => `Missing: ${fact.fact}; ${fact.how}.`)].join(' ') };
    const unnamed = untagged(boat, plan);
    if (unnamed.length > 0) return nameless(unnamed.map((id) => boat.parts.find((part) => part.id === id)!.name));
    return { lines: blockLines(boat, plan), text: (notes) => blockText(boat, plan, notes) };
}

function checkByRunning(boat: Boat, block: BleedBlock): Finding[] {
    const { broken } = runBlock(boat, block);
    const ids = new Map(block.lines.map((line) => [line.id, line]));
    return [...broken].map(([id, why]) => finding(ids.has(id) ? id : block.id, ids.has(id) ? 'This step breaks a law of bleeding.' : 'This sequence does not end well.', why, MEND_STEP));
}

/**
 * Executes the steps as they stand: what each breaks, and under the block's own id what is wrong at its end. A step that
 * draws air in is a finding of BLEED-NOT-SUCTION; what comes after it cannot be right, and is not judged.
 */
function runBlock(boat: Boat, block: BleedBlock): { broken: Map<Id, string>; drawn: ReadonlySet<Id> } {
    const found = new Map<Id, string>();
    const set = setUp(boat, requestOf(block));
    if ('refused' in set) return { broken: new Map([[block.id, set.refused]]), drawn: new Set() };
    const drawn = new Set(suctionOf(set.pumping, block)?.drawn.map(({ line }) => line));
    const { bench, starts, ends, gas } = set;
    let state = startState(starts.positions, gas);
    for (const line of block.lines) {
        if (!line.step) continue;
        if (drawn.has(line.id)) return { broken: found, drawn };
        const result = run(bench, state, line.step);
        if (result.broken.length > 0) found.set(line.id, result.broken.map(brokenSentence).join(' '));
        state = result.state;
    }
    // What a line would have done is not known, nor then where the sequence ends.
    if (block.lines.some((line) => line.unread)) return { broken: found, drawn };
    const air = airBefore(bench, state, block.engine, ends.positions);
    const moved = [...ends.positions].filter(([valve, position]) => state.positions.get(valve) !== position).map(([valve]) => valve);
    const last = [...(air.length > 0 ? [brokenSentence({ law: 'air-left', parts: [block.engine, ...air] })] : []), ...(moved.length > 0 ? [brokenSentence({ law: 'wrong-line-up', parts: moved })] : [])];
    if (last.length > 0) found.set(block.id, last.join(' '));
    return { broken: found, drawn };
}

const MEND_STEP = 'Mend the step, or let Orlop write the sequence.';

function finding(about: Id, message: string, reason: string, advice: string, severity = BLEED_KEPT.severity): Finding {
    return { outcome: 'fail', about, message, reason, advice, rule: BLEED_KEPT, severity };
}
