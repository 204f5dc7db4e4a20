import type { Curriculum } from "../curriculum/index.js";
import { rungs, settingsText } from "../drill/index.js";
import { type Scribe, write } from "./scribe.js";
import { drillStanding, isCompleted } from "./standing.js";

/** Opens every drill that is closed and whose needs are all complete, in the curriculum's order; gives their names. */
export function openDrills(curriculum: Curriculum, scribe: Scribe): readonly string[] {
  const opened: string[] = [];
  for (const drill of curriculum.drills) {
    if ((drillStanding(scribe.standing, drill.name)?.state ?? "closed") !== "closed") continue;
    if (!drill.needs.every((need) => isCompleted(scribe.standing, need))) continue;
    const first = settingsText(rungs(drill).at(0).settings);
    write(scribe, { kind: "drill opened", drill: drill.name, to: first, needs: [...drill.needs] });
    opened.push(drill.name);
  }
  return opened;
}
