import { sha1 } from "@noble/hashes/legacy.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { uuidOf } from "../../lib/records/index.js";
import { isDuration, isTimestamp, isUuid, violations } from "./xapiRules.js";

/**
 * Statements in the manner of Appendix A of the specification's Part Two (1.0.3), from memory: the simplest statement, one with a result, and the
 * context of the long example. Names of people are left out.
 */
const SIMPLE = {
  id: "fd41c918-b88b-4b20-a0a5-a4c32391aaa0",
  timestamp: "2015-11-18T12:17:00+00:00",
  actor: { objectType: "Agent", name: "Project Tin Can API", mbox: "mailto:user@example.com" },
  verb: { id: "http://example.com/xapi/verbs#sent-a-statement", display: { "en-US": "sent" } },
  object: {
    id: "http://example.com/xapi/activity/simplestatement",
    definition: {
      name: { "en-US": "simple statement" },
      description: {
        "en-US":
          "A simple Experience API statement. Note that the LRS does not need to have any prior information about the Actor (learner), the verb, or the Activity/object.",
      },
    },
  },
};
const WITH_RESULT = {
  actor: { objectType: "Agent", name: "Example Learner", mbox: "mailto:example.learner@adlnet.gov" },
  verb: { id: "http://adlnet.gov/expapi/verbs/attempted", display: { "en-US": "attempted" } },
  object: {
    id: "http://example.adlnet.gov/xapi/example/simpleCBT",
    definition: {
      name: { "en-US": "simple CBT course" },
      description: { "en-US": "A fictitious example CBT course." },
    },
  },
  result: { score: { scaled: 0.95 }, success: true, completion: true, duration: "PT1234S" },
};
const LONG = {
  id: "6690e6c9-3ef0-4ed3-8b37-7f3964730bee",
  actor: { objectType: "Agent", account: { homePage: "http://www.example.com", name: "13936749" } },
  verb: { id: "http://adlnet.gov/expapi/verbs/attended", display: { "en-GB": "attended", "en-US": "attended" } },
  result: {
    extensions: {
      "http://example.com/profiles/meetings/resultextensions/minuteslocation":
        "X:\\meetings\\minutes\\examplemeeting.one",
    },
    success: true,
    completion: true,
    response: "We agreed on some example actions.",
    duration: "PT1H0M0S",
  },
  context: {
    registration: "ec531277-b57b-4c15-8d91-d292c5b2b8f7",
    contextActivities: {
      parent: [{ id: "http://www.example.com/meetings/series/267", objectType: "Activity" }],
      category: [
        {
          id: "http://www.example.com/meetings/categories/teammeeting",
          objectType: "Activity",
          definition: {
            name: { en: "team meeting" },
            description: { en: "A category of meeting used for regular team meetings." },
            type: "http://example.com/expapi/activities/meetingcategory",
          },
        },
      ],
    },
    language: "en",
  },
  timestamp: "2013-05-18T05:32:34.804Z",
  version: "1.0.0",
  object: {
    id: "http://www.example.com/meetings/occurances/34534",
    definition: {
      extensions: {
        "http://example.com/profiles/meetings/activitydefinitionextensions/room": {
          name: "Kilby",
          id: "http://example.com/rooms/342",
        },
      },
      name: { "en-GB": "example meeting", "en-US": "example meeting" },
      type: "http://adlnet.gov/expapi/activities/meeting",
      moreInfo: "http://virtualmeeting.example.com/345256",
    },
    objectType: "Activity",
  },
};

describe("the rules of statements", () => {
  test.each([
    ["the simplest statement", SIMPLE],
    ["a statement with a result", WITH_RESULT],
    ["the long statement", LONG],
  ])("let %s of the specification pass", (_what, statement) => expect(violations(statement)).toEqual([]));

  const { actor: _actor, ...unsigned } = SIMPLE;
  test.each<readonly [string, unknown, string]>([
    ["no actor", unsigned, "2.4 a statement has actor"],
    ["an id that is no UUID", { ...SIMPLE, id: "1" }, "2.4.1"],
    [
      "two identifiers",
      { ...SIMPLE, actor: { mbox: "mailto:a@b.c", account: { homePage: "http://a.b", name: "c" } } },
      "2.4.2.1",
    ],
    ["no identifier", { ...SIMPLE, actor: { name: "tern" } }, "2.4.2.1"],
    ["an account without home page", { ...SIMPLE, actor: { account: { name: "c" } } }, "2.4.2.4"],
    ["a verb without scheme", { ...SIMPLE, verb: { id: "attempted" } }, "2.4.3"],
    ["an activity with a blank in its id", { ...SIMPLE, object: { id: "http://a.b/one bar" } }, "2.4.4.1"],
    ["a scaled score of 2", { ...SIMPLE, result: { score: { scaled: 2 } } }, "2.4.5.1"],
    ["a raw score above max", { ...SIMPLE, result: { score: { raw: 3, min: 0, max: 2 } } }, "2.4.5.1"],
    ["success in words", { ...SIMPLE, result: { success: "true" } }, "2.4.5"],
    ["null", { ...SIMPLE, result: { response: null } }, "2.2"],
    ["an extension without scheme", { ...SIMPLE, result: { extensions: { drift: 3 } } }, "4.1"],
    [
      "a language nobody has",
      { ...SIMPLE, verb: { ...SIMPLE.verb, display: { english: "sent", "e n": "sent" } } },
      "4.2",
    ],
    ["a duration of weeks and days", { ...SIMPLE, result: { duration: "P4W1D" } }, "4.6"],
    ["an offset that is not known", { ...SIMPLE, timestamp: "2015-11-18T12:17:00-00:00" }, "4.5"],
    ["another version", { ...SIMPLE, version: "2.0.0" }, "2.4.10"],
    ["a property in other letters", { ...SIMPLE, Result: {} }, "2.2"],
  ])("find %s", (_what, statement, section) =>
    expect(violations(statement)).toEqual(expect.arrayContaining([expect.stringContaining(section)])),
  );

  test("know the durations, times and UUIDs of their standards", () => {
    // Durations: the specification's own, section 4.6, as the project's collection of reference values has them.
    for (const text of ["PT4H35M59.14S", "PT16559.14S", "P3Y1M29DT4H35M59.14S", "P4W"])
      expect(isDuration(text), text).toBe(true);
    for (const text of ["P4W1D", "P", "PT", "P1YT", "4S", "PT1.5H3S"]) expect(isDuration(text), text).toBe(false);
    // Times: RFC 3339, section 5.8.
    for (const text of [
      "1985-04-12T23:20:50.52Z",
      "1996-12-19T16:39:57-08:00",
      "1990-12-31T23:59:60Z",
      "1937-01-01T12:00:27.87+00:20",
    ])
      expect(isTimestamp(text), text).toBe(true);
    for (const text of ["2026-02-30T12:00:00Z", "2026-03-02", "2026-03-02T12:00:00", "2026-03-02T12:00:00-00:00"])
      expect(isTimestamp(text), text).toBe(false);
    expect(isUuid("f81d4fae-7dec-11d0-a765-00a0c91e6bf6")).toBe(true); // RFC 4122, section 3
    expect(isUuid("f81d4fae7dec11d0a76500a0c91e6bf6")).toBe(false);
  });
});

describe("uuidOf()", () => {
  const DNS = "6ba7b810-9dad-11d1-80b4-00c04fd430c8";
  test.each([
    ["www.example.com", "2ed6657d-e927-568b-95e1-2665a8aea6a2"], // RFC 9562, appendix A.4
    ["python.org", "886313e1-3b8a-5372-9b90-0c9aee199e5d"], // manual of Python's uuid module
  ])("gives %s the UUID the books have", (name, uuid) => expect(uuidOf(DNS, name)).toBe(uuid));

  test("rests on SHA-1 as it was published", () => {
    // FIPS 180-4 examples and RFC 3174, section 7.3.
    const digest = (text: string): string => bytesToHex(sha1(utf8ToBytes(text)));
    expect(digest("abc")).toBe("a9993e364706816aba3e25717850c26c9cd0d89d");
    expect(digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")).toBe(
      "84983e441c3bd26ebaae4aa1f95129e5e54670f1",
    );
    expect(digest("a".repeat(1_000_000))).toBe("34aa973cd4c4daa4f61eeb2bdbad27316534016f");
    expect(digest("0123456701234567012345670123456701234567012345670123456701234567".repeat(10))).toBe(
      "dea356a2cddd90c7a7ecedc5ebb563934f460452",
    );
  });

  test("gives version 5 of the variant of RFC 4122, whatever the name", () => {
    fc.assert(
      fc.property(fc.uuid(), fc.string({ unit: "grapheme" }), (space, name) => {
        expect(uuidOf(space, name)).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
      }),
    );
  });
});
