import { type Command, Option } from "commander";
import { INSTRUMENT_FAMILIES } from "../../listen/index.js";
import { milliseconds, seconds, wholeNumber } from "./optionValues.js";

/** Adds the options for reading takes of every kind. */
export function takeOptions(command: Command): Command {
  return hearingOptions(command)
    .addOption(new Option("--zero <Z>", "what time 0 of a take is").choices(["count-in", "bar-1"]))
    .option("--latency-ms <MS>", "known delay of the recording", milliseconds)
    .option("--track <N>", "MIDI: only this track, from 1", wholeNumber(1))
    .option("--channel <N>", "MIDI: only this channel, 1 to 16", wholeNumber(1, 16));
}

/** Adds the options for listening to recordings. */
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
