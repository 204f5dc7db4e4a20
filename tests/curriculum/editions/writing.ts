import { type Curriculum, compareEditions, type DrillChange } from "../../../lib/curriculum/index.js";
import { courseFrom, courseText, HOLD } from "../courses.js";

export interface Writing {
  readonly ladders?: readonly string[];
  readonly extra?: string;
  readonly name?: string;
  readonly edition?: string;
}

/** A course of one drill with silences, over what its ladders say. */
export function edition({ ladders = [], extra = "", name = "fall", edition = "1.0.0" }: Writing): Curriculum {
  const climbs = (parameter: string): boolean => ladders.some((ladder) => ladder.includes(`${parameter}:`));
  const drill = `  ${name}:
    pattern: riff
    student: lead
    dropout: { parts: [kit, bass]${climbs("dropout") ? "" : ", length: 1 bar"} }
${climbs("tempo") ? "" : "    tempo: 90\n"}${climbs("variant") ? "" : "    variant: plain\n"}    tolerance: { drift: 30 % }
    ladders: [${ladders.map((ladder) => `{ ${ladder} }`).join(", ")}]
${extra}`;
  return courseFrom(courseText({ drills: HOLD + drill }).replace("edition: 1.0.0", `edition: ${edition}`));
}

/** What an edition does to the drill of another. */
export const change = (old: Writing, now: Writing): DrillChange =>
  compareEditions(edition(old), edition(now)).drills.find((each) => each.drill === (old.name ?? "fall"))!;
