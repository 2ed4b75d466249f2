/** A press as far as it may lead away. */
export interface Press {
  readonly button: number;
  readonly hasModifier: boolean;
  /** The link that was pressed; null for anything else. */
  readonly link: { readonly href: string; readonly target: string; readonly isDownload: boolean } | null;
}

/** Whether a press leaves this page in this window: then what is on its way must be kept first. A link to another place of the same page stays, and so does what opens elsewhere. */
export function leavesPage({ button, hasModifier, link }: Press, here: string): boolean {
  if (button !== 0 || hasModifier || !link || link.isDownload || (link.target !== "" && link.target !== "_self")) return false;
  const [to, from] = [new URL(link.href, here), new URL(here)];
  if (!/^https?:$/.test(to.protocol)) return false;
  return to.origin !== from.origin || to.pathname !== from.pathname || to.search !== from.search;
}

/** What becomes of a press that waits: it goes once all is kept, and not when something was not kept, so that this is read first. */
export function afterWaiting(unsent: number, hasFailed: boolean): "wait" | "go" | "stay" {
  if (hasFailed) return "stay";
  return unsent > 0 ? "wait" : "go";
}
