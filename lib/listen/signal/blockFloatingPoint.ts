/** Samples that share a scale; our choice, a tenth to half a second. */
const BLOCK = 4096;
/** The highest number of 16 bits. */
const FULL = 32_767;

/** Samples of one channel that are held, and read as often as needed. */
export interface PackedSound {
  readonly length: () => number;
  readonly push: (samples: Float32Array) => void;
  /** `count` samples from `from` on, zeros before the start and after the end. */
  readonly read: (from: number, count: number) => Float64Array;
}

/** Holds samples in 16 bits each, every block on a scale of its own: what is rounded lies 98 dB below the loudest of about a third of a second. */
export function packedSound(): PackedSound {
  const blocks: { readonly scale: number; readonly samples: Int16Array }[] = [];
  const open = new Float32Array(BLOCK);
  let filled = 0;
  const pack = (): void => {
    let peak = 0;
    for (let i = 0; i < BLOCK; i++) {
      const value = open[i]!;
      if (value > peak) peak = value;
      else if (-value > peak) peak = -value;
    }
    const scale = peak / FULL;
    const samples = new Int16Array(BLOCK);
    const steps = scale > 0 ? 1 / scale : 0;
    // The array cuts off what is behind the point.
    for (let i = 0; i < BLOCK; i++) samples[i] = steps * open[i]! + (open[i]! < 0 ? -0.5 : 0.5);
    blocks.push({ scale, samples });
    filled = 0;
  };
  const length = (): number => blocks.length * BLOCK + filled;
  return {
    length,
    push: (samples) => {
      for (let at = 0; at < samples.length; ) {
        const taken = Math.min(BLOCK - filled, samples.length - at);
        open.set(samples.subarray(at, at + taken), filled);
        filled += taken;
        at += taken;
        if (filled === BLOCK) pack();
      }
    },
    read: (from, count) => {
      const out = new Float64Array(count);
      const [begin, end] = [Math.max(0, from), Math.min(length(), from + count)];
      for (let at = begin; at < end; ) {
        const number = Math.floor(at / BLOCK);
        const first = number * BLOCK;
        const last = Math.min(end, first + BLOCK);
        const block = blocks[number];
        if (block === undefined) out.set(open.subarray(at - first, last - first), at - from);
        else for (let i = at; i < last; i++) out[i - from] = block.scale * block.samples[i - first]!;
        at = last;
      }
      return out;
    },
  };
}
