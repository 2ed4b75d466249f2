"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import { currentItem, type NavItem } from "./current-item";

/** The list inside a navigation; marks the item the open page belongs to. */
export function NavList({ items }: { items: readonly NavItem[] }) {
  const path = usePathname() ?? "";
  const current = currentItem(path, items);
  return (
    <ul>
      {items.map((item) => (
        <li key={item.href}>
          <Link
            href={item.href}
            className={item.isStrong ? "strong" : undefined}
            aria-current={item !== current ? undefined : item.href === path ? "page" : "true"}
          >
            {item.label}
          </Link>
        </li>
      ))}
    </ul>
  );
}
