/** A keyword of the language stays a word of the trade: it may stand in any line that is not about it. */
import { AstUtils, EmptyFileSystem, GrammarAST } from 'langium';
import { describe, expect, test } from 'vitest';
import type { OrlopKeywordNames } from '../../src/language/generated/ast';
import { loadBoat } from '../../src/language/load';
import { createOrlopServices } from '../../src/language/services';

const { Orlop } = createOrlopServices(EmptyFileSystem);
const { rules } = Orlop.Grammar;
const KEYWORDS = [...new Set(rules.filter(GrammarAST.isParserRule).flatMap((rule) => AstUtils.streamAllContents(rule).filter(GrammarAST.isKeyword).map(({ value }) => value).toArray()))];
const WORDS = KEYWORDS.filter((keyword) => /^[a-z]/.test(keyword)) as OrlopKeywordNames[];
const capital = (word: string): string => word[0]!.toUpperCase() + word.slice(1);

const LINES: Readonly<Record<string, (word: string) => string>> = {
    'a log line': (word) => `log 2026 {\n  2026-01-31 ${word}\n}\n`,
    'a step': (word) => `engine E1\nbleed E1 after running dry {\n  ${word} E1\n}\n`,
    'a line of a list that is kept as it stands': (word) => `locker {\n  2 of ${word}\n}\n`,
};

describe('rule Keyword', () => {
    test('has an alternative for every keyword of the grammar, and no other', () => {
        const keyword = rules.find((rule) => rule.name === 'Keyword')!;
        const alternatives = AstUtils.streamAllContents(keyword).filter(GrammarAST.isKeyword).map(({ value }) => value).toArray();
        const elsewhere = rules.filter((rule) => GrammarAST.isParserRule(rule) && rule !== keyword)
            .flatMap((rule) => AstUtils.streamAllContents(rule).filter(GrammarAST.isKeyword).map(({ value }) => value).toArray());
        expect(alternatives.toSorted()).toEqual([...new Set(elsewhere)].filter((word) => /^[a-z]/.test(word)).toSorted());
        expect(KEYWORDS.filter((word) => !/^[a-z]/.test(word)).toSorted()).toEqual([',', '.', '{', '}']);
    });
});

describe.each(Object.entries(LINES))('%s', (_, line) => {
    // The parser alone: a name that is missing or a word that the log does not count is another matter.
    const parsed = (text: string): readonly unknown[] => {
        const { parserErrors, lexerErrors } = Orlop.parser.LangiumParser.parse(text);
        return [...lexerErrors, ...parserErrors];
    };
    test.each(WORDS)('with %s', (word) => expect(parsed(line(word))).toEqual([]));
    test('with all of them', () => expect(parsed(line(WORDS.join(' ')))).toEqual([]));
    test('and without a word that is none', () => expect(parsed(line('%~'))).not.toEqual([]));
});

test('a log line made of every keyword is no error, and counts no job but what is written in the past', async () => {
    const { boat, problems } = await loadBoat({ 'boat.orlop': `engine E1\nlog 2026 {\n  2026-01-31   E1 100 h   ${WORDS.join(' ')}   renewed E1 oil\n}\n` });
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(boat.log.map(({ jobs }) => jobs)).toEqual([[{ verb: 'renew', part: 'E1', piece: 'oil' }]]);
});

describe('with a capital it is a name', () => {
    const boat = (name: string): string => `
vessel ${name}1
tank ${name} carries diesel { pickup ${name}
  drop ${name}2 }
engine ${name}3 { injection rotary mechanical
  exhaust dry
  bleed ${name}4 }
supply course ${name}5 from ${name}.${name} to ${name}3 {
  shutoff ${name}6 normally open
  hose ${name}7
}
return course ${name}8 from ${name}3 to ${name}.${name}2 { hose }
line-up ${name}9 run is normal { ${name}6 open }
log 2026 {
  2026-01-31   ${name}3 100 h   worked ${name}6
}
`;
    test.each(WORDS.map(capital))('%s', async (name) => {
        const { boat: read, problems } = await loadBoat({ 'boat.orlop': boat(name) });
        expect(problems.map(({ message }) => message)).toEqual([]);
        expect([read.tanks[0]?.id, read.tanks[0]?.fittings[0]?.id, read.consumers[0]?.id, read.log[0]?.jobs]).toEqual(
            [name, `${name}.${name}`, `${name}3`, [{ verb: 'work', part: `${name}6`, piece: '' }]]);
    });
    test.each([
        ['tank port', 'A name begins with a capital letter: write `Port`, not `port`.'],
        ['tank vent', 'A name is missing before `vent`; it begins with a capital letter, like `V1`.'],
    ])('and without one it is not, and the message says so: %s', async (text, message) => {
        expect((await loadBoat({ 'boat.orlop': text })).problems[0]?.message).toBe(message);
    });
});
