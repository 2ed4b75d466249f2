import type { ReactNode } from "react";

interface EmptyProps {
  /** What is not there. */
  title: string;
  /** What to do, and how long it takes. */
  children?: ReactNode;
  /** One button. */
  action?: ReactNode;
  level?: "h2" | "h3";
}

/** A place where nothing is yet: what is missing, what to do, one button. */
export function Empty({ title, children, action, level: Heading = "h3" }: EmptyProps) {
  return (
    <div className="empty">
      <Heading className="as-h3">{title}</Heading>
      {children ? <p>{children}</p> : null}
      {action}
    </div>
  );
}
