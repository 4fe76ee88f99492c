/**
 * Rules that a person answers, by looking. Nothing computes them; a survey answers them one by one with `answer CODE at PART`,
 * and what nobody answered is not judged.
 */
import type { Boat } from '../model/boat';
import type { Rule, Verdict } from '../model/finding';

export interface InspectedRule extends Rule {
    /** What to do when the answer is no. */
    readonly mend: string;
}

const rule = (code: string, severity: Rule['severity'], statement: string, prevents: string, mend: string, source: string): InspectedRule =>
    ({ code, severity, statement, prevents, mend, source, facts: 'a person\'s answer' });

export const INSPECTED: readonly InspectedRule[] = [
    rule('CHAFE', 'minor', 'Lines pass bulkheads in grommets and lie against nothing sharp.', 'A hole worn into the line.', 'Fit a grommet or a sleeve, and clip the line clear.', 'common practice'),
    rule('CLAMP', 'minor', 'Every hose sits on a barbed or beaded tail under at least one stainless clamp, two on a fill.', 'Air drawn in, or a hose blown off.', 'Fit a proper tail and clamps.', 'common practice'),
    rule('SUPPORT', 'minor', 'Lines are supported about every 500 mm.', 'A line that hangs works loose at its ends.', 'Add clips.', 'common practice'),
    rule('HOSE-MARK', 'minor', 'The marking of the hose can be read.', 'Nobody can say what the hose is made for.', 'Find the marking, or renew the hose.', 'common practice'),
    rule('FLEX-LAST', 'major', 'Between what is fixed to the hull and the engine there is a flexible hose.', 'A tube cracks by fatigue.', 'Fit a hose between the fixed line and the engine.', 'common practice'),
    rule('HEAT-CLEAR', 'major', 'Lines keep clear of the dry exhaust, and no joint that is opened stands above a hot surface.', 'Fuel on a hot part burns.', 'Shield it, or move it.', 'common practice'),
    rule('BOWL-SHIELD', 'major', 'A clear bowl in a machinery space has a metal shield.', 'The bowl melts and feeds a fire.', 'Fit a shield or a metal bowl.', 'common practice'),
    rule('VALVE-LABEL', 'minor', 'The valve carries its tag, its function and its normal position.', 'The wrong valve is worked.', 'Engrave a label.', 'common practice'),
    rule('VALVE-POSITIVE', 'minor', 'The valve shows its position at a glance and has stops.', 'A valve taken for shut that is not.', 'Fit a quarter-turn valve.', 'common practice'),
    rule('ACCESS-VALVE', 'major', 'The valve that stops the fuel is reached without tools and without lifting a floor.', 'Too late in a fire.', 'Move it, or fit an extension.', 'common practice'),
    rule('ACCESS-ELEMENT', 'minor', 'There is room to lift the element out and for a can under the drain.', 'The filter is not serviced.', 'Move the bracket.', 'common practice'),
    rule('FILL-SEAL', 'major', 'The O-ring of the fill cap is whole.', 'Salt water in the tank.', 'Renew the O-ring.', 'common practice'),
    rule('FILL-MARK', 'minor', 'The deck plate names the fuel.', 'Water in the fuel tank.', 'Mark the plate.', 'common practice'),
    rule('TANK-MOUNT', 'minor', 'The tank stands clear of bilge water with air below it.', 'The tank corrodes from below.', 'Raise it on strips that do not hold water.', 'common practice'),
    rule('DRIP-TRAY', 'advice', 'Under the filter stands a tray that holds its bowl.', 'Fuel in the bilge.', 'Fit a tray.', 'common practice'),
    rule('SEALANT', 'advice', 'No sealing tape was used upstream of the injection pump.', 'Shreds of tape hold valves open.', 'Clean the threads; use a liquid sealant or a washer.', 'common practice'),
];

/** One verdict for each answer. */
export function judgeAnswers(boat: Boat): { readonly check: InspectedRule; readonly verdict: Verdict }[] {
    return boat.answers.flatMap((answer) => {
        const check = INSPECTED.find(({ code }) => code === answer.rule);
        if (!check) return [];
        const rests = [{ about: answer.id }];
        const seen = `${answer.survey}${answer.on === undefined ? '' : ` of ${answer.on}`}`;
        const verdict: Verdict = answer.outcome === 'pass' ? { outcome: 'pass', about: answer.about, rests }
            : answer.outcome === 'fail' ? {
                outcome: 'fail', about: answer.about, message: `At ${answer.about} survey ${seen} found otherwise${answer.words === undefined ? '' : `: ${answer.words}`}. ${check.statement}`,
                reason: check.prevents, advice: check.mend, see: [{ id: answer.id, why: 'the answer' }], rests,
            } : { outcome: 'cannot tell', about: answer.about, missing: [{ about: answer.about, fact: `the answer to ${check.code} at ${answer.about}`, how: `look again: survey ${seen} could not tell` }] };
        return [{ check, verdict }];
    });
}
