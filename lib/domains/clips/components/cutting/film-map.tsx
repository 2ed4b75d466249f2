import { useRef, type PointerEvent } from "react";
import type { FrameTimes } from "@/lib/core/frame-times";
import type { FoundInFilm } from "../../cutting/schema";
import { useBox } from "../use-box";
import type { SetCut } from "./cutter-state";
import { cutterWords as words } from "./cutter-words";

interface FilmMapProps {
  readonly times: FrameTimes;
  readonly found: FoundInFilm | null;
  readonly cuts: readonly SetCut[];
  readonly inHand: number | null;
  readonly frame: number;
  readonly onShow: (frame: number) => void;
}

const TALL = 96;
const MOTION_FOOT = 76;

/** The whole film as one strip: how much moves, what is heard, the swings that are set, and the frame in hand. A finger goes where it points. */
export function FilmMap({ times, found, cuts, inHand, frame, onShow }: FilmMapProps) {
  const hostRef = useRef<HTMLDivElement>(null);
  const width = useBox(hostRef)?.width ?? 1000;
  const last = times.ticks.length - 1;
  const span = Math.max(1, last);
  const xOf = (index: number) => (index / span) * width;
  const seconds = (((times.ticks[last] ?? 0) - (times.ticks[0] ?? 0)) * times.timeBaseNum) / times.timeBaseDen || 1;
  const go = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    onShow(Math.round(((event.clientX - box.left) / box.width) * span));
  };
  const step = width / Math.max(1, found?.motion.length ?? 1);
  return (
    <div
      ref={hostRef} className="film-map" role="img" aria-label={words.map} style={{ touchAction: "pan-y" }}
      onPointerDown={(event) => { event.currentTarget.setPointerCapture(event.pointerId); go(event); }}
      onPointerMove={(event) => { if (event.currentTarget.hasPointerCapture(event.pointerId)) go(event); }}
    >
      <svg viewBox={`0 0 ${width} ${TALL}`} preserveAspectRatio="none" aria-hidden="true" style={{ width: "100%", height: TALL, display: "block" }}>
        {cuts.map((cut, i) => (
          <g key={cut.key} className={cut.key === inHand ? "cut-in-hand" : "cut-set"}>
            <rect x={xOf(cut.firstFrame)} y={1} width={Math.max(2, xOf(cut.lastFrame) - xOf(cut.firstFrame))} height={TALL - 2} />
            <text x={xOf(cut.firstFrame) + 5} y={17}>{i + 1}</text>
          </g>
        ))}
        {found ? <path className="motion" d={found.motion.map((it, i) => `M${((i + 0.5) * step).toFixed(1)} ${MOTION_FOOT}V${(MOTION_FOOT - it * 52).toFixed(1)}`).join("")} /> : null}
        {found ? <path className="sound" d={found.sounds.map((it) => `M${((it / seconds) * width).toFixed(1)} ${MOTION_FOOT + 4}V${TALL - 3}`).join("")} /> : null}
        <path className="spine" d={`M0 ${MOTION_FOOT}H${width}`} />
        <path className="now" d={`M${xOf(frame)} 0V${TALL}`} />
      </svg>
    </div>
  );
}
