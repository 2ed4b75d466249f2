"use client";
import { useEffect } from "react";
import type { ClipView } from "../../view";
import { useFrameSource, type SourceStatus } from "../use-frame-source";

export interface OpenClipProps {
  readonly clip: ClipView;
  /** Told how far the pictures are; null once the clip has been closed. */
  readonly onStatus: (clipId: string, status: SourceStatus | null) => void;
}

/** Keeps the pictures of one clip open as long as it stands on the page; shows nothing itself. */
export function OpenClip({ clip, onStatus }: OpenClipProps) {
  const status = useFrameSource(clip);
  useEffect(() => onStatus(clip.id, status), [clip.id, status, onStatus]);
  useEffect(() => () => onStatus(clip.id, null), [clip.id, onStatus]);
  return null;
}
