"use client";

import { useEffect, useRef, useState } from "react";
import { Button } from "./button";
import { uiWords } from "./words/ui-words";

interface ToastProps {
  /** One sentence; null takes it away. */
  message: string | null;
  onClose: () => void;
  onUndo?: () => void;
}

const STAYS_MS = 10_000;

/** An ink slip at the bottom with Undo. Stays ten seconds, and as long as somebody is reading or pressing it. */
export function Toast({ message, onClose, onUndo }: ToastProps) {
  const [isHeld, setIsHeld] = useState(false);
  const close = useRef(onClose);
  useEffect(() => {
    close.current = onClose;
  });
  useEffect(() => {
    if (message === null || isHeld) return;
    const timer = setTimeout(() => close.current(), STAYS_MS);
    return () => clearTimeout(timer);
  }, [message, isHeld]);

  return (
    <div className="toast-place" role="status">
      {message === null ? null : (
        <div
          className="toast lifted"
          onPointerEnter={() => setIsHeld(true)}
          onPointerLeave={() => setIsHeld(false)}
          onFocus={() => setIsHeld(true)}
          onBlur={() => setIsHeld(false)}
        >
          <span>{message}</span>
          {onUndo ? <Button onClick={onUndo}>{uiWords.toast.undo}</Button> : null}
          <Button kind="plain" onClick={onClose}>
            {uiWords.toast.close}
          </Button>
        </div>
      )}
    </div>
  );
}
