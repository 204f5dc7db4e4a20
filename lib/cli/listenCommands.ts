import { type Command, Option } from "commander";
import { INSTRUMENT_FAMILIES } from "../listen/index.js";
import { type CalibrationOptions, calibration } from "./calibration.js";
import { HEARD_AS, type ListeningOptions, listening } from "./listening.js";
import { seconds, wholeNumber } from "./numbers.js";
import type { Outcome, Setting } from "./outcome.js";

/** Narrowest and widest picture, px. */
const WIDTHS = [280, 2000] as const;

/** Adds the options that say how to listen to recordings. */
export function hearingOptions(command: Command): Command {
  return command
    .addOption(
      new Option("--family <F>", "recordings: how notes begin on the instrument; by the score when left out").choices([
        ...INSTRUMENT_FAMILIES,
      ]),
    )
    .option("--backing <FILE>", "recordings: the sound file that was played aloud; none with headphones")
    .option("--start <SECONDS>", "recordings without backing: when the count-in begins in it", seconds)
    .option("--device <NAME>", "the measured device that recorded (see calibrate)");
}

/** Adds `listen` and `calibrate` to the program; `act` is given what to do once the words are read. */
export function listenCommands(
  command: (name: string, description: string) => Command,
  act: (run: (setting: Setting) => Promise<Outcome>) => void,
): void {
  hearingOptions(command("listen", "when notes begin in a recording"))
    .argument("<FILE>", "WAV, FLAC, MP3, Ogg, M4A and others, or - for standard input")
    .addOption(new Option("--as <FORM>", "how to answer; json is a take").choices([...HEARD_AS]).default("text"))
    .option("--width <PX>", "svg: width of the picture", wholeNumber(...WIDTHS))
    .action((file: string, options: ListeningOptions) => act((setting) => listening(setting, file, options)));
  command("calibrate", "how late a device records, kept under its name for --device")
    .argument("[RECORDING...]", "recordings of the clicks, each begun together with them")
    .option("--device <NAME>", "what to call the device")
    .option("--clicks <FILE>", "write the clicks to play, as WAV, and measure nothing")
    .addOption(
      new Option("--by <WAY>", "loop: its output led to its input; clap: somebody clapped along")
        .choices(["loop", "clap"])
        .default("loop"),
    )
    .action((recordings: readonly string[], options: CalibrationOptions) =>
      act((setting) => calibration(setting, recordings, options)),
    );
}
