import { useCallback, useRef, useState } from "react";
import { IDLE } from "@/lib/core/action-state";
import type { Id } from "@/lib/core/ids";
import { beginUpload, cancelUpload } from "../actions";
import type { BegunUpload } from "../schema";
import { addWords as words } from "./add-words";
import { hashFile, readVideoFile, type VideoFileFacts } from "./read-video-file";
import { sendVideoFile, Stopped, type Sending } from "./send-video-file";

/** One chosen video on its way. */
export interface SendingClip {
  readonly key: number;
  readonly file: File;
  readonly facts: VideoFileFacts | null | "reading";
  readonly state: "waiting" | "reading" | "sending" | "sent" | "known" | "refused" | "stopped";
  readonly arrivedBytes: number;
  readonly sentence: string | null;
  readonly uploadId: Id | null;
}

/** The videos that were chosen, sent one after the other with the answers of the form. */
export function useSendingClips(onEnded: () => void) {
  const [clips, setClips] = useState<readonly SendingClip[]>([]);
  const [fields, setFields] = useState<Readonly<Record<string, string>>>({});
  const [isBusy, setIsBusy] = useState(false);
  const nextKey = useRef(1);
  const sendings = useRef(new Map<number, Sending>());
  const change = useCallback((key: number, to: Partial<SendingClip>) => setClips((all) => all.map((it) => (it.key === key ? { ...it, ...to } : it))), []);

  const choose = (files: readonly File[]) => {
    const chosen = files.map((file): SendingClip => ({ key: nextKey.current++, file, facts: "reading", state: "waiting", arrivedBytes: 0, sentence: null, uploadId: null }));
    setClips((all) => [...all, ...chosen]);
    for (const { key, file } of chosen) void readVideoFile(file).then((facts) => change(key, { facts }));
  };

  const sendOne = async ({ key, file }: SendingClip, answers: FormData) => {
    change(key, { state: "reading", sentence: null });
    const form = new FormData();
    for (const [name, value] of answers) form.append(name, value);
    form.set("byteLength", String(file.size));
    const contentHash = await hashFile(file);
    if (contentHash) form.set("contentHash", contentHash);
    const begun = await beginUpload(IDLE, form);
    if (begun.status !== "done") {
      const refused = begun.status === "refused" ? begun : null;
      setFields(refused?.fields ?? {});
      return change(key, { state: "refused", sentence: refused?.message ?? null });
    }
    const { uploadId, isResumed, swingId } = begun.data as BegunUpload;
    if (swingId) return change(key, { state: "known", uploadId });
    change(key, { state: "sending", uploadId });
    const sending = sendVideoFile(file, uploadId, isResumed, (arrivedBytes) => change(key, { arrivedBytes }));
    sendings.current.set(key, sending);
    await sending.done.then(
      () => change(key, { state: "sent" }),
      (error: unknown) => change(key, error instanceof Stopped ? { state: "stopped" } : { state: "refused", sentence: words.lost }),
    );
    sendings.current.delete(key);
  };

  const sendAll = async (answers: FormData) => {
    setIsBusy(true);
    setFields({});
    for (const clip of clips) if (clip.state === "waiting" || clip.state === "refused") await sendOne(clip, answers);
    setIsBusy(false);
    onEnded();
  };

  const stop = async (clip: SendingClip) => {
    if (clip.state === "waiting" || clip.state === "refused") return setClips((all) => all.filter((it) => it.key !== clip.key));
    sendings.current.get(clip.key)?.stop();
    if (clip.uploadId) await cancelUpload({ uploadId: clip.uploadId });
    onEnded();
  };

  return { clips, fields, isBusy, choose, sendAll, stop };
}
