import { useCallback, useEffect, useRef, useState } from "react";
import { afterWaiting, leavesPage } from "./leaving";

export interface LeaveGuard {
  /** Somebody pressed a link, and goes there once all is kept. */
  readonly isWaiting: boolean;
  /** Goes at once, whatever becomes of what is on its way. */
  readonly leave: () => void;
  readonly stay: () => void;
}

/**
 * Nobody leaves while a change is on its way: a pressed link waits until all is kept and then goes, and the browser asks before the page is
 * closed, left by its own keys or read anew. Going back in the browser's history within the house cannot be held.
 */
export function useLeaveGuard(unsent: number, hasFailed: boolean): LeaveGuard {
  const [held, setHeld] = useState<HTMLAnchorElement | null>(null);
  const isLeavingRef = useRef(false);
  const isBusy = unsent > 0;
  const go = useCallback((link: HTMLAnchorElement) => {
    isLeavingRef.current = true;
    setHeld(null);
    if (link.isConnected) link.click();
    else location.assign(link.href);
  }, []);

  useEffect(() => {
    if (!isBusy) return;
    isLeavingRef.current = false;
    const onUnload = (event: BeforeUnloadEvent) => event.preventDefault();
    const onClick = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest<HTMLAnchorElement>("a[href]") : null;
      const { button, metaKey, ctrlKey, shiftKey, altKey } = event;
      const press = { button, hasModifier: metaKey || ctrlKey || shiftKey || altKey, link: link && { href: link.href, target: link.target, isDownload: link.hasAttribute("download") } };
      if (isLeavingRef.current || event.defaultPrevented || !link || !leavesPage(press, location.href)) return;
      event.preventDefault();
      event.stopPropagation();
      setHeld(link);
    };
    window.addEventListener("beforeunload", onUnload);
    window.addEventListener("click", onClick, true);
    return () => {
      window.removeEventListener("beforeunload", onUnload);
      window.removeEventListener("click", onClick, true);
    };
  }, [isBusy]);

  const next = afterWaiting(unsent, hasFailed);
  useEffect(() => {
    if (!held || next === "wait") return;
    // After the page has been painted with what was kept, as a press by hand would come.
    const timer = setTimeout(() => (next === "go" ? go(held) : setHeld(null)));
    return () => clearTimeout(timer);
  }, [held, next, go]);
  return { isWaiting: held !== null, leave: () => held && go(held), stay: () => setHeld(null) };
}
