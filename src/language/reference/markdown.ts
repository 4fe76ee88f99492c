/** The pieces that the pages of the reference are made of. */
import { cell } from '../../documents/findings/report';

/** Words of the language in a sentence or in a cell. */
export const code = (text: string): string => `\`${text.replace(/\|/g, '\\|')}\``;

/** Plain words, of which nothing may become markup; words between backticks stay words of the language. */
export const plain = (text: string): string => text.split(/(`[^`]*`)/).map((piece, i) => (i % 2 === 1 ? code(piece.slice(1, -1)) : cell(piece))).join('');

export const fence = (text: string, language: 'orlop' | 'sh' | 'text' = 'orlop'): string => `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;

/** Cells are Markdown already. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
    return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

/** Blocks with an empty line between them, and one line end at the end. */
export const page = (blocks: readonly string[]): string => `${blocks.join('\n\n')}\n`;
