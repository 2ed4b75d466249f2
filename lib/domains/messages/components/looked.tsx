"use client";

import { useEffect } from "react";
import { lookAtThread } from "../actions";

/** Says, once the thread is on the screen, that nothing in it waits for its reader any more. */
export function Looked({ playerId }: { playerId: string }) {
  useEffect(() => {
    void lookAtThread({ playerId });
  }, [playerId]);
  return null;
}
