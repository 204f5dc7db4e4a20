import { h } from "./element.js";

/** Offers a text as a file to save. */
export function saveFile(name: string, text: string, type: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = h("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  // The browser reads it after the click: our choice of how long it may take.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
