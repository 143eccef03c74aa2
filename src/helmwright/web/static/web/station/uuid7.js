// RFC 9562, version 7: the time in milliseconds, then a counter that starts at random, then chance.
// getRandomValues is there on plain HTTP too; randomUUID is not.
const COUNTER_BITS = 12;
let last = 0;
let counter = 0;

/** The next ID of this page; later ones are greater.
 * @param {number} now milliseconds since 1970
 * @returns {string} */
export function uuid7(now = Date.now()) {
  const chance = crypto.getRandomValues(new Uint8Array(10));
  if (now > last) {
    last = now;
    counter = ((chance[8] << 8) | chance[9]) & ((1 << (COUNTER_BITS - 1)) - 1);
  } else if (++counter >> COUNTER_BITS) {
    last += 1;
    counter = 0;
  }
  return written(last, counter, chance);
}

function written(milliseconds, count, chance) {
  const bytes = new Uint8Array(16);
  for (let at = 0; at < 6; at += 1) bytes[at] = Math.floor(milliseconds / 256 ** (5 - at)) % 256;
  bytes[6] = 0x70 | (count >> 8);
  bytes[7] = count & 0xff;
  bytes.set(chance.subarray(0, 8), 8);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
