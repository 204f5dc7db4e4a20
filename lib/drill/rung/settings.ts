import { failure, nearestName, resultOf, success, type Worded } from "../../base/index.js";
import { keyText, parseKey } from "../../pattern/index.js";
import { decimalText, parseTempo } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import type { Parameter, Settings } from "../model.js";
import { parsePartsInTake, partsInTakeText } from "../partsInTake.js";
import type { Problem, Result } from "../problem.js";
import { parseSilenceLengths, silenceLengthsText } from "../silenceLengths.js";
import { say } from "./saySetting.js";

/** The parameters that ladders can change, in the order in which settings are written. */
export const PARAMETERS: readonly Parameter[] = ["dropout", "key", "mix", "open", "parts", "tempo", "variant"];

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

/** The canonical text of a value; names of variants and mixes stay as they are. */
export function canonicalSetting(parameter: Parameter, value: string): Result<string> {
  switch (parameter) {
    case "dropout": {
      const lengths = parseSilenceLengths(value);
      return lengths.ok ? success(silenceLengthsText(lengths.value)) : lengths;
    }
    case "tempo": {
      const tempo = parseTempo(value);
      if (tempo.ok && tempo.value.beat !== undefined)
        return notRead(say("setting-problem.setting-not-read-tempo", { found: quoted(value) }));
      return tempo.ok ? success(decimalText(tempo.value.perMinute)) : tempo;
    }
    case "key": {
      const key = parseKey(value);
      return key.ok ? success(keyText(key.value)) : key;
    }
    case "parts":
      return success(partsInTakeText(parsePartsInTake(value)));
    case "open": {
      if (value === "none") return success(value);
      const bars = value.split("+").map((bar) => bar.trim());
      if (bars.every((bar) => /^[1-9]\d{0,5}$/.test(bar))) return success(openText(bars.map(Number)));
      return notRead(say("setting-problem.setting-not-read-open", { found: quoted(value) }));
    }
    case "mix":
    case "variant":
      return value === ""
        ? notRead(say("setting-problem.setting-not-read-name", { parameter, found: quoted(value) }))
        : success(value);
  }
}

/** Open bars as a setting: ascending, each once, joined by "+"; "none" when there are none. */
export function openText(bars: readonly number[]): string {
  return bars.length === 0 ? "none" : [...new Set(bars)].sort((a, b) => a - b).join("+");
}

/** The bars of an `open` setting; none when the setting is absent. */
export function openBarsOf(settings: Partial<Settings>): readonly number[] {
  return settings.open === undefined || settings.open === "none" ? [] : settings.open.split("+").map(Number);
}

function notRead(message: Worded): Result<never> {
  return failure(drillProblem("SETTING_NOT_READ", message));
}

function quoted(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 40)}...` : text);
}
