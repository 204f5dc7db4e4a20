/** A text as it stands in HTML, between tags or in quoted attributes. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (letter) => `&#${letter.charCodeAt(0)};`);
}
