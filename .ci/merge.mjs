/**
 * Puts what is loaded together into one file: what the usual commands load, and the smallest parts of the library. A bundler cuts a program wherever two
 * commands or doors differ, into files of a few hundred bytes; finding and opening eighty of them takes longer than what they do. Each module still exists
 * once: whoever imports from a merged file gets the same from the one file.
 */
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { build } from "esbuild";

/**
 * Merges in `folder` what the modules `sources` load at once, but for what `apart` loads: what all of them load, and what `always` do, into `name`.js, and the
 * rest of each into a file of its own, `name`-1.js and so on. `metafile` is of the build that wrote the folder, `banner` what it wrote above each file.
 */
export async function merge(folder, { metafile, always, sources, apart, banner, name }) {
  const outputs = outputsIn(metafile);
  const left = loadedBy(outputs, apart);
  const each = sources.map((source) => loadedBy(outputs, source));
  const shared = [...each[0]].filter((file) => each.every((files) => files.has(file)));
  const common = new Set([...always.flatMap((source) => [...loadedBy(outputs, source)]), ...shared]);
  const groups = [common, ...each.map((files) => [...files].filter((file) => !common.has(file)))];
  for (const [i, files] of groups.entries()) {
    const whole = new Set([...files].filter((file) => !left.has(file)));
    await put(folder, { outputs, whole, banner, name: `${name}${i === 0 ? "" : `-${i}`}.js`, minify: true });
  }
}

/** The files that a module loads at once. */
function loadedBy(outputs, source) {
  const [root] = [...outputs].find(([, { entryPoint }]) => entryPoint?.endsWith(source)) ?? [];
  if (root === undefined) throw new Error(`not loaded by itself: ${source}`);
  const files = new Set([root]);
  for (const file of files)
    for (const { kind, path, external } of outputs.get(file).imports)
      if (kind === "import-statement" && !external) files.add(basename(path));
  return files;
}

/**
 * Merges in `folder` all parts of at most `most` bytes that import nothing, or such parts and merged ones only, and hold our own code alone. Each is loaded with
 * most others anyhow, nothing of them runs by being loaded, and what imports nothing can be in no circle. What `apart` loads stays as it is, and so does what was merged before.
 */
export async function mergeSmall(folder, { metafile, most, name, apart, banner = "", minify = false }) {
  const outputs = outputsIn(metafile);
  const whole = new Set();
  const left = apart === undefined ? new Set() : loadedBy(outputs, apart);
  const isThere = (path) => whole.has(basename(path)) || outputs.get(basename(path))?.isMerged;
  const isSmall = ([file, { bytes, entryPoint, imports, inputs, isMerged }]) =>
    !whole.has(file) &&
    !isMerged &&
    !left.has(file) &&
    entryPoint === undefined &&
    bytes <= most &&
    imports.every(({ kind, path, external }) => kind === "import-statement" && !external && isThere(path)) &&
    Object.keys(inputs).every((path) => path.startsWith("lib/"));
  for (let more = [...outputs].filter(isSmall); more.length > 0; more = [...outputs].filter(isSmall))
    for (const [file] of more) whole.add(file);
  await put(folder, { outputs, whole, banner, name, minify });
}

function outputsIn(metafile) {
  return new Map(Object.entries(metafile.outputs).map(([path, output]) => [basename(path), output]));
}

/** Writes the files `whole` as the one file `name`, and leads all others there. */
async function put(folder, { outputs, whole, banner, name, minify }) {
  const given = (file) => outputs.get(file).exports.map((each) => `${each} as ${nameIn(file, each)}`);
  const contents = [...whole].map((file) => `export { ${given(file).join(", ")} } from "./${file}";`).join("\n");
  const { outputFiles } = await build({
    bundle: true,
    format: "esm",
    logLevel: "warning",
    minifySyntax: minify,
    minifyWhitespace: minify,
    platform: "node",
    plugins: [{ name: "parts", setup: (builder) => partsAlone(builder, { folder, whole, banner }) }],
    banner: { js: banner },
    stdin: { contents, resolveDir: folder },
    target: "es2022",
    write: false,
  });
  writeFileSync(join(folder, name), inAscii(outputFiles[0].text));

  const asked = new Map();
  for (const [file, { entryPoint, exports }] of outputs) {
    const path = join(folder, file);
    if (!file.endsWith(".js") || outputs.get(file).isMerged) continue;
    if (!whole.has(file)) writeFileSync(path, led(readFileSync(path, "utf8"), whole, name));
    else if (entryPoint === undefined || file.startsWith("part-")) {
      rmSync(path);
      if (entryPoint !== undefined) asked.set(file, exports);
    }
    // Begun by its own name.
    else writeFileSync(path, `export{${exports.map((each) => `${nameIn(file, each)} as ${each}`)}}from"./${name}";\n`);
  }
  leadAsked(folder, asked, name);
  for (const file of whole) outputs.get(file).isMerged = true;
}

/** Leads what asks for merged files by `import()` to the one file; what it gets has the names that it asked for. */
function leadAsked(folder, asked, name) {
  if (asked.size === 0) return;
  for (const file of readdirSync(folder).filter((each) => each.endsWith(".js"))) {
    const text = readFileSync(join(folder, file), "utf8");
    const changed = text.replace(/\bimport\("\.\/(part-[^"]+)"\)/g, (written, part) => {
      const given = asked.get(part)?.map((each) => `${each}:all.${nameIn(part, each)}`);
      return given === undefined ? written : `import("./${name}").then((all)=>({${given.join(",")}}))`;
    });
    if (changed !== text) writeFileSync(join(folder, file), changed);
  }
}

/** Signs beyond ASCII escaped, which the bundler leaves in patterns alone: a script of ASCII takes half the memory, and is read faster. */
function inAscii(text) {
  return text.replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`);
}

/** What a merged file exports under a name. */
function nameIn(file, name) {
  return `${file
    .replace(/^part-|\.js$/g, "")
    .replace(/\W/g, "_")
    .replace(/^(?=\d)/, "_")}_${name}`;
}

/** Parts of the folder that are merged are read without their banner; everything else stays outside. */
function partsAlone(builder, { folder, whole, banner }) {
  builder.onResolve({ filter: /./ }, ({ kind, path }) =>
    kind === "import-statement" && whole.has(basename(path))
      ? { path: join(folder, basename(path)) }
      : { external: true, path },
  );
  builder.onLoad({ filter: /\.js$/ }, ({ path }) => ({ contents: readFileSync(path, "utf8").replace(banner, "") }));
}

/** The text of a file with its imports from merged files led to the one file. */
function led(text, whole, name) {
  // A file that gives nothing is named so that it is there; nothing here does anything by being there.
  const without = text.replace(/import ?"\.\/([^"]+)";/g, (written, file) => (whole.has(file) ? "" : written));
  return without.replace(
    /(import|export)( ?)\{([^}]*)\}( ?)from( ?)"\.\/([^"]+)"/g,
    (written, ...[verb, gap, names, , , file]) => {
      if (!whole.has(file)) return written;
      const renamed = names.split(",").map((each) => {
        const [theirs, ours = theirs] = each.trim().split(" as ");
        return `${nameIn(file, theirs)} as ${ours}`;
      });
      return `${verb}${gap}{${gap}${renamed.join(`,${gap}`)}${gap}}${gap}from${gap}"./${name}"`;
    },
  );
}
