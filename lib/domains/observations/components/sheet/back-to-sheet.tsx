"use client";

import { useRouter } from "next/navigation";
import { useEffect } from "react";
import { ButtonLink } from "@/lib/ui/button";

interface BackToSheetProps {
  /** The sheet and the cell somebody came from. */
  readonly href: string;
}

/** The way back from a frame to its cell on the sheet: a link, and Escape once there is nothing left to cancel. */
export function BackToSheet({ href }: BackToSheetProps) {
  const router = useRouter();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== "Escape" || event.defaultPrevented) return;
      if (event.target instanceof HTMLElement && event.target.closest("input, textarea, select, dialog")) return;
      router.push(href);
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, [href, router]);
  return <ButtonLink href={href}>Back to the sheet</ButtonLink>;
}
