import { type Command, Option } from "commander";
import { hearingOptions } from "./listenCommands.js";
import { milliseconds, wholeNumber } from "./numbers.js";

/** Adds the options that say how to read takes, of whatever kind they are. */
export function takeOptions(command: Command): Command {
  return hearingOptions(command)
    .addOption(new Option("--zero <Z>", "what time 0 of a take is").choices(["count-in", "bar-1"]))
    .option("--latency-ms <MS>", "known delay of the recording", milliseconds)
    .option("--track <N>", "MIDI: only this track, from 1", wholeNumber(1))
    .option("--channel <N>", "MIDI: only this channel, 1 to 16", wholeNumber(1, 16));
}
