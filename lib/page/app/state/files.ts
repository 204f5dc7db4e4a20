/**
 * A file of the page: from the document itself where the page is one file, else from its folder. Throws `Error` when it is not there; then the
 * page is not whole.
 */
export async function fileText(path: string): Promise<string> {
  const inside = [...document.querySelectorAll<HTMLElement>("script[data-file]")].find(
    (element) => element.dataset.file === path,
  );
  if (inside !== undefined) return inside.textContent;
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
  return answer.text();
}

/** Whether this page is one file. */
export function isSingle(): boolean {
  return document.querySelector("script[data-part]") !== null;
}
