/** Below this nothing is heard of an onset: offset of the converter, wind, footsteps. Hertz; our choice, below the lowest string of a bass (41 Hz). */
const CORNER = 15;

/** Takes offset and the slowest rumble out of samples, in place, as they come: a one-pole high pass that has always heard the first sample. */
export function highPass(rate: number): (samples: Float32Array) => void {
  const kept = Math.exp((-2 * Math.PI * CORNER) / rate);
  let before = Number.NaN;
  let out = 0;
  return (samples) => {
    for (let i = 0; i < samples.length; i++) {
      const sample = samples[i]!;
      out = kept * (out + sample - (Number.isNaN(before) ? sample : before));
      before = sample;
      samples[i] = out;
    }
  };
}
