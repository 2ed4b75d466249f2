import type { ReactNode } from "react";
import { classNames } from "./class-names";

interface LeafProps {
  children: ReactNode;
  /** `swing` for a bench that uses the whole height, `portal` for players and families (18 px text). */
  kind?: "swing" | "portal" | "day";
}

/** The page itself: one list of entries. Target of the skip link. */
export function Leaf({ children, kind }: LeafProps) {
  return (
    <main id="main" tabIndex={-1} className={classNames("leaf", kind)}>
      {children}
    </main>
  );
}

interface OpeningProps {
  title: ReactNode;
  /** One or two sentences under the title: what is here, what waits. */
  sub?: ReactNode;
  /** Buttons at the far end. */
  actions?: ReactNode;
}

/** The opening of a page: its title (h1), a sentence, and what one can do with the whole of it. */
export function Opening({ title, sub, actions }: OpeningProps) {
  return (
    <div className="opening">
      <div>
        <h1>{title}</h1>
        {sub ? <p className="sub">{sub}</p> : null}
      </div>
      {actions ? <div className="bar-line no-print">{actions}</div> : null}
    </div>
  );
}
