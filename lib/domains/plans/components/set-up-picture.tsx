import { english, type Say } from "@/lib/core/words/say";
import { sceneWords, type Scene, type SceneProp } from "@/lib/prescribe/scene";

const [WIDTH, HEIGHT, ROOM] = [320, 262, 26];
/** Two lines of words under the ground. */
const WORDS = 44;
/** The circle: one bat length plus two steps, drawn as 2.3 m. */
const CIRCLE_M = 2.3;
const NET_M = 2.5;

/**
 * A drill's set-up seen from above: the hitter at the near end, the ball's way upward. Lengths are to one scale where the
 * ground is short; on long ground the far end is cut and its length written.
 */
export function SetUpPicture({ scene, say = english }: { scene: Scene; say?: Say }) {
  const shownM = Math.min(scene.lengthM, 7);
  const scale = Math.min((WIDTH - 2 * ROOM) / Math.max(scene.widthM, 2), (HEIGHT - 2 * ROOM - WORDS) / Math.max(shownM, 2));
  const [w, h] = [scene.widthM * scale, shownM * scale];
  const [left, top] = [(WIDTH - w) / 2, (HEIGHT - WORDS - h) / 2];
  const isCut = scene.lengthM > shownM;
  const [x, y] = [WIDTH / 2, top + h - Math.min(h / 2, Math.max(26, (scene.hasCircle ? 0.35 : 0.5) * h))];
  const reach = Math.min(CIRCLE_M * scale, w / 2, 64);
  const ahead = (metres: number) => Math.max(top + 8, y - metres * scale);
  return (
    <svg className="draw" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={sceneWords(scene, say)}>
      <g fill="none" stroke="currentColor" strokeWidth="2">
        <path d={isCut ? `M${left} ${top}V${top + h}H${left + w}V${top}` : `M${left} ${top}H${left + w}V${top + h}H${left}Z`} strokeDasharray="2 5" />
        {scene.hasCircle ? <circle cx={x} cy={y} r={reach} strokeDasharray="8 5" /> : null}
        <Hitter x={x} y={y} hasBat={scene.hasCircle} />
        {scene.props.map((prop) => (
          <Prop key={prop} prop={prop} x={x} y={y} netY={ahead(NET_M)} farY={top + 20} left={left} right={left + w} />
        ))}
        {scene.hasAdult ? <Person x={left + w + 22} y={y + 6} /> : null}
      </g>
      <text x={WIDTH / 2} y={HEIGHT - 30} textAnchor="middle">
        {`${scene.widthM} × ${scene.lengthM} m`}
        {scene.props.includes("net") ? `, ${say("net 2–3 m ahead")}` : ""}
      </text>
      {scene.hasCircle ? (
        <text x={WIDTH / 2} y={HEIGHT - 8} textAnchor="middle">
          {say("Clear circle: bat + 2 steps")}
        </text>
      ) : null}
    </svg>
  );
}

/** Shoulders, head, two feet; a bat where one is swung. */
function Hitter({ x, y, hasBat }: { x: number; y: number; hasBat: boolean }) {
  return (
    <g>
      <ellipse cx={x - 14} cy={y} rx="7" ry="13" />
      <circle cx={x - 14} cy={y} r="5" fill="currentColor" />
      <path d={`M${x - 4} ${y - 16}h9M${x - 4} ${y + 16}h9`} strokeWidth="4" />
      {hasBat ? <path d={`M${x - 8} ${y + 8}l18 16`} strokeWidth="4" strokeLinecap="round" /> : null}
    </g>
  );
}

function Person({ x, y }: { x: number; y: number }) {
  return (
    <g>
      <ellipse cx={x} cy={y} rx="11" ry="6" />
      <circle cx={x} cy={y} r="4" fill="currentColor" />
    </g>
  );
}

interface PropPlace {
  readonly prop: SceneProp;
  readonly x: number;
  readonly y: number;
  readonly netY: number;
  readonly farY: number;
  readonly left: number;
  readonly right: number;
}

function Prop({ prop, x, y, netY, farY, left, right }: PropPlace) {
  switch (prop) {
    case "tee":
      return <path d={`M${x + 20} ${y - 14}m-6 0a6 6 0 1 0 12 0a6 6 0 1 0 -12 0M${x + 20} ${y - 8}v7`} />;
    case "second-tee":
      return <path d={`M${x + 34} ${y - 28}m-6 0a6 6 0 1 0 12 0a6 6 0 1 0 -12 0`} />;
    case "net":
      return <path d={`M${x - 46} ${netY}h92M${x - 38} ${netY}l8 8M${x - 22} ${netY}l8 8M${x - 6} ${netY}l8 8M${x + 10} ${netY}l8 8M${x + 26} ${netY}l8 8`} />;
    case "screen":
      return <path d={`M${x - 22} ${farY + 14}h44v5h-44z`} />;
    case "tosser":
      return <Person x={x} y={farY} />;
    case "thrower":
      return <Person x={x} y={farY} />;
    case "machine":
      return <path d={`M${x - 10} ${farY - 8}h20v12h-20zM${x} ${farY + 4}v8`} />;
    case "wall":
      return <path d={`M${left} ${farY - 14}H${right}`} strokeWidth="6" />;
    case "mirror":
      return <path d={`M${x + 34} ${y - 20}v40M${x + 39} ${y - 20}v40`} />;
    case "tape":
      return <path d={`M${x + 2} ${y - 22}v44`} strokeWidth="5" />;
    case "post":
      return <circle cx={x + 30} cy={y - 22} r="6" fill="currentColor" />;
  }
}
