import { type Curriculum, readCurriculum } from "../../../lib/curriculum/index.js";
import type { Drill } from "../../../lib/drill/index.js";
import { beginJournal, decide, placeByTeacher } from "../../../lib/progress/index.js";
import type { Finding, Standing } from "../../../lib/schema/index.js";
import type { Luck } from "../../reference/players/luck.js";
import type { Material } from "../../reference/players/materials.js";
import { must } from "../../time/shorthand.js";

/** Findings of takes that were truly clean, and of takes that were not. */
export interface Pool {
  readonly clean: readonly Finding[];
  readonly failed: readonly Finding[];
}

/** A rung whose drill never sends a student back: what a gate's curve is about. */
export interface GateRung {
  readonly curriculum: Curriculum;
  readonly drill: Drill;
  readonly standing: Standing;
}

const AT = "2026-03-02T17:30:00Z";

/** A student placed on the material's rung, in the shipped course with its rules for going back left out. */
export function gateRung({ source, score }: Material): GateRung {
  const withoutGoBack = source.replaceAll(/^ *go-back:.*\n/gm, "");
  const curriculum = must(readCurriculum(withoutGoBack, { file: "course.yaml", readFile: () => undefined }));
  const { standing } = beginJournal(curriculum, "tern", AT);
  const placed = must(placeByTeacher(curriculum, standing, { drill: score.drill, rung: score.rung, at: AT }));
  return { curriculum, drill: curriculum.drills.find(({ name }) => name === score.drill)!, standing: placed.standing };
}

/**
 * After how many takes a student is let on whose takes are truly clean with chance `p`, each drawn from the pool; Infinity when not within `most` takes.
 */
export function takesUntilLetOn(
  { curriculum, standing }: GateRung,
  pool: Pool,
  { p, most, luck }: { p: number; most: number; luck: Luck },
): number {
  const stream = luck("student");
  const draw = (findings: readonly Finding[]): Finding => findings[stream.below(findings.length)]!;
  let now = standing;
  for (let take = 1; take <= most; take++) {
    const finding = stream.uniform() < p ? draw(pool.clean) : draw(pool.failed);
    const decision = decide(curriculum, now, { ...finding, take: `take ${take}` }, AT);
    if (decision.what === "not counted") throw new Error(JSON.stringify(decision.problems));
    if (decision.what === "advance" || decision.what === "complete") return take;
    now = decision.standing;
  }
  return Infinity;
}
