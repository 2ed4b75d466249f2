import { longDay } from "@/lib/domains/plans/view";
import { numberWords } from "@/lib/measure/reading-words";
import { plotOf, type Trend } from "../rules";
import { progressWords } from "./words";

const words = progressWords.plot;

/** A dot for each swing with its doubt, over the band as ruled paper; no line joins them. Below eleven it holds no number. */
export function TrendPlot({ trend, answer, showsNumbers }: { trend: Trend; answer: string; showsNumbers: boolean }) {
  const plot = plotOf(trend);
  if (!plot) return null;
  const { width, height, dots, band } = plot;
  return (
    <figure className="trend-plot">
      <svg role="img" aria-label={showsNumbers ? words.label(dots.length, answer) : words.plain(answer)} viewBox={`0 0 ${width} ${height}`}>
        {band ? (
          <g className="band">
            <rect x={0} y={band.top} width={width} height={band.bottom - band.top} />
            {ruled(band).map((y) => (
              <line key={y} x1={0} x2={width} y1={y} y2={y} />
            ))}
          </g>
        ) : null}
        <line className="axis" x1={0} x2={width} y1={height - 1} y2={height - 1} />
        {dots.map(({ x, y, up, down }, i) => (
          <g key={i}>
            <line className="doubt" x1={x} x2={x} y1={up} y2={down} />
            <circle className="dot" cx={x} cy={y} r={4.5} />
          </g>
        ))}
      </svg>
      <figcaption>
        {words.doubt} {band ? words.band : ""}
      </figcaption>
      {showsNumbers ? (
        <details>
          <summary className="small">{words.inWords}</summary>
          <ul className="small">
            {trend.dots.map(({ day, value, sd }, i) => (
              <li key={i}>
                {longDay(day)}: {numberWords(value, sd, trend.unit)}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </figure>
  );
}

const LINE_EVERY = 8;

/** Where the lines of the ruled paper lie. */
function ruled({ top, bottom }: { top: number; bottom: number }): readonly number[] {
  return Array.from({ length: Math.max(0, Math.floor((bottom - top) / LINE_EVERY) + 1) }, (_, i) => top + i * LINE_EVERY);
}
