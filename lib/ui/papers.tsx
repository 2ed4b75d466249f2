import { useId, type ReactNode } from "react";
import { uiWords } from "./words/ui-words";

/** The one best question, laid out on its own leaf with an ink edge. */
export function Slip({ title, children, actions }: { title: string; children?: ReactNode; actions?: ReactNode }) {
  const id = useId();
  return (
    <section className="slip" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      {children}
      {actions ? <div className="bar-line">{actions}</div> : null}
    </section>
  );
}

/** What the family sees, as it will be seen: its date line, then the words. */
export function Letter({ head, label, children }: { head?: ReactNode; label?: string; children: ReactNode }) {
  return (
    <article className="letter" aria-label={label}>
      {head ? <p className="note">{head}</p> : null}
      {children}
    </article>
  );
}

interface AskFirstProps {
  /** What to ask before anything else. */
  children: ReactNode;
  /** The answers, as a `Choice` or buttons. */
  answer?: ReactNode;
  title?: string;
}

/** A question that comes before the readings, in a pencil wash: a person was here, or must be. */
export function AskFirst({ children, answer, title = uiWords.askFirst }: AskFirstProps) {
  return (
    <section className="pencilled askfirst" aria-label={title}>
      <div>
        <b>{title}.</b> {children}
      </div>
      {answer}
    </section>
  );
}
