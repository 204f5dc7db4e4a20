import type { Problem } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, rungs } from "../../drill/index.js";
import { type Words, wordSettings } from "../../words/index.js";
import type { Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { problemText } from "../output/problemText.js";
import { slipsShown, toldText } from "../output/slipsShown.js";

/** The summary of a course, for JSON. */
export function summary(course: Curriculum): object {
  const drills = course.drills.map((drill) => ({ drill: drill.name, rungs: rungs(drill).count, needs: drill.needs }));
  return { curriculum: course.name, edition: course.edition, drills };
}

/** The problems and the summary of a course, as text. */
export function printReport(
  { terminal, sources, words, explained }: Setting,
  file: string,
  { course, problems }: { readonly course: Curriculum | undefined; readonly problems: readonly Problem[] },
): void {
  for (const each of problems)
    terminal.print(problemText(each, { sources, colour: terminal.colours.print, words, explained }));
  const hidden = course?.drills.flatMap((drill) => hiddenSlips(drill, words)) ?? [];
  if (hidden.length > 0) terminal.print(`${hidden.join("")}  ${words.say("cli.slips-remedy")}\n`);
  const errors = problems.filter((each) => each.severity === "error").length;
  const advice = problems.length - errors;
  const found = words.say("cli.problems", { count: errors });
  const given = words.say("cli.pieces-of-advice", { count: advice });
  const both = advice === 0 ? found : words.say("cli.found", { problems: found, advice: given });
  const said =
    course === undefined
      ? words.say("cli.checked", { file, found: both })
      : words.say("cli.checked-course", {
          file,
          found: both,
          course: course.name,
          edition: course.edition,
          drills: { key: "cli.drills", parameters: { count: course.drills.length } },
        });
  terminal.print(`${plain(said)}\n`);
}

/** Slips of a beat or less that takes without pitch cannot show, a line for each drill that has some. */
function hiddenSlips(drill: Drill, words: Words): string[] {
  const rows = slipsShown(drill).flatMap(({ rungs, slips }) => {
    const sizes = slips.filter(({ beats, logOdds }) => beats <= 1 && toldText(logOdds) === "not told");
    return sizes.length === 0
      ? []
      : [
          words.say("cli.hidden-slips-in", {
            settings: wordSettings(rungs, words),
            beats: sizes
              .map(({ beats }) => String(beats))
              .reduce((first, second) => words.say("cli.both", { first, second })),
          }),
        ];
  });
  if (rows.length === 0) return [];
  return [`${plain(words.say("cli.hidden-slips", { drill: drill.name, where: rows.join("; ") }))}\n`];
}
