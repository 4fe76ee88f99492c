/**
 * The guide: the smallest boat line by line, then one thing at a time. Its boats are the strings below; what Orlop says of
 * them is computed when the page is made.
 */
import { duePlan } from '../../analysis/upkeep/due';
import { reportText, type Report } from '../../documents/findings/report';
import { dueText } from '../../documents/upkeep/due-list';
import { loadBoat } from '../load';
import { reportOf } from '../report';
import { code, fence, page, plain, table } from './markdown';
import { judge } from '../../checks/judge';

/** The day as of which the guide is computed. */
const TODAY = '2026-03-02';
export const FILE = 'boat.orlop';

/** The smallest boat, line by line. */
export const LINES: readonly (readonly [line: string, says: string])[] = [
    ['vessel Ottilwake', 'The name of the boat. A name begins with a capital letter; the words of the language never do.'],
    ['tank T1 { pickup P1   drop R1   vent   fill }', 'One tank and its four fittings: the pickup, through which it is drawn from; the drop, in which the return ends; the vent; the fill.'],
    ['engine E1', 'One engine, called E1.'],
    ['supply course Feed from T1.P1 to E1 {', 'A supply course called Feed runs from the pickup P1 of T1 to the engine. What follows stands in it, in the order in which the fuel meets it.'],
    ['  shutoff V1    normally open', 'The valve at the tank. When nothing else is said it is open.'],
    ['  hose', 'A hose. It needs no name.'],
    ['  filter F1     primary', 'The first filter, on the tank side.'],
    ['  lift pump LP1', 'The pump on the engine that draws the fuel.'],
    ['  filter F2     final', 'The last filter before injection.'],
    ['}', 'The course is written. Two parts that follow one another are joined; nothing more is said about that.'],
    ['return course Back from E1 to T1.R1 { hose }', 'What the engine does not burn runs back to the drop R1 through a hose. A short block may stand on one line.'],
];
export const SMALLEST = LINES.map(([line]) => `${line}\n`).join('');

export interface Step {
    readonly title: string;
    /** Markdown: why, and the lines that are new. */
    readonly says: readonly string[];
    /** The whole boat with them. */
    readonly boat: string;
    /** What is said of the answer. */
    readonly after?: string;
    /** The boat from which the guide goes on, when that is another. */
    readonly onward?: string;
    readonly due?: true;
}

/** A line taken out of its column. */
const alone = (line: string): string => line.trim().replace(/ +/g, ' ');

/** `boat` with one line in place of another. */
const changed = (boat: string, line: string, into: string): string => boat.split('\n').map((other) => (other === line ? into : other)).join('\n');

const [VESSEL_BEFORE, TANK_BEFORE, , , , , FILTER_BEFORE, , , , BACK_BEFORE] = LINES.map(([line]) => line) as [string, string, string, string, string, string, string, string, string, string, string];

const VESSEL = 'vessel Ottilwake { heights from "inside of hull at the engine bay" }';
const TANK = `tank T1 {
  box 800 x 600 x 420 mm   low aft inner corner at 200 mm up
  pickup P1   mouth at 25 mm off bottom
  drop R1
  vent        at 560 mm
  fill
}`;
const WITH_HEIGHTS = changed(changed(SMALLEST, VESSEL_BEFORE, VESSEL), TANK_BEFORE, TANK);
const VENT_MENDED = '  vent        at 620 mm';
const WITH_HEIGHTS_MENDED = changed(WITH_HEIGHTS, '  vent        at 560 mm', VENT_MENDED);

const LINE_UPS = 'line-up RUN       run       is normal\nline-up SERVICE   service   from RUN   { V1 shut }';
const WITH_LINE_UPS = `${WITH_HEIGHTS_MENDED}${LINE_UPS}\n`;

const UPKEEP = `tend { renew F1 element every 250 h or 12 months }
log 2025 {
  2025-03-12   E1 1410 h   renewed F1 element
  2025-09-01   E1 1538 h
}`;
const WITH_UPKEEP = `${WITH_LINE_UPS}${UPKEEP}\n`;

const PATTERN = `pattern Primary60 is filter primary {
  separates water   plugged   passes 10 um   holds 450 mL
  bleed BS
}`;
const LIKE = '  filter F1     like Primary60';
const WITH_PATTERN = `${changed(WITH_UPKEEP, FILTER_BEFORE, LIKE)}${PATTERN}\n`;

const BACK = 'return course Back from E1 to T1.R1 { hose S2 }';
const SURVEY = 'survey Spring26 on 2026-03-02 by "surveyor" {\n  found shutoff V2 normally open between S2 and T1.R1, not drawn   touched   defect A\n}';
const WITH_BACK = changed(WITH_PATTERN, BACK_BEFORE, BACK);
const WITH_SURVEY = `${WITH_BACK}${SURVEY}\n`;

export const STEPS: readonly Step[] = [
    {
        title: 'A height', boat: WITH_HEIGHTS, onward: WITH_HEIGHTS_MENDED,
        says: [
            'What runs out of an open filter, and where air stays, hangs on heights. All heights are measured from one level, which you choose and name. Take one that you can hold a rule to.',
            fence(VESSEL),
            'The tank now gets its block on several lines. `box` is its inside length, breadth and height; its lowest corner is 200 mm above the datum. `at 560 mm` is a height above the datum too. The mouth of a pickup is given as people measure it: `at 25 mm off bottom`.',
            fence(TANK),
        ],
        after: `The box reaches from 200 mm to 620 mm, so either the vent is badly placed or the height is wrong. Say that you measure again, and it is the height: ${code(alone(VENT_MENDED))}. The guide goes on with that.`,
    },
    {
        title: 'A line-up', boat: WITH_LINE_UPS,
        says: ['A line-up says how the valves stand for one use. RUN is for running, and is the normal one; V1 stands there as it normally does, open. SERVICE is the same with V1 shut, for opening a filter.', fence(LINE_UPS)],
        after: 'With one valve there is little to say. With selectors there is much, and a bleed sequence starts in one line-up and ends in another.',
    },
    {
        title: 'A log line', boat: WITH_UPKEEP, due: true,
        says: ['`tend` says what is done how often, and `log` what was done. A line of the log begins with its date; the hours are those on the meter of the engine.', fence(UPKEEP)],
    },
    {
        title: 'A pattern', boat: WITH_PATTERN, onward: WITH_BACK,
        says: [
            'A boat often has several filters of one make. Their facts are written once, in a pattern. The pattern is on no boat by itself.', fence(PATTERN),
            'The line of F1 in the course now says that F1 is like it:', fence(alone(LIKE)), 'F1 has taken over the facts and the bleed point, which on F1 is called BS-F1.',
        ],
    },
    {
        title: 'A survey line', boat: WITH_SURVEY,
        says: [
            'Someone goes on board and looks. What is found is laid over what was drawn, with how well it is known. First the hose in the return gets a name, so that the survey can speak of it:', fence(BACK),
            'Behind it sits a valve that nobody drew. It was touched, and it is to be mended before she is used:', fence(SURVEY),
        ],
        after: 'The drawing is still there: `orlop check . --as drawn` judges the boat without the survey.',
    },
];

interface Checked {
    readonly report: Report;
    readonly text: string;
    readonly due: string;
}

export async function checked(boat: string): Promise<Checked> {
    const loaded = await loadBoat({ [FILE]: boat });
    const report = reportOf(loaded, () => boat, () => FILE, judge(loaded.boat, TODAY));
    return { report, text: reportText(report), due: dueText(report.boat, duePlan(loaded.boat, TODAY), TODAY) };
}

/** What a change did to what the checker says: findings and facts that went and came. */
function difference(before: Report, after: Report): string[] {
    const findings = (report: Report): string[] => report.findings.map(({ severity, rule, message }) => `**${severity}**, ${code(rule.code)}: ${plain(message)}`);
    const facts = (report: Report): string[] => report.facts.map(({ fact, how }) => `${plain(fact)}: ${plain(how)}`);
    const list = (title: string, from: readonly string[], to: readonly string[]): string[] => {
        const added = to.filter((line) => !from.includes(line));
        return added.length === 0 ? [] : [`${title}\n\n${added.map((line) => `- ${line}`).join('\n')}`];
    };
    const told = [
        ...list('New findings:', findings(before), findings(after)), ...list('Findings that are gone:', findings(after), findings(before)),
        ...list('New among the facts to measure:', facts(before), facts(after)), ...list('No longer among the facts to measure:', facts(after), facts(before)),
    ];
    return told.length === 0 ? ['`check` says the same as before.'] : ['What `check` says now that it did not say before:', ...told];
}

export async function guidePage(): Promise<string> {
    const first = await checked(SMALLEST);
    let before = first.report;
    const steps: string[] = [];
    for (const step of STEPS) {
        const { report, due } = await checked(step.boat);
        steps.push(`## ${step.title}`, ...step.says, ...difference(before, report), ...(step.due ? [`And \`orlop due . --on ${TODAY}\` says:`, fence(due, 'text')] : []), ...(step.after === undefined ? [] : [step.after]));
        before = step.onward === undefined ? report : (await checked(step.onward)).report;
    }
    return page([
        '# Guide: a boat in ten minutes',
        'You write down the fuel system of your boat, one thing on a line. Orlop reads it, judges it by rules that name their source, and says what it would have to know to judge more. You need no figures to begin.',
        '## The smallest boat',
        `Make a folder for the boat, and in it a file that ends in \`.orlop\`, such as \`${FILE}\`. Write this into it:`,
        fence(SMALLEST),
        'Line by line:',
        table(['line', 'what it says'], LINES.map(([line, says]) => [code(line.trim()), plain(says)])),
        '## What check says of it',
        'In the terminal, in that folder, type `orlop check .`; in the editor the same stands under the lines as you type.',
        fence(first.text, 'text'),
        'How to read it: the first line counts. A finding is something that is wrong with what is written; it names its rule, the place, what may come of it and how to mend it. A fact to measure is something that is not written and on which a rule waits. The facts that settle most stand first. Go and measure those, and leave the rest.',
        ...steps,
        '## From here',
        'Write your own boat in the same way: tanks, engine, courses, then what you can measure. [The language](language.md) lists every word, [units](units.md) every unit, [rules](rules.md) every rule. `orlop bleed` writes a bleed sequence as soon as the facts that it needs are there; until then it names them.',
    ]);
}
