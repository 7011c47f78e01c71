// SHA-256 (FIPS 180-4) over the canonical form of RFC 8785; a page from disk may have no Web Crypto.
function canonical(value) {
    if (Array.isArray(value)) return '[' + value.map(canonical).join(',') + ']';
    if (value === null || typeof value !== 'object') return JSON.stringify(value);
    const keys = Object.keys(value).sort();
    return '{' + keys.map((key) => JSON.stringify(key) + ':' + canonical(value[key])).join(',') + '}';
}

const primes = [];
for (let candidate = 2; primes.length < 64; candidate += 1) {
    if (primes.every((prime) => candidate % prime)) primes.push(candidate);
}
const wordOf = (root) => ((root - Math.floor(root)) * 2 ** 32) | 0;
const ROUNDS = primes.map((prime) => wordOf(Math.cbrt(prime)));
const START = primes.slice(0, 8).map((prime) => wordOf(Math.sqrt(prime)));
const turned = (word, by) => (word >>> by) | (word << (32 - by));

function sha256(text) {
    const bytes = new TextEncoder().encode(text);
    const padded = new Uint8Array(Math.ceil((bytes.length + 9) / 64) * 64);
    padded.set(bytes);
    padded[bytes.length] = 0x80;
    const view = new DataView(padded.buffer);
    view.setUint32(padded.length - 8, Math.floor(bytes.length / 2 ** 29));
    view.setUint32(padded.length - 4, bytes.length << 3);
    const hash = [...START];
    const w = new Int32Array(64);
    for (let from = 0; from < padded.length; from += 64) {
        for (let i = 0; i < 64; i += 1) {
            if (i < 16) {
                w[i] = view.getInt32(from + i * 4);
                continue;
            }
            const [a, b] = [w[i - 15], w[i - 2]];
            const s0 = turned(a, 7) ^ turned(a, 18) ^ (a >>> 3);
            const s1 = turned(b, 17) ^ turned(b, 19) ^ (b >>> 10);
            w[i] = w[i - 16] + s0 + w[i - 7] + s1;
        }
        let [a, b, c, d, e, f, g, h] = hash;
        for (let i = 0; i < 64; i += 1) {
            const s1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
            const one = (h + s1 + ((e & f) ^ (~e & g)) + ROUNDS[i] + w[i]) | 0;
            const s0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
            const two = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
            [h, g, f, e, d, c, b, a] = [g, f, e, (d + one) | 0, c, b, a, (one + two) | 0];
        }
        [a, b, c, d, e, f, g, h].forEach((word, i) => { hash[i] = (hash[i] + word) | 0; });
    }
    return hash.map((word) => (word >>> 0).toString(16).padStart(8, '0')).join('');
}
