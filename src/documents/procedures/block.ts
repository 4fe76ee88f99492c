/** A procedure as a block of the language: what Orlop writes into the text, keeps and checks. */
import type { Boat, Id, Job } from '../../model/boat';
import type { CautionStep, RunStep, ServiceStep } from '../../model/step';
import { fromSI } from '../../model/units';
import { figure } from '../../model/words';
import { jobWords, type ProcedurePlan } from '../../procedures/service/plan';
import { spacedLine, stepLine } from '../bleed/block';
import { quoted, withNotes, type Note, type Spelling } from '../kept';
import { DEFERRAL } from './catalogue';

/** The head of the block, up to the brace. */
export function procedureHead(boat: Boat, { jobs, starts, ends, takes }: ProcedurePlan): string {
    const people = takes.people === 1 ? 'one person' : `${takes.people} people`;
    return [
        `procedure ${jobs.map(jobWords).join(', ')}`, ...(boat.lineUps.length === 0 ? [] : [`starts ${starts}`, `ends ${ends}`]), ...(takes.seconds > 0 ? [time(takes.seconds)] : []), people, 'kept',
    ].join('   ');
}

/** The lines of the block in one spelling, without notes. Cautions that stand together are one line. */
export function procedureLines({ steps, defaults }: ProcedurePlan): string[] {
    const lines = [`heed ${quoted(DEFERRAL)}`];
    let topics: string[] = [];
    const warn = (): void => { if (topics.length > 0) lines.push(`caution ${topics.join(', ')}`); topics = []; };
    for (const { step } of steps) {
        if (step.do === 'caution' && step.text === undefined) { topics.push(topicWords(step)); continue; }
        warn();
        lines.push(serviceLine(step));
    }
    warn();
    for (const text of defaults) lines.push(`taken ${quoted(text)}`);
    return lines;
}

export const procedureText = (boat: Boat, plan: ProcedurePlan, notes: readonly Note[] = []): string =>
    `${procedureHead(boat, plan)} {\n${withNotes(procedureLines(plan), notes, SERVING).join('\n')}\n}\n`;

/** A step as a line of the language. */
export function serviceLine(step: ServiceStep): string {
    switch (step.do) {
        case 'set': case 'prefill': case 'bleed': case 'prove': case 'start': return stepLine(step);
        case 'open': return `open ${step.part} ${step.opening}`;
        case 'close': return `shut ${step.part} ${step.opening}`;
        case 'hold': return `prove ${step.valves.join(', ')} by ${step.opening === 'drain' ? `draining ${step.part}` : `opening ${step.part} ${step.opening}`} until the stream dies within ${time(step.within)}`;
        case 'remove': return `remove ${pieces(step)}`;
        case 'fit': return `${step.again ? 'refit' : 'fit'} ${pieces(step)}`;
        case 'look': return `look ${[step.part ?? '', step.piece].filter((word) => word !== '').join(' ')}${step.words === undefined ? '' : ` ${quoted(step.words)}`}`;
        case 'clean': return `clean ${step.part} ${step.piece}`.trim();
        case 'switch': return `set ${step.of === undefined ? '' : `${step.of} `}${step.thing} ${step.to}`;
        case 'place': return `place ${step.thing === 'can' ? `can${step.holds === undefined ? '' : ` ${litres(step.holds)}`}` : `${step.count === undefined ? '' : `${step.count} `}pads`} under ${step.part}`;
        case 'stop': return `stop ${step.part}${step.keyOut ? ' key out' : ''}`;
        case 'run': return runLine(step);
        case 'read': return `read ${step.gauge}${step.expect ? ` expect ${band(step.expect)}` : ''}${step.speed === undefined ? '' : ` at ${rpm(step.speed)}`}`;
        case 'wait': return `wait ${time(step.seconds)}`;
        case 'log': return `log ${step.jobs.map(jobWords).join(', ')}`;
        case 'sequence': return [`do bleed ${step.engine}`, step.ranDry ? 'after running dry' : step.opened.length > 0 ? `after opening ${step.opened.join(', ')}` : '', step.prefilled.length > 0 ? `prefilled ${step.prefilled.join(', ')}` : ''].filter((word) => word !== '').join(' ');
        case 'caution': return `caution ${topicWords(step)}${step.text === undefined ? '' : ` ${quoted(`${step.signal === undefined ? '' : `${step.signal}: `}${step.text}`)}`}`;
    }
}

const topicWords = ({ topic, part }: CautionStep): string => (part === undefined ? topic : `${topic} ${part}`);
const pieces = ({ part, pieces: own }: { readonly part: Id; readonly pieces: readonly string[] }): string => [part, own.join(', ')].filter((word) => word !== '').join(' ');

function runLine({ part, speed, seconds, inGear, until }: RunStep): string {
    return [`run ${part}`, speed === undefined ? '' : `at ${rpm(speed)}`, seconds === undefined ? '' : `for ${time(seconds)}`, inGear ? 'in gear' : '', until === undefined ? '' : `until ${until.tank} holds ${litres(until.holds)}`]
        .filter((word) => word !== '').join(' ');
}

const litres = (si: number): string => `${figure(fromSI(si, 'L'))} L`;
const rpm = (si: number): string => `${Math.round(fromSI(si, 'rpm'))} rpm`;
const time = (seconds: number): string => (seconds >= 60 && seconds % 60 === 0 ? `${seconds / 60} min` : `${figure(seconds, 4)} s`);

/** Of a vacuum nobody writes the sign. */
function band({ low, high }: { readonly low: number; readonly high: number }): string {
    const [from, to] = low < 0 && high <= 0 ? [-high, -low] : [low, high];
    return from === to ? `${figure(fromSI(to, 'kPa'))} kPa` : `${figure(fromSI(from, 'kPa'))} to ${figure(fromSI(to, 'kPa'))} kPa`;
}

/** Wider gaps before the figures, as the formatter sets them. */
const spaced = (line: string): string => (line.includes('"') ? line : line.startsWith('set ') ? line : spacedLine(line).replace(/ key out$/, '   key out'));

const isStep = (line: string): boolean => /^(open|shut|turn|prefill|bleed|prove|start|stop|set|place|remove|fit|refit|clean|look|do|run|read|wait|log) \S/.test(line);

/** How the lines of procedures are told apart. */
export const SERVING: Spelling = {
    isStep, isOwn: (line) => isStep(line) || /^caution [a-z]/.test(line) || /^(heed|taken) "/.test(line), isBefore: (line) => /^(heed|caution) /.test(line), spaced,
    keyOf: (line) => line.replace(/".*$/, '').replace(/^(place) (can|\d* ?pads).* under /, '$1 $2 under ').replace(/ (at|to|expect|for|until|within|after) .*$/, '').trim(),
};

/** Parts without a tag that the block would have to name, and cannot. */
export function unnamed(boat: Boat, plan: ProcedurePlan): Id[] {
    const named = plan.steps.flatMap(({ step }) => [...idsIn(step)]);
    return [...new Set(named)].filter((id) => boat.parts.some((part) => part.id === id && part.tag === undefined));
}

function idsIn(step: ServiceStep): Id[] {
    const own: (Id | undefined)[] = ['part' in step ? step.part : undefined];
    switch (step.do) {
        case 'bleed': own.push(step.driver.part); break;
        case 'hold': own.push(...step.valves); break;
        case 'sequence': own.push(...step.opened); break;
        case 'log': own.push(...step.jobs.map(({ part }: Job) => part)); break;
        case 'read': own.push(step.gauge); break;
        default:
    }
    return own.filter((id) => id !== undefined);
}
