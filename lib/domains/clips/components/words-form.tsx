"use client";
import { useEffect, useRef, useState, type FormEvent } from "react";

const mostLetters = 60;

interface WordsFormProps {
  readonly start: string;
  readonly onDone: (text: string) => void;
  readonly onCancel: () => void;
}

/** Words that stand on a picture, to be written. */
export function WordsForm({ start, onDone, onCancel }: WordsFormProps) {
  const [text, setText] = useState(start);
  const inputRef = useRef<HTMLInputElement>(null);
  useEffect(() => inputRef.current?.focus(), []);
  const onSubmit = (event: FormEvent) => {
    event.preventDefault();
    if (text.trim() !== "") onDone(text.trim());
  };
  return (
    <form className="field" onSubmit={onSubmit}>
      <label>
        Words for the picture
        <input ref={inputRef} value={text} maxLength={mostLetters} onChange={(event) => setText(event.target.value)} onKeyDown={(event) => event.key === "Escape" && onCancel()} />
      </label>
      <span className="bar-line" style={{ padding: 0 }}>
        <button type="submit" className="btn main">Keep the words</button>
        <button type="button" className="btn" onClick={onCancel}>Leave it</button>
      </span>
    </form>
  );
}
