import type { Say } from "@/lib/core/words/say";
import { numberWords } from "@/lib/measure/reading-words";
import { plotOf, type Trend } from "../rules";

/** A dot for each swing with its doubt, over the band as ruled paper; no line joins them. Below eleven it holds no number. */
export function TrendPlot({ trend, answer, showsNumbers, say }: { trend: Trend; answer: string; showsNumbers: boolean; say: Say }) {
  const plot = plotOf(trend);
  if (!plot) return null;
  const { width, height, dots, band } = plot;
  return (
    <figure className="trend-plot">
      <svg role="img" aria-label={showsNumbers ? say("{count, plural, =1 {One swing.} other {# swings, the oldest left.}} {word}", { count: dots.length, word: answer }) : say("A dot for each swing, the oldest left. {word}", { word: answer })} viewBox={`0 0 ${width} ${height}`}>
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
        {say("A dot is a swing. The line through it is how sure we are.")} {band ? say("The ruled part is where it may lie.") : ""}
      </figcaption>
      {showsNumbers ? (
        <details>
          <summary className="small">{say("The dots in words")}</summary>
          <ul className="small">
            {trend.dots.map(({ day, value, sd }, i) => (
              <li key={i}>
                {say.day(day)}: {dotWords(value, sd, trend.unit, say)}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </figure>
  );
}

/** "0.31 ± 0.04 torso lengths": lengths of the body have a name in every language, other units a sign. */
function dotWords(value: number, sd: number, unit: string, say: Say): string {
  return unit.endsWith(" lengths") ? `${numberWords(value, sd, "")} ${say.told(unit)}` : numberWords(value, sd, unit);
}

const LINE_EVERY = 8;

/** Where the lines of the ruled paper lie. */
function ruled({ top, bottom }: { top: number; bottom: number }): readonly number[] {
  return Array.from({ length: Math.max(0, Math.floor((bottom - top) / LINE_EVERY) + 1) }, (_, i) => top + i * LINE_EVERY);
}
