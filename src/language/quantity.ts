/** The text of quantities and quoted words, taken apart. */

/** No figure on a boat is larger; nothing computed from smaller ones overflows. */
const TOO_LARGE = 1e9;

/** The number and unit of a quantity token, no number when it is none or past all measure; no unit when none was written. */
export function splitQuantity(text: string): { readonly numbers: readonly number[]; readonly unit: string | undefined } {
    const match = /^(-?)((?:\d+[ \t]+)?\d+\/\d+|\d+(?:\.\d+)?)((?:[ \t]*[x×][ \t]*\d+(?:\.\d+)?)*)[ \t]*(.*)$/.exec(text);
    if (!match) return { numbers: [], unit: undefined };
    const sign = match[1] === '-' ? -1 : 1;
    const more = match[3]!.split(/[x×]/).map((part) => part.trim()).filter((part) => part !== '').map(Number);
    const numbers = [sign * fraction(match[2]!), ...more];
    return { numbers: numbers.every((number) => Number.isFinite(number) && Math.abs(number) < TOO_LARGE) ? numbers : [], unit: match[4] === '' ? undefined : match[4] };
}

/** 8, 3/8 or 1 1/2. */
function fraction(text: string): number {
    return text.trim().split(/[ \t]+/).map((part) => {
        const [above, below] = part.split('/');
        return below === undefined ? Number(above) : Number(above) / Number(below);
    }).reduce((sum, part) => sum + part, 0);
}

export const unquote = (text: string): string => text.replace(/^"|"$/g, '');
