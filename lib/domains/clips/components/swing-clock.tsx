"use client";
import { memo, useMemo, useRef } from "react";
import { clockSecondsOf, contactTickOf, eventKeys, eventSecondsOf, nearestFrame, sayClock, tickAtClockSeconds } from "../rules";
import type { ClipView, EventView } from "../view";
import type { EventGuess } from "./event-guesses";
import { useBox } from "./use-box";
import { useTape, type TapePlace } from "./use-tape";
import { eventNames } from "./words";

export interface SwingClockProps {
  readonly clip: ClipView;
  readonly events: readonly EventView[];
  /** Suggested and not taken: faint, and only where no event stands. */
  readonly guesses?: readonly EventGuess[];
  readonly frameIndex: number;
  readonly onShow: (frameIndex: number) => void;
}

const tall = 84;
const tapeTop = 48;
const tapeFoot = 80;
const letterPx = 20;
const snapPx = 16;

/** The tape measure: each own frame a tick, a letter where an event is set, the pencil line at the frame in hand. */
export function SwingClock({ clip, events, guesses = [], frameIndex, onShow }: SwingClockProps) {
  const hostRef = useRef<HTMLDivElement>(null);
  const width = useBox(hostRef)?.width ?? 1000;
  const zero = contactTickOf(events);
  const last = clip.frameTimes.ticks.length - 1;
  const first = clockSecondsOf(clip, 0, zero);
  const end = clockSecondsOf(clip, last, zero);
  const now = clockSecondsOf(clip, frameIndex, zero);
  const onAt = ({ seconds, x, isPress }: TapePlace) => {
    const near = isPress ? events.find((it) => it.frameIndex !== null && Math.abs(xOf(eventSecondsOf(clip, it, zero) ?? Infinity) - x) <= snapPx) : undefined;
    onShow(near?.frameIndex ?? nearestFrame(clip.frameTimes, tickAtClockSeconds(clip, seconds, zero)));
  };
  const { pxPerSecond, start, xOf, tagX, style, pointers } = useTape({ widthPx: width, first, end, now, onAt });

  const tenths = tenthsShown(first, end, start, width, pxPerSecond);
  const set = events.flatMap((it) => {
    const seconds = it.frameIndex === null ? null : eventSecondsOf(clip, it, zero);
    return seconds === null ? [] : [{ event: it.event, isPlaced: it.source === "coach", isGuess: false, x: xOf(seconds) }];
  });
  const guessed = guesses
    .filter(({ event }) => !events.some((it) => it.event === event))
    .map((it) => ({ event: it.event, isPlaced: false, isGuess: true, x: xOf(clockSecondsOf(clip, it.frameIndex, zero)) }));
  const label = zero === null ? "Swing clock, from the first frame; contact is not set" : "Swing clock, seconds from contact";
  return (
    <div
      ref={hostRef} className="clockbox" role="slider" tabIndex={0} aria-label={label} aria-orientation="horizontal"
      aria-valuemin={0} aria-valuemax={last} aria-valuenow={frameIndex}
      aria-valuetext={`${sayClock(now)} seconds ${zero === null ? "from the first frame" : "from contact"}, frame ${frameIndex + 1} of ${last + 1}`}
      style={style} {...pointers}
    >
      <svg className="clock" viewBox={`0 0 ${width} ${tall}`} preserveAspectRatio="none" aria-hidden="true" style={{ width: "100%", height: tall }}>
        <Tape clip={clip} zero={zero} first={first} end={end} start={start} width={width} pxPerSecond={pxPerSecond} />
        {tenths.map(({ tenth, x }) => (Math.abs(x - tagX) < 66 ? null : <text key={tenth} className="n" x={x} y={71} textAnchor="middle">{tenth === 0 ? "0" : sayClock(tenth / 10, 1)}</text>))}
        <path className="now" d={`M${xOf(now)} 0V${tall}`} />
        {lettersApart([...set, ...guessed]).map(({ event, isPlaced, isGuess, x, letterX }) => (
          <g key={event} data-event={event} data-guess={isGuess || undefined} opacity={isGuess ? 0.6 : undefined} transform={`translate(${letterX} 0)`}>
            <title>{eventNames[event]}</title>
            <path d={`M0 26L${x - letterX} 36V${tapeTop}`} className="stem" />
            <rect x={-9} y={6} width={18} height={20} fill={isPlaced ? "var(--ink)" : "var(--sheet)"} stroke="var(--ink)" strokeDasharray={isPlaced ? undefined : "3 2"} />
            <text x={0} y={21} textAnchor="middle" style={{ fill: isPlaced ? "var(--on-ink)" : "var(--ink)", fontWeight: 700 }}>{eventKeys.find((key) => key.event === event)?.key ?? "·"}</text>
          </g>
        ))}
        <g transform={`translate(${tagX} 0)`}>
          <rect x={-44} y={tapeTop + 2} width={88} height={tapeFoot - tapeTop - 4} className="now-tag" />
          <text className="cur" x={0} y={71} textAnchor="middle">{sayClock(now)} s</text>
        </g>
      </svg>
    </div>
  );
}

interface TapeProps {
  readonly clip: ClipView;
  readonly zero: number | null;
  readonly first: number;
  readonly end: number;
  readonly start: number;
  readonly width: number;
  readonly pxPerSecond: number;
}

const Tape = memo(function Tape({ clip, zero, first, end, start, width, pxPerSecond }: TapeProps) {
  const frames = useMemo(() => clip.frameTimes.ticks.map((_, i) => clockSecondsOf(clip, i, zero)), [clip, zero]);
  const shown = frames.map((seconds) => (seconds - start) * pxPerSecond).filter((x) => x > -2 && x < width + 2);
  const tenths = tenthsShown(first, end, start, width, pxPerSecond);
  return (
    <>
      <path d={shown.map((x) => `M${x.toFixed(1)} 39V${tapeTop}`).join("")} className="frame-tick" />
      <path d={`M0 ${tapeTop}H${width}M0 ${tapeFoot}H${width}`} className="spine" />
      <path d={tenths.map(({ x }) => `M${x.toFixed(1)} 35V${tapeTop}`).join("")} className="frame-tick tenth" />
    </>
  );
});

/** The tenths of a second in sight, each with its place on the screen. */
export function tenthsShown(first: number, end: number, start: number, width: number, pxPerSecond: number): readonly { readonly tenth: number; readonly x: number }[] {
  const shown: { tenth: number; x: number }[] = [];
  for (let tenth = Math.ceil(first * 10 - 1e-9); tenth <= end * 10 + 1e-9; tenth += 1) {
    const x = (tenth / 10 - start) * pxPerSecond;
    if (x > -30 && x < width + 30) shown.push({ tenth, x });
  }
  return shown;
}

/** Letters of events that lie close together stand side by side, in the order of time. */
export function lettersApart<Item extends { readonly x: number }>(items: readonly Item[]): readonly (Item & { readonly letterX: number })[] {
  let least = -Infinity;
  return [...items].sort((a, b) => a.x - b.x).map((item) => {
    const letterX = Math.max(item.x, least);
    least = letterX + letterPx;
    return { ...item, letterX };
  });
}
