import { beatsOver } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import { cautionsIn, type Words } from "../../words/index.js";
import { phrasesOf } from "../chart/phrases.js";
import { listed } from "../chart/words.js";
import { capital, silencesHeard } from "../phrases.js";
import { isDemonstration } from "./frames.js";
import { barOfRiff } from "./riffPlaces.js";
import { phraseAt } from "./screenAt.js";

/** What a film says. */
export type FilmWords = Words<"chart" | "instrument" | "setting" | "sound" | "sheet" | "value" | "caution">;

/** A stretch of a film with a name: the count-in, a phrase, the outro. */
export interface FilmChapter {
  readonly title: string;
  /** Seconds from the beginning of the film. */
  readonly from: number;
  readonly to: number;
}

/** How long before a silence its caption appears, seconds; our choice: time to read two lines. */
const AHEAD = 5;

/** The chapters of a film of a score, one after the other: it lasts `length` seconds, and bar 1 begins `lead` seconds into it. */
export function filmChapters(
  score: Score,
  { lead, length, words }: { readonly lead: number; readonly length: number; readonly words: FilmWords },
): readonly FilmChapter[] {
  const phrases = phrasesOf(score).map(({ number, from }) => ({
    title: capital(phraseName(score, number, words)),
    from: lead + from,
  }));
  const begun = score.countIn > 0 ? [{ title: capital(words.say("sound.count-in")), from: 0 }, ...phrases] : phrases;
  return begun.map(({ title, from }, i) => ({
    title,
    from: i === 0 ? 0 : from,
    to: begun[i + 1]?.from ?? length,
  }));
}

/** The chapter that a phrase of a take is, from 1: "phrase 2", "outro". */
function phraseName(score: Score, number: number, { say }: FilmWords): string {
  const isOutro = phrasesOf(score).some((phrase) => phrase.number === number && phrase.isOutro);
  return isOutro ? say("chart.outro") : say("chart.phrase", { number });
}

/** A time as the sheet of the film shows it: "bar 2, beat 3" of the riff, and of which phrase where that is another than phrase `of`. */
function placeOnSheet(
  score: Score,
  at: number,
  { of, words }: { readonly of: number; readonly words: FilmWords },
): string {
  const { say } = words;
  const bar = barOfRiff(score, at);
  if (bar === undefined) return say("chart.seconds", { seconds: Math.round(10 * at) / 10 });
  const place = say("chart.place", { bar: bar.number, beat: 1 + beatsOver(score, bar.from, at) });
  const phrase = phraseAt(score, at);
  return phrase === of ? place : say("sound.place-in-phrase", { phrase: phraseName(score, phrase, words), place });
}

/**
 * The captions of a film of a score as a WebVTT file (W3C): the count-in, and for each silence who falls silent, when they come back, in bars of the riff as
 * the sheet numbers them, and that the student plays on. In a silence no caption comes or goes. The cautions are a note at its head. Bar 1 begins `lead` seconds into the film.
 */
export function captionsText(
  score: Score,
  { lead, words }: { readonly lead: number; readonly words: FilmWords },
): string {
  const { say } = words;
  const beats = Math.round(score.countIn / score.beat);
  const cues = score.countIn > 0 ? [{ from: 0, to: lead, text: say("chart.count-in", counted(beats)) }] : [];
  const who = isDemonstration(score) ? "demonstration" : "student";
  let free = 0;
  for (const { from, to, parts, silent, landing } of silencesHeard(score)) {
    const stretch = say("chart.stretch", {
      sounds: silent ? "nothing" : "some",
      parts: listed(parts, words),
      from: placeOnSheet(score, from, { of: phraseAt(score, from), words }),
      to: placeOnSheet(score, to, { of: phraseAt(score, from), words }),
      end: landing === null ? "stays" : "returns",
    });
    const appears = Math.min(from, Math.max(free, from - AHEAD));
    cues.push({ from: lead + appears, to: lead + to, text: `${stretch}\n${say("sound.play-on", { who })}` });
    free = to;
  }
  const note = `NOTE\n${cautionsIn(words).map(asCaption).join("\n")}\n`;
  const written = cues.map(({ from, to, text }) => `${clock(from)} --> ${clock(to)}\n${asCaption(text)}\n`);
  return ["WEBVTT\n", note, ...written].join("\n");
}

function counted(count: number): { readonly count: number; readonly shown: string } {
  return { count, shown: String(count) };
}

/** A time stamp of WebVTT: hours, minutes, seconds, thousandths. */
function clock(seconds: number): string {
  const whole = Math.round(1000 * seconds);
  const two = (value: number): string => String(Math.floor(value)).padStart(2, "0");
  const thousandths = String(whole % 1000).padStart(3, "0");
  return `${two(whole / 3_600_000)}:${two((whole / 60_000) % 60)}:${two((whole / 1000) % 60)}.${thousandths}`;
}

/** The text of a cue: what would be markup is escaped, and no line is empty, which would end it. */
function asCaption(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll(/\n{2,}/g, "\n");
}
