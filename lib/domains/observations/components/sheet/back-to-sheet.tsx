"use client";

import { useEffect, useRef } from "react";
import { ButtonLink } from "@/lib/ui/button";

interface BackToSheetProps {
  /** The sheet and the cell somebody came from. */
  readonly href: string;
}

/** The way back from a frame to its cell on the sheet: a link, and Escape once there is nothing left to cancel. */
export function BackToSheet({ href }: BackToSheetProps) {
  const linkRef = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      if (event.target instanceof HTMLElement && event.target.closest("input, textarea, select, dialog")) return;
      // A press like any other: whatever holds presses back holds this one too.
      linkRef.current?.click();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
  return (
    <ButtonLink ref={linkRef} href={href}>
      Back to the sheet
    </ButtonLink>
  );
}
