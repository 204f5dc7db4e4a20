import type { Score } from "../../../schema/index.js";
import { silenceLength } from "../../../take/index.js";
import { capital, counted, listed, settingsWords, timesText } from "../../phrases.js";
import type { ChartText } from "../chartDocument.js";
import { phrasesOf, placeText } from "../phrases.js";

/** Most silences described one by one: our choice, because screen readers read them aloud. */
const TOLD = 12;

/** The texts of a strip chart. */
export function stripWords(score: Score): ChartText {
  const off = score.parts.filter(({ does, student }) => does === "off" && !student).map(({ name }) => name);
  const phrases = phrasesOf(score).filter(({ isOutro }) => !isOutro);
  const tempo = score.tempo === undefined ? "" : `, ${score.beatUnit ?? "beat"} = ${score.tempo}`;
  const length = `${counted(phrases.length, "phrase")} of ${counted(phrases[0]!.bars.length, "bar")}, ${Math.round(score.duration)} s${tempo}`;
  const unheard = off.length === 0 ? "" : `; not heard: ${listed(off)}`;
  return {
    title: titleOf(score),
    subject: `${score.drill}: ${settingsWords(score.rung)}. Mix ${score.mix}${unheard}. ${capital(length)}.`,
    description: descriptionOf(score),
  };
}

function titleOf(score: Score): string {
  const { dropouts } = score;
  if (dropouts.length === 0) return "Everything sounds from beginning to end.";
  const parts = [...new Set(dropouts.flatMap((dropout) => dropout.parts))].sort();
  const times = timesText(dropouts.length);
  const returns = dropouts.filter(({ landing }) => landing !== null);
  const onDownbeats = returns.every(({ landing }) => score.bars.some(({ at }) => Math.abs(at - landing!) < 1e-6));
  const back =
    returns.length === 0
      ? "and nothing comes back"
      : `back on ${onDownbeats ? (returns.length === 1 ? "the downbeat" : "the next downbeat") : "time"}`;
  const who = dropouts.every(({ silent }) => silent)
    ? `Nothing sounds for ${silencesText(score)}, ${times}`
    : `${capital(listed(parts))} ${parts.length === 1 ? "falls" : "fall"} silent for ${silencesText(score)}, ${times}`;
  return `${who}; ${back}${returns.length > 0 && returns.length < dropouts.length ? ", but not after the last" : ""}.`;
}

function descriptionOf(score: Score): string {
  const beats = Math.round(score.countIn / score.beat);
  const silences = score.dropouts
    .slice(0, TOLD)
    .map(
      ({ from, to, parts, silent, landing }) =>
        `${silent ? "Nothing sounds" : `${listed(parts)} silent`} from ${placeText(score, from)} to ${placeText(score, to)}${landing === null ? ", without return" : ""}.`,
    );
  const rest = score.dropouts.length - silences.length;
  return [
    beats > 0 ? `Count-in of ${counted(beats, "beat")}.` : "No count-in.",
    ...silences,
    rest > 0 ? `And ${counted(rest, "silence")} more.` : "",
    ...score.open
      .slice(0, TOLD)
      .map(({ bars, scale }) => `Bars ${bars.join(", ")} are yours to improvise in, scale ${scale}.`),
    `${counted(score.expected.length, "onset")} expected of you.`,
  ]
    .filter((sentence) => sentence !== "")
    .join(" ");
}

/** The range of lengths of the silences in a score: "half a bar", "half a bar to 2 bars". */
function silencesText(score: Score): string {
  const byLength = score.dropouts
    .map(({ from, to }, index) => ({ seconds: to - from, index }))
    .sort((a, b) => a.seconds - b.seconds);
  const shortest = silenceLength(score, byLength[0]!.index);
  const longest = silenceLength(score, byLength.at(-1)!.index);
  return shortest === longest ? shortest : `${shortest} to ${longest}`;
}
