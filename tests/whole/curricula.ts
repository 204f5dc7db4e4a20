import fc from "fast-check";
import type { Curriculum } from "../../lib/curriculum/index.js";
import { compileDrill, type Drill, type Gate, type GoBack } from "../../lib/drill/index.js";
import type { DrillDocument, LadderDocument } from "../../lib/schema/index.js";
import { JETTY, patterns } from "../drill/material.js";
import { valueIn } from "./valueIn.js";

/** What makes a drill of a random course; the riff is always the same. */
export interface DrillPlan {
  readonly name: string;
  /** Lowest tempo, step, and number of tempi. */
  readonly tempi: readonly [from: number, by: number, count: number];
  /** Lengths of silence, in half bars from one half bar on; none: the accompaniment plays on. */
  readonly silences: number;
  readonly variants: 1 | 2;
  /** Which ladder climbs first. */
  readonly first: "tempo" | "dropout";
  /** Rungs the first ladder goes back when the next climbs; all the way when left out. */
  readonly back?: number;
  readonly gate: Gate;
  readonly goBack?: GoBack;
  readonly needs: readonly string[];
}

/** A course as a random teacher has it, edition by edition. */
export interface CoursePlan {
  readonly edition: number;
  readonly drills: readonly DrillPlan[];
  readonly formerly: Readonly<Record<string, string>>;
}

const gate: fc.Arbitrary<Gate> = fc.oneof(
  fc
    .tuple(fc.integer({ min: 1, max: 4 }), fc.nat(2))
    .map(([clean, more]): Gate => ({ kind: "clean of last", clean, of: clean + more })),
  fc.integer({ min: 1, max: 3 }).map((count): Gate => ({ kind: "in a row", count })),
  fc
    .constantFrom(0.05, 0.1, 0.2)
    .map((error): Gate => ({ kind: "sequential", able: 0.9, unready: 0.5, wronglyLetOn: error, wronglyHeld: error })),
);

const goBack: fc.Arbitrary<GoBack | undefined> = fc.option(
  fc.record({ after: fc.integer({ min: 1, max: 4 }), by: fc.integer({ min: 1, max: 5 }) }),
  { nil: undefined, freq: 4 },
);

const tempi = fc.tuple(
  fc.integer({ min: 60, max: 90 }),
  fc.integer({ min: 1, max: 9 }),
  fc.integer({ min: 1, max: 4 }),
);

type Drawn = Omit<DrillPlan, "name" | "needs"> & { readonly needing: number };
const drawn: fc.Arbitrary<Drawn> = fc
  .record({
    tempi,
    silences: fc.nat(3),
    variants: fc.constantFrom(1 as const, 2 as const),
    first: fc.constantFrom("tempo" as const, "dropout" as const),
    back: fc.option(fc.integer({ min: 0, max: 2 }), { nil: undefined }),
    gate,
    goBack,
    needing: fc.nat(),
  })
  .map(({ back, goBack: going, ...rest }) => ({
    ...rest,
    ...(back === undefined ? {} : { back }),
    ...(going === undefined ? {} : { goBack: going }),
  }));

/** The drills before it that a drill needs: any of them, as the bits of a number say, so that no drill needs itself by detours. */
function needsOf(before: readonly string[], bits: number): readonly string[] {
  return before.filter((_, i) => ((bits >> i) & 1) === 1);
}

/** The first edition of a random course: one to four drills, each on some of those before. */
export const coursePlan: fc.Arbitrary<CoursePlan> = fc.array(drawn, { minLength: 1, maxLength: 4 }).map((drills) => {
  const names = drills.map((_, i) => `drill-${i}`);
  return {
    edition: 1,
    drills: drills.map(({ needing, ...rest }, i) => ({
      ...rest,
      name: names[i]!,
      needs: needsOf(names.slice(0, i), needing),
    })),
    formerly: {},
  };
});

/** What a teacher changes from one edition to the next. */
export interface Change {
  readonly what: "ladders" | "thinner" | "longer" | "gate" | "go back" | "rename" | "withdraw" | "add" | "needs";
  readonly pick: number;
  readonly drawn: Drawn;
}

export const change: fc.Arbitrary<Change> = fc.record({
  what: fc.constantFrom(
    "ladders" as const,
    "thinner",
    "longer",
    "gate",
    "go back",
    "rename",
    "withdraw",
    "add",
    "needs",
    "needs",
  ),
  pick: fc.nat(),
  drawn,
});

/** The edition after this one. */
export function changed({ edition, drills, formerly }: CoursePlan, { what, pick, drawn: fresh }: Change): CoursePlan {
  const place = pick % drills.length;
  const { needing, ...given } = fresh;
  const next = { edition: edition + 1, drills, formerly };
  const replace = (by: (drill: DrillPlan) => DrillPlan): CoursePlan => ({
    ...next,
    drills: drills.map((drill, i) => (i === place ? by(drill) : drill)),
  });
  const before = drills.slice(0, place).map(({ name }) => name);
  switch (what) {
    case "ladders": {
      const { tempi: steps, silences, variants } = given;
      return replace((drill) => ({ ...drill, tempi: steps, silences, variants }));
    }
    // Some rungs stand and others go, as when a teacher finds the steps too small, or puts easier ones below.
    case "thinner":
      return replace((drill) => {
        const [from, by, count] = drill.tempi;
        return { ...drill, tempi: [from, 2 * by, Math.max(1, Math.ceil(count / 2))] };
      });
    case "longer":
      return replace((drill) => {
        const [from, by, count] = drill.tempi;
        return { ...drill, tempi: [from - by, by, Math.min(6, count + 2)] };
      });
    case "gate":
      return replace((drill) => ({ ...drill, gate: given.gate }));
    case "go back":
      return replace(({ goBack: _goBack, ...drill }) =>
        given.goBack === undefined ? drill : { ...drill, goBack: given.goBack },
      );
    case "needs":
      return replace((drill) => ({ ...drill, needs: needsOf(before, needing) }));
    case "add": {
      const names = drills.map(({ name }) => name);
      return { ...next, drills: [...drills, { ...given, name: `drill-e${edition}`, needs: needsOf(names, needing) }] };
    }
    case "withdraw": {
      const { name } = drills[place]!;
      if (drills.length === 1) return next;
      const left = drills.filter((drill) => drill.name !== name);
      const names = Object.entries(formerly).filter(([, now]) => now !== name);
      return {
        ...next,
        drills: left.map((drill) => ({ ...drill, needs: drill.needs.filter((need) => need !== name) })),
        formerly: Object.fromEntries(names),
      };
    }
    case "rename": {
      const old = drills[place]!.name;
      const now = `drill-r${edition}`;
      const renamed = (name: string): string => (name === old ? now : name);
      return {
        ...next,
        drills: drills.map((drill) => ({ ...drill, name: renamed(drill.name), needs: drill.needs.map(renamed) })),
        formerly: {
          ...Object.fromEntries(Object.entries(formerly).map(([from, to]) => [from, renamed(to)])),
          [old]: now,
        },
      };
    }
  }
}

/** The course as the library has it. */
export function courseOf({ edition, drills, formerly }: CoursePlan): Curriculum {
  return {
    name: "quayside-random",
    edition: `${edition}.0.0`,
    title: "Quayside, any of them",
    instruments: {},
    patterns: { jetty: patterns.jetty! },
    drills: drills.map(drillOf),
    formerly,
  };
}

function drillOf({ name, gate: asked, goBack, needs, ...ladders }: DrillPlan): Drill {
  const { goBack: _none, ...drill } = valueIn(compileDrill(name, documentOf(ladders), { patterns, instruments: {} }));
  return { ...drill, gate: asked, needs, ...(goBack === undefined ? {} : { goBack }) };
}

type Ladders = Pick<DrillPlan, "tempi" | "silences" | "variants" | "first" | "back">;

function documentOf({ tempi: [from, by, count], silences, variants, first, back }: Ladders): DrillDocument {
  const tempo: LadderDocument = { tempo: { from, to: from + by * (count - 1), by } };
  const lengths: LadderDocument = { dropout: Array.from({ length: silences }, (_, i) => `${i + 1}/2 bar`) };
  // What has one value does not climb; the schema wants two at least.
  const climbing = [...(count > 1 ? [tempo] : []), ...(silences > 1 ? [lengths] : [])];
  if (first === "dropout") climbing.reverse();
  if (variants === 2) climbing.push({ variant: ["plain", "busy"] });
  const steps = first === "tempo" && count > 1 ? count : silences > 1 ? silences : count;
  const returning = Math.min(back ?? 0, steps - 1);
  const restart = back === undefined ? {} : { restart: `${returning} ${returning === 1 ? "rung" : "rungs"} back` };
  const ladders = climbing.map((ladder, i) => (i === 0 && climbing.length > 1 ? { ...ladder, ...restart } : ladder));
  const { dropout: _dropout, tempo: _tempo, variant: _variant, ...rest } = JETTY;
  return {
    ...rest,
    tolerance: silences === 0 ? { steadiness: "25 ms" } : rest.tolerance,
    ...(count > 1 ? {} : { tempo: from }),
    ...(variants === 2 ? {} : { variant: "plain" }),
    ...(silences === 0 ? {} : { dropout: silences === 1 ? { length: "1/2 bar" } : {} }),
    ladders,
  };
}
