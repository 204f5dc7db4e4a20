import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { openPostgres } from "../../lib/store/postgres/index.js";

/** A piece of a password that stands nowhere else. */
const PIECE = "wjqkxz";
/** Nobody listens there (RFC 6335: port 9, discard, is a system port; that nothing answers on it is common practice). */
const HOST = "127.0.0.1:9";

/** Everything an attempt to open a store answers, the errors behind it included. */
async function answerTo(address: string): Promise<string> {
  const opened = await openPostgres(address, { create: false, patience: 0 });
  if (opened.ok) throw new Error("nobody should have answered");
  return JSON.stringify(opened.problems);
}

describe("the address of a database", () => {
  test.each([
    [
      "with everything",
      `postgresql://school:${PIECE}@${HOST}/leeway?sslmode=disable`,
      `postgresql://school@${HOST}/leeway`,
    ],
    [
      "with an escaped password",
      `postgres://school:%2F%40${PIECE}%25@${HOST}/leeway`,
      `postgres://school@${HOST}/leeway`,
    ],
    [
      "with the password in its parameters",
      `postgresql://${HOST}/leeway?password=${PIECE}`,
      `postgresql://${HOST}/leeway`,
    ],
    ["of a user with a sign", `postgresql://school%40quay:${PIECE}@${HOST}/a`, `postgresql://school%40quay@${HOST}/a`],
    ["of a socket", `postgresql://school:${PIECE}@/leeway?host=/nowhere`, "postgresql://school@/leeway"],
    ["of IPv6", `postgresql://school:${PIECE}@[::1]:9/leeway`, "postgresql://school@[::1]:9/leeway"],
  ])("%s is told without the password", async (_what, address, place) => {
    const answer = await answerTo(address);
    expect(answer).toContain(`"STORE_UNREACHABLE"`);
    expect(answer).toContain(place);
    expect(answer).not.toContain(PIECE);
  });

  test.each([
    ["a slash", `postgresql://school:12/${PIECE}@${HOST}/leeway`],
    ["an at sign and a slash", `postgresql://school:12@${PIECE}/34@${HOST}/leeway`],
    ["a question mark", `postgresql://school:12?${PIECE}@${HOST}/leeway`],
    ["a hash", `postgresql://school:12#${PIECE}@${HOST}/leeway`],
    ["a per cent sign", `postgresql://school:%zz${PIECE}@${HOST}/leeway`],
    ["half a character", `postgresql://school:%ff${PIECE}@${HOST}/leeway`],
    ["a colon that is escaped too", `postgresql://school%3A${PIECE}@${HOST}/leeway`],
    ["everything escaped", `postgresql://school%3A${PIECE}%40127.0.0.1%3A9/leeway`],
    ["the host missing", `postgresql://school:${PIECE}`],
    ["three slashes", `postgresql:///school:${PIECE}@${HOST}/leeway`],
    ["one slash", `postgresql:/school:${PIECE}@${HOST}/leeway`],
    ["a blank before it", ` postgresql://school:12/${PIECE}@${HOST}/leeway`],
    ["another form", `host=127.0.0.1 port=9 user=school password=${PIECE}`],
    ["no scheme", `school:${PIECE}@${HOST}/leeway`],
  ])("with %s is refused, and no part of it repeated", async (_what, address) => {
    const answer = await answerTo(address);
    expect(answer).toContain(`"STORE_ADDRESS_UNREADABLE"`);
    expect(answer).not.toContain(PIECE);
  });

  test("tells nothing of any password, however it is written", async () => {
    const signs = fc.string({ unit: fc.constantFrom(..."/?#@:%[]\\ \"'=&1a~\n\u00e9"), maxLength: 6 });
    const start = fc.constantFrom("postgresql://school:", "postgres://:", "postgresql://", "POSTGRES://school@quay:");
    // A host the password turns out to be must not be looked up either: what is looked up has been told.
    await fc.assert(
      fc.asyncProperty(start, signs, signs, async (begin, before, after) => {
        const answer = await answerTo(`${begin}x:${before}${PIECE}${after}@${HOST}/leeway`);
        expect(answer.toLowerCase()).not.toContain(PIECE);
      }),
      { numRuns: 300 },
    );
  });
});
