import type { SoundBlock, SoundStream } from "./soundStream.js";

/** Removes the first `before` and the last `behind` samples of a sound. */
export async function* trimmed(
  sound: SoundStream,
  { before, behind }: { readonly before: number; readonly behind: number },
): SoundStream {
  let left = before;
  // Blocks at the end that may contain samples to remove.
  const held: SoundBlock[] = [];
  let count = 0;
  for await (const block of sound) {
    const whole = lengthOf(block);
    const cut = Math.min(left, whole);
    left -= cut;
    if (cut === whole) continue;
    held.push(cut === 0 ? block : part(block, cut, whole));
    count += whole - cut;
    while (held.length > 0 && count - lengthOf(held[0]!) >= behind) {
      count -= lengthOf(held[0]!);
      yield held.shift()!;
    }
  }
  for (const block of held) {
    const stays = Math.min(lengthOf(block), count - behind);
    if (stays <= 0) return;
    count -= lengthOf(block);
    yield part(block, 0, stays);
  }
}

/** Samples of each channel of a block. */
export function lengthOf({ channels }: SoundBlock): number {
  return channels[0]?.length ?? 0;
}

function part({ rate, channels }: SoundBlock, from: number, to: number): SoundBlock {
  return { rate, channels: channels.map((samples) => samples.subarray(from, to)) };
}
