import { MarkStroke } from "@/lib/domains/clips/components/mark-stroke";
import { strokePlaces } from "@/lib/domains/clips/components/mark-strokes";
import type { MarkShape } from "@/lib/domains/clips/view";
import type { MarkedFrame } from "@/lib/domains/clips/view";
import { cropAround } from "../rules";

interface MarkedStillProps {
  still: MarkedFrame;
  /** Read aloud for who cannot see it. */
  alt: string;
  /** The language of words drawn on it, where it is not the page's. */
  lang?: string;
}

function spotsOf(shape: MarkShape): { x: number; y: number }[] {
  switch (shape.kind) {
    case "ring":
      return [{ x: shape.cx - shape.rx, y: shape.cy - shape.ry }, { x: shape.cx + shape.rx, y: shape.cy + shape.ry }];
    case "words":
      return [{ x: shape.x, y: shape.y }];
    default:
      return [...strokePlaces(shape)];
  }
}

/** The frame a note was written about with what the coach drew on it, cropped to the drawing; drawn words stand below. */
export function MarkedStill({ still, alt, lang }: MarkedStillProps) {
  if (!still.url) return <p className="quiet">The picture is not shown now. The yes to filming has ended or was withdrawn. The words stay.</p>;
  const crop = cropAround(still.marks.flatMap(spotsOf), still.widthPx, still.heightPx);
  const words = still.marks.flatMap((shape) => (shape.kind === "words" ? [shape.text] : []));
  return (
    <figure className="plate">
      {/* A picture inside a drawing is found late: named in the page's head it is sent for before the scripts. */}
      <link rel="preload" as="image" href={still.url} fetchPriority="high" />
      <span className="cut wide">
        <svg className="ov" role="img" aria-label={alt} viewBox={`${crop.x} ${crop.y} ${crop.width} ${crop.height}`}>
          <image href={still.url} width={still.widthPx} height={still.heightPx} preserveAspectRatio="none" />
          {still.marks.map((shape, index) => (
            <g key={index} className="mark">
              <MarkStroke shape={shape} layer="case" />
              <MarkStroke shape={shape} layer="core" />
            </g>
          ))}
        </svg>
      </span>
      {words.length > 0 ? <figcaption lang={lang}>{words.join(" · ")}</figcaption> : null}
    </figure>
  );
}
