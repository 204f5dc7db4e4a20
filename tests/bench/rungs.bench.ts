/** How long a drill takes to open and to find its way about, by the number of its rungs: it should not matter. */
import { type Drill, findRung, rungs, scoreOf, settingsText } from "../../lib/drill/index.js";
import { compiled, drillOf, jetty } from "../drill/material.js";
import { processorMs } from "./clock.js";

const TIMES = 500;
const lengths = { dropout: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" } };
const tempi = (to: number, by: number): ReturnType<typeof jetty> =>
  jetty({ tempo: undefined, dropout: {}, ladders: [lengths, { tempo: { from: 60, to, by } }] });

function measure(document: ReturnType<typeof jetty>): Record<string, number> {
  const drill: Drill = drillOf(document);
  const all = rungs(drill);
  const middle = Math.floor(all.count / 2);
  const { settings } = all.at(middle);
  const text = settingsText(settings);
  const each = (job: () => void): number => processorMs(() => Array.from({ length: TIMES }, job)) / TIMES;
  return {
    rungs: all.count,
    "compileDrill()": each(() => void compiled(document)),
    "rungs() and at()": each(() => void rungs(drill).at(middle)),
    "indexOf()": each(() => void all.indexOf(settings)),
    "findRung()": each(() => void findRung(drill, text)),
    "scoreOf()": each(() => void scoreOf(all.at(middle))),
  };
}

const few = measure(tempi(62, 1));
const many = measure(tempi(309.999999, 0.000001));
console.log(`| ms each | ${few.rungs} rungs | ${many.rungs} rungs | ratio |\n|---|---|---|---|`);
for (const job of Object.keys(few).slice(1)) {
  console.log(
    `| ${job} | ${few[job]!.toFixed(4)} | ${many[job]!.toFixed(4)} | ${(many[job]! / few[job]!).toFixed(2)} |`,
  );
}
