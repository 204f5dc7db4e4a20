import type { Curriculum } from "../../curriculum/index.js";
import { type Drill, type Rung, rungNumber, settingsText, titleOf } from "../../drill/index.js";
import { mixesText } from "../../render/sheet/index.js";
import type { PublishedFile } from "../../schema/index.js";
import { cautionsIn, type Words, wordSettings } from "../../words/index.js";
import { routeText } from "../app/route.js";
import { rungLine } from "../app/view/rungWords.js";
import { documentOf } from "./document.js";
import { escapeHtml as escaped } from "./escapeHtml.js";

export interface IndexPageOptions {
  readonly course: Pick<Curriculum, "title" | "about" | "edition" | "imprint">;
  /** The drills with the rungs that sound, in their order. */
  readonly drills: readonly { readonly drill: Drill; readonly rungs: readonly Rung[] }[];
  /** What the page leads to: sound, sheets and the rest; what is not among them is not named. */
  readonly files: readonly PublishedFile[];
  readonly words: Words;
  /** Where the page is served, with a slash at its end. */
  readonly address?: string | undefined;
}

/** The end of the name of a strip that is drawn for a phone. */
export const NARROW_STRIP = "-narrow.svg";

/** Nothing but pictures, sound and the style of the page's own folder; no scripts at all. */
const POLICY =
  "default-src 'none'; style-src 'self'; img-src 'self'; media-src 'self'; base-uri 'none'; form-action 'none'";

/** Kinds of content by the ending of a name, so that a browser passes over what it cannot play (RFC 4337, RFC 5334, RFC 9639; `audio/wav` is common practice). */
const SOUND_TYPES: Readonly<Record<string, string>> = {
  flac: "audio/flac",
  m4a: "audio/mp4",
  mp3: "audio/mpeg",
  ogg: "audio/ogg",
  opus: "audio/ogg; codecs=opus",
  wav: "audio/wav",
};
/** The same for films (RFC 4337; `video/webm` is common practice). */
const FILM_TYPES: Readonly<Record<string, string>> = { mp4: "video/mp4", webm: "video/webm" };

/**
 * The index page of a folder that holds a course, as HTML without scripts: the way to the practice page, what there is to take along, and for each drill
 * its sheets and a player for each version of each rung. Every address is relative, so that the folder may stand anywhere.
 */
export function indexPage({ course, drills, files, words, address }: IndexPageOptions): string {
  const { title, about, edition, imprint = {} } = course;
  const { say } = words;
  const makers = [imprint.author, say("publication.edition", { edition }), imprint.copyright, imprint.licence];
  const practice = ["practice/index.html", "practice.html"].find((path) => files.some(({ file }) => file === path));
  const sections = drills.map((each) => drillSection(each, { files, words, practice }));
  const head = `<link rel="icon" href="icon.svg" type="image/svg+xml">
<link rel="stylesheet" href="page.css">${address === undefined ? "" : `\n<link rel="canonical" href="${escaped(address)}">`}`;
  const body = `<main class="published">
<div class="head">
<h1>${escaped(title)}</h1>
${paragraph(about, "lead")}<p class="small">${escaped(makers.filter((each) => each !== undefined).join(" · "))}</p>
</div>
<aside class="caution" aria-labelledby="care">
<h2 id="care">${escaped(say("page.care"))}</h2>
${cautionsIn(words)
  .map((text) => paragraph(text))
  .join("")}</aside>
${practice === undefined ? "" : `<section>\n<p class="presses"><a class="button go" href="${practice}">${escaped(say("publication.practise"))}</a></p>\n${paragraph(say("publication.practise-hint"))}</section>\n`}${takeAlong(files, words, practice)}${sections.join("")}</main>
`;
  return documentOf({ language: words.language, title }, { policy: POLICY, head, body });
}

/** What the whole course has in single files: for each instrument everything, the practice page, the overview. */
function takeAlong(files: readonly PublishedFile[], { say }: Words, practice: string | undefined): string {
  const one = files.find(({ file }) => file === "practice.html" && file !== practice);
  const overview = files.find(({ kind }) => kind === "overview");
  const items = [
    ...files
      .filter(({ kind }) => kind === "zip" || kind === "silent-zip")
      .map(({ file, kind, bytes, player = "" }) => {
        const of = { player, megabytes: bytes / 1e6 };
        const text = say(kind === "zip" ? "publication.everything" : "publication.all-but-sound", of);
        return link(file, text, { saved: true });
      }),
    ...files
      .filter(({ kind }) => kind === "sound-zip")
      .map(({ file, bytes }) =>
        link(file, say("publication.sound-for-all", { megabytes: bytes / 1e6 }), { saved: true }),
      ),
    ...(one === undefined ? [] : [link(one.file, say("publication.one-file"), { saved: true })]),
    ...(overview === undefined ? [] : [link(overview.file, say("publication.overview"))]),
  ];
  if (items.length === 0) return "";
  return `<section>\n<h2>${escaped(say("publication.for-all"))}</h2>\n${list(items)}</section>\n`;
}

interface Around {
  readonly files: readonly PublishedFile[];
  readonly words: Words;
  readonly practice: string | undefined;
}

function drillSection({ drill, rungs }: IndexPageOptions["drills"][number], around: Around): string {
  const { words } = around;
  const { say } = words;
  const files = around.files.filter((each) => each.drill === drill.name);
  const sheets = files.filter(({ kind }) => kind === "sheet");
  const yours = sheets.filter(({ part, score }) => part === undefined && score === undefined);
  const band = sheets.filter((each) => !yours.includes(each));
  const called = ({ player, part, score }: PublishedFile): string =>
    player ?? part ?? say(score ? "sheet.score" : "page.concert-pitch");
  const sheetList = (heading: string, of: readonly PublishedFile[]): string =>
    of.length === 0
      ? ""
      : `<p class="kicker">${escaped(heading)}</p>\n${list(of.map((each) => link(each.file, called(each))))}`;
  const versions = rungs.map((rung) => rungItem(rung, { ...around, files }));
  return `<section class="rule">
<h2>${escaped(titleOf(drill))}</h2>
${paragraph(drill.about)}${stripPicture(files, say("publication.strip"))}${sheetList(say("publication.sheets"), yours)}${sheetList(say("publication.band"), band)}${paragraph(mixesText(drill, words))}<ol class="versions">
${versions.join("")}</ol>
</section>
`;
}

/** The strip of a drill, drawn for the width there is. */
function stripPicture(files: readonly PublishedFile[], alt: string): string {
  const strips = files.filter(({ kind }) => kind === "strip");
  const narrow = strips.find(({ file }) => file.endsWith(NARROW_STRIP));
  const wide = strips.find((each) => each !== narrow);
  if (wide === undefined) return "";
  const source = narrow === undefined ? "" : `<source media="(max-width: 560px)" srcset="${addressOf(narrow.file)}">`;
  return `<picture>${source}<img src="${addressOf(wide.file)}" alt="${escaped(alt)}" loading="lazy"></picture>\n`;
}

/** A rung with a player for each of its versions. */
function rungItem(rung: Rung, { files, words, practice }: Around): string {
  const { drill } = rung;
  const settings = settingsText(rung.settings);
  const sounds = files.filter((each) => each.kind === "sound" && each.rung === settings);
  const title = (mix: string): string =>
    words.say("sound.title", {
      drill: titleOf(drill),
      rung: wordSettings(settings, words) || words.say("setting.only-rung"),
      mix,
    });
  const players = drill.mixes.flatMap(({ name }) => {
    const of = sounds.filter(({ mix }) => mix === name);
    const shown = files.filter((each) => each.kind === "film" && each.rung === settings && each.mix === name);
    const readers = [...new Set(shown.map((each) => each.player))];
    const films = readers.map((reader) => {
      const called = reader ?? words.say("page.concert-pitch");
      const own = shown.filter((each) => each.player === reader);
      return film(`${name} · ${called}`, own, { title: `${title(name)}, ${called}`, language: words.language });
    });
    return [...(of.length === 0 ? [] : [player(name, of, title(name))]), ...films];
  });
  const route = `${practice}${routeText({ view: "drill", drill: drill.name, rung: `${rungNumber(rung)}` })}`;
  const lead =
    practice === undefined ? "" : `<p>${link(route, words.say("publication.rung"), { isAddress: true })}</p>\n`;
  return `<li>\n<h3>${escaped(rungLine(rung, words))}</h3>\n${lead}${players.join("")}</li>\n`;
}

/** One sound in all its formats, the first that a browser plays. */
function player(mix: string, files: readonly PublishedFile[], title: string): string {
  const sources = files.map((each) => `<source src="${addressOf(each.file)}" type="${SOUND_TYPES[endingOf(each)]}">`);
  const saved = files.map((each) => link(each.file, endingOf(each), { saved: true }));
  return `<figure>
<figcaption>${escaped(mix)} <small>${saved.join(" ")}</small></figcaption>
<audio controls preload="none" aria-label="${escaped(title)}">${sources.join("")}</audio>
</figure>
`;
}

/** One film in all its formats, the first that a browser shows, with its captions. */
function film(
  caption: string,
  files: readonly PublishedFile[],
  { title, language }: { readonly title: string; readonly language: string },
): string {
  const pictures = files.filter((each) => FILM_TYPES[endingOf(each)] !== undefined);
  const sources = pictures.map((each) => `<source src="${addressOf(each.file)}" type="${FILM_TYPES[endingOf(each)]}">`);
  const tracks = files
    .filter((each) => endingOf(each) === "vtt")
    .map(({ file }) => `<track kind="captions" src="${addressOf(file)}" srclang="${language}" default>`);
  const saved = files.map((each) => link(each.file, endingOf(each), { saved: true }));
  return `<figure>
<figcaption>${escaped(caption)} <small>${saved.join(" ")}</small></figcaption>
<video controls preload="none" aria-label="${escaped(title)}">${sources.join("")}${tracks.join("")}</video>
</figure>
`;
}

function endingOf({ file }: PublishedFile): string {
  return file.slice(file.lastIndexOf(".") + 1);
}

function paragraph(text: string | undefined, name?: string): string {
  if (text === undefined || text === "") return "";
  return `<p${name === undefined ? "" : ` class="${name}"`}>${escaped(text)}</p>\n`;
}

function list(items: readonly string[]): string {
  return `<ul>\n${items.map((each) => `<li>${each}</li>\n`).join("")}</ul>\n`;
}

/** A link to a file of the folder, or to an address that is one already; `saved`: to keep the file and not to open it. */
function link(
  to: string,
  text: string,
  { saved = false, isAddress = false }: { readonly saved?: boolean; readonly isAddress?: boolean } = {},
): string {
  const href = isAddress ? escaped(to) : addressOf(to);
  return `<a href="${href}"${saved ? " download" : ""}>${escaped(text)}</a>`;
}

/** The address of a file of the folder, relative to it. */
function addressOf(file: string): string {
  return escaped(file.split("/").map(encodeURIComponent).join("/"));
}
