import { type Words, wordSettings } from "../words/index.js";
import type { Activity, LanguageMap } from "./model.js";
import { TYPES } from "./vocabulary.js";
import { wellFormed } from "./wellFormed.js";

/** Activities for course, drill and rung. Their addresses name no edition: a rung is the same rung as long as its settings are the same. */
export interface Activities {
  course(curriculum: string): Activity;
  drill(curriculum: string, drill: string): Activity;
  rung(curriculum: string, drill: string, rung: string): Activity;
}

/** Activities whose addresses begin with `base`, which does not end in a slash; rungs are named in the language of the words. */
export function activitiesUnder(base: string, words: Words<"setting">): Activities {
  const courseAt = (curriculum: string): string => `${base}/courses/${segment(curriculum)}`;
  const drillAt = (curriculum: string, drill: string): string => `${courseAt(curriculum)}/drills/${segment(drill)}`;
  return {
    course: (curriculum) => activity(courseAt(curriculum), "course", { und: curriculum }),
    drill: (curriculum, drill) => activity(drillAt(curriculum, drill), "drill", { und: drill }),
    rung: (curriculum, drill, rung) =>
      activity(`${drillAt(curriculum, drill)}/rungs/${segment(rung === "" ? "only" : rung)}`, "rung", {
        [words.language]: rung === "" ? words.say("setting.only-rung") : wordSettings(rung, words),
      }),
  };
}

function activity(id: string, type: keyof typeof TYPES, name: LanguageMap): Activity {
  const names = Object.entries(name).map(([language, text]) => [language, wellFormed(text)]);
  return { objectType: "Activity", id, definition: { name: Object.fromEntries(names), type: TYPES[type] } };
}

/** One segment of an address: all that could end it is escaped, and so are the dot segments "." and ".." (RFC 3986, 5.2.4). */
function segment(text: string): string {
  return encodeURIComponent(wellFormed(text)).replace(/^\.{1,2}$/, (dots) => dots.replaceAll(".", "%2E"));
}
