import { doesIn, type Rung } from "../../../drill/index.js";
import type { Words } from "../../../words/index.js";

/** Whether takes of a mix are the student's own: in all others their part sounds, to be listened to. */
export function counts({ drill, settings }: Rung, name: string): boolean {
  const mix = drill.mixes.find((each) => each.name === name);
  return mix === undefined || doesIn(drill, mix, settings).get(drill.student) === "off";
}

/** What is heard in a mix, and whether a take of it counts. */
export function mixHint(rung: Rung, name: string, words: Words): string {
  const { drill, settings } = rung;
  const mix = drill.mixes.find((each) => each.name === name) ?? drill.mixes[0]!;
  const parts = [...doesIn(drill, mix, settings)].filter(([part]) => part !== drill.student);
  const heard = parts.filter(([, does]) => does !== "off").map(([part]) => part);
  const dropping = parts.filter(([, does]) => does === "drops").map(([part]) => part);
  const own = counts(rung, name) ? "yours" : "plays";
  const first = heard.length === 0 ? words.say("page.hear-nothing") : words.say("page.you-hear", { parts: heard });
  const second = dropping.length === 0 ? [] : [words.say("page.parts-drop", { parts: dropping })];
  return [first, ...second, words.say("page.riff-is", { own })].join(" ");
}
