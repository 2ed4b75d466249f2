"use client";

import Link from "next/link";
import { useRouter } from "next/navigation";
import { useEffect, useTransition } from "react";
import type { ActionState } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { Problem } from "@/lib/ui/problem";
import { State } from "@/lib/ui/state";
import { cancelUpload, dismissUpload } from "../actions";
import { retryUpload } from "../arriving/actions";
import type { UploadRow } from "../schema";
import { addWords as words } from "./add-words";

const ASK_AGAIN_MS = 2000;

/** What became of the videos that were sent: looks again by itself while one is being looked at. */
export function UploadList({ uploads }: { readonly uploads: readonly (UploadRow & { readonly playerName?: string })[] }) {
  const router = useRouter();
  const [isAsking, ask] = useTransition();
  const isChecking = uploads.some((it) => it.state === "checking");
  // Asked again only once the last answer is here: on a slow line the answers would else chase one another.
  useEffect(() => {
    if (!isChecking || isAsking) return;
    const timer = setTimeout(() => ask(() => router.refresh()), ASK_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [isChecking, isAsking, router]);
  const settle = async (action: (input: { uploadId: string }) => Promise<ActionState>, uploadId: string) => {
    await action({ uploadId });
    router.refresh();
  };

  return (
    <ul className="rows" aria-live="polite">
      {uploads.map((it) => (
        <li key={it.id}>
          {it.state === "refused" ? (
            <Problem
              level="h3" happened={it.playerName ? `${it.playerName}: ${words.refusedTitle}` : words.refusedTitle} kept={it.refusal}
              action={
                <>
                  {it.canRetry ? <Button onClick={() => void settle(retryUpload, it.id)}>{words.tryAgain}</Button> : null}
                  <Button kind={it.canRetry ? "plain" : undefined} onClick={() => void settle(dismissUpload, it.id)}>{words.putAway}</Button>
                </>
              }
            />
          ) : it.state === "ready" ? (
            <>
              <Whose upload={it} words={it.wasKnown ? words.known : words.ready} />
              {it.swingId ? (
                <span className="bar-line">
                  <Link href={`/swings/${it.swingId}`}>{words.open}</Link>
                  {it.playerName ? <Link href={`/swings/${it.swingId}/clips`}>{words.notWhose(it.playerName.split(" ")[0] ?? "")}</Link> : null}
                </span>
              ) : null}
            </>
          ) : it.state === "checking" ? (
            <>
              {it.playerName ? <b>{it.playerName}</b> : null}
              {/* eslint-disable-next-line @next/next/no-img-element -- a checked address of our own */}
              {it.posterUrl ? <img src={it.posterUrl} alt="" width={96} className="arriving-poster" /> : null}
              <State is="waiting">{words.checking}</State>
            </>
          ) : (
            <>
              <Whose upload={it} words={words.partly} />
              <Button kind="plain" onClick={() => void settle(cancelUpload, it.id)}>
                {words.stop}
              </Button>
            </>
          )}
        </li>
      ))}
    </ul>
  );
}

/** What became of it, after whose it is where films of several players stand in one list. */
function Whose({ upload, words: said }: { readonly upload: { readonly playerName?: string }; readonly words: string }) {
  return <span>{upload.playerName ? <><b>{upload.playerName}</b>: {said}</> : said}</span>;
}
