import type { NavItem } from "./current-item";
import { NavList } from "./nav-list";
import { uiWords } from "./words/ui-words";

/** The phone's way round, at the bottom edge; up to six items of one or two short words. Stands after `Leaf` in the page. */
export function Thumbs({ items }: { items: readonly NavItem[] }) {
  return (
    <nav className="thumbs no-print" aria-label={uiWords.shell.thumbNavigation}>
      <NavList items={items} />
    </nav>
  );
}
