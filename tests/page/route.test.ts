import { expect, test } from "vitest";
import { readRoute, routeText } from "../../lib/page/app/route.js";

test("an address leads back to the place it was made of, whatever the names hold", () => {
  for (const rung of ["tempo=84", "dropout=1/2 bar,tempo=92.5", "a/b?c#d&e %", "<script>"]) {
    const route = { view: "drill" as const, drill: "half-bar", rung, asked: { mix: "play & listen" } };
    expect(readRoute(routeText(route))).toEqual(route);
  }
});

test("a rung may be its number, as it stands in a printed code", () => {
  expect(readRoute("#/drill/half-bar/2")).toEqual({ view: "drill", drill: "half-bar", rung: "2", asked: {} });
});

test("an address that says nothing leads to today's practice", () => {
  for (const hash of ["", "#", "#/", "#/nowhere", "#/%E0%A4%A"]) expect(readRoute(hash).view).toBe("today");
});
