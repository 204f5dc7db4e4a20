import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";

/** A stream of random numbers fixed by its seed: the same seed, the same stream, on every machine. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
  /** A whole number from 0 to `count - 1`. */
  below(count: number): number;
}

/**
 * A stream seeded by a whole number or by a text. Streams of seeds that differ in one character ("7/phrase 2", "7/phrase 3") are
 * unrelated from their first number on.
 *
 * The generator is xoroshiro128+. Its state is filled from the hash of the seed by SplitMix64, as its authors ask (Blackman & Vigna,
 * notes at the head of their programs): its first outputs show the state, and seeds that are alike have hashes that are alike.
 */
export function random(seed: number | string): Random {
  const [first, second] = splitMix64(fnv1a64(String(seed)));
  const generator = xoroshiro128plusFromState([...halves(first!), ...halves(second!)]);
  const uniform = (): number => uniformFloat64(generator);
  let spare: number | undefined;
  const normal = (): number => {
    if (spare !== undefined) {
      const value = spare;
      spare = undefined;
      return value;
    }
    // Box and Muller 1958; 1 - u keeps the logarithm's argument above 0.
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { uniform, normal, below: (count) => Math.floor(uniform() * count) };
}

/**
 * 64-bit FNV-1a (offset basis and prime as published by Fowler, Noll and Vo), with a UTF-16 code unit where the definition has an octet.
 * Not finished: a change of the last character changes few bits.
 */
export function fnv1a64(text: string): bigint {
  let value = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++)
    value = BigInt.asUintN(64, (value ^ BigInt(text.charCodeAt(i))) * 0x100000001b3n);
  return value;
}

/** The first two outputs of SplitMix64 (Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators"; constants as in Vigna's splitmix64.c). */
export function splitMix64(seed: bigint): readonly [bigint, bigint] {
  const mixed = (state: bigint): bigint => {
    let z = BigInt.asUintN(64, state);
    z = BigInt.asUintN(64, (z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
    z = BigInt.asUintN(64, (z ^ (z >> 27n)) * 0x94d049bb133111ebn);
    return z ^ (z >> 31n);
  };
  const step = 0x9e3779b97f4a7c15n;
  return [mixed(seed + step), mixed(seed + 2n * step)];
}

/** The upper and the lower half of 64 bits, each as a signed 32-bit number. */
function halves(bits: bigint): readonly [number, number] {
  return [Number(BigInt.asIntN(32, bits >> 32n)), Number(BigInt.asIntN(32, bits))];
}
