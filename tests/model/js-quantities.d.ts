/** The library ships no types; this is the little of it that the test uses. */
declare module 'js-quantities' {
    export default function Qty(value: number, unit: string): { toBase(): { readonly scalar: number } };
}
