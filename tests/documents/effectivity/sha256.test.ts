/** The digest against the examples of FIPS 180-4 that NIST publishes, and against the hash that comes with Node.js. */
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { sha256 } from '../../../src/documents/procedures/sha256';

// NIST, "Cryptographic Standards and Guidelines: Examples with Intermediate Values", SHA-256; the empty message from the NIST CAVP byte vectors (SHA256ShortMsg, Len = 0).
test.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
    ['a'.repeat(1_000_000), 'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0'],
])('%#', (text, digest) => expect(sha256(text)).toBe(digest));

test('every length around the blocks, and signs of one to four bytes', () => {
    for (let length = 0; length < 140; length++) for (const sign of ['x', 'µ', '€', '𝄞', '\ud800']) {
        const text = sign.repeat(length);
        expect(sha256(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
    }
});
