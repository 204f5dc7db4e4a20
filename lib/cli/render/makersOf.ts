import type { Curriculum } from "../../curriculum/index.js";
import { titleOf } from "../../drill/index.js";
import type { Makers } from "../../render/sound/index.js";

/** Who made a course, with its title and those of its drills, for the labels of its files. */
export function makersOf({ title, imprint, drills }: Curriculum): Makers {
  return { ...imprint, course: title, drills: Object.fromEntries(drills.map((drill) => [drill.name, titleOf(drill)])) };
}
