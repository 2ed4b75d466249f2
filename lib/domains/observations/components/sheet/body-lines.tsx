import type { CropWindow } from "@/lib/domains/clips/stills/view";
import type { PointView } from "@/lib/domains/clips/view";
import { figureLines } from "@/lib/domains/clips/components/words";

interface BodyLinesProps {
  readonly window: CropWindow;
  readonly points: readonly PointView[];
}

/** The figure over a still, from the points in place. A line with an end that nobody has confirmed is dotted. */
export function BodyLines({ window, points }: BodyLinesProps) {
  const at = new Map(points.map((it) => [it.point, it]));
  const path = (isSure: boolean) =>
    figureLines
      .flatMap(([from, to]) => {
        const [a, b] = [at.get(from), at.get(to)];
        if (!a || !b || (a.source === "coach" && b.source === "coach") !== isSure) return [];
        return [`M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`];
      })
      .join("");
  return (
    <svg className="body-lines" viewBox={`${window.x} ${window.y} ${window.width} ${window.height}`} preserveAspectRatio="none" aria-hidden="true">
      {[true, false].map((isSure) => (
        <g key={String(isSure)} className={isSure ? undefined : "suggested"}>
          <path className="case" d={path(isSure)} />
          <path className="core" d={path(isSure)} />
        </g>
      ))}
    </svg>
  );
}
