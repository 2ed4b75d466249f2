import type { ReactNode } from "react";
import { classNames } from "./class-names";
import { uiWords } from "./words/ui-words";

/** Every state that has a glyph and a word. */
export type StateKind = keyof typeof uiWords.state;

const AMOUNTS: readonly StateKind[] = ["small", "clear", "large"];

interface StateProps {
  is: StateKind;
  /** Other words for the same state, as "changed in 7 of 11". */
  children?: ReactNode;
  className?: string;
}

/** A state as glyph and word in the line: never a colour alone, never a glyph alone. */
export function State({ is, children, className }: StateProps) {
  const look = AMOUNTS.includes(is) ? `${is}-amount` : is;
  return <span className={classNames("state", look, className)}>{children ?? uiWords.state[is]}</span>;
}
