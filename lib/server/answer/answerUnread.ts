import { STATUS_CODES } from "node:http";
import type { Duplex } from "node:stream";
import { serverProblem } from "../codes.js";
import { sayProblem } from "../say.js";
import { problemAnswer } from "./problemAnswer.js";
import { setStrict } from "./setStrict.js";

/** What is answered to what never became a request, so that a refusal has one shape at every depth; the log has no number for it. */
export function unreadAnswer(code: "REQUEST_NOT_READ" | "REQUEST_LATE"): Response {
  const of = code === "REQUEST_LATE" ? "server-problem.request-late" : "server-problem.request-not-read";
  const problem = serverProblem(code, sayProblem(of), {}, sayProblem(`${of}-remedy`));
  const answer = problemAnswer({ problems: [problem] });
  setStrict(answer.headers);
  return answer;
}

/** Answers on a connection that Node gave up reading, and closes it. Problems: REQUEST_LATE, which may be sent again; REQUEST_NOT_READ. */
export async function answerUnread(error: NodeJS.ErrnoException, socket: Duplex): Promise<void> {
  if (!socket.writable) return void socket.destroy();
  const answer = unreadAnswer(error.code === "ERR_HTTP_REQUEST_TIMEOUT" ? "REQUEST_LATE" : "REQUEST_NOT_READ");
  const body = await answer.text();
  const headers = [...answer.headers, ["content-length", `${Buffer.byteLength(body)}`], ["connection", "close"]];
  const head = [`HTTP/1.1 ${answer.status} ${STATUS_CODES[answer.status]}`, ...headers.map((each) => each.join(": "))];
  socket.end(`${head.join("\r\n")}\r\n\r\n${body}`);
}
