/** Samples that are judged together; their number is our choice. */
const STRETCH = 2048;
/** Share of what was known of the channels that is kept from one stretch to the next: about a second at 44.1 kHz (our choice). */
const KEPT = 0.95;
/** Correlation below which a channel counts as turned round, and above which it counts as upright again (our choice, apart so that it does not waver). */
const TURNED = -0.5;
const UPRIGHT = -0.2;

/** Adds channels up to one, as blocks of any length come in; gives whole stretches of several, and what is left when it ends. */
export interface MixDown {
  readonly push: (channels: readonly Float32Array[]) => Float32Array;
  readonly finish: () => Float32Array;
}

/**
 * The mean of the channels, each turned round where it would cancel the ones before it: two microphones, or a plug wired the other way
 * round, can have opposite signs. A turn slides over one stretch so that it makes no click.
 */
export function mixDown(count: number): MixDown {
  if (count === 1) return { push: ([only]) => only!.slice(), finish: () => new Float32Array(0) };
  const waiting = Array.from({ length: count }, () => new Float32Array(STRETCH));
  const channels = Array.from({ length: count }, () => ({ sign: 1, own: 0, mix: 0, cross: 0 }));
  let filled = 0;
  const mixed = (length: number): Float32Array => {
    const mix = new Float32Array(length);
    for (const [index, channel] of channels.entries()) addTo(mix, waiting[index]!, channel);
    for (let i = 0; i < length; i++) mix[i] = mix[i]! / count;
    return mix;
  };
  return {
    push: (blocks) => {
      const length = blocks[0]?.length ?? 0;
      const whole = Math.floor((filled + length) / STRETCH);
      const out = new Float32Array(whole * STRETCH);
      let done = 0;
      for (let at = 0; at < length; ) {
        const take = Math.min(STRETCH - filled, length - at);
        for (let c = 0; c < count; c++) waiting[c]!.set(blocks[c]!.subarray(at, at + take), filled);
        at += take;
        filled += take;
        if (filled < STRETCH) break;
        out.set(mixed(STRETCH), done);
        done += STRETCH;
        filled = 0;
      }
      return out;
    },
    finish: () => mixed(filled),
  };
}

interface Channel {
  sign: number;
  own: number;
  mix: number;
  cross: number;
}

function addTo(mix: Float32Array, samples: Float32Array, channel: Channel): void {
  let own = KEPT * channel.own;
  let before = KEPT * channel.mix;
  let cross = KEPT * channel.cross;
  for (let i = 0; i < mix.length; i++) {
    own += samples[i]! ** 2;
    before += mix[i]! ** 2;
    cross += samples[i]! * mix[i]!;
  }
  Object.assign(channel, { own, mix: before, cross });
  const likeness = cross / Math.sqrt(Math.max(own * before, Number.MIN_VALUE));
  const was = channel.sign;
  if (likeness < TURNED) channel.sign = -1;
  else if (likeness > UPRIGHT) channel.sign = 1;
  const slide = (channel.sign - was) / mix.length;
  for (let i = 0; i < mix.length; i++) mix[i] = mix[i]! + (was + slide * (i + 1)) * samples[i]!;
}
