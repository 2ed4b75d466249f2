import type { ReactNode } from "react";

interface ProblemProps {
  /** What happened, in one sentence without blame. */
  happened: string;
  /** What was kept. */
  kept?: ReactNode;
  /** What to do. */
  todo?: ReactNode;
  /** Buttons that do it. */
  action?: ReactNode;
  level?: "h1" | "h2" | "h3";
  /** Read aloud at once, when it comes up after the page was there. */
  isNews?: boolean;
}

/** Something went otherwise: what happened, what was kept, what to do, between two ink bars. */
export function Problem({ happened, kept, todo, action, level: Heading = "h2", isNews = false }: ProblemProps) {
  return (
    <div className="trouble" role={isNews ? "alert" : undefined}>
      <Heading className="as-h3">{happened}</Heading>
      {kept ? <p>{kept}</p> : null}
      {todo ? <p>{todo}</p> : null}
      {action ? <div className="bar-line">{action}</div> : null}
    </div>
  );
}
