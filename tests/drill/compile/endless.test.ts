import { describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { drillOf, found, jetty } from "../material.js";

describe("phrases: endless", () => {
  test("is a take of as many phrases as when they are left out, and is played round and round where it is no take", () => {
    const drill = drillOf(jetty({ phrases: "endless" }));
    expect([drill.phrases, drill.endless]).toEqual([4, true]);
    const left = drillOf(jetty({ phrases: undefined }));
    expect(left).not.toHaveProperty("endless");
    expect(scoreOf(rungs(drill).at(0))).toEqual(scoreOf(rungs(left).at(0)));
    expect(found(jetty({ phrases: "endless" }))).toEqual(found(jetty({ phrases: undefined })));
  });

  test("has as many phrases as growing silences need", () => {
    const grows = { grows: { from: "1/2 bar", to: "2 bars", by: "1/2 bar", each: "2 phrases" } } as never;
    expect(drillOf(jetty({ phrases: "endless", dropout: grows })).phrases).toBe(8);
  });
});
