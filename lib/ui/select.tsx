import { useId, type ComponentProps } from "react";
import { describedBy, Field, type FieldTexts } from "./field";
import { Here } from "./words/use-say";

/** One of several answers: what is sent, and its words. */
export interface Option {
  value: string;
  label: string;
  isDisabled?: boolean;
}

interface SelectProps extends FieldTexts, Omit<ComponentProps<"select">, "children" | "multiple" | "defaultValue"> {
  name: string;
  options: readonly Option[];
  defaultValue?: string;
  /** Words of an empty first answer; `true` says "Choose one". */
  empty?: string | true;
}

/** One of many answers. For two to five, `Choice` is better. */
export function Select({ label, hint, error, mayBeEmpty, options, empty, id, defaultValue, ...rest }: SelectProps) {
  const ownId = useId();
  const fieldId = id ?? ownId;
  return (
    <Field id={fieldId} label={label} hint={hint} error={error} mayBeEmpty={mayBeEmpty}>
      {/* The key makes a form that is reset after sending return to the value that was sent. */}
      <select key={defaultValue} {...rest} id={fieldId} defaultValue={defaultValue} {...describedBy(fieldId, { hint, error })}>
        {empty ? <option value="">{empty === true ? <Here text="Choose one" /> : empty}</option> : null}
        {options.map((option) => (
          <option key={option.value} value={option.value} disabled={option.isDisabled}>
            {option.label}
          </option>
        ))}
      </select>
    </Field>
  );
}
