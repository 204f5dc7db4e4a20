import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, settingsText } from "../../lib/drill/index.js";
import { type NamedTake, scoreFor } from "../../lib/practice/index.js";

/** A small course of the quay: two drills, the second opens after the first; takes of a few notes. */
export interface QuaySketch {
  readonly edition?: string;
  readonly first?: string;
  readonly formerly?: string;
  readonly tempi?: string;
  readonly gate?: string;
}

export function quay(sketch: QuaySketch = {}): Curriculum {
  const read = readCurriculum(quayText(sketch), { file: "quay.yaml", readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems, undefined, 1));
  return read.value;
}

/** The course as it is written. */
export function quayText({
  edition = "1.0.0",
  first = "steady",
  formerly,
  tempi = "{ from: 90, to: 102, by: 4 }",
  gate = "{ clean: 2, of: 3 }",
}: QuaySketch = {}): string {
  return `
curriculum: quay
edition: ${edition}
title: On the quay
patterns:
  bollard:
    meter: 4/4
    bars: 2
    key: D dorian
    parts:
      kit: { voices: { snare: x---x---x---x--- | same } }
      lead: { variants: { plain: { notes: "1/4 D4 F4 G4 A4 | same" } } }
drills:
  ${first}:
    pattern: bollard
    student: lead
    phrases: 2
    dropout: { length: 1 bar, parts: [kit] }
    ${formerly === undefined ? "" : `formerly: ${formerly}`}
    ladders: [{ tempo: ${tempi} }]
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, steadiness: 45 ms }
    gate: ${gate}
    go-back: { after: 2 }
  later:
    pattern: bollard
    student: lead
    phrases: 2
    needs: [${first}]
    dropout: { length: 1 bar, parts: [kit] }
    ladders: [{ tempo: { from: 96, to: 100, by: 4 } }]
    mixes: { play: { lead: off } }
    tolerance: { drift: 8 %, steadiness: 45 ms }
    gate: ${gate}
    go-back: { after: 2 }
`;
}

export interface Playing {
  readonly id: string;
  readonly drill: string;
  /** The settings of the rung. */
  readonly rung: string;
  /** `late`: every note of the silence further behind. `nothing`: an empty take. */
  readonly how: "in time" | "late" | "nothing";
}

/** A take of a rung of a course, played as said. */
export function playTo(course: Curriculum, { id, drill: name, rung: text, how }: Playing): NamedTake {
  const drill = course.drills.find((each) => each.name === name)!;
  const all = rungs(drill);
  const rung = Array.from({ length: all.count }, (_, i) => all.at(i)).find((r) => settingsText(r.settings) === text)!;
  const score = scoreFor(course, rung);
  const onsets = score.expected.map(({ at }, i) => {
    const scatter = [4, -6, 7, -5, 2, -3][i % 6]! / 1000;
    const silence = score.dropouts.find(({ from, to }) => at >= from && at <= to);
    const late = how === "late" && silence !== undefined ? (at - silence.from) * 0.16 : 0;
    return at + scatter + late;
  });
  return { id, drill: name, rung: text, zero: "bar-1", onsets: how === "nothing" ? [] : onsets };
}
