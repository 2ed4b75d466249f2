"use client";

import { useActionState } from "react";
import { filmedRateOf } from "@/lib/core/filmed-rate";
import { IDLE } from "@/lib/core/action-state";
import { writtenDeg } from "@/lib/measure/camera/line-words";
import { FormStatus } from "@/lib/ui/form-status";
import { SubmitButton } from "@/lib/ui/submit-button";
import { setClipFacts } from "../actions";
import type { CameraFacts } from "../schema";
import type { ClipView } from "../view";
import { addWords as words } from "./add-words";
import { CameraFactFields } from "./fact-fields";

/** Corrects from where and how a clip was filmed. */
export function ClipFactsForm({ clip, camera }: { readonly clip: ClipView; readonly camera: CameraFacts }) {
  const [state, act] = useActionState(setClipFacts, IDLE);
  const cameraOffDeg = camera.cameraOffDeg === null ? null : writtenDeg(camera.cameraOffDeg);
  const begin = { ...camera, cameraOffDeg, view: clip.view, isMirrored: clip.isMirrored, filmedRate: filmedRateOf(clip.frameTimes, clip) };
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
