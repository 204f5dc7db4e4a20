/**
 * How exactly the player of a browser sounds over ten minutes while its page is busy for 150 ms of every 200, and for 400 ms once: its own output is recorded by
 * a worklet, and each stroke sought in it. In real time, in Chromium; LEEWAY_MINUTES shortens it.
 */
import { isThere, serve } from "../browser/chromium.js";
import { score } from "../browser/simulatedStudent.js";

const MINUTES = Number(process.env.LEEWAY_MINUTES ?? 10);
const APART = 0.75;

if (isThere) await measure();

async function measure(): Promise<void> {
  const kit = score.parts.find(({ name }) => name === "kit")!;
  const stroke = kit.notes.find(({ voice }) => voice === "snare")!;
  const count = Math.floor((60 * MINUTES) / APART);
  const notes = Array.from({ length: count }, (_, i) => ({ ...stroke, at: i * APART }));
  const strokes = { ...score, duration: count * APART, dropouts: [], parts: [{ ...kit, notes }] };
  const served = await serve({
    script: "player.ts",
    scripts: { "/recorder.js": "tests/browser/pages/recorder.worklet.ts" },
  });
  const { off, unrecorded, damage, rate, loading } = await served.call<{
    readonly off: readonly number[];
    readonly unrecorded: number;
    readonly damage: readonly string[];
    readonly rate: number;
    readonly loading: number;
  }>("playBusily", strokes, { blocked: 150, every: 200, seconds: 60 * MINUTES });
  await served.close();
  const frames = off.map(Math.abs);
  const worst = Math.max(...frames);
  console.log("| minutes | strokes | not recorded | farthest off | off by more than a frame | told | sounds made in |");
  console.log("|---|---|---|---|---|---|---|");
  console.log(
    `| ${MINUTES} | ${off.length} | ${unrecorded} | ${((1000 * worst) / rate).toFixed(3)} ms | ${frames.filter((each) => each > 1).length} | ${[...new Set(damage)].join(", ") || "nothing"} | ${loading.toFixed(0)} ms |`,
  );
}
