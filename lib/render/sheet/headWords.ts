import type { Drill } from "../../drill/index.js";
import { readingOf } from "../musicxml/index.js";
import { capital, keyName, swingText, tempoText } from "./drillText.js";
import type { HeaderWords } from "./header.js";
import { formPage, type Player } from "./riff/formPage.js";
import { formsOf } from "./riff/riffForms.js";

/** What stands at the head of the sheet of a drill for a player. */
export function headWords(drill: Drill, player: Player | undefined, course: string): HeaderWords {
  const form = formsOf(drill)[0]!;
  const page = formPage(drill, form, player);
  const written = keyName(readingOf(page.staves[0]!, page.key).key);
  const concert = keyName(page.key);
  const { swing } = drill.pattern;
  const isPercussion = page.staves[0]!.kind === "percussion";
  const facts = [
    drill.pattern.title ?? drill.pattern.name,
    isPercussion ? "" : written === concert ? written : `${written} (sounds ${concert})`,
    tempoText(drill),
    swing === undefined ? "" : swingText(swing),
  ];
  return {
    instrument:
      player === undefined || isPercussion
        ? capital(drill.student) + (isPercussion ? "" : ", at concert pitch")
        : capital(player.instrument.name),
    course,
    title: drill.title ?? drill.name,
    subtitle: facts.filter((fact) => fact !== "").join("   ·   "),
    about: drill.about ?? "",
  };
}
