"use client";

import { useRouter } from "next/navigation";
import { useEffect, useTransition } from "react";
import { Button, ButtonLink } from "@/lib/ui/button";
import { Entry } from "@/lib/ui/entry";
import { State } from "@/lib/ui/state";
import { useSay } from "@/lib/ui/words/use-say";
import { retryUpload } from "../../arriving/actions";
import type { SentRow } from "../../sent/view";
import { sentWords as words } from "./sent-words";

const ASK_AGAIN_MS = 3000;

interface SentListProps {
  readonly playerId: string;
  readonly rows: readonly (SentRow & { readonly dayWords: string })[];
}

/** What a family sent, newest first, and what became of each. Looks again by itself while one is being opened. */
export function SentList({ playerId, rows }: SentListProps) {
  const say = useSay();
  const router = useRouter();
  const [isAsking, ask] = useTransition();
  const isOpening = rows.some(({ isBeingOpened }) => isBeingOpened);
  useEffect(() => {
    if (!isOpening || isAsking) return;
    const timer = setTimeout(() => ask(() => router.refresh()), ASK_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [isOpening, isAsking, router]);
  const tryAgain = async (uploadId: string) => {
    await retryUpload({ uploadId });
    router.refresh();
  };
  return rows.map((row) => (
    <Entry key={row.id} side={row.dayWords} isStrong>
      <div className="sent-clip" aria-live="polite">
        {/* eslint-disable-next-line @next/next/no-img-element -- a checked address of our own */}
        {row.posterUrl ? <img src={row.posterUrl} alt="" width={96} className="arriving-poster" /> : null}
        <div className="flow">
          <p>
            <SentStateWords row={row} />
          </p>
          {row.words ? <p className="said">“{row.words}”</p> : null}
          {row.refusal ? <p>{say.told(row.refusal)}</p> : null}
          {row.retryUploadId ? <Button onClick={() => void tryAgain(row.retryUploadId ?? "")}>{say("Try again")}</Button> : null}
          <SentLink playerId={playerId} row={row} />
        </div>
      </div>
    </Entry>
  ));
}

/** How far it is: never a colour alone. */
function SentStateWords({ row }: { readonly row: SentRow }) {
  const say = useSay();
  if (row.state === "answered") return <State is="seen">{row.answeredBy ? say("Answered by {who}", { who: row.answeredBy }) : say(words.states.answered)}</State>;
  if (row.state === "refused") return <b>{say(words.states.refused)}</b>;
  const more = row.state !== "on-its-way" ? "" : row.isBeingOpened ? ` ${say("It is here and being opened.")}` : ` ${say("If it stopped, choose the same video again to go on.")}`;
  return (
    <State is="waiting">
      {say(words.states[row.state])}
      {more ? `.${more}` : ""}
    </State>
  );
}

function SentLink({ playerId, row }: { readonly playerId: string; readonly row: SentRow & { readonly dayWords: string } }) {
  const say = useSay();
  if (row.state === "on-its-way" || row.state === "refused") return null;
  const base = `/family/${playerId}`;
  const isAnswered = row.state === "answered";
  const href = row.walkthroughId ? `${base}/walkthroughs/${row.walkthroughId}` : `${base}/clips/${row.id}`;
  return (
    <ButtonLink href={href} kind={isAnswered ? undefined : "plain"} aria-label={`${isAnswered ? say("Open the answer") : say("See it again")}: ${row.dayWords}`}>
      {isAnswered ? say("Open the answer") : say("See it again")}
    </ButtonLink>
  );
}
