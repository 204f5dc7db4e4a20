import { openPlayer, type Player } from "../../../browser/index.js";

let player: Player | undefined;

/** The one player of the page, made when something is to sound for the first time: browsers want a press of a button before that. */
export async function thePlayer(): Promise<Player> {
  player ??= openPlayer();
  return player;
}
