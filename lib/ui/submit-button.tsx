"use client";

import type { ComponentProps } from "react";
import { useFormStatus } from "react-dom";
import { Button } from "./button";
import { useSay } from "./words/use-say";

interface SubmitButtonProps extends ComponentProps<typeof Button> {
  /** The words while the form is on its way. */
  pendingText?: string;
}

/** Sends the form it stands in; says so while it is on its way and cannot be pressed twice. */
export function SubmitButton({ kind = "main", pendingText, children, onClick, ...rest }: SubmitButtonProps) {
  const say = useSay();
  const { pending: isPending } = useFormStatus();
  return (
    <Button
      {...rest}
      kind={kind}
      type="submit"
      aria-disabled={isPending || undefined}
      onClick={(event) => {
        if (isPending) event.preventDefault();
        else onClick?.(event);
      }}
    >
      {isPending ? (pendingText ?? say("Working on it …")) : children}
    </Button>
  );
}
