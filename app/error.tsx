"use client";

import { useSay } from "@/lib/ui/words/use-say";
import { Button } from "@/lib/ui/button";
import { Leaf } from "@/lib/ui/leaf";
import { Problem } from "@/lib/ui/problem";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  const say = useSay();
  return (
    <Leaf>
      <Problem
        level="h1"
        isNews
        happened={say("This page could not be made.")}
        kept={say("What you had sent before is kept.")}
        todo={error.digest ? say("Try again. If it stays so, tell an admin the number {number}.", { number: error.digest }) : say("Try again in a moment.")}
        action={
          <Button kind="main" onClick={reset}>
            {say("Try again")}
          </Button>
        }
      />
    </Leaf>
  );
}
