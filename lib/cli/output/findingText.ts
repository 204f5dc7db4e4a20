import { textTake } from "../../render/chart/index.js";
import type { Finding, Score } from "../../schema/index.js";
import { shownProbability } from "../../take/index.js";
import type { Words } from "../../words/index.js";
import { inkFor } from "./ink.js";
import { offText } from "./offText.js";
import { plain } from "./printableText.js";
import { reasonsOnce } from "./reasonsOnce.js";

type Measured = Finding["offsetMs"] | null;

export interface FindingTextOptions {
  readonly colour: boolean;
  readonly words: Words;
}

/** A finding as text: verdict and sentence, each silence with its bars, steadiness, and reasons. */
export function findingText(finding: Finding, score: Score, { colour, words }: FindingTextOptions): string {
  const ink = inkFor(colour);
  const { say } = words;
  const verdictInk = { within: ink.blue, beyond: ink.rust, unclear: ink.bold }[finding.verdict];
  const probability = shownProbability(finding);
  const chance =
    probability === undefined ? "" : `  ${say("cli.chance-within", { chance: chanceText(probability, words) })}`;
  const row = (of: Label, text: string): string => `  ${say("cli.label", { of }).padEnd(13)} ${plain(text)}`;
  const { accompaniedMs, aloneMs, verdict } = finding.steadiness;
  const lines = [
    `${ink.bold(plain(finding.take ?? say("cli.take")))}  ${verdictInk(say("chart.verdict", { verdict: finding.verdict }))}${chance}`,
    `  ${plain(words.word(finding.message, finding.sentence))}`,
    "",
    ...(score.dropouts.length + score.open.length > 0 ? [textTake(score, finding, words)] : []),
    row("offset", say("cli.offset", { off: asideMs(finding.offsetMs, words) })),
    row(
      "steadiness",
      say("cli.steadiness", {
        accompanied: plainMs(accompaniedMs, words),
        alone: plainMs(aloneMs, words),
        verdict: say("chart.verdict", { verdict }),
      }),
    ),
    row(
      "notes",
      say("cli.notes", {
        played: String(finding.pairs.length),
        expected: String(score.expected.length),
        missed: String(finding.missed.length),
        added: String(finding.added.length),
      }),
    ),
    ...openTexts(finding, score, words).map((text) => row("open-bars", text)),
    ...reasonsOnce(finding.reasons, words).map((reason) => row("why", say("cli.reason", reason))),
  ];
  return lines.map((line) => `${line}\n`).join("");
}

type Label = "offset" | "steadiness" | "notes" | "open-bars" | "why";

/** What each stretch of open bars showed, by its phrase, or by its bars where a phrase has several; those that showed the same are one. */
function openTexts({ openBars }: Finding, { bars, open }: Score, words: Words): readonly string[] {
  const phraseOf = new Map(bars.map(({ bar, phrase }) => [bar, phrase]));
  const phrases = open.map((stretch) => [...new Set(stretch.bars.map((bar) => phraseOf.get(bar)!))]);
  const kind = new Set(phrases.flat()).size === phrases.flat().length ? "phrases" : "bars";
  const places = new Map<string, number[]>();
  openBars.forEach((each, i) => {
    const showed = openText(each, words);
    const here = kind === "phrases" ? phrases[i]! : open[i]!.bars;
    places.set(showed, [...(places.get(showed) ?? []), ...here]);
  });
  return Array.from(places, ([showed, numbers]) =>
    words.say("cli.open-where", { in: kind, count: numbers.length, numbers: numbers.map(String), showed }),
  );
}

function openText({ notes, driftMs, inScale }: Finding["openBars"][number], words: Words): string {
  const aside = asideMs(driftMs, words);
  const drift = typeof driftMs === "number" ? words.say("cli.drift", { off: aside }) : aside;
  const said = { notes: String(notes), drift };
  if (typeof inScale !== "number") return words.say("cli.open-bars", said);
  return words.say("cli.open-bars-in-scale", { ...said, percent: (inScale * 100).toFixed(0) });
}

function asideMs(value: Measured, words: Words): string {
  if (value === null) return words.say("cli.none");
  if (typeof value === "number") return offText(value, words);
  return words.say("cli.unmeasured-because", { why: words.word(value.message, value.unmeasured) });
}

function plainMs(value: Measured, words: Words): string {
  if (value === null) return words.say("cli.none");
  return typeof value === "number" ? words.say("cli.ms", { ms: value.toFixed(0) }) : words.say("cli.unmeasured");
}

/** A probability in per cent, never "100 %" or "0 %": a probability from one take is not certain. */
function chanceText(share: number, { say }: Words): string {
  const size = share > 0.995 ? "almost-all" : share < 0.005 ? "almost-none" : "between";
  return say("chart.chance", { share: size, percent: Number((share * 100).toFixed(0)) });
}
