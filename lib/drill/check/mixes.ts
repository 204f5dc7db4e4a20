import { pointerTo } from "../../schema/index.js";
import { doesIn } from "../mix.js";
import type { Mix, Settings } from "../model.js";
import { say } from "../say.js";
import { type CheckContext, partsInForce, valuesInForce } from "./context.js";

/** Checks the mixes: in each some part is heard, each part that a mix has drop is a dropping part of some rung, and in the mixes of takes the whole accompaniment falls silent. */
export function checkMixes({ drill, found }: CheckContext): void {
  const tempo = "60";
  const dropout = valuesInForce(drill, "dropout")[0];
  const settings: Settings = dropout === undefined ? { tempo } : { tempo, dropout };
  const dropping = partsInForce(drill).map(
    (parts): Settings => (parts === undefined ? settings : { ...settings, parts }),
  );
  const measured = valuesInForce(drill, "mix").map((name) => name ?? drill.mixes[0]!.name);
  for (const mix of drill.mixes) {
    const pointer = pointerTo(["mixes", mix.name]);
    const does = dropping.map((one) => doesIn(drill, mix, one));
    if (does.every((parts) => [...parts.values()].every((doing) => doing === "off"))) {
      const message = say("drill-problem.mix-leaves-nothing-to-play-to", { mix: mix.name });
      const remedy = say("drill-problem.mix-leaves-nothing-to-play-to-remedy");
      found.add("MIX_LEAVES_NOTHING_TO_PLAY_TO", message, pointer, remedy);
      continue;
    }
    if (dropout === undefined) continue;
    checkContradiction({ mix, dropping, student: drill.student }, (part) => {
      const message = say("drill-problem.mix-contradicts-dropout", { mix: mix.name, part });
      const remedy = say("drill-problem.mix-contradicts-dropout-remedy", { part });
      found.add("MIX_CONTRADICTS_DROPOUT", message, pointerTo(["mixes", mix.name, part]), remedy);
    });
    const playing = does.map((parts) => [...parts].filter(([, doing]) => doing === "plays").map(([part]) => part));
    if (measured.includes(mix.name) && playing.every((parts) => parts.length > 0)) {
      const parts = [...new Set(playing.flat())];
      const message = say("drill-problem.dropout-never-silent", { mix: mix.name, parts });
      const remedy = say("drill-problem.dropout-never-silent-remedy", { parts });
      found.add("DROPOUT_NEVER_SILENT", message, pointer, remedy);
    }
  }
}

interface Contradiction {
  readonly mix: Mix;
  readonly dropping: readonly Settings[];
  readonly student: string;
}

function checkContradiction({ mix, dropping, student }: Contradiction, tell: (part: string) => void): void {
  for (const [part, does] of Object.entries(mix.parts)) {
    const ever = dropping.some(({ parts }) => parts === undefined || parts.split("+").includes(part));
    if (does === "drops" && part !== student && !ever) tell(part);
  }
}
