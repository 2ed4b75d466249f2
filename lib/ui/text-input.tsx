import { useId, type ComponentProps } from "react";
import { classNames } from "./class-names";
import { describedBy, Field, type FieldTexts } from "./field";

type Rest<Tag extends "input" | "textarea"> = Omit<ComponentProps<Tag>, "aria-describedby" | "aria-invalid"> & { name: string };

interface TextInputProps extends FieldTexts {
  /** A short field for a number or a code. */
  isShort?: boolean;
}

/** One line of text, or a number, an address, a password: `type` as in HTML. */
export function TextInput({ label, hint, error, mayBeEmpty, isShort, className, id, ...rest }: TextInputProps & Rest<"input">) {
  const ownId = useId();
  const fieldId = id ?? ownId;
  return (
    <Field id={fieldId} label={label} hint={hint} error={error} mayBeEmpty={mayBeEmpty}>
      <input
        {...rest}
        id={fieldId}
        className={classNames(isShort && "short", className) || undefined}
        {...describedBy(fieldId, { hint, error })}
      />
    </Field>
  );
}

/** Several lines of text. */
export function TextArea({ label, hint, error, mayBeEmpty, id, rows = 4, ...rest }: FieldTexts & Rest<"textarea">) {
  const ownId = useId();
  const fieldId = id ?? ownId;
  return (
    <Field id={fieldId} label={label} hint={hint} error={error} mayBeEmpty={mayBeEmpty}>
      <textarea {...rest} rows={rows} id={fieldId} {...describedBy(fieldId, { hint, error })} />
    </Field>
  );
}

interface DateInputProps extends FieldTexts, Omit<Rest<"input">, "type" | "min" | "max" | "defaultValue"> {
  /** ISO days, as `2026-11-25`. */
  defaultValue?: string;
  min?: string;
  max?: string;
}

/** A day, with the device's own calendar; sends an ISO day. */
export function DateInput(props: DateInputProps) {
  return <TextInput {...props} type="date" />;
}
