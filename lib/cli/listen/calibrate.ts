import { Option } from "commander";
import {
  CAUTIONS,
  CLICK_CAUTION,
  failure,
  type Problem,
  placedUnder,
  problemsOf,
  type Result,
  resultOf,
} from "../../base/index.js";
import { type CalibrationWay, calibrationSound, findOnsets, type Latency, latencyFrom } from "../../listen/index.js";
import { writeWhole } from "../../node/index.js";
import { fileCodes } from "../codes.js";
import type { Act, AddCommand } from "../command.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellCautions, tellProblems } from "../outcome.js";
import { offText } from "../output/offText.js";
import { plain } from "../output/printableText.js";
import { sayProblem } from "../say.js";
import { keepDevice } from "../takes/deviceStore.js";
import { openSound } from "../takes/takeSource.js";

const problem = problemsOf(fileCodes);

export interface CalibrationOptions {
  /** Name for the device. */
  readonly device?: string;
  readonly by: CalibrationWay;
  /** File for the clicks to play. */
  readonly clicks?: string;
}

/** Beside every answer about the clicks. */
const LOUDNESS = [CLICK_CAUTION, ...CAUTIONS];

/** Adds `calibrate` to the program. */
export function calibrateCommand(command: AddCommand, act: Act): void {
  command("calibrate", "how late a device records, kept under its name for --device")
    .argument("[RECORDING...]", "recordings of the clicks, each begun together with them")
    .option("--device <NAME>", "what to call the device")
    .option("--clicks <FILE>", "write the clicks to play, as WAV, and measure nothing")
    .addOption(
      new Option("--by <WAY>", "loop: its output led to its input; clap: somebody clapped along")
        .choices(["loop", "clap"])
        .default("loop"),
    )
    .addHelpText("after", `\n${LOUDNESS.join("\n")}\n`)
    .action((recordings: readonly string[], options: CalibrationOptions) =>
      act((setting) => calibration(setting, recordings, options)),
    );
}

/** `leeway calibrate --clicks FILE` writes the clicks to play; `leeway calibrate --device NAME RECORDING...` measures the latency of a device by recordings of them. */
async function calibration(
  setting: Setting,
  recordings: readonly string[],
  { device, by, clicks }: CalibrationOptions,
): Promise<Outcome> {
  if (clicks !== undefined && recordings.length === 0) {
    const written = await writeWhole(clicks, calibrationSound({ words: setting.words }));
    if (!written.ok) return refuse(setting, written.problems);
    tellCautions(setting, LOUDNESS);
    return DONE;
  }
  if (device === undefined || device.trim() === "" || recordings.length === 0 || clicks !== undefined) {
    const message = sayProblem("cli-problem.calibration-unclear");
    const remedy = sayProblem("cli-problem.calibration-unclear-remedy");
    return refuse(setting, [problem("CALIBRATION_UNCLEAR", message, {}, remedy)]);
  }
  const measured = await measure(setting, recordings, by);
  if (!measured.ok) return refuse(setting, measured.problems);
  const kept = await keepDevice(device, { ...measured.value, by, measured: setting.terminal.now() });
  if (!kept.ok) return refuse(setting, kept.problems);
  const { latencyMs, latencyStandardErrorMs, onsets } = measured.value;
  if (setting.json)
    printJson(setting, {
      device,
      by,
      ...measured.value,
      ...(measured.advice.length > 0 && { advice: measured.advice }),
    });
  else {
    tellProblems(setting, measured.advice);
    const { words } = setting;
    const off = offText(latencyMs, words, 1);
    const error = latencyStandardErrorMs.toFixed(1);
    setting.terminal.print(`${plain(words.say("cli.records", { device, off, error, onsets: String(onsets) }))}\n`);
  }
  return DONE;
}

async function measure(setting: Setting, recordings: readonly string[], by: CalibrationWay): Promise<Result<Latency>> {
  const heard: (readonly number[])[] = [];
  const problems: Problem[] = [];
  for (const recording of recordings) {
    const sound = await openSound(recording, setting.terminal);
    if (!sound.ok) {
      problems.push(...sound.problems);
      continue;
    }
    const { onsets } = await findOnsets(sound.value.open(), { family: "percussive" });
    heard.push(onsets.map(({ at }) => at));
    problems.push(...sound.value.problems());
  }
  if (problems.some(({ severity }) => severity === "error")) return failure(...problems);
  const latency = latencyFrom(heard, { way: by });
  if (latency.ok) return resultOf(latency.value, problems);
  const where = recordings.length === 1 ? recordings[0] : undefined;
  return failure(...problems, ...latency.problems.map((each) => placedUnder(each, "", where)));
}
