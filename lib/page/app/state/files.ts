/**
 * A file of the page: from the document itself where the page is one file, else from its folder. Throws `Error` when it is not there; then the
 * page is not whole.
 */
export async function fileText(path: string): Promise<string> {
  return inside(path) ?? (await fetched(path)).text();
}

/** The bytes of a file of the page, as `fileText`. */
export async function fileBytes(path: string): Promise<ArrayBuffer> {
  const text = inside(path);
  if (text === undefined) return (await fetched(path)).arrayBuffer();
  return Uint8Array.from(atob(text), (character) => character.charCodeAt(0)).buffer;
}

function inside(path: string): string | undefined {
  const elements = [...document.querySelectorAll<HTMLElement>("script[data-file]")];
  return elements.find(({ dataset }) => dataset.file === path)?.textContent;
}

async function fetched(path: string): Promise<Response> {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  return answer;
}

/** Whether this page is one file. */
export function isSingle(): boolean {
  return document.querySelector("script[data-part]") !== null;
}
