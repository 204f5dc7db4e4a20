/** Cut-off frequency, hertz. Below it lie the offset of the converter, wind and footsteps. Our choice, below the lowest string of a bass (41 Hz). */
const CORNER = 15;
/** Levels below this count as 0: far below the smallest step of 24 bits. */
const LEAST = 1e-20;

/** A one-pole high pass, in place, as samples come: removes offset and rumble. Its state starts as if the first sample had always been there. */
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
    // In silence the filter must not decay to denormal numbers, which are slow.
    out = Math.abs(level) < LEAST ? 0 : level;
  };
}
