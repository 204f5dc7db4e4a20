/**
 * How many samples a test takes: few in the suite, which has minutes, and all of them in `npm run proof` (LEEWAY_PROOF=yes), which has hours. Only tests that
 * cost much have two numbers.
 */
export function sample({ suite, proof }: { readonly suite: number; readonly proof: number }): number {
  if (!(suite >= 1 && proof >= suite))
    throw new RangeError(`a proof takes at least the samples of the suite, and that at least one: ${suite}, ${proof}`);
  return PROVING ? proof : suite;
}

const asked = process.env.LEEWAY_PROOF ?? "no";
if (asked !== "yes" && asked !== "no") throw new RangeError(`LEEWAY_PROOF must be yes or no, got ${asked}`);

/** Whether the samples are those of `npm run proof`. */
const PROVING: boolean = asked === "yes";
