import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** A stream of random numbers fixed by its seed: the same seed, the same stream, on every machine. */
export interface Random {
  /** Uniform on [0, 1). */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
  /** A whole number from 0 to `count - 1`. */
  below(count: number): number;
}

/** A stream seeded by a whole number or by a text (hashed, so that "7/phrase 2" and "7/phrase 3" are unrelated streams). */
export function random(seed: number | string): Random {
  const generator = xoroshiro128plus(hash(String(seed)));
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

/** 32-bit FNV-1a (offset basis and prime as published by Fowler, Noll and Vo), over UTF-16 code units. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
  return value | 0;
}
