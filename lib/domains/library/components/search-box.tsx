"use client";

import { usePathname, useRouter } from "next/navigation";
import { useEffect, useRef } from "react";
import { Button } from "@/lib/ui/button";
import { TextInput } from "@/lib/ui/text-input";

const WAIT_MS = 250;

/** The one search box: a plain form that goes to the results; with a script they come as one types. */
export function SearchBox({ text }: { text: string }) {
  const router = useRouter();
  const path = usePathname();
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);

  const ask = (typed: string) => {
    clearTimeout(timer.current);
    timer.current = setTimeout(() => router.replace(typed.trim() === "" ? path : `${path}?text=${encodeURIComponent(typed)}`, { scroll: false }), WAIT_MS);
  };

  return (
    <form role="search" action={path} method="get" className="form">
      <TextInput
        label="Find a fault or a drill"
        hint="Any word you would say: spinning out, casting, back pocket."
        name="text"
        type="search"
        autoComplete="off"
        maxLength={200}
        defaultValue={text}
        onChange={(event) => ask(event.target.value)}
        // Whoever goes on to a link wants that page, not the results that are still due.
        onBlur={(event) => event.relatedTarget !== null && clearTimeout(timer.current)}
      />
      <div className="bar-line">
        <Button type="submit" kind="main">
          Find
        </Button>
      </div>
    </form>
  );
}
