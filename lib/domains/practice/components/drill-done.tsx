"use client";

import { useActionState, useEffect, useRef } from "react";
import { IDLE } from "@/lib/core/action-state";
import { Button } from "@/lib/ui/button";
import { fieldState } from "@/lib/ui/field-state";
import { FormStatus } from "@/lib/ui/form-status";
import { State } from "@/lib/ui/state";
import { SubmitButton } from "@/lib/ui/submit-button";
import { TextInput } from "@/lib/ui/text-input";
import { useSay } from "@/lib/ui/words/use-say";
import { correctPractice, logPractice, undoPractice } from "../actions";

interface DrillDoneProps {
  planDrillId: string;
  name: string;
  /** Counted for today; 0 before anything is. */
  doneTimes: number;
  /** The drill is to be done now; otherwise pressing is still possible but not asked for. */
  isAsked: boolean;
}

/** Done in one tap; then what is counted, with a way back and a way to another count. Works without scripts too. */
export function DrillDone({ planDrillId, name, doneTimes, isAsked }: DrillDoneProps) {
  const say = useSay();
  const [logged, log] = useActionState(logPractice, IDLE);
  const [undone, undo] = useActionState(undoPractice, IDLE);
  const [corrected, correct] = useActionState(correctPractice, IDLE);
  const place = useRef<HTMLDivElement>(null);
  const before = useRef(doneTimes);
  useEffect(() => {
    // The pressed button is gone now; whoever reads by ear or goes by key stays at this drill.
    if (before.current !== doneTimes) place.current?.focus({ preventScroll: true });
    before.current = doneTimes;
  }, [doneTimes]);
  const drill = <input type="hidden" name="planDrillId" value={planDrillId} />;

  return (
    <div className="whole" ref={place} tabIndex={-1} role="group" aria-label={name}>
      {doneTimes === 0 ? (
        <form action={log}>
          {drill}
          {logged.status === "refused" ? <FormStatus state={logged} /> : null}
          <SubmitButton isBig isWide kind={isAsked ? "main" : undefined} pendingText={say("Counting …")} aria-label={say("Done: {name}", { name })}>
            {say("Done")}
          </SubmitButton>
        </form>
      ) : (
        <>
          <div className="bar-line">
            <p role="status">
              <State is="seen">{say("Done, {count} counted", { count: doneTimes })}</State>
            </p>
            <form action={undo} className="push">
              {drill}
              <Button type="submit" aria-label={say("Undo: {name}", { name })}>
                {say("Undo")}
              </Button>
            </form>
          </div>
          {undone.status === "refused" ? <FormStatus state={undone} /> : null}
          <details open={corrected.status === "refused" || undefined}>
            <summary className="small quiet">{say("I did another number")}</summary>
            <form action={correct} className="form">
              {drill}
              <TextInput name="times" label={say("How many today")} inputMode="numeric" autoComplete="off" isShort required {...fieldState(corrected, "times", String(doneTimes))} />
              {corrected.status === "refused" ? <FormStatus state={corrected} /> : null}
              <Button type="submit">{say("Count this")}</Button>
            </form>
          </details>
        </>
      )}
    </div>
  );
}
