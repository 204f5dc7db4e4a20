import { describe, expect, test } from "vitest";
import { saidBy } from "../said.js";

const ODD_METERS = "curricula/quayside-odd-meters.yaml";

describe("leeway gate", () => {
  test("says of each kind of rung which slips takes without pitch show, and what to do about the others", async () => {
    const { out } = await saidBy(["gate", ODD_METERS, "sevens-dropouts"]);
    expect(out).toMatch(/^ *silence 1 bar, riff busy +not told +not told +told +not told *$/m);
    expect(out).toMatch(/^ *silence 1 bar, riff plain +told +in doubt +told +not told *$/m);
    expect(out).toContain("Record with pitch");
  });

  test("gives the log odds as JSON, and says nothing of slips in a drill without silences", async () => {
    const { slipsOnOnsetsAlone } = JSON.parse((await saidBy(["gate", ODD_METERS, "sevens-dropouts", "--json"])).out);
    const busy = slipsOnOnsetsAlone.find(({ rungs }: { rungs: string }) => rungs === "dropout=1 bar,variant=busy");
    expect(busy.slips[0].beats).toBe(0.5);
    expect(busy.slips[0].logOdds).toBeLessThan(-2);
    expect((await saidBy(["gate", ODD_METERS, "sevens-steady"])).out).not.toContain("slip");
  });
});

describe("leeway check", () => {
  test("names the rungs on which takes without pitch hide a slip of a beat or less", async () => {
    const { out, status } = await saidBy(["check", ODD_METERS]);
    expect(status).toBe(0);
    expect(out).toContain("sevens-dropouts: takes without pitch do not tell a slip from a note left out");
    expect(out).toContain("silence 2 bars, riff busy (0.5 and 1 beat)");
    expect((await saidBy(["check", "curricula/quayside-first-course.yaml"])).out).not.toContain("pitch");
  });
});
