import Link from "next/link";
import type { ComponentProps } from "react";
import { classNames } from "./class-names";

interface ButtonLook {
  /** `main` is ink-filled: one per view. `plain` is underlined words. */
  kind?: "main" | "plain";
  /** 56 px high, for a child's page or a gloved thumb. */
  isBig?: boolean;
  /** As wide as its column. */
  isWide?: boolean;
}

/** The class names of a button, for the rare element that must look like one. */
export function buttonClass({ kind, isBig, isWide }: ButtonLook, more?: string): string {
  return classNames("btn", kind, isBig && "big", isWide && "wide", more);
}

/** A button that does something here. Words, no icons; 44 px at least. */
export function Button({ kind, isBig, isWide, className, type = "button", ...rest }: ButtonLook & ComponentProps<"button">) {
  return <button {...rest} type={type} className={buttonClass({ kind, isBig, isWide }, className)} />;
}

/** A link that looks like a button: it goes somewhere. */
export function ButtonLink({ kind, isBig, isWide, className, ...rest }: ButtonLook & ComponentProps<typeof Link>) {
  return <Link {...rest} className={buttonClass({ kind, isBig, isWide }, className)} />;
}
