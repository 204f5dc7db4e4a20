import { type Result, success } from "../../../base/index.js";
import { type Input, listenToTaps, openPlayer, type Player } from "../../../browser/index.js";
import type { Student } from "../state/students.js";

let player: Player | undefined;

/** The one player of the page, made when something is to sound for the first time: browsers want a press of a button before that. */
export async function thePlayer(): Promise<Player> {
  player ??= openPlayer();
  return player;
}

/** Opens the input that a student chose. Taps are taken on the pad, and from keys. */
export async function openInput(_student: Student, player: Player, pad: HTMLElement): Promise<Result<Input>> {
  return success(listenToTaps(player.clock, { target: pad }));
}
