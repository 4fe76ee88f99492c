/**
 * Texts made at random from what texts are made of: the grammar's own words, names, quantities, braces and line ends,
 * and what strikes programs. Whatever is typed, it is answered: no exception, every message at a place in the text, no
 * word that is not for the writer, and the boat can be judged.
 *
 * ORLOP_FUZZ=100000 runs that many; the seed is fixed, so that a failure comes again.
 */
import { AstUtils, EmptyFileSystem, GrammarAST } from 'langium';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { FACTS } from '../../src/language/vocabulary';
import { loadBoat } from '../../src/language/load';
import { reportOf } from '../../src/language/report';
import { createOrlopServices } from '../../src/language/services';
import { UNITS } from '../../src/model/units';
import { SKIPPER_SLIPS } from './skipper-slips';
import { SOUND } from './texts';
import { judge } from '../../src/checks/judge';

const RUNS = Number(process.env['ORLOP_FUZZ'] ?? 2500);
const SEED = 20261125;

const { Orlop } = createOrlopServices(EmptyFileSystem);
const KEYWORDS = [...new Set(AstUtils.streamAllContents(Orlop.Grammar).filter(GrammarAST.isKeyword).map(({ value }) => value))];
const WORDS = [...new Set(Object.values(FACTS).flat().flatMap(({ words }) => words.split(' ')))];
const NAMES = ['T1', 'T2', 'V1', 'F1', 'E1', 'SV1', 'P1', 'R1', 'S1', 'LP1', 'BF1', 'RUN', 'SERVICE', 'ONE', 'TWO', 'More', 'Ünter-Deck', 'Öl', 'V', 'T1.P1', 'T1.P9', 'SV1.in', 'SV1.out', 'V1~2', 'A-B', 'v1', 'Constructor', 'מיכל', 'خزان', '燃料', 'Ж1'];
const SIGNS = ['{', '}', '{', '}', ',', '.', ';', ':', '=', '--', '//', '/*', '*/', '#', '"', '"FUEL"', '“', '”', '\'', '–', '—', '−', '(', ')', '[', ']', '->', '→', '~', '½', 'Ø', '@', '%', '°', '\\', '$', '\u202e', '\u200b', '\ud83d', '\ud83d\ude42', '\0', '\ufeff', '\u2028', '\u00a0'];
const NUMBERS = ['0', '-1', '8', '3/8', '1 1/2', '2,6', '1e9', '0/0', '9'.repeat(400), '800x600x420', '5 to 95', '400-450', '2025-02-30', '2025-03-12', '14:20', '12.03.2025', '1 Nov', '3 March 2025'];
const ENDS = ['\n', '\n', '\n', '\r\n', '\r', '\t', ' ', '', '\n\n'];
const OTHER = ['every', 'or', 'renew', 'renewed', 'common practice', 'after opening', 'by gravity from T1', 'run', 'is normal', 'open', 'shut', 'joins', 'through', 'normaly', 'valve', 'separator', 'duplex', 'widget', 'constructor', 'toString', '__proto__', 'note "x"', 'every 250 hrs', 'kept'];

const quantity = fc.tuple(fc.constantFrom(...NUMBERS), fc.constantFrom('', ' '), fc.constantFrom(...Object.keys(UNITS), 'MM', 'Kpa', 'l/H', 'mn', '')).map((parts) => parts.join(''));
const token = fc.oneof(
    { weight: 5, arbitrary: fc.constantFrom(...KEYWORDS) }, { weight: 3, arbitrary: fc.constantFrom(...WORDS) }, { weight: 4, arbitrary: fc.constantFrom(...NAMES) },
    { weight: 2, arbitrary: quantity }, { weight: 4, arbitrary: fc.constantFrom(...SIGNS) }, { weight: 2, arbitrary: fc.constantFrom(...OTHER) },
);
const loose = fc.array(fc.tuple(token, fc.constantFrom(' ', ' ', ' ', ...ENDS)), { maxLength: 60 }).map((parts) => parts.flat().join(''));

/** Lines as the language has them, with something that does not belong there now and then. */
const name = fc.constantFrom(...NAMES);
const facts = fc.array(fc.oneof({ weight: 3, arbitrary: fc.tuple(fc.constantFrom(...WORDS), quantity).map((two) => two.join(' ')) }, { weight: 1, arbitrary: token }), { maxLength: 4 }).map((all) => all.join(' '));
const PARTS = ['hose', 'tube', 'shutoff', 'check', 'tee', 'filter', 'strainer', 'gauge', 'radiator', 'primer', 'lift pump', 'electric pump', 'electric primer', 'pump', 'lift', 'valve'];
const part = fc.tuple(fc.constantFrom(...PARTS), fc.option(name, { nil: '' }), facts).map((words) => words.join(' '));
const entry = fc.oneof(
    fc.tuple(fc.constantFrom('tank', 'engine', 'vessel', 'selector', 'heater', 'line-up', 'tend', 'log', 'bleed', 'pattern'), name, fc.array(fc.oneof(facts, part, token), { maxLength: 5 })).map(([kind, tag, lines]) => [`${kind} ${tag} {`, ...lines, '}']),
    fc.tuple(fc.constantFrom('supply', 'return', 'vent', 'fill', 'transfer', ''), name, name, name, fc.array(part, { maxLength: 6 })).map(([service, tag, from, to, lines]) => [`${service} course ${tag} from ${from} to ${to} {`, ...lines, '}']),
    fc.tuple(fc.constantFrom('split', 'changeover CH1'), fc.array(part, { maxLength: 3 }), name).map(([kind, lines, leg]) => ['supply course X from T1 to E1 {', `${kind} {`, `leg ${leg} {`, ...lines, '}', '}', '}']),
    fc.constantFrom(...SKIPPER_SLIPS).map(({ text }) => text.replace(/[«»]/g, '').split('\n')),
    fc.constant(SOUND.split('\n')),
);
const built = fc.tuple(fc.array(entry, { maxLength: 5 }), fc.constantFrom('\n', '\n', '\r\n', '\r', '\t'), fc.array(fc.tuple(fc.nat(), token), { maxLength: 3 }), fc.constantFrom('', '\ufeff'))
    .map(([entries, end, spoils, mark]) => {
        const lines = entries.flat();
        for (const [at, stray] of spoils) {
            if (at % 3 === 0) lines.splice(at % (lines.length + 1), 1);
            else lines.splice(at % (lines.length + 1), 0, stray);
        }
        return mark + lines.join(end);
    });

const PROGRAMMERS = /\bundefined\b|\bNaN\b|\[object|\bnull\b|\b[A-Z][a-z]+Error\b|An error occurred/;

/** What is wrong with the answer to a text; nothing when all is well. */
async function faults(texts: Readonly<Record<string, string>>): Promise<string[]> {
    const wrong: string[] = [];
    const loaded = await loadBoat(texts);
    const textOf = (uri: string): string => texts[uri.slice(uri.lastIndexOf('/') + 1)]!;
    // Lines as an editor counts them.
    const linesOf = new Map(Object.entries(texts).map(([file, text]) => [file, text.split(/\r\n|\r|\n/)]));
    for (const { uri, range: { start, end }, message } of loaded.problems) {
        const lines = linesOf.get(uri.slice(uri.lastIndexOf('/') + 1))!;
        for (const place of [start, end]) if (!(place.line >= 0 && place.line < lines.length && place.character >= 0 && place.character <= lines[place.line]!.length)) wrong.push(`outside the text at ${JSON.stringify(place)}: ${message}`);
        if (start.line > end.line || (start.line === end.line && start.character > end.character)) wrong.push(`ends before it begins: ${message}`);
        if (message.trim() === '' || PROGRAMMERS.test(message.replace(/`[^`]*`/g, ''))) wrong.push(`not for a writer: ${message}`);
    }
    const report = reportOf(loaded, textOf, (uri) => uri, judge(loaded.boat));
    if (report.slips.length !== loaded.problems.length) wrong.push('slips are lost');
    return wrong;
}

it(`whatever is typed is answered, ${RUNS} times`, async () => {
    await fc.assert(fc.asyncProperty(fc.oneof(loose, built, built), async (text) => {
        expect(await faults({ 'a.orlop': text })).toEqual([]);
    }), { seed: SEED, numRuns: RUNS });
}, 20_000 + RUNS * 40);

it('the parser holds all of a text: what it could not read is still there', async () => {
    await fc.assert(fc.property(fc.oneof(loose, built), (text) => {
        const { value } = Orlop.parser.LangiumParser.parse(text);
        expect(value.$cstNode?.root.fullText).toBe(text);
        const ends = AstUtils.streamAst(value).map((node) => node.$cstNode?.end ?? 0).toArray();
        expect(Math.max(0, ...ends)).toBeLessThanOrEqual(text.length);
    }), { seed: SEED, numRuns: Math.min(RUNS, 500) });
}, 60_000);

const many = (line: (i: number) => string, n = 20_000, end = '\n'): string => Array.from({ length: n }, (_, i) => line(i)).join(end);

/** One after the other, each of its own way to grow past all measure. */
const LARGE: readonly (readonly [what: string, text: string])[] = [
    ['three hundred nested blocks', `supply course A from T1 to E1 {\n${'split { leg A {\n'.repeat(150)}${'} }'.repeat(150)}\n}\n`], ['three hundred blocks never closed', 'supply course A from T1 to E1 {\n'.concat('split { leg A {\n'.repeat(150))],
    ['three thousand nested blocks of no kind', `pattern X {\n${' a {\n'.repeat(3000)}${'}\n'.repeat(3000)}}\n`], ['braces alone', '{'.repeat(5000)], ['closing braces alone', '}\n'.repeat(20_000)],
    ['unknown words at the heads of lines', many((i) => `wrd${i} abc`)], ['unknown words in a tank', `tank T1 {\n${many((i) => `wrd${i}`)}\n}`], ['unknown words on one line', `tank T1 { ${many((i) => `wrd${i}`, 20_000, ' ')} }`],
    ['unknown names', `tend {\n${many((i) => `look N${i}x every 12 months`)}\n}`], ['unknown names beside many that are known', `tend {\n${many((i) => `look T${i}x every 12 months`, 10_000)}\n}\nvessel Hulk {\n${many((i) => `space T${i}`, 10_000)}\n}\n`],
    ['blank lines', '\n'.repeat(50_000)], ['blanks', `tank T1${' '.repeat(50_000)}: x`], ['one long word', 'a'.repeat(50_000)], ['one long name', 'A'.repeat(50_000)], ['figures', '1'.repeat(20_000)], ['colons', 'a:'.repeat(20_000)], ['quotes', '“'.repeat(20_000)], ['comments begun', '/*'.repeat(20_000)],
    ['a thousand lines and no end to the last', many(() => 'tank', 1000)],
];

it.each(LARGE)('%s are answered, and soon', async (_, text) => {
    const begun = performance.now();
    expect(await faults({ 'a.orlop': text })).toEqual([]);
    // A second or two on a machine with nothing else to do; the tests beside this one take their share.
    expect(performance.now() - begun).toBeLessThan(10_000);
});

it.each(LARGE.slice(0, 3))('%s: one message says so', async (_, text) => {
    const { problems } = await loadBoat({ 'a.orlop': text });
    expect(problems.filter(({ message }) => message.startsWith('Blocks are nested too deep here'))).toHaveLength(1);
});
