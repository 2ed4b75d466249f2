import { ButtonLink } from "@/lib/ui/button";

/** From one page of a thread to the next, and back to its newest. */
export function ThreadPages({ base, next, isOlder }: { readonly base: string; readonly next: string | null; readonly isOlder: boolean }) {
  if (!next && !isOlder) return null;
  return (
    <div className="bar-line">
      {isOlder ? <ButtonLink href={base}>Newest messages</ButtonLink> : null}
      {next ? <ButtonLink href={`${base}?after=${next}`}>Older messages</ButtonLink> : null}
    </div>
  );
}
