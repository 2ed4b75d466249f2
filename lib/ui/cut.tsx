import type { ReactNode } from "react";
import { classNames } from "./class-names";

interface CutProps {
  /** Address of the still; without one the tile says why in `missing`. */
  src?: string | null;
  /** Empty where the link or caption around it already says it. */
  alt: string;
  /** Seconds from contact, in the corner. */
  tag?: string;
  missing?: ReactNode;
  shape?: "square" | "wide";
  /** The picture did not come, or had not come already when the page was taken over by its script. */
  onFailed?: () => void;
  /** Lines drawn over the picture, as an svg. */
  children?: ReactNode;
}

/** One still as a tile, 37 to 49, with a thin ink keyline. */
export function Cut({ src, alt, tag, missing, shape, onFailed, children }: CutProps) {
  return (
    <span className={classNames("cut", shape, !src && "no-picture")}>
      {/* Stills are private bytes behind a permission check; an image optimiser may not keep copies of them. */}
      {src ? <img src={src} alt={alt} loading="lazy" decoding="async" onError={onFailed} ref={onFailed && ((image) => void (image?.complete && image.naturalWidth === 0 && onFailed()))} /> : missing}
      {children}
      {tag ? <span className="when">{tag}</span> : null}
    </span>
  );
}
