/**
 * Division: BLEED-KEPT (documents/bleed/kept.ts) runs the blocks of the text and compares kept ones with what the boat
 * needs. A line that this rule finds false is left to it, and nothing after that line is judged there.
 */
import type { BleedBlock } from '../../model/boat';
import type { Verdict } from '../../model/finding';
import { Pumping } from '../../analysis/air/pumping';
import { suctionOf, type Drawn } from '../../analysis/air/suction';
import { segmentOf } from '../../analysis/air/vents';
import { listed } from '../../model/words';
import { nameOf, nothing, type Check, type View } from '../check';
import { positionMissing } from '../../analysis/missing';

export const bleedNotSuction: Check = {
    code: 'BLEED-NOT-SUCTION', severity: 'critical',
    statement: 'No bleed sequence in the text opens a bleed point upstream of the pump that it works.',
    prevents: 'The pump draws air in through the bleed point: the more it is worked, the more air.',
    facts: 'the steps of the sequence, in order; pumps and bleed points; positions of valves',
    source: 'logic of the network',
    judge: (view) => {
        const pumping = new Pumping(view.network);
        return view.boat.bleeds.length === 0 ? [nothing('no bleed sequence is written')] : view.boat.bleeds.flatMap((block) => judge(view, pumping, block));
    },
};

function judge(view: View, pumping: Pumping, block: BleedBlock): Verdict[] {
    const about = block.id;
    const found = suctionOf(pumping, block);
    if (!found) return [{ outcome: 'not applicable', about, why: 'it names an engine or a line-up that this boat has not' }];
    if (found.drawn.length > 0) return found.drawn.map((drawn) => fails(view, pumping, block, drawn));
    if (!block.lines.some(({ step }) => step?.do === 'bleed' || step?.do === 'prove')) return [{ outcome: 'not applicable', about, why: 'it opens no bleed point' }];
    if (found.unplaced.length > 0) return [{ outcome: 'cannot tell', about, missing: found.unplaced.map((valve) => positionMissing(valve, found.starts.id)) }];
    return [{ outcome: 'pass', about }];
}

function fails({ boat, network }: View, pumping: Pumping, block: BleedBlock, { line, vent, driver, positions }: Drawn): Verdict {
    const works = boat.parts.filter((part) => part.kind === 'hand primer' || part.kind === 'lift pump')
        .filter((part) => !('law' in pumping.flow(vent, { by: part.kind === 'lift pump' ? 'lever' : 'hand', part: part.id }, block.engine, positions)));
    const owner = segmentOf(network, vent);
    return {
        outcome: 'fail', about: line, message: `This step opens ${vent} on the suction side of ${driver.part}, the pump that it works.`,
        reason: `${driver.part} draws air in at ${vent}: the more it is worked, the more air.`,
        advice: works.length > 0 ? `Put \`by ${listed(works.map((part) => (part.kind === 'lift pump' ? `${part.id} lever` : part.id)), 'or')}\` into the step: that pushes fuel to ${vent}.` : `Take the step out: no pump by hand stands upstream of ${vent}.`,
        see: [{ id: driver.part, why: 'the pump' }, ...(owner === undefined ? [] : [{ id: owner, why: `${nameOf(boat, owner)}, upstream of it` }])],
    };
}
