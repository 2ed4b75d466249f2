import { useCallback, useEffect, useEffectEvent, useState, useSyncExternalStore } from "react";
import type { z } from "zod";
import type { Id } from "@/lib/core/ids";
import { beginUpload, cancelUpload } from "../../actions";
import { moveUpload } from "../../owner/actions";
import type { beginUploadForm } from "../../schema";
import { dropFilm, keepFilm, listKeptFilms } from "./kept-films";
import { hashFile, readVideoFile } from "./read-video-file";
import { sendVideoFile } from "./send-video-file";
import { isEnded, SendingLine, type SendingDeps, type SendingFilm } from "./sending-line";

const LINE_AGAIN_MS = [2000, 5000, 10_000, 20_000];
const NOTHING: readonly SendingFilm[] = [];

type Begin = SendingDeps["begin"];
const beginAsCoach: Begin = (input) => beginUpload(input as unknown as z.input<typeof beginUploadForm>);

/** The line of films of this page. What waited on this device for the player (or for anybody) goes on by itself. `begin` asks the house: as a coach, unless said otherwise. */
export function useSendingLine(userId: Id, playerId: Id | null, onEnded: () => void, begin: Begin = beginAsCoach): { readonly films: readonly SendingFilm[]; readonly line: SendingLine } {
  const [line] = useState(() => new SendingLine(depsOf(userId, begin)));
  const films = useSyncExternalStore(line.subscribe, line.snapshot, useCallback(() => NOTHING, []));
  const endedCount = films.filter(({ state }) => isEnded(state)).length;
  const tellEnded = useEffectEvent(onEnded);
  useEffect(() => {
    if (endedCount > 0) tellEnded();
  }, [endedCount]);
  useEffect(() => {
    let isLeft = false;
    void listKeptFilms(userId, Date.now()).then((kept) => {
      if (!isLeft) line.adopt(playerId ? kept.filter((it) => it.playerId === playerId) : kept);
    });
    return () => {
      isLeft = true;
    };
  }, [line, userId, playerId]);
  const isLosing = films.some((it) => !it.isKept && !isEnded(it.state));
  useEffect(() => {
    if (!isLosing) return;
    const ask = (event: BeforeUnloadEvent) => event.preventDefault();
    window.addEventListener("beforeunload", ask);
    return () => window.removeEventListener("beforeunload", ask);
  }, [isLosing]);
  return { films, line };
}

const depsOf = (userId: Id, begin: Begin): SendingDeps => ({
  userId,
  begin,
  readFacts: readVideoFile,
  hash: hashFile,
  cancel: (uploadId: Id) => cancelUpload({ uploadId }),
  move: (uploadId: Id, toPlayerId: Id, side: string | undefined) => moveUpload({ uploadId, toPlayerId, toSide: side as "right" | "left" | undefined }),
  send: sendVideoFile,
  keep: keepFilm,
  drop: dropFilm,
  lineBack,
  alone,
  nowMs: () => Date.now(),
});

/** When the device says that it has a line again, or after a while, since a device does not always know. */
function lineBack(attempt: number): Promise<void> {
  return new Promise((resolve) => {
    const again = () => {
      clearTimeout(timer);
      window.removeEventListener("online", again);
      resolve();
    };
    const timer = setTimeout(again, LINE_AGAIN_MS[attempt] ?? LINE_AGAIN_MS.at(-1));
    window.addEventListener("online", again);
  });
}

async function alone(id: string, work: () => Promise<void>): Promise<void> {
  // Only pages that came over a safe line have locks; without them two windows get in each other's way, and the house sorts them out.
  if (!("locks" in navigator)) return work();
  await navigator.locks.request(`cagebook-film-${id}`, { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}
