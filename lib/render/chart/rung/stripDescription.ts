import type { Score } from "../../../schema/index.js";
import { lengthPhrase, silenceLength } from "../../../take/index.js";
import { capital, grouped, settingsWords, silencesHeard } from "../../phrases.js";
import type { ChartText } from "../chartDocument.js";
import { phrasesOf, placeText } from "../phrases.js";
import { type ChartWords, listed } from "../words.js";

/** Most silences described one by one: our choice, because screen readers read them aloud. */
const TOLD = 12;

/** The texts of a strip chart. */
export function stripWords(score: Score, words: ChartWords): ChartText {
  const { say } = words;
  const off = score.parts.filter(({ does, student }) => does === "off" && !student).map(({ name }) => name);
  const phrases = phrasesOf(score).filter(({ isOutro }) => !isOutro);
  const bars = phrases[0]!.bars.length;
  const seconds = `${Math.round(score.duration)}`;
  const { tempo, beatUnit: beat = say("chart.beat") } = score;
  return {
    title: titleOf(score, words),
    subject: say("chart.strip-subject", {
      drill: score.drill,
      settings: settingsWords(score.rung, words),
      mix: score.mix,
      heard: off.length === 0 ? "all" : "some",
      unheard: listed(off, words),
      phrases: say("chart.phrases", { count: phrases.length, shown: grouped(phrases.length) }),
      bars: say("chart.bars", { count: bars, shown: grouped(bars) }),
      lasting:
        tempo === undefined
          ? say("chart.lasting", { seconds })
          : say("chart.lasting-at", { seconds, beat, tempo: tempiText(score, words) ?? `${tempo}` }),
    }),
    description: descriptionOf(score, words),
  };
}

/** "84 to 96": the first and the last tempo of a take whose tempo rises or falls. */
export function tempiText({ tempi = [] }: Score, { say }: ChartWords): string | undefined {
  const [first, last] = [tempi[0], tempi.at(-1)];
  return first && last && say("chart.tempi", { first: String(first.tempo), last: String(last.tempo) });
}

function titleOf(score: Score, words: ChartWords): string {
  const { say } = words;
  const dropouts = silencesHeard(score);
  if (dropouts.length === 0) return throughoutText(score, words);
  const parts = [...new Set(dropouts.flatMap((dropout) => dropout.parts))].sort();
  const returns = dropouts.filter(({ landing }) => landing !== null);
  const onDownbeats = returns.every(({ landing }) => score.bars.some(({ at }) => Math.abs(at - landing!) < 1e-6));
  const downbeat = returns.length === 1 ? "downbeat" : "next-downbeat";
  const spoken = {
    length: silencesText(score, words),
    times: say("chart.times", { count: dropouts.length, shown: grouped(dropouts.length) }),
  };
  return say("chart.strip-title", {
    who: dropouts.every(({ silent }) => silent)
      ? say("chart.nothing-for", spoken)
      : say("chart.parts-for", { ...spoken, count: parts.length, parts: capital(listed(parts, words)) }),
    back: returns.length === 0 ? "never" : onDownbeats ? downbeat : "time",
    last: returns.length < dropouts.length ? "stays" : "returns",
  });
}

function descriptionOf(score: Score, words: ChartWords): string {
  const { say } = words;
  const beats = Math.round(score.countIn / score.beat);
  const dropouts = silencesHeard(score);
  const silences = dropouts.slice(0, TOLD).map(({ from, to, parts, silent, landing }) =>
    say("chart.stretch", {
      sounds: silent ? "nothing" : "some",
      parts: capital(listed(parts, words)),
      from: placeText(score, from, words),
      to: placeText(score, to, words),
      end: landing === null ? "stays" : "returns",
    }),
  );
  const rest = dropouts.length - silences.length;
  const expected = score.expected.length;
  return [
    beats > 0 ? say("chart.count-in", { count: beats, shown: grouped(beats) }) : say("chart.no-count-in"),
    ...silences,
    ...(rest > 0 ? [say("chart.more-silences", { count: rest, shown: grouped(rest) })] : []),
    ...score.open.slice(0, TOLD).map(({ bars, scale }) => say("chart.open-bars", { bars: bars.map(String), scale })),
    say("chart.onsets-expected", { count: expected, shown: grouped(expected) }),
  ].join(" ");
}

/** What is true of a mix in which nothing falls silent: all plays to the end, or what of it is not off. */
function throughoutText({ parts }: Score, words: ChartWords): string {
  const sounding = parts.filter(({ does }) => does !== "off").map(({ name }) => name);
  const isAll = parts.every(({ does, student }) => does !== "off" || student);
  return words.say("chart.throughout", {
    heard: isAll ? "all" : "some",
    count: sounding.length,
    parts: capital(listed(sounding, words)),
  });
}

/** The range of lengths of the silences in a score: "half a bar", "half a bar to 2 bars". */
function silencesText(score: Score, words: ChartWords): string {
  const byLength = silencesHeard(score)
    .map((dropout) => ({ seconds: dropout.to - dropout.from, index: score.dropouts.indexOf(dropout) }))
    .sort((a, b) => a.seconds - b.seconds);
  const length = (index: number): string => words.word(lengthPhrase(score, index), silenceLength(score, index));
  const shortest = length(byLength[0]!.index);
  const longest = length(byLength.at(-1)!.index);
  return shortest === longest ? shortest : words.say("chart.lengths", { shortest, longest });
}
