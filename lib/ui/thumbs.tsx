import type { CSSProperties } from "react";
import { english, type Say } from "@/lib/core/words/say";
import type { NavItem } from "./current-item";
import { NavList } from "./nav-list";

/** What stands beside a word in its part of the bar, in letters. */
const MARGIN_LETTERS = 3;

/**
 * How wide each part of the bar is: by the letters of its longest word and not by the width of what is drawn, so that every
 * part stays where it is whatever font has come and whichever is marked.
 */
function widthsOf(items: readonly NavItem[]): string {
  return items.map(({ label }) => `minmax(0, ${Math.max(...label.split(" ").map((word) => word.length)) + MARGIN_LETTERS}fr)`).join(" ");
}

/** The phone's way round, at the bottom edge; up to six items of one or two short words. Stands after `Leaf` in the page. */
export function Thumbs({ items, say = english }: { items: readonly NavItem[]; say?: Say }) {
  return (
    <nav className="thumbs no-print" aria-label={say("Main, at the thumb")} style={{ "--widths": widthsOf(items) } as CSSProperties}>
      <NavList items={items} />
    </nav>
  );
}
