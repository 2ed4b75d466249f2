"use client";

import { useEffect, useId, useRef, useState, type ReactNode } from "react";
import { Button } from "./button";

interface DialogProps {
  isOpen: boolean;
  onClose: () => void;
  /** A question. */
  title: string;
  /** What goes, what stays, and that it cannot be undone. */
  children: ReactNode;
  /** The safe answer: filled, first, and in focus. */
  safeText: string;
  /** The other answer: a button, or a form with one. */
  act: ReactNode;
}

/** Asks before what cannot be undone. Escape and the safe answer both close it and change nothing. */
export function Dialog({ isOpen, onClose, title, children, safeText, act }: DialogProps) {
  const ref = useRef<HTMLDialogElement>(null);
  const id = useId();
  useEffect(() => {
    const dialog = ref.current;
    if (!dialog) return;
    if (isOpen && !dialog.open) dialog.showModal();
    if (!isOpen && dialog.open) dialog.close();
  }, [isOpen]);

  return (
    <dialog ref={ref} className="slip lifted" aria-labelledby={`${id}-title`} aria-describedby={`${id}-text`} onClose={onClose}>
      <h2 className="as-h3" id={`${id}-title`}>
        {title}
      </h2>
      <div id={`${id}-text`}>{children}</div>
      <div className="bar-line">
        <Button kind="main" onClick={onClose}>
          {safeText}
        </Button>
        {act}
      </div>
    </dialog>
  );
}

/** A button that opens such a dialog; the whole of it can be written by a page. */
export function DialogButton({ text, ...dialog }: Omit<DialogProps, "isOpen" | "onClose"> & { text: ReactNode }) {
  const [isOpen, setIsOpen] = useState(false);
  return (
    <>
      <Button aria-haspopup="dialog" onClick={() => setIsOpen(true)}>
        {text}
      </Button>
      <Dialog {...dialog} isOpen={isOpen} onClose={() => setIsOpen(false)} />
    </>
  );
}
