import type { SoundReader } from "./reader.js";
import { sincWeights } from "./sincWeights.js";

/** Half of what is there passes at this share of the lower Nyquist frequency; at the frequency itself next to nothing does. */
const PASSES = 0.84;
/** Steps so near to 1 need no low pass: nothing folds over but what lies at the very top. */
const ALIKE = 1.001;

/** Samples of a recording at places of its own: `count` of them, the first at `from` (in samples, fractional), `step` apart. */
export async function resampled(
  reader: SoundReader,
  { from, step, count }: { readonly from: number; readonly step: number; readonly count: number },
): Promise<Float64Array> {
  const weights = sincWeights(step > ALIKE ? PASSES / step : 1);
  const { reach, phases, rows } = weights;
  const width = 2 * reach;
  const first = Math.floor(from) - reach;
  const source = await reader.read(first, Math.ceil(step * count) + width + 2);
  const out = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const place = from + step * i - first;
    let whole = Math.floor(place);
    let phase = Math.round((place - whole) * phases);
    if (phase === phases) {
      phase = 0;
      whole++;
    }
    const begin = whole - reach + 1;
    const row = phase * width;
    let sum = 0;
    for (let k = 0; k < width; k++) sum += source[begin + k]! * rows[row + k]!;
    out[i] = sum;
  }
  return out;
}
