import type { Phrase } from "../base/index.js";
import type { MessageParameters } from "./generated/parameters.js";
import type { Words } from "./words.js";

type Parameter = MessageParameters["setting.one"]["parameter"];

/** The settings that have a name for people: all that the message knows, or this does not compile. */
const NAMED: Readonly<Record<Exclude<Parameter, "other">, true>> = {
  dropout: true,
  key: true,
  mix: true,
  open: true,
  parts: true,
  rise: true,
  tempo: true,
  variant: true,
};

function isNamed(name: string): name is keyof typeof NAMED {
  return Object.hasOwn(NAMED, name);
}

/**
 * A rung's settings text in words: "silence 1/2 bar, tempo 96"; empty for the only rung of a drill without ladders. Values stand as the course writes them, growing silences shortened.
 *
 * @example
 * const loaded = await loadWords("en");
 * loaded.ok && wordSettings("dropout=1/2 bar,tempo=96", loaded.value) // "silence 1/2 bar, tempo 96"
 */
export function wordSettings(settings: string, { say }: Pick<Words<"setting">, "say">): string {
  return settings === "" ? "" : say("setting.all", { settings: settingPhrases(settings) });
}

/**
 * A rung's settings text as part of a sentence, a phrase for each; none without settings. Who words the sentence needs the topic `setting`.
 *
 * @example settingPhrases("").length // 0
 */
export function settingPhrases(settings: string): readonly (string | Phrase)[] {
  if (settings === "") return [];
  return settings.split(",").map((setting) => {
    const [name = "", ...values] = setting.split("=");
    // What is no setting came from elsewhere: it stands as it is.
    if (values.length === 0) return setting;
    const parameter: Parameter = isNamed(name) ? name : "other";
    const value = values.join("=");
    // Silences that grow inside a take are told from where to where; the rest is left to the settings text.
    const told = name === "dropout" ? value.replace(/ by .+/, "") : value;
    return { key: "setting.one", parameters: { parameter, name, value: told } };
  });
}
