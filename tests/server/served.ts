import { mkdtempSync, rmSync } from "node:fs";
import { request as httpRequest } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import createClient, { type Client } from "openapi-fetch";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { digestOf } from "../../lib/server/access/digestOf.js";
import type { Hearing } from "../../lib/server/hearing/openHearing.js";
import { openSchool, type Seen, type ServeOptions, schoolDocument, serveSchool } from "../../lib/server/index.js";
import type { Limits, School } from "../../lib/server/model.js";
import type { OperationId } from "../../lib/server/operations/operationId.js";
import { OPERATIONS } from "../../lib/server/operations/operations.js";
import type { Store } from "../../lib/store/index.js";
import { openSqlite } from "../../lib/store/sqlite/index.js";
import { quay } from "../practice/quay.js";
import type { paths } from "./api.js";

/** A school that is served on a port of its own, with what a test needs of it. */
export interface Served {
  readonly address: string;
  /** Where it is on this machine, whatever address people use. */
  readonly loopback: string;
  readonly file: string;
  readonly store: Store;
  readonly course: Curriculum;
  readonly school: School;
  readonly log: readonly Seen[];
  /** What the clock of the server says. */
  clock: string;
  /** Invites somebody, who comes in by a token. */
  readonly bring: (
    name: string,
    of: { readonly role: "teacher" | "student"; readonly className: string },
  ) => Promise<string>;
  /** A client of whoever has this token, or of nobody. */
  readonly client: (token?: string) => Client<paths>;
  readonly close: () => Promise<void>;
}

export interface ServedOptions {
  readonly limits?: Partial<Limits>;
  readonly wrap?: (store: Store) => Store;
  readonly serve?: Partial<ServeOptions>;
  readonly courses?: readonly Curriculum[];
  /** Whoever hears recordings, in threads that this process cannot start by itself. */
  readonly hearing?: Hearing;
}

/** Every exchange with a served school, as operation and status; none is left unjudged. */
export const exchanges: Set<string> = new Set();

const document = schoolDocument("0.0.0") as unknown as {
  readonly paths: Record<string, Record<string, { operationId: string; responses: Record<string, unknown> }>>;
  readonly components: object;
};

/** A school of the quay: class "monday" with teacher avocet and student tern, and class "friday" with teacher dunlin and student knot. */
export async function servedSchool({ limits, wrap, serve, courses, hearing }: ServedOptions = {}): Promise<Served> {
  const folder = mkdtempSync(join(tmpdir(), "leeway-school-"));
  const file = join(folder, "school.sqlite");
  const opened = await openSqlite(file, { create: true });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const store = wrap?.(opened.value) ?? opened.value;
  const course = courses?.[0] ?? quay();
  const log: Seen[] = [];
  const state = { clock: "2026-09-01T08:00:00.000Z" };
  const opening = openSchool({
    store,
    courses: courses ?? [course],
    consent: "Kept: the name you choose, and when notes began.",
    now: () => new Date(state.clock),
    ...(limits && { limits }),
  });
  const school = hearing === undefined ? opening : { ...opening, hearing };
  const served = await serveSchool(school, { version: "0.0.0", log: (seen) => log.push(seen), ...serve });
  const { register } = opened.value;
  let count = 0;
  return {
    address: served.loopback,
    loopback: served.loopback,
    file,
    store: opened.value,
    course,
    school,
    log,
    get clock() {
      return state.clock;
    },
    set clock(at: string) {
      state.clock = at;
    },
    bring: async (name, { role, className }) => {
      await register!.beginClass({ name: className, curriculum: course.name });
      const secret = `secret-of-${name}-${count++}`;
      await register!.invite({ digest: digestOf(secret), className, role, name, until: "2040-01-01T00:00:00Z" });
      const { data, error } = await clientOf(served.loopback).POST("/api/invitations/accept", {
        body: { secret, as: "token" },
      });
      if (data?.token === undefined) throw new Error(JSON.stringify(error));
      return data.token;
    },
    client: (token) => clientOf(served.loopback, token),
    close: async () => {
      await served.close();
      await opened.value.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function clientOf(address: string, token?: string): Client<paths> {
  return createClient<paths>({
    baseUrl: address,
    fetch: judgedFetch,
    ...(token === undefined ? {} : { headers: { authorization: `Bearer ${token}` } }),
  });
}

/** Asks, and throws unless the answer is one that the document foresees, of the shape it says. */
export async function judgedFetch(request: Request): Promise<Response> {
  const { method, url } = request;
  return judged(method, url, await fetch(request));
}

/** Asks an operation under the name of another host, which only a client of one's own can do. */
export function askAs(
  address: string,
  host: string,
  { id, token }: { readonly id: OperationId; readonly token: string },
): Promise<Response> {
  const { method, path } = OPERATIONS[id];
  const url = `${address}${path.replaceAll(/[{}]/g, "")}`;
  return new Promise((resolve, reject) => {
    const headers = { host, authorization: `Bearer ${token}` };
    const asked = httpRequest(url, { method: method.toUpperCase(), headers }, async (answer) => {
      const pieces: Buffer[] = [];
      for await (const piece of answer) pieces.push(piece as Buffer);
      const got = { status: answer.statusCode!, headers: answer.headers as Record<string, string> };
      judged(method, url, new Response(Buffer.concat(pieces), got)).then(resolve, reject);
    });
    asked.once("error", reject).end();
  });
}

async function judged(method: string, url: string, answer: Response): Promise<Response> {
  const operation = operationAt(method, new URL(url).pathname);
  if (operation === undefined) return answer;
  exchanges.add(`${operation.operationId} ${answer.status}`);
  const said = operation.responses[answer.status] as { readonly content?: Record<string, unknown> } | undefined;
  if (said === undefined)
    throw new Error(`${operation.operationId} answers ${answer.status}, which the document lacks`);
  const type = (answer.headers.get("content-type") ?? "").split(";")[0]!;
  const types = Object.keys(said.content ?? {});
  if (type !== (types[0] ?? "")) throw new Error(`${operation.operationId} ${answer.status}: ${type}, not ${types}`);
  if (type.endsWith("json")) {
    const place = [operation.at, operation.method, "responses", `${answer.status}`, "content", type, "schema"];
    const pointer = ["paths", ...place].map((each) =>
      encodeURIComponent(each.replaceAll("~", "~0").replaceAll("/", "~1")),
    );
    const validate = compiled(`school#/${pointer.join("/")}`);
    const value: unknown = await answer.clone().json();
    if (!validate(value))
      throw new Error(`${operation.operationId} ${answer.status}: ${JSON.stringify(validate.errors?.slice(0, 3))}`);
  }
  return answer;
}

const ajv = new Ajv2020({ strict: false, validateFormats: false }).addSchema({ $id: "school", ...document });
function compiled(place: string) {
  return ajv.getSchema(place) ?? ajv.compile({ $ref: place });
}

function operationAt(method: string, path: string) {
  const asked = path.split("/");
  for (const [template, operations] of Object.entries(document.paths)) {
    const parts = template.split("/");
    const fits = parts.length === asked.length && parts.every((part, i) => part.startsWith("{") || part === asked[i]);
    const found = fits ? operations[method.toLowerCase()] : undefined;
    if (found !== undefined) return { ...found, at: template, method: method.toLowerCase() };
  }
  return undefined;
}
