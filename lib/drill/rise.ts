import { add, compare, type Fraction, fraction, multiply, ZERO } from "../base/index.js";
import { decimalText, parseDecimal, readTempo } from "../time/index.js";
import type { Settings } from "./model.js";

/** How the tempo rises inside one take: by so many beats a minute after every `each` phrases; below 0 it falls, at 0 it stays. */
export interface Rise {
  readonly by: Fraction;
  /** Number of phrases, from 1. */
  readonly each: number;
}

/** Reads a value of the parameter `rise`: "4 each 2 phrases", "4" for each phrase, "none"; `undefined` for another text and for a rise by 0. */
export function readRise(text: string): Rise | undefined {
  if (text.trim() === "none") return { by: ZERO, each: 1 };
  const [, written, count = "1"] = /^(\S+?)(?:\s+each(?:\s+([1-9]\d?))?\s+phrases?)?$/.exec(text.trim()) ?? [];
  const by = written === undefined ? undefined : parseDecimal(written);
  return by === undefined || by.n === 0 ? undefined : { by, each: Number(count) };
}

/** The canonical text, read back by `readRise`. */
export function riseText({ by, each }: Rise): string {
  return by.n === 0 ? "none" : `${decimalText(by)} each ${each} phrase${each === 1 ? "" : "s"}`;
}

/** The tempo of a phrase (from 1) of a rung, in beats per minute; the outro keeps that of the last phrase. Throws `RangeError` when the settings have no tempo. */
export function tempoInPhrase(settings: Pick<Settings, "tempo" | "rise">, phrase: number): Fraction {
  const tempo = readTempo(settings.tempo);
  if (tempo === undefined) throw new RangeError(`not a tempo: ${settings.tempo}`);
  const rise = settings.rise === undefined ? undefined : readRise(settings.rise);
  return rise === undefined ? tempo : add(tempo, multiply(rise.by, fraction(Math.floor((phrase - 1) / rise.each))));
}

/** The tempi of a rung, each with the phrase (from 1) in which it begins: one where nothing rises. */
export function tempiOf(
  settings: Pick<Settings, "tempo" | "rise">,
  phrases: number,
): readonly { readonly phrase: number; readonly tempo: Fraction }[] {
  const tempi = [{ phrase: 1, tempo: tempoInPhrase(settings, 1) }];
  for (let phrase = 2; phrase <= phrases; phrase++) {
    const tempo = tempoInPhrase(settings, phrase);
    if (compare(tempo, tempi.at(-1)!.tempo) !== 0) tempi.push({ phrase, tempo });
  }
  return tempi;
}
