/** a, b and c */
export function listed(items: readonly string[], last: 'and' | 'or' = 'and'): string {
    return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)!}`;
}

export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
