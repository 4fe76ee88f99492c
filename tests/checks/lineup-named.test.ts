/** LINEUP-NAMED: every valve has a position in every named line-up, said, inherited or by its normal position. */
import { expect, test } from 'vitest';
import { SLOOP, TWIN, after, edit, said, without, type Texts } from './boats';

const rule = (texts: Texts, valve?: string): Promise<string[]> => said('LINEUP-NAMED', texts, valve);
const UNSAID = edit(SLOOP, 'shutoff V1   normally open', 'shutoff V1');

test('by its normal position; without those two words nothing says it', async () => {
    expect(await rule(SLOOP)).toEqual(['pass V1']);
    expect(await rule(UNSAID)).toEqual(['fail V1, document: V1 has no position in line-up RUN.']);
});

test('said in the line-up, and inherited', async () => {
    const two = after(UNSAID, 'line-up RUN run is normal', 'line-up SERVICE service from RUN');
    expect(await rule(two)).toEqual(['fail V1, document: V1 has no position in line-ups RUN and SERVICE.']);
    expect(await rule(edit(two, 'SERVICE service from RUN', 'SERVICE service from RUN { V1 shut }'))).toEqual(['fail V1, document: V1 has no position in line-up RUN.']);
    expect(await rule(edit(two, 'run is normal', 'run is normal { V1 open }'))).toEqual(['pass V1']);
});

test('locked open is a position', async () => expect(await rule(edit(UNSAID, 'shutoff V1', 'shutoff V1 locked open'))).toEqual(['pass V1']));

test('no line-up at all', async () => {
    expect(await rule(without(SLOOP, 'line-up RUN run is normal'))).toEqual(['pass V1']);
    expect(await rule(without(UNSAID, 'line-up RUN run is normal'))).toEqual(['fail V1, document: V1 has no normal position, and no line-up is declared.']);
});

test('a selector, and one that turns with it', async () => {
    const follows = edit(TWIN, 'position STBD joins in, stbd', 'position STBD joins in, stbd\n  ganged with SV1');
    const unsaid = (text: string): string => edit(edit(text, '{ SV1 PORT   SV2 PORT }', '{ SV1 PORT }'), '{ SV1 STBD   SV2 STBD }', '{ SV1 STBD }');
    expect(await rule(unsaid(follows), 'SV2')).toEqual(['pass SV2']);
    expect(await rule(unsaid(TWIN), 'SV2')).toEqual(['fail SV2, document: SV2 has no position in line-ups RUN-PORT and RUN-STBD.']);
});

test('a shutoff without a tag is named in words', async () => {
    expect(await rule(edit(SLOOP, 'shutoff V1   normally open', 'shutoff'))).toEqual(['fail Feed/1, document: The shutoff at the start of Feed has no position in line-up RUN.']);
});
