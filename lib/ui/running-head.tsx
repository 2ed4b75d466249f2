import Link from "next/link";
import type { ReactNode } from "react";
import { english, type Say } from "@/lib/core/words/say";
import type { NavItem } from "./current-item";
import { NavList } from "./nav-list";

interface RunningHeadProps {
  house: { name: string; href: string };
  items: readonly NavItem[];
  /** Who is here, and what belongs to them (sign out, It hurts). */
  who?: ReactNode;
  say?: Say;
}

/** The top line of a book page: the house, the ways to go, who is here. Begins with the skip link to `Leaf`. */
export function RunningHead({ house, items, who, say = english }: RunningHeadProps) {
  return (
    <>
      <a className="skip" href="#main">
        {say("Skip to the page")}
      </a>
      <header className="running no-print">
        <p className="house">
          <Link href={house.href}>{house.name}</Link>
        </p>
        {items.length > 0 ? (
          <nav aria-label={say("Main")}>
            <NavList items={items} />
          </nav>
        ) : (
          <span />
        )}
        {who ? <div className="who">{who}</div> : null}
      </header>
    </>
  );
}
