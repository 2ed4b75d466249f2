"use client";

import { useActionState } from "react";
import { medianIntervalSeconds } from "@/lib/core/frame-times";
import { IDLE } from "@/lib/core/action-state";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { setClipFacts } from "../actions";
import type { CameraFacts, UploadFacts } from "../schema";
import type { ClipView } from "../view";
import { addWords as words } from "./add-words";
import { CameraFactFields } from "./fact-fields";

/** Corrects from where and how a clip was filmed. */
export function ClipFactsForm({ clip, camera }: { readonly clip: ClipView; readonly camera: CameraFacts }) {
  const [state, act] = useActionState(setClipFacts, IDLE);
  const begin = { ...camera, view: clip.view, isMirrored: clip.isMirrored, filmedRate: answerOf(clip) };
  return (
    <details className="fold">
      <summary>{words.howFilmed}</summary>
      <form className="form" action={act}>
        <input type="hidden" name="clipId" value={clip.id} />
        <CameraFactFields begin={begin} errors={state.status === "refused" ? state.fields : {}} />
        <FormStatus state={state} />
        <SubmitButton kind={undefined}>{words.keepFacts}</SubmitButton>
      </form>
    </details>
  );
}

/** The answer from which the clip's time was made. */
function answerOf(clip: ClipView): UploadFacts["filmedRate"] {
  if (clip.timeBasis === "unknown") return "unknown";
  if (clip.realSecondsPerFileSecond === 1) return "as-file";
  const filmedFps = 1 / (medianIntervalSeconds(clip.frameTimes) * clip.realSecondsPerFileSecond);
  return filmedFps > 180 ? "240" : "120";
}
