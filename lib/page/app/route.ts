/** A place on the page, as its address says after the `#`. */
export interface Route {
  readonly view: ViewName;
  /** Name of a drill. */
  readonly drill?: string;
  /** A rung: its settings, or its number from 1. */
  readonly rung?: string;
  /** What else the address says: "mix", "course". */
  readonly asked: Readonly<Record<string, string>>;
}

const VIEW_NAMES = ["choose", "today", "course", "drill", "take", "history", "sound", "teacher"] as const;
export type ViewName = (typeof VIEW_NAMES)[number];

/** Reads an address: "#/drill/half-bar/tempo=84?mix=listen". One that is not known is the first view. */
export function readRoute(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [name, drill, rung] = path.split("/").map(decoded);
  const view = VIEW_NAMES.find((each) => each === name) ?? "today";
  const asked = Object.fromEntries(new URLSearchParams(query));
  return { view, asked, ...(drill ? { drill } : {}), ...(rung ? { rung } : {}) };
}

/** The address of a place. */
export function routeText({ view, drill, rung, asked = {} }: Partial<Route> & Pick<Route, "view">): string {
  const query = new URLSearchParams(asked).toString();
  const path = [view, drill, rung].flatMap((part) => (part === undefined ? [] : [encodeURIComponent(part)]));
  return `#/${path.join("/")}${query === "" ? "" : `?${query}`}`;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
