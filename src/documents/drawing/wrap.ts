/** Words broken into lines of a width. */
import { SIZE, widthOf } from './svg';

/** Breaks at blanks, and inside a word that is wider than the line. Each line is at most `width` wide; one sign is never broken. */
export function wrapTo(text: string, width: number, size = SIZE, bold = false): string[] {
    const fits = (line: string): boolean => widthOf(line, size, bold) <= width;
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(/\s+/).filter((part) => part !== '')) {
        if (line !== '' && fits(`${line} ${word}`)) { line = `${line} ${word}`; continue; }
        if (line !== '') lines.push(line);
        line = '';
        for (const sign of word) {
            if (line !== '' && !fits(line + sign)) { lines.push(line); line = ''; }
            line += sign;
        }
    }
    return line === '' ? lines : [...lines, line];
}
