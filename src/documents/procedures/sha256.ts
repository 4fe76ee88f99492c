/** SHA-256 (FIPS 180-4) of a text in UTF-8: a page names the digests of its own script and style, so that no other runs in it. */

const primes: number[] = [];
for (let n = 2; primes.length < 64; n++) if (primes.every((prime) => n % prime !== 0)) primes.push(n);
/** The first 32 bits of a fraction. */
const bits = (x: number): number => ((x - Math.floor(x)) * 2 ** 32) | 0;
const K = primes.map((prime) => bits(Math.cbrt(prime)));
const START = primes.slice(0, 8).map((prime) => bits(Math.sqrt(prime)));
const turn = (x: number, by: number): number => (x >>> by) | (x << (32 - by));

export function sha256(text: string): Uint8Array {
    const bytes = new TextEncoder().encode(text);
    const padded = new DataView(new ArrayBuffer(((bytes.length + 8) >> 6 << 6) + 64));
    bytes.forEach((byte, i) => padded.setUint8(i, byte));
    padded.setUint8(bytes.length, 0x80);
    padded.setUint32(padded.byteLength - 8, Math.floor(bytes.length / 2 ** 29));
    padded.setUint32(padded.byteLength - 4, bytes.length << 3);
    const hash = [...START];
    for (let block = 0; block < padded.byteLength; block += 64) {
        const w = Array.from({ length: 16 }, (_, i) => padded.getInt32(block + 4 * i));
        for (let i = 16; i < 64; i++) {
            const [a, b] = [w[i - 15]!, w[i - 2]!];
            w.push((w[i - 16]! + w[i - 7]! + (turn(a, 7) ^ turn(a, 18) ^ (a >>> 3)) + (turn(b, 17) ^ turn(b, 19) ^ (b >>> 10))) | 0);
        }
        let [a, b, c, d, e, f, g, h] = hash as [number, number, number, number, number, number, number, number];
        for (let i = 0; i < 64; i++) {
            const one = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + K[i]! + w[i]!) | 0;
            const two = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
            [a, b, c, d, e, f, g, h] = [(one + two) | 0, a, b, c, (d + one) | 0, e, f, g];
        }
        [a, b, c, d, e, f, g, h].forEach((value, i) => { hash[i] = (hash[i]! + value) | 0; });
    }
    const digest = new DataView(new ArrayBuffer(32));
    hash.forEach((value, i) => digest.setInt32(4 * i, value));
    return new Uint8Array(digest.buffer);
}

/** As a Content-Security-Policy names it. */
export const policyHash = (text: string): string => `'sha256-${btoa(String.fromCharCode(...sha256(text)))}'`;
