import { useId, type ComponentProps, type ReactNode } from "react";
import { describedBy, FieldNotes } from "./field";

interface CheckRowProps extends Omit<ComponentProps<"input">, "type"> {
  name: string;
  label: ReactNode;
  hint?: ReactNode;
  error?: string;
}

/** One box to tick with its sentence; the whole row can be pressed. */
export function CheckRow({ label, hint, error, id, ...rest }: CheckRowProps) {
  const ownId = useId();
  const fieldId = id ?? ownId;
  return (
    <div className={error ? "field bad" : "field"}>
      <label className="tick" htmlFor={fieldId}>
        <input {...rest} id={fieldId} type="checkbox" {...describedBy(fieldId, { hint, error })} />
        <span>{label}</span>
      </label>
      <FieldNotes id={fieldId} hint={hint} error={error} />
    </div>
  );
}
