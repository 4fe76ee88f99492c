/** Parse errors in words that someone who is not a programmer understands. */
import { LangiumParserErrorMessageProvider } from 'langium';
import type { IParserErrorMessageProvider, IToken, TokenType } from 'chevrotain';

type Mismatch = Parameters<IParserErrorMessageProvider['buildMismatchTokenMessage']>[0];
type NoWay = Parameters<IParserErrorMessageProvider['buildNoViableAltMessage']>[0];
type Early = Parameters<IParserErrorMessageProvider['buildEarlyExitMessage']>[0];
type Rest = Parameters<IParserErrorMessageProvider['buildNotAllInputParsedMessage']>[0];

export class PlainParserMessages extends LangiumParserErrorMessageProvider {
    override buildMismatchTokenMessage({ expected, actual, ruleName }: Mismatch): string {
        if (expected.name === 'TAG' && ruleName !== '') {
            const word = actual.image;
            return actual.tokenType.name === 'WORD'
                ? capitalLetter(word)
                : `A name is missing ${/^[a-z]/.test(word) ? `before \`${word}\`` : 'here'}; it begins with a capital letter, like \`V1\`.`;
        }
        if (expected.name === 'EOF') return leftOver(actual.image);
        return `${found(actual.image)} where ${wanted(expected)} belongs.`;
    }
    override buildNoViableAltMessage({ actual }: NoWay): string {
        return misplaced(actual[0]);
    }
    override buildEarlyExitMessage({ actual }: Early): string {
        return misplaced(actual[0]);
    }
    override buildNotAllInputParsedMessage({ firstRedundant }: Rest): string {
        return leftOver(firstRedundant.image);
    }
}

function misplaced(token: IToken | undefined): string {
    if (!token || token.image === '' || token.tokenType.name === 'NL') return 'This line is not finished.';
    return token.tokenType.name === 'WORD' ? capitalLetter(token.image) : `\`${token.image}\` does not belong here.`;
}

const capitalLetter = (word: string): string => `A name begins with a capital letter: write \`${word[0]!.toUpperCase()}${word.slice(1)}\`, not \`${word}\`.`;

function leftOver(image: string): string {
    if (image === '}') return 'This `}` closes nothing: there is one too many, or a `{` is missing above.';
    if (image === '{') return 'This `{` opens nothing: put it on the line of the thing that it belongs to.';
    return `\`${image}\` begins no line here.`;
}

function found(image: string): string {
    if (image === '') return 'The text ends';
    return /^[\r\n]/.test(image) ? 'The line ends' : `\`${image}\` stands`;
}

function wanted(token: TokenType): string {
    const names: Record<string, string> = {
        TAG: 'a name', STRING: 'words between quotes', NL: 'the end of the line', MEASURE: 'a quantity', WORD: 'a word', DATE: 'a date',
        '}:KW': 'a closing `}`', '{:KW': 'an opening `{`',
    };
    return names[token.name] ?? names[`${token.name}:KW`] ?? `\`${token.name.replace(/:KW$/, '')}\``;
}
