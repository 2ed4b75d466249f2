import { useId, type ReactNode } from "react";
import { classNames } from "./class-names";
import { describedBy, FieldLabel, FieldNotes, type FieldTexts } from "./field";

/** One answer of a row: what is sent, and its words (a `State` may stand in them). */
export interface ChoiceOption {
  value: string;
  label: ReactNode;
  isDisabled?: boolean;
}

interface ChoiceProps extends FieldTexts {
  name: string;
  options: readonly ChoiceOption[];
  defaultValue?: string;
  /** With `onChange` the row is led from outside. */
  value?: string;
  onChange?: (value: string) => void;
  isRequired?: boolean;
  /** The question is read aloud but not shown. */
  isLabelHidden?: boolean;
  isWide?: boolean;
}

/** One of two to five answers, as a joined row of radio buttons. */
export function Choice({ name, options, defaultValue, value, onChange, isRequired, isLabelHidden, isWide, ...texts }: ChoiceProps) {
  const id = useId();
  const described = describedBy(id, texts);
  return (
    <fieldset
      className={classNames("field", Boolean(texts.error) && "bad")}
      role="radiogroup"
      aria-required={isRequired || undefined}
      {...described}
    >
      <legend className={isLabelHidden ? "hush" : undefined}>
        <FieldLabel {...texts} />
      </legend>
      <div className={classNames("pick", isWide && "wide")}>
        {options.map((option) => (
          <label key={option.value}>
            <input
              type="radio"
              name={name}
              value={option.value}
              disabled={option.isDisabled}
              required={isRequired}
              {...(onChange
                ? { checked: value === option.value, onChange: () => onChange(option.value) }
                : { defaultChecked: defaultValue === option.value })}
            />
            {option.label}
          </label>
        ))}
      </div>
      <FieldNotes id={id} hint={texts.hint} error={texts.error} />
    </fieldset>
  );
}
