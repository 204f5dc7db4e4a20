/** A school's backend on Node and PostgreSQL: `node backend.mjs COURSE.yaml DATABASE`. Takes sent again, or on two servers at once, count once. */
import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import { readCurriculum, settingsText } from "leeway";
import { enrol, openStudent, scoreFor, submit } from "leeway/practice";
import { checkTake } from "leeway/schema";
import { isStoreProblem } from "leeway/store";
import { openPostgres } from "leeway/store/postgres";

const [, , file, database] = process.argv;
const course = required(readCurriculum(readFileSync(file, "utf8"), { file, readFile: () => undefined }));
const store = required(await openPostgres(database, { create: true }));

const server = createServer(async (request, response) => {
  const [status, answer] = await respond(request).catch((error) => {
    // A full disk or a server that is gone: the app may ask again. The rest is our own mistake.
    if (isStoreProblem(error)) return [503, { problems: [error.problem] }];
    // What is no JSON, or no address, is the app's.
    if (error instanceof SyntaxError || error instanceof URIError) return [400, {}];
    console.error(error);
    return [500, {}];
  });
  response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(answer));
});
server.listen(0, "127.0.0.1", () => console.log(server.address().port));

async function respond(request) {
  const [, student, what] = request.url.split("/").map(decodeURIComponent);
  const at = new Date().toISOString();
  if (request.method === "PUT") return told(await enrol(store, student, { course, at }));
  if (request.method === "GET") {
    const opened = await openStudent(store, student, { course });
    if (!opened.ok) return told(opened);
    const open = opened.value.open.map(({ drill, rung }) => {
      return { drill: drill.name, rung: settingsText(rung.settings), score: scoreFor(course, rung) };
    });
    return [200, { open }];
  }
  if (what !== "takes") return [404, {}];
  const take = checkTake(JSON.parse(await textOf(request)));
  return told(take.ok ? await submit(store, student, take.value, { course, at }) : take);
}

function told(result) {
  return result.ok ? [200, result.value] : [422, { problems: result.problems }];
}

function required(result) {
  if (!result.ok) throw new Error(result.problems.map(({ code, message }) => `${code}: ${message}`).join("\n"));
  return result.value;
}

async function textOf(request) {
  const pieces = [];
  for await (const piece of request) pieces.push(piece);
  return Buffer.concat(pieces).toString();
}
