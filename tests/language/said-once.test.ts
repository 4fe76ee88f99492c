/** The twin-engined example says once what is twice on board. How many lines that saves is counted by writing every use out. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

const read = (file: string): string[] => readFileSync(new URL(`../../examples/marrenwake/${file}.orlop`, import.meta.url), 'utf8').split('\n')
    .map((line) => line.replace(/ *--.*$/, '')).filter((line) => line.trim() !== '');
const [boat, patterns, lines] = ['boat', 'patterns', 'lines'].map(read) as [string[], string[], string[]];

/** A block from its head line to its closing brace. */
function blockAt(text: readonly string[], at: number): string[] {
    let depth = 0;
    for (let end = at; end < text.length; end++) {
        depth += (text[end]!.match(/\{/g)?.length ?? 0) - (text[end]!.match(/\}/g)?.length ?? 0);
        if (depth <= 0) return text.slice(at, end + 1);
    }
    return text.slice(at);
}
const declared = new Map([...patterns, ...boat].flatMap((line, i, all) => { const name = /^(?:pattern|tank|engine) (\w+)/.exec(line)?.[1]; return name === undefined ? [] : [[name, blockAt(all, i)] as const]; }));

/** Lines that a thing would take if everything that it is like were written in its place. One line that names it is there already. */
function writtenOut(text: readonly string[]): number {
    return text.reduce((sum, line) => {
        const like = /\blike (\w+)/.exec(line)?.[1];
        const block = like === undefined ? undefined : declared.get(like);
        return sum + (block ? writtenOut(block.length > 1 ? block : [block[0]!]) : 1);
    }, 0);
}

test('it takes under two thirds of the lines that it would take written out', () => {
    // Most of her is on board twice, so half is the least that could be; what is there once, the vessel and the generator, is not saved.
    const saidOnce = boat.length + patterns.length + lines.length;
    expect(saidOnce / (writtenOut(boat) + writtenOut(lines))).toBeLessThan(2 / 3);
});
