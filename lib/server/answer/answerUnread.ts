import { STATUS_CODES } from "node:http";
import type { Duplex } from "node:stream";
import { serverProblem } from "../codes.js";
import { sayProblem } from "../say.js";
import { problemAnswer } from "./problemAnswer.js";
import { setStrict } from "./setStrict.js";

/** What is answered to what is no request, so that a refusal has one shape at every depth; the log has no number for it. Problem: REQUEST_NOT_READ. */
export function unreadAnswer(): Response {
  const message = sayProblem("server-problem.request-not-read");
  const remedy = sayProblem("server-problem.request-not-read-remedy");
  const answer = problemAnswer({ problems: [serverProblem("REQUEST_NOT_READ", message, {}, remedy)] });
  setStrict(answer.headers);
  return answer;
}

/** Writes that answer on a connection that Node gave up reading, and closes it. */
export async function answerUnread(socket: Duplex): Promise<void> {
  if (!socket.writable) return void socket.destroy();
  const answer = unreadAnswer();
  const body = await answer.text();
  const headers = [...answer.headers, ["content-length", `${Buffer.byteLength(body)}`], ["connection", "close"]];
  const head = [`HTTP/1.1 ${answer.status} ${STATUS_CODES[answer.status]}`, ...headers.map((each) => each.join(": "))];
  socket.end(`${head.join("\r\n")}\r\n\r\n${body}`);
}
