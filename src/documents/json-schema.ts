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
