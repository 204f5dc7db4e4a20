import { failure, nearestName, resultOf, success, type Worded } from "../../base/index.js";
import { keyPlaceText, parseKeyPlace, readKeyPlace } from "../../pattern/index.js";
import { decimalText, parseTempo, readTempo } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import type { Parameter, Settings } from "../model.js";
import { parsePartsInTake, partsInTakeText } from "../partsInTake.js";
import type { Problem, Result } from "../problem.js";
import { readRise, riseText } from "../rise.js";
import { parseSilenceLengths, readSilenceLengths, silenceLengthsText } from "../silenceLengths.js";
import { say } from "./saySetting.js";

/** The parameters that ladders can change, in the order in which settings are written. */
export const PARAMETERS: readonly Parameter[] = ["dropout", "key", "mix", "open", "parts", "rise", "tempo", "variant"];

/**
 * The identity of a rung: all its settings as `name=value`, sorted by name and joined by commas. Equal settings have equal texts.
 *
 * @example settingsText({ tempo: "96", dropout: "1/2 bar", variant: "plain" }) // "dropout=1/2 bar,tempo=96,variant=plain"
 */
export function settingsText(settings: Partial<Settings>): string {
  return PARAMETERS.filter((parameter) => settings[parameter] !== undefined)
    .map((parameter) => `${parameter}=${settings[parameter]}`)
    .join(",");
}

/**
 * Reads settings in any order, blanks around names and values allowed, and brings each value into canonical form: "2/4 bar" becomes
 * "1/2 bar", "96.0" becomes "96". The empty text has no settings.
 *
 * Problems: SETTING_NOT_READ, SETTING_UNKNOWN, SETTING_TWICE; `where.offset` is the place in `text`.
 * @example parseSettings("tempo=96.0, dropout=2/4 bar") // { ok: true, value: { tempo: "96", dropout: "1/2 bar" }, ... }
 */
export function parseSettings(text: string): Result<Partial<Settings>> {
  const problems: Problem[] = [];
  const settings: { -readonly [P in Parameter]?: string } = {};
  let offset = 0;
  for (const piece of text.trim() === "" ? [] : text.split(",")) {
    const where = { offset };
    offset += piece.length + 1;
    const [name = "", ...values] = piece.split("=");
    const parameter = PARAMETERS.find((known) => known === name.trim());
    if (values.length !== 1) {
      const message = say("setting-problem.setting-not-read", { found: quoted(piece) });
      problems.push(drillProblem("SETTING_NOT_READ", message, where));
    } else if (parameter === undefined) {
      const nearest = nearestName(name.trim(), PARAMETERS);
      const message = say("setting-problem.setting-unknown", { parameters: PARAMETERS, found: quoted(name) });
      const remedy = nearest === undefined ? undefined : say("setting-problem.write", { text: nearest });
      problems.push(drillProblem("SETTING_UNKNOWN", message, where, remedy));
    } else if (settings[parameter] !== undefined) {
      problems.push(drillProblem("SETTING_TWICE", say("setting-problem.setting-twice", { parameter }), where));
    } else {
      const value = canonicalSetting(parameter, values[0]!.trim());
      if (value.ok) settings[parameter] = value.value;
      else problems.push(...value.problems.map((problem) => ({ ...problem, where })));
    }
  }
  return resultOf(settings as Partial<Settings>, problems);
}

/** The same, without a word on why a text says none. */
export function readSettings(text: string): Partial<Settings> | undefined {
  const settings: { -readonly [P in Parameter]?: string } = {};
  for (const piece of text.trim() === "" ? [] : text.split(",")) {
    const [name = "", written, ...more] = piece.split("=");
    const parameter = PARAMETERS.find((known) => known === name.trim());
    if (parameter === undefined || written === undefined || more.length > 0) return undefined;
    const value = readSetting(parameter, written.trim());
    if (value === undefined || settings[parameter] !== undefined) return undefined;
    settings[parameter] = value;
  }
  return settings as Partial<Settings>;
}

/** The canonical text of a value; names of variants and mixes stay as they are. */
export function canonicalSetting(parameter: Parameter, value: string): Result<string> {
  if (parameter === "key") {
    const place = parseKeyPlace(value);
    return place.ok ? success(keyPlaceText(place.value)) : place;
  }
  const read = readSetting(parameter, value);
  return read === undefined ? unreadSetting(parameter, value) : success(read);
}

function readSetting(parameter: Parameter, value: string): string | undefined {
  switch (parameter) {
    case "dropout": {
      const lengths = readSilenceLengths(value);
      return lengths && silenceLengthsText(lengths);
    }
    case "tempo": {
      const perMinute = readTempo(value);
      return perMinute && decimalText(perMinute);
    }
    case "rise": {
      const rise = readRise(value);
      return rise && riseText(rise);
    }
    case "key": {
      const place = readKeyPlace(value);
      return place && keyPlaceText(place);
    }
    case "parts":
      return partsInTakeText(parsePartsInTake(value));
    case "open": {
      if (value === "none") return value;
      const bars = value.split("+").map((bar) => bar.trim());
      return bars.every((bar) => /^[1-9]\d{0,5}$/.test(bar)) ? openText(bars.map(Number)) : undefined;
    }
    case "mix":
    case "variant":
      return value === "" ? undefined : value;
  }
}

/** Why a text is no value of the parameter. */
function unreadSetting(parameter: Parameter, value: string): Result<never> {
  const found = quoted(value);
  if (parameter === "open") return notRead(say("setting-problem.setting-not-read-open", { found }));
  const read =
    parameter === "dropout" ? parseSilenceLengths(value) : parameter === "tempo" ? parseTempo(value) : undefined;
  if (read?.ok === false) return read;
  if (parameter === "rise") return notRead(say("setting-problem.setting-not-read-rise", { found }), riseRemedy(value));
  return parameter === "tempo"
    ? notRead(say("setting-problem.setting-not-read-tempo", { found }))
    : notRead(say("setting-problem.setting-not-read-name", { parameter: parameter as "mix", found }));
}

/** Open bars as a setting: ascending, each once, joined by "+"; "none" when there are none. */
export function openText(bars: readonly number[]): string {
  return bars.length === 0 ? "none" : [...new Set(bars)].sort((a, b) => a - b).join("+");
}

/** The bars of an `open` setting; none when the setting is absent. */
export function openBarsOf(settings: Partial<Settings>): readonly number[] {
  return settings.open === undefined || settings.open === "none" ? [] : settings.open.split("+").map(Number);
}

/** A rise is meant by a number with a unit, or a range; else an example is given. */
function riseRemedy(value: string): Worded {
  const by =
    /^\+?(-?\d{1,3}(?:\.\d{1,6})?)\s*(?:bpm|beats?)?(?:\s*(?:each|every|per|\/)\s*([1-9]\d?)?\s*phrases?)?$/i.exec(
      value.trim(),
    );
  const each = by?.[2] === undefined ? "phrase" : `${by[2]} phrases`;
  const text = by === null ? "4 each 2 phrases" : `${by[1]} each ${each}`;
  return say("setting-problem.write", { text: Number(by?.[1]) === 0 ? "none" : text });
}

function notRead(message: Worded, remedy?: Worded): Result<never> {
  return failure(drillProblem("SETTING_NOT_READ", message, {}, remedy));
}

function quoted(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}...` : text);
}
