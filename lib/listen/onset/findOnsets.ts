import type { SoundStream } from "../../formats/sound/index.js";
import type { HeardOnsets, ListeningOptions } from "./heardOnset.js";
import { listenFor } from "./listenFor.js";

/**
 * The beginnings of the notes in a recording, with how well each is timed; see `listenFor` for recordings that are still going on.
 *
 * A recording without blocks, or in which nothing begins, has none. Throws as `listenFor` does.
 *
 * @example
 * const { onsets, noiseMs } = await findOnsets(stream, { family: "plucked" });
 */
export async function findOnsets(stream: SoundStream, options: ListeningOptions): Promise<HeardOnsets> {
  const listener = listenFor(options);
  for await (const block of stream) listener.push(block);
  return listener.finish();
}
