/** The notices of what others wrote and the build holds: package, version, licence and its text. */
import { readdirSync, readFileSync } from "node:fs";

/** Licences that allow what the build does: to hold the code, with its notice. */
const ALLOWED = ["MIT", "ISC", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Apache-2.0"];

/** A package whose manifest names no licence; its file LICENSE is the MIT licence. */
const UNNAMED = { "png-js": "MIT" };

/** What packages hold of others beside their own code, by the notices in their sources. */
const INSIDE = {
  brotli: "Its decoder: Copyright 2013 Google Inc., Apache License, version 2.0, the text of which is below.",
  libflacjs: `libFLAC and libogg:
Copyright (C) 2000-2009 Josh Coalson, Copyright (C) 2011-2022 Xiph.Org Foundation

Redistribution and use in source and binary forms, with or without modification, are permitted provided that the following conditions are met:
- Redistributions of source code must retain the above copyright notice, this list of conditions and the following disclaimer.
- Redistributions in binary form must reproduce the above copyright notice, this list of conditions and the following disclaimer in the
  documentation and/or other materials provided with the distribution.
- Neither the name of the Xiph.org Foundation nor the names of its contributors may be used to endorse or promote products derived from this
  software without specific prior written permission.
THIS SOFTWARE IS PROVIDED BY THE COPYRIGHT HOLDERS AND CONTRIBUTORS "AS IS" AND ANY EXPRESS OR IMPLIED WARRANTIES, INCLUDING, BUT NOT LIMITED TO,
THE IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS FOR A PARTICULAR PURPOSE ARE DISCLAIMED. IN NO EVENT SHALL THE FOUNDATION OR CONTRIBUTORS BE
LIABLE FOR ANY DIRECT, INDIRECT, INCIDENTAL, SPECIAL, EXEMPLARY, OR CONSEQUENTIAL DAMAGES (INCLUDING, BUT NOT LIMITED TO, PROCUREMENT OF SUBSTITUTE
GOODS OR SERVICES; LOSS OF USE, DATA, OR PROFITS; OR BUSINESS INTERRUPTION) HOWEVER CAUSED AND ON ANY THEORY OF LIABILITY, WHETHER IN CONTRACT,
STRICT LIABILITY, OR TORT (INCLUDING NEGLIGENCE OR OTHERWISE) ARISING IN ANY WAY OUT OF THE USE OF THIS SOFTWARE, EVEN IF ADVISED OF THE POSSIBILITY
OF SUCH DAMAGE.`,
};

/** The texts of licences (https://spdx.org/licenses), for packages that name one and leave its text out. */
const TEXTS = {
  ISC: `Permission to use, copy, modify, and/or distribute this software for any purpose with or without fee is hereby granted, provided that the above
copyright notice and this permission notice appear in all copies.

THE SOFTWARE IS PROVIDED "AS IS" AND THE AUTHOR DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS SOFTWARE INCLUDING ALL IMPLIED WARRANTIES OF
MERCHANTABILITY AND FITNESS. IN NO EVENT SHALL THE AUTHOR BE LIABLE FOR ANY SPECIAL, DIRECT, INDIRECT, OR CONSEQUENTIAL DAMAGES OR ANY DAMAGES
WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN
CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.`,
  MIT: `Permission is hereby granted, free of charge, to any person obtaining a copy of this software and associated documentation files (the
"Software"), to deal in the Software without restriction, including without limitation the rights to use, copy, modify, merge, publish, distribute,
sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY,
FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER
LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS
IN THE SOFTWARE.`,
};

/** The name of the package a file belongs to; `undefined` for our own. */
export function packageOf(path) {
  return /.*(?:^|\/)node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1];
}

/** The notices for the files a build was made from. Throws for a package that may not be held. */
export function noticesOf(root, inputs) {
  const folders = new Set(
    inputs.map((path) => /^.*node_modules\/(?:@[^/]+\/)?[^/]+\//.exec(path)?.[0]).filter(Boolean),
  );
  const notices = [...folders].map((folder) => noticeOf(`${root}${folder}`)).sort();
  const head =
    "This package holds code of the packages below. Those it has installed beside itself keep their own notices.";
  return `${head}\n\n${notices.join("\n\n")}\n\n== ${MIT}\n\n${TEXTS.MIT}\n`;
}

/** The last heading of the notices. */
export const MIT = "The text of the MIT licence";

/** A package's text of the MIT licence with what is the same in all of them left to the end of the notices; other texts as they are. */
function withoutCommon(text) {
  const words = (each) => each.replaceAll(/[“”]/g, '"').toLowerCase().split(/\s+/);
  const start = text.indexOf("Permission is hereby granted, free of charge");
  const isCommon = start >= 0 && words(text.slice(start).trim()).join(" ") === words(TEXTS.MIT).join(" ");
  return isCommon ? `${text.slice(0, start)}${MIT} is at the end.` : text;
}

function noticeOf(folder) {
  const manifest = JSON.parse(readFileSync(`${folder}package.json`, "utf8"));
  const { name, version, license = UNNAMED[name] } = manifest;
  if (!ALLOWED.includes(license)) throw new Error(`${name} ${version} may not be bundled: its licence is ${license}`);
  const inside = INSIDE[name] === undefined ? [] : [INSIDE[name]];
  return [
    `== ${name} ${version} (${license})`,
    withoutCommon(licenceText(folder, { ...manifest, license })),
    ...inside,
  ].join("\n\n");
}

/** The text in the package's file, else in its page; else, of a package that names a licence and no more, the licence's own. */
function licenceText(folder, { name, license, author }) {
  const files = readdirSync(folder);
  const file = files.find((each) => /^(licen[cs]e|copying)(\.|-|$)/i.test(each));
  if (file !== undefined) return readFileSync(`${folder}${file}`, "utf8").trim();
  const page = files.find((each) => /^readme/i.test(each));
  const section = page && /^#+ *licen[cs]e\b[^\n]*\n(.*)/ims.exec(readFileSync(`${folder}${page}`, "utf8"))?.[1].trim();
  if (/permission (is hereby granted|to use)/i.test(section ?? "")) return section;
  if (TEXTS[license] === undefined || author === undefined) throw new Error(`${name} has no text of its licence`);
  return `Copyright (c) ${author.name ?? author}\n\n${TEXTS[license]}`;
}
