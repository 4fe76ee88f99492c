/** Every text in the README is read without a slip: it is the first that a newcomer copies. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { judge } from '../../src/checks/judge';
import { checkProcedures } from '../../src/documents/procedures/check';
import { loadBoat } from '../../src/language/load';
import { exampleTexts } from '../documents/sheet/boats';

const README = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const [smallest, words, patterns, survey, procedure, ...rest] = [...README.matchAll(/```orlop\n([^]*?)```/g)].map(([, text]) => text!);
const slips = async (text: string): Promise<string[]> => (await loadBoat({ 'boat.orlop': text })).problems.map(({ message }) => message);

test('there are five of them', () => expect([smallest, words, patterns, survey, procedure].every((text) => text !== undefined && text.length > 0) && rest.length === 0).toBe(true));

test('the smallest boat', async () => expect(await slips(smallest!)).toEqual([]));
test('most of the words', async () => expect(await slips(words!)).toEqual([]));
test('patterns, on a boat with the ends that they lead to', async () =>
    expect(await slips(`vessel M\ntank T1 { pickup P1 }\ntank T2 { pickup P1 }\nengine E1\n${patterns!}`)).toEqual([]));
test('a survey and a refit of the boat above them', async () => {
    const text = words! + survey!;
    expect(await slips(text)).toEqual([]);
    const loaded = async (view: Parameters<typeof loadBoat>[1] & object): Promise<string[]> => (await loadBoat({ 'boat.orlop': text }, view)).boat.parts.flatMap(({ tag }) => tag ?? []);
    expect(await loaded({ view: 'as is' })).toContain('J9');
    expect(await loaded({ view: 'as is' })).not.toContain('G1');
    expect(await loaded({ view: { after: 'Haul26' } })).toContain('V3');
});

test('the procedure by hand stands on the mended sloop, and breaks no law', async () => {
    const texts = exampleTexts('ottilwake-mended');
    expect(texts['upkeep.orlop']).toContain(procedure!);
    expect(checkProcedures((await loadBoat(texts)).boat)).toEqual([]);
});

test('the boat with most of the words is a sound one: nothing critical', async () => {
    const { boat } = await loadBoat({ 'boat.orlop': words! });
    expect(judge(boat, '2026-06-01').findings.filter(({ severity }) => severity === 'critical').map(({ rule, about }) => `${rule.code} ${about}`)).toEqual([]);
});
