import { english, type Say } from "@/lib/core/words/say";
import { ButtonLink } from "@/lib/ui/button";

/** From one page of a thread to the next, and back to its newest. */
export function ThreadPages({ base, next, isOlder, say = english }: { readonly base: string; readonly next: string | null; readonly isOlder: boolean; readonly say?: Say }) {
  if (!next && !isOlder) return null;
  return (
    <div className="bar-line">
      {isOlder ? <ButtonLink href={base}>{say("Newest messages")}</ButtonLink> : null}
      {next ? <ButtonLink href={`${base}?after=${next}`}>{say("Older messages")}</ButtonLink> : null}
    </div>
  );
}
