import type { Belief } from "./belief.js";
import type { Particles } from "./particles.js";
import type { Trait } from "./traits.js";

const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
/** Bytes of a number: IEEE 754, the least significant first. */
const WIDTH = 8;

/**
 * A belief as text, exact to the last bit: JSON with the particles in base64. It is for whoever keeps it, and is read by the same version of leeway.
 *
 * @example
 * beliefText(priorBelief()).length > 40000 // true
 */
export function beliefText({ particles, ...rest }: Belief): string {
  const traits = Object.entries(particles.traits).map(([name, values]) => [name, packed(values)]);
  return JSON.stringify({
    ...rest,
    particles: { weight: packed(particles.weight), traits: Object.fromEntries(traits) },
  });
}

/**
 * The belief that a text of `beliefText` holds; `undefined` for any other text.
 *
 * @example
 * readBelief(beliefText(priorBelief()))?.takes // 0
 */
export function readBelief(text: string): Belief | undefined {
  try {
    const { particles, ...rest } = JSON.parse(text) as Omit<Belief, "particles"> & {
      readonly particles: { readonly weight: string; readonly traits: Readonly<Record<Trait, string>> };
    };
    const traits = Object.entries(particles.traits).map(([name, values]) => [name, unpacked(values)]);
    const read: Particles = {
      weight: unpacked(particles.weight),
      traits: Object.fromEntries(traits) as Particles["traits"],
    };
    return { ...rest, particles: read };
  } catch {
    return undefined;
  }
}

function packed(values: Float64Array): string {
  const bytes = new Uint8Array(values.length * WIDTH);
  const view = new DataView(bytes.buffer);
  values.forEach((value, i) => {
    view.setFloat64(i * WIDTH, value, true);
  });
  let text = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const [a, b, c] = [bytes[i]!, bytes[i + 1], bytes[i + 2]];
    const whole = (a << 16) | ((b ?? 0) << 8) | (c ?? 0);
    text += DIGITS[whole >> 18]! + DIGITS[(whole >> 12) & 63]!;
    text += b === undefined ? "==" : DIGITS[(whole >> 6) & 63]! + (c === undefined ? "=" : DIGITS[whole & 63]!);
  }
  return text;
}

const VALUES: ReadonlyMap<string, number> = /* @__PURE__ */ new Map([...DIGITS].map((digit, i) => [digit, i]));

function unpacked(text: string): Float64Array {
  const digits = text.replace(/=+$/, "");
  const bytes = new Uint8Array(Math.floor((digits.length * 3) / 4));
  for (let i = 0, at = 0; i < digits.length; i += 4) {
    const [a, b, c, d] = [0, 1, 2, 3].map((k) => (i + k < digits.length ? digitOf(digits[i + k]!) : 0)) as [
      number,
      number,
      number,
      number,
    ];
    const whole = (a << 18) | (b << 12) | (c << 6) | d;
    for (let k = 16; k >= 0 && at < bytes.length; k -= 8) bytes[at++] = (whole >> k) & 255;
  }
  if (bytes.length % WIDTH !== 0) throw new RangeError("these are no numbers");
  const view = new DataView(bytes.buffer);
  return Float64Array.from({ length: bytes.length / WIDTH }, (_, i) => view.getFloat64(i * WIDTH, true));
}

function digitOf(digit: string): number {
  const value = VALUES.get(digit);
  if (value === undefined) throw new RangeError("this is no base64");
  return value;
}
