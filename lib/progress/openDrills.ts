import type { Curriculum } from "../curriculum/index.js";
import { rungs, settingsText } from "../drill/index.js";
import { type EventWriter, writeEvent } from "./journal/event/writer.js";

/** Opens every closed drill whose needed drills are all complete, in the order of the curriculum. Gives the names of the opened drills. */
export function openDrills(curriculum: Curriculum, writer: EventWriter): readonly string[] {
  const opened: string[] = [];
  const held = new Map(writer.standing.drills.map((each) => [each.drill, each]));
  for (const drill of curriculum.drills) {
    if ((held.get(drill.name)?.state ?? "closed") !== "closed") continue;
    // Opening a drill completes none.
    if (!drill.needs.every((need) => held.get(need)?.completed !== undefined)) continue;
    const first = settingsText(rungs(drill).at(0).settings);
    writeEvent(writer, { kind: "drill opened", drill: drill.name, to: first, needs: [...drill.needs] });
    opened.push(drill.name);
  }
  return opened;
}
