import { classNames } from "./class-names";

/** The first letters of the first and the last name; one letter for a single name. */
export function initialsOf(name: string): string {
  const parts = name.trim().split(/\s+/).filter(Boolean);
  const first = Array.from(parts[0] ?? "")[0] ?? "";
  const last = parts.length > 1 ? (Array.from(parts[parts.length - 1] ?? "")[0] ?? "") : "";
  return (first + last).toLocaleUpperCase();
}

/** A person without a picture. The name itself must stand beside it; the tile is not read aloud. */
export function Initials({ name, isLarge = false }: { name: string; isLarge?: boolean }) {
  return (
    <span className={classNames("initials", isLarge && "large")} aria-hidden="true">
      {initialsOf(name)}
    </span>
  );
}
