/** A place on the page of a class, as its address says after the `#`. */
export type Place =
  | { readonly view: "join"; readonly secret: string }
  | { readonly view: "classes" }
  | { readonly view: "class"; readonly of: string; readonly after?: string }
  | { readonly view: "people"; readonly of: string; readonly after?: string }
  | { readonly view: "student"; readonly of: string; readonly student: string };

/** Reads an address: "#/class/monday/student/tern". One that is not known is the list of classes. */
export function readPlace(hash: string): Place {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [view, of, what, student] = path.split("/").map(decoded);
  const after = new URLSearchParams(query).get("after");
  const from = after === null ? {} : { after };
  if (view === "join") return { view, secret: of ?? "" };
  if (view !== "class" || of === undefined || of === "") return { view: "classes" };
  if (what === "people") return { view: what, of, ...from };
  return what === "student" && student ? { view: what, of, student } : { view, of, ...from };
}

/** The address of a place. */
export function placeText(place: Place): string {
  if (place.view === "classes") return "#/";
  if (place.view === "join") return `#/join/${encodeURIComponent(place.secret)}`;
  const of = `#/class/${encodeURIComponent(place.of)}`;
  if (place.view === "student") return `${of}/student/${encodeURIComponent(place.student)}`;
  const query = place.after === undefined ? "" : `?after=${encodeURIComponent(place.after)}`;
  return place.view === "people" ? `${of}/people${query}` : `${of}${query}`;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
