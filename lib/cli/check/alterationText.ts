import { type Fraction, fractionText } from "../../base/index.js";
import type { Alteration } from "../../curriculum/index.js";
import { type Drill, type Gate, type Ladder, ladderValue, type Mix, type Tolerance } from "../../drill/index.js";
import { type Key, keyText, scaleText } from "../../pattern/index.js";
import { gateSaid } from "../../progress/index.js";
import { type Swing, swingText } from "../../time/index.js";
import type { Words } from "../../words/index.js";

/** Most characters shown of one side; our choice: both sides fit on two lines. */
const LONGEST = 70;

/** An alteration as text: "tolerance: drift 8 % -> drift 6 %". */
export function alterationText({ aspect, was, is, part, variant, bars }: Alteration, words: Words): string {
  const { say } = words;
  const name = say("cli.aspect", { of: aspect });
  const inPart = part === undefined ? name : say("cli.of-part", { what: name, part });
  const what =
    part === undefined || variant === undefined ? inPart : say("cli.of-variant", { what: name, part, variant });
  if (aspect === "notes") return say("cli.altered-in", { what, bars: barsText(bars ?? [], words) });
  const said = WORDS[aspect] as Said<unknown>;
  const [before, now] = [was, is].map((value) =>
    value === undefined ? say("cli.nothing") : cut(said(value, words)),
  ) as [string, string];
  return before === now ? say("cli.altered-somehow", { what }) : say("cli.altered", { what, was: before, is: now });
}

type Said<Value> = (value: Value, words: Words) => string;

const list: Said<readonly string[]> = (names, { say }) =>
  names.length === 0 ? say("cli.nothing") : say("cli.list", { names });
const wholeNotes: Said<Fraction> = (length, { say }) => say("cli.whole-notes", { length: fractionText(length) });

const WORDS: Readonly<Record<Exclude<Alteration["aspect"], "notes">, Said<never>>> = {
  tolerance: toleranceText,
  gate: (gate: Gate, words) => {
    const { says, message } = gateSaid(gate);
    return words.word(message, says);
  },
  goBack: ({ after, by }: NonNullable<Drill["goBack"]>, { say }) =>
    say("cli.goes-back", { after: String(after), by: String(by) }),
  needs: list,
  beat: wholeNotes,
  phrases: String,
  endless: String,
  outro: wholeNotes,
  countIn: wholeNotes,
  countInVoice: String,
  pickup: wholeNotes,
  dropout: ({ place }: NonNullable<Drill["dropout"]>, words) =>
    place.at === "bars"
      ? barsText(place.bars, words)
      : words.say("cli.silences-at", { place: place.at, seed: place.at === "random" ? String(place.seed) : "" }),
  open: ({ scale, subdivision }: NonNullable<Drill["open"]>, { say }) =>
    say("cli.open-notes", { scale: scaleText(scale), length: fractionText(subdivision) }),
  mixes: (mixes: readonly Mix[], words) => mixes.map((mix) => mixText(mix, words)).join("; "),
  student: String,
  key: (key: Key) => keyText(key),
  swing: (swing: Swing) => swingText(swing),
  bars: (meters: readonly string[], { say }) =>
    say("cli.meters", { meters: [...new Set(meters)], count: meters.length }),
  chords: (chords: Drill["pattern"]["chords"]) => chords.map(({ text }) => text).join(" "),
  parts: list,
  variants: list,
  recorded: list,
  ladders: (ladders: readonly Ladder[], words) =>
    list(
      ladders.map((ladder) => ladderText(ladder, words)),
      words,
    ),
  players: (players: Drill["players"], words) =>
    list(
      players.map(({ instrument }) => instrument.name),
      words,
    ),
  title: (text: string) => JSON.stringify(text),
  about: (text: string) => JSON.stringify(text),
};

function toleranceText({ drift, landing, steadiness, played }: Tolerance, words: Words): string {
  const { say } = words;
  const ms = (value: number): string => say("cli.ms", { ms: String(value) });
  const limits = {
    drift: drift && ("percent" in drift ? say("cli.percent", { percent: String(drift.percent) }) : ms(drift.ms)),
    landing: landing === undefined ? undefined : ms(landing),
    steadiness: steadiness === undefined ? undefined : ms(steadiness),
    played: played === undefined ? undefined : fractionText(played),
  };
  const told = (["drift", "landing", "steadiness", "played"] as const).flatMap((of) => {
    const limit = limits[of];
    return limit === undefined ? [] : [say("cli.limit", { of, limit })];
  });
  return list(told, words);
}

function mixText({ name, parts }: Mix, words: Words): string {
  const told = Object.entries(parts).map(([part, does]) => words.say("cli.part-does", { part, does }));
  return words.say("cli.mix", { mix: name, parts: told.length === 0 ? words.say("cli.nothing") : told });
}

function ladderText(ladder: Ladder, { say }: Words): string {
  const { parameter, count, values, restart } = ladder;
  const setting = say("setting.name", { parameter });
  const climbs =
    values.kind === "list"
      ? say("cli.climbs-list", { setting, values: values.texts.join("/") })
      : say("cli.climbs-steps", {
          setting,
          first: ladderValue(ladder, 0),
          last: ladderValue(ladder, count - 1),
          count,
        });
  return restart === "bottom" ? climbs : say("cli.again", { ladder: climbs, back: String(restart) });
}

function barsText(bars: readonly number[], { say }: Words): string {
  const names = bars.map((bar) => (bar === 0 ? say("cli.pick-up") : String(bar)));
  return bars.length === 1 && bars[0] === 0 ? names[0]! : say("cli.in-bars", { count: bars.length, bars: names });
}

function cut(text: string): string {
  return text.length > LONGEST ? `${text.slice(0, LONGEST - 3)}...` : text;
}
