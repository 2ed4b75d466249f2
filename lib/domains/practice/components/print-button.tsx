"use client";

import { Button } from "@/lib/ui/button";

/** Prints the page. */
export function PrintButton({ children }: { children: string }) {
  return (
    <Button kind="main" onClick={() => window.print()}>
      {children}
    </Button>
  );
}
