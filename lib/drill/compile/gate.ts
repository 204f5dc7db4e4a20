import type { GateDocument, GoBackDocument, SequentialDocument } from "../../schema/index.js";
import type { Gate, GoBack } from "../model.js";
import { say } from "../say.js";
import type { Collector } from "./collector.js";

/** Default of the schema: the gate of a drill. Our choice: one take beyond tolerance in four does not hold the student. */
const USUAL_GATE: Gate = { kind: "clean of last", clean: 3, of: 4 };

const USUAL_WRONGLY_LET_ON = "5 %";

const USUAL_WRONGLY_HELD = "10 %";

/** Error rates must be below one half: a decision by chance is right half of the time. */
const LARGEST_ERROR_RATE = 0.5;

/** Compiles a gate: what a student must show to leave a rung; `undefined` when it cannot be read. */
export function compileGate(document: GateDocument | undefined, found: Collector): Gate | undefined {
  if (document === undefined) return USUAL_GATE;
  const { clean, of, sequential } = document;
  const row = document["in-a-row"];
  const forms = [clean !== undefined || of !== undefined, row !== undefined, sequential !== undefined];
  if (forms.filter(Boolean).length !== 1 || (clean === undefined) !== (of === undefined)) {
    const keys = Object.keys(document);
    const message = keys.length === 0 ? say("drill-problem.gate-form-none") : say("drill-problem.gate-form", { keys });
    const remedy = say("drill-problem.write-for-instance", { example: "{ clean: 3, of: 4 }" });
    found.add("GATE_FORM", message, "/gate", remedy);
    return undefined;
  }
  if (sequential !== undefined) return compileSequential(sequential, found);
  if (row !== undefined) {
    if (row >= 1) return { kind: "in a row", count: row };
    const message = say("drill-problem.gate-cannot-be-met-in-a-row", { found: row });
    found.add("GATE_CANNOT_BE_MET", message, "/gate/in-a-row");
    return undefined;
  }
  if (clean! >= 1 && clean! <= of!) return { kind: "clean of last", clean: clean!, of: of! };
  const message = say("drill-problem.gate-cannot-be-met", { of: of!, found: clean! });
  const remedy =
    clean! >= 1
      ? say("drill-problem.gate-cannot-be-met-remedy", { clean: String(Math.max(1, of!)), of: String(clean) })
      : say("drill-problem.write", { text: `clean: ${Math.max(1, of! - 1)}` });
  found.add("GATE_CANNOT_BE_MET", message, "/gate/clean", remedy);
  return undefined;
}

/** Compiles the rule for going back; `undefined` when there is none or it cannot be read. */
export function compileGoBack(document: GoBackDocument | undefined, found: Collector): GoBack | undefined {
  if (document === undefined) return undefined;
  const written = document.by ?? "1 rung";
  const match = /^(\d{1,6})(?: rungs?)?$/.exec(written.trim());
  if (!match) {
    const message = say("drill-problem.go-back-not-read", { found: JSON.stringify(written.slice(0, 40)) });
    const remedy = say("drill-problem.write-for-instance", { example: "1 rung" });
    found.add("GO_BACK_NOT_READ", message, "/go-back/by", remedy);
    return undefined;
  }
  const by = Number(match[1]);
  if (by < 1) {
    const message = say("drill-problem.go-back-goes-nowhere", { found: by });
    found.add("GO_BACK_GOES_NOWHERE", message, "/go-back/by", say("drill-problem.write", { text: "1 rung" }));
  }
  if (document.after < 1) {
    const message = say("drill-problem.go-back-goes-nowhere-after", { found: document.after });
    const remedy = say("drill-problem.write-for-instance", { example: "3" });
    found.add("GO_BACK_GOES_NOWHERE", message, "/go-back/after", remedy);
  }
  return by < 1 || document.after < 1 ? undefined : { after: document.after, by };
}

function compileSequential(document: SequentialDocument, found: Collector): Gate | undefined {
  const share = (key: keyof SequentialDocument, fallback = ""): number | undefined =>
    readShare(document[key] ?? fallback, { pointer: `/gate/sequential/${key}`, below: 1, found });
  const rate = (key: keyof SequentialDocument, fallback: string): number | undefined =>
    readShare(document[key] ?? fallback, { pointer: `/gate/sequential/${key}`, below: LARGEST_ERROR_RATE, found });
  const able = share("able");
  const unready = share("unready");
  const wronglyLetOn = rate("wrongly-let-on", USUAL_WRONGLY_LET_ON);
  const wronglyHeld = rate("wrongly-held", USUAL_WRONGLY_HELD);
  if (able === undefined || unready === undefined || wronglyLetOn === undefined || wronglyHeld === undefined)
    return undefined;
  if (able > unready) return { kind: "sequential", able, unready, wronglyLetOn, wronglyHeld };
  const message = say("drill-problem.gate-cannot-be-met-sequential", {
    able: document.able,
    unready: document.unready,
  });
  const remedy = say("drill-problem.gate-cannot-be-met-sequential-remedy");
  found.add("GATE_CANNOT_BE_MET", message, "/gate/sequential/able", remedy);
  return undefined;
}

interface ShareQuestion {
  readonly pointer: string;
  /** A share must be above 0 and below this. */
  readonly below: number;
  readonly found: Collector;
}

function readShare(written: string, { pointer, below, found }: ShareQuestion): number | undefined {
  const match = /^(\d{1,3}(?:\.\d{1,6})?)\s*%$/.exec(written.trim());
  const share = Number(match?.[1]) / 100;
  if (match && share > 0 && share < below) return share;
  const message = say("drill-problem.gate-share-not-read", {
    below: below * 100,
    found: JSON.stringify(written.slice(0, 40)),
  });
  const example = pointer.endsWith("/able") ? "85 %" : pointer.endsWith("/unready") ? "50 %" : "10 %";
  found.add("GATE_SHARE_NOT_READ", message, pointer, say("drill-problem.write-for-instance", { example }));
  return undefined;
}
