import { useCallback, useSyncExternalStore } from "react";
import type { Id } from "@/lib/core/ids";

const listeners = new Set<() => void>();
const keyOf = (userId: Id) => `cagebook-lesson-${userId}`;

/** Who is here, kept on this device from one lesson to the next: ids only. */
export function useHere(userId: Id): readonly [string, (ids: readonly Id[]) => void] {
  const subscribe = useCallback((listener: () => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }, []);
  const kept = useSyncExternalStore(subscribe, () => readKept(userId), () => "");
  const set = useCallback(
    (ids: readonly Id[]) => {
      try {
        localStorage.setItem(keyOf(userId), ids.join(" "));
      } catch {
        // A browser that keeps nothing still has the page itself.
      }
      memory = ids.join(" ");
      for (const listener of listeners) listener();
    },
    [userId],
  );
  return [kept, set];
}

let memory: string | null = null;

function readKept(userId: Id): string {
  try {
    return localStorage.getItem(keyOf(userId)) ?? memory ?? "";
  } catch {
    return memory ?? "";
  }
}
