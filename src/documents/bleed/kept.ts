/** Checks the bleed blocks of the text: kept ones against what the boat now gives, hand-written ones by running them. */
import type { BleedBlock, BleedLine, Boat, Id } from '../../model/boat';
import type { Finding, Rule } from '../../model/finding';
import { planBleed, setUp, type BleedPlan, type BleedRequest, type Refusal } from '../../procedures/bleed';
import { airBefore, run } from '../../procedures/executor';
import { suctionOf } from '../../analysis/air/suction';
import { startState } from '../../procedures/state';
import { blockLines, isOwn, keyOf, stepKeys, untagged, type Note } from './block';
import { listed } from '../../model/words';
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
    return boat.bleeds.flatMap((block) => (block.kept ? checkKept(boat, block) : checkByRunning(boat, block)));
}

/** Lines that Orlop keeps; notes and anything else are a person's. */
const ownLines = (block: BleedBlock): BleedLine[] => block.lines.filter((line) => isOwn(line.text));

function checkKept(boat: Boat, block: BleedBlock): Finding[] {
    const plan = planOf(boat, block);
    if ('refused' in plan) return [finding(block.id, 'This sequence can no longer be made.', [plan.refused, ...plan.missing.map((fact) => `Missing: ${fact.fact}; ${fact.how}.`)].join(' '), MEND_BOAT)];
    const nameless = untagged(boat, plan);
    if (nameless.length > 0) return [finding(block.id, 'This sequence can no longer be written down.', `It would have to name ${listed(nameless.map((id) => boat.parts.find((part) => part.id === id)!.name))}: give ${nameless.length > 1 ? 'them tags' : 'it a tag'}.`, MEND_BOAT)];
    const wanted = blockLines(boat, plan);
    const lines = ownLines(block);
    const kept = common(lines.map((line) => line.text), wanted);
    if (kept.length === lines.length && kept.length === wanted.length) return [];
    const { broken, drawn } = runBlock(boat, block);
    const found: Finding[] = [];
    const stays = new Set(kept.map(([mine]) => mine));
    lines.forEach((line, i) => {
        if (stays.has(i) || drawn.has(line.id)) return;
        const same = wanted.find((other) => keyOf(other) === keyOf(line.text));
        const why = line.strangers.length > 0 ? `There is no ${line.strangers.join(', ')} on this boat.`
            : broken.get(line.id) ?? (same === undefined ? 'The boat as it is written no longer needs it.'
                : same === line.text ? 'It stands in the wrong place.' : `As the boat is written it reads: ${same}`);
        found.push(finding(line.id, 'This line of the bleed sequence is no longer true.', why, UPDATE, line.step || line.strangers.length > 0 ? 'major' : 'minor'));
    });
    const has = new Set(kept.map(([, theirs]) => theirs));
    const keys = new Set(lines.filter((_, i) => !stays.has(i)).map((line) => keyOf(line.text)));
    const absent = wanted.filter((line, i) => !has.has(i) && !keys.has(keyOf(line)));
    if (absent.length > 0) found.push(finding(block.id, `This sequence lacks ${absent.length === 1 ? 'a line' : `${absent.length} lines`}.`, absent.map((line) => line.replace(/"(.{40}).*"$/, '"$1..."')).join('; '), UPDATE));
    return found;
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

const UPDATE = 'Bring the sequence up to date; notes are carried along.';
const MEND_BOAT = 'Mend what the reason names; then bring the sequence up to date.';
const MEND_STEP = 'Mend the step, or let Orlop write the sequence.';

function finding(about: Id, message: string, reason: string, advice: string, severity = BLEED_KEPT.severity): Finding {
    return { outcome: 'fail', about, message, reason, advice, rule: BLEED_KEPT, severity };
}

/** The notes of a block with the step they hang on. A line that Orlop does not write becomes one, so that it is not lost. */
export function notesOf(block: BleedBlock): Note[] {
    const keys = stepKeys(block.lines.map((line) => line.text));
    return block.lines.flatMap((line, i) => {
        if (isOwn(line.text)) return [];
        const said = /^note "([^"]*)"?(?: once at "([^"]*)"?)?$/.exec(line.text);
        return [said ? { text: said[1]!, at: said[2] ?? keys[i]! } : { text: line.text.replace(/"/g, '\''), at: keys[i]! }];
    });
}

/** Pairs of indexes of a longest common run of lines, in order. */
function common(a: readonly string[], b: readonly string[]): [number, number][] {
    const length: number[][] = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
    for (let i = a.length - 1; i >= 0; i--) for (let j = b.length - 1; j >= 0; j--) {
        length[i]![j] = a[i] === b[j] ? length[i + 1]![j + 1]! + 1 : Math.max(length[i + 1]![j]!, length[i]![j + 1]!);
    }
    const pairs: [number, number][] = [];
    for (let i = 0, j = 0; i < a.length && j < b.length;) {
        if (a[i] === b[j]) pairs.push([i++, j++]);
        else if (length[i + 1]![j]! >= length[i]![j + 1]!) i++;
        else j++;
    }
    return pairs;
}
