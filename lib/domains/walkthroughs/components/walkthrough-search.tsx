import Link from "next/link";
import { Button } from "@/lib/ui/button";
import { TextInput } from "@/lib/ui/text-input";
import { sayMinutes } from "../rules";
import type { FoundRow } from "../view";

interface WalkthroughSearchProps {
  readonly text: string;
  /** Null before anything was asked for. */
  readonly found: readonly FoundRow[] | null;
  readonly base: string;
}

/** Finds what was said by any word for it, and opens the talk at that instant. */
export function WalkthroughSearch({ text, found, base }: WalkthroughSearchProps) {
  return (
    <section className="opens closes" aria-label="Find in walkthroughs">
      <form action={base} role="search" className="bar-line">
        <TextInput name="find" type="search" label="Find what was said" defaultValue={text} hint="By any word a coach would say: other names in the library count." />
        <Button type="submit">Find</Button>
      </form>
      {found ? (
        found.length > 0 ? (
          <ul className="rows">
            {found.map((it, i) => (
              <li key={i}>
                <Link href={`${base}/${it.walkthroughId}?at=${Math.round(it.ms)}`}>{it.title}, {sayMinutes(it.ms)}</Link>: {it.words}
              </li>
            ))}
          </ul>
        ) : (
          <p className="note" role="status">Nothing was found for “{text}”. Talks without captions are found by their chapters only.</p>
        )
      ) : null}
    </section>
  );
}
