/** Seconds before a beat in which a stroke is taken for the one on the beat; our choice: drummers are rarely further before a click. */
const EARLIEST = 0.03;
/** Length of the windows that are compared, seconds, and how much more there must be in the last than in the quietest: our choices. Differences of neighbouring samples are summed, in which attacks stand out and basses do not. */
const WINDOW = 0.002;
const RISES = 10;

/**
 * How many samples before a bar line the stroke on it begins, where it was played early: 0 where none begins there. `at` is the sample of the bar line.
 */
export function quietBefore(channels: readonly Float32Array[], at: number, rate: number): number {
  const size = Math.round(WINDOW * rate);
  const count = Math.floor((EARLIEST * rate) / size);
  const energies = Array.from({ length: count }, (_, i) => energyOf(channels, at - (i + 1) * size, size));
  const quietest = Math.min(...energies);
  if (energies[0]! <= RISES * quietest + Number.EPSILON) return 0;
  // The nearest window that is about as quiet as the quietest: behind it the attack begins.
  return size * energies.findIndex((energy) => energy <= 2 * quietest + Number.EPSILON);
}

function energyOf(channels: readonly Float32Array[], from: number, size: number): number {
  let sum = 0;
  for (const samples of channels)
    for (let i = Math.max(1, from); i < Math.min(samples.length, from + size); i++)
      sum += (samples[i]! - samples[i - 1]!) ** 2;
  return sum;
}
