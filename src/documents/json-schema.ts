/** Words in which the published JSON Schemas (draft 2020-12) are written. */
export type Schema = Readonly<Record<string, unknown>>;

export const text: Schema = { type: 'string' };
export const id: Schema = { type: 'string', minLength: 1, description: 'A tag, T1.P1 for a fitting of a tank, or course and number for what has no tag.' };
export const flag: Schema = { type: 'boolean' };
export const number = (description: string): Schema => ({ type: 'number', description });
export const list = (items: Schema): Schema => ({ type: 'array', items });
export const one = (...values: string[]): Schema => ({ enum: values });
export const always = (value: string): Schema => ({ const: value });

/** Names with a question mark may be absent. */
export function object(fields: Readonly<Record<string, Schema>>, description?: string): Schema {
    const names = Object.keys(fields);
    return {
        type: 'object', ...(description !== undefined && { description }), additionalProperties: false, required: names.filter((name) => !name.endsWith('?')),
        properties: Object.fromEntries(names.map((name) => [name.replace(/\?$/, ''), fields[name]])),
    };
}

export const DRAFT = 'https://json-schema.org/draft/2020-12/schema';

/**
 * The first place at which a value is not of a form, in words; undefined when it is. Only what the schemas here are written with is
 * looked at, and a field that the form does not have is let pass: a later version may have added it.
 */
export function mismatch(schema: Schema, value: unknown, place = 'it'): string | undefined {
    if ('const' in schema) return value === schema.const ? undefined : `${place} is not ${JSON.stringify(schema.const)}`;
    if (Array.isArray(schema.enum)) return schema.enum.includes(value) ? undefined : `${place} is none of ${schema.enum.join(', ')}`;
    switch (schema.type) {
        case 'string': return typeof value === 'string' ? undefined : `${place} is no text`;
        case 'number': return typeof value === 'number' ? undefined : `${place} is no number`;
        case 'boolean': return typeof value === 'boolean' ? undefined : `${place} is neither true nor false`;
        case 'array': return Array.isArray(value) ? first(value.map((item, i) => [schema.items as Schema, item, `entry ${i + 1} of ${place}`])) : `${place} is no list`;
        case 'object': {
            if (typeof value !== 'object' || value === null || Array.isArray(value)) return `${place} is no object`;
            const fields = value as Readonly<Record<string, unknown>>;
            const lacks = ((schema.required ?? []) as readonly string[]).find((name) => !Object.hasOwn(fields, name));
            if (lacks !== undefined) return `\`${lacks}\` is missing in ${place}`;
            const forms = (schema.properties ?? {}) as Readonly<Record<string, Schema>>;
            const others = typeof schema.additionalProperties === 'object' ? schema.additionalProperties as Schema : undefined;
            return first(Object.entries(fields).flatMap(([name, field]): [Schema, unknown, string][] => {
                const form = Object.hasOwn(forms, name) ? forms[name] : others;
                return form === undefined ? [] : [[form, field, `\`${name}\` of ${place}`]];
            }));
        }
        default: return undefined;
    }
}

function first(parts: readonly (readonly [Schema, unknown, string])[]): string | undefined {
    for (const [schema, value, place] of parts) { const wrong = mismatch(schema, value, place); if (wrong !== undefined) return wrong; }
    return undefined;
}

/** An object with any names, all of one form. */
export const record = (values: Schema, description?: string): Schema => ({ type: 'object', ...(description !== undefined && { description }), additionalProperties: values });
