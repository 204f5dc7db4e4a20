import { type Drill, rungs, scoreOf } from "../../../lib/drill/index.js";
import { encodeFilm, type FilmFormat } from "../../../lib/node/index.js";
import type { ReadyRecording } from "../../../lib/recording/index.js";
import {
  type FilmDrawing,
  type FilmSize,
  FRAME_RATE,
  filmChapters,
  filmDrawing,
  framesOver,
} from "../../../lib/render/film/index.js";
import { labelOf, renderSound, type Sound, USUAL_PEAK } from "../../../lib/render/sound/index.js";
import type { Score } from "../../../lib/schema/index.js";
import { loadWords, type Words } from "../../../lib/words/index.js";
import { COURSE } from "../../cli/publish/published.js";
import { course, FONTS, openEngraver } from "../sheet/material.js";

export const SMALL: FilmSize = { width: 480, height: 270 };

export interface FilmChoices {
  readonly mix: string;
  readonly size?: FilmSize;
  readonly recordings?: readonly ReadyRecording[];
}

export interface SmallFilm {
  readonly bytes: Uint8Array;
  readonly score: Score;
  readonly drill: Drill;
  readonly sound: Sound;
  readonly drawing: FilmDrawing;
  readonly words: Words;
}

/** The film of a version of eleven seconds, in English. */
export function smallFilm(as: FilmFormat, mix: string, size: FilmSize = SMALL): Promise<SmallFilm> {
  return filmOf(as, course(COURSE).drills[0]!, { mix, size });
}

/** The film of the first rung of a drill, in English. */
export async function filmOf(
  as: FilmFormat,
  drill: Drill,
  { mix, size = SMALL, recordings = [] }: FilmChoices,
): Promise<SmallFilm> {
  const loaded = await loadWords("en");
  if (!loaded.ok) throw new Error("no English");
  const words = loaded.value;
  const rung = rungs(drill).at(0);
  const score = scoreOf(rung, mix);
  const options = { player: drill.players[0], engraver: await openEngraver(), fonts: FONTS, words, size };
  const drawing = await filmDrawing(rung, score, { ...options, course: "Short walk" });
  const sound = renderSound(score, { rate: 48000, recordings });
  if (!drawing.ok || !sound.ok) throw new Error("neither drawn nor rendered");
  const lead = sound.value.downbeat / sound.value.rate;
  const chapters = filmChapters(score, { lead, length: framesOver(sound.value) / FRAME_RATE, words });
  const parts = {
    score,
    drawing: drawing.value,
    sound: sound.value,
    label: labelOf(score),
    chapters,
    peak: USUAL_PEAK,
  };
  const film = await encodeFilm(as, parts);
  if (!film.ok) throw new Error(JSON.stringify(film.problems));
  return { bytes: film.value, score, drill, sound: sound.value, drawing: drawing.value, words };
}
