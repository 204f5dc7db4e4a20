import { type Fraction, fractionText } from "../../base/index.js";
import type { Alteration } from "../../curriculum/index.js";
import { type Drill, type Gate, type Ladder, ladderValue, type Mix, type Tolerance } from "../../drill/index.js";
import { type Key, keyText, scaleText } from "../../pattern/index.js";
import { gateText } from "../../progress/index.js";
import { type Swing, swingText } from "../../time/index.js";

/** Most characters shown of one side; our choice: both sides fit on two lines. */
const LONGEST = 70;

/** An alteration as text: "tolerance: drift 8 % -> drift 6 %". */
export function alterationText({ aspect, was, is, part, variant, bars }: Alteration): string {
  const of = part === undefined ? "" : ` of ${part}${variant === undefined ? "" : ` (${variant})`}`;
  if (aspect === "notes") return `notes${of}: others in ${barsText(bars ?? [])}`;
  const say = WORDS[aspect] as (value: unknown) => string;
  const [before, now] = [was, is].map((value) => (value === undefined ? "none" : cut(say(value))));
  return before === now
    ? `${NAMES[aspect] ?? aspect}${of}: changed`
    : `${NAMES[aspect] ?? aspect}${of}: ${before} -> ${now}`;
}

const NAMES: Readonly<Partial<Record<Alteration["aspect"], string>>> = {
  countIn: "count-in",
  countInVoice: "sound of the count-in",
  dropout: "place of the silences",
  open: "open bars",
  student: "the student's part",
  bars: "meter of the bars",
  pickup: "pick-up",
};

type Said<Value> = (value: Value) => string;

const list: Said<readonly string[]> = (names) => (names.length === 0 ? "none" : names.join(", "));
const wholeNotes: Said<Fraction> = (length) => `${fractionText(length)} of a whole note`;

const WORDS: Readonly<Record<Exclude<Alteration["aspect"], "notes">, Said<never>>> = {
  tolerance: toleranceText,
  gate: gateText as Said<Gate>,
  goBack: ({ after, by }: NonNullable<Drill["goBack"]>) => `after ${after} beyond, ${by} back`,
  needs: list,
  beat: wholeNotes,
  phrases: String,
  outro: wholeNotes,
  countIn: wholeNotes,
  countInVoice: String,
  pickup: wholeNotes,
  dropout: ({ place }: NonNullable<Drill["dropout"]>) =>
    place.at === "bars" ? barsText(place.bars) : place.at === "random" ? `random, seed ${place.seed}` : place.at,
  open: ({ scale, subdivision }: NonNullable<Drill["open"]>) => `${scaleText(scale)} in ${fractionText(subdivision)}`,
  mixes: (mixes: readonly Mix[]) => mixes.map(mixText).join("; "),
  student: String,
  key: keyText as Said<Key>,
  swing: swingText as Said<Swing>,
  bars: (meters: readonly string[]) => [...new Set(meters)].join(", ").concat(` in ${meters.length} bars`),
  chords: (chords: Drill["pattern"]["chords"]) => chords.map(({ text }) => text).join(" "),
  parts: list,
  variants: list,
  ladders: (ladders: readonly Ladder[]) => list(ladders.map(ladderText)),
  players: (players: Drill["players"]) => list(players.map(({ instrument }) => instrument.name)),
  title: (text: string) => JSON.stringify(text),
  about: (text: string) => JSON.stringify(text),
};

function toleranceText({ drift, landing, steadiness, played }: Tolerance): string {
  const driftText =
    drift === undefined ? [] : [`drift ${"percent" in drift ? `${drift.percent} %` : `${drift.ms} ms`}`];
  return list([
    ...driftText,
    ...(landing === undefined ? [] : [`landing ${landing} ms`]),
    ...(steadiness === undefined ? [] : [`steadiness ${steadiness} ms`]),
    ...(played === undefined ? [] : [`played ${fractionText(played)}`]),
  ]);
}

function mixText({ name, parts }: Mix): string {
  return `${name} (${list(Object.entries(parts).map(([part, does]) => `${part} ${does}`))})`;
}

function ladderText(ladder: Ladder): string {
  const { parameter, count, values, restart } = ladder;
  const [first, last] = [ladderValue(ladder, 0), ladderValue(ladder, count - 1)];
  const steps = values.kind === "list" ? values.texts.join("/") : `${first} to ${last} in ${count}`;
  return `${parameter} ${steps}${restart === "bottom" ? "" : ` (again ${restart} back)`}`;
}

function barsText(bars: readonly number[]): string {
  const names = bars.map((bar) => (bar === 0 ? "the pick-up" : String(bar)));
  return `${bars.length === 1 ? (bars[0] === 0 ? "" : "bar ") : "bars "}${names.join(", ")}`;
}

function cut(text: string): string {
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 3)}...` : text;
}
