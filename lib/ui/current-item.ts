/** One way to go: where, in words; `also` names other paths that belong to it; `isStrong` fills it with ink. */
export interface NavItem {
  href: string;
  label: string;
  also?: readonly string[];
  isStrong?: boolean;
}

function isWithin(path: string, prefix: string): boolean {
  return path === prefix || path.startsWith(prefix.endsWith("/") ? prefix : `${prefix}/`);
}

/** The item the path belongs to: of all that hold it, the one with the longest path. Undefined where none does. */
export function currentItem(path: string, items: readonly NavItem[]): NavItem | undefined {
  let best: NavItem | undefined;
  let bestLength = 0;
  for (const item of items) {
    for (const prefix of [item.href, ...(item.also ?? [])]) {
      if (isWithin(path, prefix) && prefix.length > bestLength) {
        best = item;
        bestLength = prefix.length;
      }
    }
  }
  return best;
}
