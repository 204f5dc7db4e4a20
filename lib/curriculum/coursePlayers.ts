import { problemInside } from "../base/index.js";
import { askedOf, type Drill, octaveRemedy, octavesIn } from "../drill/index.js";
import { nearestOctave } from "../pattern/index.js";
import { pointerTo } from "../schema/index.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import type { WholeDocument } from "./wellFormed.js";

/** Moves a problem with a player to the players of the course, where a drill without players of its own has them from. */
export function withCoursePlayers(problem: Problem, drill: string): Problem {
  const inDrill = pointerTo(["drills", drill]);
  const { pointer = "" } = problem.where;
  if (!pointer.startsWith(`${inDrill}/players/`)) return problem;
  // An unknown name is the same problem in every drill; a range depends on what the drill has played.
  const named =
    problem.code === "INSTRUMENT_UNKNOWN"
      ? problem
      : problemInside(problem, (sentence) => say("curriculum-problem.in-drill", { drill, problem: sentence }));
  return { ...named, where: { ...problem.where, pointer: pointer.slice(inDrill.length) } };
}

/**
 * A problem with the range of a player of the course, with a remedy that holds for the course: the octave of the part in which the player reaches
 * every drill that has its players from the course; where there is none, players of its own for a drill that one octave suits. Other
 * problems, and what no octave mends, as they are.
 */
export function octaveForCourse(found: Problem, document: WholeDocument, drills: readonly Drill[]): Problem {
  const at = /^\/players\/(\d+)$/.exec(found.where.pointer ?? "")?.[1];
  const { drill: name } = found.words?.message?.parameters ?? {};
  const players = document.players ?? [];
  const using = drills.filter((drill) => document.drills[drill.name]?.players === undefined);
  const own = using.find((drill) => drill.name === name);
  if (at === undefined || own === undefined || own.players.length !== players.length) return found;
  const octaveIn = (within: readonly Drill[], i: number): number | undefined => {
    const octaves = within.flatMap((drill) => octavesIn(drill, askedOf(drill.players[i]!, players[i])) ?? []);
    const least = Math.max(...octaves.map((each) => each.least));
    const most = Math.min(...octaves.map((each) => each.most));
    return nearestOctave({ least, most }, own.players[i]!.octave);
  };
  const i = Number(at);
  const inAll = octaveIn(using, i);
  if (inAll === undefined && octaveIn([own], i) === undefined) return found;
  const texts = players.map((player, k) => playerText(player, octaveIn(using, k) ?? octaveIn([own], k)));
  const { says, message } =
    inAll === undefined
      ? say("curriculum-problem.players-of-drill-remedy", { drill: own.name, text: `players: [${texts.join(", ")}]` })
      : octaveRemedy(inAll, own.players[i]!.octave);
  return { ...found, remedy: says, words: { ...found.words, remedy: message } };
}

/** A player as it stands in a list of a course, in another octave where one is given. */
function playerText(player: NonNullable<WholeDocument["players"]>[number], moved: number | undefined): string {
  const { instrument, octave = 0, range = "full" } = typeof player === "string" ? { instrument: player } : player;
  const name = /^\p{L}[\p{L}\p{N} -]*$/u.test(instrument) ? instrument : JSON.stringify(instrument);
  const written = [
    ...((moved ?? octave) === 0 ? [] : [`octave: ${moved ?? octave}`]),
    ...(range === "full" ? [] : [`range: ${range}`]),
  ];
  return written.length === 0 ? name : `{ instrument: ${name}, ${written.join(", ")} }`;
}
