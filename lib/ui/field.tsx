import type { ReactNode } from "react";
import { classNames } from "./class-names";
import { Here } from "./words/use-say";

/** What every field can be told. */
export interface FieldTexts {
  /** Above the field, always visible. */
  label: ReactNode;
  /** Below it: how to find the answer, what it is for. */
  hint?: ReactNode;
  /** What would be right; shown after "Not kept yet:". */
  error?: string;
  /** Says beside the label that it may stay empty. */
  mayBeEmpty?: boolean;
}

/** The attributes that tie a control to its hint and its error. */
export function describedBy(id: string, { hint, error }: Pick<FieldTexts, "hint" | "error">) {
  const ids = classNames(Boolean(error) && `${id}-error`, Boolean(hint) && `${id}-hint`);
  return { "aria-describedby": ids || undefined, "aria-invalid": error ? true : undefined };
}

/** The hint and the error below a control, with the ids `describedBy` names. */
export function FieldNotes({ id, hint, error }: { id: string } & Pick<FieldTexts, "hint" | "error">) {
  return (
    <>
      {error ? (
        <p className="err" id={`${id}-error`}>
          <b><Here text="Not kept yet:" /></b> {error}
        </p>
      ) : null}
      {hint ? (
        <p className="hint" id={`${id}-hint`}>
          {hint}
        </p>
      ) : null}
    </>
  );
}

/** The label's words, and whether the field may stay empty. */
export function FieldLabel({ label, mayBeEmpty }: Pick<FieldTexts, "label" | "mayBeEmpty">) {
  return (
    <>
      {label}
      {mayBeEmpty ? <span className="may"> (<Here text="may stay empty" />)</span> : null}
    </>
  );
}

/** A labelled place for one control of one's own; the control takes `id` and `describedBy(id, …)`. */
export function Field({ id, children, ...texts }: FieldTexts & { id: string; children: ReactNode }) {
  return (
    <div className={classNames("field", Boolean(texts.error) && "bad")}>
      <label htmlFor={id}>
        <FieldLabel {...texts} />
      </label>
      {children}
      <FieldNotes id={id} hint={texts.hint} error={texts.error} />
    </div>
  );
}
