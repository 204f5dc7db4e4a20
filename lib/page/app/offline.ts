import { isSingle } from "./state/files.js";

/** Has the page kept for when there is no network, where it was served and the browser can. It comes into use with the next visit. */
export function tookOffline(): void {
  if (isSingle() || !("serviceWorker" in navigator)) return;
  // On plain HTTP there is none; then the page needs its network, and says so by not loading.
  navigator.serviceWorker.register("service-worker.js").catch(() => undefined);
}
