"use client";

import { useEffect, useRef, useState } from "react";
import { addWords } from "../add-words";
import type { SendingFilm } from "../sending/sending-line";
import { lessonWords as words } from "./lesson-words";

/** A chosen film, playing over and over without sound where this browser can show it; else what it says of itself. */
export function FilmPreview({ film, label }: { readonly film: Pick<SendingFilm, "bytes" | "facts">; readonly label: string }) {
  const { bytes, facts } = film;
  const videoRef = useRef<HTMLVideoElement>(null);
  const [isRefused, setIsRefused] = useState(false);
  useEffect(() => {
    const video = videoRef.current;
    if (!video) return;
    const url = URL.createObjectURL(bytes);
    video.src = url;
    // Who wants less motion presses play.
    if (!window.matchMedia("(prefers-reduced-motion: reduce)").matches) void video.play().catch(() => undefined);
    return () => {
      video.removeAttribute("src");
      URL.revokeObjectURL(url);
    };
  }, [bytes]);
  if (isRefused || facts === null || (facts !== "reading" && !facts.canShow)) {
    const told = facts && facts !== "reading" ? words.factsOf(facts.seconds.toFixed(1), facts.fps) : "";
    return (
      <div className="no-film">
        <p>{facts === null ? addWords.unreadable : words.notShown(told)}</p>
      </div>
    );
  }
  return <video ref={videoRef} aria-label={label} muted loop playsInline controls disablePictureInPicture onError={() => setIsRefused(true)} />;
}
