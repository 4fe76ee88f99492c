/** Texts of the boat made safe for every form: names and quotes are the owner's, and nothing in them may act. */

/** Not to be printed: controls, halves of pairs, code points that are no characters. */
const ILLEGAL = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\uFDD0-\uFDEF\uFFFE\uFFFF]|[\uD83F\uD87F\uD8BF\uD8FF\uD93F\uD97F\uD9BF\uD9FF\uDA3F\uDA7F\uDABF\uDAFF\uDB3F\uDB7F\uDBBF\uDBFF][\uDFFE\uDFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;
/** Marks that turn the order of what is read: a number must not be read backwards. */
const TURNING = /[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/g;

/** Nothing in it acts: on a terminal, or on the order in which it is read. Lines stay lines. */
export const printable = (text: string): string => text.replace(/\r(?!\n)/g, '\uFFFD').replace(ILLEGAL, '\uFFFD').replace(TURNING, '');
/** The same for JSON, of which nothing is lost: signs that act are written by their numbers. */
export const printableJson = (json: string): string => json.replace(TURNING, numbered).replace(/[\u007F-\u009F]/g, numbered);
const numbered = (sign: string): string => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** One line of plain text. Halves of pairs go first: what stood between two of them must not make them one sign. */
export const plain = (text: string): string => text.replace(ILLEGAL, '\uFFFD').replace(TURNING, '').replace(/[\s\u2028\u2029\uFEFF]+/g, ' ').trim();

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', '\'': '&#39;' };
/** For HTML and XML, in text and in attributes. */
export const escapeXml = (text: string): string => plain(text).replace(/[&<>"']/g, (sign) => SIGNS[sign]!);

/** For Markdown: nothing begins a list, a heading, a rule, a link or code. */
export const escapeMarkdown = (text: string): string => plain(text).replace(/[\\`*_{}[\]#|~$@]|:(?=\/\/)|\.(?=\S)(?<=\bwww\.)/gi, '\\$&').replace(/[&<>]/g, (sign) => SIGNS[sign]!).replace(/^([-+=])/, '\\$1').replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2').replace(/!(?=\\\[)/g, '\\!');

/** Names that some system keeps for itself. */
const KEPT = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
const LONGEST = 80;

/** A name of a file, and of a page: `renew-F1-element`. Letters and digits of any script; no dots, no blanks. */
export function safeName(words: string): string {
    const name = plain(words.normalize('NFC')).replace(/[^\p{L}\p{M}\p{N}_-]+/gu, '-').replace(/^[-\p{M}]+|-+$/gu, '').replace(/-{2,}/g, '-');
    const short = [...name].slice(0, LONGEST).join('').replace(/-+$/, '');
    return short === '' ? 'page' : KEPT.test(short) ? `${short}-page` : short;
}

/** Several names none of which is another's, whatever the system makes of capitals. */
export function distinctNames(names: readonly string[]): string[] {
    const taken = new Set<string>();
    return names.map((name) => {
        let own = name;
        for (let n = 2; taken.has(own.toLowerCase()); n++) own = `${name}-${n}`;
        taken.add(own.toLowerCase());
        return own;
    });
}

/** A legal id of XML, made of a page's name. */
export const xmlId = (name: string): string => { const id = name.normalize('NFD').replace(/\p{M}/gu, '').replace(/[^A-Za-z0-9_-]/g, (sign) => `x${sign.codePointAt(0)!.toString(16)}`); return /^[A-Za-z_]/.test(id) ? id : `p-${id}`; };
