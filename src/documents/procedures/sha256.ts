/** SHA-256 by FIPS 180-4, so that a digest is the same on every machine; small, since what is digested is small. */

/** The first `count` prime numbers. */
function primes(count: number): number[] {
    const found: number[] = [];
    for (let n = 2; found.length < count; n++) if (found.every((prime) => n % prime !== 0)) found.push(n);
    return found;
}

/** The first 32 bits behind the point of a root of each prime: the constants of the standard (4.2.2, 5.3.3). */
const fraction = (root: number): number => Math.floor((root - Math.floor(root)) * 2 ** 32) >>> 0;
const ROUNDS = primes(64).map((prime) => fraction(Math.cbrt(prime)));
const START = primes(8).map((prime) => fraction(Math.sqrt(prime)));

const turn = (x: number, by: number): number => (x >>> by) | (x << (32 - by));

/** The digest of a text in UTF-8, as 64 hexadecimal digits. */
export function sha256(text: string): string {
    const bytes = utf8(text);
    const length = bytes.length;
    bytes.push(0x80);
    while (bytes.length % 64 !== 56) bytes.push(0);
    for (let i = 7; i >= 0; i--) bytes.push(Math.floor((length * 8) / 2 ** (8 * i)) % 256);
    const hash = [...START];
    const words = new Array<number>(64).fill(0);
    for (let block = 0; block < bytes.length; block += 64) {
        for (let i = 0; i < 16; i++) words[i] = (bytes[block + 4 * i]! << 24) | (bytes[block + 4 * i + 1]! << 16) | (bytes[block + 4 * i + 2]! << 8) | bytes[block + 4 * i + 3]!;
        for (let i = 16; i < 64; i++) {
            const [late, early] = [words[i - 2]!, words[i - 15]!];
            words[i] = ((turn(late, 17) ^ turn(late, 19) ^ (late >>> 10)) + words[i - 7]! + (turn(early, 7) ^ turn(early, 18) ^ (early >>> 3)) + words[i - 16]!) | 0;
        }
        let [a, b, c, d, e, f, g, h] = hash as [number, number, number, number, number, number, number, number];
        for (let i = 0; i < 64; i++) {
            const first = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + ROUNDS[i]! + words[i]!) | 0;
            const second = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
            [h, g, f, e, d, c, b, a] = [g, f, e, (d + first) | 0, c, b, a, (first + second) | 0];
        }
        [a, b, c, d, e, f, g, h].forEach((word, i) => { hash[i] = (hash[i]! + word) | 0; });
    }
    return hash.map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}

/** Halves of pairs that stand alone become the sign for what cannot be read, as everywhere. */
function utf8(text: string): number[] {
    const bytes: number[] = [];
    for (const sign of text) {
        let point = sign.codePointAt(0)!;
        if (point >= 0xd800 && point <= 0xdfff) point = 0xfffd;
        if (point < 0x80) bytes.push(point);
        else if (point < 0x800) bytes.push(0xc0 | (point >> 6), 0x80 | (point & 63));
        else if (point < 0x10000) bytes.push(0xe0 | (point >> 12), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
        else bytes.push(0xf0 | (point >> 18), 0x80 | ((point >> 12) & 63), 0x80 | ((point >> 6) & 63), 0x80 | (point & 63));
    }
    return bytes;
}
