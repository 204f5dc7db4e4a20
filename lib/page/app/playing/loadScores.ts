import type { Result } from "../../../base/index.js";
import { recordingsHere, type ScorePlayer } from "../../../browser/index.js";
import { isSameRecording, type Rate, type ReadyRecording, recordingsIn } from "../../../recording/index.js";
import type { Score } from "../../../schema/index.js";
import type { RecordingIndex } from "../../model.js";
import type { Page } from "../page.js";
import { fileBytes } from "../state/files.js";

/** What was decoded last, by its file: a student plays the same rung again and again. */
let decoded = new Map<string, Promise<ReadyRecording>>();

/** Gets the mixes of a rung ready in the player, with the recordings that they play. Problem: RECORDING_NOT_HERE when one is not there or not whole. */
export async function loadScores(page: Page, player: ScorePlayer, scores: readonly Score[]): Promise<Result<void>> {
  const needs = scores.flatMap(recordingsIn);
  // What cannot be fetched or read is not here.
  const index = needs.length === 0 ? [] : await (await page.course()).recordings().catch(() => []);
  const wanted = index.filter((kept) => needs.some((need) => isSameRecording(need, kept)));
  const now = new Map(wanted.map((kept) => [kept.file, decoded.get(kept.file) ?? decode(kept, player.rate)]));
  decoded = now;
  const settled = await Promise.allSettled(now.values());
  const recordings = settled.flatMap((each) => (each.status === "fulfilled" ? [each.value] : []));
  const here = recordingsHere(scores, recordings);
  // The next attempt asks for what did not come again.
  if (!here.ok) decoded = new Map();
  else await player.load(scores, { recordings });
  return here;
}

async function decode({ file, ...recording }: RecordingIndex[number], rate: Rate): Promise<ReadyRecording> {
  const sound = await new OfflineAudioContext(2, 1, rate).decodeAudioData(await fileBytes(file));
  return { ...recording, rate, channels: [sound.getChannelData(0), sound.getChannelData(1)] };
}
