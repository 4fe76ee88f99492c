/** Two pages compared by what they mean. */
import { describe, expect, test } from 'vitest';
import { differences, saysOf, type Difference } from '../../../src/documents/procedures/says';
import type { Hazard, Page } from '../../../src/documents/procedures/tree';
import { page, step } from './pages';

const FLOOD: Hazard = { signal: 'WARNING', hazard: 'Fuel can run out of F1.', consequence: 'It burns.', avoid: 'V1 shut.' };
const differ = (was: Page, now: Page): Difference[] => differences(saysOf(was), saysOf(now));
const base = page('renew-F1-element', [step('Shut V1.', { tag: 'V1', place: 'quarter berth' }), step('Open the lid of F1.', { tag: 'F1', cautions: [FLOOD] }), step('Work PR1: expect 49 strokes, stop and think at 98.')], {
    summary: [{ label: 'Can', value: 'takes 2 L' }], valves: [{ valve: 'V1', place: 'quarter berth', start: 'open', work: 'shut', end: 'open' }],
});
const withSteps = (...steps: Parameters<typeof page>[1]): Page => ({ ...base, sections: [{ heading: 'Steps', steps }] });
const [shut, open, bleed] = base.sections[0]!.steps as [ReturnType<typeof step>, ReturnType<typeof step>, ReturnType<typeof step>];

describe('is no difference', () => {
    test.each<[string, Page]>([
        ['the digests and the day', { ...base, effectivity: { revision: 'x', facts: 'y', view: 'z', issued: '2026-03-01' } }],
        ['headings and numbers of steps', { ...base, sections: [{ heading: 'Isolate', steps: [{ ...shut, number: 7 }] }, { heading: 'Open', steps: [open, bleed] }] }],
        ['blanks and ends of lines', withSteps({ ...shut, action: ' Shut\n V1. ' }, open, bleed)],
        // 2 L = 2000 mL
        ['the unit of a figure', { ...base, summary: [{ label: 'Can', value: 'takes 2000 mL' }] }],
        ['zeros behind the point', { ...base, summary: [{ label: 'Can', value: 'takes 2.0 L' }] }],
    ])('%s', (_, now) => expect(differ(base, now)).toEqual([]));
});

describe('is a difference', () => {
    test('a figure, told by itself', () => {
        expect(differ(base, withSteps(shut, open, step('Work PR1: expect 52 strokes, stop and think at 104.')))).toEqual([{
            kind: 'step', was: bleed.action, now: 'Work PR1: expect 52 strokes, stop and think at 104.', figures: [{ was: '49', now: '52' }, { was: '98', now: '104' }],
        }]);
    });
    test('a step that came and one that is gone', () => {
        expect(differ(base, withSteps(shut, step('Shut V3.', { tag: 'V3' }), open, bleed))).toEqual([{ kind: 'step', now: 'V3: Shut V3.' }]);
        expect(differ(base, withSteps(open, bleed))).toEqual([{ kind: 'step', was: 'V1 (quarter berth): Shut V1.' }]);
    });
    test('the order of steps', () => {
        expect(differ(base, withSteps(open, shut, bleed))).toHaveLength(1);
        expect(differ(base, withSteps(open, shut, bleed))[0]).toMatchObject({ was: 'V1 (quarter berth): Shut V1.', now: 'V1 (quarter berth): Shut V1.' });
    });
    test('a warning that is gone, or stands before another step', () => {
        expect(differ(base, withSteps(shut, { ...open, cautions: [] }, bleed))).toEqual([{ kind: 'warning', was: 'WARNING: Fuel can run out of F1., It burns., V1 shut.' }]);
        expect(differ(base, withSteps(shut, { ...open, cautions: [] }, { ...bleed, cautions: [FLOOD] }))).not.toEqual([]);
    });
    test('a signal word', () => expect(differ(base, withSteps(shut, { ...open, cautions: [{ ...FLOOD, signal: 'CAUTION' }] }, bleed))).not.toEqual([]));
    test('where a valve stands', () => {
        expect(differ(base, { ...base, valves: [{ ...base.valves[0]!, end: 'shut' }] })).toEqual([{ kind: 'valve', was: 'V1: quarter berth, start open, work shut, end open', now: 'V1: quarter berth, start open, work shut, end shut' }]);
    });
    test('a field that is new on pages', () => expect(differ(base, { ...base, faults: ['V1 is no valve.'] })).toEqual([{ kind: 'fault', now: 'V1 is no valve.' }]));
    test('6 digits: 2 L is not 2.00001 L', () => expect(differ(base, { ...base, summary: [{ label: 'Can', value: 'takes 2.00001 L' }] })).toHaveLength(1));
});
