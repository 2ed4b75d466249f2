"use client";
import { useMemo, useRef } from "react";
import { eventKeys, sayClock } from "../../rules";
import { lettersApart, tenthsShown } from "../swing-clock";
import { useBox } from "../use-box";
import { useTape } from "../use-tape";
import { eventNames } from "../words";
import { commonSeconds, eventTimes, reachOf, type LinedClip } from "./lined-clip";
import { toCommon } from "./stretches";
import { useSay } from "@/lib/ui/words/use-say";

export interface BesideTapeProps {
  readonly clips: readonly LinedClip[];
  /** Number of each clip on the page, by clip. */
  readonly numbers: Readonly<Record<string, number>>;
  readonly seconds: number;
  readonly isStretched: boolean;
  readonly onShow: (seconds: number) => void;
}

const tapeTop = 48;
const tapeFoot = 80;
const rowPx = 42;

/** The tape measure of several clips: the first one's frames and events above, those of the others below, one pencil line. */
export function BesideTape({ clips, numbers, seconds, isStretched, onShow }: BesideTapeProps) {
  // These words of the pictures are English for everybody so far.
  const lang = useSay().asWritten;
  const hostRef = useRef<HTMLDivElement>(null);
  const width = useBox(hostRef)?.width ?? 1000;
  const reaches = clips.map(reachOf);
  const first = Math.min(...reaches.map(([from]) => from));
  const end = Math.max(...reaches.map(([, to]) => to));
  const { pxPerSecond, start, xOf, tagX, style, pointers } = useTape({ widthPx: width, first, end, now: seconds, onAt: (at) => onShow(Math.max(first, Math.min(end, at.seconds))) });
  const tall = tapeFoot + 4 + rowPx * (clips.length - 1);
  const tenths = tenthsShown(first, end, start, width, pxPerSecond);
  return (
    <div
      ref={hostRef} className="clockbox" lang={lang} role="slider" tabIndex={0} aria-orientation="horizontal"
      aria-label={isStretched ? "Swing clock, seconds from contact, stretched to match" : "Swing clock, seconds from contact"}
      aria-valuemin={Math.round(first * 1000)} aria-valuemax={Math.round(end * 1000)} aria-valuenow={Math.round(seconds * 1000)} aria-valuetext={`${sayClock(seconds)} seconds from contact`}
      style={style} {...pointers}
    >
      <svg className="clock" viewBox={`0 0 ${width} ${tall}`} preserveAspectRatio="none" aria-hidden="true" style={{ width: "100%", height: tall }}>
        <path d={`M0 ${tapeTop}H${width}M0 ${tapeFoot}H${width}`} className="spine" />
        <path d={tenths.map(({ x }) => `M${x.toFixed(1)} 35V${tapeTop}`).join("")} className="frame-tick tenth" />
        {tenths.map(({ tenth, x }) => (Math.abs(x - tagX) < 66 ? null : <text key={tenth} className="n" x={x} y={71} textAnchor="middle">{tenth === 0 ? "0" : sayClock(tenth / 10, 1)}</text>))}
        {clips.map((lined, i) => (
          <Row key={lined.id} lined={lined} number={numbers[lined.id] ?? i + 1} isAbove={i === 0} top={i === 0 ? tapeTop : tapeFoot + rowPx * (i - 1)} start={start} width={width} pxPerSecond={pxPerSecond} />
        ))}
        <path className="now" d={`M${xOf(seconds)} 0V${tall}`} />
        <g transform={`translate(${tagX} 0)`}>
          <rect x={-44} y={tapeTop + 2} width={88} height={tapeFoot - tapeTop - 4} className="now-tag" />
          <text className="cur" x={0} y={71} textAnchor="middle">{sayClock(seconds)} s</text>
        </g>
      </svg>
    </div>
  );
}

interface RowProps {
  readonly lined: LinedClip;
  readonly number: number;
  /** Ticks and letters stand above the line at `top`, else below it. */
  readonly isAbove: boolean;
  readonly top: number;
  readonly start: number;
  readonly width: number;
  readonly pxPerSecond: number;
}

/** One clip on the tape: a tick for each own frame, a letter for each event. */
function Row({ lined, number, isAbove, top, start, width, pxPerSecond }: RowProps) {
  const frames = useMemo(() => Array.from({ length: lined.frameCount }, (_, i) => commonSeconds(lined, i)), [lined]);
  const set = useMemo(
    () => eventTimes(lined).map(({ event, seconds }) => ({ event, seconds: toCommon(lined.stretches, seconds), isPlaced: lined.clip.events.find((it) => it.event === event)?.source === "coach" })),
    [lined],
  );
  const shown = frames.map((at) => (at - start) * pxPerSecond).filter((x) => x > -2 && x < width + 2);
  const ticks = isAbove ? [top - 9, top] : [top, top + 9];
  const letters = lettersApart(set.map((it) => ({ ...it, x: (it.seconds - start) * pxPerSecond })));
  const boxTop = isAbove ? top - 42 : top + 21;
  return (
    <g data-clip={lined.id}>
      <path d={shown.map((x) => `M${x.toFixed(1)} ${ticks[0]}V${ticks[1]}`).join("")} className="frame-tick" />
      <text x={8} y={boxTop + 15}>{number}</text>
      {letters.map(({ event, isPlaced, x, letterX }) => (
        <g key={event} data-event={event} transform={`translate(${letterX} 0)`}>
          <title>{eventNames[event]}</title>
          <path d={isAbove ? `M0 ${boxTop + 20}L${x - letterX} ${boxTop + 30}V${top}` : `M0 ${boxTop}L${x - letterX} ${boxTop - 8}V${top}`} className="stem" />
          <rect x={-9} y={boxTop} width={18} height={20} fill={isPlaced ? "var(--ink)" : "var(--sheet)"} stroke="var(--ink)" strokeDasharray={isPlaced ? undefined : "3 2"} />
          <text x={0} y={boxTop + 15} textAnchor="middle" style={{ fill: isPlaced ? "var(--on-ink)" : "var(--ink)", fontWeight: 700 }}>{eventKeys.find((key) => key.event === event)?.key ?? "·"}</text>
        </g>
      ))}
    </g>
  );
}
