/** The editor colours a text without the parser. What it shows must not contradict what the parser reads. */
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { EmptyFileSystem } from 'langium';
import { beforeAll, describe, expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';
import { createOrlopServices } from '../../src/language/services';
import { EACH_KINDS, FACTS, MARKS, type FactWord } from '../../src/language/vocabulary';
import { UNITS } from '../../src/model/units';

const ROOT = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, ROOT), 'utf8');

/** A stretch of text with its scopes, the language's own left out. */
interface Span { readonly start: number; readonly end: number; readonly text: string; readonly scopes: readonly string[] }
interface Token { readonly image: string; readonly start: number; readonly end: number; readonly type: string; readonly atHead: boolean }

const lexer = createOrlopServices(EmptyFileSystem).Orlop.parser.Lexer;
const KEYWORDS = Object.keys(lexer.definition).filter((name) => /^[a-z]/.test(name));

let grammar: IGrammar;
beforeAll(async () => {
    const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
    await oniguruma.loadWASM({ data: wasm });
    const registry = new textmate.Registry({
        onigLib: Promise.resolve({
            createOnigScanner: (sources) => new oniguruma.OnigScanner(sources),
            createOnigString: (text) => new oniguruma.OnigString(text),
        }),
        loadGrammar: async () => textmate.parseRawGrammar(read('syntaxes/orlop.tmLanguage.json'), 'orlop.tmLanguage.json'),
    });
    grammar = (await registry.loadGrammar('source.orlop'))!;
});

function coloured(text: string): Span[] {
    let state = textmate.INITIAL;
    return [...text.matchAll(/[^\r\n]+|\r\n?|\n/g)].filter(([line]) => !/^[\r\n]/.test(line)).flatMap((match) => {
        const { tokens, ruleStack } = grammar.tokenizeLine(match[0], state);
        state = ruleStack;
        return tokens.filter((token) => token.startIndex < match[0].length).map((token) => {
            const [start, end] = [token.startIndex, Math.min(token.endIndex, match[0].length)];
            return { start: match.index + start, end: match.index + end, text: match[0].slice(start, end), scopes: token.scopes.slice(1) };
        });
    });
}

/** The parser's tokens and comments, in order. A block may stand on one line, so a brace begins a new head. */
function parsed(text: string): Token[] {
    const { tokens, hidden, errors } = lexer.tokenize(text);
    expect(errors.filter(({ message }) => !message.startsWith('This quote is not closed'))).toEqual([]);
    return [
        ...tokens.map((token, i) => ({ token, atHead: i === 0 || ['NL', '{', '}'].includes(tokens[i - 1]!.tokenType.name) })),
        ...hidden.map((token) => ({ token, atHead: false })),
    ].map(({ token, atHead }) => ({
        image: token.image, start: token.startOffset, end: token.startOffset + token.image.length, type: token.tokenType.name, atHead,
    })).sort((a, b) => a.start - b.start);
}

const has = (span: Span, ...scopes: readonly string[]): boolean => span.scopes.some((own) => scopes.some((scope) => own === scope || own.startsWith(`${scope}.`)));
const over = (spans: readonly Span[], token: { readonly start: number; readonly end: number }): Span[] => spans.filter((span) => span.start < token.end && span.end > token.start);
const isKeyword = (span: Span): boolean => has(span, 'keyword', 'storage');

/** The scopes of `part` where it first stands in `line`, for a line that begins with nothing pending. */
function scopesOf(part: string, line: string): string[] {
    const start = line.indexOf(part);
    expect(start, line).toBeGreaterThanOrEqual(0);
    return over(coloured(line), { start, end: start + part.length }).filter((span) => span.text.trim() !== '')
        .map((span) => span.scopes.filter((scope) => !scope.startsWith('meta.')).join(' '));
}

/** Tokens of a text that show otherwise than `fits` says; none when the two agree. */
function misfits(text: string, concerns: (token: Token, next: Token | undefined) => boolean, fits: (spans: readonly Span[], token: Token) => boolean): string[] {
    const spans = coloured(text);
    return parsed(text).filter((token, i, all) => concerns(token, all[i + 1]))
        .filter((token) => !fits(over(spans, token), token))
        .map((token) => `${token.image}: ${over(spans, token).map((span) => `[${span.text}] ${span.scopes.join(' ')}`).join(', ')}`);
}

/** What the examples do not hold: selectors, legs, a bleed sequence, words that look like others, and half-typed lines. */
const HARD = `selector SV1 "supply" in EngineBay at 660 mm { ports port, stbd, out
  position PORT  joins port, out
  position OFF   joins nothing
}
transfer course Spare from SV1.return to T2.vent { hose }
supply course Stbd like WingSupply from T2.P1 to SV1.stbd tags -S {
  split {
    leg main   { check CV2 cracks 0.5 kPa }
    leg beside { shutoff VB normally shut   electric primer EP1 30 L/h momentary }
  }
  changeover CH1 at -40 mm { leg A { filter FA } leg B { filter FB } }
  tube U1  bore 3/8 in   length 1 1/2 m   at 40 mm over ports   fire-resistant--from the label
  strainer ST1   holds 1 L measured 2026-03-02   label "hose -- not a comment
  radiator Ölkühler   ports at 900 mm -- "not a string
}
bleed E1 after opening F1, F2   from T1   starts SERVICE   ends RUN   kept {
  open  V1
  bleed BS1 by PR1   expect 49 strokes
    note "the screw is soft"
  prove LP1 at BS2 by lever 10 strokes
  drain F1 bowl
  start E1   at most 2 times 10 s
}
tend { test remote shutoff every 12 months
  work each shutoff, each Bowl   every 6 months
  renew hose S1   every 10 years   with O-ring, tank lid ring }
season laid up 1 Nov to 31 Mar
now 2026-03-02 14:20 { V1 shut   T1 holds about 110 L }
return
lift pump
vent course
hose
V9
`;

const examples = readdirSync(new URL('examples/', ROOT), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.orlop')).map((path) => path.replaceAll('\\', '/')).sort();
const TEXTS: readonly (readonly [string, string])[] = [
    ...examples.map((path) => [path, read(`examples/${path}`)] as const),
    ['the hard text', HARD],
    ['the hard text with the line ends of another system', HARD.replaceAll('\n', '\r\n')],
];

test('the examples are found', () => expect(examples).toContain('ottilwake/lines.orlop'));

describe.each(TEXTS)('%s shows as it is parsed:', (_, text) => {
    test('a keyword at the head of a line', () => {
        // `ports at 660 mm` in a filter is a height; `ports port, stbd` in a selector is its list.
        const isHeight = (token: Token, next: Token | undefined): boolean => token.type === 'ports' && next?.image === 'at';
        expect(misfits(text, (token, next) => token.atHead && KEYWORDS.includes(token.type) && !isHeight(token, next), (spans) => spans.every(isKeyword))).toEqual([]);
    });
    test('a quantity and its unit, as one', () => {
        expect(misfits(text, (token) => token.type === 'MEASURE', ([span, ...more], token) =>
            more.length === 0 && has(span!, 'constant.numeric') && span!.start === token.start && span!.end === token.end)).toEqual([]);
    });
    test('a date or a time', () => {
        expect(misfits(text, (token) => ['DATE', 'TIME', 'DAYMONTH'].includes(token.type), (spans) => spans.length === 1 && has(spans[0]!, 'constant.other.date'))).toEqual([]);
    });
    test('a quotation and a comment', () => {
        expect(misfits(text, (token) => token.type === 'STRING', (spans) => spans.every((span) => has(span, 'string')))).toEqual([]);
        expect(misfits(text, (token) => token.type === 'COMMENT', (spans) => spans.every((span) => has(span, 'comment')))).toEqual([]);
        expect(misfits(text, (token) => !['STRING', 'COMMENT'].includes(token.type), (spans) => !spans.some((span) => has(span, 'string', 'comment')))).toEqual([]);
    });
    test('a name, and never as a keyword', () => {
        expect(misfits(text, (token) => token.type === 'TAG' || token.type === 'SUFFIX', (spans) => spans.length === 1 && has(spans[0]!, 'entity.name', 'variable') && !isKeyword(spans[0]!))).toEqual([]);
        expect(misfits(text, (token) => token.type !== 'TAG', (spans, token) => !spans.some((span) => has(span, 'entity.name')) || /^(main|beside|bypass)$/.test(token.image))).toEqual([]);
    });
});

describe('every word of the language is known:', () => {
    test.each(Object.keys(EACH_KINDS))('each %s', (kind) => {
        const line = `  look each ${kind} every 12 months`;
        expect(scopesOf('each', line)[0]).toMatch(/^keyword\./);
        expect(scopesOf(kind, line)).toEqual(['support.type.kind.orlop']);
        expect(scopesOf(kind, `  look V1 ${kind} every 12 months`)).toEqual(kind.split(' ').length === 1 ? [''] : expect.anything());
    });

    /** Where a keyword does not stand alone at the head of a line. */
    const PLACES: Readonly<Record<string, string>> = { lift: 'lift pump LP1', is: 'pattern X1 is filter', air: 'vent course B from T1 to air', deck: 'fill course B from deck to T1', sea: 'return course B from T1 to sea' };

    test.each(KEYWORDS)('keyword %s', (keyword) => {
        const scopes = scopesOf(keyword, PLACES[keyword] ?? `${keyword} X1`);
        expect(scopes).toHaveLength(1);
        expect(scopes[0]).toMatch(['air', 'deck', 'sea'].includes(keyword) ? /^constant\.language\./ : /^(keyword|storage)\./);
        // In the middle of a longer word it means nothing.
        for (const longer of [`${keyword}-like`, `un-${keyword}`, `${keyword}s-end`, `${keyword}_2`]) {
            expect(coloured(`${longer} X1`).filter(isKeyword), longer).toEqual([]);
            expect(coloured(`hose S1 ${longer} X1`).filter(isKeyword).map((span) => span.text.trim()), longer).toEqual(['hose']);
        }
    });

    test.each(Object.keys(UNITS))('unit %s', (unit) => {
        const text = `hose S1   bore 8 ${unit}   length 2.5${unit}\n`;
        const quantities = [`8 ${unit}`, `2.5${unit}`];
        expect(parsed(text).filter((token) => token.type === 'MEASURE').map((token) => token.image)).toEqual(quantities);
        expect(coloured(text).filter((span) => has(span, 'constant.numeric')).map((span) => span.text)).toEqual(quantities);
    });

    const VALUES: Readonly<Record<Exclude<FactWord['form']['is'], 'choice'>, string>> = {
        quantity: ' 8 mm', curve: ' 2 L/h at 850 rpm', sizes: ' 800 x 600 x 420 mm', corners: ' 200 mm up 550 mm stbd, 620 mm up 550 mm stbd, 620 mm up 900 mm stbd', place: ' at 660 mm', flag: '', text: ' "FUEL"',
        name: ' F9', year: ' 2021', count: ' 3', pieces: ' lid ring, drain washer', heading: '', suffix: ' -S', rest: ' PORT to STBD passes OFF',
    };
    const facts = new Map(Object.values(FACTS).flat().map((fact) => [fact.words, fact.form]));

    test.each([...facts])('fact %s', (words, form) => {
        const values = form.is === 'choice' ? form.of.map((choice) => ` ${choice}`) : [words === 'at' ? ' 660 mm' : VALUES[form.is]];
        for (const value of values) {
            const line = `gauge G1   ${words}${value}`;
            expect(new Set(scopesOf(words, line)), line).toEqual(new Set([words === 'like' ? 'keyword.control.orlop' : 'variable.parameter.fact.orlop']));
            if (form.is === 'choice') expect(scopesOf(value.trim(), line), line).toEqual(['constant.language.orlop']);
            // The lid and the drain of `seals lid ring, drain washer` are pieces, not heights.
            if (form.is === 'pieces') expect(new Set(scopesOf(value.trim(), line)), line).toEqual(new Set(['', 'punctuation.separator.orlop']));
        }
    });

    test.each(Object.keys(MARKS))('mark %s', (mark) => {
        expect(scopesOf(mark, `hose S1   bore 8 mm ${mark} "p14.jpg"`)).toEqual(['storage.modifier.orlop']);
    });

    test.each(['open', 'shut', 'turn', 'bleed', 'prefill', 'prove', 'start', 'caution', 'note', 'renew', 'look', 'test', 'drain', 'clean', 'heed', 'beware'])('step %s', (verb) => {
        expect(scopesOf(verb, `  ${verb} F1 by PR1`)).toEqual(['keyword.other.step.orlop']);
        expect(scopesOf(verb, `gauge G1 by PR1   is ${verb}`)).not.toContain('keyword.other.step.orlop');
    });
});

describe('a word means what its line makes of it:', () => {
    test.each([
        ['hose', 'hose S1', ['storage.type.orlop']],
        ['hose', 'renew hose S1', ['']],
        ['shutoff', 'test remote shutoff every 12 months', ['']],
        ['return', 'limits inlet 20 kPa   lift 900 mm   return 10 kPa', ['variable.parameter.fact.orlop']],
        ['lift', 'limits inlet 20 kPa   lift 900 mm   return 10 kPa', ['variable.parameter.fact.orlop']],
        ['return course', 'return course Back from E1 to T1.R1', ['keyword.control.orlop']],
        ['vent course', 'vent course Breather from T1 to air', ['keyword.control.orlop']],
        ['vent', 'tank T1 { pickup P1   drop R1   vent   fill }', ['storage.type.orlop']],
        ['R1', 'tank T1 { pickup P1   drop R1   vent   fill }', ['entity.name.type.orlop']],
        ['P1', 'supply course Feed from T1.P1 to E1', ['variable.other.orlop']],
        ['Feed', 'supply course Feed from T1.P1 to E1', ['entity.name.type.orlop']],
        ['vent', 'transfer course Spare from T1.vent to E1', ['variable.other.port.orlop']],
        ['to', 'envelope level 5 to 95 %', ['keyword.operator.range.orlop']],
        ['drain', 'drain at 480 mm', ['variable.parameter.fact.orlop']],
        ['drain', 'drain F1 bowl', ['keyword.other.step.orlop']],
        ['prefill', 'prefill allowed', ['variable.parameter.fact.orlop']],
        ['bleed', 'bleed BS1 at 705 mm', ['storage.type.orlop']],
        ['T-ring', 'seals lid ring, T-ring', ['']],
        ['T-ring', 'tee T-ring', ['']],
        ...['stop', 'place', 'remove', 'fit', 'refit', 'do', 'run', 'read', 'wait'].map((verb): [string, string, string[]] => [verb, `  ${verb} F1 element`, ['keyword.other.step.orlop']]),
        ['set', 'set E1 seacock shut', ['keyword.other.step.orlop']],
        ['set', 'set bilge pump off', ['keyword.other.step.orlop']],
        ['crest', 'set S1 crest at 650 mm', ['variable.parameter.fact.orlop']],
        ['log', 'log renew F1 element', ['keyword.other.step.orlop']],
        ['log', 'log 2025 {', ['keyword.control.orlop']],
        ['procedure', 'procedure renew F1 element {', ['keyword.control.orlop']],
        ['seal', '1 of seal kit for F1', ['']],
    ])('%s in: %s', (word, line, scopes) => expect(scopesOf(word, line)).toEqual(scopes));

    test('a kind at the end of a line does not name the next line', () => {
        expect(coloured('hose\nV9 shut').find((span) => span.text === 'V9')?.scopes).toEqual(['variable.other.orlop']);
    });
});

describe('the editor\'s own settings:', () => {
    const settings = JSON.parse(read('syntaxes/language-configuration.json')) as {
        wordPattern: { pattern: string; flags: string }; indentationRules: Record<'increaseIndentPattern' | 'decreaseIndentPattern', string>;
    };
    const words = (text: string): string[] => text.match(new RegExp(settings.wordPattern.pattern, `g${settings.wordPattern.flags}`)) ?? [];

    test('a double click takes a word of the language', () => {
        expect(words('line-up V1-P T1.P1 8 mm 2.4 L/h, 95 % "T-ring" 2026-03-02 -- Ölkühler')).toEqual(
            ['line-up', 'V1-P', 'T1', 'P1', '8', 'mm', '2.4', 'L/h', '95', '%', 'T-ring', '2026-03-02', 'Ölkühler']);
        for (const unit of Object.keys(UNITS)) expect(words(`8 ${unit}`)).toEqual(['8', unit]);
    });
    test('a block is indented', () => {
        const deeper = new RegExp(settings.indentationRules.increaseIndentPattern);
        const back = new RegExp(settings.indentationRules.decreaseIndentPattern);
        for (const line of ['tank T1 {', 'filter F1 "a--b {" { -- the primary', '  split {  ']) expect(deeper.test(line), line).toBe(true);
        for (const line of ['tank T1 { vent }', '-- tank T1 {', 'note "cup {', 'hose S1 -- see {']) expect(deeper.test(line), line).toBe(false);
        expect(back.test('  }')).toBe(true);
        expect(back.test('tank T1 { vent }')).toBe(false);
    });
});
