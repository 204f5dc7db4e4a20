/** Below this nothing is heard of an onset: offset of the converter, wind, footsteps. Hertz; our choice, below the lowest string of a bass (41 Hz). */
const CORNER = 15;
/** What is taken for nothing: far below the smallest step of 24 bits. */
const LEAST = 1e-20;

/** Takes offset and the slowest rumble out of samples, in place, as they come: a one-pole high pass that has always heard the first sample. */
export function highPass(rate: number): (samples: Float32Array) => void {
  const kept = Math.exp((-2 * Math.PI * CORNER) / rate);
  let before: number | undefined;
  let out = 0;
  return (samples) => {
    let [last, level] = [before ?? samples[0] ?? 0, out];
    for (let i = 0; i < samples.length; i++) {
      const sample = samples[i]!;
      level = kept * (level + sample - last);
      last = sample;
      samples[i] = level;
    }
    if (samples.length > 0) before = last;
    // A filter that rings on in silence must not end in numbers too small to be quick.
    out = Math.abs(level) < LEAST ? 0 : level;
  };
}
