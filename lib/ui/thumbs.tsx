import { english, type Say } from "@/lib/core/words/say";
import type { NavItem } from "./current-item";
import { NavList } from "./nav-list";

/** The phone's way round, at the bottom edge; up to six items of one or two short words. Stands after `Leaf` in the page. */
export function Thumbs({ items, say = english }: { items: readonly NavItem[]; say?: Say }) {
  return (
    <nav className="thumbs no-print" aria-label={say("Main, at the thumb")}>
      <NavList items={items} />
    </nav>
  );
}
