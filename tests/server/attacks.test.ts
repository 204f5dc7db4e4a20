import { request as httpRequest } from "node:http";
import { connect } from "node:net";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Served, servedSchool } from "./served.js";

let school: Served;
let tern = "";
let session = "";

beforeAll(async () => {
  const page = { type: "text/html; charset=utf-8", bytes: new TextEncoder().encode("<!doctype html>") };
  school = await servedSchool({
    limits: { perMinute: 1e6 },
    serve: {
      files: (path) => (path === "/" ? page : undefined),
      allow: ["https://pier.example"],
      address: "https://school.example/",
    },
  });
  await school.bring("avocet", { role: "teacher", className: "monday" });
  tern = await school.bring("tern", { role: "student", className: "monday" });
  session = await school.bring("knot", { role: "student", className: "monday" });
});
afterAll(() => school.close());

interface Told {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | undefined>>;
  readonly code?: string;
}

/** Asks with a path and headers exactly as given, which `fetch` would set right. */
function ask(
  path: string,
  of: { readonly method?: string; readonly headers?: Record<string, string>; readonly body?: string } = {},
): Promise<Told> {
  const port = Number(new URL(loopback()).port);
  return new Promise((resolve, reject) => {
    const headers = { authorization: `Bearer ${tern}`, host: `127.0.0.1:${port}`, ...of.headers };
    const asked = httpRequest(
      { port, host: "127.0.0.1", path, method: of.method ?? "GET", headers },
      async (answer) => {
        const pieces: Buffer[] = [];
        for await (const piece of answer) pieces.push(piece as Buffer);
        const text = Buffer.concat(pieces).toString();
        const isProblem = answer.headers["content-type"] === "application/problem+json";
        const told = { status: answer.statusCode!, headers: answer.headers as Told["headers"] };
        resolve(isProblem ? { ...told, code: JSON.parse(text).code } : told);
      },
    );
    asked.once("error", reject).end(of.body);
  });
}

const loopback = (): string => school.loopback;
const STANDING = "/api/students/tern/courses/quay/standing";
const cookie = (): Record<string, string> => ({ authorization: "", cookie: `leeway=${session}` });
const json = { "content-type": "application/json" };

describe("a school refuses", () => {
  test("a name that is decoded twice", async () => {
    expect((await ask(STANDING)).status).toBe(200);
    expect((await ask(STANDING.replace("tern", "%74ern"))).status).toBe(200);
    expect((await ask(STANDING.replace("tern", "%2574ern"))).code).toBe("NOT_THERE");
  });

  test("a slash, a backslash, dots and zeros in a name that would lead elsewhere", async () => {
    for (const name of [
      "knot%2F..%2Ftern",
      "knot%5C..%5Ctern",
      "tern%00",
      "tern%0A",
      "tern%20",
      "%2E%2E%2Ftern",
      "%E0%A4%A",
      "TERN",
    ])
      expect([name, (await ask(STANDING.replace("tern", name))).status]).toEqual([name, 404]);
  });

  test("two slashes, dots and whole addresses as a path", async () => {
    for (const path of [
      `/${STANDING}`,
      STANDING.replace("/courses", "//courses"),
      "//gull.example/api/me",
      "/..%2f..%2fetc/passwd",
      "/api/%6de%",
    ])
      expect([path, (await ask(path)).code]).toEqual([path, "PATH_UNKNOWN"]);
    // A path goes up before anything is looked at, and asks for what it then says.
    expect((await ask(`/api/../api/me`)).status).toBe(200);
  });

  test("a method that an address does not take, and says which it does", async () => {
    const { code, status, headers } = await ask("/api/tokens", { method: "PATCH" });
    expect([code, status, headers.allow]).toEqual(["METHOD_REFUSED", 405, "GET, POST"]);
    expect((await ask("/api/me", { method: "TRACE" })).code).toBe("METHOD_REFUSED");
  });

  test("a body without a kind, as a form has it, or not in UTF-8", async () => {
    const invite = { method: "POST", body: '{"secret":"x"}' };
    expect((await ask("/api/invitations/show", invite)).code).toBe("MEDIA_TYPE_UNKNOWN");
    const form = { ...invite, headers: { "content-type": "text/plain" } };
    expect((await ask("/api/invitations/show", form)).code).toBe("MEDIA_TYPE_UNKNOWN");
    expect((await ask("/api/invitations/show", { ...invite, body: "{", headers: json })).code).toBe("BODY_NOT_JSON");
    const large = { ...invite, body: `"${"x".repeat(30_000)}"`, headers: json };
    expect((await ask("/api/invitations/show", large)).code).toBe("BODY_TOO_LARGE");
    expect((await ask("/api/me?a=1&a=2")).code).toBe("QUERY_REPEATED");
  });

  test("a change by a session that no own page sent", async () => {
    const made = { method: "POST" };
    for (const headers of [
      {},
      { origin: "null" },
      { origin: "https://gull.example" },
      { origin: "https://pier.example" },
      { origin: "https://school.example", "sec-fetch-site": "cross-site" },
    ])
      expect((await ask("/api/tokens", { ...made, headers: { ...cookie(), ...headers } as never })).code).toBe(
        "ORIGIN_FOREIGN",
      );
    expect(
      (await ask("/api/tokens", { ...made, headers: { ...cookie(), origin: "https://school.example" } })).status,
    ).toBe(201);
  });

  test("other sites, but for those that were let in, which get no cookie", async () => {
    const preflight = {
      method: "OPTIONS",
      headers: { origin: "https://gull.example", "access-control-request-method": "PUT" },
    };
    expect((await ask(STANDING, preflight)).headers["access-control-allow-origin"]).toBeUndefined();
    const headers = { origin: "https://pier.example" };
    const answer = await ask(STANDING, { headers });
    expect(answer.headers["access-control-allow-origin"]).toBe("https://pier.example");
    expect(answer.headers["access-control-allow-credentials"]).toBeUndefined();
    expect((await ask("/api/me", { headers: { ...cookie(), ...headers } })).code).toBe("ORIGIN_FOREIGN");
  });

  test("another host, whatever a proxy is said to have been asked for", async () => {
    for (const host of [
      "gull.example",
      "school.example.gull.example",
      "127.0.0.1",
      "localhost:1",
      "school.example:81",
    ]) {
      const { status } = await ask("/api/me", { headers: { host, "x-forwarded-host": "school.example" } });
      expect([host, status]).toEqual([host, 421]);
    }
    expect((await ask("/api/me", { headers: { host: "gull.example" } })).code).toBe("HOST_UNKNOWN");
    expect((await ask("/api/me", { headers: { host: "SCHOOL.example" } })).status).toBe(200);
  });

  test("keys that look like keys", async () => {
    for (const authorization of [
      "Bearer",
      "Bearer ",
      `Bearer ${tern}x`,
      `Basic ${tern}`,
      "Bearer __proto__",
      "Bearer constructor",
    ])
      expect([authorization, (await ask("/api/me", { headers: { authorization } })).status]).toEqual([
        authorization,
        401,
      ]);
    expect((await ask("/api/me", { headers: { authorization: "" } })).code).toBe("KEY_MISSING");
  });

  test("to say who is there, by how often it lets somebody try", async () => {
    const small = await servedSchool({ limits: { perMinute: 3 } });
    const codes: unknown[] = [];
    for (let i = 0; i < 5; i++) {
      const { error } = await small.client().POST("/api/invitations/show", { body: { secret: `guess-number-${i}` } });
      codes.push((error as { code: string } | undefined)?.code);
    }
    await small.close();
    expect(codes).toEqual([
      "INVITATION_UNKNOWN",
      "INVITATION_UNKNOWN",
      "INVITATION_UNKNOWN",
      "TOO_MANY_REQUESTS",
      "TOO_MANY_REQUESTS",
    ]);
  });

  test("to keep a client waiting for whoever sends half a request", async () => {
    const half = connect(Number(new URL(loopback()).port), "127.0.0.1");
    await new Promise((resolve) =>
      half.write("PUT /api/students/tern/courses/quay/takes/1 HTTP/1.1\r\nHost: x\r\nContent-Le", resolve),
    );
    expect((await ask("/api/me")).status).toBe(200);
    half.destroy();
  });
});

describe("what a school answers", () => {
  test("is kept by nobody in between, framed by nobody, and run as nothing", async () => {
    const { headers } = await ask(STANDING);
    expect(headers["cache-control"]).toBe("private, no-cache");
    expect(headers.vary).toContain("Authorization");
    for (const path of [STANDING, "/", "/nothing"]) {
      const told = (await ask(path)).headers;
      expect(told["content-security-policy"]).toMatch(/default-src 'none'.*frame-ancestors 'none'/);
      expect(told["content-security-policy"]).not.toMatch(/unsafe|https?:|\*/);
      expect(told["x-content-type-options"]).toBe("nosniff");
      expect(told["referrer-policy"]).toBe("no-referrer");
    }
    expect((await ask("/")).headers["content-type"]).toBe("text/html; charset=utf-8");
  });

  test("is about the name that was asked for, whatever signs are in it", async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: "binary", minLength: 1, maxLength: 20 }), async (name) => {
        if (/[\p{Cs}\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u.test(name) || name !== name.trim() || /^\.{1,2}$/.test(name)) return;
        const token = await school.bring(name, { role: "student", className: "monday" });
        const place = `/api/students/${encodeURIComponent(name)}/courses/quay/standing`;
        const answer = await fetch(`${loopback()}${place}`, { headers: { authorization: `Bearer ${token}` } });
        expect((await answer.json()).student).toBe(name);
      }),
      { numRuns: 60 },
    );
  });
});
