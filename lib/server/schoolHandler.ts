import { readFileSync } from "node:fs";
import type { Addresses } from "./access/requireOrigin.js";
import type { FindFile } from "./answer/answerFile.js";
import type { School } from "./model.js";
import { type SchoolApp, schoolApp } from "./schoolApp.js";
import type { Seen } from "./watch/watch.js";

/** Where a school is reached, and what stands around it. */
export interface HandlerOptions {
  /** The address that people use: "https://school.example". With `https:` cookies are sent over TLS alone. Requests for other hosts are refused. */
  readonly address: string;
  /** Further addresses under which this machine is asked: "http://127.0.0.1:8420". */
  readonly local?: readonly string[];
  /** Origins of other sites whose scripts may ask with a token. */
  readonly allow?: readonly string[];
  /** Version for the OpenAPI document; that of leeway when left out. */
  readonly version?: string;
  /** Files of pages, by path: "/", "/app.js". One that is still being made is waited for. None when left out. */
  readonly files?: FindFile;
  /** Told of each request, without names. */
  readonly log?: (seen: Seen) => void;
}

/**
 * A school as a function from a request to its answer (Fetch API), for any server that speaks so; `from` is the address the request came from, by which those without a key are held to
 * how often they may ask. It never rejects. Throws `TypeError` when an address is none.
 *
 * @example
 * const handle = schoolHandler(openSchool({ store: school, courses: [course], consent: "Kept: the name you choose." }), { address: "https://school.example" });
 * (await handle(new Request("https://school.example/health", { headers: { host: "school.example" } }), "127.0.0.1")).status // 200
 */
export function schoolHandler(
  school: School,
  { address, local = [], allow = [], version, files = () => undefined, log = () => undefined }: HandlerOptions,
): SchoolApp {
  const own = [address, ...local].map((each) => new URL(each));
  const addresses: Addresses = {
    hosts: new Set(own.map(({ host }) => host)),
    own: new Set(own.map(({ origin }) => origin)),
    allowed: new Set(allow.map((each) => new URL(each).origin)),
  };
  const isSecure = own[0]!.protocol === "https:";
  return schoolApp(school, { addresses, isSecure, version: version ?? packageVersion(), files, log });
}

function packageVersion(): string {
  const text = readFileSync(new URL("../../package.json", import.meta.url), "utf8");
  return (JSON.parse(text) as { readonly version: string }).version;
}
