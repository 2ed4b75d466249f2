import type { MarkShape } from "@/lib/domains/clips/view";
import type { FamilyStill } from "@/lib/domains/plans/view";
import { cropAround } from "../rules";

interface MarkedStillProps {
  still: FamilyStill;
  /** Read aloud for who cannot see it. */
  alt: string;
}

function spotsOf(shape: MarkShape): { x: number; y: number }[] {
  switch (shape.kind) {
    case "line":
      return [{ x: shape.x1, y: shape.y1 }, { x: shape.x2, y: shape.y2 }];
    case "ring":
      return [{ x: shape.cx - shape.rx, y: shape.cy - shape.ry }, { x: shape.cx + shape.rx, y: shape.cy + shape.ry }];
    case "words":
      return [{ x: shape.x, y: shape.y }];
  }
}

function Stroke({ shape, layer }: { shape: MarkShape; layer: "case" | "core" }) {
  if (shape.kind === "line") return <path className={layer} d={`M${shape.x1} ${shape.y1}L${shape.x2} ${shape.y2}`} />;
  if (shape.kind === "ring") return <ellipse className={layer} cx={shape.cx} cy={shape.cy} rx={shape.rx} ry={shape.ry} />;
  return null;
}

/** The frame a note was written about with what the coach drew on it, cropped to the drawing; drawn words stand below. */
export function MarkedStill({ still, alt }: MarkedStillProps) {
  if (!still.url) return <p className="quiet">The picture is not shown now. The yes to filming has ended or was withdrawn. The words stay.</p>;
  const crop = cropAround(still.marks.flatMap(spotsOf), still.widthPx, still.heightPx);
  const words = still.marks.flatMap((shape) => (shape.kind === "words" ? [shape.text] : []));
  return (
    <figure className="plate">
      <span className="cut wide">
        <svg className="ov" role="img" aria-label={alt} viewBox={`${crop.x} ${crop.y} ${crop.width} ${crop.height}`}>
          <image href={still.url} width={still.widthPx} height={still.heightPx} preserveAspectRatio="none" />
          {still.marks.map((shape, index) => (
            <g key={index} className="mark">
              <Stroke shape={shape} layer="case" />
              <Stroke shape={shape} layer="core" />
            </g>
          ))}
        </svg>
      </span>
      {words.length > 0 ? <figcaption>{words.join(" · ")}</figcaption> : null}
    </figure>
  );
}
