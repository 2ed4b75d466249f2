"use client";

import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { Button } from "@/lib/ui/button";
import { useSay } from "@/lib/ui/words/use-say";

interface SendButtonProps {
  children: ReactNode;
  kind?: "main" | "plain";
  /** Read aloud instead of the words, where the same words stand several times. */
  label?: string;
}

/** Sends the form it stands in, on paper unless it is the one main thing of its page. Cannot be pressed twice. */
export function SendButton({ children, kind, label }: SendButtonProps) {
  const say = useSay();
  const { pending: isPending } = useFormStatus();
  return (
    <Button
      kind={kind}
      type="submit"
      aria-label={label}
      aria-disabled={isPending || undefined}
      onClick={(event) => {
        if (isPending) event.preventDefault();
      }}
    >
      {isPending ? say("Working on it …") : children}
    </Button>
  );
}
