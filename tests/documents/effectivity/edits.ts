/** A boat with one fact changed, for each of her facts: numbers, flags and choices of the model, as a text might say them. */
import type { Boat } from '../../../src/model/boat';

export interface Edited { readonly path: string; readonly boat: Boat }

/** Words that a fact may have instead. */
const CHOICES: readonly (readonly string[])[] = [
    ['open', 'shut'], ['passes', 'blocks'], ['primary', 'final'], ['allowed', 'forbidden', 'not on the clean side'], ['vacuum', 'pressure'], ['wet', 'dry'], ['in-line', 'common-rail'], ['mechanical', 'electronic'],
    ['diesel', 'coolant'], ['at the top', 'into the tank'], ['summer diesel', 'winter diesel'], ['hose', 'tube'], ['run', 'service'],
];
/** What makes the boat another one, or is no fact: names, joints, and the texts of blocks. */
const SKIP = /^(name|view|joints|bleeds|procedures|overlays|answers|waivers)\b|\.(id|tag|name|part|parts|course|tank|port|ports|from|to|of|about|base|engine|kind|service|gangedWith|lines)\b/;

export function* edited(boat: Boat): Generator<Edited> {
    const { tags: _, evidence: __, unknown: ___, ...rest } = boat;
    for (const { path, value } of changes(rest, '')) yield { path, boat: { ...boat, ...(value as Partial<Boat>) } };
}

function* changes(value: unknown, path: string): Generator<{ readonly path: string; readonly value: unknown }> {
    if (value === undefined || value instanceof Map || SKIP.test(path)) return;
    if (Array.isArray(value)) for (const [i, each] of value.entries()) for (const change of changes(each, `${path}.${i}`)) yield { path: change.path, value: value.with(i, change.value) };
    else if (typeof value === 'object' && value !== null) {
        for (const [key, each] of Object.entries(value)) {
            const own = path === '' ? key : `${path}.${key}`;
            for (const change of changes(each, own)) yield { path: change.path, value: { ...value, [key]: change.value } };
            // What nobody said: a flag that is not there, a height that was not measured.
            if (path !== '' && !SKIP.test(own) && !Array.isArray(each) && typeof each !== 'boolean' && !REQUIRED.has(key) && !('si' in value)) { const { [key]: _, ...without } = value as Record<string, unknown>; yield { path: `${own} left out`, value: without }; }
        }
    } else if (typeof value === 'number') for (const other of [value * 1.3 + 1e-3, value * 0.6]) yield { path: `${path} ${value} -> ${other}`, value: other };
    else if (typeof value === 'boolean') yield { path: `${path} ${!value}`, value: !value };
    else for (const other of CHOICES.find((all) => all.includes(value as string))?.filter((each) => each !== value) ?? [`${String(value)} new`]) if (!SPACE.test(path)) yield { path: `${path} ${String(value)} -> ${other}`, value: other };
}

/** Fields that every boat has. */
const REQUIRED = new Set(['job', 'verb', 'piece', 'everyStart', 'date', 'value', 'at', 'length', 'breadth', 'height', 'corner', 'outboard', 'fwd', 'up', 'normal', 'use', 'declared', 'envelope', 'fuel', 'limits', 'reading', 'speed', 'position', 'pump', 'stbd', 'passes', 'settings']);
/** A space that is not there would be a slip of the text. */
const SPACE = /\.space$|\.rules\b|\.position\b|\.date\b|\.leaves$|\.verb$|\.piece$|\.joins\b|\.dated$/;
