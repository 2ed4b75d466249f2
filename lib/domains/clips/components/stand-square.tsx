import type { CameraView } from "../view";
import { cameraWords } from "./camera-words";

const words = cameraWords.stand;

/** Before filming: where the camera belongs for a view, and what it costs when it stands elsewhere. */
export function StandSquare({ view, isLastKnown }: { readonly view: CameraView; readonly isLastKnown: boolean }) {
  return (
    <div className="field" role="note" aria-label={words.title}>
      <p>
        <b>{words.title}.</b> {words[view]}
      </p>
      <p className="hint">
        {words.greys} {isLastKnown ? null : words.unknown}
      </p>
    </div>
  );
}
