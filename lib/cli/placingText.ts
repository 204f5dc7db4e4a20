import { isCompleted, rungs, type Standing, scoreOf, settingsText } from "../index.js";
import type { Placing } from "../plan/index.js";
import { plain } from "./plain.js";
import { nextText } from "./standingText.js";

/** How far finding a student's rung has come: what to play next, or where the student begins and what is still to be shown. */
export function placingText(
  placing: Placing,
  { student, standing, isSet }: { readonly student: string; readonly standing: Standing; readonly isSet: boolean },
): string {
  const { drill, rung, done, says } = placing;
  const head = `${plain(student)} in ${plain(drill.name)}: ${plain(says)}\n`;
  const { mix } = scoreOf(rung);
  if (!done) {
    const settings = settingsText(rung.settings).replaceAll(",", ", ").replaceAll("=", " ");
    const place = `rung ${rung.index} of 0 to ${rungs(drill).count - 1}`;
    return `${head}  play: ${plain(settings)} (${place}, mix ${plain(mix)})\n`;
  }
  const unmet = drill.needs.filter((need) => !isCompleted(standing, need));
  const lines = [
    isSet
      ? "  begins there; what was played to find it is no evidence for its gate"
      : "  is there already; nothing was changed",
    ...(unmet.length === 0 ? [] : [`  the drill needs ${plain(unmet.join(", "))}, which is not complete yet`]),
  ];
  return `${head}${lines.map((line) => `${line}\n`).join("")}${nextText(standing)}`;
}
