import type { Words } from "../../words/index.js";
import { PARAMETERS } from "./settings.js";

/**
 * A rung's settings text in words: "dropout 1/2 bar, tempo 96"; empty for the only rung of a drill without ladders. Values stand as the course writes them.
 *
 * @example wordSettings("dropout=1/2 bar,tempo=96", words) // "dropout 1/2 bar, tempo 96"
 */
export function wordSettings(settings: string, { say }: Pick<Words<"setting">, "say">): string {
  if (settings === "") return "";
  return say("setting.all", {
    settings: settings.split(",").map((setting) => {
      const [name = "", ...values] = setting.split("=");
      // What is no setting came from elsewhere: it stands as it is.
      if (values.length === 0) return setting;
      const parameter = PARAMETERS.find((known) => known === name) ?? "other";
      return say("setting.one", { parameter, name, value: values.join("=") });
    }),
  });
}
