/** Each slip of someone who knows boats: one message, at the slip, that quotes it and says what to write. */
import { describe, expect, it } from 'vitest';
import { loadBoat } from '../../src/language/load';
import { SKIPPER_SLIPS } from './skipper-slips';
import { SOUND } from './texts';

describe('a slip is told once, with what to write', () => {
    it.each(SKIPPER_SLIPS.map((told) => [told.slip, told] as const))('%s', async (_, { text: marked, words, count, alone }) => {
        const open = marked.indexOf('«');
        const before = marked.slice(0, open).split('\n');
        const text = marked.replace(/[«»]/g, '');
        const { problems } = await loadBoat({ ...(!alone && { 'boat.orlop': SOUND }), 'slip.orlop': text });
        const said = problems.map(({ uri, range, message }) => `${uri.slice(uri.lastIndexOf('/') + 1)} ${range.start.line + 1}:${range.start.character + 1} ${message}`);
        expect(said, said.join('\n')).toHaveLength(count);
        const told = problems[0]!;
        expect(told.uri).toMatch(/slip\.orlop$/);
        for (const word of words) expect(told.message).toContain(word);
        const lines = text.split('\n');
        const { start, end } = told.range;
        expect(start, said[0]).toEqual({ line: before.length - 1, character: before.at(-1)!.length });
        const marks = marked.slice(open + 1, marked.indexOf('»'));
        const shown = end.line === start.line ? lines[start.line]!.slice(start.character, end.character) : lines[start.line]!.slice(start.character);
        expect(shown, said[0]).toBe(marks.split('\n')[0]);
    });
});
