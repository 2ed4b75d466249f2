"use client";

import { Button } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <Leaf>
      <Problem
        level="h1"
        isNews
        happened="This page could not be made."
        kept="What you had sent before is kept."
        todo={error.digest ? `Try again. If it stays so, tell an admin the number ${error.digest}.` : "Try again in a moment."}
        action={
          <Button kind="main" onClick={reset}>
            Try again
          </Button>
        }
      />
    </Leaf>
  );
}
