import type { Say } from "@/lib/core/words/say";
import { MarkStroke } from "@/lib/domains/clips/components/mark-stroke";
import type { MarkedFrame } from "@/lib/domains/clips/view";

/** The very frame of a note with what the coach drew on it; drawn words stand below, where they can be read on a phone. */
export function NoteStill({ still, alt, say }: { still: MarkedFrame; alt: string; say: Say }) {
  if (!still.url) return <p className="quiet">{say("The picture is not shown now: the yes to filming has ended or was withdrawn. The words stay.")}</p>;
  const words = still.marks.flatMap((shape) => (shape.kind === "words" ? [shape.text] : []));
  return (
    <figure className="plate">
      <div className="frame">
        {/* Stills are private bytes behind a permission check; an image optimiser may not keep copies of them. */}
        <img src={still.url} alt={alt} width={still.widthPx} height={still.heightPx} style={{ height: "auto" }} />
        <svg className="ov" aria-hidden="true" viewBox={`0 0 ${still.widthPx} ${still.heightPx}`} preserveAspectRatio="none">
          {still.marks.map((shape, index) => (
            <g key={index} className="mark">
              <MarkStroke shape={shape} layer="case" />
              <MarkStroke shape={shape} layer="core" />
            </g>
          ))}
        </svg>
      </div>
      {words.length > 0 ? <figcaption lang={say.asWritten}>{words.join(" · ")}</figcaption> : null}
    </figure>
  );
}
