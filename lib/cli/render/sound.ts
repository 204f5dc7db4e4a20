import { type Problem, type Result, success } from "../../base/index.js";
import { type BatchProgress, renderBatch } from "../../node/index.js";
import { fileBeside } from "../input/courseFile.js";
import type { Setting } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { makersOf } from "./makersOf.js";
import type { ManifestFile } from "./manifest.js";
import { type RenderOptions, type RenderPlan, renderJobs, SOUNDS } from "./plan.js";

/** Characters of the progress bar; our choice, half of a narrow terminal. */
const BAR = 30;

/** The sound files of a plan, on all cores; an interrupt (Ctrl-C) leaves whole files only, and the same command then continues. */
export async function soundFiles(
  setting: Setting,
  plan: RenderPlan,
  options: RenderOptions,
): Promise<Result<readonly ManifestFile[]>> {
  const formats = SOUNDS.filter((format) => options.as.includes(format));
  if (formats.length === 0) return success([]);
  const files: ManifestFile[] = [];
  const advice = new Map<string, Problem>();
  const interrupt = new AbortController();
  const stop = (): void => interrupt.abort();
  process.once("SIGINT", stop);
  try {
    for (const as of formats) {
      for (const planned of plan.drills) {
        const jobs = renderJobs(plan, planned);
        if (!jobs.ok) return jobs;
        const onProgress = progressLine(setting, `${planned.drill.name} ${as}`);
        const { out: folder, bank, loudness } = options;
        const made = await renderBatch(jobs.value, {
          folder,
          as,
          bank,
          ...(loudness === undefined ? {} : { loudness }),
          makers: makersOf(plan.course),
          words: setting.words,
          recordings: (file) => fileBeside(plan.file, file),
          onProgress,
          signal: interrupt.signal,
          // A drill of fewer phrases has a loop of all of them.
          loop: options.loop === undefined ? undefined : Math.min(options.loop, planned.drill.phrases),
        });
        if (setting.terminal.colours.tell) setting.terminal.tell("\r\u001b[K");
        if (!made.ok) return made;
        for (const each of made.advice) advice.set(each.message, each);
        files.push(
          ...made.value.files.map(({ file, bytes, sha256, drill, rung, mix }) => ({
            file,
            bytes,
            sha256,
            format: as,
            drill,
            rung,
            mix,
          })),
        );
      }
    }
  } finally {
    process.removeListener("SIGINT", stop);
  }
  return success(files, [...advice.values()]);
}

/** A progress line on the terminal, with the time left as far as can be told; nothing when standard error is a file or a pipe. */
export function progressLine(
  { terminal, words }: Pick<Setting, "terminal" | "words">,
  what: string,
): (progress: Pick<BatchProgress, "done" | "total" | "kept">) => void {
  const begun = performance.now();
  return ({ done, total, kept }) => {
    if (!terminal.colours.tell) return;
    const filled = Math.round((BAR * done) / total);
    const progress = { done: String(done), total: String(total) };
    const left = secondsLeft(performance.now() - begun, { made: done - kept, left: total - done });
    const told =
      left === undefined
        ? words.say("cli.progress", progress)
        : words.say("cli.progress-left", { ...progress, left: clockText(left) });
    terminal.tell(`\r\u001b[K${plain(what)} ${"█".repeat(filled)}${"░".repeat(BAR - filled)} ${told}`);
  };
}

/** Seconds that the rest will take at the pace so far; `undefined` before something was made. */
export function secondsLeft(
  elapsedMs: number,
  { made, left }: { readonly made: number; readonly left: number },
): number | undefined {
  return made > 0 && left > 0 ? (elapsedMs / 1000 / made) * left : undefined;
}

/** "2:05" for 125 seconds. */
function clockText(seconds: number): string {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
