/** RFC 1321, section 3.4: 4294967296 |sin i|, i from 1, in radians. */
const SINES = Int32Array.from({ length: 64 }, (_, i) => Math.floor(2 ** 32 * Math.abs(Math.sin(i + 1))) | 0);
const START = [0x67452301, 0xefcdab89 | 0, 0x98badcfe | 0, 0x10325476] as const;
const BLOCK = 64;

/**
 * MD5 sum of bytes (RFC 1321), 16 bytes. The FLAC header has one of the samples, to find damage; it protects against no one.
 *
 * @example
 * md5(new Uint8Array(0))[0] // 0xd4
 */
export function md5(bytes: Uint8Array): Uint8Array {
  const state = Int32Array.from(START);
  const words = new Int32Array(16);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const whole = bytes.length - (bytes.length % BLOCK);
  for (let at = 0; at < whole; at += BLOCK) {
    for (let i = 0; i < 16; i++) words[i] = view.getInt32(at + 4 * i, true);
    digest(state, words);
  }
  const left = bytes.length - whole;
  const end = new DataView(new ArrayBuffer(left < BLOCK - 8 ? BLOCK : 2 * BLOCK));
  for (let i = 0; i < left; i++) end.setUint8(i, bytes[whole + i]!);
  end.setUint8(left, 0x80);
  end.setUint32(end.byteLength - 8, (bytes.length * 8) % 2 ** 32, true);
  end.setUint32(end.byteLength - 4, Math.floor(bytes.length / 2 ** 29), true);
  for (let at = 0; at < end.byteLength; at += BLOCK) {
    for (let i = 0; i < 16; i++) words[i] = end.getInt32(at + 4 * i, true);
    digest(state, words);
  }
  const sum = new DataView(new ArrayBuffer(16));
  for (let i = 0; i < 4; i++) sum.setInt32(4 * i, state[i]!, true);
  return new Uint8Array(sum.buffer);
}

/** One block of 16 words (RFC 1321, section 3.4): four rounds of 16 steps, four steps to a turn of the loop, so that no word has to change its place. */
function digest(state: Int32Array, words: Int32Array): void {
  let a = state[0]!;
  let b = state[1]!;
  let c = state[2]!;
  let d = state[3]!;
  for (let i = 0; i < 16; i += 4) {
    a = turned(a + ((b & c) | (~b & d)) + words[i]! + SINES[i]!, 7, b);
    d = turned(d + ((a & b) | (~a & c)) + words[i + 1]! + SINES[i + 1]!, 12, a);
    c = turned(c + ((d & a) | (~d & b)) + words[i + 2]! + SINES[i + 2]!, 17, d);
    b = turned(b + ((c & d) | (~c & a)) + words[i + 3]! + SINES[i + 3]!, 22, c);
  }
  for (let i = 16; i < 32; i += 4) {
    a = turned(a + ((b & d) | (c & ~d)) + words[(5 * i + 1) & 15]! + SINES[i]!, 5, b);
    d = turned(d + ((a & c) | (b & ~c)) + words[(5 * i + 6) & 15]! + SINES[i + 1]!, 9, a);
    c = turned(c + ((d & b) | (a & ~b)) + words[(5 * i + 11) & 15]! + SINES[i + 2]!, 14, d);
    b = turned(b + ((c & a) | (d & ~a)) + words[(5 * i) & 15]! + SINES[i + 3]!, 20, c);
  }
  for (let i = 32; i < 48; i += 4) {
    a = turned(a + (b ^ c ^ d) + words[(3 * i + 5) & 15]! + SINES[i]!, 4, b);
    d = turned(d + (a ^ b ^ c) + words[(3 * i + 8) & 15]! + SINES[i + 1]!, 11, a);
    c = turned(c + (d ^ a ^ b) + words[(3 * i + 11) & 15]! + SINES[i + 2]!, 16, d);
    b = turned(b + (c ^ d ^ a) + words[(3 * i + 14) & 15]! + SINES[i + 3]!, 23, c);
  }
  for (let i = 48; i < 64; i += 4) {
    a = turned(a + (c ^ (b | ~d)) + words[(7 * i) & 15]! + SINES[i]!, 6, b);
    d = turned(d + (b ^ (a | ~c)) + words[(7 * i + 7) & 15]! + SINES[i + 1]!, 10, a);
    c = turned(c + (a ^ (d | ~b)) + words[(7 * i + 14) & 15]! + SINES[i + 2]!, 15, d);
    b = turned(b + (d ^ (c | ~a)) + words[(7 * i + 5) & 15]! + SINES[i + 3]!, 21, c);
  }
  state[0] = (state[0]! + a) | 0;
  state[1] = (state[1]! + b) | 0;
  state[2] = (state[2]! + c) | 0;
  state[3] = (state[3]! + d) | 0;
}

/** A sum turned left, on top of the word before. */
function turned(sum: number, by: number, before: number): number {
  return (((sum << by) | ((sum | 0) >>> (32 - by))) + before) | 0;
}
