/**
 * The generator and the executor of service procedures against the service oracle, which reads the laws by itself. What was made must pass both; then every
 * single slip in it (a step dropped, an old seal, a wrong tag, ...) that the oracle finds unsafe or incomplete must be caught by the executor.
 * ORLOP_MUTANTS=all tries every slip of every procedure, instead of a draw of them.
 */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Boat, Job } from '../../src/model/boat';
import type { ServiceStep } from '../../src/model/step';
import { loadBoat } from '../../src/language/load';
import { execute, wayBack, withCautions } from '../../src/procedures/service/execute';
import { procedureFor, procedureTable } from '../../src/procedures/service/generate';
import { isBlank, type ProcedurePlan } from '../../src/procedures/service/plan';
import type { Program } from '../../src/procedures/service/program';
import { dressOf, lots, randomCase, toText } from './random-boats';
import { BY_HAND } from './service/by-hand';
import { plainBoat, plainJobs, plainSteps } from './service/convert';
import { SLIPS, mutantsOf, type Slip } from './service/mutants';
import { Boatyard, faultsOf, run, type Fault, type Run } from './service/simulate';

const EXAMPLES = readdirSync('examples').toSorted();
const ALL = process.env['ORLOP_MUTANTS'] === 'all';
const RANDOM_BOATS = ALL ? 200 : 20;
/** How many slips of each kind are drawn of one procedure. */
const OF_A_KIND = ALL ? Infinity : 2;

interface Subject { readonly name: string; readonly boat: Boat; readonly yard: Boatyard; readonly program: Program }
/** Of the slips tried: unsafe by the oracle, those of them that the executor caught; and of the rest what only the executor minds, and what nobody does. */
interface Tally { tried: number; unsafe: number; caught: number; strict: number; harmless: number }

const textsOf = (example: string): Record<string, string> => Object.fromEntries(readdirSync(join('examples', example)).map((file) => [file, readFileSync(join('examples', example, file), 'utf8')]));

const programOf = ({ jobs, starts, ends, steps }: ProcedurePlan): Program =>
    ({ jobs, starts, ends, steps: steps.map(({ step }) => step), ...(steps.some(({ step }) => step.do === 'caution' && step.topic === 'underway') && { underWay: true }) });

/** Undefined where a `do bleed` in it has no steps from there. */
function simulated({ boat, yard, program }: Subject, written: readonly ServiceStep[] = program.steps): Run | undefined {
    const steps = plainSteps(boat, yard.boat, written, program);
    return steps && run(yard, { jobs: plainJobs(program.jobs), starts: program.starts, ends: program.ends, steps, ...(program.underWay && { underWay: true }) });
}
const executed = ({ boat, program }: Subject, steps: readonly ServiceStep[] = program.steps): string[] => {
    const { broken, atEnd } = execute(boat, { ...program, steps });
    return [...broken.flatMap((laws, i) => laws.map((law) => `${i + 1}: ${law.law} ${law.parts.join(' ')}`)), ...atEnd.map((law) => `end: ${law.law} ${law.parts.join(' ')}`)];
};
const told = (subject: Subject, made: Run | undefined): string[] => (!made ? [`${subject.name}: a sequence in it has no steps`] : [
    ...made.faults.flatMap((own, i) => own.map((fault: Fault) => `${subject.name}, ${i + 1} ${JSON.stringify(subject.program.steps[i])}: ${fault.law}, ${fault.why}`)),
    ...made.atEnd.map((fault) => `${subject.name}, at the end: ${fault.law}, ${fault.why}`),
]);

const byHand: Subject[] = [];
const generated: Subject[] = [];
const drawnByLot: Subject[] = [];

/** Plans with a valve, a tank or a line-up that is not in the boat, as a can that is brought along, stand on another boat. */
const isOfBoat = (boat: Boat, { steps, ends }: ProcedurePlan): boolean => {
    const ids = new Set([...boat.parts, ...boat.consumers, ...boat.tanks].map(({ id }) => id));
    return boat.lineUps.some(({ id }) => id === ends) && steps.every(({ step }) => (step.do === 'set' ? ids.has(step.part) : step.do === 'bleed' ? ids.has(step.driver.part) : true));
};

/** One job of each kind on each third part or so; the whole table when all is asked for, which takes minutes. */
function plansOf(boat: Boat): ProcedurePlan[] {
    const made = ALL ? procedureTable(boat).map((cell) => cell.made) : jobsOf(boat).map((job) => procedureFor(boat, { jobs: [job] }));
    return made.filter((one): one is ProcedurePlan => !isBlank(one) && isOfBoat(boat, one));
}

function jobsOf(boat: Boat): Job[] {
    const lot = lots(boat.name.length);
    const some = (part: string, ...jobs: (readonly [string, string])[]): Job[] => jobs.filter(() => lot() < 0.34).map(([verb, piece]) => ({ verb, part, piece }));
    return [
        ...boat.parts.flatMap(({ id, kind, tag }) => (tag === undefined ? []
            : kind === 'filter' ? some(id, ['renew', 'element'], ['look', 'element'], ['refit', 'element'], ['drain', '']) : kind === 'shutoff' || kind === 'selector' || kind === 'changeover' ? some(id, ['work', ''], ['renew', ''])
                : kind === 'hand primer' || kind === 'lift pump' || kind === 'electric primer' ? some(id, ['test', ''], ['renew', '']) : some(id, ['renew', '']))),
        ...boat.tanks.flatMap(({ id }) => some(id, ['drain', 'water'], ['look', 'vent'])), ...boat.consumers.flatMap(({ id }) => some(id, ['test', ''])),
    ];
}

async function gather(): Promise<void> {
    for (const example of EXAMPLES) {
        const { boat, problems } = await loadBoat({ ...textsOf(example), ...(BY_HAND[example] && { 'by-hand.orlop': BY_HAND[example] }) });
        if (problems.length > 0) throw new Error(problems[0]!.message);
        const yard = new Boatyard(plainBoat(boat));
        for (const { id, jobs, starts, ends, lines } of boat.procedures) {
            byHand.push({ name: `${example}, by hand ${id}`, boat, yard, program: withCautions(boat, { jobs, starts: starts!, ends: ends!, steps: lines.flatMap((line) => line.steps) }) });
        }
        for (const made of plansOf(boat)) generated.push({ name: `${example}, ${made.id}`, boat, yard, program: programOf(made) });
    }
    for (let seed = 1; seed <= RANDOM_BOATS; seed++) {
        const drawn = randomCase(seed).boat;
        const { boat, problems } = await loadBoat({ 'bench.orlop': toText(drawn, dressOf(drawn, seed)) });
        if (problems.length > 0) throw new Error(problems[0]!.message);
        const yard = new Boatyard(plainBoat(boat));
        for (const part of boat.parts.filter((one) => one.kind === 'filter' || one.kind === 'lift pump')) {
            const made = procedureFor(boat, { jobs: [{ verb: 'renew', part: part.id, piece: part.kind === 'filter' ? 'element' : '' }] });
            if (!isBlank(made)) drawnByLot.push({ name: `seed ${seed}, ${made.id}`, boat, yard, program: programOf(made) });
        }
    }
}

/** Slips of each kind, so many as are asked for: the same draw each time. */
function drawn(subject: Subject, seed: number): ReturnType<typeof mutantsOf> {
    const lot = lots(seed);
    const all = mutantsOf(subject.boat, subject.program.steps).map((mutant) => ({ mutant, at: lot() })).toSorted((a, b) => a.at - b.at).map(({ mutant }) => mutant);
    return SLIPS.flatMap((slip) => all.filter((mutant) => mutant.slip === slip).slice(0, OF_A_KIND));
}

const tally = Object.fromEntries(SLIPS.map((slip) => [slip, { tried: 0, unsafe: 0, caught: 0, strict: 0, harmless: 0 }])) as Record<Slip, Tally>;
const missed: string[] = [];
function slip(subject: Subject, seed: number): void {
    for (const mutant of drawn(subject, seed)) {
        const own = tally[mutant.slip];
        const made = simulated(subject, mutant.steps);
        if (!made) continue;
        own.tried++;
        const unsafe = faultsOf(made);
        const caught = executed(subject, mutant.steps);
        if (unsafe.length > 0) own.unsafe++;
        if (unsafe.length > 0 && caught.length > 0) own.caught++;
        if (unsafe.length > 0 && caught.length === 0) missed.push(`${subject.name}, ${mutant.what}: ${unsafe.map((fault) => `${fault.law}, ${fault.why}`).join('; ')}`);
        if (unsafe.length === 0 && caught.length > 0) own.strict++;
        if (unsafe.length === 0 && caught.length === 0) own.harmless++;
    }
}

describe('service procedures', () => {
    beforeAll(gather, ALL ? 1_200_000 : 240_000);

    // By hand: one for Ottilwake, two for Brackenwake, one for Marrenwake. Each example has two filters at least, and four kinds of jobs on each; every
    // second boat drawn by lot or so has a filter that can be isolated.
    it.each([['written by hand', byHand, 4], ['generated for the examples', generated, 40], ['generated for boats drawn by lot', drawnByLot, RANDOM_BOATS / 2]] as const)('that are %s break no law', (_, subjects, least) => {
        expect(subjects.length).toBeGreaterThanOrEqual(least);
        expect(subjects.flatMap((subject) => told(subject, simulated(subject)))).toEqual([]);
        expect(subjects.flatMap((subject) => executed(subject).map((broken) => `${subject.name}, ${broken}`))).toEqual([]);
    });

    it('are caught by the executor with every slip that is unsafe', () => {
        const subjects = [...byHand, ...generated, ...drawnByLot];
        subjects.forEach(slip);
        expect(missed).toEqual([]);
        const counts = JSON.stringify(tally, null, 1);
        for (const kind of SLIPS) {
            const { tried, unsafe, caught, strict, harmless } = tally[kind];
            expect(caught, counts).toBe(unsafe);
            expect(unsafe + strict + harmless, counts).toBe(tried);
            // The three services of filters that are written by hand offer each kind of slip twice or more, but the key, which is taken out once.
            expect(tried, counts).toBeGreaterThanOrEqual(kind === 'key left in' ? 3 : 6);
        }
        // In each of the three services by hand these are unsafe wherever they are made, or in most places.
        for (const kind of ['old seal', 'left open', 'nothing to catch', 'wrong driver', 'other tag', 'step dropped'] as const) expect(tally[kind].unsafe, counts).toBeGreaterThanOrEqual(3);
        // Every procedure that opens anything has nine kinds of slips or more to offer.
        expect(Object.values(tally).reduce((sum, { tried }) => sum + tried, 0), counts).toBeGreaterThan(9 * RANDOM_BOATS);
        if (process.env['ORLOP_MUTANTS'] !== undefined) console.log(counts);
    }, ALL ? 3_600_000 : 120_000);

    it('can be left after any step: the way back that the executor finds closes, fits, sets and bleeds all by the oracle too', () => {
        const WHOLE = ['PROC-OPEN-CLOSE', 'PROC-AIR', 'PROC-ISOLATED', 'PROC-SUCTION', 'PROC-RETURN', 'PROC-PARTS', 'PROC-SEALS', 'PROC-RESTORES', 'RAW-SEACOCK-CRANK'];
        const astray: string[] = [];
        let left = 0;
        [...byHand, ...generated, ...drawnByLot].forEach((subject, seed) => {
            const { boat, program } = subject;
            const { states } = execute(boat, program);
            const lot = lots(seed);
            for (let i = 0; i < (ALL ? 10 : 2); i++) {
                const after = Math.floor(lot() * program.steps.length);
                const back = wayBack(boat, program, states[after + 1]!);
                const begun = program.steps.slice(0, after + 1);
                const made = back && simulated(subject, [...begun, ...back]);
                if (!back) astray.push(`${subject.name}, after ${after + 1}: none`);
                if (!made) continue;
                left++;
                // Keys go in with the start, which is no part of putting her together again.
                const faults = [...made.faults.slice(begun.length).flat(), ...made.atEnd].filter(({ law, why }) => WHOLE.includes(law) && !why.startsWith('the key of'));
                if (faults.length > 0) astray.push(`${subject.name}, after ${after + 1}, by ${back.map((step) => JSON.stringify(step)).join(' ')}: ${faults.map(({ law, why }) => `${law}, ${why}`).join('; ')}`);
            }
        });
        expect(astray).toEqual([]);
        // Two states of each procedure, less those few that run a whole sequence from where it has no steps.
        expect(left).toBeGreaterThan(byHand.length + generated.length + drawnByLot.length);
    }, ALL ? 1_200_000 : 60_000);
});
