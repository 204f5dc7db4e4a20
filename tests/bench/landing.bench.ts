/**
 * The landing: what is said of players whose truth is known, by laws and habits written apart from the library (tests/reference/players), on rungs of all shipped
 * courses with their own tolerances. Every row plays the same takes with pitches and without.
 *
 * `npm run bench -- landing` is a look of less than a minute of processor time; `LEEWAY_SILENCES=800 npm run bench -- landing` gives figures to quote. `LEEWAY_SEED`
 * changes the luck, `LEEWAY_ROWS` (a regular expression) chooses rows by name, `HELD_OUT=yes` runs the kind of player that is kept for the end.
 */
import { materials, openMaterial } from "../reference/players/materials.js";
import { printAbsentTable } from "./landing/absentTable.js";
import { printDisplacedTable } from "./landing/displacedTable.js";
import { printDrummersTable } from "./landing/drummersTable.js";
import { printForeignTable } from "./landing/foreignTable.js";
import { printGuidedTable } from "./landing/guidedTable.js";
import { printHonestTable } from "./landing/honestTable.js";
import { printLawTable } from "./landing/lawTable.js";
import { printOutTable } from "./landing/outTable.js";
import { SIZE } from "./landing/size.js";
import { printTapsTable } from "./landing/tapsTable.js";

const rungs = materials();
const started = process.cpuUsage();
console.log(
  `seed ${SIZE.seed}, ${SIZE.silences} silences or more in each row, rows ${SIZE.rows.source}, held-out kind ${SIZE.heldOut ? "run" : "not run"}`,
);
console.log(`rungs: ${rungs.map(({ name, score }) => `${name} (${score.drill}, ${score.rung})`).join("; ")}`);
console.log("grades seasoned, able, novice take turns; shares with Wilson's 95 % interval");
printOutTable(rungs);
printDisplacedTable(rungs);
printAbsentTable(rungs);
printHonestTable(rungs, "Players in time: silences truly in, per cent of n [95 %]");
printHonestTable([openMaterial()], "Players in time, open bar (the player improvises in the silence)");
printLawTable(rungs);
printForeignTable(rungs);
printGuidedTable();
printDrummersTable();
printTapsTable();
const { user, system } = process.cpuUsage(started);
console.log(`\n${((user + system) / 1e6).toFixed(0)} s of processor time`);
