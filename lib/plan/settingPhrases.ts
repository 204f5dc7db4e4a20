import type { Phrase } from "../base/index.js";
import { say } from "./say.js";

/** A rung's settings text as phrases: "tempo 84", "variant plain"; none without settings. */
export function settingPhrases(settings: string): readonly Phrase[] {
  if (settings === "") return [];
  return settings.split(",").map((setting) => {
    const [parameter, ...value] = setting.split("=");
    return say("plan.setting", { parameter: parameter!, value: value.join("=") }).message;
  });
}
